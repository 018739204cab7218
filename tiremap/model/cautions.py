"""The cautions that stand with every answer, on screen and on paper."""

from tiremap.resources import read_toml


def short_caution() -> str:
    """The one line that fits beside a drawing."""
    caution: str = read_toml("help", "cautions.toml")["on_the_drawing"]
    return caution


def full_cautions() -> tuple[str, ...]:
    """Every caution, a sentence or two each."""
    return tuple(caution["says"] for caution in read_toml("help", "cautions.toml")["caution"])
