"""In which order things are measured at the bench, and what of them is still open. No Qt here."""

from tiremap.assessment import Assessment, Needed

_ORDER = (
    "rule_set", "tire.size_code", "tire.typed_dimensions", "tire.tire_class", "injuries", "tire.tread_depth",
    "tire.tread_depth_outboard", "tire.tread_depth_central", "tire.tread_depth_inboard", "tire.tread_width",
    "tire.between_outer_grooves", "tire.belt_width", "outside", "inside", "around", "size_outside", "size_inside",
    "lean_across", "lean_around", "head_length", "checks.inspected", "checks.earlier_repairs",
)


def still_to_measure(assessment: Assessment) -> tuple[Needed, ...]:
    """What was never entered and can turn the answer, in bench order."""
    return tuple(sorted(assessment.needed, key=lambda each: _rank(each.field)))


def open_fields(assessment: Assessment) -> frozenset[str]:
    """Fields whose measurement can still turn the answer: never entered ones, and those a reason asks for anew."""
    if assessment.answer == "not_repairable":
        return frozenset()
    fields = {each.field for each in assessment.needed}
    for reason in assessment.all_reasons:
        if reason.level == "measure" and reason.settles is not None:
            fields.add(reason.settles.field)
            fields.add(reason.settles.then_field or reason.settles.field)
    if any(field.startswith("tire.tread_depth_") for field in fields):
        fields.add("tire.tread_depth")  # the shallowest anywhere, deep enough, settles it as well
    return frozenset(fields)


def nothing_asked_yet(assessment: Assessment) -> bool:
    """Whether the checks could not be asked at all: then nobody can say what is not needed."""
    return assessment.facts is None or assessment.rule_set is None or assessment.zone is None


def _rank(field: str) -> int:
    part = field if field in _ORDER else field.rpartition(".")[2]
    return _ORDER.index(part) if part in _ORDER else len(_ORDER)
