"""Everything the window can be asked to do, each with its words and its explicit key."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QWidget

from tiremap.ui.help_here import HELP_KEY


class Actions:
    """The window's actions. Keys are written out: bare desktops have none for Quit and others."""

    def __init__(self, window: QWidget) -> None:
        self._window = window
        self.new = self._make("&New job", "Ctrl+N")
        self.open = self._make("&Open…", "Ctrl+O")
        self.save = self._make("&Save", "Ctrl+S")
        self.save_as = self._make("Save &as…", "Ctrl+Shift+S")
        self.sheet = self._make("Write s&heet…", "Ctrl+P")
        self.measuring_sheet = self._make("Write &measuring sheet…", "Ctrl+Shift+M")
        self.preview = self._make("Print pre&view…", "Ctrl+Shift+P")
        self.a4, self.letter = self._one_of("&A4", "&Letter")
        self.quit = self._make("&Quit", "Ctrl+Q")
        self.undo = self._make("&Undo", "Ctrl+Z")
        self.redo = self._make("&Redo", "Ctrl+Shift+Z", "Ctrl+Y")
        self.mark_desk, self.review_desk = self._one_of("M&ark", "Re&view")
        self.mark_desk.setShortcut(QKeySequence("Ctrl+1"))
        self.review_desk.setShortcut(QKeySequence("Ctrl+2"))
        self.mark_desk.setChecked(True)
        self.add_injury = self._make("Add &injury", "Ctrl+I")
        self.add_repair = self._make("Add r&epair", "Ctrl+E")
        self.sign = self._make("Record the &decision…", "Ctrl+D")
        self.quick = self._make("&Quick measure", "F2")
        self.next_field = self._make("&Next measurement", "F6")
        self.answer_large = self._make("Ans&wer large", "F8")
        self.repair_work = self._make("Repair &work", "F7")
        self.repair_work.setCheckable(True)
        self.dimensions = self._make("&Dimensions")
        self.steps = self._make("&Steps")
        self.leak = self._make("&Leak check")
        self.refit = self._make("Re&fit")
        self.template = self._make("Write &template…", "Ctrl+Shift+T")
        self.stock = self._make("The shop's st&ock…")
        self.fit = self._make("&Fit the drawing", "Ctrl+0")
        self.inside = self._make("Seen from &inside", "Ctrl+T")
        self.inside.setCheckable(True)
        self.inside.setChecked(True)
        self.free_places = self._make("Where a &repair could go", "Ctrl+R")
        self.free_places.setCheckable(True)
        self.compare = self._make("&Compare the guidance", "Ctrl+G")
        self.own_guidance = self._make("The shop's &own guidance…", "Ctrl+Shift+G")
        self.millimeters, self.inches = self._one_of("Milli&meters", "I&nches")
        self.light, self.dark, self.projector = self._one_of("&Light", "&Dark", "&Projector")
        self.desk, self.bench = self._one_of("&Desk: small controls", "&Bench: large controls")
        self.key_row = self._make("&Keys on the screen", "F9")
        self.key_row.setCheckable(True)
        self.help_here = self._make("&Help for this place", HELP_KEY)
        self.help_here.setShortcutContext(Qt.ShortcutContext.ApplicationShortcut)  # in the other windows too
        self.getting_started = self._make("&Getting started")
        self.limits = self._make("&Limits and sources")
        self.whats_new = self._make("&What is new")
        self.cautions = self._make("&Cautions")

    def _make(self, words: str, *keys: str) -> QAction:
        action = QAction(words, self._window)
        action.setShortcuts([QKeySequence(key) for key in keys])
        return action

    def _one_of(self, *words: str) -> list[QAction]:
        group = QActionGroup(self._window)
        actions = []
        for each in words:
            action = self._make(each)
            action.setCheckable(True)
            group.addAction(action)
            actions.append(action)
        return actions


def connect(pairs: dict[QAction, Callable[[], object]]) -> None:
    """Let each action call its bound method."""
    for action, called in pairs.items():
        action.triggered.connect(called)
