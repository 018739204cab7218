"""The line under the size field, as the code grows under the fingers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tiremap.model.size_sentence import understood


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (
            "205/55R16 91V",
            "205 mm wide, aspect 55, radial, 16 in rim; load 91 = 615 kg; speed V = 240 km/h",
        ),
        (
            "LT245/75R16 121/118S",
            "light truck, 245 mm wide, aspect 75, radial, 16 in rim; "
            "load 121 = 1450 kg single, load 118 = 1320 kg dual; speed S = 180 km/h",
        ),
        ("225/45ZR17", "225 mm wide, aspect 45, radial, 17 in rim; ZR: 240 km/h or more"),
        (
            "255/35ZR19 (96Y)",
            "255 mm wide, aspect 35, radial, 19 in rim; load 96 = 710 kg; speed (Y): more than 300 km/h",
        ),
        ("31x10.50R15LT", "flotation, 31 in diameter, 10.50 in wide, radial, 15 in rim, light truck"),
        ("225/65R16C", "225 mm wide, aspect 65, radial, 16 in rim, van (C)"),
        ("LT245/75R16 E", "light truck, 245 mm wide, aspect 75, radial, 16 in rim, load range E"),
    ],
)
def test_a_whole_code_is_said_in_words(typed, sentence):
    assert understood(typed) == sentence


@pytest.mark.parametrize("length", range(len("205/55R16 91V")))
def test_no_beginning_of_a_good_code_is_called_wrong(length):
    assert "A right one looks like" not in understood("205/55R16 91V"[:length])


@pytest.mark.parametrize("length", range(len("LT31x10.50R15 109Q XL")))
def test_no_beginning_of_a_flotation_code_is_called_wrong(length):
    said = understood("LT31x10.50R15 109Q XL"[:length])
    assert "A right one looks like" not in said


@pytest.mark.parametrize("length", range(len("LT245/75R16 120/116S load range E")))
def test_no_beginning_of_a_light_truck_code_is_called_wrong(length):
    said = understood("LT245/75R16 120/116S load range E"[:length])
    assert "A right one looks like" not in said


@pytest.mark.parametrize(
    ("typed", "comes_next"),
    [
        ("", "the width in mm"),
        ("2", "the width in mm"),
        ("205", "the aspect ratio"),
        ("205/5", "the aspect ratio"),
        ("205/55", "R for radial"),
        ("205/55R", "the rim diameter"),
        ("205/55R1", "the rim diameter"),
        ("205/55R22.", "half-inch rim"),
        ("205/55R16 9", "the load index"),
        ("LT245/75R16 121/", "the load index for dual wheels"),
    ],
)
def test_an_unfinished_code_is_told_what_comes_next(typed, comes_next):
    assert comes_next in understood(typed)


def test_an_unfinished_code_keeps_what_is_understood_already():
    assert understood("205/55R").startswith("205 mm wide, aspect 55, radial; next: ")


@given(st.text(max_size=25))
def test_the_live_line_never_fails(typed):
    assert understood(typed)
