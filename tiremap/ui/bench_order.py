"""Which field is next at the bench, and which are still open. No Qt here."""

from tiremap.assessment import Assessment, Needed
from tiremap.drawing.bench_order import in_bench_order


def next_field(assessment: Assessment) -> str | None:
    """The field to measure next in bench order: the first never entered or set by eye only, else one a reason asks for.

    A place set by eye is passed over where no better one can turn the answer.
    """
    open_ones = open_fields(assessment)
    seen = (each for each in assessment.job.injuries if each.outside is not None and each.outside.how == "eye")
    by_eye = (f"injury.{each.id}.outside" for each in seen)
    never = in_bench_order([*assessment.needed, *(Needed(field, "") for field in by_eye if field in open_ones)])
    if never:
        return never[0].field
    asking = (each.settles for each in assessment.all_reasons if each.level == "measure" and each.settles is not None)
    return next((settles.field for settles in asking), None)


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
