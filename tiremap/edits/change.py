"""The one way to a new or changed record: through validation, with faults told in words.

pydantic's ``model_copy(update=...)`` skips validation, so nothing in this room uses it.
"""

from typing import Any, TypeVar

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.record import Record
from tiremap.model.wording import in_words

R = TypeVar("R", bound=Record)


def changed(record: R, /, **updates: Any) -> R:
    """The record with some fields set anew. Fields it does not know but holds are kept.

    Raises `TiremapError` for a value a field cannot hold, `TypeError` for a field the record does not have
    (records keep unknown fields, so a misspelled one would be stored silently).
    """
    return made(type(record), {name: value for name, value in record if name not in updates}, **updates)


def made(kind: type[R], kept: dict[str, Any] | None = None, /, **fields: Any) -> R:
    """A new record of that kind; ``kept`` are values carried over unexamined. Raises as `changed`."""
    unknown = sorted(fields.keys() - kind.model_fields.keys())
    if unknown:
        raise TypeError(f"{kind.__name__} has no field {unknown[0]!r}")
    _check_texts(fields)
    try:
        return kind.model_validate({**(kept or {}), **fields})
    except ValidationError as error:
        raise in_words(error) from None


def _check_texts(fields: dict[str, Any]) -> None:
    """Raise `TiremapError` for a text that holds half of a character: no file could hold it, and nothing be saved."""
    for name, value in fields.items():
        if isinstance(value, str):
            try:
                value.encode()
            except UnicodeEncodeError as error:
                half = f"\\u{ord(value[error.start]):04x}"
                raise TiremapError(f"{name}: it holds {half}, half of a character.", "Write it again.") from None
