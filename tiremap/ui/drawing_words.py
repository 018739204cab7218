"""What the drawings show, in words: for those who hear the screen, and for who wants it said."""

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.wording import Unit, angle, length, rounded_down
from tiremap.model.units import degrees
from tiremap.ui.language import marked, told, tr
from tiremap.ui.wording import ANSWER_WORDS, OWN_WORDS

WHAT_IT_IS = marked("Tire drawings: section, liner strip and wheel ring")
_AT_CENTER_MM = 0.05


def drawing_in_words(assessment: Assessment, chosen: str, unit: Unit) -> str:
    """What is chosen, or what there is to choose."""
    mark = assessment.mark(chosen)
    if mark is not None:
        return f"{mark_in_words(assessment, mark, unit)}."
    if assessment.strip is None:
        return tr("No tire yet: enter its size code.")
    injuries, repairs = len(assessment.injuries), len(assessment.repairs)
    return tr("{injuries}, {repairs}; none chosen.", injuries=_injuries(injuries), repairs=_repairs(repairs))


def mark_in_words(assessment: Assessment, mark: AssessedMark, unit: Unit) -> str:
    """A mark and where it lies: ``injury 2, 31 mm outboard of center, 14 mm inside the limit, 90° around, Repairable``.

    What decides comes first: who hears it can stop listening there.
    """
    parts = [mark.facts.title, _across(mark, unit)]
    if mark.facts.is_injury:
        parts.append(_margin(mark.margin_mm, unit))
    if mark.around is None:
        parts.append(tr("way around not measured"))
    else:
        parts.append(tr("{angle} around", angle=angle(degrees(mark.around) % 360)))
    if mark.answer is not None:
        parts.append(told(ANSWER_WORDS[assessment.answer_shown(mark)]))
        own = assessment.better_by_itself(mark)
        parts += [] if own is None else [told(OWN_WORDS[own])]
    return ", ".join(parts)


def dragged_in_words(assessment: Assessment, mark: AssessedMark, step_mm: float, unit: Unit) -> str:
    """Where a mark is while it is dragged, and the step its place falls on; the step in mm, as a tape has it."""
    return tr("{mark} (steps of {step})", mark=mark_in_words(assessment, mark, unit), step=length(step_mm, "mm"))


def several_in_words(mark: AssessedMark, count: int) -> str:
    """That the hand reaches more marks than the one it chose."""
    return tr(
        "{mark}: one of {count} marks here. Click again for the next, or press N.", mark=mark.facts.title, count=count
    )


def _across(mark: AssessedMark, unit: Unit) -> str:
    place = mark.facts.outside or mark.facts.inside
    if place is None or place.reading.stated is None:
        return tr("place not measured")
    across = mark.outside if mark.facts.is_injury else mark.inside
    if abs(across) < _AT_CENTER_MM:
        return tr("on the center")
    far = length(abs(across), unit)
    return tr("{far} outboard of center", far=far) if across > 0 else tr("{far} inboard of center", far=far)


def _margin(margin_mm: float | None, unit: Unit) -> str:
    if margin_mm is None:
        return tr("margin not known")
    written = rounded_down(margin_mm, unit)  # as on paper: it never sounds larger than it is
    if written == 0:
        return tr("on the limit")
    far = length(abs(written), unit)
    return tr("{far} inside the limit", far=far) if written > 0 else tr("{far} outside the limit", far=far)


def _injuries(count: int) -> str:
    if count == 0:
        return tr("no injuries")
    return tr("1 injury") if count == 1 else tr("{count} injuries", count=count)


def _repairs(count: int) -> str:
    if count == 0:
        return tr("no repairs")
    return tr("1 repair") if count == 1 else tr("{count} repairs", count=count)
