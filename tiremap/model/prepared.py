"""A hole after reaming, and the repair unit it takes: foreseen from the stock until the hole has been reamed."""

from dataclasses import dataclass

from tiremap.model.stock import RepairUnit


@dataclass(frozen=True, slots=True)
class Prepared:
    """A hole after reaming, mm. ``unit`` is the one to fit at the stated size; ``None`` where the stock has none.

    ``low`` and ``high`` are the least and greatest diameter of the channel; ``stated`` is ``None`` while no size was
    entered. ``in_stock`` is false where the greatest hole finds no cutter.
    """

    low: float
    stated: float | None
    high: float
    unit: RepairUnit | None
    low_unit: RepairUnit | None
    high_unit: RepairUnit | None
    foreseen: bool
    cutters: tuple[float, ...] = ()
    """Every cutter in stock, mm, growing; empty once the hole has been reamed."""

    @property
    def in_stock(self) -> bool:
        """True where every size the hole may have finds a unit."""
        return self.high_unit is not None
