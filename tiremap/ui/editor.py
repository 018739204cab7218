"""The widgets' one way in: a named change of the job, with bad input told and nothing lost."""

from collections.abc import Callable
from typing import Any

from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.session import Session


class Editor:
    """Hands changes to the session. Widgets keep one of these and no facts."""

    def __init__(self, session: Session, tell: Callable[[str], None]) -> None:
        self.session = session
        self.tell = tell
        """Shows a sentence in the window's message line."""

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self.session.job

    def change(self, name: str, edit: Callable[..., Job], *args: Any, **fields: Any) -> None:
        """One undo step ``name``: the job as ``edit`` gives it. Raises `TiremapError`; then nothing has changed."""
        self.session.apply(name, edit(self.session.job, *args, **fields))
        self.tell("")

    def try_change(self, name: str, edit: Callable[..., Job], *args: Any, **fields: Any) -> bool:
        """As `change`, with an error told in the message line; whether it went through."""
        try:
            self.change(name, edit, *args, **fields)
        except TiremapError as error:
            self.tell(str(error))
            return False
        return True
