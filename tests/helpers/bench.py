"""Hypothesis strategies for whole jobs as a careful bench leaves them, and for what may be true beneath a tolerance.

``bench_jobs()`` ranges over jobs whose measurements agree with each other; ``truths(job)`` draws one exact job that
the measurements of a job allow: every quantity has one value within its tolerance, or within all that is possible of
it where it was never entered.
"""

from typing import Any

from hypothesis import strategies as st

from tests.helpers.jobs import all_fine, at_angle, gauged, probed, taped
from tiremap.edits.change import changed
from tiremap.model.job import Injury, Job, Repair, Tire
from tiremap.model.measures import Across, Around, HoleSize, Lean, Length
from tiremap.model.rule_set_file import rule_set_names
from tiremap.model.size_code import read_size_code
from tiremap.model.tolerances import around_range, hole_range, lean_range, length_ends, length_range
from tiremap.model.tread_width import tread_width_estimate
from tiremap.rules.facts import tire_facts

SIZES = ("205/55R16 91V", "225/45R17 94W", "155/80R13 79T", "LT245/75R16 120/116S", "195R14C 106/104R", "315/35ZR20")
RULE_SETS = rule_set_names()


@st.composite
def bench_jobs(
    draw: st.DrawFn, injuries: tuple[int, int] = (1, 2), repairs: tuple[int, int] = (0, 1), unknowns: bool = True
) -> Job:
    """A job with every check fine; with ``unknowns``, any measurement may be missing."""
    code = draw(st.sampled_from(SIZES))
    size = read_size_code(code)
    estimate = tread_width_estimate(size)
    width = draw(st.floats(estimate.least_mm + 2, estimate.greatest_mm - 2))

    def perhaps(value: Any) -> Any:
        return None if unknowns and draw(st.integers(0, 3)) == 0 else value

    tire = Tire(
        size_code=code,
        tread_width=perhaps(taped(width)),
        tread_depth=perhaps(gauged(draw(st.floats(0.5, 9.0)))),
        tread_depth_central=gauged(draw(st.floats(0.5, 9.0))) if draw(st.integers(0, 3)) == 0 else None,
        under_grooves=perhaps(gauged(draw(st.floats(5.5, 11.0)))),
        built=perhaps(draw(st.sampled_from(["standard", "self_supporting"]))),
        sealant_used=perhaps(False),
    )
    marks = tuple(
        Injury(
            id=str(number + 1),
            outside=draw(places(width)),
            around=perhaps(at_angle(draw(st.floats(0, 360)))),
            lean_across=perhaps(probed(draw(st.floats(-50, 50)))),
            lean_around=perhaps(probed(draw(st.floats(-50, 50)))),
            size_outside=perhaps(HoleSize(value=draw(st.floats(1, 9)), how="gauge")),
            size_inside=perhaps(HoleSize(value=draw(st.floats(1, 9)), how="gauge")),
        )
        for number in range(draw(st.integers(*injuries)))
    )
    earlier = tuple(
        Repair(
            id=f"R{number + 1}",
            inside=perhaps(Across(value=draw(st.floats(-width / 2, width / 2)), how="probe", origin="center")),
            around=perhaps(at_angle(draw(st.floats(0, 360)))),
            head_length=perhaps(taped(draw(st.floats(25, 70)))),
            kind="stem_and_head",
        )
        for number in range(draw(st.integers(*repairs)))
    )
    return Job(
        rule_set=draw(st.sampled_from(RULE_SETS)), tire=tire, checks=all_fine(repairs=bool(earlier)),
        injuries=marks, repairs=earlier,
    )


def places(width_mm: float) -> st.SearchStrategy[Across]:
    """A place across by tape or by eye, from an edge or the center, anywhere on a tread and a little past it."""
    either_edge = st.sampled_from(["outboard_edge", "inboard_edge"])
    edges = st.builds(Across, value=st.floats(0, width_mm), how=st.just("tape"), origin=either_edge)
    reach = width_mm / 2 + 15
    return edges | st.builds(
        Across, value=st.floats(-reach, reach), how=st.sampled_from(["tape", "eye"]), origin=st.just("center")
    )


@st.composite
def truths(draw: st.DrawFn, job: Job) -> Job:
    """One exact job that the measurements of ``job`` allow."""
    facts = tire_facts(job)
    assert facts is not None

    def within(low: float, high: float) -> float:
        return draw(st.sampled_from([low, high]) | st.floats(low, high)) if low < high else low

    def length(value: float) -> Length:
        return Length(value=max(0.0, value), how="exact")

    tire = job.tire
    depth, central = within(facts.tread_depth.low, facts.tread_depth.high), None
    if tire.tread_depth_central is not None:
        central = within(facts.depths.central.low, facts.depths.central.high)
        depth = central if tire.tread_depth is None else depth
    at_a_hole = facts.depths.at_a_hole
    whole = within(max(depth, facts.thickness.low), facts.thickness.high)
    if tire.under_grooves is not None:
        low, _, high = length_range("under_grooves", tire.under_grooves)
    else:
        low, high = facts.thickness.low - at_a_hole.low, facts.thickness.high - at_a_hole.high
    under = min(max(whole - depth, low), high)
    true_tire = changed(
        tire,
        tread_width=length(within(facts.tread_width.low, facts.tread_width.high)),
        tread_depth=None if tire.tread_depth is None and central is not None else length(depth),
        tread_depth_central=None if central is None else length(central),
        under_grooves=length(under),
        built=tire.built or draw(st.sampled_from(["standard", "self_supporting"])),
        sealant_used=draw(st.booleans()) if tire.sealant_used is None else tire.sealant_used,
    )

    def place(taken: Across) -> Across:
        minus, plus = length_ends("across", taken, taken.unit)
        return Across(value=within(taken.mm - minus, taken.mm + plus), how="exact", origin=taken.origin)

    def around(taken: Around | None) -> Around:
        low, high = (-180.0, 180.0)
        if taken is not None:
            low, _, high = around_range(taken, facts.overall_diameter / 2)
        return Around(value=within(low, high), how="exact")

    def lean(taken: Lean | None) -> Lean:
        low, high = (-60.0, 60.0) if taken is None else (lean_range(taken)[0], lean_range(taken)[2])
        return Lean(value=within(low, high), how="exact")

    def hole(taken: HoleSize | None) -> HoleSize | None:
        if taken is None:
            return None
        low, _, high = hole_range(taken)
        return HoleSize(value=within(low, high), how="exact")

    def injury(taken: Injury) -> Injury:
        outside, inside = hole(taken.size_outside), hole(taken.size_inside)
        if outside is None and inside is None:
            outside = HoleSize(value=within(0.5, 9.0), how="exact")
        assert taken.outside is not None
        return changed(
            taken, outside=place(taken.outside), around=around(taken.around), lean_across=lean(taken.lean_across),
            lean_around=lean(taken.lean_around), size_outside=outside, size_inside=inside,
        )

    def repair(taken: Repair) -> Repair:
        inside = Across(value=within(-90.0, 90.0), how="exact", origin="center")
        if isinstance(taken.inside, Across):
            inside = place(taken.inside)
        head = length(within(20.0, 80.0))
        if taken.head_length is not None:
            low, _, high = length_range("head", taken.head_length)
            head = length(within(low, high))
        return changed(taken, inside=inside, around=around(taken.around), head_length=head)

    return changed(
        job, tire=true_tire, injuries=tuple(map(injury, job.injuries)), repairs=tuple(map(repair, job.repairs))
    )
