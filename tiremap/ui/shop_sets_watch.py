"""Watches the files of the shop's own rule sets and stock, which may change, break or go while the window is open."""

from PySide6.QtCore import QObject, QTimer, Signal

from tiremap.model.job import Job
from tiremap.model.rule_set_file import broken_rule_sets, rule_set_or_why, shop_files_as_they_stand
from tiremap.ui.language import tr
from tiremap.workshop.stock import stock_file_as_it_stands, stock_in_use

_EVERY_MS = 1000
"""How often the folder is looked at. Not every file system tells of changes, and looking costs nothing."""


class ShopSetsWatch(QObject):
    """Looks at the folder again and again, and when told.

    Signals: ``changed()`` after a file of the shop's own rule sets, or its stock, was added, changed or removed.
    """

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stood = _as_they_stand()
        self._timer = QTimer(self)
        self._timer.setInterval(_EVERY_MS)
        self._timer.timeout.connect(self.look)
        self._timer.start()

    def look(self) -> None:
        """Look at the files now."""
        stand = _as_they_stand()
        if stand != self._stood:
            self._stood = stand
            self.changed.emit()


def _as_they_stand() -> tuple:
    return shop_files_as_they_stand(), stock_file_as_it_stands()


def trouble_with(job: Job) -> str:
    """Why the guidance a job follows cannot be read, in a sentence for the message line; empty where it can be."""
    if job.rule_set is None:
        return ""
    _, why = rule_set_or_why(job.rule_set)
    return why and tr(
        "This job follows {guidance}, which cannot be read, so nothing is answered by it. {why}",
        guidance=job.rule_set,
        why=why,
    )


def every_trouble(job: Job) -> str:
    """As `trouble_with` the job, and the shop's stock and every other of its rule sets that cannot be used."""
    others = (wrong for path, wrong in broken_rule_sets() if path.stem != job.rule_set)
    return " ".join(filter(None, [trouble_with(job), stock_in_use()[1], *others]))
