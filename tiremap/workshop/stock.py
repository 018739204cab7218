"""The shop's stock of repair units, and the unit a hole takes.

Each hole takes the smallest head in stock whose stem fills its prepared size, whatever stands beside it, so the order
of injuries never matters.
"""

from functools import cache
from typing import Any

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.stock import RepairUnit, Stock
from tiremap.resources import read_toml

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
        first = error.errors()[0]
        key = ".".join(str(part) for part in first["loc"]) or "units"
        raise TiremapError(
            f"The stock in {where} cannot be used: {key}: {first['msg']}.",
            "Each unit needs stem_mm and head_length_mm, listed by growing stem, heads never shrinking.",
        ) from None


@cache
def house_stock() -> Stock:
    """The stock that ships with the program: a placeholder until a shop enters its own."""
    return stock_from(read_toml("stock", "house_stock.toml"), "house_stock.toml")
