"""The small wrong changes themselves: each is there once, can be run, and is told apart wherever its line moves."""

from types import FunctionType

import pytest

from tests.mutation.mutants import mutants_of
from tests.mutation.outcome import KILLED, SURVIVED, Kept, Outcome
from tests.mutation.warm import take_over

SMALL = """
def least(values: list[int], most=1):
    if 0 < len(values) <= most:
        return min(values)
    most += 1
    return abs(most) if values else None
"""


def test_every_change_of_a_small_module_is_made_once_and_can_be_run():
    mutants = list(mutants_of("rules/small.py", SMALL))
    changed = {(each.was, each.now) for each in mutants}
    for was, now in [
        ("1", "2"), ("1", "0"), ("0", "1"), ("0", "-1"), ("most += 1", "pass"), ("min(values)", "max(values)"),
        ("return min(values)", "return None"), ("0 < len(values) <= most", "0 <= len(values) <= most"),
        ("0 < len(values) <= most", "0 < len(values) < most"), ("abs(most)", "most"),
        ("if 0 < len(values) <= most", "not 0 < len(values) <= most"),
        ("abs(most) if values else None", "None if values else abs(most)"),
    ]:
        assert (was, now) in changed
    assert len({each.key for each in mutants}) == len(mutants)
    assert all(each.within == "least" for each in mutants)
    for each in mutants:
        compile(each.tree(), "small.py", "exec")


def test_annotations_and_texts_are_left_alone():
    text = 'def said(at: "int | 3") -> "1 < 2":\n    """1 + 1"""\n    x: int\n'
    assert list(mutants_of("rules/small.py", text)) == []


def test_a_statement_s_lines_are_its_own_and_of_a_condition_those_before_its_body():
    lines = {each.was: each.lines for each in mutants_of("rules/small.py", SMALL)}
    assert (lines["0 < len(values) <= most"], lines["most += 1"]) == ((3, 3), (5, 5))


@pytest.mark.parametrize(("was", "now", "gives"), [("min(values)", "max(values)", 5), ("1", "2", 3), ("1", "0", None)])
def test_a_function_at_work_takes_over_the_changed_code_and_defaults(was, now, gives):
    """Changed are: which of two is given; how many values it takes, 1 by itself; that default lowered."""
    mutant = next(each for each in mutants_of("rules/small.py", SMALL) if (each.was, each.now) == (was, now))
    live, new = ({}, {})
    exec(compile(SMALL, "small.py", "exec"), live)
    exec(compile(mutant.tree(), "small.py", "exec"), new)
    at_work: FunctionType = live["least"]
    assert take_over(at_work, new["least"])
    assert not take_over(at_work, new["least"])
    assert at_work([3, 5], 2) == (5 if gives == 5 else 3)
    assert at_work.__defaults__ == new["least"].__defaults__


def test_what_was_found_is_kept_for_the_same_module_and_survivors_are_tried_again(tmp_path):
    one, other = list(mutants_of("rules/small.py", SMALL))[:2]
    kept = Kept(tmp_path / "deep" / "found.jsonl")
    kept.keep(one, Outcome(KILLED, "a test"))
    kept.keep(other, Outcome(SURVIVED))
    again = Kept(kept.path)
    assert (again.of(one), again.of(other)) == (Outcome(KILLED, "a test"), None)
    moved = next(each for each in mutants_of("rules/small.py", SMALL + "\n\n") if each.key == one.key)
    assert again.of(moved) is None
