"""With nothing unknown and every measurement exact there is nothing left to measure."""

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from tests.helpers.answers import answer, on_a_limit
from tests.helpers.counts import examples
from tests.helpers.full_jobs import JOB_DATE, SIZES, exact, published
from tests.helpers.jobs import all_fine, evenly_worn
from tiremap.model.job import Injury, Job, MakerWord, Repair, Tire
from tiremap.model.measures import Across, Around, HoleSize, Lean
from tiremap.model.rule_set import RuleSet
from tiremap.model.size_code import read_size_code


@st.composite
def exactly_known(draw: st.DrawFn, rule_set: RuleSet) -> Job:
    """A job with nothing unknown, every measurement exact and in agreement, and the makers' words where a set asks."""
    code = draw(st.sampled_from([size for each in rule_set.classes for size in SIZES.get(each, ())]))
    nominal = read_size_code(code).nominal_width_mm
    width = draw(st.floats(0.6 * nominal, nominal))
    reach = draw(st.sampled_from([0.2, 0.55])) * nominal

    def across() -> Across:
        return exact(draw(st.floats(-reach, reach)), Across, origin="center")

    def around() -> Around:
        return exact(draw(st.floats(0, 360)), Around)

    def injury(id: str) -> Injury:
        size = draw(st.floats(1, 7))
        return Injury(
            id=id, outside=across(), around=around(), lean_across=exact(draw(st.floats(-60, 60)), Lean),
            lean_around=exact(draw(st.floats(-60, 60)), Lean), size_outside=exact(size, HoleSize),
            size_inside=exact(size, HoleSize),
            # less than 6 mm, of the hole or the cutter: known to hold for both once the hole is reamed
            size_prepared=exact(size) if rule_set.name == "european_makers" else None,
        )

    def repair(id: str) -> Repair:
        head = exact(draw(st.floats(20, 80)))
        return Repair(id=id, inside=across(), around=around(), head_length=head, kind="stem_and_head")

    two_edges = any(zone.refused_beyond is not None for zone in rule_set.crown_zones)
    word = MakerWord(
        source="the makers", zone_inset=exact(draw(st.floats(0, 40))) if two_edges else None, head_past_tread_edge=True
    )
    depth = exact(draw(st.floats(0, 2) if draw(st.integers(0, 4)) == 0 else st.floats(2, 9)))
    tire = Tire(
        size_code=code, tread_width=exact(width), **evenly_worn(depth),
        under_grooves=exact(draw(st.floats(3, 12))), belt_width=exact(draw(st.floats(0.5, 1.05)) * width),
        built=draw(st.sampled_from(["standard", "self_supporting"])), sealant_used=draw(st.integers(0, 4)) == 0,
        date_code=draw(st.sampled_from(["0118", "2418", "0110"])), maker_word=word,
    )
    earlier = tuple(repair(f"R{number}") for number in range(draw(st.integers(0, 2))))
    return Job(
        rule_set=rule_set.name, date=JOB_DATE, tire=tire, checks=all_fine(repairs=bool(earlier)), repairs=earlier,
        injuries=tuple(injury(str(number)) for number in range(draw(st.integers(1, 2)))),
    )


@settings(max_examples=examples(120), deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data(), st.sampled_from(published()))
def test_exact_measurements_of_everything_leave_nothing_to_measure(data, rule_set):
    found = answer(data.draw(exactly_known(rule_set)))
    assume(not on_a_limit(found))
    event(found.answer)
    assert [reason.says for reason in found.all_reasons if reason.level == "measure"] == []
    assert found.answer in ("repairable", "not_repairable")
