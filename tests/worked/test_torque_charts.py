"""Refitting a wheel: stress areas and proof loads of the standards, the charts' figures, the orders."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tiremap.cli import run
from tiremap.errors import TiremapError
from tiremap.model.after_repair import Refit, Torque
from tiremap.model.pressures import NM_PER_FT_LB, newton_meters
from tiremap.workshop.preload import proof_load_kn, pull_kn, stud_classes
from tiremap.workshop.refit import refit_guide
from tiremap.workshop.thread import read_thread
from tiremap.workshop.tightening_order import nut_counts, tightening_order

KEYS = ["nuts", "order", "second_pass", "torque_nm", "torque_ft_lb", "torque_basis", "preload_kn", "cautions"]


def guide(torque: float | None = None, unit: str = "N.m", **fields):
    return refit_guide(Refit(torque=None if torque is None else Torque(value=torque, unit=unit), **fields))


@pytest.mark.parametrize(
    ("thread", "area"),
    [("M10x1.25", 61.2), ("M12x1.25", 92.1), ("M12x1.5", 88.1), ("M14x1.5", 124.6), ("M18x1.5", 216), ("M22x1.5", 333),
     ("M12x1.75", 84.3), ("M14x2", 115)],
)
def test_stress_areas_are_those_of_the_standard(thread, area):
    """ISO 898-1, nominal stress areas of fine and coarse threads, mm2 (from memory)."""
    assert read_thread(thread).stress_area_mm2 == pytest.approx(area, rel=0.004)


@pytest.mark.parametrize(("thread", "square_inches"), [("1/2-20", 0.1599), ("9/16-18", 0.203), ("7/16-20", 0.1187)])
def test_stress_areas_of_inch_threads_are_those_of_the_standard(thread, square_inches):
    """ASME B1.1, UNF (from memory)."""
    assert read_thread(thread).stress_area_mm2 == pytest.approx(square_inches * 25.4**2, rel=0.002)


@pytest.mark.parametrize(
    ("thread", "stud_class", "kn"),
    [("M12x1.5", "8.8", 51.1), ("M12x1.5", "10.9", 73.1), ("M12x1.25", "10.9", 76.4), ("M20x1.5", "8.8", 163)],
)
def test_proof_loads_are_those_of_the_standard(thread, stud_class, kn):
    """ISO 898-1, proof loads, fine threads, kN (from memory)."""
    assert proof_load_kn(read_thread(thread), stud_class) == pytest.approx(kn, rel=0.002)


@pytest.mark.parametrize(("torque_nm", "kn"), [(108, 45.0), (135, 56.25)])
def test_torque_over_nut_factor_and_diameter_is_the_pull(torque_nm, kn):
    """T = K d F with K 0.2 on M12."""
    assert pull_kn(torque_nm, 12.0, 0.2) == pytest.approx(kn)
    assert guide(torque_nm, thread="M12x1.5", stud_class="10.9").preload.usual_kn == pytest.approx((kn, kn))


def test_what_a_weak_stud_may_not_stand_a_strong_one_does():
    weak, strong = (guide(135, thread="M12x1.5", stud_class=each) for each in ("8.8", "10.9"))
    assert (weak.preload.stands, strong.preload.stands) == ("may_exceed", "below")
    assert weak.preload_says in weak.cautions and strong.preload_says not in strong.cautions
    assert guide(400, thread="M12x1.5", stud_class="8.8").preload.stands == "exceeds"


@pytest.mark.parametrize(
    ("missing", "fields"),
    [("property class", {"thread": "M12x1.5"}), ("thread", {"stud_class": "10.9"}),
     ("pitch", {"thread": "M12", "stud_class": "10.9"}), ("class 9.8", {"thread": "M18x1.5", "stud_class": "9.8"})],
)
def test_a_stud_not_known_whole_cannot_be_told(missing, fields):
    told = guide(110, **fields)
    assert told.preload is None and "cannot be told" in told.preload_says and missing in told.preload_says


@pytest.mark.parametrize(
    ("thread", "least", "greatest", "in_manuals"),
    [("M12x1.5", 95, 108, "135 N.m"), ("M14x1.5", 115, 122, "163 to 217")],
)
def test_with_a_thread_alone_the_charts_give_a_range_and_the_manuals_stand_against_it(
    thread, least, greatest, in_manuals
):
    """Shop charts: 70 to 80 and 85 to 90 ft-lb; owner's manuals of three makers."""
    told = guide(nuts=5, thread=thread)
    assert [round(each) for each in told.torque_nm] == [least, greatest] and told.torque_basis == "chart"
    assert "not a setting" in told.torque_says and "Look up" in told.cautions[0]
    assert any(in_manuals in each for each in told.cautions) and told.rule_of_thumb == ""


def test_a_thread_without_its_pitch_takes_the_charts_of_every_pitch():
    assert guide(thread="M14").torque_nm == pytest.approx((80 * NM_PER_FT_LB, 90 * NM_PER_FT_LB))


def test_the_vehicle_s_figure_stands_alone():
    told = guide(110, nuts=5, thread="M12x1.5", torque_source="manual, page 212")
    assert told.torque_nm == (110.0, 110.0) and told.torque_basis == "vehicle"
    assert "page 212" in told.torque_says and not any("chart" in each for each in told.cautions)


