"""What the checks know of one injury or earlier repair: place, way around, lean, size and head as readings."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache, partial
from math import atan, inf, pi, tan
from typing import Any

from tiremap.model.job import Injury, Repair
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length
from tiremap.model.prepared import Prepared
from tiremap.model.tolerances import around_range, hole_range, lean_range, length_ends, length_range
from tiremap.model.units import degrees, radians
from tiremap.rules.facts import TireFacts
from tiremap.rules.reading import UNBOUNDED, Reading, exactly, unknown

RIGHT_ANGLE = 90.0

Ends = Callable[[float, float, float, float], tuple[float, float, float]]
"""`MarkFacts.channel_ends` on one tire."""

_ENDS_KEPT = 128
"""How many ends of one channel are kept; the corners that three checks ask are fewer than a hundred."""


@dataclass(frozen=True, slots=True)
class Place:
    """A place across: the raw reading (mm) and the origin it was taken from; ``liner`` is along the liner."""

    origin: str
    reading: Reading


@dataclass(frozen=True, slots=True)
class HeadSize:
    """A head, mm: the radius of its rounded ends, and half its axis across and around.

    The half axes are those of the least, stated and greatest head the readings allow; both are 0 for a round one. The
    greatest covers every smaller one, so radius and axes are taken at their ends together.
    """

    radius: Reading
    half_across: tuple[float, float, float] = (0.0, 0.0, 0.0)
    half_around: tuple[float, float, float] = (0.0, 0.0, 0.0)

    @property
    def reach_across(self) -> Reading:
        """How far the head reaches across from its center."""
        least, stated, greatest = self.half_across
        reading = self.radius
        reach = None if reading.stated is None else reading.stated + stated
        return reading.ranging(reading.low + least, reach, reading.high + greatest)


@dataclass(frozen=True)
class MarkFacts:
    """An injury or earlier repair. ``outside`` / ``inside`` are ``None`` where not measured."""

    id: str
    is_injury: bool
    outside: Place | None
    inside: Place | None
    around: Reading
    """Radians from the datum, not wrapped."""
    lean_across: Reading
    lean_around: Reading
    thickness: Reading
    """Of the crown here; measuring where the hole comes out inside replaces it."""
    hole_outside: Reading | None
    hole_inside: Reading | None
    prepared: Prepared | None
    channel: Reading
    """Diameter of the channel, mm."""
    head: HeadSize

    @property
    def title(self) -> str:
        """What the mark is called in a sentence."""
        return f"injury {self.id}" if self.is_injury else f"repair {self.id}"

    @property
    def at_the_start(self) -> str:
        """The title where a sentence begins with it; its own letters stay as they were given."""
        return f"I{self.title[1:]}" if self.is_injury else f"R{self.title[1:]}"

    @property
    def prepared_hole(self) -> Prepared:
        """The hole of an injury after reaming, foreseen until it was reamed; a repair has none."""
        assert self.prepared is not None
        return self.prepared

    def channel_ends(
        self, facts: TireFacts, tread_width: float, outside: float, inside: float, thickness: float
    ) -> tuple[float, float, float]:
        """Tread coordinates (mm) of the outside and inside end, and the tangent of the lean across.

        ``outside`` / ``inside`` are values of `outside_reading` and `inside_reading`.
        """
        return _channel_ends(facts, *self._origins, tread_width, outside, inside, thickness)

    @property
    def _origins(self) -> tuple[str | None, str | None]:
        """From where the outside and the inside end were taken; ``None`` where not measured."""
        outside, inside = self.outside, self.inside
        return None if outside is None else outside.origin, None if inside is None else inside.origin

    @property
    def lean_follows(self) -> bool:
        """Whether the lean across follows from both ends; else it is a reading itself, tried at zero as it is."""
        return self.outside is not None and self.inside is not None

    @property
    def hangs_on_tread_width(self) -> bool:
        """Whether an end was taken from a tread edge, so that its tread coordinate moves with the tread's width."""
        return any(place is not None and place.origin.endswith("_edge") for place in (self.outside, self.inside))

    def ends_on(self, facts: TireFacts) -> Ends:
        """`channel_ends` on that tire. Several checks ask the same values; each is worked out once."""
        kept = self.kept_on(facts)
        if "ends" not in kept:
            # Of the origins, not of the mark: a mark that kept itself would have to be collected as a cycle.
            kept["ends"] = lru_cache(_ENDS_KEPT)(partial(_channel_ends, facts, *self._origins))
        ends: Ends = kept["ends"]
        return ends

    def kept_on(self, facts: TireFacts) -> dict[str, Any]:
        """What was worked out of this mark on that very tire, to be taken again; another tire, or mark, starts anew."""
        if not self._kept or self._kept[0][0] is not facts:
            self._kept[:] = [(facts, {})]
        return self._kept[0][1]

    @cached_property
    def _kept(self) -> list[tuple[TireFacts, dict[str, Any]]]:
        return []

    @property
    def outside_reading(self) -> Reading:
        """The reading that places the outside end: its place, or the lean where only the inside was measured."""
        if self.outside is not None:
            return self.outside.reading
        if self.inside is not None:
            return self.lean_across
        return unknown(f"injury.{self.id}.outside", f"the place of {self.title}", -UNBOUNDED, UNBOUNDED)

    @property
    def inside_reading(self) -> Reading:
        """The reading that places the inside end: its place if measured, else the lean across."""
        return self.lean_across if self.inside is None else self.inside.reading

    def stated_ends(self, facts: TireFacts) -> tuple[float, float]:
        """Tread coordinates (mm) of the two ends as drawn: at the stated readings, upright where lean is unknown."""

        def stated(reading: Reading, otherwise: float) -> float:
            return otherwise if reading.stated is None else reading.stated

        thickness = stated(self.thickness, facts.drawn_thickness)
        outside, inside = stated(self.outside_reading, 0.0), stated(self.inside_reading, 0.0)
        s_out, s_in, _ = self.channel_ends(facts, facts.drawn_tread_width, outside, inside, thickness)
        return s_out, s_in

    def around_shift(self, facts: TireFacts, thickness: float, tangent: float) -> float:
        """How far (radians) a lean around carries the inside end on from the outside end."""
        return thickness * tangent / (facts.overall_diameter / 2 - thickness)

    def stated_around_inside(self, facts: TireFacts) -> float | None:
        """Angle of the inside end as drawn, radians, or ``None`` while the way around is unknown."""
        if self.around.stated is None:
            return None
        return self.around.stated + self.around_shift(facts, facts.drawn_thickness, self.lean_around.stated or 0.0)


