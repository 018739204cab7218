"""The measurements on a job sheet exactly as they were taken: value, unit, from where, how; nothing is converted."""

from collections.abc import Sequence

from tiremap.assessment import Assessment
from tiremap.model.job import Injury, Repair, Tire
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, How, Lean, Length, Origin, Taken
from tiremap.render.sheet_flow import Written
from tiremap.render.sheet_table import table

ORIGIN_WORDS: dict[Origin, str] = {
    "outboard_edge": "from the outboard edge", "inboard_edge": "from the inboard edge", "center": "from the center",
}
HOW_WORDS: dict[How, str] = {
    "tape": "by tape", "gauge": "by gauge", "rule": "by rule", "object": "by the object's shank", "probe": "by probe",
    "protractor": "by protractor", "clock": "by clock hour", "eye": "by eye", "exact": "exact",
}
_OF_TIRE = {
    "tread_width": "tread width", "tread_depth": "shallowest tread depth", "tread_depth_outboard": "depth outboard",
    "tread_depth_central": "depth central", "tread_depth_inboard": "depth inboard",
    "between_outer_grooves": "between the outer grooves", "crack_depth": "deepest crack",
    "under_grooves": "rubber and layers under the grooves", "belt_width": "belt width",
}
_OF_INJURY = {
    "outside": "outside", "inside": "inside", "around": "around", "lean_across": "lean across",
    "lean_around": "lean around", "size_outside": "size outside", "size_inside": "size inside",
    "size_prepared": "reamed to",
}
_OF_REPAIR = {"inside": "middle", "around": "around", "head_length": "head", "head_width": "head's short side"}
_LABEL, _VALUE = 34.0, 150.0


def measured_blocks(assessment: Assessment, width: float) -> Sequence[Written]:
    """What was measured on the tire, at each injury and at each earlier repair; what was not is left out."""
    job = assessment.job
    rows = [("Tire", _listed(job.tire, _OF_TIRE))]
    rows += [(f"Injury {each.id}", _listed(each, _OF_INJURY)) for each in job.injuries]
    rows += [(f"Repair {each.id}", _listed(each, _OF_REPAIR)) for each in job.repairs]
    return table("As measured", (), rows, (_LABEL, _VALUE), width)


def _listed(of: Tire | Injury | Repair, names: dict[str, str]) -> str:
    taken = [(words, getattr(of, name)) for name, words in names.items()]
    return "; ".join(f"{words} {taken_said(each)}" for words, each in taken if each is not None) or "nothing measured"


def taken_said(of: Taken) -> str:
    """One measurement with its unit, its origin, how it was taken and its own tolerance if it has one."""
    said = f"{_value(of)} {HOW_WORDS[of.how]}"
    if of.minus is None and of.plus is None:
        return said
    return f"{said} (−{of.minus or 0:g} +{of.plus or 0:g})"


def _value(of: Taken) -> str:
    match of:
        case HoleSize(stops=float(stops)):
            return f"{of.value:g} {of.unit} enters, {stops:g} {of.unit} does not,"
        case Length():
            return f"{of.value:g} {of.unit}"
        case Across():
            return f"{_signed(of.value)} {of.unit} {ORIGIN_WORDS[of.origin]}"
        case BeadToes():
            return f"{of.from_outboard:g} and {of.from_inboard:g} {of.unit} from the outboard and inboard bead toe"
        case Around(unit="deg") | Lean():
            return f"{_signed(of.value)}°"
        case Around():
            return f"{_signed(of.value)} {of.unit}"
    raise TypeError(f"{of!r} is no measurement")


def _signed(value: float) -> str:
    return f"{value:g}".replace("-", "−")
