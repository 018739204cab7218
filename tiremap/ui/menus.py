"""The menu bar and the tool bar, laid out from the actions."""

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMainWindow, QMenu, QSizePolicy, QToolBar, QWidget

from tiremap.resources import sample_jobs_folder
from tiremap.ui.actions import Actions


class FilesMenu(QMenu):
    """A menu of files.

    Signals: ``wanted(str)`` the path of the one chosen.
    """

    wanted = Signal(str)

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(title, parent)
        self.triggered.connect(self._chosen)

    def show_files(self, paths: list[tuple[str, str]]) -> None:
        """Offer these ``(words, path)``."""
        self.clear()
        for words, path in paths:
            action = self.addAction(words.replace("&", "&&"))
            action.setData(path)
            action.setToolTip(path)
        self.setEnabled(bool(paths))

    def _chosen(self, action: QAction) -> None:
        self.wanted.emit(action.data())


class Menus:
    """The menus of a window; `recent` and `samples` list files."""

    def __init__(self, window: QMainWindow, actions: Actions) -> None:
        self.recent = FilesMenu("Recent &files", window)
        self.samples = FilesMenu("&Samples", window)
        self.samples.show_files([(_title(path), str(path)) for path in sorted(sample_jobs_folder().glob("*.json"))])
        bar = window.menuBar()
        a = actions
        _fill(bar.addMenu("&File"), a.new, a.open, self.recent, None, a.save, a.save_as, None, a.sheet, None, a.quit)
        _fill(bar.addMenu("&Edit"), a.undo, a.redo, None, a.add_injury, a.add_repair, None, a.quick)
        view = bar.addMenu("&View")
        _fill(view, a.fit, a.inside, None, a.millimeters, a.inches, None, a.light, a.dark, a.projector, None, a.desk)
        _fill(view, a.bench)
        _fill(bar.addMenu("&Help"), a.getting_started, self.samples, None, a.cautions, a.whats_new)


def tool_bar(window: QMainWindow, actions: Actions) -> QToolBar:
    """The few actions that are asked for all the time."""
    bar = QToolBar("Tools", window)
    bar.setMovable(False)
    bar.setFloatable(False)
    a = actions
    for action in (a.new, a.open, a.save, None, a.undo, a.redo, None, a.sheet):
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
