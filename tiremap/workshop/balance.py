"""What a repair unit weighs, and what that is at the two flanges of the rim, where balance weights sit."""

from dataclasses import dataclass
from math import pi
from typing import Literal

from tiremap.resources import read_toml

MM3_PER_CM3 = 1000.0
Flange = Literal["outboard", "inboard", "both"]


@dataclass(frozen=True)
class Grams:
    """The least and greatest of a mass, g. A flange on the far side from the mass takes less than nothing."""

    low: float
    high: float

    def times(self, factor: float) -> "Grams":
        """The same mass at another place; a factor below 0 turns least and greatest around."""
        ends = sorted((self.low * factor, self.high * factor))
        return Grams(*ends)

    @property
    def most(self) -> float:
        """The greatest it may be, whichever way."""
        return max(abs(self.low), abs(self.high))


def unit_mass(head_area_mm2: float, stem_mm: float, through_mm: float) -> Grams:
    """A unit's mass worked out from its head, and its stem cut flush at the tread after ``through_mm`` of crown.

    The stem fills what the hole and the reamer took away, so at the least only the head is added.
    """
    data = read_toml("workshop", "balance.toml")
    head, rubber = data["head"], data["rubber"]
    stem_mm3 = pi / 4 * stem_mm**2 * through_mm
    return Grams(
        head_area_mm2 * head["least_thick_mm"] / MM3_PER_CM3 * rubber["least_g_cm3"],
        (head_area_mm2 * head["greatest_thick_mm"] + stem_mm3) / MM3_PER_CM3 * rubber["greatest_g_cm3"],
    )


def outboard_share(across_mm: float, rim_width_mm: float) -> float:
    """The share of a mass the outboard flange takes, as a beam on the two flanges; beyond a flange more than 1.

    ``across_mm`` is from the center, + outboard; ``rim_width_mm`` between the flanges. The inboard one takes the rest.
    """
    return 0.5 + across_mm / rim_width_mm


def taken_by(share: float) -> Flange:
    """The flange that takes nearly all of a mass by the outboard one's share, or both."""
    alone = read_toml("workshop", "balance.toml")["sides"]["both_up_to_share"]
    if share > alone:
        return "outboard"
    return "inboard" if 1 - share > alone else "both"


def tolerance_g(tire_class: str | None) -> float | None:
    """What may stay unbalanced on each side of a wheel of that class, g; ``None`` where no figure was read."""
    return None if tire_class is None else read_toml("workshop", "balance.toml")["tolerance_g"].get(tire_class)