def _channel_ends(
    facts: TireFacts, outside_from: str | None, inside_from: str | None, tread_width: float, outside: float,
    inside: float, thickness: float,
) -> tuple[float, float, float]:
    """`MarkFacts.channel_ends` of a mark whose ends were taken from those origins."""
    if outside_from is None and inside_from is not None:
        s_in = facts.across(inside_from, inside, tread_width, thickness)
        return s_in - thickness * outside, s_in, outside
    s_out = outside if outside_from is None else facts.across(outside_from, outside, tread_width, thickness)
    if inside_from is None:
        return s_out, s_out + thickness * inside, inside
    s_in = facts.across(inside_from, inside, tread_width, thickness)
    return s_out, s_in, (s_in - s_out) / thickness


def whole_hole(injury: Injury) -> tuple[float, float | None, float]:
    """Least, stated and greatest diameter of the hole, mm: the larger of its two ends; (0, None, inf) if unmeasured.

    A size of nothing at all is no measurement.
    """
    holes = [hole_range(size) for size in (injury.size_outside, injury.size_inside) if size is not None]
    holes = [hole for hole in holes if hole[2] > 0]
    if not holes:
        return 0.0, None, inf
    low, stated, high = (max(ends) for ends in zip(*holes, strict=True))
    return low, stated, high


