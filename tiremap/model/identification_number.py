"""Where the date stands in a tire's identification number, as people copy it: ``DOT XXX XXXXXX 2318``.

Spaces, hyphens, slashes, colons and commas part the groups; capitals and DOT count for nothing; ``?``, ``.``, ``_`` or
``*`` stand for one sign that cannot be read. The date is the last group. Where the number runs together, its last
four signs are the date; a date of three digits must stand apart, since four with the first one misread as a letter
would look the same.
"""

from typing import NamedTuple

from tiremap.errors import TiremapError
from tiremap.resources import read_toml

RIGHT = "A right one looks like 2318 (week 23 of 2018), or the whole number: DOT XXX XXXXXX 2318."

_RIGHT_WHERE_NONE = (
    f"{RIGHT} If this side of the tire shows no date, look on the other sidewall. "
    "Leave a space before a date of three digits."
)

UNREAD = "?"

_PARTS_GROUPS = set("-/:,|\N{HYPHEN}\N{NON-BREAKING HYPHEN}\N{EN DASH}\N{EM DASH}\N{MINUS SIGN}")
_UNREAD_SIGNS = set("?._*")
_TRIANGLES = set("<>◀◁◂◃◄◅▲△▴▵▶▷▸▹►▻▼▽▾▿")
_TRIANGLE = "◁"
_SHOWN_AT_MOST = 40

Sign = tuple[int, str]


class DateCodeError(TiremapError):
    """A date code that cannot be read. ``position`` is the index into the text as typed (its length at the end)."""

    def __init__(self, what: str, right: str = RIGHT, *, position: int) -> None:
        super().__init__(what, right)
        self.position = position


class DateSigns(NamedTuple):
    """The date part of a number: three or four ``signs``, each a digit or ``?``, and their ``places`` in ``text``.

    ``triangle``: a small triangle stands behind it. ``whole``: the number around it is complete.
    """

    text: str
    signs: str
    places: tuple[int, ...]
    triangle: bool
    whole: bool

    def error(self, words: str, at: int, right: str = RIGHT) -> DateCodeError:
        """A mistake at one of the signs."""
        return _error(self.text, words, self.places[at], right)


def date_signs(text: str) -> DateSigns:
    """The date part of an identification number or of a date code alone. Raises ``DateCodeError``."""
    groups = _groups(text)
    triangle = bool(groups) and groups[-1][-1][1] == _TRIANGLE
    if triangle:
        groups = [*groups[:-1], groups[-1][:-1]]
    groups = _joined(_without_dot([group for group in groups if group]))
    if not groups:
        raise _error(text, "the date code is missing.", len(text))
    symbols = [sign for group in groups for sign in group]
    for place, char in symbols:
        if char == _TRIANGLE:
            raise _error(text, "a triangle can stand only behind the date code.", place)
    length = read_toml("dimensions", "date_code.toml")["whole_number"]
    if len(symbols) > length["greatest"]:
        words = f"the number has {len(symbols)} letters and digits, more than {length['greatest']}."
        raise _error(text, words, symbols[length["greatest"]][0])
    date_part = _date_part(text, groups[-1], length["least"])
    return DateSigns(
        text=text,
        signs="".join(char for _, char in date_part),
        places=tuple(place for place, _ in date_part),
        triangle=triangle,
        whole=len(symbols) >= length["least"] and all(char != UNREAD for _, char in symbols),
    )


def _groups(text: str) -> list[list[Sign]]:
    groups: list[list[Sign]] = [[]]
    for place, char in enumerate(text):
        if char.isspace() or char in _PARTS_GROUPS:
            groups.append([])
        elif char in _UNREAD_SIGNS:
            groups[-1].append((place, UNREAD))
        elif char in _TRIANGLES:
            groups[-1].append((place, _TRIANGLE))
        elif char.isascii() and char.isalnum():
            groups[-1].append((place, char.upper()))
        else:
            raise _error(text, f"{char!r} cannot stand in an identification number.", place)
    return [group for group in groups if group]


def _without_dot(groups: list[list[Sign]]) -> list[list[Sign]]:
    if not groups or "".join(char for _, char in groups[0][:3]) != "DOT":
        return groups
    rest = groups[0][3:]
    return [rest, *groups[1:]] if rest else groups[1:]


def _joined(groups: list[list[Sign]]) -> list[list[Sign]]:
    """The groups with a date written in parts put together: ``23 18``, ``23/18``, ``2 3 1 8``."""
    if groups and all(len(group) == 1 for group in groups):
        return [[sign for group in groups for sign in group]]
    if len(groups) > 1 and all(len(group) == 2 and _is_date(group) for group in groups[-2:]):
        return [*groups[:-2], groups[-2] + groups[-1]]
    return groups


def _date_part(text: str, group: list[Sign], least_whole: int) -> list[Sign]:
    """The date out of the last group, which may be a number that runs together."""
    runs_together = len(group) >= least_whole
    date_part = group[-4:] if runs_together else group
    for place, char in date_part:
        if char.isalpha():
            words = f"the date code has the letter {char} in it; a date code is digits only, at the end of the number."
            raise _error(text, words, place, _RIGHT_WHERE_NONE)
    if len(date_part) not in (3, 4):
        place = date_part[4][0] if len(date_part) > 4 else len(text)
        counted = "one sign" if len(date_part) == 1 else f"{len(date_part)} signs"
        words = f"the date code has {counted}; it is four digits (three before July 2000)."
        raise _error(text, words, place, f"{RIGHT} Write ? for a digit that cannot be read: ??18.")
    return date_part


def _is_date(group: list[Sign]) -> bool:
    return all(char.isdigit() or char == UNREAD for _, char in group)


def _error(text: str, words: str, position: int, right: str = RIGHT) -> DateCodeError:
    shown = text if len(text) <= _SHOWN_AT_MOST else f"{text[:_SHOWN_AT_MOST]}..."
    where = f", character {position + 1}" if position < len(text) else ""
    return DateCodeError(f'"{shown}"{where}: {words}', right, position=position)
