"""Bugs reach the user in words, with a report to copy; the job is kept first."""

import platform
import sys
import traceback
from datetime import datetime
from types import TracebackType

from PySide6.QtCore import Qt, qVersion
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QDialog, QDialogButtonBox, QLabel, QPlainTextEdit, QVBoxLayout, QWidget

from tiremap import __version__
from tiremap.errors import TiremapError
from tiremap.session import Session
from tiremap.storage.recovery import keep_copy
from tiremap.ui.language import marked, told, tr
from tiremap.ui.message_line import MessageLine

_SAYS = marked(
    "A fault in the program, not in what you entered. Save the job under another name, then start again. Do not rely "
    "on an answer shown after this. The report names no customer; it can be copied and sent along."
)


class CrashDialog(QDialog):
    """Says that something went wrong here, not at the bench, where the job is kept, and offers the report."""

    def __init__(self, report: str, kept: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Something went wrong in Tiremap"))
        self.resize(640, 420)
        self.report = QPlainTextEdit(report)
        self.report.setReadOnly(True)
        self.report.setTabChangesFocus(True)
        self.report.setAccessibleName(tr("Report"))
        says = QLabel(told(_SAYS))
        says.setWordWrap(True)
        self.kept = QLabel(kept)
        self.kept.setAccessibleName(tr("Where the job is kept"))
        self.kept.setWordWrap(True)
        self.kept.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.copy_button = buttons.addButton(tr("Copy the report"), QDialogButtonBox.ButtonRole.ActionRole)
        self.copy_button.clicked.connect(self.copy)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        for each in (says, self.kept, self.report, buttons):
            column.addWidget(each)
        buttons.button(QDialogButtonBox.StandardButton.Close).setFocus()

    def copy(self) -> None:
        """Put the report on the clipboard."""
        QGuiApplication.clipboard().setText(self.report.toPlainText())


class CrashHook:
    """Lets every unhandled exception reach the user; bad input that slipped through goes to the message line."""

    def __init__(self) -> None:
        self.session: Session | None = None
        """Whose job is kept; none before the window stands."""
        self._telling = False

    def install(self) -> None:
        """Be the program's last word on exceptions from now on."""
        sys.excepthook = self.tell

    def tell(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        """Keep the job and say what happened. While it is being said, a further fault goes to the terminal only."""
        if issubclass(kind, KeyboardInterrupt):
            QApplication.quit()
            return
        window = QApplication.activeWindow()
        line = window.findChild(MessageLine) if window is not None else None
        if isinstance(error, TiremapError) and line is not None:
            line.show_text(str(error))
            return
        sys.__excepthook__(kind, error, trace)
        if self._telling:  # a fault in painting would come again under every dialog
            return
        self._telling = True
        try:
            CrashDialog(report_of(kind, error, trace), self._keep(), window).exec()
        finally:
            self._telling = False

    def _keep(self) -> str:
        """Keep a copy of the job; the sentence about it."""
        if self.session is None:
            return tr("No job was open yet.")
        try:
            return tr(
                "A copy of the job as it stands is kept in {path}", path=keep_copy(self.session.job, datetime.now())
            )
        except Exception as error:  # whatever is broken, the report must still be shown
            return tr("No copy of the job could be kept: {error} It is still open.", error=error)


def report_of(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> str:
    """Versions and the traceback, as text."""
    versions = f"Tiremap {__version__}, Python {platform.python_version()}, Qt {qVersion()}, {platform.platform()}"
    return f"{versions}\n\n{''.join(traceback.format_exception(kind, error, trace))}"
