"""Load range letters: how much a light truck, trailer or truck tire carries, in steps from A on."""

from tiremap.resources import read_toml


def load_range_letters() -> str:
    """The letters in use, growing."""
    letters: str = read_toml("dimensions", "classes.toml")["load_range"]["letters"]
    return letters


def is_truck_load_range(letter: str) -> bool:
    """Whether the guidance for truck and bus tires speaks of a load range, no longer the one for light trucks."""
    letters = load_range_letters()
    return letters.index(letter) >= letters.index(read_toml("dimensions", "classes.toml")["load_range"]["truck_from"])
