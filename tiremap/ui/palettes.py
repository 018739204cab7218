"""The window's own looks on the Fusion style: three themes, two densities. No desktop theme is asked."""

from dataclasses import dataclass

from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from tiremap.resources import resource_path


@dataclass(frozen=True)
class Theme:
    """The colors of one theme. ``repairable``, ``measure_first`` and ``not_repairable`` are the answers' (Okabe-Ito
    derived); ``on_...`` is the ink that stands on or around them."""

    window: str
    base: str
    raised: str
    line: str
    """Between parts."""
    edge: str
    """Around a control: without it a field could not be told from the ground."""
    text: str
    faint: str
    accent: str
    on_accent: str
    fault: str
    repairable: str
    measure_first: str
    not_repairable: str
    ink: str
    tick: str = "tick_on_dark"
    """The icon of a tick on the accent."""
    points: float = 10.0


THEMES: dict[str, Theme] = {
    "light": Theme(
        window="#f1eeea", base="#fdfcfa", raised="#e6e1db", line="#b9b1a8", text="#2b2724", faint="#69615a",
        edge="#857c72", accent="#2f5d7c", on_accent="#ffffff", fault="#a33b00", repairable="#005f96",
        measure_first="#f0e442", not_repairable="#cd5700", ink="#2b2724",
    ),
    "dark": Theme(
        window="#24211f", base="#1b1917", raised="#35312d", line="#57504a", text="#ece7e1", faint="#a89f96",
        edge="#8a8178", accent="#7fb2d6", on_accent="#16130f", fault="#ff9a62", repairable="#56b4e9",
        measure_first="#f0e442", not_repairable="#e0611c", ink="#ece7e1", tick="tick_on_light",
    ),
    "projector": Theme(
        window="#ffffff", base="#ffffff", raised="#e9e9e9", line="#5c5c5c", text="#000000", faint="#3c3c3c",
        edge="#5c5c5c", accent="#003f7d", on_accent="#ffffff", fault="#862900", repairable="#00528f",
        measure_first="#ffe800", not_repairable="#c04300", ink="#000000", points=10.2,
    ),
}

NOT_NEEDED_SHARE = 0.82
"""Size of the text in a field that is not needed, of the usual text: its words have room in the narrowest field."""

CLASS_POINTS = 18
"""Size of the text before a class, points: to be read from the last row."""

CONTROL_HEIGHTS = {"desk": 26, "bench": 44}
"""Least height of a control in each density, px."""


def theme_of(name: str) -> Theme:
    """The theme of that name; the light one for a name there is not."""
    return THEMES.get(name, THEMES["light"])


def dress(window: QWidget, theme_name: str, density: str) -> None:
    """Put the theme and density on a window and all it holds, dialogs too; nothing is done where they are on already.

    The sheet is the window's, not the application's: there each part would be styled anew on every floor of the window
    it is built into, which takes twice as long as building all of it.
    """
    looks = f"{theme_name} {density}"
    if window.property("looks") == looks:
        return
    window.setProperty("looks", looks)
    theme = theme_of(theme_name)
    palette, app = _palette(theme), QApplication.instance()
    if app.palette() != palette:
        app.setPalette(palette)
    window.setStyleSheet(_style_sheet(theme, CONTROL_HEIGHTS[density]))


def _palette(theme: Theme) -> QPalette:
    palette = QPalette()
    roles = {
        QPalette.ColorRole.Window: theme.window,
        QPalette.ColorRole.WindowText: theme.text,
        QPalette.ColorRole.Base: theme.base,
        QPalette.ColorRole.AlternateBase: theme.window,
        QPalette.ColorRole.Text: theme.text,
        QPalette.ColorRole.Button: theme.raised,
        QPalette.ColorRole.ButtonText: theme.text,
        QPalette.ColorRole.ToolTipBase: theme.base,
        QPalette.ColorRole.ToolTipText: theme.text,
        QPalette.ColorRole.Highlight: theme.accent,
        QPalette.ColorRole.HighlightedText: theme.on_accent,
        QPalette.ColorRole.Link: theme.accent,
        QPalette.ColorRole.PlaceholderText: theme.faint,
        QPalette.ColorRole.Mid: theme.line,
    }
    for role, color in roles.items():
        palette.setColor(role, QColor(color))
    for role in (QPalette.ColorRole.WindowText, QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, role, QColor(theme.faint))
    return palette


