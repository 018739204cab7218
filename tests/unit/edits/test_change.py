"""No changed record goes around validation, and its faults are told in words."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, from_center
from tiremap.edits.change import changed, made
from tiremap.errors import TiremapError
from tiremap.model.job import Injury, Tire
from tiremap.model.measures import Across, Lean
from tiremap.model.wording import place_in_words


def test_a_changed_record_keeps_fields_the_program_does_not_know():
    injury = Injury(id="1", later={"seen": True})
    assert changed(injury, note="nail").model_extra == {"later": {"seen": True}}
    assert injury.note == ""


def test_a_misspelled_field_is_a_bug_and_not_stored():
    with pytest.raises(TypeError, match="tread_widht"):
        changed(Tire(), tread_widht=None)


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"rim_width_in": 0.5}, "rim_width_in: 0.5 cannot be used. It should be 1 or more."),
        ({"rim_width_in": 31.0}, "rim_width_in: 31.0 cannot be used. It should be 30 or less."),
        ({"rim_width_in": "six"}, "rim_width_in: 'six' cannot be used. It should be a number, such as 35.0."),
        ({"rim_width_in": float("nan")}, "rim_width_in: nan cannot be used. It should be a number, such as 35.0."),
        ({"datum": "rivet"}, "datum: 'rivet' cannot be used. It should be 'valve' or 'date_code'."),
        ({"number": 12}, "number: 12 cannot be used. It should be text."),
        ({"number": "T\ud83d"}, "number: it holds \\ud83d, half of a character. Write it again."),
    ],
)
def test_a_value_a_field_cannot_hold_is_refused_in_words(fields, says):
    with pytest.raises(TiremapError) as raised:
        changed(Tire(), **fields)
    assert str(raised.value) == says


def test_a_lean_of_a_right_angle_and_an_empty_id_are_refused_in_words():
    with pytest.raises(TiremapError, match=r"value: 90.0 cannot be used. It should be less than 90."):
        made(Lean, value=90.0, how="probe")
    with pytest.raises(TiremapError, match=r"id: '' cannot be used. It should not be empty."):
        made(Injury, id="")
    with pytest.raises(TiremapError, match=r"origin: it is missing."):
        made(Across, value=1.0, how="tape")


def test_an_id_used_twice_is_refused_in_the_words_of_the_job():
    job = bench_job(crown_injury())
    with pytest.raises(TiremapError, match="the id '1' is used twice"):
        changed(job, injuries=(*job.injuries, Injury(id="1", outside=from_center(3.0))))


def test_a_path_in_words_counts_as_people_count():
    assert place_in_words(("injuries", 1, "inside", "BeadToes", "unit")) == "injuries, 2nd: inside: unit"
    assert [place_in_words(("repairs", n)) for n in (0, 2, 3, 10, 20, 111)] == [
        f"repairs, {nth}" for nth in ("1st", "3rd", "4th", "11th", "21st", "112th")
    ]
