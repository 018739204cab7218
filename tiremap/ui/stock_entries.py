"""What is typed about the stock, read into its records; a refusal says what a right one looks like."""

import re
from itertools import pairwise
from typing import Any

from pydantic import BaseModel

from tiremap.errors import TiremapError
from tiremap.model.measures import LengthUnit, in_mm
from tiremap.model.stock import RepairUnit
from tiremap.model.typed_measures import read_length
from tiremap.ui.language import tr
from tiremap.ui.wording import mm_as, number

_MASS = re.compile(r"(\d{1,5}(?:[.,]\d{0,3})?)\s*g?", re.ASCII)


def size_entry(text: str, unit: LengthUnit, record: type[BaseModel], field: str) -> float:
    """Millimeters of a typed size; ``field`` of ``record`` says how large it may be. Raises `TiremapError`."""
    typed = read_length(text, unit)
    mm, greatest = in_mm(typed.value, typed.unit), _greatest(record, field)
    least_is_nothing = "minimum" in _bounds(record, field)
    if mm > greatest or (mm <= 0 and not least_is_nothing):
        least = "0" if least_is_nothing else tr("more than 0")
        raise TiremapError(
            tr('"{typed}" is no size here.', typed=text),
            tr("A right one is {least} and at most {greatest}.", least=least, greatest=mm_as(greatest, unit)),
        )
    return mm


def mass_entry(text: str) -> float:
    """Grams typed for a whole unit. Raises `TiremapError`."""
    found, greatest = _MASS.fullmatch(text.strip()), _greatest(RepairUnit, "mass_g")
    grams = float(found[1].replace(",", ".")) if found else 0.0
    if not 0 < grams <= greatest:
        right = tr("Grams, more than 0 and at most {greatest}, such as 12.5.", greatest=number(greatest))
        raise TiremapError(tr('"{typed}" is no mass here.', typed=text), right)
    return grams


def units_in_order(units: list[RepairUnit], shown_in: LengthUnit) -> tuple[RepairUnit, ...]:
    """The units by growing stem. Raises `TiremapError` where two have one stem, or a thicker stem a smaller head."""
    if not units:
        raise TiremapError(tr("There is no unit in the stock."), tr("Enter at least one: its stem and its head."))
    ordered = tuple(sorted(units, key=lambda each: each.stem_mm))
    for thin, thick in pairwise(ordered):
        thinner, thicker = mm_as(thin.stem_mm, shown_in), mm_as(thick.stem_mm, shown_in)
        if thin.stem_mm == thick.stem_mm:
            raise TiremapError(
                tr("Two units have a stem of {thicker}.", thicker=thicker), tr("Keep the one the shop fits.")
            )
        if any(more < less for less, more in zip(thin.reach_mm, thick.reach_mm, strict=True)):
            raise TiremapError(
                tr(
                    "The {thicker} stem has a smaller head than the {thinner} stem, across or around.",
                    thicker=thicker,
                    thinner=thinner,
                ),
                tr("A thicker stem never has a smaller head, so that a hole takes the smallest head that fills it."),
            )
    return ordered


def _greatest(record: type[BaseModel], field: str) -> float:
    return _bounds(record, field)["maximum"]


def _bounds(record: type[BaseModel], field: str) -> dict[str, Any]:
    """The bounds of a number as the record itself states them."""
    entry = record.model_json_schema()["properties"][field]
    return entry["anyOf"][0] if "anyOf" in entry else entry
