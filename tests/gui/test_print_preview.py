"""The sheet as it will print, with and without a printer; the measuring sheet from the File menu."""

from io import BytesIO

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.render.sheet import sheet_pages
from tiremap.ui import dialogs, print_preview
from tiremap.ui.preferences import Preferences
from tiremap.ui.print_preview import PrintPreview

Key = Qt.Key


@pytest.fixture
def unmeasured_window(open_window):
    """A window on a tire of which only the tread depth is missing."""
    return open_window(bench_job(crown_injury(), tire=measured_tire(tread_depth=None)))


def shown(window) -> PrintPreview:
    """The preview, with the focus: on a bare X server nobody hands it over by himself."""
    window.actions_.preview.trigger()
    preview = window.findChild(PrintPreview)
    preview.activateWindow()
    return preview


def test_the_preview_shows_every_page_zooms_by_key_and_offers_a_pdf_without_a_printer(
    qtbot, unmeasured_window, monkeypatch, tmp_path
):
    target = tmp_path / "sheet.pdf"
    monkeypatch.setattr(dialogs, "ask_where_to_write_sheet", lambda parent, suggested: target)
    monkeypatch.setattr(print_preview, "printer_names", list)
    preview = shown(unmeasured_window)
    pages = sheet_pages(unmeasured_window.session.assessment)
    assert len(preview.sheets) == len(pages) >= 2  # the measuring sheet, then the answer with its reasons
    qtbot.waitUntil(preview.isActiveWindow)
    assert preview.print.isHidden() and "write a PDF" in preview.said.text()
    first = preview.sheets[0].pixmap()
    ratio = first.height() / first.width()
    assert ratio == pytest.approx(297 / 210, rel=0.01)  # A4 (ISO 216)
    qtbot.keyClick(preview.area, Key.Key_Plus)
    assert preview.sheets[0].pixmap().width() == pytest.approx(1.25 * first.width(), rel=0.03)
    qtbot.keyClick(preview.area, Key.Key_0)
    assert preview.zoom == 1
    qtbot.keyClick(preview.area, Key.Key_Minus)
    assert preview.zoom == pytest.approx(0.8)
    preview.pdf.setFocus()
    qtbot.keyClick(preview.pdf, Key.Key_Space)
    assert len(PdfReader(BytesIO(target.read_bytes())).pages) == len(pages)
    assert preview.said.text() == f"Job sheet written to {target}"
    qtbot.keyClick(preview, Key.Key_Escape)
    qtbot.waitUntil(lambda: unmeasured_window.findChild(PrintPreview) is None)


def test_what_is_shown_is_printed_page_by_page_at_true_size(qtbot, bench_window, monkeypatch, tmp_path):
    printer = QPrinter()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    monkeypatch.setattr(print_preview, "printer_names", lambda: ["Bench"])
    monkeypatch.setattr(print_preview, "ask_printer", lambda parent: printer)
    preview = shown(bench_window)
    assert preview.print.isVisible() and preview.said.text() == ""
    qtbot.mouseClick(preview.print, Qt.MouseButton.LeftButton)
    assert preview.said.text() == "Sent to the printer."
    printed = PdfReader(BytesIO((tmp_path / "printed.pdf").read_bytes())).pages
    assert len(printed) == len(preview.sheets)
    size = [float(side) / 72 * 25.4 for side in (printed[0].mediabox.width, printed[0].mediabox.height)]
    assert size == pytest.approx([210, 297], abs=0.5)
    preview.close()


def test_the_measuring_sheet_is_offered_only_while_something_is_to_be_measured(
    unmeasured_window, monkeypatch, tmp_path
):
    window, target = unmeasured_window, tmp_path / "to measure.pdf"
    monkeypatch.setattr(dialogs, "ask_where_to_write_sheet", lambda parent, suggested: target)
    window.actions_.measuring_sheet.trigger()
    [page] = PdfReader(BytesIO(target.read_bytes())).pages
    assert "Measuring sheet" in page.extract_text() and "1.6 mm or more passes" in page.extract_text()
    window.session.apply("Depth", bench_job(crown_injury()))
    assert not window.actions_.measuring_sheet.isEnabled()


def test_sheets_are_written_and_shown_on_the_paper_chosen_in_the_file_menu(bench_window, monkeypatch, tmp_path):
    target = tmp_path / "sheet.pdf"
    monkeypatch.setattr(dialogs, "ask_where_to_write_sheet", lambda parent, suggested: target)
    bench_window.actions_.letter.trigger()
    bench_window.actions_.sheet.trigger()
    box = PdfReader(BytesIO(target.read_bytes())).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((612, 792))  # 8.5 by 11 in (ANSI Y14.1)
    first = shown(bench_window).sheets[0].pixmap()
    assert first.height() / first.width() == pytest.approx(11 / 8.5, rel=0.01)
    assert Preferences().paper == "Letter"
    bench_window.findChild(PrintPreview).close()
