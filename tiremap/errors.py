"""Errors whose text is written for the person at the bench.

An answer about a tire is never an error: it is a reason. An error is bad input, and its text says
what was wrong, where, and what a right one looks like. Anything else is a bug and stays a plain exception.
"""

import unicodedata


def printable(text: str) -> str:
    """A text with the signs that do not print shown as escapes: one from a file may steer a terminal or turn a line."""
    return text if text.isprintable() else "".join(map(_sign_shown, text))


def _sign_shown(sign: str) -> str:
    shows = sign.isprintable() or sign == "\n" or unicodedata.category(sign) == "Zs"
    return sign if shows else f"\\u{ord(sign):04x}"


class TiremapError(Exception):
    """Bad input, told in words for the user.

    ``what`` says what was wrong and where; ``right`` says what a right one looks like (may be empty). What of them does
    not print is shown as an escape.
    """

    def __init__(self, what: str, right: str = "") -> None:
        self.what = printable(what)
        self.right = printable(right)
        super().__init__(f"{self.what} {self.right}".strip())
