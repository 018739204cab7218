"""Tread depth as it was measured: the shallowest found anywhere, and the shallowest at each place of the tread."""

from dataclasses import dataclass

from tiremap.model.job import Tire, TireClass
from tiremap.model.tolerances import length_range
from tiremap.resources import read_toml
from tiremap.rules.reading import Reading, unknown

WORDS = {
    "tread_depth": "the tread depth",
    "tread_depth_outboard": "the tread depth in the outer eighth outboard",
    "tread_depth_central": "the tread depth over the central three-quarters",
    "tread_depth_inboard": "the tread depth in the outer eighth inboard",
}
"""The four depths that can be entered, and what each is called in a sentence."""


@dataclass(frozen=True, slots=True)
class TreadDepths:
    """The four depths as readings, mm; one never entered spans everything possible of this class of tire."""

    shallowest: Reading
    """The shallowest found, wherever that was."""
    outboard: Reading
    central: Reading
    inboard: Reading
    deepest_new: float
    """How deep a new tread of this class may be, mm."""

    @property
    def places(self) -> tuple[Reading, ...]:
        """The three that together cover the tread."""
        return self.outboard, self.central, self.inboard

    @property
    def entered(self) -> tuple[Reading, ...]:
        """Those that were entered; may be none."""
        return tuple(depth for depth in (self.shallowest, *self.places) if depth.stated is not None)

    @property
    def drawn(self) -> float | None:
        """The depth to draw with, mm: the shallowest found if entered, else the least of the places."""
        if self.shallowest.stated is not None:
            return self.shallowest.stated
        return min((depth.stated for depth in self.entered if depth.stated is not None), default=None)

    @property
    def at_a_hole(self) -> Reading:
        """The depth where a hole lies, as nobody says which it is at.

        It is no less than the shallowest entered, and no more than the deepest of the places: where one of them was
        not entered, it may be as deep there as a new tread, and where the shallowest was not, as worn as it gets.
        """
        if not self.entered:
            return self.shallowest
        low, high = min(depth.low for depth in self.entered), max(depth.high for depth in self.entered)
        if any(depth.stated is None for depth in self.places):
            high = max(high, self.deepest_new)
            if self.shallowest.stated is None:
                low = min(low, self.shallowest.low)
        by_eye = any(depth.estimated for depth in self.entered)
        return Reading("tire.tread_depth", WORDS["tread_depth"], low, self.drawn, high, estimated=by_eye)


def tread_depths(tire: Tire, tire_class: TireClass | None) -> TreadDepths:
    """The depths entered of a tire, and the ranges of those that were not."""
    unmeasured = read_toml("dimensions", "unmeasured.toml")["tread_depth"]
    deep = tire_class in ("light_truck", "truck", None)
    greatest = unmeasured["greatest_light_truck_mm" if deep else "greatest_mm"]
    shallowest, outboard, central, inboard = (_depth(tire, name, unmeasured["least_mm"], greatest) for name in WORDS)
    return TreadDepths(shallowest, outboard, central, inboard, greatest)


def _depth(tire: Tire, name: str, least: float, greatest: float) -> Reading:
    taken = getattr(tire, name)
    if taken is None:
        return unknown(f"tire.{name}", WORDS[name], least, greatest)
    low, stated, high = length_range("tread_depth", taken)
    return Reading(f"tire.{name}", WORDS[name], low, stated, high, estimated=taken.how == "eye")
