"""The dimensions a technician works to at each injury: unit, cutter, channel, head, ground and cement.

Everything comes from the assessment and its stock; nothing here answers. A dimension that hangs on something never
measured is a range, and its end is ``None`` where nothing bounds it.
"""

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from math import inf, pi
from typing import Any

from tiremap.assessment import AssessedMark, Assessment, case_of
from tiremap.geometry.channel import channel_length
from tiremap.geometry.footprints import Head, head_outline
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip, true_area
from tiremap.model.after_repair import UnitKind
from tiremap.model.prepared import Prepared
from tiremap.model.stock import BeyondTheHead, RepairUnit
from tiremap.model.units import degrees
from tiremap.resources import read_toml
from tiremap.rules.case import Case
from tiremap.rules.head_at_edges import belt_edge_question
from tiremap.rules.lean import known_lean_deg, lean_is_whole
from tiremap.rules.margins import Margin, Question, margin_of
from tiremap.rules.marks import MarkFacts, injury_facts
from tiremap.rules.pairs import apart, reach_of
from tiremap.rules.reading import ENDLESS
from tiremap.workshop.cement import cement_ml
from tiremap.workshop.kind import kind_by_lean


@dataclass(frozen=True)
class Range:
    """The least and greatest a dimension may be, mm; an end is ``None`` where nothing bounds it.

    ``stated`` is ``None`` where the dimension hangs on something never entered.
    """

    low: float | None
    stated: float | None
    high: float | None

    @property
    def is_clear(self) -> bool:
        """Of a gap: nothing overlaps, whatever the measurements."""
        return self.low is not None and self.low >= 0


@dataclass(frozen=True)
class Neighbor:
    """The gap between this head and another's, along the liner; negative where they overlap."""

    id: str
    gap_mm: Range


@dataclass(frozen=True)
class Clears:
    """Another unit, or the same one turned, that would clear the belt edge or neighbors which this head does not."""

    unit: RepairUnit
    how: str
    clears_belt_edge: bool
    clears: tuple[str, ...]


@dataclass(frozen=True)
class Outline:
    """Ground around a head as a tape finds it, mm.

    ``across`` and ``around`` are how far it reaches from the middle of the hole along the liner, each way.
    ``from_outboard_edge`` are its nearest and furthest places over the tread, from the outboard tread edge;
    ``from_datum`` its first and last around the tread from the datum, clockwise seen from outboard, the first below 0
    where the ground passes the datum. Both are ``None`` while unknown. ``area_mm2`` is true area of liner.
    """

    name: str
    across: float
    around: float
    from_outboard_edge: tuple[float, float] | None
    from_datum: tuple[float, float] | None
    area_mm2: float


@dataclass(frozen=True)
class RepairDimensions:
    """What is fitted at one injury, and how. All in mm unless said."""

    injury: str
    unit: RepairUnit | None
    """``None`` while the size is unknown, or no stem in stock is thick enough."""
    kind: UnitKind | None
    """``None`` while too little is known of the lean."""
    kind_why: str
    kind_in_stock: bool
    cutter: Range
    """The channel's diameter: least, stated, greatest."""
    reamed: bool
    """Whether the hole has been reamed; until then the cutter is foreseen."""
    channel: Range
    """Its length through the thickness at that place and lean."""
    stem_at_least: float | None
    """How long the stem must be before it is cut: the longest the channel may be, and what stands out of it."""
    stem_short: float | None
    """How much the stem in stock lacks; 0 where it is long enough, ``None`` where that cannot be told."""
    belt_edge: Range
    """From the head to the nearer belt edge, + inside."""
    neighbors: tuple[Neighbor, ...]
    """Every other head, the narrowest gap first."""
    would_clear: tuple[Clears, ...]
    orientation: str
    from_outboard_edge: float | None
    """Of the head's middle, over the tread from the outboard tread edge."""
    from_datum: float | None
    """Of the head's middle, around the tread from the datum."""
    around_deg: float | None
    outlines: tuple[Outline, ...]
    """Head, buffed, pre-cleaned, sealed; empty while there is no unit."""
    cement_ml: Range | None
    """Milliliters for the buffed ground."""

    def outline(self, name: str) -> Outline | None:
        """The outline called ``head``, ``buffed``, ``pre_cleaned`` or ``sealed``."""
        return next((each for each in self.outlines if each.name == name), None)

    def as_record(self) -> dict[str, Any]:
        """The dimensions as plain values, unknown ones ``None``."""
        record = asdict(self)
        record["unit"] = None if self.unit is None else self.unit.model_dump()
        record["would_clear"] = [{**each, "unit": each["unit"].model_dump()} for each in record["would_clear"]]
        return record


