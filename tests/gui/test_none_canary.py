"""A Qt binding that loses references to ``None`` kills the process after some thousand calls: it must not be used."""

import sys

from PySide6.QtWidgets import QWidget


def test_five_thousand_calls_into_qt_lose_no_reference_to_none(qtbot):
    widget = QWidget()
    qtbot.addWidget(widget)
    before = sys.getrefcount(None)
    for _ in range(5000):
        widget.update()
    assert abs(sys.getrefcount(None) - before) < 100
