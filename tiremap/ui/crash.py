"""Bugs reach the user in words, with a report to copy; the job stays open."""

import platform
import sys
import traceback
from types import TracebackType

from PySide6.QtCore import qVersion
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QDialog, QDialogButtonBox, QLabel, QPlainTextEdit, QVBoxLayout, QWidget

from tiremap import __version__
from tiremap.errors import TiremapError
from tiremap.ui.message_line import MessageLine


class CrashDialog(QDialog):
    """Says that something went wrong here, not at the bench, and offers the report."""

    def __init__(self, report: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Something went wrong in Tiremap")
        self.resize(640, 420)
        self.report = QPlainTextEdit(report)
        self.report.setReadOnly(True)
        self.report.setAccessibleName("Report")
        says = QLabel(
            "A fault in the program, not in what you entered. The job is still open: save it under another name, "
            "then start again. Do not rely on an answer shown after this. The report names no customer; it can be "
            "copied and sent along."
        )
        says.setWordWrap(True)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        copy = buttons.addButton("Copy the report", QDialogButtonBox.ButtonRole.ActionRole)
        copy.clicked.connect(self.copy)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        for each in (says, self.report, buttons):
            column.addWidget(each)

    def copy(self) -> None:
        """Put the report on the clipboard."""
        QGuiApplication.clipboard().setText(self.report.toPlainText())


def report_of(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> str:
    """Versions and the traceback, as text."""
    versions = f"Tiremap {__version__}, Python {platform.python_version()}, Qt {qVersion()}, {platform.platform()}"
    return f"{versions}\n\n{''.join(traceback.format_exception(kind, error, trace))}"


def install_crash_hook() -> None:
    """Let every unhandled exception reach the user; bad input that slipped through goes to the message line."""
    sys.excepthook = _tell


def _tell(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
    if issubclass(kind, KeyboardInterrupt):
        QApplication.quit()
        return
    window = QApplication.activeWindow()
    line = window.findChild(MessageLine) if window is not None else None
    if isinstance(error, TiremapError) and line is not None:
        line.show_text(str(error))
        return
    sys.__excepthook__(kind, error, trace)
    CrashDialog(report_of(kind, error, trace), window).exec()
