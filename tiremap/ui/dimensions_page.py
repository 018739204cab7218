"""The dimensions to work to at one injury: unit, cutter, channel, stem, clearances, ground and cement."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.said import said_in
from tiremap.model.measures import LengthUnit
from tiremap.repair_dimensions import RepairDimensions, repair_dimensions
from tiremap.ui.dimension_words import (
    OUTLINE_WORDS,
    PLACEHOLDER,
    Line,
    area,
    dimension_lines,
    from_to,
    is_placeholder,
    outline_reach,
    place_hangs_on,
    sources,
)
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, fault, heading
from tiremap.ui.preferences import Preferences

_WIDEST_NAME = 116
"""px; a longer name wraps."""
_SELECTABLE = Qt.TextInteractionFlag.TextSelectableByMouse
_NO_DATUM = marked("Still to measure: the place around from the datum.")
_BEFORE_THE_LINES = {
    "not_repairable": marked("The tire is not repairable as it stands: these dimensions are for this injury alone."),
    "measure_first": marked("Measure first: what is measured may still change these dimensions."),
}


class DimensionsPage(QScrollArea):
    """Follows the job and the chosen injury; it is read, never typed in. Texts can be selected and copied."""

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self._chosen: str | None = None
        self._shown: tuple | None = None
        self.setAccessibleName(tr("Dimensions of the repair"))
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setWidget(QWidget())

    @property
    def text(self) -> str:
        """Everything that is said, line by line."""
        return "\n".join(label.text() for label in self.widget().findChildren(QLabel))

    def show_assessment(self, assessment: Assessment, chosen: str | None = None) -> None:
        """Show the dimensions at the chosen injury, or at the only one."""
        self._chosen = chosen
        unit = self._preferences.settings.units
        mark = _wanted(assessment, chosen)
        found = None
        if mark is not None:
            found = next((each for each in repair_dimensions(assessment) if each.injury == mark.id), None)
        # what is shown hangs on all of these; the same ones leave a selected text alone
        state = (assessment.job, assessment.rule_set, assessment.stock, mark and mark.id, unit)
        if state == self._shown:
            return
        self._shown = state
        place = self.verticalScrollBar().value()
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(8, 6, 8, 6)
        column.setSpacing(6)
        self._fill(column, assessment, mark, found, unit)
        column.addStretch(1)
        self.setWidget(inside)
        self.verticalScrollBar().setValue(place)

    def take_preferences(self) -> None:
        """Show lengths in the unit of the preferences."""
        self.show_assessment(self._editor.session.assessment, self._chosen)

    def _fill(
        self, column: QVBoxLayout, assessment: Assessment, mark: AssessedMark | None,
        found: RepairDimensions | None, unit: LengthUnit,
    ) -> None:
        if mark is None:
            column.addWidget(_text(faint(_no_injury(assessment))))
            return
        column.addWidget(heading(tr("Injury {id}", id=mark.id)))
        if found is None:
            column.addWidget(_text(faint(said_in(_why_none(assessment, mark), unit))))
            return
        if is_placeholder(assessment):
            column.addWidget(_text(fault(told(PLACEHOLDER))))
        if assessment.answer in _BEFORE_THE_LINES:
            column.addWidget(_text(faint(told(_BEFORE_THE_LINES[assessment.answer]))))
        self.ensurePolished()  # else its font is not yet the one of the style sheet
        column.addLayout(_lines(dimension_lines(found, mark, assessment, unit), self.fontMetrics()))
        if found.outlines:
            column.addLayout(_ground(found, place_hangs_on(mark, assessment), unit))
        column.addWidget(_text(faint("\n".join(sources(assessment)))))


def _wanted(assessment: Assessment, chosen: str | None) -> AssessedMark | None:
    only = assessment.injuries[0] if len(assessment.injuries) == 1 else None
    return next((each for each in assessment.injuries if each.id == chosen), only)


def _no_injury(assessment: Assessment) -> str:
    if assessment.injuries:
        return tr("Choose an injury on the drawing or in the table: its dimensions stand here.")
    if assessment.job.injuries:
        return tr("No dimensions yet. {why}", why=assessment.reasons[0].says)
    return tr("No injury is marked: click where the hole is, and its dimensions stand here.")


def _why_none(assessment: Assessment, mark: AssessedMark) -> str:
    if mark.answer == "not_repairable":
        refused = next(each for each in mark.reasons if each.level == "refuse")
        return tr("Not repairable, so there is nothing to fit. {why}", why=refused.says)
    return tr("No dimensions yet. {why}", why=assessment.reasons[0].says)


def _lines(lines: tuple[Line, ...], metrics: QFontMetrics) -> QVBoxLayout:
    """Name beside value, close under them what is to be known with it."""
    column = QVBoxLayout()
    column.setSpacing(7)
    names = [_text(faint(line.name)) for line in lines]
    wide = min(_WIDEST_NAME, max(metrics.horizontalAdvance(line.name) for line in lines) + 1)
    for line, name in zip(lines, names, strict=True):
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(1)
        grid.setColumnMinimumWidth(0, wide)
        grid.setColumnStretch(1, 1)
        name.setFixedWidth(wide)
        value = _text(QLabel(line.says))
        value.setWordWrap(True)
        value.setAccessibleName(f"{line.name}: {line.says}")
        grid.addWidget(name, 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(value, 0, 1, Qt.AlignmentFlag.AlignTop)
        if line.hint:
            grid.addWidget(_text(fault(line.hint) if line.wrong else faint(line.hint)), 1, 0, 1, 2)
        column.addLayout(grid)
    return column


def _ground(found: RepairDimensions, hangs_on: str, unit: LengthUnit) -> QGridLayout:
    """A small table for each place one can measure from, and the areas."""
    grid = QGridLayout()
    grid.setHorizontalSpacing(8)
    grid.setVerticalSpacing(2)
    grid.setColumnStretch(0, 1)
    outlines = found.outlines
    reach = [(each.name, outline_reach(each, unit)) for each in outlines]
    over = [(each.name, each.from_outboard_edge and from_to(each.from_outboard_edge, unit)) for each in outlines]
    around = [(each.name, each.from_datum and from_to(each.from_datum, unit)) for each in outlines]
    areas = [(each.name, ("", area(each.area_mm2, unit))) for each in outlines]
    _rows(grid, tr("From the middle of the hole, each way"), (tr("across"), tr("around")), reach)
    _rows(grid, tr("Over the tread, from its outboard edge"), (tr("from"), tr("to")), over, hangs_on)
    _rows(grid, tr("Over the tread, around from the datum"), (tr("from"), tr("to")), around, told(_NO_DATUM))
    _rows(grid, tr("Area of liner"), ("", ""), areas)
    return grid


def _rows(
    grid: QGridLayout, title: str, columns: tuple[str, str], rows: list[tuple[str, tuple[str, str] | None]],
    unknown: str = "",
) -> None:
    row = grid.rowCount()
    whole = heading(title)
    whole.setWordWrap(True)
    grid.addWidget(whole, row, 0, 1, 3)
    if any(cells is None for _, cells in rows):
        grid.addWidget(_text(faint(unknown)), row + 1, 0, 1, 3)
        return
    _cells(grid, row + 1, ("", *columns), quiet=True)
    for number, (name, cells) in enumerate(rows):
        _cells(grid, row + 2 + number, (told(OUTLINE_WORDS[name]), *cells))


def _cells(grid: QGridLayout, row: int, cells: tuple[str, ...], *, quiet: bool = False) -> None:
    for column, words in enumerate(cells):
        if words:
            label = _text(QLabel(words))
            if quiet or column == 0:
                label.setProperty("role", "faint")
            side = Qt.AlignmentFlag.AlignLeft if column == 0 else Qt.AlignmentFlag.AlignRight
            grid.addWidget(label, row, column, side)


def _text(label: QLabel) -> QLabel:
    """Text that can be selected and copied."""
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(_SELECTABLE)
    return label
