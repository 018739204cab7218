"""The answer over the whole window, to be read from two meters: symbol, word, and the one thing that comes next."""

from PySide6.QtCore import QEvent, QObject, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from tiremap.assessment import Assessment
from tiremap.model.measures import LengthUnit
from tiremap.model.units import mm_from_inches
from tiremap.resources import read_toml
from tiremap.ui import reason_words, wording
from tiremap.ui.answer_symbol import paint_answer
from tiremap.ui.language import marked, told, tr
from tiremap.ui.palettes import Theme

_MARGIN = 36
_WORD_SHARE = 0.5
"""Share of the height the word has."""
_BACK = marked("Any key or a click goes back.")
_WRAP = Qt.TextFlag.TextWordWrap


class AnswerLarge(QWidget):
    """Lies over its window. It never becomes smaller than its rule says while the window has the room."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._assessment: Assessment | None = None
        self._theme: Theme | None = None
        self._word = self._sentence = ""
        self._focus_before: QWidget | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("The answer, large"))
        self.hide()
        window.installEventFilter(self)

    def open(self, assessment: Assessment, unit: LengthUnit, theme: Theme) -> None:
        """Show that answer until a key or a click."""
        self._assessment, self._theme = assessment, theme
        self._word = told(wording.ANSWER_WORDS[assessment.answer])
        self._sentence = reason_words.next_step(assessment, unit) or reason_words.least_margin(assessment, unit)
        self.setAccessibleDescription(f"{self._word}. {self._sentence}")
        self._focus_before = self.window().focusWidget()
        self.setGeometry(self.window().rect())
        self.show()
        self.raise_()
        self.setFocus()

    @property
    def word_line_px(self) -> int:
        """Height of a line of the word, px."""
        return QFontMetrics(self._word_font()).height()

    @property
    def sentence_capital_px(self) -> int:
        """Height of a capital letter of the sentence, px."""
        return QFontMetrics(self._sentence_font()).capHeight()

    def px(self, mm: float) -> float:
        """A length on the screen, by what the screen says of itself."""
        return mm * self.logicalDpiY() / mm_from_inches(1)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """It stays as large as its window."""
        if event.type() == QEvent.Type.Resize and self.isVisible():
            self.setGeometry(self.window().rect())
        return False

    def event(self, event: QEvent) -> bool:
        """A key that is a shortcut goes back as any other."""
        if event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        return super().event(event)

    def focusNextPrevChild(self, next: bool) -> bool:
        """Tab is a key as any other here."""
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Back."""
        if event.key() not in (Qt.Key.Key_Shift, Qt.Key.Key_Control, Qt.Key.Key_Alt, Qt.Key.Key_Meta):
            self._close()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Back."""
        self._close()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Symbol and word above, the sentence below."""
        if self._assessment is None or self._theme is None:
            return
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._theme.base))
        word, side = self._word_box(), self._symbol_side()
        symbol = QRectF(_MARGIN, word.center().y() - side / 2, side, side)
        paint_answer(painter, symbol, self._assessment.answer, self._theme)
        painter.setPen(QColor(self._theme.text))
        painter.setFont(self._word_font())
        painter.drawText(word, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self._lines())
        painter.setFont(self._sentence_font())
        painter.drawText(self._sentence_box(), Qt.AlignmentFlag.AlignTop | _WRAP, self._sentence)
        painter.setFont(self.font())
        painter.drawText(self.rect().adjusted(0, 0, -_MARGIN, -10), _AT_END, told(_BACK))
        painter.end()

    def _close(self) -> None:
        self.hide()
        if self._focus_before is not None:
            self._focus_before.setFocus()

    def _lines(self) -> str:
        """The word, one line for each of its words."""
        return self._word.replace(" ", "\n")

    def _symbol_side(self) -> int:
        return int(min(self.height() * 0.36, self.width() * 0.2))

    def _word_box(self) -> QRect:
        left = 2 * _MARGIN + self._symbol_side()
        return QRect(left, _MARGIN // 2, self.width() - left - _MARGIN, int(self.height() * _WORD_SHARE))

    def _sentence_box(self) -> QRect:
        top = self._word_box().bottom() + _MARGIN // 2
        return QRect(_MARGIN, top, self.width() - 2 * _MARGIN, self.height() - top - _MARGIN)

    def _word_font(self) -> QFont:
        return _fitted(self.font(), self._lines(), self._word_box(), bold=True)

    def _sentence_font(self) -> QFont:
        at_most = int(2 * self.px(read_toml("reading_distance.toml")["sentence"]["least_capital_mm"]))
        return _fitted(self.font(), self._sentence, self._sentence_box(), at_most=at_most)


_AT_END = Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignRight


def _fitted(font: QFont, text: str, box: QRect, *, bold: bool = False, at_most: int = 400) -> QFont:
    """The font in the largest size at which the text fits in the box, wrapped between words."""
    fitted = QFont(font)
    fitted.setBold(bold)
    low, high = 12, max(12, at_most)
    while low < high:
        middle = (low + high + 1) // 2
        fitted.setPixelSize(middle)
        metrics = QFontMetrics(fitted)
        needed = metrics.boundingRect(box, Qt.AlignmentFlag.AlignLeft | _WRAP, text)
        widest = max((metrics.horizontalAdvance(word) for word in text.split()), default=0)
        fits = needed.height() <= box.height() and max(needed.width(), widest) <= box.width()
        low, high = (middle, high) if fits else (low, middle - 1)
    fitted.setPixelSize(low)
    return fitted
