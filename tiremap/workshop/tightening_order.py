"""The order in which the nuts of a wheel are tightened: across the circle first, then once around."""

from dataclasses import dataclass

from tiremap.errors import TiremapError
from tiremap.resources import read_toml


@dataclass(frozen=True)
class TighteningOrder:
    """Nuts by their number, clockwise from the top; ``order`` is the first pass, ``second_pass`` the one around."""

    nuts: int
    order: tuple[int, ...]
    second_pass: tuple[int, ...]
    source: str


def nut_counts() -> tuple[int, ...]:
    """The numbers of nuts an order is known for."""
    return tuple(each["nuts"] for each in read_toml("workshop", "refit.toml")["orders"])


def tightening_order(nuts: int) -> TighteningOrder:
    """The order for that many nuts. Raises `TiremapError` for a number no order is known for."""
    for each in read_toml("workshop", "refit.toml")["orders"]:
        if each["nuts"] == nuts:
            return TighteningOrder(nuts, tuple(each["order"]), tuple(range(1, nuts + 1)), each["source"])
    known = ", ".join(str(each) for each in nut_counts())
    raise TiremapError(f"No tightening order is known for {nuts} nuts.", f"There are orders for {known} nuts.")
