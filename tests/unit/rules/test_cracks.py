"""Weather cracks: the depth as a reading, and what is said of it (2/32 in is 1.5875 mm)."""

import pytest

from tests.helpers.jobs import all_fine, bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.model.job import Finding
from tiremap.model.measures import Length
from tiremap.rules.cracks import crack_depth_limit
from tiremap.rules.reasons import Reason, Settles, Turns

JOINED_WORDS = "whether the weather cracks are joined up"


def cracks(depth: Length | None, joined: bool | None = False, check: str = "found") -> dict[str, Reason]:
    tire = measured_tire(crack_depth=depth, cracks_joined=joined)
    job = bench_job(crown_injury(), checks=changed(all_fine(), cracks=Finding(state=check)), tire=tire)
    said = [each for each in assess(job, advise=False).reasons if each.code in ("crack_depth", "cracks_joined")]
    return {each.code: each for each in said}


def margins(reason: Reason) -> tuple[float | None, ...]:
    ends = (reason.margin_low, reason.margin, reason.margin_high)
    return tuple(None if end is None else round(end, 6) for end in ends)


@pytest.mark.parametrize(
    ("depth", "level", "low_stated_high", "says"),
    [
        (None, "measure", (None, None, 1.5875), "Weather cracks may be 2/32 in deep or deeper."),  # 0 at best
        (Length(value=1.0, how="gauge"), "caution", (0.3875, 0.5875, 0.7875),  # 0.2 mm either way
         "Shallow weather cracks: less than 2/32 in deep."),
        (Length(value=1.0, how="eye"), "measure", (-1.4125, 0.5875, 1.5875),  # 2 mm either way, never below 0
         "Weather cracks may be 2/32 in deep or deeper."),
        (Length(value=1.8, how="gauge"), "refuse", (-0.4125, -0.2125, -0.0125),
         "Weather cracks 2/32 in deep or deeper."),
        (Length(value=0.0, how="exact"), "note", (1.5875, 1.5875, 1.5875),
         "Shallow weather cracks: less than 2/32 in deep."),
    ],
)
def test_a_depth_is_told_with_what_is_left_of_the_limit(depth, level, low_stated_high, says):
    reason = cracks(depth)["crack_depth"]
    assert (reason.level, margins(reason), reason.says) == (level, low_stated_high, says)


@pytest.mark.parametrize(("how", "estimated"), [("eye", True), ("gauge", False), ("rule", False)])
def test_only_a_depth_by_eye_is_an_estimate(how, estimated):
    (reading,) = cracks(Length(value=1.5, how=how))["crack_depth"].question.readings
    assert (reading.estimated, reading.stated, reading.field) == (estimated, 1.5, "tire.crack_depth")


def test_joined_up_cracks_refuse_and_lead_back_to_that_answer():
    reason = cracks(None, joined=True)["cracks_joined"]
    assert (reason.level, reason.says) == ("refuse", "Weather cracks are joined up.")
    assert reason.turns == Turns("tire.cracks_joined", JOINED_WORDS)
    assert reason.source == crack_depth_limit().source


@pytest.mark.parametrize(
    ("depth", "joined", "check", "asked"),
    [
        (1.0, None, "found", True), (1.0, None, "fine", False), (1.0, False, "found", False),
        (2.0, None, "found", False),  # refused by its depth: nothing is left to ask
    ],
)
def test_whether_they_are_joined_is_asked_of_shallow_ones_that_were_found(depth, joined, check, asked):
    said = cracks(Length(value=depth, how="exact"), joined, check)
    assert ("cracks_joined" in said) == asked
    if asked:
        reason = said["cracks_joined"]
        assert reason.says == "Weather cracks were found: say whether they are joined up."
        assert reason.settles == Settles("tire.cracks_joined", JOINED_WORDS, "")
        assert reason.asks == (("tire.cracks_joined", JOINED_WORDS),)
        assert (reason.level, reason.source) == ("measure", crack_depth_limit().source)
