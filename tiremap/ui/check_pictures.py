"""The small pictures beside the condition checks, drawn by us, in the colors of the theme in use."""

from PySide6.QtCore import QByteArray, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QSizePolicy, QWidget

from tiremap.resources import resource_path

_DRAWN_IN = {
    "#2b2724": QPalette.ColorRole.WindowText, "#b9b1a8": QPalette.ColorRole.Mid, "#fdfcfa": QPalette.ColorRole.Base,
    "#d55e00": QPalette.ColorRole.Highlight,
}
"""The colors the files are drawn in (ink, rubber, open, what to look for) and what of the window stands for each."""


class CheckPicture(QWidget):
    """One picture of ``resources/help/checks``; it says nothing that the words beside it do not."""

    def __init__(self, name: str, size: QSize, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._drawn = resource_path("help", "checks", f"{name}.svg").read_text(encoding="utf-8")
        self._renderer = QSvgRenderer(self)
        self._colors: tuple[str, ...] = ()
        self.setFixedSize(size)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The picture as large as its place, its proportions kept."""
        colors = tuple(self.palette().color(role).name() for role in _DRAWN_IN.values())
        if colors != self._colors:
            self._colors = colors
            self._renderer.load(QByteArray(self._in(colors).encode()))
        box = QRectF(self.rect())
        drawn = QSize(self._renderer.defaultSize()).scaled(box.size().toSize(), Qt.AspectRatioMode.KeepAspectRatio)
        place = QRectF(0, 0, drawn.width(), drawn.height())
        place.moveCenter(box.center())
        painter = QPainter(self)
        self._renderer.render(painter, place)
        painter.end()

    def _in(self, colors: tuple[str, ...]) -> str:
        text = self._drawn
        for place, drawn in enumerate(_DRAWN_IN):
            text = text.replace(drawn, f"@{place}@")
        for place, color in enumerate(colors):
            text = text.replace(f"@{place}@", color)
        return text
