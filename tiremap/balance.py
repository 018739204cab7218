"""What the repairs of a job add to the balance of its wheel. Whatever it says, the wheel is balanced anew."""

from dataclasses import dataclass
from math import pi
from typing import Literal

from tiremap.assessment import AssessedMark, Assessment
from tiremap.geometry.footprints import Head
from tiremap.geometry.section_data import assumed
from tiremap.model.job import FittedUnit
from tiremap.model.stock import RepairUnit
from tiremap.model.units import mm_from_inches
from tiremap.workshop.balance import Flange, Grams, outboard_share, taken_by, tolerance_g, unit_mass
from tiremap.workshop.stock import SAME_SIZE

REBALANCE = "Balance the wheel anew, whatever these figures say."
WHY_RANGES = (
    "The figures are worked out from head and stem with assumed rubber. A unit that was weighed gives better ones: "
    "enter its mass in the stock."
)
Weight = Literal["within", "may_exceed", "exceeds"]


@dataclass(frozen=True)
class AddedWeight:
    """What one repair unit adds. Grams at the flanges are balance weights of equal moment.

    ``flange`` and the parts at the two flanges are ``None`` where the place across is unknown.
    """

    mark: str
    is_injury: bool
    unit: Grams
    weighed: bool
    """Whether the stock holds the unit's mass; else it was worked out."""
    at_flange: Grams
    """All of it moved out to the flange's radius."""
    flange: Flange | None
    outboard: Grams | None
    inboard: Grams | None
    tolerance_g: float | None
    """On each side; ``None`` where the class of tire is unknown or has no figure."""

    @property
    def weight(self) -> Weight | None:
        """How the side that takes more lies to the tolerance; ``None`` without one."""
        if self.tolerance_g is None:
            return None
        sides = [self.at_flange] if self.outboard is None or self.inboard is None else [self.outboard, self.inboard]
        if all(side.most <= self.tolerance_g for side in sides):
            return "within"
        return "exceeds" if self.outboard and any(_least(side) > self.tolerance_g for side in sides) else "may_exceed"

    @property
    def says(self) -> str:
        """All of it in words."""
        who = f"injury {self.mark}" if self.is_injury else f"repair {self.mark}"
        adds = f"The unit at {who} adds {_grams(self.unit)}, {_grams(self.at_flange)} at the rim flange"
        return f"{adds}{self._where()}. {self._against()}".rstrip()

    def _where(self) -> str:
        match self.flange:
            case None:
                return "; on which side is not known, its place across was not measured"
            case "both":
                return f", outboard {_grams(self.outboard)} and inboard {_grams(self.inboard)}"
            case side:
                return f", nearly all of it {side}"

    def _against(self) -> str:
        tolerance = self.tolerance_g
        match self.weight:
            case None:
                return "What may stay on each side is not known for this tire."
            case "within":
                return f"That is within the {tolerance:g} g that may stay on each side."
            case "exceeds":
                return f"That is more than the {tolerance:g} g that may stay on each side."
            case _:
                return f"That may be more than the {tolerance:g} g that may stay on each side."


def added_weights(assessment: Assessment) -> tuple[AddedWeight, ...]:
    """What the unit of every injury not refused, and of every repair this program recorded, adds to the wheel.

    Nothing while the tire's size is unknown; an injury whose unit is unknown is left out.
    """
    if assessment.facts is None or assessment.strip is None or assessment.section_inputs is None:
        return ()
    fitted = {each.id: each.fitted for each in assessment.job.repairs if each.fitted is not None}
    found = []
    for mark in assessment.marks:
        if mark.head is None:
            continue
        if mark.answer is not None and mark.answer != "not_repairable" and mark.unit is not None:
            found.append(_added(assessment, mark, mark.head, mark.unit.stem_mm, mark.unit))
        elif mark.id in fitted:
            found.append(_of_repair(assessment, mark, mark.head, fitted[mark.id]))
    return tuple(found)


def _of_repair(assessment: Assessment, mark: AssessedMark, head: Head, fitted: FittedUnit) -> AddedWeight:
    same = (each for each in assessment.stock.units if abs(each.stem_mm - fitted.stem_mm) < SAME_SIZE)
    return _added(assessment, mark, head, fitted.stem_mm, next(same, None))


def _added(
    assessment: Assessment, mark: AssessedMark, head: Head, stem_mm: float, unit: RepairUnit | None
) -> AddedWeight:
    facts, strip = assessment.known_facts, assessment.known_strip
    own_mass = None if unit is None else unit.mass_g
    weighed = Grams(own_mass, own_mass) if own_mass is not None else None
    mass = weighed or unit_mass(_area(head), stem_mm, facts.drawn_thickness)
    flange_radius = facts.dimensions.rim_diameter_mm / 2 + assumed("rim", "flange_height")
    at_flange = mass.times(strip.radius_at(mark.inside) / flange_radius)
    share = None
    if mark.facts.inside is not None or mark.facts.outside is not None:
        share = outboard_share(mark.inside, mm_from_inches(facts.dimensions.rim_width_in))
    return AddedWeight(
        mark=mark.id, is_injury=mark.facts.is_injury, unit=mass, weighed=weighed is not None, at_flange=at_flange,
        flange=None if share is None else taken_by(share),
        outboard=None if share is None else at_flange.times(share),
        inboard=None if share is None else at_flange.times(1 - share),
        tolerance_g=tolerance_g(facts.tire_class),
    )


def _area(head: Head) -> float:
    """True area of a head, mm2: two half discs and what lies between them."""
    return pi * head.radius**2 + 4 * head.radius * head.half_axis


def _least(grams: Grams) -> float:
    return min(abs(grams.low), abs(grams.high))


def _grams(grams: Grams | None) -> str:
    if grams is None:
        return ""
    low, high = f"{grams.low:.0f}", f"{grams.high:.0f}"
    return f"{high} g" if low == high else f"{low} to {high} g"
