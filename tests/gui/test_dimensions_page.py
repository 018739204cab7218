"""The Dimensions page: what a technician works to, on the safe side, and what each unknown hangs on."""

from types import SimpleNamespace

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, evenly_worn, gauged, measured_tire, taped
from tiremap.assess import assess
from tiremap.model.stock import RepairUnit
from tiremap.repair_dimensions import repair_dimensions
from tiremap.ui.dimension_words import PLACEHOLDER, dimension_lines, rounded_up
from tiremap.ui.dimensions_page import DimensionsPage
from tiremap.ui.preferences import Preferences
from tiremap.workshop.stock import house_stock

TIRE = measured_tire(**evenly_worn(gauged(6.0)), belt_width=taped(160.0))


def page_of(qtbot, *marks, stock=None, chosen=None, units="mm", **fields) -> DimensionsPage:
    preferences = Preferences()
    preferences.keep(units=units)
    assessment = assess(bench_job(*marks, **{"tire": TIRE, **fields}), stock=stock)
    page = DimensionsPage(SimpleNamespace(session=SimpleNamespace(assessment=assessment)), preferences)
    qtbot.addWidget(page)
    page.setFixedWidth(290)
    page.show_assessment(assessment, chosen)
    return page


def lines_of(*marks, stock=None, unit="mm", **fields):
    assessment = assess(bench_job(*marks, **{"tire": TIRE, **fields}), stock=stock)
    lines = dimension_lines(repair_dimensions(assessment)[0], assessment.injuries[0], assessment, unit)
    return {line.name: line for line in lines}


def one_unit(**fields):
    unit = RepairUnit(**{"stem_mm": 6.0, "head_length_mm": 50.0, **fields})
    return house_stock().model_copy(update={"units": (unit,), "source": "a chart"})


def test_a_stem_is_asked_for_no_shorter_than_the_repair_needs_and_a_clearance_is_never_said_too_large():
    dimensions = repair_dimensions(assess(bench_job(crown_injury(), earlier_repair(), tire=TIRE)))[0]
    for unit, mm in (("mm", 1.0), ("in", 25.4)):
        lines = lines_of(crown_injury(), earlier_repair(), unit=unit)
        said = float(lines["Stem length"].says.split()[0]) * mm
        assert dimensions.stem_at_least - 1e-6 <= said < dimensions.stem_at_least + 0.3
        for name, gap in (("To the belt edge", dimensions.belt_edge), ("To repair R1", dimensions.neighbors[0].gap_mm)):
            assert gap.low - 0.3 < float(lines[name].says.split()[0]) * mm <= gap.low + 1e-6


@pytest.mark.parametrize(
    ("mm", "unit", "said"), [(20.01, "mm", "20.1 mm"), (20.0, "mm", "20 mm"), (25.5, "in", "1.01 in")]
)
def test_rounding_up_leaves_what_is_already_round(mm, unit, said):
    assert rounded_up(mm, unit) == said


def test_a_stem_too_short_says_by_how_much_and_one_long_enough_says_so():
    needs = float(lines_of(crown_injury(), stock=one_unit())["Stem length"].says.split()[0])
    short = lines_of(crown_injury(), stock=one_unit(stem_length_mm=needs - 4))["Stem length"]
    assert short.wrong and "too short" in short.hint and "4 mm" in short.hint
    long = lines_of(crown_injury(), stock=one_unit(stem_length_mm=needs + 4))["Stem length"]
    assert not long.wrong and "enough" in long.hint
    assert "does not say" in lines_of(crown_injury(), stock=one_unit())["Stem length"].hint


@pytest.mark.parametrize(
    ("fields", "name", "asks"),
    [
        ({"size_outside": None, "size_inside": None}, "Cutter", "Measure the hole"),
        ({"lean_around": None}, "Channel", "the lean around"),
        ({"lean_across": None}, "Middle, across", "the lean across"),
        ({"around": None}, "Middle, around", "the place around"),
    ],
)
def test_what_is_not_known_says_which_measurement_it_hangs_on(fields, name, asks):
    assert asks in lines_of(crown_injury(**fields))[name].hint
    assert asks not in lines_of(crown_injury())[name].hint


def test_a_belt_edge_nobody_measured_asks_for_the_belt_width():
    assert "the belt width" in lines_of(crown_injury(), tire=measured_tire())["To the belt edge"].hint
    assert lines_of(crown_injury())["To the belt edge"].hint == ""


def test_a_kind_the_shop_does_not_stock_is_said():
    stock = one_unit().model_copy(update={"made": ("stem_and_patch",)})
    line = lines_of(crown_injury(), stock=stock, rule_set="north_america")["Unit"]
    assert line.says == "One piece" and line.wrong


def test_the_placeholder_is_said_and_the_shop_s_own_stock_is_not_called_one(qtbot):
    assert PLACEHOLDER in page_of(qtbot, crown_injury()).text
    own = page_of(qtbot, crown_injury(), stock=one_unit()).text
    assert PLACEHOLDER not in own and "a chart" in own


def test_the_chosen_injury_is_shown_and_of_several_none_unasked(qtbot):
    two = (crown_injury("1", around_deg=0.0), crown_injury("2", around_deg=120.0))
    assert page_of(qtbot, *two).text.startswith("Choose an injury")
    assert page_of(qtbot, *two, chosen="2").text.startswith("Injury 2")
    assert page_of(qtbot, crown_injury(), earlier_repair(), chosen="R1").text.startswith("Injury 1")
    assert page_of(qtbot).text.startswith("No injury is marked")


def test_a_refused_injury_says_so_and_why_and_gives_no_dimension(qtbot):
    text = page_of(qtbot, crown_injury(across_mm=80.0)).text
    assert "nothing to fit" in text and "crown zone" in text and "Cutter" not in text


def test_buffed_ground_is_told_from_the_middle_of_the_hole_the_tread_edge_and_the_datum(qtbot):
    """An upright hole in the middle of a 170 mm tread: a 50 mm head and its 6 mm border."""
    page = page_of(qtbot, crown_injury(around_deg=90.0), stock=one_unit())
    assert "Buffed\n31 mm\n31 mm" in page.text
    edges = page.text.partition("from its outboard edge")[2].partition("Buffed\n")[2].splitlines()[:2]
    first, last = (float(each.split()[0]) for each in edges)
    assert first + last == pytest.approx(170.0, abs=0.11) and last - first > 62
    assert "cm²" in page.text and "in²" in page_of(qtbot, crown_injury(), units="in").text


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_page_never_scrolls_sideways_in_its_column(qtbot, units):
    page = page_of(qtbot, crown_injury(around_deg=350.0), earlier_repair(), units=units)
    page.show()
    assert page.widget().minimumSizeHint().width() <= page.viewport().width()


def test_the_same_job_shown_again_leaves_a_selected_text_alone(qtbot):
    page = page_of(qtbot, crown_injury())
    inside = page.widget()
    page.take_preferences()
    assert page.widget() is inside
