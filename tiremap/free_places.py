"""Where one more repair could go: the part of the liner strip a given unit may still be placed on.

The unit stands at lean 0 with its hole reamed to its stem. What is free is free whatever the tire's measurements may be
within their tolerances, and whatever was never measured may be: the margins are those the rules ask about an injury,
each at its least.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import pi

from shapely import Geometry, Polygon
from shapely.affinity import scale

from tiremap.assessment import Assessment, case_of
from tiremap.errors import TiremapError
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.free_region import KeepAway, free_area, free_region, widest_gap
from tiremap.geometry.liner_strip import Strip
from tiremap.model.job import Injury
from tiremap.model.measures import Across, Around, HoleSize, Lean
from tiremap.model.prepared import Prepared
from tiremap.model.rule_set import AngleApart, AroundApart, ValuedLimit
from tiremap.model.stock import RepairUnit
from tiremap.model.units import radians
from tiremap.rules.case import Case
from tiremap.rules.head_at_edges import tread_edge_question
from tiremap.rules.hole_size import hole_size
from tiremap.rules.margins import least
from tiremap.rules.marks import MarkFacts, injury_facts
from tiremap.rules.pairs import Reach, reach_of
from tiremap.rules.place import passing_question
from tiremap.rules.reading import ENDLESS, Reading
from tiremap.rules.repair_count import repair_count

_NAMED = 4
"""How much of what is unknown is named in a sentence."""
_GREATEST = 2
"""Which of the half axes of a `HeadSize` is that of the greatest head."""


@dataclass(frozen=True, eq=False)
class FreePlaces:
    """Where the inside end of one more unit could lie.

    ``region`` lies on the assessment's strip (mm, cut at the datum), ``area_mm2`` is its area on the liner itself.
    ``widest_gap`` is from and to, radians, as `tiremap.geometry.free_region.widest_gap` gives them; ``widest_gap_mm``
    is that stretch on the tread. ``says`` is what a technician must know beside it: why nothing is free, that the tire
    itself is refused, what was unknown.
    """

    unit: RepairUnit
    region: Geometry
    area_mm2: float
    widest_gap: tuple[float, float] | None
    widest_gap_mm: float
    empty_because: str | None
    """Why nothing is free, or ``None`` where something is."""
    unknown: tuple[str, ...]
    """What nobody measured and was taken at its worst."""
    says: tuple[str, ...]

    @property
    def taken_at_worst(self) -> bool:
        """True where something unknown was taken at its worst: then this is what is certainly free, perhaps not all."""
        return bool(self.unknown)


def where_a_repair_could_go(assessment: Assessment, unit: RepairUnit) -> FreePlaces:
    """Where ``unit`` could still be placed on the tire of an assessment, beside all that is marked on it.

    Every marked injury counts as a repair to come. What is wrong with the tire as a whole takes nothing off the
    region; ``says`` tells it.
    """
    case = case_of(assessment)
    if case is None:
        why = assessment.reasons[0].says if assessment.reasons else "No guidance can be asked about this tire."
        return _nowhere(unit, why, (), ())
    center = _upright_at_center(case, unit)
    besides = tuple(_besides(assessment, case, center))
    counted = repair_count(replace(case, injuries=(*case.injuries, center)))
    over = next((reason.says for reason in counted if reason.level != "note"), None)
    if over is not None:
        return _nowhere(unit, f"One more repair is one too many. {over}", (), besides)
    marks = [*case.injuries, *case.repairs]
    unknown = tuple(dict.fromkeys(_unknown(case, center, marks)))
    half_width = _half_width(case, center)
    if half_width <= 0:
        return _nowhere(unit, "No width is left: hole and head do not fit inside their limits.", unknown, besides)
    reaches = [reach_of(case.facts, mark) for mark in marks]
    if any(mark.head.radius.high > ENDLESS for mark in marks):
        return _nowhere(unit, "A head of unknown size may reach anywhere.", unknown, besides)
    keep_away = [_keep_away(case, center, reach, half_width) for reach in reaches]
    strip = assessment.known_strip
    try:
        region = _on_drawn_strip(strip, case, free_region(_thickest(case), half_width, keep_away))
    except TiremapError as impossible:
        return _nowhere(unit, str(impossible), unknown, besides)
    gap = widest_gap(strip, region)
    if gap is None:
        return _nowhere(unit, "The injuries and repairs there leave no place free.", unknown, besides)
    gap_mm = (gap[1] - gap[0]) * case.facts.overall_diameter / 2
    says = (*besides, *_unknown_says(unknown))
    return FreePlaces(unit, region, free_area(strip, region), gap, gap_mm, None, unknown, says)


def smallest_unit_for(assessment: Assessment, mark_id: str | None) -> RepairUnit:
    """The unit an injury takes as far as its size is known, else the smallest in stock."""
    mark = None if mark_id is None else assessment.mark(mark_id)
    return mark.unit if mark is not None and mark.unit is not None else assessment.stock.units[0]


def _nowhere(unit: RepairUnit, why: str, unknown: tuple[str, ...], besides: tuple[str, ...]) -> FreePlaces:
    says = (why, *besides, *_unknown_says(unknown))
    return FreePlaces(unit, Polygon(), 0.0, None, 0.0, why, unknown, says)


def _upright_at_center(case: Case, unit: RepairUnit) -> MarkFacts:
    """An injury on the center plane that takes ``unit``: upright, reamed to its stem, nothing about it unknown."""
    stem, upright = unit.stem_mm, Lean(value=0.0, how="exact")
    injury = Injury(
        id="new", outside=Across(value=0.0, origin="center", how="exact"), around=Around(value=0.0, how="exact"),
        lean_across=upright, lean_around=upright, size_outside=HoleSize(value=stem, how="exact"),
        size_inside=HoleSize(value=stem, how="exact"),
    )
    return injury_facts(injury, case.facts, Prepared(stem, stem, stem, unit, unit, unit, foreseen=False))


def _half_width(case: Case, center: MarkFacts) -> float:
    """How far from the center plane (mm, tread coordinate) the unit may go, at the least the zone and tread may be.

    Upright, both its margins fall by 1 mm for each mm away, so the margin on the center plane is how far it may go.
    """
    margins = [least(passing_question(case, center))]
    word = case.job.tire.maker_word
    if word is None or not word.head_past_tread_edge:
        margins.append(least(tread_edge_question(case, center)))
    return min(margins)


def _keep_away(case: Case, new: MarkFacts, reach: Reach, half_width: float) -> KeepAway:
    """What the rule set keeps clear around a mark, wherever it may lie.

    The place across is taken no further than the band reaches, where the mark may lie inside and outside of it.
    """
    head, facts, strip = reach.mark.head, case.facts, _thickest(case)
    low, high = reach.whole_across
    if low <= half_width and high >= -half_width:
        low, high = max(low, -half_width), min(high, half_width)
    else:
        low = high = low if low > half_width else high
    furthest = max(abs(end) for end in reach.whole_across)
    around_low, around_high = reach.around
    return KeepAway(
        TreadPoint((low + high) / 2, (around_low + around_high) / 2 if around_high - around_low < 2 * pi else 0.0),
        across=strip.liner_across((high - low) / 2) + head.half_across[_GREATEST] + new.head.half_across[_GREATEST],
        around=head.half_around[_GREATEST] + new.head.half_around[_GREATEST],
        radius=head.radius.high + new.head.radius.high + case.heads_apart.value,
        around_tread=_strictest(case.limits_as_built(case.rule_set.around_apart)),
        angle=radians(_strictest(case.limits_as_built(case.rule_set.angles_apart))),
        astray=min(pi, (around_high - around_low) / 2),
        liner_radius=facts.liner_radius(furthest, facts.thickness.high),
    )


def _strictest(limits: list[AroundApart] | list[AngleApart]) -> float:
    return max((limit.value for limit in limits), default=0.0)


def _thickest(case: Case) -> Strip:
    """The strip of the thickest crown there may be: there two places are nearest to each other."""
    facts = case.facts
    return Strip(facts.overall_diameter, facts.thickness.high, facts.crown_radius)


def _on_drawn_strip(drawn: Strip, case: Case, region: Geometry) -> Geometry:
    """A region of the thickest strip at the same tread coordinates and angles of the drawn one."""
    thickest = _thickest(case)
    return scale(region, drawn.liner_across(1.0) / thickest.liner_across(1.0), drawn.R0 / thickest.R0, origin=(0, 0))


def _besides(assessment: Assessment, case: Case, center: MarkFacts) -> Iterator[str]:
    """What no place on the tire changes: refusals of the tire itself, and a stem the guidance finds too large."""
    for reason in assessment.reasons:
        if reason.level == "refuse" and reason.code != "repair_count":
            yield f"The tire itself is refused. {reason.says}"
    limit = case.largest_injury
    if any(reason.level != "note" for reason in hole_size(case, center)):
        stem, most = center.prepared_hole.high, "at most" if limit.operator == "<=" else "less than"
        yield f"A hole reamed to {stem:g} mm does not pass {case.rule_set.title} anywhere: {most} {limit.value:g} mm."


def _unknown_says(unknown: tuple[str, ...]) -> tuple[str, ...]:
    if not unknown:
        return ()
    named, more = unknown[:_NAMED], len(unknown) - _NAMED
    further = f", and {more} more" if more > 0 else ""
    return (f"Unknown and taken at its worst: {', '.join(named)}{further}.",)


def _unknown(case: Case, center: MarkFacts, marks: list[MarkFacts]) -> Iterator[str]:
    """What was never entered and may take something off the region, in words."""
    facts, tire = case.facts, case.job.tire
    zone = (reading for reading in passing_question(case, center).readings if reading is not center.thickness)
    yield from (reading.words for reading in zone if reading.stated is None)
    if not marks:
        return
    if tire.built is None and _hangs_on_building(case):
        yield "how the tire is built"
    if not facts.depths.entered:
        yield facts.depths.shallowest.words
    if facts.under_grooves is None:
        yield "the thickness under the grooves"
    for mark in marks:
        yield from (reading.words for reading in _readings(mark) if reading.stated is None)


def _hangs_on_building(case: Case) -> bool:
    """Whether how many repairs, or how far apart, is asked otherwise of tires built otherwise."""
    rule_set = case.rule_set
    limits: tuple[ValuedLimit, ...] = (
        *case.limits_as_built(rule_set.repair_counts), *case.around_apart, *case.angles_apart
    )
    return any(limit.built for limit in limits)


def _readings(mark: MarkFacts) -> tuple[Reading, ...]:
    """The readings that place a mark's inside end and size its head."""
    across = (mark.inside_reading,) if mark.inside is not None else (mark.outside_reading, mark.lean_across)
    return (*across, mark.around, mark.lean_around, mark.head.radius)