def injury_facts(injury: Injury, facts: TireFacts, prepared: Prepared) -> MarkFacts:
    """The readings of an injury; ``prepared`` is its prepared size and unit as the workshop foresees them."""
    at, of = f"injury.{injury.id}", f"of injury {injury.id}"
    hole_outside = _hole(injury.size_outside, f"{at}.size_outside", f"the size {of} outside")
    hole_inside = _hole(injury.size_inside, f"{at}.size_inside", f"the size {of} inside")
    channel = _channel(prepared, hole_outside, hole_inside, f"{at}.size_outside", f"the size {of}")
    return MarkFacts(
        id=injury.id,
        is_injury=True,
        outside=_place(injury.outside, f"{at}.outside", f"the place {of} across"),
        inside=_place(injury.inside, f"{at}.inside", f"where injury {injury.id} comes out inside"),
        around=_around(injury.around, f"{at}.around", f"the place {of} around the tire", facts),
        lean_across=_lean(injury.lean_across, f"{at}.lean_across", f"the lean {of} across"),
        lean_around=_lean(injury.lean_around, f"{at}.lean_around", f"the lean {of} around"),
        thickness=_thickness_here(injury, facts),
        hole_outside=hole_outside,
        hole_inside=hole_inside,
        prepared=prepared,
        channel=channel,
        head=_unit_head(prepared, channel),
    )


def _channel(
    prepared: Prepared, outside: Reading | None, inside: Reading | None, field: str, words: str
) -> Reading:
    """The channel's diameter. It is measured where the hole may be larger: there a better measurement helps."""
    holes = [hole for hole in (outside, inside) if hole is not None]
    estimated = prepared.stated is None
    if holes:
        larger = max(holes, key=lambda hole: hole.high)
        field, words = larger.field, larger.words
        estimated = estimated or larger.estimated
    return Reading(
        field, words, prepared.low, prepared.stated, min(prepared.high, UNBOUNDED),
        estimated=estimated, steps=prepared.cutters, entered=False,
    )


def _thickness_here(injury: Injury, facts: TireFacts) -> Reading:
    """The crown's thickness at an injury: measuring where the hole comes out inside replaces it, until that is done."""
    if injury.inside is None:
        words = f"where injury {injury.id} comes out inside"
        return facts.thickness.called(f"injury.{injury.id}.inside", words)
    return facts.thickness.called("tire.under_grooves", "the thickness under the grooves")


def repair_facts(repair: Repair, facts: TireFacts) -> MarkFacts:
    """The readings of an earlier repair, which lies where the center of its head lies on the liner."""
    at = f"repair.{repair.id}"
    upright = exactly(0.0)
    return MarkFacts(
        id=repair.id,
        is_injury=False,
        outside=None,
        inside=_place(repair.inside, f"{at}.inside", f"the place of repair {repair.id} across")
        or Place("center", unknown(f"{at}.inside", f"the place of repair {repair.id} across", -UNBOUNDED, UNBOUNDED)),
        around=_around(repair.around, f"{at}.around", f"the place of repair {repair.id} around the tire", facts),
        lean_across=upright,
        lean_around=upright,
        thickness=facts.thickness.called("", facts.thickness.words),
        hole_outside=None,
        hole_inside=None,
        prepared=None,
        channel=exactly(0.0),
        head=_repair_head(repair),
    )


_FROM = {
    "outboard_edge": "from the outboard tread edge",
    "inboard_edge": "from the inboard tread edge",
    "center": "from the center, outboard +",
    "liner": "along the liner from the center, outboard +",
}


def _place(taken: Across | BeadToes | None, field: str, words: str) -> Place | None:
    if taken is None:
        return None
    if isinstance(taken, BeadToes):
        minus, plus = length_ends("bead_toes", taken, taken.unit)
        stated, origin = taken.s_liner_mm, "liner"
    else:
        minus, plus = length_ends("across", taken, taken.unit)
        stated, origin = taken.mm, taken.origin
    words = f"{words} ({_FROM[origin]})"
    reading = Reading(field, words, stated - minus, stated, stated + plus, estimated=taken.how == "eye")
    return Place(origin, reading)


