"""The shop's own stock of repair units as a file in the settings folder: written, and put away again."""

import json

from tiremap.errors import TiremapError
from tiremap.model.stock import RepairUnit, Stock
from tiremap.resources import shop_stock_path
from tiremap.storage.checked_save import save_checked
from tiremap.workshop.stock import stock_from


def write_stock(stock: Stock) -> None:
    """Keep a stock as the shop's own; what stood there before stays beside it as one previous generation.

    Raises `TiremapError` for a stock that cannot be used or a file that cannot be written.
    """
    stock_from(stock.model_dump(), "the entries")  # a changed copy is checked anew
    path = shop_stock_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise TiremapError(f"The settings folder {path.parent} cannot be made: {error.strerror}.") from None
    save_checked(path, stock_text(stock).encode())


def put_away_stock() -> None:
    """Go back to the stock that ships; the shop's own stays beside its place under another name."""
    path = shop_stock_path()
    try:
        path.replace(path.with_name(f"{path.name}~"))
    except FileNotFoundError:
        return
    except OSError as error:
        raise TiremapError(f"The stock {path} cannot be put away: {error.strerror}.") from None


def stock_text(stock: Stock) -> str:
    """A stock as the TOML file that holds it."""
    beyond = stock.beyond_the_head
    lines = [
        "# The repair units of this shop, mm and g. The repair-material maker's figures decide.", "",
        f"cutter = {_text(stock.cutter)}", f"source = {_text(stock.source)}", f"grade = {_text(stock.grade)}",
        f"made = [{', '.join(map(_text, stock.made))}]", "", "[beyond_the_head]",
        f"border = {beyond.border!r}", f"pre_cleaned = {beyond.pre_cleaned!r}", f"sealed = {beyond.sealed!r}",
        f"source = {_text(beyond.source)}", f"grade = {_text(beyond.grade)}",
    ]
    for unit in stock.units:
        lines += ["", "[[units]]", *_unit_lines(unit)]
    return "\n".join(lines) + "\n"


def _unit_lines(unit: RepairUnit) -> list[str]:
    entries = unit.model_dump(exclude_none=True)
    if unit.head_width_mm is None:
        entries.pop("head_along")
    return [f"{key} = {_value(value)}" for key, value in entries.items()]


def _value(value: str | float) -> str:
    return _text(value) if isinstance(value, str) else repr(float(value))


def _text(value: str) -> str:
    """A string as TOML writes it, which for these is as JSON does."""
    return json.dumps(value, ensure_ascii=False)
