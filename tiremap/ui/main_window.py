"""The window: menus, the Mark and Review desks, messages and cautions around one session.

Desks and pages that few open are imported when they are first wanted: the drawing stands a tenth of a second sooner.
"""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent, QShowEvent
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from tiremap.resources import sample_jobs_folder
from tiremap.session import Session
from tiremap.ui import window_place
from tiremap.ui.actions import Actions, connect
from tiremap.ui.answer_large import AnswerLarge
from tiremap.ui.compare_window import CompareWindow
from tiremap.ui.editor import Editor
from tiremap.ui.enter_key import EnterKey
from tiremap.ui.files import JobFiles
from tiremap.ui.garbage import GarbageKeeper
from tiremap.ui.help_here import show_help_here, show_page
from tiremap.ui.key_rows import KeyRows
from tiremap.ui.language import tr
from tiremap.ui.mark_desk import MarkDesk
from tiremap.ui.menus import Menus, tool_bar
from tiremap.ui.message_line import CautionsLine, MessageLine
from tiremap.ui.palettes import dress, theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.shop_sets_watch import ShopSetsWatch, every_trouble, trouble_with
from tiremap.ui.teaching import Teaching
from tiremap.ui.work_keeper import WorkKeeper

if TYPE_CHECKING:
    from tiremap.ui.guidance_page import GuidancePage
    from tiremap.ui.key_row import KeyRow
    from tiremap.ui.review_desk import ReviewDesk
    from tiremap.ui.stock_page import StockPage


