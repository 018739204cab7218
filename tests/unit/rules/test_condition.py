"""The condition checks: what each found one leads to, what is asked of those open, what is called sound."""

import pytest

from tests.helpers.jobs import all_fine, bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.model.job import Checks, Finding, Injury, Tire
from tiremap.model.measures import Length
from tiremap.rules.condition import condition_checks
from tiremap.rules.reasons import Reason, Settles, Turns

FOUND = Finding(state="found")
BY_NAME = {check.name: check for check in condition_checks()}
RING_SOURCE = BY_NAME["run_flat_ring"].source
"""Of the first check; a reason about several of them names it."""


def conditions(checks: Checks, *injuries: Injury, tire: Tire | None = None) -> list[Reason]:
    job = bench_job(*(injuries or [crown_injury()]), checks=checks, tire=tire or measured_tire())
    return [each for each in assess(job, advise=False).reasons if each.code.startswith("condition")]


def test_a_technician_goes_over_a_tire_in_this_order():
    assert list(BY_NAME) == ["run_flat_ring", "bead", "bulge", "cords", "cracks", "liner", "chemical", "inner_tube"]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("run_flat_ring", "run-flat ring"), ("bead", "beads"), ("bulge", "bulges"), ("cords", "cords"),
        ("cracks", "weather cracks"), ("liner", "liner"), ("chemical", "chemicals"), ("inner_tube", "inner tube"),
    ],
)
def test_one_found_refuses_alone_and_leads_back_to_its_check(name, words):
    (reason,) = conditions(changed(all_fine(), **{name: FOUND}))
    assert (reason.code, reason.level) == (f"condition_{name}", "refuse")
    assert (reason.says, reason.source) == (BY_NAME[name].found, BY_NAME[name].source)
    assert reason.turns == Turns(f"checks.{name}", words)


def test_two_found_refuse_with_a_reason_each():
    both = conditions(changed(all_fine(), bead=FOUND, liner=FOUND))
    assert [each.code for each in both] == ["condition_bead", "condition_liner"]


@pytest.mark.parametrize(
    ("open_ones", "words", "says"),
    [
        (["liner"], "liner", "Not yet looked at: liner."),
        (["run_flat_ring"], "run-flat ring", "Not yet looked at: run-flat ring."),
        (["bead", "cords"], "the tire's condition (2 checks)", "Not yet looked at: beads, cords."),
        (["bead", "cords", "liner"], "the tire's condition (3 checks)", "Not yet looked at: beads, cords, liner."),
    ],
)
def test_those_nobody_looked_at_are_asked_in_one_line_that_leads_to_the_first(open_ones, words, says):
    (reason,) = conditions(changed(all_fine(), **dict.fromkeys(open_ones)))
    field = f"checks.{open_ones[0]}"
    assert (reason.code, reason.level, reason.says) == ("condition", "measure", says)
    assert (reason.settles, reason.asks) == (Settles(field, words, ""), ((field, words),))
    assert reason.source == BY_NAME[open_ones[0]].source


def test_one_found_beside_one_open_is_refused_and_the_open_one_is_still_told():
    said = conditions(changed(all_fine(), bead=FOUND, liner=None))
    assert [(each.code, each.level) for each in said] == [("condition_bead", "refuse"), ("condition", "measure")]


ALL = "run-flat ring, beads, bulges, cords, weather cracks, liner, chemicals, inner tube"
NO_CORDS = "run-flat ring, beads, bulges, weather cracks, liner, chemicals, inner tube"
NO_CRACKS = "run-flat ring, beads, bulges, cords, liner, chemicals, inner tube"


@pytest.mark.parametrize(
    ("splayed", "sound"),
    [
        ([None], ALL), ([False], ALL), ([True], NO_CORDS), ([False, False], ALL), ([None, False], ALL),
        ([True, False], NO_CORDS), ([False, True], NO_CORDS), ([True, True], NO_CORDS),
    ],
)
def test_cords_are_called_sound_unless_they_are_splayed_at_any_hole(splayed, sound):
    holes = [crown_injury(str(n), around_deg=90.0 * n, cords_splayed=each) for n, each in enumerate(splayed, 1)]
    (reason,) = conditions(all_fine(), *holes)
    assert (reason.code, reason.level) == ("condition", "note")
    assert (reason.says, reason.source) == (f"Sound: {sound}.", RING_SOURCE)


def test_cracks_that_were_measured_are_not_called_sound_and_not_refused_by_the_check():
    tire = measured_tire(crack_depth=Length(value=1.0, how="exact"), cracks_joined=False)
    for check in (Finding(state="fine"), FOUND):
        (reason,) = conditions(changed(all_fine(), cracks=check), tire=tire)
        assert (reason.level, reason.says) == ("note", f"Sound: {NO_CRACKS}.")
