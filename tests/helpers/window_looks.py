"""What must be true of a window whatever was done in it: every panel shows the assessment of the job as it stands."""

from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QLabel, QWidget

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.drawing.ring_scene import ring_scene
from tiremap.drawing.scene import Area, Line, Scene
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.strip_scene import strip_scene
from tiremap.storage.canonical import job_text
from tiremap.ui.answer_panel import AnswerPanel
from tiremap.ui.drawing_picture import DRAWINGS
from tiremap.ui.editor import Editor
from tiremap.ui.main_window import MainWindow
from tiremap.ui.marks_model import MarksModel
from tiremap.ui.palettes import theme_of
from tiremap.ui.reasons_list import ReasonsList


class Look:
    """Looks at one window; panels are compared with ones made anew from `assess(session.job)`.

    ``heard`` are the texts of the jobs that stood since it was last emptied.
    """

    def __init__(self, window: MainWindow) -> None:
        self.window = window
        self.heard: list[str] = []
        self._laid_hovered = ""
        window.session.listen(self._hear)
        self._note_what_is_laid()

    def check(self) -> None:
        """Every panel shows the assessment of the job as it stands; the drawing, as soon as it was drawn."""
        window, session = self.window, self.window.session
        anew = assess(session.job)
        assert session.assessment == anew, "the session's assessment is not that of its job"
        settings = window.preferences.settings
        unit, theme = settings.units, theme_of(settings.theme)
        panel, reasons = AnswerPanel(), ReasonsList()
        panel.show_assessment(anew, window.desk.chosen, unit, theme)
        reasons.show_assessment(anew, unit, theme)
        assert _words(window.desk.answer) == _words(panel), "the answer panel is behind"
        assert _rows(window.desk.reasons) == _rows(reasons), "the reasons are behind"
        model = MarksModel(Editor(session, lambda text: None))
        model.show_assessment(anew, unit, theme)
        assert _cells(window.desk.table.model) == _cells(model), "the table is behind"
        assert window.desk.chosen is None or anew.job.injuries or anew.job.repairs
        assert window.isWindowModified() == session.unsaved
        assert window.actions_.undo.isEnabled() == (session.undo_name is not None and not window.teaching.is_on)
        self._check_drawing(anew)

    def _check_drawing(self, anew: Assessment) -> None:
        drawing = self.window.desk.drawing
        if drawing is None:
            return
        picture = drawing.picture
        assert picture.assessment == anew and (picture.tried is None or drawing.hands.busy), "the drawing is behind"
        if drawing.canvas.is_stale or not drawing.isVisible() or picture.tried is not None:
            return
        view = replace(picture.view(), hovered=self._laid_hovered or None)
        strip = strip_scene(anew, view, picture.free)
        for name, scene in zip(DRAWINGS, (section_scene(anew, view), strip, ring_scene(anew, view)), strict=True):
            assert _drawn(picture._laid[name]) == _drawn(scene), f"the {name} is behind"

    def check_undo(self, before: str) -> None:
        """What the last step did to the job is undone to the identical bytes, and redone to the identical bytes."""
        session, jobs = self.window.session, self.heard
        stood = [text for text, earlier in zip(jobs, [before, *jobs], strict=False) if text != earlier]
        if not stood or session.redo_name is not None or not self.window.actions_.undo.isEnabled():
            return
        for _ in stood:
            self.window.actions_.undo.trigger()
        assert job_text(session.job) == before, "undo does not give the identical job"
        for _ in stood:
            self.window.actions_.redo.trigger()
        assert job_text(session.job) == stood[-1], "redo does not give the identical job"

    def _hear(self) -> None:
        self.heard.append(job_text(self.window.session.job))

    def _note_what_is_laid(self) -> None:
        """The mark that was pointed at when the drawing was laid: it looks otherwise."""
        picture = self.window.desk.drawing.picture
        make = picture.scenes

        def noted() -> Any:
            self._laid_hovered = picture.hovered
            return make()

        picture.scenes = noted


def _words(panel: QWidget) -> list[tuple[str, bool]]:
    """What each label says, and whether it is shown."""
    return [(each.text(), not each.isHidden()) for each in panel.findChildren(QLabel)]


def _rows(reasons: ReasonsList) -> tuple[list[str], str]:
    return [reasons.list.item(row).text() for row in range(reasons.list.count())], reasons.still.text()


def _cells(model: MarksModel) -> list[list[str]]:
    """The texts as stored: what could not be used, and the sign of what comes next, stand over them."""
    plain = MarksModel(Editor(model._editor.session, lambda text: None))
    plain._assessment, plain._unit, plain._theme = model._assessment, model._unit, model._theme
    columns = range(plain.columnCount())
    return [[plain.data(plain.index(row, column)) for column in columns] for row in range(plain.rowCount())]


def _drawn(scene: Scene) -> list[object]:
    """A scene as plain values: shapes and points by their bytes."""
    return [_plain(mark) for mark in scene.marks]


def _plain(mark: Any) -> object:
    if isinstance(mark, Area):
        return mark.shape.wkb, mark.style, mark.key
    return (mark.points.tobytes(), mark.style, mark.key) if isinstance(mark, Line) else mark
