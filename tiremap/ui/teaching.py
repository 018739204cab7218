"""The Teach desk in the window: what is shown and hidden around it, and what the Lesson menu asks of it."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtWidgets import QWidget

from tiremap.errors import TiremapError
from tiremap.storage.lesson_file import lesson_paths, read_lesson
from tiremap.ui import dialogs
from tiremap.ui.actions import connect
from tiremap.ui.palettes import dress

if TYPE_CHECKING:
    from tiremap.ui.main_window import MainWindow
    from tiremap.ui.teach_desk import TeachDesk

THEME = "projector"


class Teaching(QObject):
    """Builds the desk when it is first wanted. Before a class nothing stands around it that the lesson does not need,
    and nothing that is asked for reaches the job the shop works on.
    """

    def __init__(self, window: "MainWindow") -> None:
        super().__init__(window)
        self._window = window
        self.desk: TeachDesk | None = None
        self._around = False
        a = window.actions_
        self._presenter = (a.next_lesson_step, a.last_lesson_step, a.hide_answer, a.next_reason, a.reset_lesson,
                           a.lesson_picture)
        for action in self._presenter:
            action.setEnabled(False)
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self._not_before_a_class = (a.undo, a.redo, a.save, a.save_as, a.sheet, a.preview, a.sign, a.template,
                                    a.dimensions, a.steps, a.leak, a.refit)
        window.menus.lessons.aboutToShow.connect(self._list_lessons)
        window.menus.lessons.wanted.connect(self.open_lesson)
        self._list_lessons()
        connect({
            a.open_lesson: self._ask_for_lesson,
            a.next_lesson_step: partial(self._ask_desk, "go_on"),
            a.last_lesson_step: partial(self._ask_desk, "go_back"),
            a.hide_answer: partial(self._ask_desk, "switch_answer"),
            a.next_reason: partial(self._ask_desk, "tell_next_reason"),
            a.reset_lesson: partial(self._ask_desk, "begin_again"),
            a.lesson_picture: self._write_picture,
        })

    def shows(self, desk: QWidget) -> bool:
        """Whether that is the Teach desk."""
        return self.desk is not None and desk is self.desk

    @property
    def is_on(self) -> bool:
        """Whether the window stands before a class."""
        return self._around

    def theme_name(self, chosen: str) -> str:
        """The theme the window wears: before a class the projector's, whatever was chosen."""
        return THEME if self._around else chosen

    def desk_wanted(self) -> "TeachDesk":
        """The desk, built when it is first wanted."""
        if self.desk is None:
            from tiremap.ui.teach_desk import TeachDesk

            self.desk = TeachDesk(self._window.preferences)
            self.desk.failed.connect(self._window.message.show_text)
            self._window.preferences.changed.connect(self.desk.take_preferences)
            self._window.desks.addWidget(self.desk)
            self.desk.addActions(self._presenter)
            self.desk.take_preferences()
        return self.desk

    def enter(self) -> None:
        """Put away what stands around the desk."""
        if self._around:
            return
        self._around = True
        self._put_around()
        self._window.message.clear()
        QTimer.singleShot(0, self.desk.build_drawing)

    def leave(self) -> None:
        """Put everything back."""
        if not self._around:
            return
        self._around = False
        self._put_around()
        self._window.show_session()

    def open_lesson(self, path: str) -> None:
        """Show the lesson in a file, at the desk."""
        self._window.show_teach()
        self.desk.open_lesson(Path(path))

    def _put_around(self) -> None:
        window, shown = self._window, not self._around
        settings = window.preferences.settings
        for part in (window.tools, window.cautions):
            part.setVisible(shown)
        for action in self._presenter:
            action.setEnabled(not shown)
        for action in self._not_before_a_class:
            action.setEnabled(shown)
        dress(window, self.theme_name(settings.theme), settings.density)

    def _list_lessons(self) -> None:
        self._window.menus.lessons.show_all([(_title(path), str(path)) for path in lesson_paths()])

    def _ask_desk(self, what: str) -> None:
        if self.desk is not None:
            getattr(self.desk, what)()

    def _ask_for_lesson(self) -> None:
        path = dialogs.ask_lesson_to_open(self._window)
        if path is not None:
            self.open_lesson(str(path))

    def _write_picture(self) -> None:
        """Ask where, and write the step as it stands."""
        path = dialogs.ask_class_picture(self._window)
        if path is None:
            return
        from tiremap.render.class_picture import write_class_picture

        try:
            write_class_picture(self.desk.picture(), path)
        except TiremapError as error:
            self._window.message.show_text(str(error))


def _title(path: Path) -> str:
    """What a lesson calls itself; its file's name where it cannot be read."""
    try:
        return read_lesson(path).title
    except TiremapError:
        return path.stem
