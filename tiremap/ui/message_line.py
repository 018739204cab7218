"""One line for what could not be done and for files written, and one for the cautions that stand with every answer."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from tiremap.model.cautions import full_cautions, short_caution
from tiremap.ui.field_edit import restyle
from tiremap.ui.language import tr


class MessageLine(QFrame):
    """A sentence the user can put away; it never takes the focus."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Message"))
        self.label = QLabel()
        self.label.setProperty("role", "fault")
        self.label.setWordWrap(True)
        self.away = QPushButton(tr("Put away"))
        self.away.clicked.connect(self.clear)
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 4, 12, 4)
        row.addWidget(self.label, 1)
        row.addWidget(self.away)
        self.hide()

    @property
    def text(self) -> str:
        """What it says; empty while it is put away."""
        return self.label.text()

    def show_text(self, text: str) -> None:
        """Say what could not be done, or nothing with an empty text."""
        self._show(text, "fault")

    def show_news(self, text: str) -> None:
        """Say what was done; in plain ink, for nothing is wrong."""
        self._show(text, "news")

    def _show(self, text: str, role: str) -> None:
        if self.label.property("role") != role:
            self.label.setProperty("role", role)
            restyle(self.label)
        self.label.setText(text)
        self.setAccessibleDescription(text)
        self.setVisible(bool(text))

    def clear(self) -> None:
        """Put the message away."""
        self.show_text("")


class CautionsLine(QFrame):
    """The short caution, always in sight, and the full list on demand."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.label = QLabel(short_caution())
        self.label.setAccessibleName(tr("Caution"))
        self.every = full_cautions()
        self.all = QPushButton(tr("All cautions…"))
        self.all.setFlat(True)
        self.all.clicked.connect(self.show_all)
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 2, 12, 4)
        row.addWidget(self.label, 1)
        row.addWidget(self.all)

    def show_all(self) -> None:
        """The full list in a window of its own, which may stay open."""
        dialog = TextDialog(tr("Cautions"), "\n\n".join(self.every), self)
        dialog.show()


class TextDialog(QDialog):
    """A text to read; Markdown where told."""

    def __init__(self, title: str, text: str, parent: QWidget | None = None, *, markdown: bool = False) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self.resize(560, 460)
        self.text = QTextBrowser()
        self.text.setAccessibleName(title)
        (self.text.setMarkdown if markdown else self.text.setPlainText)(text)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.close)
        column = QVBoxLayout(self)
        column.addWidget(self.text)
        column.addWidget(buttons)
