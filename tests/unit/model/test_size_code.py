"""The grammar of size codes: what is read, what is refused and where."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tiremap.errors import TiremapError
from tiremap.model.load_and_speed import load_kg
from tiremap.model.size_code import read_size_code
from tiremap.model.size_text import SizeCodeError


def said(code):
    """Everything a code says but the text it was typed as."""
    return read_size_code(code).model_dump(exclude={"text"})


def refused(code):
    with pytest.raises(SizeCodeError) as caught:
        read_size_code(code)
    return caught.value


def test_a_plain_metric_code_is_read_part_by_part():
    size = read_size_code("205/55R16 91V")
    assert size.text == "205/55R16 91V"
    assert (size.prefix, size.nominal_width_mm, size.aspect_ratio) == ("", 205, 55)
    assert (size.construction, size.rim_code) == ("R", 16)
    assert (size.load_indices, size.speed_symbol, size.speed_beyond) == ((91,), "V", False)
    assert not (size.is_c or size.is_lt or size.reinforced)


@pytest.mark.parametrize(
    ("typed", "canonical", "family"),
    [
        ("205/55R16", "205/55R16", "passenger"),
        ("p 205/60 r15", "P205/60R15", "passenger"),
        ("HL 255/40R20 104Y", "HL255/40R20 104Y", "passenger"),
        ("T125/80D16 97M", "T125/80D16 97M", "temporary_spare"),
        ("ST225/75R15 117/112L", "ST225/75R15 117/112L", "trailer"),
        ("LT245/75R16 121/118S", "LT245/75R16 121/118S", "light_truck"),
        ("245/75R16LT 121/118S", "LT245/75R16 121/118S", "light_truck"),
        ("245/75 R16 121/118S LT", "LT245/75R16 121/118S", "light_truck"),
        ("225/65R16C 112/110R", "225/65R16C 112/110R", "van"),
        ("195 R14 C 106/104Q", "195R14C 106/104Q", "van"),
        ("31x10.50R15LT 109Q", "31x10.50R15LT 109Q", "flotation"),
        ("LT245/75R16 120/116S E", "LT245/75R16 LR E 120/116S", "light_truck"),
        ("LT245/75R16 E 120/116S", "LT245/75R16 LR E 120/116S", "light_truck"),
        ("LT245/75R16/E", "LT245/75R16 LR E", "light_truck"),
        ("LT 245/75 R16 load range E 120/116 S", "LT245/75R16 LR E 120/116S", "light_truck"),
        ("245/75R16LT LR E", "LT245/75R16 LR E", "light_truck"),
        ("LT215/75R15 C", "LT215/75R15 LR C", "light_truck"),
        ("31x10.50R15LT C", "31x10.50R15LT LR C", "flotation"),
        ("LT225/70R19.5 F", "LT225/70R19.5 LR F", "light_truck"),
        ("LT275/70R18 125/122R F", "LT275/70R18 LR F 125/122R", "light_truck"),
        ("ST225/75R15 117/112L E", "ST225/75R15 LR E 117/112L", "trailer"),
        ("315/80R22.5 156/150L LR L", "315/80R22.5 LR L 156/150L", "truck"),
        ("315/80R22.5 H", "315/80R22.5 LR H", "truck"),
        ("LT 31X10,5 R 15", "31x10.50R15LT", "flotation"),
        ("33×12.50-15LT", "33x12.50D15LT", "flotation"),
        ("38x16R18", "38x16.00R18", "flotation"),
        ("315/80R22.5 156/150L", "315/80R22.5 156/150L", "truck"),
        ("385/65 R22,5 160K", "385/65R22.5 160K", "truck"),
        ("235/75R15.5", "235/75R15.5", "truck"),
        ("205/70-14", "205/70D14", "passenger"),
        ("205/70\N{EN DASH}14", "205/70D14", "passenger"),
        ("205/70B14", "205/70B14", "passenger"),
        ("205/70HR14", "205/70HR14", "passenger"),
        ("205/70HR14 91H", "205/70HR14 91H", "passenger"),
        ("205/70HR14 91", "205/70HR14 91H", "passenger"),
        ("225/45ZR17", "225/45ZR17", "passenger"),
        ("225/45ZR17 94Y XL", "225/45ZR17 94Y XL", "passenger"),
        ("255/35ZR19 (96Y)", "255/35ZR19 (96Y)", "passenger"),
        ("255/35ZR19 96(Y) extra load", "255/35ZR19 (96Y) XL", "passenger"),
        ("205/55R16 94V Reinforced", "205/55R16 94V XL", "passenger"),
        ("205/55R16 RF 94V", "205/55R16 94V XL", "passenger"),
        ("205/55R16 94 XL", "205/55R16 94 XL", "passenger"),
        ("  2 05 / 5 5 r 1 6  9 1 v ", "205/55R16 91V", "passenger"),
        ("205/55R1691V", "205/55R16 91V", "passenger"),
    ],
)
def test_a_code_is_written_one_way_however_it_was_typed(typed, canonical, family):
    size = read_size_code(typed)
    assert size.canonical == canonical
    assert size.family == family
    assert said(canonical) == said(typed)


@pytest.mark.parametrize(
    ("typed", "speed", "load_range"),
    [
        ("LT245/75R16 120/116S E", "S", "E"),
        ("LT245/75R16 120/116E", "E", None),  # right behind the load index: 70 km/h
        ("LT245/75R16 120/116 E", "E", None),
        ("LT245/75R16 120/116E E", "E", "E"),
        ("LT245/75R16 120/116 LR E", None, "E"),
        ("LT275/70R18 125/122R F", "R", "F"),
        ("LT245/75R16 H", "H", None),
        ("LT245/75R16 LR H", None, "H"),
        ("205/55R16 91L RF", "L", None),
        ("205/55R16 RF 91V", "V", None),
        ("225/65R16C 112/110R", "R", None),
        ("LT245/75R16 120/116S", "S", None),
    ],
)
def test_a_load_range_is_not_taken_for_a_speed_symbol_nor_the_other_way_round(typed, speed, load_range):
    size = read_size_code(typed)
    assert (size.speed_symbol, size.load_range) == (speed, load_range)


def test_light_truck_reads_the_same_before_and_behind():
    assert said("LT245/75R16") == said("245/75R16LT")


def test_a_flotation_size_keeps_its_inches_and_gives_its_width_in_millimeters():
    size = read_size_code("31x10.50R15LT")
    assert (size.flotation_diameter_in, size.flotation_width_in) == (31, 10.5)
    assert size.nominal_width_mm == pytest.approx(10.5 * 25.4)
    assert size.aspect_ratio is None


def test_a_letter_inside_the_size_stands_in_for_the_speed_symbol():
    assert read_size_code("205/70HR14").speed_symbol == "H"
    assert read_size_code("205/70HR14").least_speed_kmh == 210


def test_zr_alone_promises_only_its_least_speed():
    size = read_size_code("225/45ZR17")
    assert (size.speed_symbol, size.inside_speed_letter, size.least_speed_kmh) == (None, "Z", 240)


def test_brackets_say_faster_than_the_symbol():
    size = read_size_code("255/35ZR19 (96Y)")
    assert (size.load_indices, size.speed_symbol, size.speed_beyond) == ((96,), "Y", True)


def test_the_first_load_index_is_the_single_one():
    assert read_size_code("LT245/75R16 121/118S").load_indices == (121, 118)


@pytest.mark.parametrize(
    ("typed", "position", "words"),
    [
        ("205/0R16", 4, "aspect ratio cannot start with 0"),
        ("205/5R16", 4, "aspect ratio is 5"),
        ("205/155R16", 4, "aspect ratio is 155"),
        ("2055/55R16", 0, "width is 2055 mm"),
        ("20/55R16", 0, "width is 20 mm"),
        ("205/55R99", 7, "rim diameter is 99 in"),
        ("205/55R09", 7, "rim diameter cannot start with 0"),
        ("205 / 55 R 99", 11, "rim diameter is 99 in"),
        ("205/55R16.3", 9, "whole or half inches"),
        ("205/55R16 91V foo", 14, '"FOO" does not belong here'),
        ("205/55R16 91V 91V", 14, "a second time"),
        ("205/55R16 V91", 11, "a second time"),
        ("205/55R16 999V", 10, "load index is 999"),
        ("205/55R16 91Z", 12, '"Z" does not belong here'),
        ("205/55R16 118/121S", 10, "never above the single one"),
        ("205/55R16 (91", 13, "ends too early"),
        ("205/55R16 (91Q)", 10, "symbol W or Y"),
        ("205/55R16 (98Y", 14, "closing bracket"),
        ("205/55R16 (98Y 5", 15, "bracket closes"),
        ("205 55 16", 0, "a / follows"),
        ("205/70HR14 91V", 13, "they disagree"),
        ("225/45ZR17 91H", 13, "they disagree"),
        ("LT245/75R16LT", 11, "one kind"),
        ("P205/70R14C", 10, "one kind"),
        ("ST225/75R15LT", 11, "one kind"),
        ("225/65R16C 112/110R LR E", 20, "a C tire has no load range"),
        ("P205/75R15 LR B", 11, "a P tire has no load range"),
        ("205/55R16 91V G", 14, '"G" does not belong here'),
        ("LT245/75R16 LR E LR E", 17, "a second time"),
        ("LT245/75R16 LR K", 15, "one of the letters"),
        ("LT245/75R16 LR", 14, "ends too early"),
        ("P31x10.50R15", 0, "takes no P"),
        ("31x10.505R15", 3, "two decimals"),
        ("205.5/55R16", 0, "whole number"),
        ("205-55-16", 4, "rim diameter is 55"),
        ("X205/55R16", 0, "starts with its width"),
        ("205/55X16", 6, "R for radial"),
        ("", 0, "ends too early"),
        ("205/", 4, "ends too early"),
        ("31.5", 4, "Next: x and the section width in inches"),  # a flotation diameter, typed so far
    ],
)
def test_a_wrong_code_is_refused_at_its_place(typed, position, words):
    error = refused(typed)
    assert error.position == position
    assert words in error.what
    assert isinstance(error, TiremapError)
    assert "205/55R16 91V" in error.right


@pytest.mark.parametrize(
    "typed",
    ["11R22.5", "12 R 22,5 152/148M", "7.50R16", "7.50R16LT 122/118N", "6.50-16", "175R14", "175SR14 88S", "185-14",
     "E78-14", "HR70-15", "190/65R390", "220/55R390 88V"],
)  # fmt: skip
def test_a_real_size_of_another_family_is_told_to_type_its_dimensions(typed):
    error = refused(typed)
    assert error.other_family
    assert "overall diameter, section width and rim" in error.right


@pytest.mark.parametrize("typed", ["205/0R16", "2055/55R16", "205/55R99", "205/55R16 91V foo"])
def test_nonsense_is_not_taken_for_another_family(typed):
    assert not refused(typed).other_family


def _codes():
    """Sizes put together from their parts, many of them wrong."""
    width = st.sampled_from(["205", "155", "31x10.50", "33x12,5", "7.50", "11", "2055", "0"])
    aspect = st.sampled_from(["", "/55", "/80", "/0", "/ 45"])
    letters = st.sampled_from(["R", "ZR", "HR", "-", "D", "B", "VB", "x"])
    rim = st.sampled_from(["16", "22.5", "15,5", "99", "1", ""])
    behind = st.sampled_from(
        ["", "C", "LT", " XL", " 91V", " 121/118S", " (98Y)", " 98(Y)", "rf", " 91", "V", "Z", " E", " LR F", "/C"]
    )
    prefix = st.sampled_from(["", "P", "LT", "hl ", "T", "ST"])
    return st.tuples(prefix, width, aspect, letters, rim, behind, behind).map("".join)


@given(st.one_of(st.text(max_size=30), st.text("0123459/RrxXCLTVZHP.,-() ", max_size=20), _codes()))
def test_any_text_is_either_refused_with_a_place_or_reads_back_the_same(typed):
    try:
        size = read_size_code(typed)
    except SizeCodeError as error:
        assert 0 <= error.position <= len(typed)
        assert error.what and error.right
        return
    again = read_size_code(size.canonical)
    assert again.canonical == size.canonical
    assert said(size.canonical) == said(typed)


@given(_codes(), st.data())
def test_spaces_anywhere_change_nothing(typed, data):
    place = data.draw(st.integers(0, len(typed)))
    spaced = typed[:place] + " " + typed[place:]
    try:
        plain = said(typed)
    except SizeCodeError:
        assert refused(spaced)
        return
    assert said(spaced) == plain


def test_a_load_index_beyond_the_table_is_read_and_its_load_stays_unknown():
    size = read_size_code("205/55R16 175V")
    assert size.load_indices == (175,)
    assert load_kg(175) is None
