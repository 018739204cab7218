"""The head of a unit against the tread edge and the belt edge, worked out on a tire known exactly."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, from_center, hole, measured_tire
from tiremap.assess import assess
from tiremap.model.job import MakerWord
from tiremap.model.measures import Across, Lean, Length
from tiremap.rules.reasons import MAKER_WORD, Reason

MAKER = "a smaller or turned head, or the repair-material maker's word, settles it."


def exact(value: float, **more) -> Length:
    return Length(value=value, how="exact", **more)


def at(value: float, minus: float = 0.0, plus: float = 0.0) -> Across:
    """Mm from the center, as far off as it says and no further."""
    return from_center(value, how="exact", minus=minus, plus=plus)


def told(code: str, outside: Across, lean: float = 0.0, **tire) -> list[Reason]:
    """What is told of a 4 mm hole, which takes a round head of 40 mm.

    The tread edge lies 85 mm from the center and the belt edge 75 mm; the crown is 12 mm thick.
    """
    usual = {"tread_width": exact(170.0), "under_grooves": exact(6.0), "belt_width": exact(150.0)}
    size, across, around = hole(4.0, how="exact"), Lean(value=lean, how="exact"), Lean(value=0.0, how="exact")
    injury = crown_injury(
        outside=outside, size_outside=size, size_inside=size, lean_across=across, lean_around=around
    )
    job = bench_job(injury, tire=measured_tire(**{**usual, **evenly_worn(exact(6.0)), **tire}))
    return [each for each in assess(job).mark("1").reasons if each.code == code]


@pytest.mark.parametrize("s", [0.0, 30.0, -30.0, 65.0, -65.0])  # 65 mm, and the head reaches 20 further
def test_a_head_up_to_the_tread_edge_stays_inside_it(s):
    (reason,) = told("head_at_tread_edge", at(s))
    assert (reason.level, reason.settles) == ("note", None)
    assert reason.says == "The head at injury 1 stays inside the tread edge."
    assert [reason.margin, reason.margin_low, reason.margin_high] == [pytest.approx(65.0 - abs(s))] * 3


@pytest.mark.parametrize("s", [65.1, -65.1, 75.0])
def test_a_head_past_the_tread_edge_wants_the_maker_s_word_and_no_measurement(s):
    (reason,) = told("head_at_tread_edge", at(s))
    assert (reason.level, reason.limit, reason.unit) == ("measure", 0.0, "mm")
    assert reason.says == f"The head at injury 1 passes the tread edge: {MAKER}"
    assert reason.measured == "inside the tread edge"
    assert (reason.margin, reason.value) == (pytest.approx(65.0 - abs(s)), pytest.approx(65.0 - abs(s)))
    assert reason.settles.field == MAKER_WORD
    assert reason.settles.words == "the repair-material maker's word"


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_head_that_may_pass_the_tread_edge_is_settled_by_measuring(way):
    (reason,) = told("head_at_tread_edge", at(way * 64.0, minus=3.0, plus=3.0))
    assert reason.level == "measure"
    assert reason.says.startswith(f"The head at injury 1 may pass the tread edge: {MAKER} Measure ")
    margins = [reason.margin, reason.margin_low, reason.margin_high]
    assert margins == [pytest.approx(1.0), pytest.approx(-2.0), pytest.approx(4.0)]
    assert reason.settles.field == "injury.1.outside"


@pytest.mark.parametrize("outside", [at(70.0), at(64.0, minus=3.0, plus=3.0)])
def test_the_maker_s_word_lets_a_head_past_the_tread_edge_and_no_other_word_does(outside):
    allowed = MakerWord(source="the sheet in the box", head_past_tread_edge=True)
    (reason,) = told("head_at_tread_edge", outside, maker_word=allowed)
    assert (reason.level, reason.settles) == ("caution", None)
    assert reason.says == "Injury 1: the head may pass the tread edge, allowed by the sheet in the box."
    of_else = MakerWord(source="the sheet in the box", largest_prepared_size=exact(8.0))
    (reason,) = told("head_at_tread_edge", outside, maker_word=of_else)
    assert reason.level == "measure"


def test_a_head_inside_the_tread_edge_needs_no_word():
    (reason,) = told("head_at_tread_edge", at(30.0), maker_word=MakerWord(source="x", head_past_tread_edge=True))
    assert reason.level == "note"


@pytest.mark.parametrize("s", [0.0, 55.0, -55.0])  # 55 mm, and the head reaches 20 further
def test_of_a_head_up_to_the_belt_edge_nothing_is_told(s):
    assert told("head_at_belt_edge", at(s)) == []


@pytest.mark.parametrize(
    ("outside", "lies", "margins"),
    [
        (at(57.0), "lies", (-2.0, -2.0, -2.0)),
        (at(-57.0), "lies", (-2.0, -2.0, -2.0)),
        (at(60.0, minus=4.9), "lies", (-5.0, -5.0, -0.1)),
        (at(60.0, minus=5.0), "may lie", (-5.0, -5.0, 0.0)),  # at best exactly at the edge
        (at(54.0, minus=1.0, plus=3.0), "may lie", (1.0, -2.0, 2.0)),
        (at(-54.0, minus=3.0, plus=1.0), "may lie", (1.0, -2.0, 2.0)),
    ],
)
def test_a_head_across_the_belt_edge_is_a_caution(outside, lies, margins):
    (reason,) = told("head_at_belt_edge", outside)
    assert (reason.level, reason.says) == ("caution", f"The head at injury 1 {lies} across the belt edge.")
    assert (reason.margin, reason.margin_low, reason.margin_high) == pytest.approx(margins)
    assert (reason.limit, reason.value) == (0.0, pytest.approx(margins[0]))
    assert reason.measured == "inside the belt edge"


def test_a_belt_never_measured_may_end_15_mm_inside_the_tread_edge():
    assert told("head_at_belt_edge", at(50.0), belt_width=None) == []  # 85 - 15 - 20
    (reason,) = told("head_at_belt_edge", at(51.0), belt_width=None)
    assert (reason.margin, reason.margin_low, reason.margin_high) == (None, pytest.approx(-1.0), pytest.approx(17.0))


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_head_that_some_thickness_of_the_crown_puts_at_the_center_lies_there_at_best(way):
    """It enters 12 mm from the center and leans 45 degrees towards it, through 10 to 14 mm."""
    thick = exact(6.0, minus=2.0, plus=2.0)
    (reason,) = told("head_at_tread_edge", at(-12.0 * way), 45.0 * way, under_grooves=thick)
    assert (reason.margin_low, reason.margin_high) == (pytest.approx(63.0), pytest.approx(65.0))