def test_the_rule_of_thumb_stands_only_beside_a_vehicle_s_figure_and_never_for_a_truck_s_stud():
    """20 ft-lb a nut: a shop rule without source; 5 nuts 100 ft-lb."""
    assert "agrees" in guide(135, nuts=5, thread="M12x1.5").rule_of_thumb
    assert "differs by 20 N.m (15 ft-lb)" in guide(85, "ft-lb", nuts=5, thread="M12x1.5").rule_of_thumb
    for fields in ({"thread": "M18x1.5"}, {"thread": "M22x1.5"}, {}):
        assert guide(135, nuts=5, **fields).rule_of_thumb == ""


@pytest.mark.parametrize("nuts", nut_counts())
def test_the_order_comes_to_every_nut_once_and_never_to_a_neighbor_where_it_need_not(nuts):
    """Among four nuts one step to a neighbor cannot be helped."""
    order = tightening_order(nuts)
    assert sorted(order.order) == list(range(1, nuts + 1)) == list(order.second_pass)
    steps = [abs(a - b) for a, b in zip(order.order, order.order[1:], strict=False)]
    assert sum(min(step, nuts - step) == 1 for step in steps) == (1 if nuts == 4 else 0)


@pytest.mark.parametrize(
    ("nuts", "order"),
    [(4, "1-3-2-4"), (5, "1-3-5-2-4"), (6, "1-4-2-5-3-6"), (8, "1-5-3-7-2-6-4-8"), (10, "1-6-3-8-5-10-2-7-4-9")],
)
def test_the_orders_are_those_in_use(nuts, order):
    """4: published advice; the others common practice, no source."""
    assert "-".join(map(str, tightening_order(nuts).order)) == order


TORQUES = st.floats(1.0, 1500.0)


@given(TORQUES, TORQUES)
def test_more_torque_is_more_pull_and_a_larger_nut_factor_less(one, other):
    least, greatest = sorted((one, other))
    assert pull_kn(least, 12.0, 0.2) <= pull_kn(greatest, 12.0, 0.2)
    assert pull_kn(least, 12.0, 0.25) < pull_kn(least, 12.0, 0.16)
    low, high = (guide(each, thread="M12x1.5", stud_class="10.9").preload for each in (least, greatest))
    assert low.low_kn <= high.low_kn and low.high_kn <= high.high_kn and low.low_kn < low.usual_kn[0] < low.high_kn


@given(TORQUES)
def test_a_torque_comes_back_from_the_other_unit(value):
    [told, _] = guide(value, "ft-lb").as_record()["torque_ft_lb"]
    assert told == pytest.approx(value)
    assert newton_meters(Torque(value=value, unit="ft-lb")) == pytest.approx(value * 1.355818, rel=1e-6)


@pytest.mark.parametrize(
    ("typed", "name"),
    [("m12 x 1,5", "M12x1.5"), ("M14X1.50", "M14x1.5"), ("M 12", "M12"), ("1/2-20 UNF", "1/2-20"), ("9/16", "9/16")],
)
def test_threads_are_read_as_people_write_them(typed, name):
    assert read_thread(typed).name == name


@pytest.mark.parametrize("typed", ["", "12", "M12x0", "M12x9", "M99x2", "1/0-20", "1/2-0", "M3x0.5", "3/2"])
def test_what_is_no_thread_of_a_wheel_is_told_with_a_right_one(typed):
    with pytest.raises(TiremapError, match=r"M12x1\.5"):
        read_thread(typed)


def test_the_command_prints_the_keys_it_promises(capsys):
    arguments = ["refit", "--nuts", "5", "--thread", "M12x1.5", "--stud-class", "10.9", "--torque-nm", "108", "--json"]
    assert run(arguments) == 0
    record = json.loads(capsys.readouterr().out)
    assert list(record) == KEYS
    assert record["torque_nm"] == [108, 108] and record["torque_basis"] == "vehicle"
    least, greatest = record["preload_kn"]
    assert least < 45 < greatest and record["order"] == [1, 3, 5, 2, 4]
    assert run(["refit", "--nuts", "4", "--json"]) == 0
    record = json.loads(capsys.readouterr().out)
    assert list(record) == KEYS and record["torque_nm"] is record["torque_basis"] is record["preload_kn"] is None


def test_the_command_says_it_in_words_with_the_order(capsys):
    assert run(["refit", "--nuts", "6", "--thread", "M14x1.5"]) == 0
    told = capsys.readouterr().out
    assert "1-4-2-5-3-6" in told and "not a setting" in told and "80 to 160 km" in told


@pytest.mark.parametrize(
    ("arguments", "right"),
    [(["--nuts", "7"], "4, 5, 6, 8, 10"), (["--nuts", "5", "--thread", "12"], "M12x1.5"),
     (["--nuts", "5", "--stud-class", "10"], "10.9"), (["--nuts", "5", "--torque-nm", "-4"], "110"),
     (["--nuts", "5", "--torque-nm", "nan"], "110")],
)
def test_bad_input_of_the_command_is_told_with_what_a_right_one_looks_like(arguments, right, capsys):
    assert run(["refit", *arguments]) == 2
    assert right in capsys.readouterr().err


def test_there_is_a_proof_load_for_every_class_offered():
    assert all(proof_load_kn(read_thread("M12x1.5"), each) for each in stud_classes())
