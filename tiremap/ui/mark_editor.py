"""Every measurement of one mark in a window of its own: what the table has no room for."""

from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QComboBox, QDialog, QDialogButtonBox, QFormLayout, QScrollArea, QVBoxLayout, QWidget

from tiremap.edits.marks import mark_with_id
from tiremap.errors import TiremapError
from tiremap.model.job import Injury, Job
from tiremap.model.measures import LengthUnit
from tiremap.ui import measure_kinds as kinds
from tiremap.ui.editor import Editor
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import choice, faint, show_choice
from tiremap.ui.marks_columns import Mark, change_of, marks_of, words_for
from tiremap.ui.measure_field import MeasureField

_INJURY = (
    ("outside", marked("Outside, across"), kinds.ACROSS), ("inside", marked("Inside, across"), kinds.ACROSS),
    ("around", marked("Around"), kinds.AROUND), ("size_outside", marked("Size outside"), kinds.HOLE),
    ("size_inside", marked("Size inside"), kinds.HOLE), ("lean_across", marked("Lean across"), kinds.LEAN),
    ("lean_around", marked("Lean around"), kinds.LEAN), ("size_prepared", marked("Reamed with"), kinds.CUTTER),
)
_REPAIR = (
    ("inside", marked("Head, across"), kinds.ACROSS), ("around", marked("Around"), kinds.AROUND),
    ("head_length", marked("Head length"), kinds.HEAD), ("head_width", marked("Head width"), kinds.HEAD),
)
_KINDS = (
    (marked("not known"), "unknown"), (marked("stem and head"), "stem_and_head"), (marked("plug only"), "plug_only"),
    (marked("patch only"), "patch_only"), (marked("string"), "string"),
)
_MADE_BY = ((marked("not said"), None), (marked("puncture"), "puncture"), (marked("cut"), "cut"))
_CORDS = ((marked("not looked at"), None), (marked("no"), False), (marked("yes"), True))
_ALONG = ((marked("around the tire"), "around"), (marked("across the tire"), "across"))
_HELP = marked(
    "Places on the liner can be taped from both bead toes, outboard first: 118 and 122. "
    "Lean across is + when the inside end lies outboard, lean around + towards growing angle."
)


class MarkEditor(QDialog):
    """The details of one mark. Each field goes into the job as it is left; closing loses nothing."""

    def __init__(self, editor: Editor, mark: Mark, unit: LengthUnit, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self.mark_id = mark.id
        title = words_for(mark)
        self.setWindowTitle(title[:1].upper() + title[1:])
        self.setMinimumWidth(470)
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        self.fields: dict[str, MeasureField] = {}
        for name, text, kind in _INJURY if isinstance(mark, Injury) else _REPAIR:
            words = told(text)
            self.fields[name] = MeasureField(kind, words, partial(self._set, name, words))
            form.addRow(words, self.fields[name])
        self.choices: dict[str, QComboBox] = {}
        self.texts: dict[str, FieldEdit] = {}
        if isinstance(mark, Injury):
            self._add_choice(form, "kind", tr("Kind"), _MADE_BY)
            self._add_text(form, "object", tr("Object"))
            self._add_choice(form, "cords_splayed", tr("Cords splayed"), _CORDS)
        else:
            self._add_choice(form, "head_along", tr("Longer side lies"), _ALONG)
            self._add_choice(form, "kind", tr("Kind"), _KINDS)
            self._add_text(form, "date", tr("Date"))
        self._add_text(form, "note", tr("Note"))
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.close)
        for button in buttons.buttons():
            button.setAutoDefault(False)
        whole = QVBoxLayout(self)
        whole.addWidget(self._scrolled(form))
        whole.addWidget(faint(told(_HELP)))
        whole.addWidget(buttons)
        self.show_job(editor.job, unit)

    def showEvent(self, event: QShowEvent) -> None:
        """As tall as all fields need in the present density, or as the screen has room for."""
        super().showEvent(event)
        missing = self._fields.sizeHint().height() - self._scroll.viewport().height()
        room = self.screen().availableGeometry().height() - 40  # a title and a frame
        self.resize(self.width(), min(self.height() + missing, room))

    def show_job(self, job: Job, unit: LengthUnit) -> None:
        """Show the mark as it stands; close where it is gone."""
        mark = next((each for each in marks_of(job) if each.id == self.mark_id), None)
        if mark is None:
            self.close()
            return
        for name, field in self.fields.items():
            field.show_record(getattr(mark, name), unit)
        for name, box in self.choices.items():
            show_choice(box, getattr(mark, name))
        for name, edit in self.texts.items():
            if not (edit.hasFocus() and edit.isModified()):
                edit.setText(getattr(mark, name) or "")

    def focus_field(self, field: str) -> None:
        """Put the focus on a field by its name in the record, such as ``head_length``."""
        if field in self.fields:
            self.fields[field].edit.setFocus()
        elif field in self.choices:
            self.choices[field].setFocus()
        elif field in self.texts:
            self.texts[field].setFocus()

    def _mark(self) -> Mark:
        return mark_with_id(marks_of(self._editor.job), self.mark_id, "mark")

    def _set(self, name: str, words: str, value: Any) -> None:
        mark = self._mark()
        self._editor.change(tr("{words} of {mark}", words=words, mark=words_for(mark)), change_of, mark, name, value)

    def _scrolled(self, form: QFormLayout) -> QScrollArea:
        """The fields, scrolled where a low screen cuts large controls short."""
        self._fields, self._scroll = QWidget(), QScrollArea()
        form.setContentsMargins(0, 0, 0, 0)
        self._fields.setLayout(form)
        self._scroll.setWidget(self._fields)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        return self._scroll

    def _add_choice(self, form: QFormLayout, name: str, words: str, options: Any) -> None:
        self.choices[name] = box = choice(words, options)
        box.activated.connect(partial(self._chosen, name, words))
        form.addRow(words, box)

    def _add_text(self, form: QFormLayout, name: str, words: str) -> None:
        self.texts[name] = edit = FieldEdit(words)
        edit.editingFinished.connect(partial(self._typed, name, words))
        form.addRow(words, edit)

    def _chosen(self, name: str, words: str, index: int) -> None:
        self._try(name, words, self.choices[name].itemData(index))

    def _typed(self, name: str, words: str) -> None:
        text = self.texts[name].text().strip()
        self._try(name, words, text or (None if name == "date" else ""))

    def _try(self, name: str, words: str, value: Any) -> None:
        try:
            self._set(name, words, value)
        except TiremapError as error:
            self._editor.tell(str(error))
