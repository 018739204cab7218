"""The menu bar and the tool bar, laid out from the actions."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMainWindow, QMenu, QSizePolicy, QToolBar, QWidget

from tiremap.resources import sample_jobs_folder
from tiremap.ui.actions import Actions
from tiremap.ui.language import tr


class ListMenu(QMenu):
    """A menu of things of one kind, such as files.

    Signals: ``wanted(str)`` the value of the one chosen, such as its path.
    """

    wanted = Signal(str)

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(title, parent)
        self.triggered.connect(self._chosen)

    def show_all(self, things: Sequence[tuple[str, str]]) -> None:
        """Offer these ``(words, value)``."""
        self.clear()
        for words, value in things:
            self.addAction(words.replace("&", "&&")).setData(value)
        self.setEnabled(bool(things))

    def _chosen(self, action: QAction) -> None:
        self.wanted.emit(action.data())


class Menus:
    """The menus of a window; `recent` and `samples` list files, `datum` the clock hours it may stand at."""

    def __init__(self, window: QMainWindow, actions: Actions) -> None:
        self.recent = ListMenu(tr("Recent &files"), window)
        self.samples = ListMenu(tr("&Samples"), window)
        self.samples.show_all([(_title(path), str(path)) for path in sorted(sample_jobs_folder().glob("*.json"))])
        self.datum = ListMenu(tr("Datum &stands at"), window)
        self.datum.show_all([(tr("{hour} o'clock", hour=hour), str(hour)) for hour in (12, 3, 6, 9)])
        bar = window.menuBar()
        a = actions
        paper = QMenu(tr("Pa&per"), window)
        _fill(paper, a.a4, a.letter)
        _fill(bar.addMenu(tr("&File")), a.new, a.open, self.recent, None, a.save, a.save_as, None, a.sheet,
              a.measuring_sheet, a.preview, paper, None, a.quit)
        edit = bar.addMenu(tr("&Edit"))
        _fill(edit, a.undo, a.redo, None, a.add_injury, a.add_repair, None, a.quick, a.next_field, None, a.sign)
        _fill(bar.addMenu(tr("Re&pair")), a.repair_work, None, a.dimensions, a.steps, a.leak, a.refit, None, a.template,
              a.stock)
        view = bar.addMenu(tr("&View"))
        _fill(view, a.mark_desk, a.review_desk, a.teach_desk, None)
        _fill(view, a.fit, a.inside, self.datum, a.free_places, a.answer_large, None, a.millimeters, a.inches, None)
        _fill(view, a.light, a.dark, a.projector, None, a.desk, a.bench, a.key_row)
        _fill(bar.addMenu(tr("&Guidance")), a.compare, a.own_guidance, None, a.limits)
        self.lessons = ListMenu(tr("&Lessons"), window)
        _fill(bar.addMenu(tr("&Lesson")), self.lessons, a.open_lesson, None, a.next_lesson_step, a.last_lesson_step,
              a.hide_answer, a.next_reason, a.reset_lesson, None, a.lesson_picture)
        _fill(bar.addMenu(tr("&Help")), a.help_here, a.getting_started, self.samples, None, a.cautions, a.whats_new)


def tool_bar(window: QMainWindow, actions: Actions) -> QToolBar:
    """The few actions that are asked for all the time."""
    bar = QToolBar(tr("Tools"), window)
    bar.setMovable(False)
    bar.setFloatable(False)
    a = actions
    desks = (a.mark_desk, a.review_desk, a.teach_desk)
    for action in (*desks, None, a.new, a.open, a.save, None, a.undo, a.redo, None, a.sheet):
        bar.addAction(action) if action is not None else bar.addSeparator()
    gap = QWidget()
    gap.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    bar.addWidget(gap)
    for action in (a.inside, a.fit, None, a.millimeters, a.inches):
        bar.addAction(action) if action is not None else bar.addSeparator()
    window.addToolBar(bar)
    return bar


def _fill(menu: QMenu, *entries: QAction | QMenu | None) -> None:
    for entry in entries:
        if entry is None:
            menu.addSeparator()
        elif isinstance(entry, QMenu):
            menu.addMenu(entry)
        else:
            menu.addAction(entry)


def _title(path: Path) -> str:
    """``one_inch_from_the_edge.json`` as a menu shows it."""
    return path.stem.replace("_", " ").capitalize()
