"""``tiremap refit``: how a wheel goes back on its hub."""

import json

from tiremap.edits.change import made
from tiremap.errors import TiremapError
from tiremap.model.after_repair import Refit, Torque
from tiremap.workshop.refit import RefitGuide, refit_guide
from tiremap.workshop.tightening_order import tightening_order


def print_refit(
    nuts: int, thread: str | None, stud_class: str | None, torque_nm: float | None, *, as_json: bool
) -> int:
    """Print order, torque and cautions; 0. Raises `TiremapError` for what is not known or no figure."""
    tightening_order(nuts)  # says which numbers there are; the record would only say that this one is wrong
    if torque_nm is not None and not 0 < torque_nm <= 2000:
        raise TiremapError(f"{torque_nm:g} N.m is no tightening torque of a wheel.", "A right one: --torque-nm 110.")
    torque = None if torque_nm is None else Torque(value=torque_nm, unit="N.m")
    guide = refit_guide(made(Refit, nuts=nuts, thread=thread, stud_class=stud_class, torque=torque))
    print(json.dumps(guide.as_record(), ensure_ascii=False) if as_json else "\n".join(_lines(guide)))
    return 0


def _lines(guide: RefitGuide) -> list[str]:
    lines = []
    if guide.order is not None:
        lines += [
            f"Order: {_numbers(guide.order.order)}. Nut 1 is at the top, the others follow clockwise.",
            f"Then once around: {_numbers(guide.order.second_pass)}.",
            f"Source of the order: {guide.order.source}.",
        ]
    lines += [f"Torque: {guide.torque_says}", guide.preload_says]
    if guide.rule_of_thumb:
        lines.append(guide.rule_of_thumb)
    return [*lines, *(f"! {each}" for each in guide.cautions)]


def _numbers(order: tuple[int, ...]) -> str:
    return "-".join(str(each) for each in order)
