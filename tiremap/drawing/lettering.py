"""How large words are: cap heights from the style sheet, and the box a text takes, in paper mm.

The box is estimated from letter classes, a little large, so that no font has to be loaded to lay labels.
"""

from functools import lru_cache
from typing import Any

from tiremap.drawing.scene import TypeSize
from tiremap.resources import read_toml


def style(name: str) -> dict[str, Any]:
    """One entry of the style sheet."""
    entry: dict[str, Any] = read_toml("drawing", "styles.toml")["styles"][name]
    return entry


def cap_height(name: str, type_size: TypeSize) -> float:
    """Cap height of a style's text, paper mm."""
    cap: float = read_toml("drawing", "styles.toml")["text"][type_size][style(name)["text"]]
    return cap


@lru_cache(maxsize=2048)
def text_box(text: str, name: str, type_size: TypeSize) -> tuple[float, float]:
    """Width and height of a text in a style, paper mm, with the margin kept free around it."""
    metrics = read_toml("drawing", "styles.toml")["metrics"]
    cap = cap_height(name, type_size)
    lines = text.split("\n")
    width = max(line_width(line) for line in lines) * (1.12 if style(name).get("bold") else 1.0)
    return (width + 2 * metrics["margin"]) * cap, len(lines) * metrics["line"] * cap


@lru_cache(maxsize=2048)
def line_width(line: str) -> float:
    """Width of one line of text, in cap heights."""
    metrics = read_toml("drawing", "styles.toml")["metrics"]
    return float(sum(metrics[_width_of(letter, metrics)] for letter in line))


def _width_of(letter: str, metrics: dict[str, Any]) -> str:
    if letter in metrics["narrow_letters"]:
        return "narrow"
    if letter in metrics["wide_letters"]:
        return "wide"
    return "capital" if letter.isupper() else "other"


def broken(text: str, name: str, type_size: TypeSize, width: float) -> str:
    """The text broken at blanks into lines of at most ``width`` paper mm; a longer word stands alone."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_box(longer, name, type_size)[0] <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return "\n".join(lines)
