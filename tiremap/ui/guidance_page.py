"""The shop's own guidance: copied, taken over, changed limit by limit, shared. Nothing published is ever changed."""

from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from tiremap.errors import TiremapError
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import broken_rule_sets, rule_set_path, usable_rule_sets
from tiremap.model.rule_set_titles import parent_title, shown_title
from tiremap.rules.shop_set import looser_than_parent
from tiremap.storage.shop_rule_sets import copy_rule_set, import_rule_set, share_rule_set
from tiremap.ui import dialogs
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, fault, heading, tell_fault
from tiremap.ui.limit_edit import LimitEdit
from tiremap.ui.limits_table import LimitsTable
from tiremap.ui.palettes import theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.roomy_cells import RoomyCells

_NAME = Qt.ItemDataRole.UserRole
PUBLISHED = marked(
    "A published guidance is never changed. Copy it under a name of the shop's own, and change the copy."
)


class GuidancePage(QDialog):
    """At the left every guidance, at the right the limits of the chosen one. What is typed is never lost to an error.

    Signals: ``changed()`` after a file was written; ``compare_wanted()``.
    """

    changed = Signal()
    compare_wanted = Signal()

    def __init__(self, preferences: Preferences, chosen: str | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._preferences = preferences
        self._sets: dict[str, RuleSet] = {}
        self._broken: dict[str, tuple[Path, str]] = {}
        self.setWindowTitle(tr("The shop's own guidance"))
        self.resize(QSize(1180, 740).boundedTo(self.screen().availableGeometry().size() - QSize(8, 40)))
        self._make_widgets()
        self._lay_out()
        self._connect()
        self.read_again()
        self.choose(chosen if chosen is not None and self._is_own(chosen) else next(self._own(), chosen))

    @property
    def chosen(self) -> str | None:
        """The name of the chosen guidance, whether it can be used or not."""
        item = self.list.currentItem()
        return None if item is None else item.data(_NAME)

    def choose(self, name: str | None) -> None:
        """Choose the guidance of that name, or the first one."""
        rows = [self.list.item(row).data(_NAME) for row in range(self.list.count())]
        self.list.setCurrentRow(rows.index(name) if name in rows else 0)

    def read_again(self) -> None:
        """Read every file anew: one may have been added, changed, broken or removed."""
        kept = self.chosen
        self._sets = {each.name: each for each in usable_rule_sets()}
        self._broken = {path.stem: (path, wrong) for path, wrong in broken_rule_sets() if path.stem not in self._sets}
        self.list.blockSignals(True)
        self.list.clear()
        for name, rule_set in self._sets.items():
            self._add(name, shown_title(rule_set))
        for name, (path, _) in self._broken.items():
            self._add(name, tr("{file}: cannot be used", file=path.name))
        self.choose(kept)
        self.list.blockSignals(False)
        self._show_chosen()

    def _is_own(self, name: str) -> bool:
        return name in self._broken or (name in self._sets and self._sets[name].parent is not None)

    def _own(self):
        return (name for name in (*self._sets, *self._broken) if self._is_own(name))

    def _add(self, name: str, words: str) -> None:
        item = QListWidgetItem(words)
        item.setToolTip(words)
        item.setData(_NAME, name)
        self.list.addItem(item)

    def _show_chosen(self) -> None:
        name = self.chosen
        rule_set = self._sets.get(name or "")
        self.table.show_rule_set(rule_set, theme_of(self._preferences.settings.theme))
        own = name is not None and self._is_own(name)
        self.copy.setEnabled(not own)
        self.copy.setToolTip(tr("A published guidance is copied; choose one at the top.") if own else "")
        self.name.setEnabled(not own)
        self.share.setEnabled(own and rule_set is not None)
        self.share.setToolTip("" if self.share.isEnabled() else tr("A guidance of the shop's own is shared."))
        if rule_set is None:
            path, wrong = self._broken.get(name or "", (Path(), ""))
            self.title.setText(path.name)
            self.about.setText(str(path))
            tell_fault(
                self.trouble, tr("{wrong} Put the file right, or take it away; the others still work.", wrong=wrong)
            )
        else:
            self.title.setText(rule_set.title)
            where = tr("File: {path}", path=rule_set_path(rule_set.name)) if own else told(PUBLISHED)
            self.about.setText(f"{rule_set.issuer}. {where}")
            tell_fault(self.trouble, _looser_says(rule_set))
        self.edit.setVisible(own)
        self._show_limit()

    def _show_limit(self) -> None:
        rule_set, line = self._sets.get(self.chosen or ""), self.table.chosen
        if rule_set is None or line is None:
            self.edit.show_nothing("")
        elif rule_set.parent is not None:
            self.edit.show_limit(rule_set, line)

    def _to_the_value(self) -> None:
        """A double click or Enter on a limit: on to its value."""
        if self.edit.value.isEnabled():
            self.edit.value.setFocus()
            self.edit.value.selectAll()

    def _copy(self) -> None:
        name = self.name.text().strip()
        if self._written(copy_rule_set, self.chosen, name):
            self.name.clear()
            self.table.setFocus()

    def _take(self) -> None:
        shared = dialogs.ask_guidance_to_take(self, str(Path.home()))
        if shared is not None:
            self._written(import_rule_set, shared)

    def _share(self) -> None:
        target = dialogs.ask_where_to_share(self, str(Path.home() / f"{self.chosen}.toml"))
        if target is None:
            return
        try:
            written = share_rule_set(self.chosen, target)
        except TiremapError as error:
            tell_fault(self.error, str(error))
            return
        tell_fault(self.error, "")
        self.done_.setText(tr("Written: {file}", file=written))

    def _written(self, write, *args) -> bool:
        """Let a new file be written, choose it and tell of it; an error is told and changes nothing."""
        self.done_.setText("")
        try:
            path = write(*args)
        except TiremapError as error:
            tell_fault(self.error, str(error))
            return False
        tell_fault(self.error, "")
        self.changed.emit()
        self.read_again()
        self.choose(path.stem)
        return True

    def _limit_changed(self) -> None:
        self.changed.emit()
        self.read_again()
        self.table.setFocus()

    def _make_widgets(self) -> None:
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Guidance, published and the shop's own"))
        self.list.setWordWrap(True)
        self.list.setItemDelegate(RoomyCells(self.list))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.name = FieldEdit(tr("Name of the copy"))
        self.name.setPlaceholderText(tr("name, such as our_shop"))
        self.copy = QPushButton(tr("C&opy"))
        self.take = QPushButton(tr("&Take over a file…"))
        self.share = QPushButton(tr("&Share as a file…"))
        self.error = fault()
        self.done_ = faint()
        self.done_.setAccessibleName(tr("What was written"))
        self.title = heading("")
        self.about = faint()
        self.about.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.trouble = fault()
        self.table = LimitsTable()
        self.edit = LimitEdit()
        self.compare = QPushButton(tr("Compare the &guidance"))
        self.shut = QPushButton(tr("&Close"))
        for button in (self.copy, self.take, self.share, self.compare, self.shut):
            button.setAutoDefault(False)  # Enter in a field or the table must not press one

    def _connect(self) -> None:
        self.list.currentItemChanged.connect(self._show_chosen)
        self.name.returnPressed.connect(self._copy)
        self.copy.clicked.connect(self._copy)
        self.take.clicked.connect(self._take)
        self.share.clicked.connect(self._share)
        self.table.itemSelectionChanged.connect(self._show_limit)
        self.table.cellDoubleClicked.connect(self._to_the_value)
        self.table.activated.connect(self._to_the_value)
        self.edit.changed.connect(self._limit_changed)
        self.compare.clicked.connect(self.compare_wanted)
        self.shut.clicked.connect(self.close)
        self._preferences.changed.connect(self._show_chosen)

    def _lay_out(self) -> None:
        copying = QHBoxLayout()
        copying.setSpacing(6)
        copying.addWidget(self.name, 1)
        copying.addWidget(self.copy)
        label = QLabel(tr("Copy the chosen &published one as"))
        label.setBuddy(self.name)
        head = heading(tr("Published, then the shop's own"))
        for words in (label, head):
            words.setWordWrap(True)
        left = _column(head, self.list, label, copying, self.take, self.share, self.error, self.done_)
        right = _column(self.title, self.about, self.trouble, self.table, self.edit)
        both = QSplitter(Qt.Orientation.Horizontal)
        both.addWidget(left)
        both.addWidget(right)
        both.setStretchFactor(1, 1)
        both.setChildrenCollapsible(False)
        both.setSizes([260, 900])
        buttons = QHBoxLayout()
        buttons.addWidget(self.compare)
        buttons.addStretch(1)
        buttons.addWidget(self.shut)
        whole = QVBoxLayout(self)
        whole.addWidget(both, 1)
        whole.addLayout(buttons)


def _looser_says(rule_set: RuleSet) -> str:
    looser = looser_than_parent(rule_set)
    if not looser:
        return ""
    parent, limits = parent_title(rule_set), " ".join(looser)
    if len(looser) == 1:
        return tr("1 limit is looser than {parent}; every answer says so. {limits}", parent=parent, limits=limits)
    return tr(
        "{count} limits are looser than {parent}; every answer says so. {limits}",
        count=len(looser), parent=parent, limits=limits,
    )


def _column(*parts: QWidget | QHBoxLayout) -> QWidget:
    """One under another; a list or table takes the room that is left."""
    whole = QWidget()
    column = QVBoxLayout(whole)
    column.setContentsMargins(4, 0, 4, 0)
    column.setSpacing(6)
    for part in parts:
        if isinstance(part, QHBoxLayout):
            column.addLayout(part)
        else:
            column.addWidget(part, 1 if isinstance(part, QListWidget | LimitsTable) else 0)
    return whole
