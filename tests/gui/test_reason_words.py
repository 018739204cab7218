"""What the answer panel and the list of reasons say of a reason."""

import pytest
from PySide6.QtCore import Qt

from tests.helpers.jobs import (
    at_angle,
    bench_job,
    crown_injury,
    earlier_repair,
    from_center,
    from_outboard_edge,
    gauged,
    measured_tire,
)
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.model.job import Finding, Injury, Job, Tire
from tiremap.rules.reasons import Reason
from tiremap.ui import reason_words
from tiremap.ui.compare_rows import margin_says


def refused():
    """12 mm from the outboard edge of a 170 mm tread, under a limit of 25.4 mm inside it."""
    return bench_job(crown_injury(outside=from_outboard_edge(12.0)), rule_set="north_america", tire=measured_tire())


def test_one_margin_is_told_once():
    counted = Reason("repair_count", "refuse", "", "", 3.0, 2.0, "repairs", margin=-1, margin_low=-1, margin_high=-1)
    assert reason_words.figures(counted, "mm") == "value 3 repairs, limit 2 repairs, margin −1 repairs"


@pytest.mark.parametrize(("stated", "low", "high", "says"), [
    (None, None, 85.5, "margin 85.5 mm at best"), (None, 3.0, None, "margin 3 mm at worst"),
    (None, None, -20.4, "margin −20.4 mm at best"), (4.0, None, 6.0, "margin 4 mm (6 mm at best)"),
    (4.0, 2.0, 6.0, "margin 4 mm (2 mm to 6 mm)"), (None, 2.0, 6.0, "margin 2 mm to 6 mm"),
])
def test_an_end_of_a_margin_that_has_no_bound_is_left_out(stated, low, high, says):
    reason = Reason("place", "measure", "", "", unit="mm", margin=stated, margin_low=low, margin_high=high)
    assert reason_words.figures(reason, "mm") == says
    beside = margin_says(reason, "mm").replace("\n", " ")
    assert beside == says.removeprefix("margin ")


def test_a_grade_its_source_begins_with_is_not_said_twice():
    assessment = assess(refused())
    place = next(each for each in assessment.all_reasons if each.code == "place")
    assert place.source.startswith("common practice") and reason_words.source(place, assessment) == place.source
    hole = next(each for each in assessment.all_reasons if each.code == "hole_size")
    grade = reason_words.grade_of(hole, assessment.rule_set)
    assert grade and reason_words.source(hole, assessment) == f"{hole.source} [{grade}]"


def test_under_a_refusal_no_margin_is_said_to_be_unknown(open_window):
    """One click in the shoulder: the line above says how far outside it is at best."""
    eye = {"outside": from_center(115.0, how="eye"), "around": None}
    tire, click = Tire(size_code="205/55R16"), Injury(id="1", **eye)
    window = open_window(Job(rule_set="united_kingdom", tire=tire, injuries=(click,)))
    window.desk.choose("1")
    answer = window.desk.answer
    assert "at best" in answer.next.text() and answer.margin.text() == "Injury 1: Not repairable"


def test_a_refusal_says_how_far_outside_and_leads_to_the_entry(open_window):
    window = open_window(refused())
    first = window.desk.reasons.list.item(0).data(Qt.ItemDataRole.UserRole)
    assert first.turns.field == "injury.1.outside"
    assert first.turns.stated == 12.0
    assert window.desk.answer.next.text().endswith("; no measurement changes it.")
    assert window.desk.answer.next.text().startswith("Injury 1: ")
    wanted = []
    window.desk.reasons.field_wanted.connect(wanted.append)
    window.desk.reasons.list.itemClicked.emit(window.desk.reasons.list.item(0))
    assert wanted == ["injury.1.outside"]


def test_found_damage_is_not_measured_away():
    job = refused()
    found = changed(job, checks=changed(job.checks, bulge=Finding(state="found")), injuries=(crown_injury(),))
    assessment = assess(found)
    reason = next(each for each in assessment.all_reasons if each.level == "refuse")
    assert reason.says.endswith("No measurement changes this.")
    assert reason.leads_to == "checks.bulge"
    assert reason_words.next_step(assessment, "mm") == reason.says


def test_measure_first_names_one_next_measurement():
    job = bench_job(crown_injury(), rule_set="north_america", tire=measured_tire(tread_depth=None))
    assert reason_words.next_step(assess(job), "mm") == "Next: measure the tread depth: 1.6 mm or more passes."
    assert reason_words.next_step(assess(job), "in") == "Next: measure the tread depth: 0.063 in or more passes."


def test_more_than_a_limit_is_not_at_least_it():
    """Japan asks more than 1.6 mm: 1.6 mm itself does not pass."""
    job = bench_job(crown_injury(), rule_set="japan", tire=measured_tire(tread_depth=None))
    depth = next(each for each in assess(job).all_reasons if each.code == "tread_depth")
    assert depth.settles.at_least == 1.7
    on_it = changed(job, tire=changed(job.tire, tread_depth=gauged(1.6, minus=0.0, plus=0.0)))
    refusal = next(each for each in assess(on_it).all_reasons if each.code == "tread_depth")
    assert refusal.level == "refuse"
    assert "On the limit" in refusal.says
    assert refusal.turns.at_least == 1.7


def test_an_earlier_repair_too_near_names_the_place_around_that_would_have_to_be_wrong():
    job = bench_job(crown_injury(around_deg=0.0), earlier_repair(around_deg=2.0))
    reason = next(each for each in assess(job).all_reasons if each.code == "heads_overlap")
    assert reason.level == "refuse"
    assert reason.turns.unit == "deg"
    assert "around the tire was" in reason.says


def test_a_place_around_nobody_took_is_told_how_far_from_the_other_repair_it_passes():
    job = bench_job(crown_injury(around_deg=None), earlier_repair(around_deg=90.0))
    reason = next(each for each in assess(job).all_reasons if each.code == "heads_overlap")
    away = reason.settles.away
    assert (reason.level, reason.settles.field, reason.settles.away_from) == ("measure", "injury.1.around", "repair R1")
    assert f"{away:g} degrees or more from repair R1 passes" in reason.says

    def level_at(angle):
        taken = at_angle(angle, minus=0.0, plus=0.0)
        there = changed(job, injuries=(changed(job.injuries[0], around=taken),))
        return next(each for each in assess(there).all_reasons if each.code == "heads_overlap").level

    assert level_at(90.0 + away) == level_at(90.0 - away) == "note"
    assert level_at(90.0 + away - 1.1) == level_at(90.0 - away + 1.1) == "measure"
