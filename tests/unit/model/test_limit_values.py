"""Values of limits as the shop types them, and beside the set they were copied from."""

import pytest

from tiremap.errors import TiremapError
from tiremap.model.limit_against_parent import against_parent, looser_in, parents_value
from tiremap.model.limit_values import limit_at, number_shown, unit_shown, value_of, value_typed, with_value
from tiremap.model.rule_set import RuleSet, ZoneEdge
from tiremap.model.rule_set_file import rule_set_named, usable_rule_sets
from tiremap.model.rule_set_words import limit_lines

UK = rule_set_named("united_kingdom")
EVERY = [(each, line.key) for each in usable_rule_sets() for line in limit_lines(each)]


def own(rule_set: RuleSet, key: str, value: float) -> RuleSet:
    """The shop's own set: a copy with one value changed."""
    return with_value(rule_set.model_copy(update={"name": "our_shop", "parent": rule_set.name}), key, value)


@pytest.mark.parametrize(("rule_set", "key"), EVERY, ids=lambda each: getattr(each, "name", each))
def test_what_is_shown_of_a_limit_is_read_back_as_the_same_value(rule_set, key):
    limit = limit_at(rule_set, key)
    if value_of(limit) is None:
        with pytest.raises(TiremapError, match="no value"):
            value_typed(limit, "1")
        return
    for text in (number_shown(limit), f"{number_shown(limit)} {unit_shown(limit)}"):
        assert value_typed(limit, text) == pytest.approx(value_of(limit), abs=1e-12)
        assert type(value_typed(limit, text)) is type(value_of(limit))


@pytest.mark.parametrize(
    ("text", "value"), [("65", 0.65), ("65 %", 0.65), ("0.65", 0.65), ("0,65", 0.65), ("1 %", 0.01)]
)
def test_a_share_is_typed_in_percent_or_as_a_share(text, value):
    assert value_typed(limit_at(UK, "crown_zones.2"), text) == pytest.approx(value)


def test_a_length_is_typed_in_millimeters_or_inches():
    hole = limit_at(UK, "largest_injuries.0")
    assert [value_typed(hole, text) for text in ("5", "5 mm", "5,5", "1/4 in", "1/4")] == pytest.approx(
        [5.0, 5.0, 5.5, 6.35, 6.35]
    )


@pytest.mark.parametrize("text", ["", "wide", "-5", "nan", "inf", "5 kg", "5 6"])
@pytest.mark.parametrize("key", ["crown_zones.0", "largest_injuries.0", "second_repairs.0"])
def test_what_is_no_value_is_refused_in_words(text, key):
    with pytest.raises(TiremapError):
        value_typed(limit_at(UK, key), text)


@pytest.mark.parametrize("key", ["", "crown_zones", "crown_zones.9", "crown_zones.-1", "name.0", "heads.0", "bands.0"])
def test_a_limit_there_is_not_is_told_with_those_there_are(key):
    with pytest.raises(TiremapError, match=r"crown_zones\.0, .*second_repairs\.0"):
        limit_at(UK, key)


@pytest.mark.parametrize(("value", "stands"), [(6.0, "same"), (6.1, "looser"), (5.0, "tighter")])
def test_a_larger_hole_is_looser_and_a_smaller_one_tighter(value, stands):
    changed = own(UK, "largest_injuries.0", value)
    assert against_parent(changed, UK, "largest_injuries.0") == stands
    assert bool(looser_in(changed, UK, "largest_injuries.0")) == (stands == "looser")
    assert parents_value(changed, UK, "largest_injuries.0") == "6 mm"


@pytest.mark.parametrize(("value", "stands"), [(30.0, "tighter"), (20.0, "looser"), (25.4, "same")])
def test_an_inset_is_tighter_the_more_it_is(value, stands):
    america = rule_set_named("north_america")
    changed = own(america, "crown_zones.0", value)
    assert against_parent(changed, america, "crown_zones.0") == stands
    assert against_parent(changed, america, "crown_zones.1") == "same"


def test_only_the_changed_limit_is_called_looser():
    changed = own(own(UK, "largest_injuries.0", 6.2), "crown_zones.2", 0.6)
    stands = {line.key: against_parent(changed, UK, line.key) for line in limit_lines(changed)}
    assert {key: value for key, value in stands.items() if value != "same"} == {
        "largest_injuries.0": "looser", "crown_zones.2": "tighter",
    }


def test_what_only_chooses_the_unit_is_neither_looser_nor_tighter():
    changed = own(UK, "leans_for_one_piece.0", 15.0)
    assert against_parent(changed, UK, "leans_for_one_piece.0") == "other"


def test_a_limit_without_its_like_in_the_parent_is_not_set_beside_another():
    more = UK.model_copy(update={"parent": "united_kingdom", "tread_depths": UK.tread_depths * 2})
    assert parents_value(more, UK, "tread_depths.0") == ""
    assert against_parent(more, UK, "tread_depths.0") == "other"


def test_a_limit_without_a_value_shows_none_and_cannot_be_given_one_that_its_kind_forbids():
    whole = UK.crown_zones[0].model_copy(update={"edge": ZoneEdge(kind="whole_tread", value=0.0)})
    assert number_shown(whole) == ""
    with pytest.raises(TiremapError, match=r"largest_injuries\.0: Input should be greater than 0"):
        with_value(UK, "largest_injuries.0", -1.0)


def test_a_limit_in_another_unit_than_its_parents_is_neither_looser_nor_tighter():
    in_shares = UK.crown_zones[0].model_copy(update={
        "edge": ZoneEdge(kind="share_of_tread_width", value=0.01), "unit": "share of the tread width"
    })
    changed = UK.model_copy(update={"crown_zones": (in_shares, *UK.crown_zones[1:])})
    inset = UK.model_copy(update={"crown_zones": (UK.crown_zones[0].model_copy(update={
        "edge": ZoneEdge(kind="inset_from_tread_edge", value=5.0), "unit": "mm"
    }), *UK.crown_zones[1:])})
    assert against_parent(changed, inset, "crown_zones.0") == "other"
