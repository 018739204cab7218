"""The words of the window in the language it is shown in.

English is what stands in the code. A Qt translator installed on the application under the context `CONTEXT` exchanges
it; without one every text stays as it is written. Sentences made below ``ui/`` are finished English and pass by.

What a field reads back as it was typed ("35 mm from outboard edge", "4 to 5") is not translated: the reader of typed
measures knows these words alone.
"""

from typing import Any

from PySide6.QtCore import QCoreApplication

CONTEXT = "tiremap"
"""Under which a translator keeps the texts."""


class TableText(str):
    """A text of a table made on import, when no translator stands yet: English until `told`."""

    __slots__ = ()


def tr(text: str, **values: Any) -> str:
    """The text, written out where it is used, in the window's language, with its ``{placeholders}`` filled in."""
    words = QCoreApplication.translate(CONTEXT, text)
    return words.format(**values) if values else words


def marked(text: str) -> TableText:
    """A text of a table, found by whoever collects the texts; `told` gives its words when it is shown."""
    return TableText(text)


def told(text: str, **values: Any) -> str:
    """The words of a text of a table as they are shown; any other text is not ours to translate and stays."""
    return tr(text, **values) if isinstance(text, TableText) else text
