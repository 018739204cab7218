"""Everything the window can be asked to do, each with its words and its explicit key."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QWidget

from tiremap.ui.help_here import HELP_KEY
from tiremap.ui.language import tr


class Actions:
    """The window's actions. Keys are written out: bare desktops have none for Quit and others."""

    def __init__(self, window: QWidget) -> None:
        self._window = window
        self.new = self._make(tr("&New job"), "Ctrl+N")
        self.open = self._make(tr("&Open…"), "Ctrl+O")
        self.save = self._make(tr("&Save"), "Ctrl+S")
        self.save_as = self._make(tr("Save &as…"), "Ctrl+Shift+S")
        self.sheet = self._make(tr("Write s&heet…"), "Ctrl+P")
        self.measuring_sheet = self._make(tr("Write &measuring sheet…"), "Ctrl+Shift+M")
        self.preview = self._make(tr("Print pre&view…"), "Ctrl+Shift+P")
        self.a4, self.letter = self._one_of(tr("&A4"), tr("&Letter"))
        self.quit = self._make(tr("&Quit"), "Ctrl+Q")
        self.undo = self._make(tr("&Undo"), "Ctrl+Z")
        self.redo = self._make(tr("&Redo"), "Ctrl+Shift+Z", "Ctrl+Y")
        self.mark_desk, self.review_desk, self.teach_desk = self._one_of(tr("M&ark"), tr("Re&view"), tr("Teac&h"))
        self.mark_desk.setShortcut(QKeySequence("Ctrl+1"))
        self.review_desk.setShortcut(QKeySequence("Ctrl+2"))
        self.teach_desk.setShortcut(QKeySequence("Ctrl+3"))
        self.mark_desk.setChecked(True)
        self.add_injury = self._make(tr("Add &injury"), "Ctrl+I")
        self.add_repair = self._make(tr("Add r&epair"), "Ctrl+E")
        self.sign = self._make(tr("Record the &decision…"), "Ctrl+D")
        self.quick = self._make(tr("&Quick measure"), "F2")
        self.next_field = self._make(tr("&Next measurement"), "F6")
        self.answer_large = self._make(tr("Ans&wer large"), "F8")
        self.repair_work = self._make(tr("Repair &work"), "F7")
        self.repair_work.setCheckable(True)
        self.dimensions = self._make(tr("&Dimensions"))
        self.steps = self._make(tr("&Steps"))
        self.leak = self._make(tr("&Leak check"))
        self.refit = self._make(tr("Re&fit"))
        self.template = self._make(tr("Write &template…"), "Ctrl+Shift+T")
        self.stock = self._make(tr("The shop's st&ock…"))
        self.open_lesson = self._make(tr("&Open a lesson…"))
        self.next_lesson_step = self._make(tr("&Next step"), "PgDown")
        self.last_lesson_step = self._make(tr("Step &before"), "PgUp")
        self.hide_answer = self._make(tr("&Hide or show the answer"), "H")
        self.next_reason = self._make(tr("Next &reason"), "R")
        self.reset_lesson = self._make(tr("Re&set the step"), "Home")
        self.lesson_picture = self._make(tr("Write the step as a &picture…"))
        self.fit = self._make(tr("&Fit the drawing"), "Ctrl+0")
        self.inside = self._make(tr("Seen from &inside"), "Ctrl+T")
        self.inside.setCheckable(True)
        self.inside.setChecked(True)
        self.free_places = self._make(tr("Where a &repair could go"), "Ctrl+R")
        self.free_places.setCheckable(True)
        self.compare = self._make(tr("&Compare the guidance"), "Ctrl+G")
        self.own_guidance = self._make(tr("The shop's &own guidance…"), "Ctrl+Shift+G")
        self.millimeters, self.inches = self._one_of(tr("Milli&meters"), tr("I&nches"))
        self.light, self.dark, self.projector = self._one_of(tr("&Light"), tr("&Dark"), tr("&Projector"))
        self.desk, self.bench = self._one_of(tr("&Desk: small controls"), tr("&Bench: large controls"))
        self.key_row = self._make(tr("&Keys on the screen"), "F9")
        self.key_row.setCheckable(True)
        self.help_here = self._make(tr("&Help for this place"), HELP_KEY)
        self.help_here.setShortcutContext(Qt.ShortcutContext.ApplicationShortcut)  # in the other windows too
        self.getting_started = self._make(tr("&Getting started"))
        self.limits = self._make(tr("&Limits and sources"))
        self.whats_new = self._make(tr("&What is new"))
        self.cautions = self._make(tr("&Cautions"))

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
