"""The table of the register: two lines for each job, opened by Enter or a double click."""

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from tiremap.storage.register import RegisterRow
from tiremap.ui.language import told, tr
from tiremap.ui.register_model import COLUMNS, DECIDES, Column, RegisterModel
from tiremap.ui.roomy_cells import RoomyCells

_PAD = 11
"""Beside the text of a cell, px."""


class RegisterTable(QTableView):
    """Whole rows are chosen. A job keeps being chosen while the register is read again.

    Signals: ``row_chosen(RegisterRow | None)``; ``open_wanted(RegisterRow)``.
    """

    row_chosen = Signal(object)
    open_wanted = Signal(object)

    def __init__(self, jobs: RegisterModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._jobs = jobs
        self._told: RegisterRow | None = None
        self.setModel(jobs)
        self.setAccessibleName(tr("Jobs of the register"))
        self.setItemDelegate(RoomyCells(self))
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header = self.horizontalHeader()
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setHighlightSections(False)
        header.setMinimumSectionSize(40)
        self.selectionModel().currentRowChanged.connect(self.tell)
        self.doubleClicked.connect(self._open)
        jobs.modelReset.connect(self.tell)

    @property
    def chosen(self) -> RegisterRow | None:
        """The job of the chosen row."""
        index = self.currentIndex()
        return self._jobs.row(index.row()) if index.isValid() else None

    def fit(self, least_height: int) -> None:
        """Rows of two lines, at least so many px high; columns as wide as what usually stands in them."""
        metrics = self.fontMetrics()
        self.verticalHeader().setDefaultSectionSize(max(least_height, 2 * metrics.lineSpacing() + 8))
        taken = 0
        for number, column in enumerate(COLUMNS):
            if number != DECIDES:
                width = _width(column, metrics)
                self.setColumnWidth(number, width)
                taken += width
        self.setColumnWidth(DECIDES, max(_width(COLUMNS[DECIDES], metrics), self.viewport().width() - taken))

    def choose(self, path: str, near: int) -> None:
        """Choose the job of that file again, looked for at the row it had and among the rows read."""
        row = self._jobs.row(near)
        number = near if row is not None and row.path == path else self._jobs.number_of(path)
        if number is not None:
            self.setCurrentIndex(self._jobs.index(number, 0))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens the chosen job."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.open_chosen()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """What decides takes the room there is."""
        super().resizeEvent(event)
        self.fit(self.verticalHeader().defaultSectionSize())

    def open_chosen(self) -> None:
        """Ask for the chosen job to be opened."""
        if self.chosen is not None:
            self.open_wanted.emit(self.chosen)

    def _open(self, index: QModelIndex) -> None:
        self.open_chosen()

    def tell(self, *_: object) -> None:
        """Tell which job is chosen, once for each change."""
        if self.signalsBlocked():
            return
        if self.chosen != self._told:
            self._told = self.chosen
            self.row_chosen.emit(self._told)


def _width(column: Column, metrics: QFontMetrics) -> int:
    """A column as wide as what usually stands in it, and as the lines of its head, px."""
    heads = (metrics.horizontalAdvance(line) for line in told(column.title).split("\n"))
    return max(metrics.averageCharWidth() * column.characters, *heads) + _PAD