def repair_dimensions(assessment: Assessment) -> tuple[RepairDimensions, ...]:
    """The dimensions at every injury not refused, in the job's order; none where no rule set can be asked."""
    case = case_of(assessment)
    if case is None:
        return ()
    return tuple(_of(assessment, case, mark) for mark in assessment.injuries if mark.answer != "not_repairable")


def _of(assessment: Assessment, case: Case, mark: AssessedMark) -> RepairDimensions:
    injury, unit = mark.facts, mark.unit
    prepared = injury.prepared_hole
    limit = case.limit(case.rule_set.leans_for_one_piece)
    kind, why = kind_by_lean(
        known_lean_deg(case, injury), lean_is_whole(case, injury), None if limit is None else limit.value
    )
    channel = _channel(case, injury)
    beyond = read_toml("workshop", "repair_dimensions.toml")["stem"]["longer_than_channel_mm"]
    stem_at_least = None if channel.high is None else channel.high + beyond
    belt_edge = _range(margin_of(belt_edge_question(case, injury)))
    neighbors = _neighbors(case, injury)
    outlines = tuple(_outlines(assessment, case, mark))
    from_outboard_edge, around = _from_outboard_edge(case, injury), _around_inside(mark)
    return RepairDimensions(
        injury=injury.id, unit=unit, kind=kind, kind_why=why,
        kind_in_stock=kind is None or kind in assessment.stock.made,
        cutter=Range(prepared.low, prepared.stated, _bounded(prepared.high)), reamed=not prepared.foreseen,
        channel=channel, stem_at_least=stem_at_least, stem_short=_stem_short(unit, stem_at_least),
        belt_edge=belt_edge, neighbors=neighbors, would_clear=_would_clear(case, injury, belt_edge, neighbors),
        orientation=_orientation(unit),
        from_outboard_edge=from_outboard_edge, from_datum=_from_datum(case, mark),
        around_deg=None if around is None else degrees(around) % 360,
        outlines=outlines,
        cement_ml=Range(*cement_ml(outlines[1].area_mm2)) if outlines else None,
    )


def _stem_short(unit: RepairUnit | None, at_least: float | None) -> float | None:
    if unit is None or unit.stem_length_mm is None or at_least is None:
        return None
    return max(0.0, at_least - unit.stem_length_mm)


def _orientation(unit: RepairUnit | None) -> str:
    """How the head lies in the tire; the marks on a unit are its maker's."""
    if unit is None:
        return ""
    beads = "the marks for the beads point to the two beads"
    if unit.head_length_mm == unit.width_mm:
        return f"Round head: {beads}, straight across the tire."
    return f"Long side {unit.head_along} the tire: {beads}, straight across the tire."


def _channel(case: Case, injury: MarkFacts) -> Range:
    """Thickness over the cosine of the total lean, over all their readings."""
    readings = (
        injury.outside_reading, injury.inside_reading, case.facts.tread_width, injury.thickness, injury.lean_around,
    )

    def leans(outside: float, inside: float, tread_width: float, thickness: float, around: float) -> float:
        return injury.channel_ends(case.facts, tread_width, outside, inside, thickness)[2]

    def shorter(outside: float, inside: float, tread_width: float, thickness: float, around: float) -> float:
        return -channel_length(thickness, leans(outside, inside, tread_width, thickness, around), around)

    margin = margin_of(Question(readings, shorter, (leans,), moved_by=4))
    return Range(-margin.high, None if margin.stated is None else -margin.stated, _bounded(-margin.low))


def _range(margin: Margin) -> Range:
    return Range(_bounded(margin.low), margin.stated, _bounded(margin.high))


def _bounded(value: float) -> float | None:
    return value if abs(value) < ENDLESS else None


def _neighbors(case: Case, injury: MarkFacts) -> tuple[Neighbor, ...]:
    here = reach_of(case.facts, injury)
    others = (mark for mark in (*case.injuries, *case.repairs) if mark.id != injury.id)
    gaps = (Neighbor(other.id, _range(apart(case.facts, here, reach_of(case.facts, other)).gap())) for other in others)
    return tuple(sorted(gaps, key=lambda each: -inf if each.gap_mm.low is None else each.gap_mm.low))


def _would_clear(
    case: Case, injury: MarkFacts, belt_edge: Range, neighbors: tuple[Neighbor, ...]
) -> tuple[Clears, ...]:
    tight = [each.id for each in neighbors if not each.gap_mm.is_clear]
    prepared = injury.prepared_hole
    if prepared.unit is None or (belt_edge.is_clear and not tight):
        return ()
    found = []
    for unit, how in _other_ways(prepared.unit, prepared.low_unit):
        with_it = _with_unit(case, injury, unit)
        gaps = {each.id: each.gap_mm for each in _neighbors(case, with_it)}
        clears_belt = not belt_edge.is_clear and _range(margin_of(belt_edge_question(case, with_it))).is_clear
        cleared = tuple(each for each in tight if gaps[each].is_clear)
        if clears_belt or cleared:
            found.append(Clears(unit, how, clears_belt, cleared))
    return tuple(found)


