"""Where a reason leads: to what must be measured, or to the entry that may be wrong."""

from tiremap.rules.reasons import Reason, Settles, Turns

SETTLES = Settles("tire.tread_width", "the tread width", "mm")
TURNS = Turns("injury.1.outside", "the place", "mm", stated=80.0, at_most=40.0)


def reason(**fields) -> Reason:
    return Reason(code="place", level="measure", says="", source="", **fields)


def test_a_reason_leads_to_the_field_to_measure_else_to_the_one_to_check():
    assert reason(settles=SETTLES).leads_to == "tire.tread_width"
    assert reason(turns=TURNS).leads_to == "injury.1.outside"
    assert reason(settles=SETTLES, turns=TURNS).leads_to == "tire.tread_width"
    assert reason().leads_to is None
