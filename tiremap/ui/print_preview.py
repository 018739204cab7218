"""The sheet as it will print: its pages on the screen, to be printed or written as a PDF."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QPixmap
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from tiremap.render.page import MM_PER_INCH, Page
from tiremap.ui.language import marked, told, tr
from tiremap.ui.printing import ask_printer, picture_of, print_pages, printer_names, scaled

SHOWN_DPI = 200
"""Pages are drawn this fine and scaled to what is seen."""
ZOOM, LEAST_ZOOM, GREATEST_ZOOM = 1.25, 0.4, 4.0
"""One step of the zoom, and its ends, of the width that fits the window."""
_NO_PRINTER = marked("No printer is set up on this computer: write a PDF and print it elsewhere.")
_NOT_TAKEN = marked("The printer did not take the sheet: write a PDF instead.")
_AROUND_PX = 12


class PrintPreview(QDialog):
    """Shows pages under each other; keys: + and − zoom, 0 fits the width, arrows and Page keys scroll, Esc closes.

    Signals: ``pdf_wanted()`` the user asks for the sheet as a file.
    """

    pdf_wanted = Signal()

    def __init__(self, pages: list[Page], size: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Print preview"))
        self._pages, self._size = pages, size
        self._pictures: list[QImage] = [picture_of(page, SHOWN_DPI) for page in pages]
        self.zoom = 1.0
        self.sheets = [self._sheet(number) for number in range(1, len(pages) + 1)]
        self.area = QScrollArea()
        self.area.setAccessibleName(tr("Pages as they will print: {count}", count=len(pages)))
        self.area.setWidgetResizable(True)
        self.area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)  # the width stays as it is
        self.area.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.print = self._button(tr("&Print…"), self._print)
        self.pdf = self._button(tr("&Write PDF…"), self.pdf_wanted.emit)
        self.smaller = self._button(tr("Smaller (−)"), self.zoom_out)
        self.larger = self._button(tr("Larger (+)"), self.zoom_in)
        self.fit = self._button(tr("Fit the width (0)"), self.fit_width)
        self.close_ = self._button(tr("Close"), self.close)
        self.said = QLabel()
        self.said.setWordWrap(True)
        self._lay_out()
        self.area.viewport().installEventFilter(self)
        if not printer_names():
            self.print.hide()
            self.said.setText(told(_NO_PRINTER))
        self.resize(QSize(760, 900).boundedTo(self.screen().availableGeometry().size()))
        self.area.setFocus()

    def zoom_in(self) -> None:
        """One step larger."""
        self._zoom_to(self.zoom * ZOOM)

    def zoom_out(self) -> None:
        """One step smaller."""
        self._zoom_to(self.zoom / ZOOM)

    def fit_width(self) -> None:
        """As wide as the window."""
        self._zoom_to(1.0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Zoom by key, with or without Shift: what the area does not scroll by comes here."""
        zooms = {Qt.Key.Key_Plus: self.zoom_in, Qt.Key.Key_Equal: self.zoom_in, Qt.Key.Key_Minus: self.zoom_out,
                 Qt.Key.Key_0: self.fit_width}
        zoom = zooms.get(Qt.Key(event.key()))
        if zoom is None:
            super().keyPressEvent(event)
        else:
            zoom()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep the pages as wide, against the area they are seen through, as they were."""
        if event.type() == QEvent.Type.Resize:
            self._show_pages()
        return False

    def _zoom_to(self, zoom: float) -> None:
        self.zoom = min(max(zoom, LEAST_ZOOM), GREATEST_ZOOM)
        self._show_pages()

    def _show_pages(self) -> None:
        room = self.area.viewport().width() - 2 * _AROUND_PX
        width = max(1, round(room * self.zoom))
        for sheet, picture in zip(self.sheets, self._pictures, strict=True):
            ratio = self.devicePixelRatioF()
            shown = QPixmap.fromImage(scaled(picture, round(width * ratio)))
            shown.setDevicePixelRatio(ratio)
            sheet.setPixmap(shown)

    def _print(self) -> None:
        printer = ask_printer(self)
        if printer is None:
            return
        done = print_pages(self._pages, printer, self._size)
        self.said.setText(tr("Sent to the printer.") if done else told(_NOT_TAKEN))

    def _sheet(self, number: int) -> QLabel:
        sheet = QLabel()
        page = self._pages[number - 1]
        sheet.setAlignment(Qt.AlignmentFlag.AlignCenter)
        size = tr("{width:.1f} by {height:.1f} in", width=page.width / MM_PER_INCH, height=page.height / MM_PER_INCH)
        sheet.setAccessibleName(
            tr("Page {number} of {count}, {size}", number=number, count=len(self._pages), size=size)
        )
        return sheet

    def _button(self, words: str, pressed: Callable[[], object]) -> QPushButton:
        button = QPushButton(words)
        button.setAutoDefault(False)
        button.clicked.connect(pressed)
        return button

    def _lay_out(self) -> None:
        inside = QWidget()
        pages = QVBoxLayout(inside)
        pages.setContentsMargins(_AROUND_PX, _AROUND_PX, _AROUND_PX, _AROUND_PX)
        pages.setSpacing(_AROUND_PX)
        for sheet in self.sheets:
            pages.addWidget(sheet)
        pages.addStretch(1)
        self.area.setWidget(inside)
        row = QHBoxLayout()
        for button in (self.smaller, self.larger, self.fit):
            row.addWidget(button)
        row.addStretch(1)
        for button in (self.print, self.pdf, self.close_):
            row.addWidget(button)
        column = QVBoxLayout(self)
        column.addLayout(row)
        column.addWidget(self.said)
        column.addWidget(self.area, 1)
