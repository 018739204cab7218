"""Errors whose text is written for the person at the bench.

An answer about a tire is never an error: it is a reason. An error is bad input, and its text says
what was wrong, where, and what a right one looks like. Anything else is a bug and stays a plain exception.
"""


class TiremapError(Exception):
    """Bad input, told in words for the user.

    ``what`` says what was wrong and where; ``right`` says what a right one looks like (may be empty).
    """

    def __init__(self, what: str, right: str = "") -> None:
        self.what = what
        self.right = right
        super().__init__(f"{what} {right}".strip())
