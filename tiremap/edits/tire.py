"""What is entered of the tire: size, tread, datum, markings. ``None`` always makes a field unknown again."""

from typing import Any

from tiremap.edits.change import changed, made
from tiremap.model.job import Job, Tire, TypedDimensions
from tiremap.model.size_code import read_size_code


def set_size_code(job: Job, code: str | None) -> Job:
    """Enter the size code as it stands on the sidewall.

    Typed dimensions belonged to the size before it and go. Raises `TiremapError` for a code that cannot be read:
    such a size is entered with `set_typed_size`.
    """
    code = entered(code)
    if code is not None:
        read_size_code(code)
    return _with(job, size_code=code, typed_dimensions=None)


def set_typed_size(
    job: Job,
    code: str | None,
    *,
    overall_diameter_mm: float,
    section_width_mm: float,
    rim_diameter_mm: float,
    rim_width_in: float,
) -> Job:
    """Enter a size the program cannot read, with the dimensions measured or read from the maker's table."""
    dimensions = made(
        TypedDimensions,
        overall_diameter_mm=overall_diameter_mm,
        section_width_mm=section_width_mm,
        rim_diameter_mm=rim_diameter_mm,
        rim_width_in=rim_width_in,
    )
    return _with(job, size_code=entered(code), typed_dimensions=dimensions)


def set_tire(job: Job, **fields: Any) -> Job:
    """Set fields of the tire other than its size, such as ``tread_width``, ``datum``, ``number``, ``maker_word``.

    Text is trimmed and empty text is unknown. `TypeError` for a field there is not, or one of the size.
    """
    of_the_size = sorted(fields.keys() & {"size_code", "typed_dimensions"})
    if of_the_size:
        raise TypeError(f"{of_the_size[0]} is entered by set_size_code or set_typed_size")
    return _with(job, **{name: entered(value) for name, value in fields.items()})


def entered(value: Any) -> Any:
    """Typed text without spaces around it, or ``None`` if nothing is left; any other value as it is."""
    return value.strip() or None if isinstance(value, str) else value


def _with(job: Job, **fields: Any) -> Job:
    tire: Tire = changed(job.tire, **fields)
    return changed(job, tire=tire)
