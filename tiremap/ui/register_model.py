"""The register's jobs as rows of a table. Only what is looked at is read from the index."""

from collections.abc import Callable
from pathlib import PurePosixPath
from typing import Any, NamedTuple

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QColor, QIcon

from tiremap.drawing.said import said_in
from tiremap.errors import TiremapError
from tiremap.model.measures import LengthUnit
from tiremap.storage.register import Register, RegisterRow
from tiremap.ui.answer_symbol import answer_icon, level_icon
from tiremap.ui.language import marked, told, tr
from tiremap.ui.palettes import Theme, theme_of
from tiremap.ui.register_filters import Sought
from tiremap.ui.titled_columns import Index, TitledColumns
from tiremap.ui.wording import ANSWER_WORDS

_PAGE = 200
"""Rows read at a time: a few screens."""


class Column(NamedTuple):
    """Its title, its least width in characters, and its text of a row with lengths in the unit shown."""

    title: str
    characters: int
    text: Callable[[RegisterRow, LengthUnit], str]


def answer_says(row: RegisterRow) -> str:
    """The answer in a word; of a file without one, whether it could not be read or not be answered."""
    if row.answer is not None and not row.fault:
        return told(ANSWER_WORDS[row.answer])
    return tr("Not answered") if row.size or row.job_number or not row.fault else tr("Not readable")


def decides_says(row: RegisterRow, unit: LengthUnit = "mm") -> str:
    """What decides the answer, or what is wrong with the file."""
    return row.fault or said_in(row.deciding_says or "", unit)


def job_says(row: RegisterRow) -> str:
    """What the job is called: its number, or else its file."""
    return row.job_number or PurePosixPath(row.path).name


COLUMNS = (
    Column(marked("Date"), 11, lambda row, unit: row.date or ""),
    Column(marked("Job"), 8, lambda row, unit: job_says(row)),
    Column(marked("Fleet"), 6, lambda row, unit: row.fleet_number or ""),
    Column(marked("Tire"), 8, lambda row, unit: row.tire_number or ""),
    Column(marked("Size"), 14, lambda row, unit: row.size or ""),
    Column(marked("Date\ncode"), 5, lambda row, unit: row.date_code or ""),
    Column(marked("Answer"), 16, lambda row, unit: answer_says(row)),
    Column(marked("What decides"), 12, decides_says),
    Column(marked("Repairs"), 7, lambda row, unit: "" if row.fault else str(row.repairs)),
)
ANSWER, DECIDES = 6, 7


class RegisterModel(TitledColumns):
    """The jobs of a register that fit what is sought, newest first.

    Signals: ``failed(str)`` where the index could not be read; then no row is shown.
    """

    failed = Signal(str)

    def __init__(self) -> None:
        super().__init__(COLUMNS)
        self._register: Register | None = None
        self._sought = Sought()
        self._count = 0
        self._pages: dict[int, list[RegisterRow]] = {}
        self._unit: LengthUnit = "mm"
        self._show_theme(theme_of("light"))

    def show_looks(self, theme: Theme, unit: LengthUnit) -> None:
        """Symbols in another theme, lengths in another unit."""
        self.layoutAboutToBeChanged.emit()
        self._show_theme(theme)
        self._unit = unit
        self.layoutChanged.emit()

    def show_jobs(self, register: Register | None, sought: Sought) -> None:
        """Show the jobs that fit, as the index stands now."""
        self.beginResetModel()
        self._register, self._sought = register, sought
        self._pages = {}
        self._count = self._tried(lambda: register.count(**sought.asked()), 0) if register is not None else 0
        self.endResetModel()

    def row(self, number: int) -> RegisterRow | None:
        """The job of a row; ``None`` where the index has none there any more."""
        page, within = divmod(number, _PAGE)
        if page not in self._pages:
            self._pages[page] = self._tried(lambda: self._register.find(
                **self._sought.asked(), limit=_PAGE, offset=page * _PAGE,
            ), [])
        rows = self._pages[page]
        return rows[within] if within < len(rows) else None

    def number_of(self, path: str) -> int | None:
        """The row of a file among those already read; ``None`` if it is not there."""
        for page, rows in self._pages.items():
            for within, row in enumerate(rows):
                if row.path == path:
                    return page * _PAGE + within
        return None

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """One row for each job that fits."""
        return 0 if parent.isValid() else self._count

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Text, the answer's symbol, and the file as a tip."""
        if not index.isValid() or (row := self.row(index.row())) is None:
            return None
        column = COLUMNS[index.column()]
        match role:
            case Qt.ItemDataRole.DisplayRole:
                return column.text(row, self._unit)
            case Qt.ItemDataRole.ToolTipRole:
                return "\n".join(filter(None, (column.text(row, self._unit), row.path)))
            case Qt.ItemDataRole.DecorationRole if index.column() == ANSWER:
                return self._icons[None if row.fault else row.answer]
            case Qt.ItemDataRole.ForegroundRole if row.fault and index.column() in (ANSWER, DECIDES):
                return self._fault
            case Qt.ItemDataRole.AccessibleTextRole:
                return f"{' '.join(column.title.split())}: {column.text(row, self._unit)}"
        return None

    def _show_theme(self, theme: Theme) -> None:
        self._fault = QColor(theme.fault)
        self._icons: dict[str | None, QIcon] = {each: answer_icon(each, theme) for each in ANSWER_WORDS}
        self._icons[None] = level_icon("caution", theme)

    def _tried(self, ask: Callable[[], Any], otherwise: Any) -> Any:
        try:
            return ask()
        except TiremapError as error:
            self.failed.emit(str(error))
            return otherwise
