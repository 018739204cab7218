"""An answer under tolerances and unknowns never contradicts an exact answer inside them."""

import pytest
from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from tests.helpers.answers import answer, measured_twice_and_disagrees, on_a_limit
from tests.helpers.counts import examples
from tests.helpers.full_jobs import BRINKS, every_rule_set, exact_jobs_inside, full_jobs, published
from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.edits.change import changed
from tiremap.model.job import TypedDimensions
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.facts import tire_facts

TRUTHS = 4
"""Exact jobs tried inside each job with tolerances."""

ASKING = {"belt": ("new_zealand",), "apart": ("new_zealand", "japan", "north_america")}
"""The rule sets that ask for what lies about its limit, where not all do."""

MANY = settings(max_examples=examples(20), deadline=None, suppress_health_check=list(HealthCheck))
FEW = settings(MANY, max_examples=examples(40))
LONG = settings(MANY, max_examples=examples(500))


@pytest.mark.parametrize("brink", ["", *BRINKS])
@MANY
@given(st.data())
def test_no_exact_value_of_any_number_entered_is_contradicted(brink, data):
    _no_contradiction(brink, data)


@pytest.mark.long
@pytest.mark.parametrize("brink", ["", *BRINKS])
@LONG
@given(st.data())
def test_no_exact_value_is_contradicted_over_a_great_many_jobs(brink, data):
    _no_contradiction(brink, data)


def _no_contradiction(brink: str, data: st.DataObject) -> None:
    asking = [each for each in every_rule_set() if brink not in ASKING or each.name in ASKING[brink]]
    rule_set = data.draw(st.sampled_from(asking))
    near = brink != "" or data.draw(st.booleans())
    unknowns = not near or data.draw(st.integers(0, 3)) == 0
    job = data.draw(full_jobs(rule_set, near=near, brink=brink, unknowns=unknowns))
    found = answer(job, rule_set)
    event(found.answer)
    if found.answer == "measure_first" or on_a_limit(found):
        return
    for _ in range(TRUTHS):
        truth = answer(data.draw(exact_jobs_inside(job)), rule_set)
        assert truth.answer == found.answer or on_a_limit(truth)


@FEW
@given(st.data(), st.sampled_from(published()), st.booleans())
def test_a_measured_section_width_never_contradicts_the_size_code_it_may_stand_for(data, rule_set, near):
    job = data.draw(
        full_jobs(rule_set, injuries=(1, 1), repairs=(0, 0), near=near, unknowns=False, date_code="1024")
    )
    job = changed(job, injuries=(changed(job.injuries[0], inside=None),))  # a place on the liner hangs on the drawing
    size = tire_facts(job)
    nominal = size.dimensions.nominal_width_mm
    typed = TypedDimensions(
        overall_diameter_mm=size.overall_diameter, section_width_mm=data.draw(st.floats(0.98 * nominal, 1.1 * nominal)),
        rim_diameter_mm=size.dimensions.rim_diameter_mm, rim_width_in=size.dimensions.rim_width_in,
    )
    tire = changed(job.tire, size_code=None, typed_dimensions=typed, tire_class=size.tire_class)
    taped = changed(job, tire=tire)
    by_code, by_tape = answer(job), answer(taped)
    assume(not on_a_limit(by_code) and not on_a_limit(by_tape) and not measured_twice_and_disagrees(job))
    event(by_tape.answer)
    if by_tape.answer != "measure_first":
        assert by_code.answer == by_tape.answer


def test_a_size_limit_that_hangs_on_the_width_is_open_for_every_width_it_may_be():
    # Australia, light truck: 6 mm up to 185 mm nominal, 8 mm over it
    rule_set = rule_set_named("australia")
    for size_code, expected in (("185R14C 102/100R", "not_repairable"), ("205/75R14C 109/107R", "repairable")):
        hole = {"value": 7.0, "how": "exact"}
        seven = crown_injury(size_outside=hole, size_inside=hole, size_prepared={"value": 7.0, "how": "exact"})
        job = bench_job(seven, tire=measured_tire(size_code, tread_width_mm=140.0))
        typed = TypedDimensions(
            overall_diameter_mm=650.0, section_width_mm=195.0, rim_diameter_mm=356.0, rim_width_in=5.5
        )
        taped = measured_tire(None, tread_width_mm=140.0, typed_dimensions=typed, tire_class="light_truck")
        assert answer(job, rule_set).answer == expected
        assert answer(changed(job, tire=taped), rule_set).answer == "measure_first"
