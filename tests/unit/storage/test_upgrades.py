"""Old job files are led to the newest version step by step."""

import pytest

from tiremap.errors import TiremapError
from tiremap.model.job import VERSION
from tiremap.storage.upgrades import UPGRADES, upgraded


def _width_to_tread_width(data):
    return {**{name: value for name, value in data.items() if name != "width"}, "tread_width": data["width"]}


def _tread_width_in_mm(data):
    return {**data, "tread_width": data["tread_width"] * 25.4}


STEPS = {1: _width_to_tread_width, 2: _tread_width_in_mm}


def test_an_old_file_goes_through_every_step_in_order_and_keeps_the_rest():
    old = {"version": 1, "width": 2.0, "later": "kept"}
    assert upgraded(old, STEPS, newest=3) == {"version": 3, "tread_width": 2.0 * 25.4, "later": "kept"}
    assert old == {"version": 1, "width": 2.0, "later": "kept"}


def test_a_file_in_between_goes_through_the_last_step_only():
    assert upgraded({"version": 2, "tread_width": 2.0}, STEPS, newest=3)["tread_width"] == 2.0 * 25.4


def test_a_file_of_the_newest_version_is_as_it_is():
    data = {"version": 3, "tread_width": 50.8}
    assert upgraded(data, STEPS, newest=3) == data


def test_a_newer_file_is_refused():
    with pytest.raises(TiremapError, match="version 4, and this one reads up to 3"):
        upgraded({"version": 4}, STEPS, newest=3)


def test_every_old_version_has_its_step():
    assert sorted(UPGRADES) == list(range(1, VERSION))
