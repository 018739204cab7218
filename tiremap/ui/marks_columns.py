"""The columns of the marks table: what each shows of a mark, and how its text becomes a measurement. No Qt here."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tiremap.assessment import AssessedMark
from tiremap.edits.injuries import set_injury
from tiremap.edits.repairs import set_repair
from tiremap.model.job import Injury, Job, Repair
from tiremap.model.measures import LengthUnit
from tiremap.ui import measure_kinds as kinds
from tiremap.ui import wording
from tiremap.ui.language import marked, told, tr
from tiremap.ui.measure_kinds import Kind, Typed

Mark = Injury | Repair
BY_EYE = "≈ "
"""Stands before a place that was set by eye."""


@dataclass(frozen=True)
class Column:
    """A column. ``injury_field`` / ``repair_field`` name the measurement it edits; ``None`` where it edits none."""

    title: str
    injury_field: str | None
    repair_field: str | None
    kind: Kind | None
    repair_kind: Kind | None = None
    show: Callable[[AssessedMark, LengthUnit], str] | None = None

    def field_of(self, mark: Mark) -> str | None:
        """The field of a mark this column edits."""
        return self.injury_field if isinstance(mark, Injury) else self.repair_field

    def kind_of(self, mark: Mark) -> Kind | None:
        """How the text of that field is read."""
        return self.repair_kind or self.kind if isinstance(mark, Repair) else self.kind

    def text(self, mark: Mark, assessed: AssessedMark | None, unit: LengthUnit) -> str:
        """What stands in the cell."""
        if self.show is not None:
            return "" if assessed is None else self.show(assessed, unit)
        field, kind = self.field_of(mark), self.kind_of(mark)
        taken = getattr(mark, field) if field else None
        if taken is None or kind is None:
            return ""
        text = kind.show(taken, unit).replace(" from ", " ")  # can be read again without it, and is narrower
        return f"{BY_EYE}{text}" if taken.how == "eye" else text

    def read(self, mark: Mark, text: str, unit: LengthUnit) -> Any:
        """The measurement in a typed text, or ``None`` for none. Raises `TiremapError`."""
        kind, field = self.kind_of(mark), self.field_of(mark)
        text = text.removeprefix(BY_EYE).strip()
        if not text or kind is None or field is None:
            return None
        present = getattr(mark, field)
        how = present.how if present is not None and present.how in kind.hows else kind.hows[0]
        origin = getattr(present, "origin", None) or "outboard_edge"
        return kind.read(Typed(text, unit, how, origin))


def change_of(job: Job, mark: Mark, field: str, record: Any) -> Job:
    """The job with that field of the mark measured so."""
    return (set_injury if isinstance(mark, Injury) else set_repair)(job, mark.id, **{field: record})


def marks_of(job: Job) -> tuple[Mark, ...]:
    """Injuries, then earlier repairs: the rows of the table."""
    return (*job.injuries, *job.repairs)


def words_for(mark: Mark) -> str:
    """What a mark is called in a sentence."""
    return tr("injury {id}", id=mark.id) if isinstance(mark, Injury) else tr("repair {id}", id=mark.id)


def _answer(assessed: AssessedMark, unit: LengthUnit) -> str:
    return told(wording.ANSWER_WORDS[assessed.answer]) if assessed.answer else tr("earlier repair")


def _margin(assessed: AssessedMark, unit: LengthUnit) -> str:
    return "" if assessed.margin_mm is None else wording.mm_as(assessed.margin_mm, unit)


def _id(assessed: AssessedMark, unit: LengthUnit) -> str:
    return assessed.id


ANSWER = Column(marked("Answer"), None, None, None, show=_answer)
COLUMNS = (
    Column(marked("Mark"), None, None, None, show=_id),
    Column(marked("Across"), "outside", "inside", kinds.ACROSS),
    Column(marked("Around"), "around", "around", kinds.AROUND),
    Column(marked("Size"), "size_outside", None, kinds.HOLE),
    Column(marked("Lean across"), "lean_across", None, kinds.LEAN),
    Column(marked("Lean around"), "lean_around", None, kinds.LEAN),
    Column(marked("Reamed / head"), "size_prepared", "head_length", kinds.CUTTER, kinds.HEAD),
    ANSWER,
    Column(marked("Margin"), None, None, None, show=_margin),
)