def _other_ways(unit: RepairUnit, thinner: RepairUnit | None) -> Iterator[tuple[RepairUnit, str]]:
    """The same unit turned, and the thinner one that a hole gauged finer may take.

    A thicker stem never has a smaller head, so no thicker unit clears what this one does not.
    """
    if unit.head_length_mm != unit.width_mm:
        along = "across" if unit.head_along == "around" else "around"
        yield unit.model_copy(update={"head_along": along}), f"the same unit with its long side {along} the tire"
    if thinner is not None and thinner.stem_mm < unit.stem_mm:
        yield thinner, f"the {thinner.stem_mm:g} mm unit, if the hole is gauged and takes it"


def _with_unit(case: Case, injury: MarkFacts, unit: RepairUnit) -> MarkFacts:
    """The injury as it would be with that unit, its hole reamed to the stem."""
    stem = unit.stem_mm
    return injury_facts(
        case.injury(injury), case.facts, Prepared(stem, stem, stem, unit, unit, unit, foreseen=False)
    )


def _from_outboard_edge(case: Case, injury: MarkFacts) -> float | None:
    """Where the inside end lies over the tread, from the outboard tread edge; ``None`` where that is not known."""
    outside, inside = injury.outside_reading.stated, injury.inside_reading.stated
    if outside is None or inside is None:
        return None
    facts = case.facts
    thickness = facts.drawn_thickness if injury.thickness.stated is None else injury.thickness.stated

    def from_edge(tread_width: float) -> float:
        return tread_width / 2 - injury.channel_ends(facts, tread_width, outside, inside, thickness)[1]

    if facts.tread_width.stated is not None:
        return from_edge(facts.tread_width.stated)
    least, greatest = from_edge(facts.tread_width.low), from_edge(facts.tread_width.high)
    return least if abs(greatest - least) < _SAME else None


_SAME = 1e-9
"""Two places (mm) closer than this do not hang on the tread width; absorbs arithmetic."""


def _around_inside(mark: AssessedMark) -> float | None:
    """Angle of the inside end from the datum, radians; ``None`` while its place around, or its lean around, is unknown.

    The drawing shows an unknown lean upright; nobody is to measure by that.
    """
    place = mark.inside_place
    return None if place is None or mark.facts.lean_around.stated is None else place.a % (2 * pi)


def _from_datum(case: Case, mark: AssessedMark) -> float | None:
    """The same around the tread, mm."""
    angle = _around_inside(mark)
    return None if angle is None else angle * case.facts.overall_diameter / 2


def _outlines(assessment: Assessment, case: Case, mark: AssessedMark) -> Iterator[Outline]:
    """Head, buffed, pre-cleaned and sealed ground. A single one has its size wherever around the tire it lies."""
    if mark.head is None:
        return
    strip, place = assessment.known_strip, mark.inside_place or TreadPoint(mark.inside, 0.0)
    for name, grown in _grown(assessment.stock.beyond_the_head).items():
        head = mark.head.grown(grown)
        yield Outline(
            name, head.reach_across, head.axis_reach[1] + head.radius,
            _edges(strip, case, mark, head), _around(strip, case, mark, head),
            true_area(strip, head_outline(strip, place, head)),
        )


def _grown(beyond: BeyondTheHead) -> dict[str, float]:
    """How far each outline lies beyond the head, mm."""
    return {
        "head": 0.0, "buffed": beyond.border, "pre_cleaned": beyond.pre_cleaned,
        "sealed": beyond.border + beyond.sealed,
    }


def _edges(strip: Strip, case: Case, mark: AssessedMark, head: Head) -> tuple[float, float] | None:
    middle = _from_outboard_edge(case, mark.facts)
    if middle is None:
        return None
    on_liner = strip.liner_across(mark.inside)
    outboard, inboard = (strip.tread_across(on_liner + reach) for reach in (head.reach_across, -head.reach_across))
    return middle - (outboard - mark.inside), middle + (mark.inside - inboard)


def _around(strip: Strip, case: Case, mark: AssessedMark, head: Head) -> tuple[float, float] | None:
    """Along the tread: the angle the ground takes on the liner, at the tread's radius."""
    middle = _from_datum(case, mark)
    if middle is None:
        return None
    reach = (head.axis_reach[1] + head.radius) / strip.radius_at(mark.inside) * case.facts.overall_diameter / 2
    return middle - reach, middle + reach
