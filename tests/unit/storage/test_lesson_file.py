"""A lesson is read from what an instructor writes; a broken one is refused with its line and the reason."""

import pytest

from tiremap.errors import TiremapError
from tiremap.storage.lesson_file import lesson_from_bytes, lesson_paths, read_lesson

HEAD = 'format = "tiremap-lesson"\nversion = 1\ntitle = "Two steps"\n'
TWO_STEPS = HEAD + """
[[step]]
says = "First."
tread_width_mm = 166
looked_over = true
holes = [{ from_center_mm = 20, around_deg = 0, size_mm = 3 }]
load_mm = 20
reason = "place"
expect = "measure_first"
answer = "hidden"

[[step]]
says = "Second."
load_mm = 5
"""


def lesson(text):
    return lesson_from_bytes(text.encode(), "mine.toml")


def refused(text):
    with pytest.raises(TiremapError) as caught:
        lesson(text)
    return str(caught.value)


def test_a_step_takes_over_what_it_does_not_write():
    first, second = lesson(TWO_STEPS).steps
    assert (second.tread_width_mm, second.looked_over, second.answer) == (166, True, "hidden")
    assert second.holes == first.holes
    assert (first.load_mm, second.load_mm) == (20, 5)
    assert (second.says, second.reason, second.expect) == ("Second.", None, None)
    assert lesson(TWO_STEPS).lines == (5, 15)


def test_a_lesson_reads_the_same_with_windows_lines_and_a_byte_order_mark():
    data = b"\xef\xbb\xbf" + TWO_STEPS.replace("\n", "\r\n").encode()
    assert lesson_from_bytes(data, "x").steps == lesson(TWO_STEPS).steps


@pytest.mark.parametrize(
    ("change", "line", "says"),
    [
        (("tread_width_mm = 166", "tread_with_mm = 166"), 7, "a step has no 'tread_with_mm'"),
        (("tread_width_mm = 166", 'tread_width_mm = "wide"'), 7, "tread_width_mm"),
        (("tread_width_mm = 166", "tread_width_mm = -3"), 7, "more than 0"),
        (("tread_width_mm = 166", "tread_width_mm = nan"), 7, "should be a number"),
        (("size_mm = 3", "siz_mm = 3"), 9, "a hole has no 'siz_mm'. It has: from_center_mm"),
        (("from_center_mm = 20", "from_center_mm = 2000"), 9, "400 or less"),
        (("around_deg = 0", "around_deg = 0, around_mm = 3"), 9, "not both."),
        (("load_mm = 5", 'load_mm = 5\nbeside = "video"'), 18, "'nothing', 'bending', 'guidance' or 'strip'"),
        (("load_mm = 5", 'load_mm = 5\nexpect = "yes"'), 18, "'repairable', 'measure_first' or 'not_repairable'"),
        (("load_mm = 5", "load_mm = 5\nchosen = 1.5"), 18, "chosen"),
        (("tread_width_mm = 166", "tread_width_mm = 1760"), 7, "1760.0 cannot be used. It should be 600"),
        (('says = "Second."', ""), 15, "says: it is missing"),
        (('says = "Second."', f'says = "{"long " * 60}"'), 16, "220 characters or fewer"),
        (("version = 1", "version = 2"), 2, "version = 1"),
        (("version = 1", "version = true"), 2, "version = 1"),
        (('title = "Two steps"', 'title = ""'), 3, "should not be empty"),
        (('title = "Two steps"', 'title = "Two steps"\ncolor = 3'), 4, "no 'color' before the steps"),
        (("looked_over = true", "looked_over = 1"), 8, "true or false"),
    ],
)
def test_a_broken_lesson_is_refused_with_file_line_and_what_a_right_one_is(change, line, says):
    words = refused(TWO_STEPS.replace(*change))
    assert words.startswith("mine.toml") and f"line {line}:" in words and says in words


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", 'begins with format = "tiremap-lesson"'),
        ('format = "tiremap-job"', "not a lesson"),
        (HEAD, "no steps"),
        (HEAD + "step = 3", "no steps"),
        (HEAD + 'step = [{ says = "One line." }]\nmore = 1', "no 'more'"),
        (HEAD + "[[step]]\nsays = First.", "line 5"),
        (HEAD + "[[step]]\nsays = 'x'\nholes = 4", "line 6: holes is no list"),
        (HEAD + "x = " + "[" * 5000 + "]" * 5000, "TOML"),
    ],
)
def test_what_is_no_lesson_is_told_in_words(text, says):
    assert says in refused(text)


def test_bytes_that_are_no_text_are_told_with_their_line():
    with pytest.raises(TiremapError, match=r"mine\.toml is not readable TOML: line 4 is not UTF-8"):
        lesson_from_bytes(HEAD.encode() + b"\xff", "mine.toml")


def test_a_file_too_large_for_a_lesson_is_not_read_on(tmp_path):
    path = tmp_path / "large.toml"
    path.write_bytes(b"#" * 300_000)
    with pytest.raises(TiremapError, match="too large"):
        read_lesson(path)
    with pytest.raises(TiremapError, match="no file"):
        read_lesson(tmp_path / "none.toml")
    with pytest.raises(TiremapError, match="not a file"):
        read_lesson(tmp_path)


def test_four_lessons_ship():
    assert [read_lesson(path).title for path in lesson_paths()] == [
        "Why the shoulder is refused", "Why a leaning hole can end outside", "Why two heads may not touch",
        'Why "about 170" is not a measurement',
    ]


def test_a_key_a_step_lacks_is_told_by_that_step_not_by_the_next_that_has_it():
    text = HEAD + '\n[[step]]\nload_mm = 5\n\n[[step]]\nsays = "Second."\n'
    assert "line 5" in refused(text).lower()


def test_a_lesson_without_holes_has_none():
    [step] = lesson(HEAD + '\n[[step]]\nsays = "First."\n').steps
    assert tuple(step.holes) == ()


def test_bytes_too_many_for_a_lesson_are_refused_before_they_are_read():
    with pytest.raises(TiremapError, match="too large"):
        lesson_from_bytes(TWO_STEPS.encode() + b"#" * 200_000, "mine.toml")