_AROUND_STEPS = {"mm": 1.0, "deg": 1.0, "h": 0.25}
"""How finely a place around is named, in the unit it was taken in; words only."""


def _around(taken: Around | None, field: str, words: str, facts: TireFacts) -> Reading:
    if taken is None:
        return unknown(field, words, -pi, pi, step=0.0, unit="deg", per_shown=radians(1.0))
    low, stated, high = (radians(end) for end in around_range(taken, facts.overall_diameter / 2))
    unit = "mm" if taken.unit == "in" else taken.unit
    per_shown = {"mm": 2 / facts.overall_diameter, "h": pi / 6}.get(unit, radians(1.0))
    return Reading(
        field, words, low, stated, high, estimated=taken.how in ("eye", "clock"), step=_AROUND_STEPS[unit], unit=unit,
        per_shown=per_shown,
    )


def _lean(taken: Lean | None, field: str, words: str) -> Reading:
    if taken is None:
        return unknown(field, words, -UNBOUNDED, UNBOUNDED, tangent=True, step=1.0, unit="deg")
    low, stated, high = lean_range(taken)
    return Reading(
        field, words, _tangent(low), tan(radians(stated)), _tangent(high),
        estimated=taken.how == "eye", tangent=True, step=1.0, unit="deg",
    )


def _tangent(lean_deg: float) -> float:
    if abs(lean_deg) >= RIGHT_ANGLE:
        return UNBOUNDED if lean_deg > 0 else -UNBOUNDED
    return tan(radians(lean_deg))


def _hole(taken: HoleSize | None, field: str, words: str) -> Reading | None:
    if taken is None:
        return None
    low, stated, high = hole_range(taken)
    if high <= 0:
        return None
    return Reading(field, words, low, stated, high, estimated=taken.how == "eye")


def _unit_head(prepared: Prepared, channel: Reading) -> HeadSize:
    """The head of the unit to be fitted; its range follows the cutters. Without a unit it may be any size."""
    units = (prepared.low_unit, prepared.unit, prepared.high_unit)
    least, stated, greatest = (None if unit is None else unit.end_radius_mm for unit in units)
    radius = Reading(
        channel.field, channel.words, least or 0.0, stated, UNBOUNDED if greatest is None else greatest,
        estimated=channel.estimated, step=0.0,
    )
    low, at, high = ((0.0, 0.0) if unit is None else unit.half_axis_mm for unit in units)
    return HeadSize(radius, (low[0], at[0], high[0]), (low[1], at[1], high[1]))


def _repair_head(repair: Repair) -> HeadSize:
    field, words = f"repair.{repair.id}.head_length", f"the head of repair {repair.id}"
    if repair.head_length is None or repair.head_length.mm <= 0:
        return HeadSize(unknown(field, words, 0.0, UNBOUNDED, step=0.0))
    if repair.head_width is None:
        return HeadSize(_halved(repair.head_length, field, words))
    radius = _halved(repair.head_width, field, words)
    lengths, widths = length_range("head", repair.head_length), length_range("head", repair.head_width)
    low, at, high = (max(0.0, (a - b) / 2) for a, b in zip(lengths, widths, strict=True))
    axis = (low, at, high)
    return HeadSize(radius, half_across=axis) if repair.head_along == "across" else HeadSize(radius, half_around=axis)


def _halved(length: Length, field: str, words: str) -> Reading:
    low, stated, high = (end / 2 for end in length_range("head", length))
    return Reading(field, words, low, stated, high, estimated=length.how == "eye", step=0.0)


def total_lean_deg(across: float, around: float) -> float:
    """Total lean in degrees from the tangents of its two parts."""
    return degrees(atan((across * across + around * around) ** 0.5))

