"""What is called free passes where an injury is put there, and what is not called free does not."""

import math
from typing import Any

import shapely
from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st
from shapely.affinity import translate

from tests.helpers.bench import RULE_SETS, SIZES, bench_jobs
from tests.helpers.jobs import all_fine, evenly_worn
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.free_places import FreePlaces, where_a_repair_could_go
from tiremap.geometry.frames import StripPoint, TreadPoint
from tiremap.model.job import Injury, Job, MakerWord, Repair, Tire
from tiremap.model.measures import Across, Around, HoleSize, Lean, Length
from tiremap.model.size_code import read_size_code
from tiremap.model.stock import RepairUnit
from tiremap.model.tread_width import tread_width_estimate
from tiremap.workshop.stock import house_stock

UNITS = (
    *house_stock().units[1:5:3], house_stock().units[0],
    RepairUnit(stem_mm=6.0, head_length_mm=70.0, head_width_mm=40.0, head_along="around"),
    RepairUnit(stem_mm=6.0, head_length_mm=70.0, head_width_mm=40.0, head_along="across"),
)
CODES = ("place", "head_at_tread_edge", "heads_overlap", "around_apart", "angle_apart", "repair_count")
MANY = settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
FEW = settings(MANY, max_examples=60)


def exact(value: float) -> Length:
    return Length(value=value, how="exact")


def upright(value: float = 0.0) -> Lean:
    return Lean(value=value, how="exact")


@st.composite
def exact_jobs(draw: st.DrawFn) -> Job:
    """A job with nothing unknown and every measurement exact, with up to three injuries and repairs."""
    code = draw(st.sampled_from(SIZES))
    estimate = tread_width_estimate(read_size_code(code))
    width = draw(st.floats(estimate.least_mm, estimate.greatest_mm))
    tire = Tire(
        size_code=code,
        tread_width=exact(width),
        **evenly_worn(exact(draw(st.floats(3, 9)))),
        under_grooves=exact(draw(st.floats(4, 11))),
        belt_width=exact(width * draw(st.floats(0.85, 1.05))),
        built=draw(st.sampled_from(["standard", "self_supporting"])),
        sealant_used=False,
        maker_word=draw(st.none() | maker_words()),
    )
    kinds = draw(st.lists(st.sampled_from([Injury, Repair]), max_size=3))
    marks = [_mark(draw, kind, str(number), width) for number, kind in enumerate(kinds)]
    repairs = tuple(mark for mark in marks if isinstance(mark, Repair))
    return Job(
        rule_set=draw(st.sampled_from(RULE_SETS)), tire=tire, checks=all_fine(repairs=bool(repairs)),
        injuries=tuple(mark for mark in marks if isinstance(mark, Injury)), repairs=repairs,
    )


def maker_words() -> st.SearchStrategy[MakerWord]:
    return st.builds(
        MakerWord, source=st.just("the maker"), zone_inset=st.none() | st.floats(5, 45).map(exact),
        head_past_tread_edge=st.booleans(),
    )


def _mark(draw: st.DrawFn, kind: type, id: str, width: float) -> Injury | Repair:
    across = Across(value=draw(st.floats(-width / 2, width / 2)), origin="center", how="exact")
    around = Around(value=draw(st.floats(0, 360)), how="exact")
    if kind is Repair:
        length = draw(st.floats(30, 90))
        head_width = draw(st.none() | st.floats(25, length).map(exact))
        along = draw(st.sampled_from(["around", "across"]))
        return Repair(
            id=id, inside=across, around=around, head_length=exact(length), head_width=head_width, head_along=along,
            kind="stem_and_head",
        )
    size = HoleSize(value=draw(st.floats(2, 9)), how="exact")
    leans = [upright(draw(st.sampled_from([0.0]) | st.floats(-40, 40))) for _ in range(2)]
    return Injury(
        id=id, outside=across, around=around, lean_across=leans[0], lean_around=leans[1], size_outside=size,
        size_inside=size,
    )


def places(assessment: Assessment, free: FreePlaces) -> st.SearchStrategy[TreadPoint]:
    """Places anywhere on the tread, by the edge of the region, and inside it."""
    reach = assessment.facts.tread_width.high / 2
    anywhere = st.builds(TreadPoint, st.floats(-reach, reach), st.floats(0, 2 * math.pi))
    if free.region.is_empty:
        return anywhere
    edge = free.region.boundary
    toward = st.floats(0, 2 * math.pi)

    def beside(share: float, angle: float, off: float) -> TreadPoint:
        at = edge.interpolate(share, normalized=True)
        point = StripPoint(at.x + off * math.cos(angle), at.y + off * math.sin(angle))
        return assessment.strip.tread_place(point)

    return anywhere | st.builds(beside, st.floats(0, 1), toward, st.floats(0.05, 1.0))


