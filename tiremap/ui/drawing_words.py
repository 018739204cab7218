"""What the drawings show, in words: for those who hear the screen, and for who wants it said."""

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.wording import Unit, angle, length, rounded_down
from tiremap.model.units import degrees
from tiremap.ui.wording import ANSWER_WORDS

WHAT_IT_IS = "Tire drawings: section, liner strip and wheel ring"
_AT_CENTER_MM = 0.05


def drawing_in_words(assessment: Assessment, chosen: str, unit: Unit) -> str:
    """What is chosen, or what there is to choose."""
    mark = assessment.mark(chosen)
    if mark is not None:
        return f"{mark_in_words(mark, unit)}."
    if assessment.strip is None:
        return "No tire yet: enter its size code."
    injuries, repairs = len(assessment.injuries), len(assessment.repairs)
    return f"{_counted(injuries, 'injury', 'injuries')}, {_counted(repairs, 'repair', 'repairs')}; none chosen."


def mark_in_words(mark: AssessedMark, unit: Unit) -> str:
    """A mark and where it lies: ``injury 2, 31 mm outboard of center, 14 mm inside the limit, 90° around, Repairable``.

    What decides comes first: who hears it can stop listening there.
    """
    parts = [mark.facts.title, _across(mark, unit)]
    if mark.facts.is_injury:
        parts.append(_margin(mark.margin_mm, unit))
    parts.append("way around not measured" if mark.around is None else f"{angle(degrees(mark.around) % 360)} around")
    if mark.answer is not None:
        parts.append(ANSWER_WORDS[mark.answer])
    return ", ".join(parts)


def dragged_in_words(mark: AssessedMark, step_mm: float, unit: Unit) -> str:
    """Where a mark is while it is dragged, and the step its place falls on; the step in mm, as a tape has it."""
    return f"{mark_in_words(mark, unit)} (steps of {length(step_mm, 'mm')})"


def several_in_words(mark: AssessedMark, count: int) -> str:
    """That the hand reaches more marks than the one it chose."""
    return f"{mark.facts.title}: one of {count} marks here. Click again for the next, or press N."


def _across(mark: AssessedMark, unit: Unit) -> str:
    place = mark.facts.outside or mark.facts.inside
    if place is None or place.reading.stated is None:
        return "place not measured"
    across = mark.outside if mark.facts.is_injury else mark.inside
    if abs(across) < _AT_CENTER_MM:
        return "on the center"
    return f"{length(abs(across), unit)} {'outboard' if across > 0 else 'inboard'} of center"


def _margin(margin_mm: float | None, unit: Unit) -> str:
    if margin_mm is None:
        return "margin not known"
    written = rounded_down(margin_mm, unit)  # as on paper: it never sounds larger than it is
    if written == 0:
        return "on the limit"
    return f"{length(abs(written), unit)} {'inside' if written > 0 else 'outside'} the limit"


def _counted(count: int, one: str, many: str) -> str:
    return f"{count or 'no'} {one if count == 1 else many}"
