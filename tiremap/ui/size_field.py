"""The tire's size: a code understood while it is typed, or the dimensions themselves."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.tire import set_size_code, set_typed_size
from tiremap.errors import TiremapError
from tiremap.model.job import TypedDimensions
from tiremap.model.measures import LengthUnit
from tiremap.model.size_code import read_size_code
from tiremap.model.size_sentence import understood
from tiremap.model.size_text import SizeCodeError
from tiremap.model.typed_measures import read_length
from tiremap.model.units import inches_from_mm, mm_from_inches
from tiremap.ui import wording
from tiremap.ui.editor import Editor
from tiremap.ui.field_edit import FieldEdit, restyle
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, fault, tell_fault

_IN_WORDS = {
    "overall_diameter_mm": marked("Overall diameter"),
    "section_width_mm": marked("Section width"),
    "rim_diameter_mm": marked("Rim diameter"),
    "rim_width_in": marked("Rim width"),
}


class SizeField(QWidget):
    """The size code with a sentence under it; below, on request or for other families, the four dimensions.

    Signals: ``opened()`` when the dimensions were asked for.
    """

    opened = Signal()

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._unit: LengthUnit = "mm"
        self._stored: str | None = None
        self._typed: TypedDimensions | None = None
        self.code = FieldEdit(tr("Size code"))
        self.code.setPlaceholderText("205/55R16 91V")
        self.says = faint()
        self.says.setAccessibleName(tr("What the size code says"))
        self.instead = QPushButton(tr("Type the dimensions instead"))
        self.instead.setCheckable(True)
        self.dimensions = QWidget()
        self.dimension_edits = {name: FieldEdit(told(words)) for name, words in _IN_WORDS.items()}
        self.dimensions_fault = fault()
        self._lay_out()
        self.code.textEdited.connect(self._understand)
        self.code.editingFinished.connect(self.commit)
        self.instead.toggled.connect(self._offer_dimensions)
        self.instead.clicked.connect(self._back_to_code)
        for edit in self.dimension_edits.values():
            edit.editingFinished.connect(self._commit_dimensions)
        self.setFocusProxy(self.code)

    def show_assessment(self, assessment: Assessment, unit: LengthUnit) -> None:
        """Show the size the job holds; a code that could not be read stays as typed."""
        tire = assessment.job.tire
        if tire.size_code != self._stored or not self.code.is_faulty:
            self._stored = tire.size_code
            if not (self.code.hasFocus() and self.code.isModified()):
                self.code.setText(tire.size_code or "")
                self._understand(self.code.text())
        self._show_dimensions(tire.typed_dimensions, unit)

    def commit(self) -> None:
        """Put the code in the job if it can be read."""
        text = self.code.text().strip()
        if text == (self._stored or ""):
            self._understand(text)
            return
        if self._typed is not None:
            self._commit_dimensions()
            return
        try:
            self._editor.change(tr("Size code"), set_size_code, text)
        except TiremapError as error:
            self._tell(error, text)
            return
        self.code.setModified(False)

    def _understand(self, text: str) -> None:
        """The live sentence, and the stroke under what is wrong."""
        text = text.strip()
        error = _error_in(text)
        wrong = error is not None and not error.incomplete
        at = error.position if wrong and not error.other_family else None
        self.code.set_fault(wrong and self._typed is None, at)
        self._say(understood(text) if text else tr("As it stands on the sidewall."))
        if wrong and error.other_family:
            self.instead.setChecked(True)

    def _tell(self, error: TiremapError, text: str) -> None:
        at = error.position if isinstance(error, SizeCodeError) else None
        self.code.set_fault(True, at)
        self._say(str(error))
        if getattr(error, "other_family", False) or not isinstance(error, SizeCodeError):
            self.instead.setChecked(True)

    def _say(self, sentence: str) -> None:
        """The line under the code, in the color of a fault where it tells one."""
        self.says.setText(sentence)
        self.says.setProperty("role", "fault" if self.code.is_faulty else "faint")
        restyle(self.says)

    def _offer_dimensions(self, wanted: bool) -> None:
        self.dimensions.setVisible(wanted)
        if wanted:
            self.opened.emit()

    def _back_to_code(self, wanted: bool) -> None:
        """The dimensions are put away: the code alone counts again, if it can be read."""
        if wanted or self._typed is None:
            return
        text = self.code.text().strip()
        try:
            self._editor.change(tr("Size code"), set_size_code, text)
        except TiremapError as error:
            self.instead.setChecked(True)
            tell_fault(self.dimensions_fault, str(error))

    def _show_dimensions(self, typed: TypedDimensions | None, unit: LengthUnit) -> None:
        if typed == self._typed and unit == self._unit:
            return
        self._typed, self._unit = typed, unit
        for name, edit in self.dimension_edits.items():
            edit.setText("" if typed is None else self._dimension_text(name, getattr(typed, name)))
        tell_fault(self.dimensions_fault, "")
        self.instead.setChecked(typed is not None)
        self._understand(self.code.text())

    def _dimension_text(self, name: str, value: float) -> str:
        return wording.length(value, "in" if name.endswith("_in") else "mm", self._rim_unit(name))

    def _rim_unit(self, name: str) -> LengthUnit:
        """Rim widths are in inches everywhere; the others as shown."""
        return "in" if name.endswith("_in") else self._unit

    def _commit_dimensions(self) -> None:
        """Put the dimensions in the job once all four are there."""
        texts = {name: edit.text().strip() for name, edit in self.dimension_edits.items()}
        if not all(texts.values()):
            return
        try:
            values = {name: self._read_dimension(name, text) for name, text in texts.items()}
            if self._typed is None or self.code.text().strip() != (self._stored or "") or values != {
                name: getattr(self._typed, name) for name in values
            }:
                self._editor.change(tr("Dimensions"), set_typed_size, self.code.text(), **values)
        except TiremapError as error:
            tell_fault(self.dimensions_fault, str(error))
            return
        tell_fault(self.dimensions_fault, "")

    def _read_dimension(self, name: str, text: str) -> float:
        if self._typed is not None and text == self._dimension_text(name, getattr(self._typed, name)):
            return getattr(self._typed, name)  # shown converted, stored as typed
        taken = read_length(text, self._rim_unit(name))
        mm = mm_from_inches(taken.value) if taken.unit == "in" else taken.value
        if not name.endswith("_in"):
            return mm
        return taken.value if taken.unit == "in" else inches_from_mm(mm)

    def _lay_out(self) -> None:
        grid = QGridLayout(self.dimensions)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(4)
        for row, (name, edit) in enumerate(self.dimension_edits.items()):
            label = QLabel(told(_IN_WORDS[name]))
            label.setBuddy(edit)
            grid.addWidget(label, row, 0)
            grid.addWidget(edit, row, 1)
        grid.addWidget(self.dimensions_fault, len(_IN_WORDS), 0, 1, 2)
        self.dimensions.hide()
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(4)
        for each in (self.code, self.says, self.instead, self.dimensions):
            whole.addWidget(each)


def _error_in(text: str) -> SizeCodeError | None:
    if not text:
        return None
    try:
        read_size_code(text)
    except SizeCodeError as error:
        return error
    except TiremapError:
        return None
    return None
