"""What an injury or earlier repair looks like wherever it is drawn: its key, symbol, style and name."""

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.scene import Symbol, SymbolKind, View

UNSOUND = ("plug_only", "patch_only", "string")
"""Kinds of earlier repair that are struck through."""


def key_of(mark: AssessedMark) -> str:
    """The key of a mark's shapes."""
    return f"{'injury' if mark.facts.is_injury else 'repair'}.{mark.id}"


def pair_key(first: AssessedMark, second: AssessedMark) -> str:
    """The key of what lies between two marks."""
    return f"{key_of(first)} {key_of(second)}"


def chosen_mark(assessment: Assessment, view: View) -> AssessedMark | None:
    """The chosen injury or repair; a lone injury is chosen by itself."""
    if view.chosen is not None:
        return assessment.mark(view.chosen)
    return assessment.injuries[0] if len(assessment.injuries) == 1 else None


def is_unsound(assessment: Assessment, mark: AssessedMark) -> bool:
    """Whether an earlier repair is of a kind that is struck through."""
    return any(each.id == mark.id and each.kind in UNSOUND for each in assessment.job.repairs)


def head_style(assessment: Assessment, mark: AssessedMark) -> str:
    """The style of the head on the liner."""
    return f"head_{assessment.answer_shown(mark)}" if mark.facts.is_injury else "head_earlier"


def symbol_of(assessment: Assessment, view: View, mark: AssessedMark, x: float, y: float) -> Symbol:
    """The mark's symbol at a place of the drawing."""
    kind: SymbolKind
    if mark.facts.is_injury:
        kind = assessment.answer_shown(mark)
    else:
        kind = "unsound_repair" if is_unsound(assessment, mark) else "repair"
    return Symbol(x, y, kind, key_of(mark), chosen=view.chosen == mark.id, hovered=view.hovered == mark.id)


def drawn_marks(assessment: Assessment, view: View) -> list[AssessedMark]:
    """The marks whose shapes are drawn, from back to front: all of them, in a frame of a drag the chosen one alone."""
    if view.while_dragging:
        chosen = chosen_mark(assessment, view)
        return [] if chosen is None else [chosen]
    return from_back_to_front(assessment, view)


def from_back_to_front(assessment: Assessment, view: View) -> list[AssessedMark]:
    """Repairs, then injuries, the chosen one last."""
    marks = [*assessment.repairs, *assessment.injuries]
    return sorted(marks, key=lambda mark: mark.id == view.chosen)
