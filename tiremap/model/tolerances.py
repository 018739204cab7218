"""How far a measurement may be off: its own tolerance if it has one, else the bench's usual figure.

Lengths answer in mm, angles in degrees; what was read decides the table, how it was taken the row. A way of measuring
that a table does not list is taken as its coarsest row, never as exact.
"""

from tiremap.model.measures import Around, BeadToes, HoleSize, Lean, Length, Taken, in_mm
from tiremap.model.units import degrees
from tiremap.resources import read_toml

Ends = tuple[float, float]
"""How far below and above the stated value the true one may lie."""


def usual_tolerance(what: str, how: str) -> Ends:
    """The bench's figure for a reading of ``what`` (a table of ``tolerances.toml``) taken by ``how``; mm or degrees."""
    if how == "exact":
        return 0.0, 0.0
    table = read_toml("dimensions", "tolerances.toml")[what]
    minus, plus = table.get(how) or max(table.values(), key=sum)
    return minus, plus


def length_ends(what: str, taken: Length | BeadToes | Taken, unit: str) -> Ends:
    """The tolerance of a length in mm; ``unit`` is the measurement's own."""
    minus, plus = usual_tolerance(what, taken.how)
    return (
        minus if taken.minus is None else in_mm(taken.minus, unit),
        plus if taken.plus is None else in_mm(taken.plus, unit),
    )


def length_range(what: str, length: Length) -> tuple[float, float, float]:
    """Least, stated and greatest value of a length, mm; never below 0."""
    minus, plus = length_ends(what, length, length.unit)
    return max(0.0, length.mm - minus), length.mm, length.mm + plus


def hole_range(size: HoleSize) -> tuple[float, float, float]:
    """Least, stated and greatest diameter of a hole, mm. Two gauges are its ends, unless its own tolerance goes
    further."""
    if size.stops is None:
        return length_range("hole", size)
    own_minus, own_plus = (in_mm(own or 0.0, size.unit) for own in (size.minus, size.plus))
    return max(0.0, size.mm - own_minus), size.mm, max(in_mm(size.stops, size.unit), size.mm + own_plus)


def lean_range(lean: Lean) -> tuple[float, float, float]:
    """Least, stated and greatest lean, degrees."""
    minus, plus = usual_tolerance("lean", lean.how)
    low = lean.value - (minus if lean.minus is None else lean.minus)
    return low, lean.value, lean.value + (plus if lean.plus is None else lean.plus)


def around_range(around: Around, tread_radius_mm: float) -> tuple[float, float, float]:
    """Least, stated and greatest angle from the datum, degrees, not wrapped. A tape is read on the tread."""
    per_unit = _degrees_per_unit(around, tread_radius_mm)
    stated = around.value * per_unit
    if around.unit in ("mm", "in"):
        usual = [end * _degrees_per_mm(tread_radius_mm) for end in usual_tolerance("around_mm", around.how)]
    else:
        usual = list(usual_tolerance("around_deg", around.how))
    minus = usual[0] if around.minus is None else around.minus * per_unit
    plus = usual[1] if around.plus is None else around.plus * per_unit
    return stated - minus, stated, stated + plus


def _degrees_per_unit(around: Around, tread_radius_mm: float) -> float:
    if around.unit == "deg":
        return 1.0
    if around.unit == "h":
        return 360.0 / 12.0
    return in_mm(1.0, around.unit) * _degrees_per_mm(tread_radius_mm)


def _degrees_per_mm(tread_radius_mm: float) -> float:
    return degrees(1.0 / tread_radius_mm)
