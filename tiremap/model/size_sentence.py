"""One line under the size field that says what has been understood so far, and what comes next."""

from tiremap.model.load_and_speed import load_kg, speed_kmh, zr_least_kmh
from tiremap.model.size_code import SizeCode, read_in_words
from tiremap.model.size_text import SizeCodeError


def understood(text: str) -> str:
    """One sentence: what the code says, or what to type next, or what is wrong with it. Never raises."""
    try:
        size, words = read_in_words(text)
    except SizeCodeError as error:
        if not error.incomplete:
            return str(error)
        return "; next: ".join(filter(None, [", ".join(error.understood), error.hint]))
    kind = ["van (C)"] if size.is_c else ["light truck"] if size.is_lt and "light truck" not in words else []
    marks = ["reinforced"] if size.reinforced else []
    marks += [f"load range {size.load_range}"] if size.load_range else []
    return "; ".join(filter(None, [", ".join([*words, *kind, *marks]), _load(size), _speed(size)]))


def _load(size: SizeCode) -> str:
    told = [f"load {index} = {_or_unknown(load_kg(index), 'kg')}" for index in size.load_indices]
    return f"{told[0]} single, {told[1]} dual" if len(told) == 2 else "".join(told)


def _speed(size: SizeCode) -> str:
    if size.speed_symbol is None:
        return f"ZR: {zr_least_kmh()} km/h or more" if size.inside_speed_letter == "Z" else ""
    reached = _or_unknown(speed_kmh(size.speed_symbol), "km/h")
    if size.speed_beyond:
        return f"speed ({size.speed_symbol}): more than {reached}"
    return f"speed {size.speed_symbol} = {reached}"


def _or_unknown(value: int | None, unit: str) -> str:
    return "not in the table" if value is None else f"{value} {unit}"
