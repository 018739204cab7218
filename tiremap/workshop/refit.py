"""How the wheel goes back on: order, torque and where it comes from, the pull on the studs, and what to mind.

Only the vehicle's own figure is a setting. With a thread alone the shop charts give a range, marked as such.
"""

from dataclasses import dataclass
from typing import Any, Literal

from tiremap.model.after_repair import Refit
from tiremap.model.pressures import NM_PER_FT_LB, newton_meters
from tiremap.resources import read_toml
from tiremap.workshop.preload import Preload, checked_class, preload
from tiremap.workshop.thread import Thread, read_thread
from tiremap.workshop.tightening_order import TighteningOrder, tightening_order

TorqueBasis = Literal["vehicle", "chart"]


@dataclass(frozen=True)
class RefitGuide:
    """Everything said about putting one wheel back; sentences are for the person at the wheel.

    ``torque_nm`` is one figure twice where it is the vehicle's own, a range where it is only the charts', ``None``
    where there is neither.
    """

    order: TighteningOrder | None
    """``None`` while the number of nuts is unknown."""
    thread: Thread | None
    torque_nm: tuple[float, float] | None
    torque_basis: TorqueBasis | None
    torque_says: str
    preload: Preload | None
    preload_says: str
    rule_of_thumb: str
    """How the shop rule of thumb compares; empty without a vehicle's figure, and where it does not hold."""
    cautions: tuple[str, ...]
    check_again: str

    def as_record(self) -> dict[str, Any]:
        """What the command line prints; what is not known is ``None``."""
        pull, order = self.preload, self.order
        return {
            "nuts": None if order is None else order.nuts,
            "order": None if order is None else list(order.order),
            "second_pass": None if order is None else list(order.second_pass),
            "torque_nm": None if self.torque_nm is None else list(self.torque_nm),
            "torque_ft_lb": None if self.torque_nm is None else [each / NM_PER_FT_LB for each in self.torque_nm],
            "torque_basis": self.torque_basis,
            "preload_kn": None if pull is None else [pull.low_kn, pull.high_kn],
            "cautions": list(self.cautions),
        }


def refit_guide(refit: Refit) -> RefitGuide:
    """What is said of a refit. Raises `TiremapError` for a thread, property class or number of nuts not known."""
    data = read_toml("workshop", "refit.toml")
    order = None if refit.nuts is None else tightening_order(refit.nuts)
    thread = None if refit.thread is None else read_thread(refit.thread)
    stud_class = None if refit.stud_class is None else checked_class(refit.stud_class)
    torque, basis = _torque(refit, thread)
    pull = None
    if torque is not None and thread is not None and stud_class is not None:
        pull = preload(torque, thread, stud_class)
    preload_says = _preload_says(torque, thread, stud_class, pull)
    cautions = [] if basis == "vehicle" else [_LOOK_UP, *_manuals(thread)]
    cautions += [] if pull is None or pull.stands == "below" else [preload_says]
    again = _check_again_says()
    return RefitGuide(
        order=order, thread=thread, torque_nm=torque, torque_basis=basis,
        torque_says=_torque_says(refit, thread, torque, basis),
        preload=pull, preload_says=preload_says, rule_of_thumb=_rule_of_thumb(refit, thread),
        cautions=(*cautions, *data["cautions"]["says"], again), check_again=again,
    )


_LOOK_UP = "Look up the vehicle's own torque: a chart is no setting."


def both_units(torque_nm: float) -> str:
    """A torque in N.m and ft-lb, as ``108 N.m (80 ft-lb)``."""
    return f"{torque_nm:.0f} N.m ({torque_nm / NM_PER_FT_LB:.0f} ft-lb)"


def _torque(refit: Refit, thread: Thread | None) -> tuple[tuple[float, float] | None, TorqueBasis | None]:
    if refit.torque is not None:
        figure = newton_meters(refit.torque)
        return (figure, figure), "vehicle"
    charts = read_toml("workshop", "refit.toml")["charts"]["ft_lb"]
    found = [] if thread is None else [figures for name, figures in charts.items() if _may_be(thread, name)]
    if not found:
        return None, None
    least, greatest = min(low for low, _ in found), max(high for _, high in found)
    return (least * NM_PER_FT_LB, greatest * NM_PER_FT_LB), "chart"


