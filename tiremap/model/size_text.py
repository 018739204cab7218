"""The typed text of a size code, read from left to right with the place of every character kept.

Spaces count for nothing, letters for their capitals, a decimal comma for a point, and the signs people's
keyboards put in for ``x`` and ``-`` for those; an error still names the place in the text as typed.
"""

import re

from tiremap.errors import TiremapError
from tiremap.model.wording import in_short
from tiremap.resources import read_toml

RIGHT = "A right one looks like 205/55R16 91V, LT245/75R16 121/118S, 225/65R16C or 31x10.50R15LT."

_STANDS_FOR = {",": ".", "×": "X", "✕": "X", "\N{EN DASH}": "-", "\N{MINUS SIGN}": "-", "\N{NON-BREAKING HYPHEN}": "-"}


class SizeCodeError(TiremapError):
    """A size code that cannot be read.

    ``position`` is the index into the text as typed (its length where something is missing at the end).
    ``incomplete``: all is well so far and more may follow; ``hint`` then says what comes next.
    ``other_family``: a real kind of size that this program does not compute; its dimensions may be typed instead.
    ``understood``: the parts read before the error, in words.
    """

    def __init__(
        self,
        what: str,
        right: str = RIGHT,
        *,
        position: int,
        incomplete: bool = False,
        other_family: bool = False,
        hint: str = "",
        understood: tuple[str, ...] = (),
    ) -> None:
        super().__init__(what, right)
        self.position = position
        self.incomplete = incomplete
        self.other_family = other_family
        self.hint = hint
        self.understood = understood


class SizeText:
    """A cursor over the typed text. ``taken`` collects in words what has been read."""

    def __init__(self, text: str) -> None:
        kept = [(place, _plain(char)) for place, char in enumerate(text) if not char.isspace()]
        self.text = text
        self.rest_of = "".join(char for _, char in kept)
        self.places = [place for place, _ in kept]
        self.at = 0
        self.taken: list[str] = []

    @property
    def rest(self) -> str:
        """What has not been read yet, without spaces, in capitals."""
        return self.rest_of[self.at :]

    @property
    def at_end(self) -> bool:
        """Whether everything has been read."""
        return self.at == len(self.rest_of)

    def sees(self, pattern: str) -> re.Match[str] | None:
        """The match of a pattern at the cursor, which stays where it is."""
        return re.match(pattern, self.rest, re.ASCII)

    def take(self, pattern: str) -> str | None:
        """The text matched by a pattern at the cursor, which moves past it; ``None`` where it does not match."""
        match = self.sees(pattern)
        if match is None:
            return None
        self.at += match.end()
        return match.group()

    def error(self, words: str, *, at: int | None = None, right: str = RIGHT) -> SizeCodeError:
        """A mistake at a place of the squeezed text (the cursor's, unless given)."""
        position = self._typed_place(self.at if at is None else at)
        what = f'"{in_short(self.text)}", character {position + 1}: {words}'
        return SizeCodeError(what, right, position=position, understood=tuple(self.taken))

    def missing(self, hint: str) -> SizeCodeError:
        """The text ends too early; ``hint`` says what comes next."""
        what = f'"{in_short(self.text)}" ends too early. Next: {hint}.'
        position = len(self.text)
        return SizeCodeError(what, position=position, incomplete=True, hint=hint, understood=tuple(self.taken))

    def other_family(self, words: str) -> SizeCodeError:
        """A kind of size that is real but not computed here."""
        right = "Type overall diameter, section width and rim instead: they are on the tire or in its maker's table."
        what = f'"{in_short(self.text)}": {words}'
        error = SizeCodeError(what, right, position=self._typed_place(0), other_family=True)
        error.understood = tuple(self.taken)
        return error

    def whole_number(self, name: str, bounds: list[int], unit: str, hint: str) -> int:
        """A whole number within bounds. One that ends the text and may still grow is incomplete, not wrong."""
        start = self.at
        digits = self.take(r"\d+")
        if digits is None:
            raise self.missing(hint) if self.at_end else self.error(f"the {name} is missing here; next: {hint}.")
        self.check(digits, name, bounds, unit, hint, start)
        return int(digits)

    def check(self, digits: str, name: str, bounds: list[int], unit: str, hint: str, start: int) -> None:
        """Refuse a number outside its bounds, or written with a leading zero."""
        least, greatest = bounds
        value = float(digits) if len(digits) <= 8 else float("inf")
        if digits.startswith("0"):
            raise self.error(f"the {name} cannot start with 0.", at=start)
        if value < least and self.at_end:
            self.at = start
            raise self.missing(hint)
        if not least <= value <= greatest:
            told = f"{in_short(digits)}{' ' + unit if unit else ''}"
            raise self.error(f"the {name} is {told}, outside {least} to {greatest}.", at=start)

    def _typed_place(self, at: int) -> int:
        return self.places[at] if at < len(self.places) else len(self.text)


def bounds_of(name: str) -> list[int]:
    """Least and greatest of a number in a size code (``[bounds]`` of ``size_formulas.toml``)."""
    bounds: list[int] = read_toml("dimensions", "size_formulas.toml")["bounds"][name]
    return bounds


def letters(name: str) -> str:
    """The letters that may stand at a place of a size code (``[letters]`` of ``size_formulas.toml``)."""
    return "".join(read_toml("dimensions", "size_formulas.toml")["letters"][name])


def _plain(char: str) -> str:
    if char in _STANDS_FOR:
        return _STANDS_FOR[char]
    return char.upper() if char.isascii() else char
