"""The prepared size of a hole and the repair unit it takes: foreseen from the stock until the hole has been reamed.

The prepared size is the smallest cutter in stock not smaller than the hole; under the hole's tolerance it is a range
between two cutters. A prepared size below a measured hole does not count: the larger does.
"""

from math import inf

from tiremap.model.prepared import Prepared
from tiremap.model.stock import Stock
from tiremap.workshop.stock import unit_for


def prepare(
    hole: tuple[float, float | None, float], reamed_to: tuple[float, float, float] | None, stock: Stock
) -> Prepared:
    """The prepared size of a hole given as least, stated and greatest diameter, mm.

    ``reamed_to`` is the cutter used, least, stated and greatest, or ``None`` until then. A hole nobody measured is
    (0, None, inf), and stays unknown after reaming: the cutter says nothing of what it did not reach.
    """
    low, stated, high = hole
    if reamed_to is not None:
        least, cutter, greatest = reamed_to
        low, high = max(low, least), max(high, greatest)
        stated = None if stated is None else max(stated, cutter)
    low_unit, high_unit = unit_for(stock, low), None if high == inf else unit_for(stock, high)
    unit = None if stated is None else unit_for(stock, stated)
    if reamed_to is not None:
        return Prepared(low, stated, high, unit, low_unit, high_unit, foreseen=False)
    return Prepared(
        low if low_unit is None else max(low, low_unit.stem_mm),
        stated if stated is None or unit is None else max(stated, unit.stem_mm),
        high if high_unit is None else max(high, high_unit.stem_mm),
        unit,
        low_unit,
        high_unit,
        foreseen=True,
        cutters=tuple(each.stem_mm for each in stock.units),
    )
