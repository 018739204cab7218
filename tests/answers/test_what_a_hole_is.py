"""What a hole is beside its size: cords splayed at it, a cut or a puncture."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.model.rule_set_file import rule_set_names


def levels(code: str, rule_set: str = "united_kingdom", **fields) -> tuple[str, list[str]]:
    found = assess(bench_job(crown_injury(**fields), rule_set=rule_set))
    return found.answer, [each.level for each in found.injuries[0].reasons if each.code == code]


@pytest.mark.parametrize("rule_set", rule_set_names())
def test_splayed_cords_at_a_hole_refuse_it_though_the_tire_s_own_check_is_fine(rule_set):
    answer, said = levels("cords_splayed", rule_set, cords_splayed=True)
    assert (answer, said) == ("not_repairable", ["refuse"])


def test_cords_are_not_called_sound_where_a_hole_has_them_splayed():
    found = assess(bench_job(crown_injury(cords_splayed=True)))
    (sound,) = [each.says for each in found.reasons if each.code == "condition"]
    assert "bulges" in sound
    assert "cords" not in sound


def test_only_the_hole_with_splayed_cords_is_refused():
    found = assess(bench_job(crown_injury("1", cords_splayed=True), crown_injury("2", around_deg=180.0)))
    assert [each.answer for each in found.injuries] == ["not_repairable", "repairable"]


def test_cords_nobody_looked_at_at_the_hole_ask_for_nothing_and_whole_ones_are_noted():
    assert levels("cords_splayed", cords_splayed=None) == ("repairable", [])
    assert levels("cords_splayed", cords_splayed=False) == ("repairable", ["note"])


def test_a_cut_is_a_caution_and_a_puncture_or_an_unsaid_kind_is_not():
    assert levels("cut", kind="cut") == ("repairable", ["caution"])
    assert levels("cut", kind="puncture") == ("repairable", [])
    assert levels("cut", kind=None) == ("repairable", [])
