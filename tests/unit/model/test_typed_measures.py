"""Measures as people write them at the bench."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tiremap.errors import TiremapError
from tiremap.model.typed_measures import read_angle, read_around, read_length


@pytest.mark.parametrize(
    ("typed", "value", "unit"),
    [
        ("35", 35, "mm"),
        ("35 mm", 35, "mm"),
        ("35.5mm", 35.5, "mm"),
        ("1,5", 1.5, "mm"),
        ("0,125 in", 0.125, "in"),
        (" 35 MM ", 35, "mm"),
        ("3.5 cm", 35, "mm"),
        ("3.3 cm", 33, "mm"),
        ("1 3/8 in", 1 + 3 / 8, "in"),
        ('1-3/8"', 1 + 3 / 8, "in"),
        ("1 - 3/8 inch", 1 + 3 / 8, "in"),
        ("5/32 in", 5 / 32, "in"),
        ("1½ in", 1.5, "in"),
        ("⅜″", 3 / 8, "in"),
        ("16 inches", 16, "in"),
        ("0", 0, "mm"),
    ],
)
def test_a_length_is_read_and_kept_in_its_own_unit(typed, value, unit):
    assert read_length(typed) == (value, unit)


def test_a_bare_number_has_the_unit_of_the_field():
    assert read_length("35", "in") == (35, "in")
    assert read_length("1 3/8", "in") == (1.375, "in")


def test_a_bare_fraction_is_inches_in_every_field():
    assert read_length("1/4", "mm") == read_length("1/4", "in") == (0.25, "in")


def test_a_sign_is_read_only_where_it_means_something():
    assert read_length("-12.5 mm", signed=True) == (-12.5, "mm")
    assert read_length("-1 3/8 in", signed=True) == (-1.375, "in")
    assert read_length("\N{MINUS SIGN}3", signed=True) == (-3, "mm")
    with pytest.raises(TiremapError, match="no minus sign"):
        read_length("-12.5 mm")


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "Nothing is typed"),
        ("   ", "Nothing is typed"),
        ("nan", "not a measure"),
        ("inf", "not a measure"),
        ("mm", "not a measure"),
        ("35 deg", "not a unit of length"),
        ("35 m", "not a unit of length"),
        ("35 mm mm", "not a unit of length"),
        ("1 3/0 in", "fraction over 0"),
        ("1 9/8 in", "less than 1"),
        ("1,500", "decimal or as a thousand"),
        ("1.5.2", "not a measure"),
        ("1e400", "not a unit of length"),
        ("9" * 400, "not a measure"),
        ("3 4", "not a measure"),
    ],
)
def test_a_length_that_cannot_be_read_is_refused_with_a_right_one(typed, words):
    with pytest.raises(TiremapError, match=words) as caught:
        read_length(typed)
    assert "35 mm" in caught.value.right


@pytest.mark.parametrize(
    ("typed", "value", "unit"),
    [
        ("90", 90, "deg"),
        ("90 deg", 90, "deg"),
        ("22,5°", 22.5, "deg"),
        ("360", 360, "deg"),
        ("400 mm", 400, "mm"),
        ("40 cm", 400, "mm"),
        ("16 in", 16, "in"),
        ("15 3/4", 15.75, "in"),
        ("3 h", 3, "h"),
        ("3 o'clock", 3, "h"),
        ("3:30", 3.5, "h"),
        ("12:00", 12, "h"),
        ("10:15 o'clock", 10.25, "h"),
    ],
)
def test_a_place_around_is_degrees_tape_or_clock(typed, value, unit):
    assert read_around(typed) == (value, unit)


@pytest.mark.parametrize("typed", ["", "-90", "361", "13 h", "3:60", "3:30 mm", "noon", "90 kg", "nan"])
def test_a_place_around_that_cannot_be_is_refused(typed):
    with pytest.raises(TiremapError):
        read_around(typed)


@pytest.mark.parametrize(("typed", "degrees"), [("upright", 0), ("Upright ", 0), ("25", 25), ("-10,5 deg", -10.5)])
def test_a_lean_is_degrees_and_upright_is_none(typed, degrees):
    assert read_angle(typed) == degrees


@pytest.mark.parametrize("typed", ["90", "-90", "25 mm", "3 h", "", "steep"])
def test_a_lean_that_cannot_be_is_refused(typed):
    with pytest.raises(TiremapError):
        read_angle(typed)


@given(st.one_of(st.text(max_size=20), st.text("0123456789/.,-+ imn\"'½°:hcdeg", max_size=12)))
def test_any_text_is_a_finite_measure_or_refused(typed):
    for read in (read_length, lambda text: read_length(text, signed=True), read_around):
        try:
            value, _ = read(typed)
        except TiremapError:
            continue
        assert abs(value) <= 1e6


@given(st.integers(0, 99), st.integers(1, 63))
def test_a_mixed_fraction_is_its_sum(whole, sixty_fourths):
    assert read_length(f"{whole}-{sixty_fourths}/64 in") == (whole + sixty_fourths / 64, "in")
