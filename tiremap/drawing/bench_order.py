"""In which order things are measured at the bench, and what is still to measure."""

from collections.abc import Iterable

from tiremap.assessment import Assessment, Needed

_ORDER = (
    "rule_set", "tire.size_code", "tire.typed_dimensions", "tire.tire_class", "injuries", "tire.tread_depth",
    "tire.tread_depth_outboard", "tire.tread_depth_central", "tire.tread_depth_inboard", "tire.tread_width",
    "tire.between_outer_grooves", "tire.belt_width", "outside", "inside", "around", "size_outside", "size_inside",
    "lean_across", "lean_around", "head_length", "checks.inspected", "checks.earlier_repairs",
)


def still_to_measure(assessment: Assessment) -> tuple[Needed, ...]:
    """What was never entered and can turn the answer, in bench order."""
    return in_bench_order(assessment.needed)


def in_bench_order(needed: Iterable[Needed]) -> tuple[Needed, ...]:
    """The same in bench order."""
    return tuple(sorted(needed, key=_place))


def to_be_measured(assessment: Assessment) -> tuple[Needed, ...]:
    """All there is to measure, in bench order: what was never entered, and what is known too coarsely.

    Nothing where it is refused: no measurement turns that.
    """
    if assessment.answer == "not_repairable":
        return ()
    words = {each.field: each.words for each in assessment.needed}
    for reason in assessment.all_reasons:
        if reason.level == "measure" and reason.settles is not None:
            words.setdefault(reason.settles.field, reason.settles.words)
    return in_bench_order(Needed(field, said) for field, said in words.items())


def _place(needed: Needed) -> int:
    part = needed.field if needed.field in _ORDER else needed.field.rpartition(".")[2]
    return _ORDER.index(part) if part in _ORDER else len(_ORDER)
