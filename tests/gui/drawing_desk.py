"""A drawing panel on a desk of its own, wired to a job as the window does it, and a hand to work it with."""

from math import degrees

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tiremap.assess import assess
from tiremap.edits.injuries import move_injury
from tiremap.edits.repairs import move_repair
from tiremap.ui.drawing_panel import DrawingPanel

LEFT, MIDDLE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton
NONE, SHIFT, CTRL = (
    Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier
)


def usual_job():
    """Three injuries, two of them around the datum, and a repair far around."""
    return bench_job(
        crown_injury("1", across_mm=30, around_deg=6),
        crown_injury("2", across_mm=-25, around_deg=352),
        crown_injury("3", across_mm=10, around_deg=120),
        earlier_repair("R1", across_mm=-40, around_deg=200),
    )


class Desk:
    """The panel, the job, and what was heard: ``heard`` holds (signal, arguments)."""

    def __init__(self, qtbot, job=None, size=(1000, 760)) -> None:
        self.job = usual_job() if job is None else job
        self.heard: list[tuple] = []
        self.previews: list[tuple] = []
        self.panel = DrawingPanel()
        qtbot.addWidget(self.panel)
        self.canvas, self.picture = self.panel.canvas, self.panel.picture
        for name in (
            "injury_wanted", "mark_chosen", "mark_moved", "mark_nudged", "mark_removed", "mark_edit_wanted"
        ):
            getattr(self.panel, name).connect(lambda *args, name=name: self.heard.append((name, *args)))
        self.panel.mark_moved.connect(self._moved)
        self.panel.set_preview(self._preview)
        self.panel.resize(*size)
        with qtbot.waitExposed(self.panel):
            self.panel.show()
        self.panel.show_assessment(assess(self.job), None, None)
        self.settle()

    def settle(self) -> None:
        """Let everything that waits be drawn."""
        for _ in range(3):
            QApplication.processEvents()

    def heard_of(self, name: str) -> list[tuple]:
        """The arguments of each signal of that name."""
        return [args for each, *args in self.heard if each == name]

    def screen(self, drawing: str, point: tuple[float, float]) -> QPoint:
        """The pixel of the window where matplotlib draws a point (mm) of a drawing."""
        x, y = self.canvas.axes_of(drawing).transData.transform(point)
        ratio = self.canvas.device_pixel_ratio
        return QPoint(round(x / ratio), round(self.canvas.height() - y / ratio))

    def on_strip(self, across: float, around_deg: float) -> QPoint:
        """The pixel of a place on the strip, by the strip's own formula."""
        strip = self.picture.assessment.strip
        turn = ((around_deg - degrees(self.picture.sight.turn) + 180) % 360 - 180) / degrees(1)
        return self.screen("strip", (strip.liner_across(across), -turn * strip.R0))

    def on_tread(self, across: float) -> QPoint:
        """The pixel of a place on the tread in the section."""
        from tiremap.geometry.section import draw_section

        x, r = draw_section(self.picture.assessment.section_inputs).outer_place(across)
        return self.screen("section", (x, r))

    def click(self, at: QPoint, held=NONE) -> None:
        QTest.mouseClick(self.canvas, LEFT, held, at)

    def press(self, at: QPoint, button=LEFT, held=NONE) -> None:
        QTest.mousePress(self.canvas, button, held, at)

    def release(self, at: QPoint, button=LEFT, held=NONE) -> None:
        QTest.mouseRelease(self.canvas, button, held, at)

    def move(self, at: QPoint, held=NONE) -> None:
        """Move the pointer there. (QTest's own move depends on where the real pointer is.)"""
        place = QPointF(at)
        event = QMouseEvent(
            QEvent.Type.MouseMove, place, QPointF(self.canvas.mapToGlobal(at)), Qt.MouseButton.NoButton, LEFT, held
        )
        QApplication.sendEvent(self.canvas, event)

    def drag(self, start: QPoint, *stops: QPoint, button=LEFT, held=NONE) -> None:
        """Press, move along the stops, each for as long as a frame takes, and let go at the last."""
        self.press(start, button, held)
        for stop in stops:
            self.move(stop, held)
            QTest.qWait(25)
        self.release(stops[-1], button, held)

    def wheel(self, at: QPoint, notches: float, held=NONE) -> None:
        event = QWheelEvent(
            QPointF(at), QPointF(self.canvas.mapToGlobal(at)), QPoint(), QPoint(0, round(120 * notches)),
            Qt.MouseButton.NoButton, held, Qt.ScrollPhase.NoScrollPhase, False,
        )
        QApplication.sendEvent(self.canvas, event)

    def key(self, key: Qt.Key, held=NONE) -> None:
        QTest.keyClick(self.canvas, key, held)

    def _preview(self, id, across, around):
        self.previews.append((id, across, around))
        return assess(self._with(id, across, around))

    def _moved(self, id, across, around) -> None:
        self.job = self._with(id, across, around)
        self.panel.show_assessment(assess(self.job), id, None)

    def _with(self, id, across, around):
        move = move_repair if any(repair.id == id for repair in self.job.repairs) else move_injury
        return move(self.job, id, across_mm=across, around_deg=None if around is None else degrees(around))