def depth_in(assessment: Assessment, region: Any, place: TreadPoint) -> float:
    """How far inside the region a place lies, mm on the strip, the datum no edge; negative outside."""
    strip = assessment.strip
    if region.is_empty:
        return -math.inf
    rounded = shapely.transform(region, lambda corners: corners.round(7))  # union_all overflows on 1e-300
    turns = [translate(rounded, yoff=turn * strip.circumference) for turn in (-1, 0, 1)]
    whole = shapely.union_all(turns, grid_size=1e-6)
    point = shapely.Point(strip.point(place))
    return whole.boundary.distance(point) if whole.contains(point) else -whole.distance(point)


def put_there(job: Job, unit: RepairUnit, place: TreadPoint) -> Assessment:
    """The job with one more hole at a place: upright, reamed to the unit's stem, everything exact; no advice."""
    size = HoleSize(value=unit.stem_mm, how="exact")
    new = Injury(
        id="new", outside=Across(value=place.s, origin="center", how="exact"),
        around=Around(value=math.degrees(place.a), how="exact"), lean_across=upright(), lean_around=upright(),
        size_outside=size, size_inside=size, size_prepared=exact(unit.stem_mm),
    )
    stock = house_stock().model_copy(update={"units": (unit, *_thicker_and_larger(unit))})
    return assess(changed(job, injuries=(*job.injuries, new)), stock=stock, advise=False)


def stocked(job: Job, unit: RepairUnit) -> Assessment:
    """The job assessed in a shop that fits ``unit`` wherever its stem is thick enough."""
    stock = house_stock().model_copy(update={"units": (unit, *_thicker_and_larger(unit))})
    return assess(job, stock=stock, advise=False)


def _thicker_and_larger(unit: RepairUnit) -> list[RepairUnit]:
    return [each for each in house_stock().units if each.stem_mm > unit.stem_mm]


def standing_against(assessment: Assessment) -> set[str]:
    """Codes of the checks of place, pair and count that keep the new hole from passing."""
    new = assessment.mark("new")
    pairs = (pair for pair in assessment.pairs if "new" in (pair.first, pair.second))
    reasons = [*assessment.reasons, *new.reasons, *(reason for pair in pairs for reason in pair.reasons)]
    return {reason.code for reason in reasons if reason.code in CODES and reason.level in ("refuse", "measure")}


@MANY
@given(st.data())
def test_with_everything_exact_a_place_is_free_exactly_where_an_injury_there_passes(data):
    job, unit = data.draw(exact_jobs()), data.draw(st.sampled_from(UNITS))
    before = stocked(job, unit)
    free = where_a_repair_could_go(before, unit)
    assume(before.answer is not None and before.zone is not None)
    assert not free.unknown
    place = data.draw(places(before, free))
    depth = depth_in(before, free.region, place)
    assume(abs(depth) > 0.1)
    against = standing_against(put_there(job, unit, place))
    if depth > 0:
        event("free")
        assert against == set()
    else:
        event(f"not free: {', '.join(sorted(against))}")
        assert against


@MANY
@given(st.data())
def test_whatever_is_unknown_an_injury_put_exactly_where_it_is_free_passes(data):
    job = data.draw(bench_jobs(injuries=(0, 2), repairs=(0, 2), unknowns=data.draw(st.booleans())))
    unit = data.draw(st.sampled_from(UNITS))
    before = stocked(job, unit)
    free = where_a_repair_could_go(before, unit)
    if free.region.is_empty:
        event("nothing is free")
        return
    place = data.draw(places(before, free))
    if depth_in(before, free.region, place) > 1e-4:
        event("free")
        assert standing_against(put_there(job, unit, place)) == set()


@FEW
@given(st.data())
def test_forgetting_the_tread_width_or_one_more_injury_frees_nothing(data):
    job = data.draw(bench_jobs(injuries=(1, 2), repairs=(1, 1), unknowns=False))
    unit = data.draw(st.sampled_from(UNITS))

    def region(job: Job) -> Any:
        return where_a_repair_could_go(stocked(job, unit), unit).region

    forgetful = changed(job, tire=changed(job.tire, **{data.draw(st.sampled_from(["tread_width", "built"])): None}))
    fewer = changed(job, injuries=job.injuries[1:])
    # Corners of an outline lie elsewhere in a narrower band: 0.02 mm is more than their chords differ.
    assert region(forgetful).difference(region(job).buffer(0.02)).is_empty
    assert region(job).difference(region(fewer).buffer(0.02)).is_empty


@FEW
@given(st.data(), st.floats(-720, 720))
def test_turning_the_tire_changes_no_free_area(data, turn):
    job, unit = data.draw(exact_jobs()), data.draw(st.sampled_from(UNITS))

    def turned(mark):
        return changed(mark, around=Around(value=mark.around.value + turn, how="exact"))

    there = changed(job, injuries=tuple(map(turned, job.injuries)), repairs=tuple(map(turned, job.repairs)))
    one, other = (where_a_repair_could_go(stocked(each, unit), unit) for each in (job, there))
    assert math.isclose(one.area_mm2, other.area_mm2, rel_tol=1e-6, abs_tol=1e-3)
    assert math.isclose(one.widest_gap_mm, other.widest_gap_mm, rel_tol=1e-6, abs_tol=1e-3)
