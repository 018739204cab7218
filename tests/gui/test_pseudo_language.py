"""In a language 40 % longer than English nothing in the window is cut off, and no text of the window stays English."""

import re
from contextlib import suppress
from functools import cache

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import QAbstractButton, QAbstractScrollArea, QApplication, QHeaderView, QLabel, QWidget

from tests.gui.test_every_widget import LEAST, other_windows
from tests.gui.test_language import TEXT_FUNCTIONS, calls, trees
from tests.gui.test_review_widgets import shop  # noqa: F401  the folder of jobs is a fixture
from tests.helpers.full_jobs import full_jobs
from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tests.helpers.pseudo_language import PseudoLanguage
from tests.helpers.widget_walk import faults
from tiremap.model.job import Job
from tiremap.ui.preferences import Preferences
from tiremap.ui.repair_work import PAGES

_MEASURE = re.compile(r"[\d.,]+ (mm|cm²)")

CUT_OFF = ("cut off", "neighbors")
"""What is told of a widget whose text has no room; its name, size and place in the order are tried elsewhere."""
FROM_BELOW = {
    "CautionsLine", "MessageLine",  # cautions of the guidance, errors
    "CheckList",  # titles of the condition checks
    "FreePlacesBar",  # what is free, in sentences
    "SizeField",  # what the size code says
    "StepRow", "LeakPage", "RefitPage",  # steps, places to look, guide to the refit, sources
    "DimensionsPage",  # why and how the head lies
    "RegisterPanel",  # the folder's path
    "RegisterFigures",  # codes of reasons in words
    "QDialogButtonBox",  # Qt's own buttons, which Qt translates
    "SignOff",  # the decisions in words, as on the sheet
    "GuidancePage", "CrashDialog",  # whose guidance; where the job is kept
    "KeyRow",  # "to" and "in", as they are typed
    "TeachDesk",  # the words of a lesson, cautions
}
"""Parts of the window that show finished English made below it, and what."""


NAMESAKES = {"SignOff", "StepRow", "RegisterFigures", "KeyRow", "QDialogButtonBox"}
"""Of these, where a text from below reads like one of the window, such as "Measure first", "Place", "to", "Close"."""


REPAIRABLE = bench_job(crown_injury(), earlier_repair())
HALF_KNOWN = bench_job(crown_injury(around_deg=None, size_inside=None), tire=measured_tire(tread_width=None))


@cache
def english() -> set[str]:
    """The texts of the window as they stand in the code."""
    return {call.args[0].value for _, tree in trees() for call in calls(tree, *TEXT_FUNCTIONS)}


@pytest.fixture(autouse=True)
def pseudo_language(qapp):
    """The window in the pseudo language."""
    language = PseudoLanguage()
    qapp.installTranslator(language)
    yield
    qapp.removeTranslator(language)
    assert language.twice == []


def full_job() -> Job:
    """A job in which everything is known, the same each time."""
    drawn: list[Job] = []

    @settings(max_examples=1, derandomize=True, database=None, phases=[Phase.generate], deadline=None,
              suppress_health_check=list(HealthCheck))
    @given(full_jobs(unknowns=False, injuries=(2, 2), repairs=(2, 2)))
    def draw(job: Job) -> None:
        drawn.append(job)

    draw()
    return drawn[0]


def trouble(window: QWidget, least: int) -> list[str]:
    """What is cut off, and what escaped the translator."""
    cut = [fault for fault in faults(window, least) if any(each in fault for each in CUT_OFF)]
    return cut + labels_under_others(window) + heads_cut_off(window) + escaped(window)


def trouble_left(qtbot, window: QWidget, least: int) -> list[str]:
    """What is wrong once the layouts have settled: one inside another does so in turns, slowly on a busy machine."""
    with suppress(qtbot.TimeoutError):
        qtbot.waitUntil(lambda: trouble(window, least) == [], timeout=3000)
    return trouble(window, least)


def labels_under_others(window: QWidget) -> list[str]:
    """The labels in sight of which a part lies beyond what holds them; what scrolls may."""
    found = []
    for label in window.findChildren(QLabel):
        if not label.isVisible() or label.window() is not window or in_what_scrolls(label):
            continue
        if not label.visibleRegion().boundingRect().contains(label.rect()):
            found.append(f"{type(window).__name__}: label {label.text()!r} under its neighbors")
    return found


