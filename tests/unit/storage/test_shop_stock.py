"""The shop's own stock: a file that is written whole, read when it changes, and never answered by when it is broken."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.errors import TiremapError
from tiremap.model.stock import RepairUnit
from tiremap.resources import shop_stock_path
from tiremap.storage.shop_stock import put_away_stock, write_stock
from tiremap.workshop.stock import house_stock, shop_stock, stock_in_use


def with_units(*units: RepairUnit, **fields):
    return house_stock().model_copy(update={"units": units, "source": 'the maker\'s "2026" chart', **fields})


OBLONG = RepairUnit(
    stem_mm=4.0, head_length_mm=60.0, head_width_mm=35.0, head_along="across", stem_length_mm=42.5, mass_g=11.0
)


def test_a_stock_read_back_is_the_one_written():
    stock = with_units(OBLONG, RepairUnit(stem_mm=8.0, head_length_mm=70.0, head_width_mm=50.0, head_along="across"))
    write_stock(stock)
    assert shop_stock() == stock
    assert stock_in_use() == (stock, "")


def test_a_job_is_answered_by_the_shop_s_own_stock_at_once_and_by_the_placeholder_after_it_is_put_away():
    job = bench_job(crown_injury())
    assert assess(job).injuries[0].unit.head_length_mm == 40.0
    write_stock(with_units(OBLONG))
    assert assess(job).injuries[0].unit == OBLONG
    put_away_stock()
    assert shop_stock() is None and assess(job).stock == house_stock()
    put_away_stock()  # nothing is there: nothing happens


def test_what_stood_there_before_stays_beside_it():
    write_stock(with_units(OBLONG))
    before = shop_stock_path().read_bytes()
    write_stock(house_stock())
    assert shop_stock_path().with_name("stock.toml~").read_bytes() == before


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("units = [", "not readable TOML"),
        ("\xff".encode("latin-1"), "not readable TOML"),
        ('cutter = "equals the stem"', "source"),
    ],
)
def test_a_broken_stock_answers_nothing_and_names_file_and_reason(text, says):
    path = shop_stock_path()
    path.parent.mkdir(parents=True)
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    found = assess(bench_job(crown_injury()))
    assert found.answer == "measure_first"
    [reason] = found.reasons
    assert reason.code == "stock_unreadable" and says in reason.says and str(path) in reason.says
    assert found.injuries[0].unit is not None  # drawn all the same
    with pytest.raises(TiremapError):
        shop_stock()


def test_heads_that_shrink_are_refused_and_nothing_is_written():
    shrinking = with_units(RepairUnit(stem_mm=4.0, head_length_mm=40.0), RepairUnit(stem_mm=6.0, head_length_mm=30.0))
    with pytest.raises(TiremapError, match="smaller head"):
        write_stock(shrinking)
    assert shop_stock() is None


def test_a_folder_in_its_place_is_no_stock():
    shop_stock_path().mkdir(parents=True)
    assert assess(bench_job(crown_injury())).reasons[0].code == "stock_unreadable"


def test_a_settings_folder_that_cannot_be_made_or_changed_is_told():
    shop_stock_path().parent.write_text("a file where the folder would be")
    with pytest.raises(TiremapError, match="cannot be made"):
        write_stock(house_stock())
    with pytest.raises(TiremapError, match="cannot be put away"):
        put_away_stock()
