"""One limit of the shop's own rule set to be changed: its value, and on whose word. What it would mean stands below."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from tiremap.errors import TiremapError
from tiremap.model.limit_against_parent import looser_in, parents_value
from tiremap.model.limit_values import limit_at, number_shown, unit_shown, value_of, value_typed, with_value
from tiremap.model.looser import beyond_the_loosest
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import published_rule_set_names, rule_set_named
from tiremap.model.rule_set_titles import parent_title
from tiremap.model.rule_set_words import LimitLine
from tiremap.storage.shop_rule_sets import write_limit
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import tr
from tiremap.ui.layouts import faint, fault, tell_fault


class LimitEdit(QWidget):
    """Two fields and a button. What was typed stays while the limit stays chosen, whatever happens to the file.

    Signals: ``changed()`` after a limit was changed in its file.
    """

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rule_set: RuleSet | None = None
        self._key = ""
        self.about = QLabel()
        self.about.setWordWrap(True)
        self.value = FieldEdit(tr("New value of the limit"))
        self.unit = QLabel()
        self.source = FieldEdit(tr("On whose word the limit is changed"))
        self.source.setPlaceholderText(tr("who says so, or which document"))
        self.change = QPushButton(tr("C&hange the limit"))
        self.change.setAutoDefault(False)  # Enter in a field must not press another button of the page
        self.means = faint()
        self.means.setAccessibleName(tr("What the new value means"))
        self.error = fault()
        self._lay_out()
        self.value.textEdited.connect(self._tell_what_it_means)
        self.value.returnPressed.connect(self._go_on)
        self.source.returnPressed.connect(self._change_limit)
        self.change.clicked.connect(self._change_limit)
        self.show_nothing("")

    def show_limit(self, rule_set: RuleSet, line: LimitLine) -> None:
        """Offer a limit of the shop's own set to be changed."""
        limit = limit_at(rule_set, line.key)
        is_another = self._rule_set is None or (self._rule_set.name, self._key) != (rule_set.name, line.key)
        self._rule_set, self._key = rule_set, line.key
        self.about.setText(f"{line.about}, {line.tires}: {line.asks}")
        self.unit.setText(unit_shown(limit))
        if is_another:
            self.source.clear()
        if is_another or not self.value.isModified():
            self.value.setText(number_shown(limit))
        has_value = value_of(limit) is not None
        self._enable(has_value)
        if has_value:
            self._tell_what_it_means()
        else:
            self.value.clear()
            tell_fault(self.error, "")
            tell_fault(self.means, tr("This limit has no value: it is changed in the file itself."))

    def show_nothing(self, why: str) -> None:
        """Nothing can be changed here, and why; what was typed is kept for when the limit comes back."""
        self._enable(False)
        self.about.setText("")
        tell_fault(self.means, why)
        tell_fault(self.error, "")

    def _enable(self, enabled: bool) -> None:
        for widget in (self.value, self.source, self.change):
            widget.setEnabled(enabled)

    def _tell_what_it_means(self) -> None:
        """Looser, refused or neither, as it is typed."""
        self.value.set_fault(False)
        tell_fault(self.error, "")
        tell_fault(self.means, "")
        if not self.value.isModified():
            tell_fault(self.means, self._beside_parent())
            return
        try:
            value = value_typed(limit_at(self._rule_set, self._key), self.value.text())
            tried = with_value(self._rule_set, self._key, value)
        except TiremapError as error:
            self._refuse(str(error))
            return
        published = [rule_set_named(name) for name in published_rule_set_names()]
        beyond = beyond_the_loosest(tried, published)
        if beyond:
            self._refuse(tr("Refused: {why}.", why=beyond))
            return
        looser = " ".join(looser_in(tried, self._parent(), self._key))
        if looser:
            tell_fault(
                self.error,
                tr(
                    "Looser than {parent}; every answer will say so. {limits}",
                    parent=parent_title(tried),
                    limits=looser,
                ),
            )
        else:
            tell_fault(self.means, self._beside_parent())

    def _beside_parent(self) -> str:
        value = parents_value(self._rule_set, self._parent(), self._key)
        return f"{parent_title(self._rule_set)}: {value}." if value else ""

    def _parent(self) -> RuleSet:
        return rule_set_named(self._rule_set.parent)

    def _refuse(self, why: str) -> None:
        self.value.set_fault(True)
        tell_fault(self.error, why)

    def _go_on(self) -> None:
        """Enter in the value: on to the source while there is none."""
        if self.source.text().strip():
            self._change_limit()
        else:
            self.source.setFocus()

    def _change_limit(self) -> None:
        field, _, number = self._key.partition(".")
        try:
            value = value_typed(limit_at(self._rule_set, self._key), self.value.text())
            changed = write_limit(self._rule_set.name, field, int(number), value, self.source.text())
        except TiremapError as error:
            tell_fault(self.error, str(error))
            (self.value if self.source.text().strip() else self.source).setFocus()
            return
        self._rule_set = changed
        self.value.setModified(False)
        self.source.clear()
        self.changed.emit()

    def _lay_out(self) -> None:
        value = QHBoxLayout()
        value.setSpacing(8)
        self.value.setFixedWidth(10 * self.value.fontMetrics().horizontalAdvance("0"))
        value.addWidget(self.value)
        value.addWidget(self.unit, 1)
        word = QHBoxLayout()
        word.setSpacing(8)
        word.addWidget(self.source, 1)
        word.addWidget(self.change)
        grid = QGridLayout()
        grid.setVerticalSpacing(5)
        for row, (text, field, layout) in enumerate(
            ((tr("New &value"), self.value, value), (tr("On whose &word"), self.source, word))
        ):
            label = QLabel(text)
            label.setBuddy(field)
            grid.addWidget(label, row, 0)
            grid.addLayout(layout, row, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.about)
        column.addLayout(grid)
        column.addWidget(self.means)
        column.addWidget(self.error)