def _style_sheet(theme: Theme, height: int) -> str:
    """What a palette cannot say: least heights, quiet frames, and fields with a fault or not needed."""
    inner, points, box = height - 4, theme.points, max(15, height // 2)
    return f"""
        QWidget {{ font-size: {points}pt; }}
        QLabel[role="answer"] {{ font-size: {1.7 * points}pt; font-weight: 700; }}
        QLineEdit, QComboBox, QDateEdit {{ min-height: {inner}px; }}
        QPushButton, QToolButton {{ min-height: {height - 2}px; }}
        QAbstractButton#segment {{ min-height: {height}px; font-size: {0.85 * points:.1f}pt; }}
        QLineEdit#large {{ font-size: {1.7 * points}pt; min-height: {height + 14}px; }}
        QPushButton#key, QPushButton#wide_key {{
            min-height: 42px; min-width: 36px; font-size: {1.2 * points:.1f}pt; padding: 0 2px;
        }}
        QPushButton#wide_key {{ min-width: {5 * points}px; }}
        QCheckBox#step_check {{ min-width: {height}px; }}
        QToolButton#fold_step, QToolButton#fold_step:checked {{
            min-width: {height - 2}px; background: transparent; border-color: transparent; padding: 0;
        }}
        QFrame#next_step {{ border: 2px solid {theme.accent}; border-radius: 4px; }}
        QPushButton#sample {{ text-align: left; min-height: 54px; padding: 2px 8px; }}
        QLabel#links {{ min-height: {height}px; }}
        QLabel[role="title"] {{ font-size: {1.15 * points}pt; font-weight: 600; padding-top: 6px; }}
        QCheckBox, QRadioButton {{ min-height: {height}px; spacing: 8px; }}
        QPushButton {{ min-width: {inner}px; }}
        QCheckBox::indicator {{
            width: {box}px; height: {box}px; border: 1px solid {theme.edge}; border-radius: 3px;
            background: {theme.base};
        }}
        QCheckBox::indicator:checked {{
            background: {theme.accent}; border-color: {theme.accent}; image: url("{_icon(theme.tick)}");
        }}
        QRadioButton::indicator {{
            width: {box}px; height: {box}px; border: 1px solid {theme.faint}; border-radius: {box // 2 + 1}px;
            background: {theme.base};
        }}
        QRadioButton::indicator:checked {{ background: {theme.accent}; border-color: {theme.text}; }}
        QCheckBox:focus, QRadioButton:focus {{ color: {theme.accent}; }}
        QTabBar::tab {{
            min-height: {inner}px; padding: 1px 12px; background: {theme.window}; border: 1px solid {theme.line};
            border-top-left-radius: 3px; border-top-right-radius: 3px; margin-right: 3px;
        }}
        QTabBar::tab:selected {{ background: {theme.raised}; font-weight: 600; }}
        QTabBar:focus {{ color: {theme.accent}; }}
        QLineEdit, QComboBox {{
            background: {theme.base}; border: 1px solid {theme.edge}; border-radius: 3px; padding: 1px 4px;
            selection-background-color: {theme.accent}; selection-color: {theme.on_accent};
        }}
        QLineEdit:focus, QComboBox:focus {{ border: 2px solid {theme.accent}; padding: 0px 3px; }}
        QLineEdit[faulty="true"] {{ border: 2px dashed {theme.fault}; padding: 0px 3px; }}
        QComboBox[asked="true"] {{ border: 2px dashed {theme.fault}; padding: 0px 3px; }}
        QLineEdit[needed="false"] {{
            background: {theme.raised}; color: {theme.faint}; font-size: {NOT_NEEDED_SHARE * points:.1f}pt;
        }}
        QComboBox {{ padding-right: 1px; combobox-popup: 0; }}
        QComboBox::drop-down {{ border: none; width: 13px; }}
        QComboBox::down-arrow {{ image: url("{_icon("down")}"); width: 9px; height: 9px; }}
        QComboBox#how {{
            border-color: transparent; background: transparent; color: {theme.faint}; padding: 0;
            font-size: {0.82 * points:.1f}pt; min-height: {height - 2}px;
        }}
        QComboBox#how::drop-down {{ width: 10px; }}
        QComboBox#how:focus {{ border: 1px solid {theme.accent}; }}
        QComboBox QAbstractItemView {{ background: {theme.base}; color: {theme.text}; }}
        QComboBox QAbstractItemView::item {{ min-height: {height}px; }}
        QMenu {{ background: {theme.base}; border: 1px solid {theme.line}; }}
        QMenu::item {{ min-height: {height}px; padding: 0 26px 0 26px; }}
        QMenu::item:selected {{ background: {theme.accent}; color: {theme.on_accent}; }}
        QMenu::item:disabled {{ color: {theme.faint}; }}
        QMenu::separator {{ height: 1px; background: {theme.line}; margin: 3px 8px; }}
        QPushButton, QToolButton {{
            background: {theme.raised}; border: 1px solid {theme.edge}; border-radius: 3px; padding: 0 8px;
        }}
        QPushButton:hover, QToolButton:hover {{ border-color: {theme.accent}; }}
        QPushButton:focus, QToolButton:focus {{
            border: 2px solid {theme.accent}; padding: 0 7px; min-height: {inner}px;
        }}
        QPushButton#sample:focus {{ min-height: 52px; padding: 1px 7px; }}
        QPushButton:pressed, QPushButton:checked, QToolButton:pressed, QToolButton:checked {{
            background: {theme.accent}; color: {theme.on_accent};
        }}
        QPushButton:disabled, QToolButton:disabled {{ color: {theme.faint}; border-color: {theme.raised}; }}
        QToolBar {{ border: none; border-bottom: 1px solid {theme.line}; spacing: 6px; padding: 4px 8px; }}
        QToolBar QToolButton {{ background: transparent; border-color: transparent; }}
        QToolBar QToolButton:checked {{ background: {theme.raised}; color: {theme.text}; border-color: {theme.edge}; }}
        QToolBar QToolButton:disabled, QToolBar QToolButton:checked:disabled {{ color: {theme.faint}; }}
        QLabel[role="heading"] {{ color: {theme.text}; font-weight: 600; padding-top: 4px; }}
        QLabel[role="faint"] {{ color: {theme.faint}; }}
        QLabel[role="fault"] {{ color: {theme.fault}; }}
        QSplitter::handle {{ background: {theme.window}; }}
        QSplitter::handle:hover {{ background: {theme.line}; }}
        QHeaderView::section {{
            background: {theme.window}; color: {theme.faint}; border: none; border-bottom: 1px solid {theme.line};
            padding: 3px 4px; font-weight: normal;
        }}
        QTableView {{ selection-background-color: {theme.raised}; selection-color: {theme.text}; }}
        QToolButton#fold, QToolButton#fold:checked {{
            background: transparent; border-color: transparent; color: {theme.text}; padding: 0 2px;
        }}
        QTableView, QListView {{ border: 1px solid {theme.line}; border-radius: 3px; gridline-color: {theme.raised}; }}
        QScrollArea {{ border: none; }}
        QTableView QLineEdit {{ min-height: 18px; padding: 0 3px; border-radius: 0; }}
    """


def _icon(name: str) -> str:
    return resource_path("icons", f"{name}.svg").as_posix()
