"""A stock whose heads could mislead is refused: a thicker stem never has a smaller head."""

import pytest
from pydantic import ValidationError

from tiremap.model.stock import RepairUnit, Stock
from tiremap.workshop.stock import house_stock


def stock_of(*units: RepairUnit) -> Stock:
    return Stock.model_validate(house_stock().model_copy(update={"units": units}).model_dump())


def test_the_longer_side_of_a_head_is_its_length():
    with pytest.raises(ValidationError, match="head_length_mm is the longer side"):
        RepairUnit(stem_mm=6.0, head_length_mm=40.0, head_width_mm=50.0)


def test_units_grow_by_their_stems():
    thin, thick = RepairUnit(stem_mm=4.0, head_length_mm=40.0), RepairUnit(stem_mm=6.0, head_length_mm=50.0)
    assert stock_of(thin, thick).units == (thin, thick)
    for wrong in ((thick, thin), (thin, thin)):
        with pytest.raises(ValidationError, match="by growing stem"):
            stock_of(*wrong)


@pytest.mark.parametrize(
    "smaller",
    [
        RepairUnit(stem_mm=8.0, head_length_mm=45.0),
        RepairUnit(stem_mm=8.0, head_length_mm=70.0, head_width_mm=40.0, head_along="around"),
    ],
    ids=["all_around", "across"],
)
def test_a_thicker_stem_has_no_smaller_head_in_any_direction(smaller):
    with pytest.raises(ValidationError, match=r"the 8.0 mm stem has a smaller head than the 6.0 mm stem"):
        stock_of(RepairUnit(stem_mm=6.0, head_length_mm=50.0), smaller)
