"""Lessons read from their TOML files; a broken one is refused with the line and the reason.

A step writes what changes: everything else stays as the step before had it. Only what is said, the reason told and
the answer expected belong to one step alone.
"""

import os.path
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from tiremap.errors import TiremapError
from tiremap.model.lesson import FORMAT, VERSION, Hole, Lesson, LessonStep
from tiremap.model.toml_text import bounded_bytes, toml_from_bytes, too_large
from tiremap.model.wording import in_words, shown
from tiremap.resources import read_toml, resource_path

Model = TypeVar("Model", bound=BaseModel)

OF_ONE_STEP = ("says", "reason", "expect")
"""What a step does not take over from the one before."""
MAY_BE_UNKNOWN = ("tread_width_mm", "tread_depth_mm", "under_grooves_mm")
"""What a file sets back to not measured with "unknown"."""
_AS_IN_TOML = (
    "Each line sets one thing once: a text in straight quotation marks, a number with a point and without a unit, "
    "true or false in small letters, a list in [ ]."
)
_TOP_KEYS = ("format", "version", "title", "step")


def lesson_paths() -> tuple[Path, ...]:
    """The lessons that ship with the program, in the order they are offered."""
    return tuple(sorted(resource_path("lessons").glob("*.toml")))


def read_lesson(path: Path) -> Lesson:
    """The lesson in a file. Raises `TiremapError` with file, line and reason."""
    if not os.path.exists(path):
        raise TiremapError(f"There is no file {path}.", "Choose a lesson; its name ends in .toml.")
    largest = read_toml("storage.toml")["lesson_file"]["largest_bytes"]
    return lesson_from_bytes(bounded_bytes(path, largest, f"The lesson {path}"), path.name)


def lesson_from_bytes(data: bytes, name: str) -> Lesson:
    """The lesson in the bytes of a file called ``name``. Raises `TiremapError` with line and reason."""
    largest = read_toml("storage.toml")["lesson_file"]["largest_bytes"]
    if len(data) > largest:
        raise too_large(name, largest)
    fields = toml_from_bytes(data, name, _AS_IN_TOML)
    return _lesson(fields, data.decode("utf-8-sig"), name)


def _lesson(fields: dict[str, Any], text: str, name: str) -> Lesson:
    if fields.get("format") != FORMAT:
        raise TiremapError(f"{name} is not a lesson.", f'A lesson begins with format = "{FORMAT}".')
    if fields.get("version") != VERSION or isinstance(fields["version"], bool):
        raise TiremapError(
            f"{name}, line {_line_of(text, 'version')}: a lesson of that version cannot be shown.",
            f"This program shows version = {VERSION}.",
        )
    unknown = next((key for key in fields if key not in _TOP_KEYS), None)
    if unknown is not None:
        raise TiremapError(
            f"{name}, line {_line_of(text, unknown)}: there is no {shown(unknown)} before the steps.",
            f"There are: {', '.join(_TOP_KEYS)}.",
        )
    steps = fields.get("step")
    if not isinstance(steps, list) or not steps or not all(isinstance(step, dict) for step in steps):
        raise TiremapError(f"{name}: it has no steps.", "Each step begins with a line [[step]].")
    lines = _step_lines(text, len(steps))
    whole = {
        "title": fields.get("title"), "steps": tuple(_steps(steps, text, lines, name)), "lines": lines,
        "key_lines": _key_lines(steps, text, lines),
    }
    return _validated(Lesson, whole, lambda key: f"{name}, line {_line_of(text, key)}")


def _key_lines(written: list[dict[str, Any]], text: str, lines: tuple[int, ...]) -> tuple[dict[str, int], ...]:
    """For each step the lines that set what it has: its own, and those of steps before that it took over."""
    found: list[dict[str, int]] = []
    kept: dict[str, int] = {}
    for fields, line in zip(written, lines, strict=True):
        kept = {key: at for key, at in kept.items() if key not in OF_ONE_STEP}
        kept |= {key: _line_of(text, key, line) for key in fields}
        found.append(dict(kept))
    return tuple(found)


def _steps(written: list[dict[str, Any]], text: str, lines: tuple[int, ...], name: str) -> list[LessonStep]:
    steps: list[LessonStep] = []
    kept: dict[str, Any] = {}
    for number, (fields, line) in enumerate(zip(written, lines, strict=True), 1):
        def place(key: str, number: int = number, line: int = line) -> str:
            return f"{name}, step {number}, line {_line_of(text, key, line)}"

        known = LessonStep.model_fields
        unknown = next((key for key in fields if key not in known), None)
        if unknown is not None:
            raise TiremapError(f"{place(unknown)}: a step has no {shown(unknown)}.", f"It has: {', '.join(known)}.")
        kept = {**{key: value for key, value in kept.items() if key not in OF_ONE_STEP}, **fields}
        measured = {key: None if key in MAY_BE_UNKNOWN and value == "unknown" else value for key, value in kept.items()}
        steps.append(_validated(LessonStep, {**measured, **_holes(kept, place)}, place))
    return steps


def _holes(fields: dict[str, Any], place: Any) -> dict[str, Any]:
    """The holes of a step as records, each checked by itself, so that a fault is told by its own key."""
    holes = fields.get("holes")
    if holes is None:
        return {}
    if not isinstance(holes, list) or not all(isinstance(hole, dict) for hole in holes):
        raise TiremapError(f"{place('holes')}: holes is no list of holes.", "As in holes = [{ from_center_mm = 20 }].")
    for hole in holes:
        unknown = next((key for key in hole if key not in Hole.model_fields), None)
        if unknown is not None:
            raise TiremapError(
                f"{place('holes')}: a hole has no {shown(unknown)}.", f"It has: {', '.join(Hole.model_fields)}."
            )
    return {"holes": tuple(_validated(Hole, hole, lambda _: place("holes")) for hole in holes)}


def _validated(kind: type[Model], fields: dict[str, Any], place: Callable[[str], str]) -> Model:
    """A record of that kind; ``place`` gives file and line of a key."""
    try:
        return kind.model_validate(_with_floats(fields))
    except ValidationError as error:
        fault = in_words(error)
        path = error.errors(include_url=False)[0]["loc"]
        raise TiremapError(f"{place(str(path[0]) if path else '')}: {fault.what}", fault.right) from None


def _with_floats(fields: dict[str, Any]) -> dict[str, Any]:
    """Whole numbers as measurements: ``20`` is read where ``20.0`` is meant. ``chosen`` counts and stays whole."""
    return {
        key: float(value) if isinstance(value, int) and not isinstance(value, bool) and key != "chosen" else value
        for key, value in fields.items()
    }


def _step_lines(text: str, steps: int) -> tuple[int, ...]:
    """The lines of the steps' headers; the first line for steps written otherwise."""
    found = [number for number, line in enumerate(text.splitlines(), 1) if re.match(r"\s*\[\[\s*step\s*\]\]", line)]
    return tuple(found) if len(found) == steps else (1,) * steps


def _line_of(text: str, key: str, since: int = 1) -> int:
    """The first line from ``since`` on that sets the key, within one step; ``since`` where none does."""
    for number, line in enumerate(text.splitlines()[since - 1 :], since):
        if number > since and line.lstrip().startswith("[["):
            break
        if re.match(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=", line):
            return number
    return since
