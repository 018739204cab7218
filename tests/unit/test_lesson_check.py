"""A lesson teaches only what the program answers: every step is tried."""

import pytest

from tests.unit.storage.test_lesson_file import TWO_STEPS, lesson
from tiremap.cli import run
from tiremap.errors import TiremapError
from tiremap.lesson_check import refuse_broken, tried
from tiremap.model.lesson import Hole, LessonStep
from tiremap.model.rule_set_file import published_rule_set_names
from tiremap.resources import resource_path
from tiremap.storage.lesson_file import lesson_from_bytes, lesson_paths, read_lesson


@pytest.mark.parametrize("path", lesson_paths(), ids=lambda path: path.stem)
def test_every_lesson_that_ships_teaches_what_is_answered(path):
    """Every shown step says which answer it expects, and no hidden one gives it away by the step before."""
    shown = read_lesson(path)
    refuse_broken(shown, path.name)
    assert all(step.expect is not None for step in shown.steps if step.answer == "shown")
    assert [each.line for each in tried(shown)] == list(shown.lines)


def test_the_four_lessons_show_what_their_titles_say():
    """The shoulder: passed in the middle, refused 80 mm out. The lean: unknown, refused, passed. Two heads: refused,
    not sure, passed. The guess: Measure first by eye, passed or refused by two tapes.
    """
    answers = [[each.assessment.answer for each in tried(read_lesson(path))] for path in lesson_paths()]
    passed, asked, refused = "repairable", "measure_first", "not_repairable"
    assert answers[0] == [passed, passed, refused, refused, passed, refused, refused, refused, passed]
    assert answers[1] == [asked, asked, refused, refused, passed, passed]
    assert answers[2] == [refused, refused, asked, asked, passed]
    assert answers[3] == [asked, asked, passed, refused, asked]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (('expect = "measure_first"', 'expect = "repairable"'),
         "step 1, line 12: expect: this step expects repairable, and the answer is measure_first: "),
        (('reason = "place"', 'reason = "weather"'),
         "step 1, line 11: reason: 'weather' is not told in this step. What is told: "),
        (("load_mm = 5", "load_mm = 60"), "step 2, line 17: A load that lets the belt edge down by 60 mm"),
        (("load_mm = 5", "chosen = 3"), "step 2, line 17: chosen: there is no hole 3. This step has 1."),
        (("load_mm = 5", 'guidance = "atlantis"'), "step 2, line 17: There is no rule set 'atlantis'"),
        (("load_mm = 5", 'size = "round"'), "step 2, line 17: "),
    ],
)
def test_a_lesson_that_claims_what_is_not_so_is_refused_with_its_line(change, says):
    with pytest.raises(TiremapError) as caught:
        refuse_broken(lesson(TWO_STEPS.replace(*change)), "mine.toml")
    assert says in str(caught.value)


def test_the_command_prints_each_step_and_writes_each_as_a_picture(tmp_path, capsys):
    assert run(["lesson", "4_about_170", "--pictures", str(tmp_path)]) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[0] == 'Why "about 170" is not a measurement: 5 steps, nothing wrong'
    assert said[1].startswith(" 1. Measure first, hidden: A nail, 52 mm from the center.")
    assert said[6:] == [str(tmp_path / f"4_about_170_{number:02}.png") for number in range(1, 6)]
    assert all(path.read_bytes().startswith(b"\x89PNG") for path in tmp_path.iterdir())


def test_the_command_refuses_a_broken_lesson_with_exit_code_2(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    path.write_text(TWO_STEPS.replace("tread_width_mm", "width"))
    assert run(["lesson", str(path)]) == 2
    assert "mine.toml, step 1, line 7: a step has no 'width'" in capsys.readouterr().err
    assert run(["lesson", "4_about_170", "--pictures", str(tmp_path / "none")]) == 2


def test_the_help_page_teaches_a_lesson_that_works_and_every_line_a_step_can_have():
    """Whoever writes a lesson from that page alone starts from its example."""
    page = resource_path("help", "teach.md").read_text(encoding="utf-8")
    example = page.split("```")[1]
    written = lesson_from_bytes(example.encode(), "help.toml")
    refuse_broken(written, "help.toml")
    assert len(written.steps) == 2
    table = page[page.index("| line | what it is |"):]
    for field in (*LessonStep.model_fields, *Hole.model_fields):
        assert f"`{field}`" in table, field
    assert all(f"`{name}`" in table for name in published_rule_set_names())
