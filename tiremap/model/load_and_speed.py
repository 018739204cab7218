"""What a load index and a speed symbol stand for. Figures and source: ``resources/dimensions/load_and_speed.toml``."""

from tiremap.resources import read_toml


def load_kg(index: int) -> int | None:
    """The load in kg that a load index stands for; ``None`` where the table has no such index."""
    table = read_toml("dimensions", "load_and_speed.toml")["load_index"]
    row = index - table["first"]
    return table["kg"][row] if 0 <= row < len(table["kg"]) else None


def speed_kmh(symbol: str) -> int | None:
    """The speed in km/h that a speed symbol stands for; ``None`` for a letter that is no symbol (I, O, X, Z)."""
    return speed_symbols().get(symbol.upper())


def speed_symbols() -> dict[str, int]:
    """Every speed symbol with its speed in km/h, slowest first. Callers must not change it."""
    speeds: dict[str, int] = read_toml("dimensions", "load_and_speed.toml")["speed_symbol"]["kmh"]
    return speeds


def zr_least_kmh() -> int:
    """The speed in km/h that a ZR in the size code promises at least."""
    least: int = read_toml("dimensions", "load_and_speed.toml")["zr"]["least_kmh"]
    return least
