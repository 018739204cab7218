"""Pages of a sheet as pictures, and pictures of pages on a printer. Works where no printer is set up."""

from PySide6.QtCore import QMarginsF, QRect, Qt
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtWidgets import QDialog, QWidget

from tiremap.render.page import Page
from tiremap.ui.language import tr

PRINTED_DPI = 300
"""Fine enough for the thinnest line of a sheet (0.13 mm) on any office printer."""
_SIZES = {"A4": QPageSize.PageSizeId.A4, "Letter": QPageSize.PageSizeId.Letter}


def picture_of(page: Page, dpi: float) -> QImage:
    """The page as it is printed, at so many dots per inch."""
    page.figure.set_dpi(dpi)
    page.figure.canvas.draw()
    ink = page.figure.canvas.buffer_rgba()
    height, width = ink.shape[:2]
    return QImage(ink.tobytes(), width, height, 4 * width, QImage.Format.Format_RGBA8888).copy()


def printer_names() -> list[str]:
    """The printers set up on this computer; none where it has no way to print at all."""
    try:
        from PySide6.QtPrintSupport import QPrinterInfo  # needs a system library that may be missing
    except ImportError:
        return []
    return QPrinterInfo.availablePrinterNames()


def ask_printer(parent: QWidget):
    """The printer the user chose in the system's own dialog, or ``None``."""
    from PySide6.QtPrintSupport import QPrintDialog, QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(tr("Tiremap sheet"))
    dialog = QPrintDialog(printer, parent)
    return printer if dialog.exec() == QDialog.DialogCode.Accepted else None


def print_pages(pages: list[Page], printer, size: str) -> bool:
    """Print the pages on paper of that size at true scale, a sheet of paper each; whether the printer took them."""
    nothing = QMarginsF(0, 0, 0, 0)
    printer.setFullPage(True)  # a sheet keeps its own margins
    printer.setPageLayout(QPageLayout(QPageSize(_SIZES[size]), QPageLayout.Orientation.Portrait, nothing))
    painter = QPainter()
    if not painter.begin(printer):
        return False
    for number, page in enumerate(pages):
        if number:
            printer.newPage()
        picture = picture_of(page, PRINTED_DPI)
        paper = printer.pageLayout().fullRectPixels(printer.resolution())
        painter.drawImage(QRect(0, 0, paper.width(), paper.height()), picture)
    return bool(painter.end())


def scaled(picture: QImage, width: int) -> QImage:
    """The picture that wide, smoothly."""
    return picture.scaledToWidth(width, Qt.TransformationMode.SmoothTransformation)