def _torque_says(
    refit: Refit, thread: Thread | None, torque: tuple[float, float] | None, basis: TorqueBasis | None
) -> str:
    if torque is None:
        lacks = "" if thread is None else f": the charts do not have {thread.name}"
        return f"No torque is known{lacks}. Look it up in the vehicle's manual."
    least, greatest = torque
    if basis == "vehicle":
        read_in = refit.torque_source.strip()
        if read_in:
            return f"{both_units(least)}, the vehicle's own figure, read in: {read_in}."
        return f"{both_units(least)}, entered as the vehicle's own figure."
    ft_lb = f"{least / NM_PER_FT_LB:.0f} to {greatest / NM_PER_FT_LB:.0f} ft-lb"
    of_thread = "" if thread is None else f" for {thread.name}"
    return (
        f"Shop charts give {least:.0f} to {greatest:.0f} N.m ({ft_lb}){of_thread}. This is not a setting: "
        "look up the vehicle's figure."
    )


def _may_be(thread: Thread, name: str) -> bool:
    """Whether a thread is the one of that name; without a pitch, either stands for every pitch."""
    other = read_thread(name)
    return thread.any_pitch == other.any_pitch and (
        thread.name == other.name or None in (thread.pitch_mm, other.pitch_mm)
    )


def _manuals(thread: Thread | None) -> list[str]:
    """What vehicles' manuals say of the same thread."""
    if thread is None:
        return []
    return [each["says"] for each in read_toml("workshop", "refit.toml")["manuals"] if _may_be(thread, each["thread"])]


def _preload_says(
    torque: tuple[float, float] | None, thread: Thread | None, stud_class: str | None, pull: Preload | None
) -> str:
    if pull is None:
        return f"Whether the studs stand the torque cannot be told: {_lacking(torque, thread, stud_class)}."
    usual = read_toml("workshop", "refit.toml")["nut_factor"]["usual"]
    least, greatest = (f"{each:.0f}" for each in pull.usual_kn)
    middle = least if least == greatest else f"{least} to {greatest}"
    pulls = (
        f"The studs are pulled by {pull.low_kn:.0f} to {pull.high_kn:.0f} kN, {middle} kN at a nut factor of {usual:g}"
    )
    proof = f"proof load of {pull.proof_kn:.1f} kN (class {stud_class})"
    if pull.stands == "below":
        return f"{pulls}; that is below their {proof}."
    if pull.stands == "may_exceed":
        return f"{pulls}; on smooth threads that may be more than their {proof}. Check torque and property class."
    return f"{pulls}; that is more than their {proof}. Check torque, thread and property class before tightening."


def _lacking(torque: tuple[float, float] | None, thread: Thread | None, stud_class: str | None) -> str:
    if torque is None:
        return "no torque is known"
    if thread is None:
        return "the thread is not known"
    if stud_class is None:
        return "the property class of the stud is not known; it stands on its head or end"
    if thread.pitch_mm is None:
        return f"the pitch of {thread.name} is not known"
    return f"no proof strength is known for class {stud_class} in this diameter"


def _rule_of_thumb(refit: Refit, thread: Thread | None) -> str:
    """How 20 ft-lb for each nut compares with the vehicle's figure. A thread not known may be a truck's: nothing."""
    rule = read_toml("workshop", "refit.toml")["rule_of_thumb"]
    if refit.torque is None or refit.nuts is None or thread is None or thread.diameter_mm >= rule["below_diameter_mm"]:
        return ""
    by_rule = rule["ft_lb_a_nut"] * refit.nuts * NM_PER_FT_LB
    figure = newton_meters(refit.torque)
    if abs(by_rule - figure) <= rule["agrees_within_share"] * figure:
        return f"The shop rule of thumb, {both_units(by_rule)}, agrees. It has no source and is no setting."
    apart = both_units(abs(by_rule - figure))
    return (
        f"The shop rule of thumb, {both_units(by_rule)}, differs by {apart}. It has no source: the vehicle's figure "
        "counts, read it once more."
    )


def _check_again_says() -> str:
    again = read_toml("workshop", "refit.toml")["check_again"]
    return (
        f"Check the torque again after {again['least_km']} to {again['greatest_km']} km ({again['least_miles']} to "
        f"{again['greatest_miles']} miles); one manual says after {again['soonest_km']} km already."
    )