def in_what_scrolls(widget: QWidget) -> bool:
    while not widget.isWindow():
        widget = widget.parentWidget()
        if isinstance(widget, QAbstractScrollArea):
            return True
    return False


def heads_cut_off(window: QWidget) -> list[str]:
    """The heads of columns in sight that show their words only in part."""
    found = []
    for head in window.findChildren(QHeaderView):
        if not head.isVisible() or head.window() is not window or head.orientation() == Qt.Orientation.Vertical:
            continue
        for column in range(head.count()):
            words = str(head.model().headerData(column, head.orientation()))
            room = QRect(0, 0, head.sectionSize(column), head.maximumHeight())
            taken = head.fontMetrics().boundingRect(room, head.defaultAlignment().value, words)
            cut = taken.width() > room.width() or taken.height() > head.height()
            if cut and not head.isSectionHidden(column):
                found.append(f"{type(window).__name__}: {words!r} over a column: cut off")
    return found


def escaped(window: QWidget) -> list[str]:
    """The labels and buttons in sight whose words come from the window and are still English."""
    found = []
    for widget in (*window.findChildren(QLabel), *window.findChildren(QAbstractButton)):
        text = re.sub(r"<[^<>]*>", "", widget.text())
        words = re.search(r"[^\W\d_]", _MEASURE.sub("", text))
        if not words or not widget.isVisible() or widget.window() is not window:
            continue
        parts = set(path_of(widget))
        from_below = parts & FROM_BELOW and (parts & NAMESAKES or text not in english())
        if "[" not in text and not from_below:
            found.append(f"{'/'.join(path_of(widget))}: {text!r} escaped")
    return found


def path_of(widget: QWidget) -> list[str]:
    names = []
    while widget is not None:
        names.append(type(widget).__name__)
        if widget.isWindow():
            break
        widget = widget.parentWidget()
    return names


@pytest.mark.parametrize(("density", "least"), LEAST.items())
def test_longer_words_have_room_at_the_mark_desk_and_in_every_window(open_window, qtbot, density, least):
    Preferences().keep(density=density)
    window = open_window(full_job())
    found = []
    for more in (False, True):
        window.desk.form.more.setChecked(more)
        qtbot.wait(20)
        found += trouble_left(qtbot, window, least)
    window.message.show_text("Something could not be done.")
    window.actions_.key_row.trigger()
    window.actions_.free_places.trigger()
    for job in (full_job(), HALF_KNOWN, REPAIRABLE):
        window.session.load(job, None)
        window.desk.choose_first()
        for page in PAGES:
            window.desk.left.show_work(page)
            qtbot.wait(50)
            found += trouble_left(qtbot, window, least)
    window.actions_.key_row.trigger()
    for other in other_windows(window):
        QApplication.processEvents()
        found += trouble_left(qtbot, other, least)
        other.close()
    assert found == [], "\n".join(found)


@pytest.mark.parametrize(("density", "least"), LEAST.items())
def test_longer_words_have_room_at_the_review_desk_and_on_the_first_screen(
    open_window, qtbot, shop, density, least  # noqa: F811
):
    Preferences().keep(density=density, register_folder=str(shop))
    window = open_window()
    qtbot.wait(20)
    found = trouble_left(qtbot, window, least)
    window.show_review()
    panel = window.review.panel
    qtbot.waitUntil(lambda: not panel.reads and panel.jobs.rowCount() == 3, timeout=20000)
    panel.table.selectRow(0)
    panel.unfold.setChecked(True)
    qtbot.wait(120)  # the story is gathered when the choice rests
    found += trouble_left(qtbot, window, least)
    assert found == [], "\n".join(found)


@pytest.mark.parametrize(("density", "least"), LEAST.items())
def test_longer_words_have_room_at_the_teach_desk(open_window, qtbot, density, least):
    Preferences().keep(density=density)
    window = open_window(REPAIRABLE)
    window.actions_.teach_desk.trigger()
    desk = window.teaching.desk
    qtbot.waitUntil(lambda: desk.canvas is not None and bool(desk.canvas.placed))
    qtbot.wait(50)
    found = trouble_left(qtbot, window, least)
    desk.hide_answer.click()
    qtbot.wait(50)
    found += trouble_left(qtbot, window, least)
    assert found == [], "\n".join(found)
