"""The cautions that stand with every answer, on screen and on paper."""

from tiremap.resources import read_toml


def short_caution() -> str:
    """The one line that fits beside a drawing."""
    return read_toml("help", "cautions.toml")["short"]


def full_cautions() -> tuple[str, ...]:
    """Every caution, a sentence each."""
    return tuple(read_toml("help", "cautions.toml")["full"])
