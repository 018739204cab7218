"""The shop's stock of repair units, and the unit a hole takes.

Each hole takes the smallest head in stock whose stem fills its prepared size, whatever stands beside it, so the order
of injuries never matters.
"""

import os.path
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.stock import RepairUnit, Stock
from tiremap.model.toml_text import bounded_bytes, toml_from_bytes
from tiremap.model.wording import in_words
from tiremap.resources import read_toml, resource_path, shop_stock_path

SAME_SIZE = 1e-6
"""Two diameters (mm) closer than this are one cutter; absorbs inch conversion, decides nothing."""


def unit_for(stock: Stock, size_mm: float) -> RepairUnit | None:
    """The unit whose stem fills a hole of ``size_mm``, or ``None`` where no stem is thick enough."""
    return next((unit for unit in stock.units if unit.stem_mm >= size_mm - SAME_SIZE), None)


def stock_from(data: dict[str, Any], where: str) -> Stock:
    """A stock read from a TOML table. Raises `TiremapError` naming the first wrong entry of the file ``where``."""
    try:
        return Stock.model_validate(data)
    except ValidationError as error:
        fault = in_words(error, dotted=True)
        raise TiremapError(
            f"The stock in {where} cannot be used: {fault}",
            "Each unit needs stem_mm and head_length_mm, listed by growing stem, heads never shrinking; "
            f"a right one is {_A_RIGHT_ONE}.",
        ) from None


def stock_from_bytes(data: bytes, where: str) -> Stock:
    """A stock in the bytes of the TOML file ``where``. Raises `TiremapError` with the first fault."""
    return stock_from(toml_from_bytes(data, f"The stock in {where}", f"A right one is {_A_RIGHT_ONE}."), where)


@cache
def house_stock() -> Stock:
    """The stock that ships with the program: a placeholder until a shop enters its own."""
    return stock_from(read_toml("stock", "house_stock.toml"), "house_stock.toml")


def stock_in_use() -> tuple[Stock, str]:
    """The shop's own stock, or the one that ships where it has none; and why the shop's cannot be read, in words.

    With such a reason the stock is the one that ships: good enough to draw with, never to answer by.
    """
    try:
        return shop_stock() or house_stock(), ""
    except TiremapError as error:
        return house_stock(), str(error)


def shop_stock() -> Stock | None:
    """The shop's own stock, read again when its file has changed; ``None`` where it has none.

    Raises `TiremapError` with file, key and reason for one that cannot be used.
    """
    path = shop_stock_path()
    if not os.path.lexists(path):
        return None
    try:
        if not path.is_file():
            raise TiremapError(f"The stock {path} cannot be read: it is not a file.")
        file = path.stat()
        return _read_once(path, file.st_mtime_ns, file.st_size)
    except OSError as error:
        raise TiremapError(f"The stock {path} cannot be read: {error.strerror}.") from None


def stock_file_as_it_stands() -> tuple[int, int] | None:
    """Time of the last change and size of the shop's file: equal while nobody touched it."""
    try:
        file = shop_stock_path().stat()
    except OSError:
        return None
    return file.st_mtime_ns, file.st_size


@lru_cache(maxsize=4)
def _read_once(path: Path, changed_ns: int, size: int) -> Stock:
    """The stock in a file as it was last changed; a broken one is read anew each time."""
    largest = read_toml("storage.toml")["stock_file"]["largest_bytes"]
    return stock_from_bytes(bounded_bytes(path, largest, f"The stock {path}"), str(path))


_A_RIGHT_ONE = resource_path("stock", "house_stock.toml")
