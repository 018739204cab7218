"""The tire maker's or repair-material maker's word: a figure that settles what a rule set leaves open."""

from typing import Any

from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.change import changed, made
from tiremap.edits.tire import set_tire
from tiremap.errors import TiremapError
from tiremap.model.job import MakerWord
from tiremap.model.measures import Length, LengthUnit
from tiremap.model.typed_measures import read_length
from tiremap.ui import wording
from tiremap.ui.editor import Editor
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import fault, tell_fault

_FIGURES = {"zone_inset": marked("Inside the tread edge"), "largest_prepared_size": marked("Largest reamed hole")}


class MakerWordField(QWidget):
    """Source and figures; a figure without its source is kept on the screen and not taken."""

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._word: MakerWord | None = None
        self._unit: LengthUnit = "mm"
        self.source = FieldEdit(tr("Source of the maker's word"))
        self.source.setPlaceholderText(tr("bulletin"))
        self.figures = {
            name: FieldEdit(tr("Maker's word: {words}", words=told(words))) for name, words in _FIGURES.items()
        }
        self.past_edge = QCheckBox(tr("Head may pass the tread edge"))
        self.past_edge.setAccessibleName(tr("Maker's word: the head may pass the tread edge"))
        self.fault = fault()
        self._lay_out()
        for edit in (self.source, *self.figures.values()):
            edit.editingFinished.connect(self.commit)
        self.past_edge.clicked.connect(self.commit)

    def show_assessment(self, assessment: Assessment, unit: LengthUnit) -> None:
        """Show the word the job holds; what is typed and not taken stays."""
        word = assessment.job.tire.maker_word
        if (word, unit) == (self._word, self._unit):
            return
        self._word, self._unit = word, unit
        self.source.setText(word.source if word else "")
        for name, edit in self.figures.items():
            edit.setText(self._text(getattr(word, name, None)))
        self.past_edge.setChecked(bool(word and word.head_past_tread_edge))
        tell_fault(self.fault, "")

    def commit(self) -> None:
        """Put source and figures in the job together."""
        try:
            word = self._read()
            if word != self._word:
                self._editor.change(tr("Maker's word"), set_tire, maker_word=word)
        except TiremapError as error:
            tell_fault(self.fault, str(error))
            return
        tell_fault(self.fault, "")

    def _read(self) -> MakerWord | None:
        source = self.source.text().strip()
        figures: dict[str, Any] = {name: self._figure(name) for name in self.figures}
        if not source:
            if any(figures.values()) or self.past_edge.isChecked():
                raise TiremapError(
                    tr("A maker's figure needs its source."), tr("For example: bulletin 12, March 2024.")
                )
            return None
        fields = {"source": source, "head_past_tread_edge": self.past_edge.isChecked(), **figures}
        return made(MakerWord, **fields) if self._word is None else changed(self._word, **fields)

    def _figure(self, name: str) -> Length | None:
        text = self.figures[name].text().strip()
        stored = getattr(self._word, name, None)
        if text == self._text(stored):
            return stored
        return made(Length, **read_length(text, self._unit)._asdict(), how="exact")

    def _text(self, figure: Any) -> str:
        return "" if figure is None else wording.length(figure.value, figure.unit, self._unit)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setColumnStretch(1, 1)
        rows = [(tr("Source"), self.source), *((told(_FIGURES[name]), edit) for name, edit in self.figures.items())]
        for row, (text, edit) in enumerate(rows):
            label = QLabel(text)
            label.setBuddy(edit)
            grid.addWidget(label, row, 0)
            grid.addWidget(edit, row, 1)
        grid.addWidget(self.past_edge, len(rows), 0, 1, 2)
        grid.addWidget(self.fault, len(rows) + 1, 0, 1, 2)
