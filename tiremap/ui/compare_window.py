"""Every rule set beside each other on the present job: answers, what decides each, and the bands they allow."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from tiremap.drawing.said import said_in
from tiremap.edits.job_card import choose_rule_set
from tiremap.model.rule_set_file import broken_rule_sets
from tiremap.ui.answer_symbol import answer_icon
from tiremap.ui.compare_bands import CompareBands
from tiremap.ui.compare_rows import Compared, compared, details, margin_says
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, fault, heading, tell_fault
from tiremap.ui.palettes import theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.roomy_cells import make_readable, stretch_column
from tiremap.ui.wording import ANSWER_WORDS

_COLUMNS = (
    marked("Guidance"),
    marked("Answer"),
    marked("What decides"),
    marked("Margin\n(least to greatest)"),
    marked("Still\nopen"),
)
_DECIDES = 2


class CompareWindow(QDialog):
    """Follows every edit while it is open. Choosing a row changes nothing; the button does, as one undo step."""

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self.rows: tuple[Compared, ...] = ()
        self.setWindowTitle(tr("Compare the guidance"))
        self.resize(QSize(1080, 760).boundedTo(self.screen().availableGeometry().size() - QSize(8, 40)))
        self.table = _table()
        self.details = faint()
        self.details.setAccessibleName(tr("About the chosen guidance"))
        self.broken = fault()
        self.bands = CompareBands()
        self.scroll = QScrollArea()
        self.follow = QPushButton(tr("&Follow this guidance"))
        self.shut = QPushButton(tr("&Close"))
        self._lay_out()
        self.table.itemSelectionChanged.connect(self._show_chosen)
        self.follow.clicked.connect(self._follow_chosen)
        self.shut.clicked.connect(self.close)
        editor.session.listen(self.show_session)
        preferences.changed.connect(self.show_session)

    @property
    def chosen(self) -> Compared | None:
        """The rule set of the chosen row."""
        row = self.table.currentRow()
        return self.rows[row] if self.table.selectedItems() and 0 <= row < len(self.rows) else None

    def show_session(self) -> None:
        """Answer the present job by every rule set; nothing while the window is closed."""
        if not self.isVisible():
            return
        kept = self.chosen.rule_set.name if self.chosen is not None else self._editor.job.rule_set
        self.rows = compared(self._editor.job)
        tell_fault(self.broken, " ".join(tr("Left out: {wrong}", wrong=wrong) for _, wrong in broken_rule_sets()))
        self.table.blockSignals(True)
        self.table.setRowCount(len(self.rows))
        for number, row in enumerate(self.rows):
            self._fill(number, row)
        self.table.clearSelection()
        names = [row.rule_set.name for row in self.rows]
        if kept in names:
            self.table.selectRow(names.index(kept))
        self.table.blockSignals(False)
        self._fit_table()
        self._show_chosen()

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with the job."""
        super().showEvent(event)
        self.show_session()
        self.table.setFocus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the reasons anew."""
        super().resizeEvent(event)
        self._fit_table()

    def _fit_table(self) -> None:
        """Rows as high as their wrapped text, and the table no higher than its rows: the bands take the rest."""
        self.table.resizeRowsToContents()
        rows = sum(self.table.rowHeight(number) for number in range(self.table.rowCount()))
        self.table.setMaximumHeight(self.table.horizontalHeader().height() + rows + 2 * self.table.frameWidth() + 2)
        self.table.scrollTo(self.table.currentIndex())

    def _fill(self, number: int, row: Compared) -> None:
        settings = self._preferences.settings
        title = tr("{title}\n(this job follows it)", title=row.title_lines) if row.own else row.title_lines
        answer = row.assessment.answer
        words = (
            title, told(ANSWER_WORDS[answer]), said_in(row.decides_says, settings.units),
            margin_says(row.decides, settings.units), str(len(row.still_open)),
        )
        for column, text in enumerate(words):
            item = QTableWidgetItem(text)
            font = item.font()
            font.setBold(row.own and column < _DECIDES)
            item.setFont(font)
            item.setToolTip(text)
            self.table.setItem(number, column, item)
        self.table.item(number, 1).setIcon(answer_icon(answer, theme_of(settings.theme), 20))
        self.table.item(number, 4).setToolTip("\n".join(row.still_open))

    def _show_chosen(self) -> None:
        settings, chosen = self._preferences.settings, self.chosen
        self.details.setText("" if chosen is None else details(chosen))
        self.follow.setEnabled(chosen is not None and not chosen.own)
        self.follow.setToolTip("" if self.follow.isEnabled() else tr("Choose another guidance in the table first."))
        name = None if chosen is None else chosen.rule_set.name
        self.bands.show_rows(self.rows, name, settings.units, theme_of(settings.theme))
        self.scroll.setMaximumHeight(self.bands.minimumHeight() + 4)

    def _follow_chosen(self) -> None:
        """Answer this job by the chosen rule set; what new jobs start with stays as it is."""
        if self.chosen is not None:
            self._editor.try_change(tr("Guidance"), choose_rule_set, self.chosen.rule_set.name)

    def _lay_out(self) -> None:
        for button in (self.follow, self.shut):
            button.setAutoDefault(False)  # Enter in the table must not change the job
        bands = self.scroll
        bands.setWidgetResizable(True)
        bands.setFrameShape(QFrame.Shape.NoFrame)
        bands.setAccessibleName(tr("Bands across the tread"))
        bands.setWidget(self.bands)
        buttons = QHBoxLayout()
        buttons.addWidget(self.follow)
        buttons.addStretch(1)
        buttons.addWidget(self.shut)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 10, 12, 12)
        column.addWidget(self.table, 1)
        column.addWidget(self.broken)
        column.addWidget(self.details)
        column.addWidget(
            heading(tr("Where a hole may lie: half-widths from the center, dashed where the maker decides"))
        )
        column.addWidget(bands, 1)
        column.addStretch(0)
        column.addLayout(buttons)


def _table() -> QTableWidget:
    table = QTableWidget(0, len(_COLUMNS))
    make_readable(table, tr("The job by every guidance"), [told(each) for each in _COLUMNS])
    table.verticalHeader().setMinimumSectionSize(30)
    table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    stretch_column(table, _DECIDES)
    return table
