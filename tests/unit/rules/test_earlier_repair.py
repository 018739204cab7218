"""Is an earlier repair a sound one, and known well enough: each thing that may be missing, and what is asked first."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tiremap.assess import assess
from tiremap.model.job import Repair
from tiremap.model.measures import Length
from tiremap.rules.earlier_repair import SOURCE
from tiremap.rules.reasons import Reason, Settles, Turns


def said(*repairs: Repair) -> list[Reason]:
    found = assess(bench_job(crown_injury(), *repairs), advise=False)
    return [each for each in found.reasons if each.code in ("improper_repair", "repair_unknown")]


@pytest.mark.parametrize(
    ("kind", "what"),
    [("plug_only", "a plug without a patch"), ("patch_only", "a patch without a stem"), ("string", "a string")],
)
def test_an_improper_one_refuses_whatever_else_is_unknown_of_it(kind, what):
    for fields in ({}, {"inside": None, "head_length": None}):
        (reason,) = said(earlier_repair(kind=kind, **fields))
        assert (reason.code, reason.level, reason.source) == ("improper_repair", "refuse", SOURCE)
        assert reason.says == f"Repair R1 is {what}: an improper earlier repair."
        assert (reason.subject, reason.turns) == (("R1",), Turns("repair.R1.kind", "the kind of repair R1"))


KIND, INSIDE, AROUND, HEAD = "of what kind", "where across", "where around the tire", "with how large a head"
NOTHING = Length(value=0.0, how="exact")


@pytest.mark.parametrize(
    ("fields", "unknown"),
    [
        ({"kind": "unknown"}, [("kind", KIND)]),
        ({"inside": None}, [("inside", INSIDE)]),
        ({"around_deg": None}, [("around", AROUND)]),
        ({"head_length": None}, [("head_length", HEAD)]),
        ({"head_length": NOTHING}, [("head_length", HEAD)]),
        ({"kind": "unknown", "head_length": None}, [("kind", KIND), ("head_length", HEAD)]),
        ({"inside": None, "around_deg": None, "head_length": NOTHING},
         [("inside", INSIDE), ("around", AROUND), ("head_length", HEAD)]),
        ({"kind": "unknown", "inside": None, "around_deg": None, "head_length": None},
         [("kind", KIND), ("inside", INSIDE), ("around", AROUND), ("head_length", HEAD)]),
    ],
)
def test_what_is_unknown_is_asked_in_bench_order_the_first_of_it_first(fields, unknown):
    (reason,) = said(earlier_repair(**fields))
    asks = tuple((f"repair.R1.{field}", f"repair R1: {words}") for field, words in unknown)
    assert (reason.code, reason.level, reason.source) == ("repair_unknown", "measure", SOURCE)
    listed = ", ".join(words for _, words in unknown)
    assert reason.says == f"Repair R1 is not known well enough. Look {listed} it is."
    assert (reason.asks, reason.settles, reason.subject) == (asks, Settles(*asks[0], ""), ("R1",))


@pytest.mark.parametrize("head_mm", [0.5, 1.0, 40.0])
def test_a_sound_one_with_any_head_at_all_asks_for_nothing(head_mm):
    assert said(earlier_repair(head_length=Length(value=head_mm, how="exact"))) == []


def test_each_of_two_is_told_by_itself():
    both = said(earlier_repair("R1", kind="string"), earlier_repair("R2", around_deg=90.0, kind="unknown"))
    assert [(each.code, each.subject) for each in both] == [("improper_repair", ("R1",)), ("repair_unknown", ("R2",))]