class MainWindow(QMainWindow):
    """One window, one job. Everything it shows comes from the session's assessment."""

    def __init__(self, session: Session, preferences: Preferences) -> None:
        super().__init__()
        self.session = session
        self.preferences = preferences
        self.message = MessageLine()
        self.editor = Editor(session, self.message.show_text)
        self.desk = MarkDesk(self.editor, preferences)
        self.review: ReviewDesk | None = None
        self.desks = QStackedWidget()
        self.cautions = CautionsLine()
        self.keys: KeyRow | None = None
        self.key_rows = KeyRows(self)
        self.comparison = CompareWindow(self.editor, preferences, self)
        self.files = JobFiles(session, preferences, self)
        self.garbage = GarbageKeeper(self)
        self.enter_key = EnterKey(self)
        self.keeper = WorkKeeper(session, self)
        self.watch = ShopSetsWatch(self)
        self.guidance: GuidancePage | None = None
        self.stock: StockPage | None = None
        self._trouble = ""
        self.actions_ = Actions(self)
        self.menus = Menus(self, self.actions_)
        self.tools = tool_bar(self, self.actions_)
        self.setAcceptDrops(True)
        self._lay_out()
        self.teaching = Teaching(self)
        self.large = AnswerLarge(self)
        self._connect()
        session.listen(self.show_session)
        self._preferences_changed()
        self._tell_trouble(every_trouble(session.job))
        if preferences.first_message:
            self.message.show_text(preferences.first_message)

    def show_session(self) -> None:
        """Show the session's assessment, and what can be undone and must be saved."""
        self.desk.show_assessment(self.session.assessment)
        self.actions_.measuring_sheet.setEnabled(self.session.assessment.answer == "measure_first")
        self._show_history()

    def show_mark(self) -> None:
        """Show the desk one job is worked on at."""
        self._show_desk(self.desk)

    def show_review(self) -> None:
        """Show the desk the shop's jobs are looked through at; it is built when it is first wanted."""
        if self.review is None:
            from tiremap.ui.review_desk import ReviewDesk

            self.review = ReviewDesk(self.editor, self.preferences)
            self.review.open_wanted.connect(self._open_from_register)
            self.review.sign_wanted.connect(self._sign_from_register)
            self.desks.addWidget(self.review)
            window_place.put_splitters_back(self.review, self.preferences.settings)
        self._show_desk(self.review)

    def show_teach(self) -> None:
        """Show the desk before a class."""
        self._show_desk(self.teaching.desk_wanted())

    def show_last_desk(self) -> None:
        """Show the desk at which the program was left."""
        if self.preferences.settings.last_desk == "review":
            self.show_review()

    def showEvent(self, event: QShowEvent) -> None:
        """Once the window stands, build the drawing: it takes half a second to load."""
        super().showEvent(event)
        if self.focusWidget() is None:
            self.desk.focus_first()
        QTimer.singleShot(0, self.desk.build_drawing)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask before losing unsaved work."""
        if (self.stock is None or self.stock.may_leave()) and self.files.may_leave():
            if self.review is not None:
                self.review.panel.end_reading()
            window_place.keep(self, self.preferences, "review" if self.desks.currentWidget() is self.review else "mark")
            self.keeper.end()
            self.garbage.end()
            event.accept()
        else:
            event.ignore()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take a single local file."""
        urls = event.mimeData().urls()
        if len(urls) == 1 and urls[0].isLocalFile():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the file dropped on the window."""
        self.files.open_path(Path(event.mimeData().urls()[0].toLocalFile()))

    def _show_history(self) -> None:
        undo, redo = self.session.undo_name, self.session.redo_name
        self.actions_.undo.setEnabled(undo is not None and not self.teaching.is_on)
        self.actions_.undo.setText(tr("&Undo {change}", change=undo) if undo else tr("&Undo"))
        self.actions_.undo.setIconText(tr("Undo"))
        self.actions_.redo.setEnabled(redo is not None and not self.teaching.is_on)
        self.actions_.redo.setText(tr("&Redo {change}", change=redo) if redo else tr("&Redo"))
        self.actions_.redo.setIconText(tr("Redo"))
        self.setWindowTitle(tr("{name}[*] – Tiremap", name=self.files.name))
        self.setWindowModified(self.session.unsaved)

    def _job_opened(self) -> None:
        """Another job: what was said of the one before no longer holds."""
        self.message.clear()
        self.show_mark()
        self.desk.choose_first()
        self._tell_trouble(trouble_with(self.session.job))

    def _shop_sets_changed(self) -> None:
        """A file of the shop's own guidance was added, changed, broken or removed: everything is answered anew."""
        self.desk.form.list_guidance()
        self.session.assess_again()
        self._tell_trouble(every_trouble(self.session.job))

    def _tell_trouble(self, trouble: str) -> None:
        """Say which guidance cannot be read and why; put away what was said of one that is right again."""
        if trouble or self.message.text == self._trouble:
            self.message.show_text(trouble)
        self._trouble = trouble

    def _preferences_changed(self) -> None:
        """Take over units, theme, density and the recent files."""
        settings, a = self.preferences.settings, self.actions_
        dress(self, self.teaching.theme_name(settings.theme), settings.density)
        (a.inches if settings.units == "in" else a.millimeters).setChecked(True)
        {"light": a.light, "dark": a.dark, "projector": a.projector}[settings.theme].setChecked(True)
        (a.bench if settings.density == "bench" else a.desk).setChecked(True)
        (a.letter if self.preferences.paper == "Letter" else a.a4).setChecked(True)
        a.key_row.setChecked(settings.keys_on_screen)
        self.key_rows.show(settings.keys_on_screen)
        self.menus.recent.show_all([(path, path) for path in settings.recent_files])
        self.desk.show_looks()
        self.show_session()

    def _units_chosen(self) -> None:
        self.preferences.keep(units="in" if self.actions_.inches.isChecked() else "mm")

    def _theme_chosen(self) -> None:
        a = self.actions_
        name = "dark" if a.dark.isChecked() else "projector" if a.projector.isChecked() else "light"
        self.preferences.keep(theme=name)

    def _density_chosen(self) -> None:
        self.preferences.keep(density="bench" if self.actions_.bench.isChecked() else "desk")

    def _paper_chosen(self) -> None:
        self.preferences.keep(paper="Letter" if self.actions_.letter.isChecked() else "A4")

    def _switch_work(self, wanted: bool) -> None:
        self.desk.left.show_work() if wanted else self.desk.left.show_tire()

    def _show_work(self, page: str) -> None:
        self.show_mark()
        self.desk.left.show_work(page)

    def _keys_wanted(self, wanted: bool) -> None:
        self.preferences.keep(keys_on_screen=wanted)

    def _show_desk(self, desk: QWidget) -> None:
        """Show a desk. What works on the marks of a job is asked for only where they are in sight."""
        a, is_mark = self.actions_, desk is self.desk
        self.desks.setCurrentWidget(desk)
        teaches = self.teaching.shows(desk)
        (a.mark_desk if is_mark else a.teach_desk if teaches else a.review_desk).setChecked(True)
        of_a_job = (a.add_injury, a.add_repair, a.quick, a.next_field, a.fit, a.inside, a.free_places, a.repair_work)
        for action in of_a_job:
            action.setEnabled(is_mark)
        self.menus.datum.setEnabled(is_mark)
        if teaches:
            self.teaching.enter()
        else:
            self.teaching.leave()

    def _open_from_register(self, path: Path) -> None:
        """Open a job found in the register; a sample as a sample, so that saving never overwrites it."""
        is_sample = path.parent == sample_jobs_folder()
        (self.files.open_sample if is_sample else self.files.open_path)(path)

    def _fit(self) -> None:
        if self.desk.drawing is not None:
            self.desk.drawing.fit()

    def _turn_view(self) -> None:
        inside = self.actions_.inside.isChecked()
        if self.desk.drawing is not None:
            self.desk.drawing.set_seen_from_inside(inside)

    def _turn_datum(self, hour: str) -> None:
        if self.desk.drawing is not None:
            self.desk.drawing.set_datum_hour(float(hour))

    def _open_recent(self, path: str) -> None:
        self.files.open_path(Path(path))

    def _open_sample(self, path: str) -> None:
        self.files.open_sample(Path(path))

    def _record_decision(self) -> None:
        """Sign the job in view: at the Review desk the chosen one."""
        if self.review is not None and self.desks.currentWidget() is self.review:
            self.review.story.ask_to_sign()
        else:
            self.desk.record_decision()

    def _sign_from_register(self, path: Path) -> None:
        """Open a job file from the register, if it is not open yet, and sign it with drawing and reasons in view."""
        if self.session.path != path:
            self.files.open_path(path)
        if self.session.path == path:
            self.show_mark()
            self.desk.record_decision()

    def _show_free_places(self) -> None:
        self.desk.show_free_places(self.actions_.free_places.isChecked())

    def _write_sheet(self) -> None:
        self.watch.look()  # no sheet by a guidance that was broken a moment ago
        self.files.write_sheet()

    def _show_answer_large(self) -> None:
        settings = self.preferences.settings
        self.large.open(self.session.assessment, settings.units, theme_of(settings.theme))

    def _write_measuring_sheet(self) -> None:
        self.watch.look()
        self.files.write_measuring_sheet()

    def _show_preview(self) -> None:
        self.watch.look()
        self.files.show_preview()

    def _show_comparison(self) -> None:
        self.comparison.show()
        self.comparison.activateWindow()

    def _show_limits(self) -> None:
        from tiremap.ui.limits_page import LimitsPage

        page = LimitsPage(self.session.job.rule_set, self)
        self.watch.changed.connect(page.read_again)
        page.show()

    def _write_template(self) -> None:
        self.watch.look()
        self.files.write_template()

    def _show_stock(self) -> None:
        if self.stock is None:
            from tiremap.ui.stock_page import StockPage

            self.stock = StockPage(self.preferences, self)
            self.stock.changed.connect(self.watch.look)
        self.stock.show()
        self.stock.activateWindow()

    def _show_own_guidance(self) -> None:
        if self.guidance is None:
            from tiremap.ui.guidance_page import GuidancePage

            self.guidance = GuidancePage(self.preferences, self.session.job.rule_set, self)
            self.guidance.changed.connect(self.watch.look)
            self.guidance.compare_wanted.connect(self._show_comparison)
            self.watch.changed.connect(self.guidance.read_again)
        self.guidance.show()
        self.guidance.activateWindow()

    def _show_getting_started(self) -> None:
        show_page("getting_started", self)

    def _show_whats_new(self) -> None:
        show_page("whats_new", self)

    def _connect(self) -> None:
        a = self.actions_
        connect({
            a.new: self.files.new,
            a.open: self.files.open,
            a.save: self.files.save,
            a.save_as: self.files.save_as,
            a.sheet: self._write_sheet,
            a.measuring_sheet: self._write_measuring_sheet,
            a.preview: self._show_preview,
            a.quit: self.close,
            a.mark_desk: self.show_mark,
            a.review_desk: self.show_review,
            a.teach_desk: self.show_teach,
            a.undo: self.session.undo,
            a.redo: self.session.redo,
            a.add_injury: self.desk.add_injury,
            a.add_repair: self.desk.add_repair,
            a.quick: self.desk.quick.open,
            a.next_field: self.desk.focus_next,
            a.answer_large: self._show_answer_large,
            a.dimensions: partial(self._show_work, "dimensions"),
            a.steps: partial(self._show_work, "steps"),
            a.leak: partial(self._show_work, "leak"),
            a.refit: partial(self._show_work, "refit"),
            a.template: self._write_template,
            a.stock: self._show_stock,
            a.sign: self._record_decision,
            a.fit: self._fit,
            a.inside: self._turn_view,
            a.free_places: self._show_free_places,
            a.compare: self._show_comparison,
            a.own_guidance: self._show_own_guidance,
            a.limits: self._show_limits,
            a.help_here: show_help_here,
            a.getting_started: self._show_getting_started,
            a.whats_new: self._show_whats_new,
            a.cautions: self.cautions.show_all,
        })
        connect({action: self._units_chosen for action in (a.millimeters, a.inches)})
        connect({action: self._theme_chosen for action in (a.light, a.dark, a.projector)})
        connect({action: self._density_chosen for action in (a.desk, a.bench)})
        connect({action: self._paper_chosen for action in (a.a4, a.letter)})
        a.repair_work.triggered.connect(self._switch_work)
        self.desk.left.work_shown.connect(a.repair_work.setChecked)
        a.key_row.toggled.connect(self._keys_wanted)
        self.menus.recent.wanted.connect(self._open_recent)
        self.desk.start.open_wanted.connect(self.files.open)
        self.desk.start.file_wanted.connect(self._open_recent)
        self.desk.start.sample_wanted.connect(self._open_sample)
        self.menus.samples.wanted.connect(self._open_sample)
        self.menus.datum.wanted.connect(self._turn_datum)
        self.files.opened.connect(self._job_opened)
        self.files.told.connect(self.message.show_news)
        self.keeper.failed.connect(self.message.show_text)
        self.watch.changed.connect(self._shop_sets_changed)
        self.preferences.changed.connect(self._preferences_changed)
        self.preferences.failed.connect(self.message.show_text)

    def _lay_out(self) -> None:
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.desks.addWidget(self.desk)
        column.addWidget(self.desks, 1)
        column.addWidget(self.message)
        column.addWidget(self.cautions)
        self.setCentralWidget(whole)
        window_place.put_back(self, self.preferences.settings)
