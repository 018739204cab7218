"""Walks the widgets of a window and says what is wrong with each: no name, too small, out of reach, cut off."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QAbstractSpinBox,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QTextEdit,
    QToolBar,
    QWidget,
)

from tiremap.ui.three_answers import ThreeAnswers

_INTERACTIVE = (QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox, QLineEdit, QPlainTextEdit, QTextEdit)
_PARTS_OF_OTHERS = (QComboBox, QAbstractSpinBox, QLineEdit, QAbstractItemView, QHeaderView)
"""What Qt builds from smaller widgets; those are reached through it."""


def interactive(window: QWidget) -> Iterator[QWidget]:
    """Every widget in sight that takes a click or the focus."""
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() or widget.window() is not window or _is_part_of_another(widget):
            continue
        if isinstance(widget, _INTERACTIVE) or widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            yield widget


def faults(window: QWidget, least: int) -> list[str]:
    """What is wrong with the widgets in sight; ``least`` is the least width and height of a target, px."""
    found = []
    for widget in interactive(window):
        who = f"{type(window).__name__}: {type(widget).__name__} {name_of(widget)!r}"
        nameless = isinstance(widget, QComboBox) and not widget.accessibleName()
        if nameless or name_of(widget) in ("", type(widget).__name__):
            found.append(f"{who} in {type(widget.parentWidget()).__name__}: no name")
        if widget.width() < least or widget.height() < least:
            found.append(f"{who}: {widget.width()} x {widget.height()} px, less than {least}")
        if _reaches_out(widget):
            found.append(f"{who}: its lower or right part lies under its neighbors")
        if not can_be_reached(widget):
            found.append(f"{who}: not reached by Tab")
        if isinstance(widget, QAbstractButton) and widget.sizeHint().width() > widget.width() + 1:
            found.append(f"{who}: cut off, {widget.sizeHint().width()} px in {widget.width()}")
    for label in window.findChildren(QLabel):
        if label.isVisible() and label.window() is window and _is_cut_off(label):
            found.append(f"{type(window).__name__}: label {label.text()!r} cut off")
    return found


def name_of(widget: QWidget) -> str:
    """What a screen reader calls it; on some systems a list without a name goes by what is chosen in it."""
    return QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name).replace("&", "")


def can_be_reached(widget: QWidget) -> bool:
    """Whether Tab comes to it, the arrows inside its group do, or, in a tool bar, the menu bar offers the same."""
    if isinstance(widget.parentWidget(), QToolBar):
        return True
    group = widget.group() if isinstance(widget, QAbstractButton) else None
    if isinstance(widget.parentWidget(), ThreeAnswers):
        members = widget.parentWidget().findChildren(QAbstractButton)
    elif group is not None and group.exclusive():
        members = group.buttons()
    else:
        members = [widget]
    return not widget.isEnabled() or any(each.focusPolicy() & Qt.FocusPolicy.TabFocus for each in members)


def _reaches_out(widget: QWidget) -> bool:
    """Whether it reaches beyond a part that holds it; what scrolls may."""
    corner, part = widget.rect().bottomRight(), widget
    while not part.isWindow():
        corner, part = part.mapToParent(corner), part.parentWidget()
        if isinstance(part.parentWidget(), QAbstractScrollArea):
            return False
        if not part.rect().adjusted(0, 0, 1, 1).contains(corner):
            return True
    return False


def _is_part_of_another(widget: QWidget) -> bool:
    parent = widget.parentWidget()
    while parent is not None and not parent.isWindow():
        if isinstance(parent, _PARTS_OF_OTHERS):
            return True
        parent = parent.parentWidget()
    return isinstance(widget, QHeaderView) or widget.objectName().startswith("qt_")


def _is_cut_off(label: QLabel) -> bool:
    if label.wordWrap():
        return label.heightForWidth(label.width()) > label.height() + 1
    return label.sizeHint().width() > label.width() + 1 and not label.toolTip()
