"""Keeps unsaved work on disk while it is done, in a thread of its own, so that neither a stop nor a save is felt."""

from concurrent.futures import Future, ThreadPoolExecutor
from datetime import datetime
from math import ceil

from PySide6.QtCore import QElapsedTimer, QObject, QTimer, Signal

from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.resources import read_toml
from tiremap.session import Session
from tiremap.storage.unsaved_work import Work, WorkKept
from tiremap.ui.language import tr


class WorkKeeper(QObject):
    """Keeps the work of one window: the first edit at once, later ones together after a moment.

    Signals: ``failed(str)`` once for each reason why the work could not be kept.
    """

    failed = Signal(str)
    _could_not = Signal(str)

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._kept = WorkKept()
        self._writer: ThreadPoolExecutor | None = None
        self._under_way: Future[bool] | None = None
        self._handed_over: Job | None = None
        self._told = ""
        self._ended = False
        self._every_ms = ceil(read_toml("storage.toml")["unsaved_work"]["keep_every_s"] * 1000)
        self._since = QElapsedTimer()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._keep)
        self._could_not.connect(self._tell)
        session.listen(self._look)

    def keep_now(self) -> bool:
        """Keep the work before going on; whether it is on disk."""
        self._timer.stop()
        self._hand_over()
        return self._under_way.result()

    def end(self) -> None:
        """The window closes, its work saved or not wanted: nothing of it stays."""
        if self._ended:
            return
        self._ended = True
        self._timer.stop()
        if self._writer is not None:
            self._writer.submit(self._kept.forget)
            self._writer.submit(self._kept.end)
            self._writer.shutdown()

    def _look(self) -> None:
        """The session has changed: keep what is unsaved; what is saved needs no keeping."""
        if self._ended:
            return
        if not self._session.unsaved:
            self._timer.stop()
            if self._handed_over is not None:
                self._handed_over = None
                self._writer.submit(self._kept.forget)
        elif self._session.job is not self._handed_over and not self._timer.isActive():
            self._timer.start(self._still_to_wait())

    def _still_to_wait(self) -> int:
        """Milliseconds until the work may be kept again; none for the first edit after a while."""
        return max(0, self._every_ms - self._since.elapsed()) if self._since.isValid() else 0

    def _keep(self) -> None:
        if self._under_way is not None and not self._under_way.done():  # a slow disk: never two behind each other
            self._timer.start(self._every_ms)
        elif self._session.unsaved and not self._ended:
            self._hand_over()

    def _hand_over(self) -> None:
        session = self._session
        self._since.start()
        self._handed_over = session.job
        file = None if session.path is None else str(session.path.absolute())
        now = datetime.now().astimezone()
        work = {"file": file, "kept": now, "opened_as": session.saved_job, "job": session.job}
        self._writer = self._writer or ThreadPoolExecutor(1, "unsaved work")
        self._under_way = self._writer.submit(self._write, work)

    def _write(self, work: dict) -> bool:
        """In the other thread."""
        try:
            self._kept.keep(Work(**work))
        except TiremapError as error:
            self._could_not.emit(str(error))
            return False
        except Exception as error:  # a bug here must not pass in silence: nothing would be kept any more
            self._could_not.emit(f"{type(error).__name__}: {error}")
            return False
        return True

    def _tell(self, why: str) -> None:
        if why != self._told and not self._ended:
            self._told = why
            self.failed.emit(tr("Unsaved work cannot be kept for the case of a stop: {why} Save it often.", why=why))
