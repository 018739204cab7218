"""Where the shop's own rule set is looser than its parent, every tire is told so; a published set says nothing."""

from dataclasses import replace

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.shop_set import looser_than_parent, shop_set

JAPAN = rule_set_named("japan")
COUNT = JAPAN.repair_counts[0]
COPY = JAPAN.model_copy(update={"name": "our_shop", "parent": "japan"})
ONE_MORE = COPY.model_copy(
    update={"repair_counts": (COUNT.model_copy(update={"value": COUNT.value + 1}), *JAPAN.repair_counts[1:])}
)


def cautions(rule_set):
    case = case_of(assess(bench_job(crown_injury(), rule_set="japan")))
    return shop_set(replace(case, rule_set=rule_set))


def test_a_published_set_and_a_copy_nobody_changed_say_nothing():
    for rule_set in (JAPAN, COPY):
        assert (cautions(rule_set), looser_than_parent(rule_set)) == ([], ())


def test_each_limit_that_is_looser_is_a_caution_with_both_sets_in_its_source():
    (says,) = looser_than_parent(ONE_MORE)
    assert says.startswith("Number of repairs (passenger, standard tires;")
    assert says.endswith(": at most 3 repairs here, at most 2 repairs under Japan.")
    (caution,) = cautions(ONE_MORE)
    assert (caution.code, caution.level, caution.subject) == ("looser_than_parent", "caution", ())
    assert caution.says == f"Looser than the set it was copied from. {says}"
    assert caution.source == "the shop's own rule set our_shop, compared limit by limit with japan"
