"""The stock window: units typed in, refused with a reason, kept as the shop's own, and put away again."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit

from tests.helpers.widget_walk import faults
from tiremap.model.stock import RepairUnit
from tiremap.resources import shop_stock_path
from tiremap.storage.shop_stock import write_stock
from tiremap.ui import dialogs, stock_page
from tiremap.ui.palettes import dress
from tiremap.ui.preferences import Preferences
from tiremap.ui.stock_page import PLACEHOLDER, StockPage
from tiremap.workshop.stock import house_stock, shop_stock

Key = Qt.Key
LEFT = Qt.MouseButton.LeftButton
STEM, HEAD, WIDTH, ALONG, STEM_LENGTH, MASS = range(6)


@pytest.fixture
def opened(qtbot, qapp, monkeypatch):
    """Opens the window by itself; closed without questions."""
    qapp.setStyle("Fusion")
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: "discard")

    def open_(**preferences) -> StockPage:
        kept = Preferences()
        kept.keep(**preferences)
        page = StockPage(kept)
        dress(page, kept.settings.theme, kept.settings.density)
        page.kept_preferences = kept
        qtbot.addWidget(page)
        with qtbot.waitActive(page):
            page.show()
            page.activateWindow()
        return page

    return open_


def put(page, row: int, column: int, text: str) -> None:
    page.table.item(row, column).setText(text)


def test_a_unit_typed_by_key_in_inches_becomes_the_shop_s_stock_and_the_rest_is_not_rounded(opened, qtbot):
    page = opened(units="in")
    assert page.state.text() == PLACEHOLDER and page.state.isVisible()
    page.table.setFocus()
    qtbot.keyClick(page.table, Key.Key_Insert)
    for text in ("1/2", "4"):
        cell = QApplication.focusWidget()
        assert isinstance(cell, QLineEdit) and cell.accessibleName().startswith("Row 9")
        qtbot.keyClicks(cell, text)
        qtbot.keyClick(cell, Key.Key_Tab)
    qtbot.keyClick(QApplication.focusWidget(), Key.Key_Escape)
    qtbot.keyClicks(page.source, "the maker's chart")
    with qtbot.waitSignal(page.changed):
        qtbot.mouseClick(page.keep_, LEFT)
    kept = shop_stock()
    assert kept.units == (*house_stock().units, RepairUnit(stem_mm=12.7, head_length_mm=101.6))
    assert kept.source == "the maker's chart" and kept.beyond_the_head == house_stock().beyond_the_head
    assert page.state.isHidden() and not page.is_edited


def test_everything_of_a_unit_the_ground_and_the_kinds_is_kept_whatever_the_order_of_the_rows(opened, qtbot):
    page = opened()
    thicker_first = (("8", "70", "50", "60 mm", "21,5 g"), ("4", "60", "35", "", ""))
    for row, (stem, head, width, length, mass) in enumerate(thicker_first):
        for column, text in ((STEM, stem), (HEAD, head), (WIDTH, width), (STEM_LENGTH, length), (MASS, mass)):
            put(page, row, column, text)
        put(page, row, ALONG, "across")
    while page.table.rowCount() > 2:
        page.table.setCurrentCell(2, 0)
        qtbot.keyClick(page.table, Key.Key_Delete)
    qtbot.mouseClick(page.kinds["one_piece"], LEFT, pos=page.kinds["one_piece"].rect().center())
    page.beyond["border"].clear()
    qtbot.keyClicks(page.beyond["border"], "8")
    qtbot.keyClicks(page.source, "chart 7")
    assert page.keep(), page.error.text()
    kept = shop_stock()
    assert kept.units == (
        RepairUnit(stem_mm=4, head_length_mm=60, head_width_mm=35, head_along="across"),
        RepairUnit(stem_mm=8, head_length_mm=70, head_width_mm=50, head_along="across", stem_length_mm=60, mass_g=21.5),
    )
    assert kept.made == ("stem_and_patch",) and kept.beyond_the_head.border == 8.0


@pytest.mark.parametrize(
    ("cells", "reason"),
    [
        ({(1, HEAD): "300"}, "Row 2, Head"),
        ({(1, STEM): "thick"}, "Row 2, Stem"),
        ({(1, MASS): "light"}, "Row 2, Mass"),
        ({(1, STEM): ""}, "Row 2, Stem: it is empty"),
        ({(1, WIDTH): "41"}, "more than the head's longer side"),
        ({(1, STEM): "3"}, "Two units have a stem of 3 mm"),
        ({(1, HEAD): "30"}, "The 4 mm stem has a smaller head than the 3 mm stem"),
    ],
)
def test_a_bad_entry_is_refused_with_its_reason_and_nothing_is_lost(opened, qtbot, cells, reason):
    page = opened()
    qtbot.keyClicks(page.source, "chart 7")
    put(page, 7, HEAD, "80")
    for (row, column), text in cells.items():
        put(page, row, column, text)
    assert not page.keep()
    assert page.error.isVisible() and reason in page.error.text()
    assert page.table.item(7, HEAD).text() == "80 mm" and page.source.text() == "chart 7"
    for (row, column), text in cells.items():
        assert page.table.item(row, column).text().removesuffix(" mm") == text
    assert shop_stock() is None


def test_a_stock_without_a_source_or_a_kind_is_refused(opened, qtbot):
    page = opened()
    put(page, 7, HEAD, "80")
    assert not page.keep() and "On whose word are the units?" in page.error.text() and page.source.is_faulty
    qtbot.keyClicks(page.source, "chart 7")
    for box in page.kinds.values():
        qtbot.mouseClick(box, LEFT, pos=box.rect().center())
    assert not page.keep() and "No kind" in page.error.text()


def test_units_change_what_is_shown_and_a_cell_that_could_not_be_used_keeps_its_text(opened):
    page = opened()
    put(page, 0, HEAD, "wide")
    page.kept_preferences.keep(units="in")
    assert page.table.item(4, STEM).text() == "0.25 in" and page.table.item(0, HEAD).text() == "wide"
    assert page.beyond["border"].text() == "0.236 in"
    page.kept_preferences.keep(units="mm")
    assert page.table.item(6, STEM).text() == "9.525 mm"


def test_a_removed_unit_can_be_put_back_where_it_was(opened, qtbot):
    page = opened()
    page.table.setCurrentCell(2, 0)
    qtbot.mouseClick(page.remove, LEFT)
    assert page.table.item(2, STEM).text() == "6 mm"
    qtbot.mouseClick(page.put_back, LEFT)
    assert page.table.units() == house_stock().units and not page.put_back.isEnabled()


def test_back_to_the_placeholder_asks_first(opened, qtbot, monkeypatch):
    page = opened()
    assert not page.back.isEnabled()
    qtbot.keyClicks(page.source, "chart 7")
    assert page.keep()
    answers = [False, True]
    monkeypatch.setattr(stock_page, "ask_to_put_away", lambda parent: answers.pop(0))
    qtbot.mouseClick(page.back, LEFT)
    assert shop_stock() is not None
    with qtbot.waitSignal(page.changed):
        qtbot.mouseClick(page.back, LEFT)
    assert shop_stock() is None and page.state.text() == PLACEHOLDER


def test_a_broken_file_says_why_and_can_be_put_away(opened, qtbot, monkeypatch):
    shop_stock_path().parent.mkdir(parents=True, exist_ok=True)
    shop_stock_path().write_text("cutter = [\n")
    page = opened()
    assert "not readable TOML" in page.state.text() and "broken" in page.back.text()
    monkeypatch.setattr(stock_page, "ask_to_put_away", lambda parent: True)
    qtbot.mouseClick(page.back, LEFT)
    assert not shop_stock_path().exists() and page.state.text() == PLACEHOLDER


def test_a_window_shown_again_shows_the_file_as_it_stands_by_then_and_never_over_what_was_typed(opened):
    page = opened()
    page.close()
    write_stock(house_stock().model_copy(update={"units": house_stock().units[:2], "source": "chart 7"}))
    page.show()
    assert page.table.rowCount() == 2 and page.source.text() == "chart 7"
    put(page, 1, HEAD, "80")
    page.hide()
    page.show()
    assert page.table.item(1, HEAD).text() == "80 mm"


def test_closing_asks_about_what_was_not_kept(opened, monkeypatch):
    page = opened()
    put(page, 7, HEAD, "80")
    answers = ["stay", "discard"]
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: answers.pop(0))
    page.close()
    assert page.isVisible() and page.table.item(7, HEAD).text() == "80 mm"
    page.close()
    assert not page.isVisible() and answers == []


@pytest.mark.parametrize(("density", "least"), [("desk", 24), ("bench", 44)])
def test_every_control_of_the_stock_can_be_named_and_hit(opened, qtbot, density, least):
    page = opened(density=density)
    qtbot.waitUntil(lambda: faults(page, least) == [])
