"""One tire's story over several job files: every earlier repair, injury and decision, in order of date.

The same repair is usually entered again in each later job. It is told once where that is certain, and else each entry
names those it may be the same as: nothing is merged on a guess.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from math import remainder, tau
from pathlib import Path
from typing import Literal

from tiremap.assess import assess
from tiremap.assessment import AssessedMark, Assessment
from tiremap.edits.change import changed
from tiremap.edits.marks import new_id
from tiremap.errors import TiremapError
from tiremap.model.job import Answer, Decision, Injury, Job, Repair, Tire
from tiremap.rules.reading import Reading

Kind = Literal["repair", "injury", "decision"]

_BY_GUESS = ("eye", "clock")
"""Ways of placing so coarse that two heads side by side could be taken for one."""
_DATE = re.compile(r"(\d{4})(?:-(\d\d)(?:-(\d\d))?)?")
_A_WHOLE_DATE = len("2025-03-01")


@dataclass(frozen=True)
class Source:
    """Where something is written down: the file (``None`` for the open job without one) and its job number."""

    path: Path | None
    job_number: str | None


@dataclass(frozen=True)
class StoryEntry:
    """One thing that happened to the tire, or was found on it.

    ``number`` counts the entries in their order from 1. ``date`` is as it was written, empty where undated; an injury
    has the date of its job. ``rule_set`` is the name of the one it was answered by; ``answer`` that of a decision when
    it was made, or of an injury that of its tire as its job answers it now; both ``None`` for a repair. ``own_answer``
    is the injury's with its pairs, where the tire's is worse.
    """

    number: int
    date: str
    what: Repair | Injury | Decision
    sources: tuple[Source, ...]
    rule_set: str | None
    answer: Answer | None
    tire: Tire
    """The tire as its first file has it: datum and side its place counts from."""
    may_be_same_as: tuple[int, ...] = ()
    own_answer: Answer | None = None

    def placed_as(self, job: Job) -> bool:
        """Whether it is a mark with a place that means the same on the tire of that job."""
        if isinstance(self.what, Decision) or self.what.inside is None or self.what.around is None:
            return False
        return _one_datum(self.tire, job.tire) and _one_side(self.tire, job.tire)

    @property
    def kind(self) -> Kind:
        """Which of the three it is."""
        return "repair" if isinstance(self.what, Repair) else "injury" if isinstance(self.what, Injury) else "decision"

    @property
    def dated(self) -> bool:
        """Whether its date can be put in order with others."""
        return bool(_order_of_date(self.date))

    @property
    def against_answer(self) -> bool:
        """Whether it is a decision against the answer."""
        return isinstance(self.what, Decision) and self.what.against_answer


@dataclass(frozen=True)
class TireStory:
    """The entries in order of date, the undated last. ``overtaken`` are sources whose answer has changed since."""

    entries: tuple[StoryEntry, ...]
    overtaken: tuple[Source, ...]

    @property
    def undated(self) -> int:
        """How many entries at the end have no date that can be put in order."""
        return sum(not entry.dated for entry in self.entries)


@dataclass(frozen=True)
class _Place:
    """Where a mark lies, mm from the center (+ outboard) and radians from the datum, and how far each may be off.

    ``edge_slack`` is what the tread width adds where the other was taped from another origin.
    """

    across: float
    across_slack: float
    origin: str
    edge_slack: float
    around: float | None
    around_slack: float


@dataclass(frozen=True)
class _Found:
    """An entry on its way into the story, with what tells whether another is the same thing."""

    entry: StoryEntry
    place: _Place | None = None


def story_of(jobs: Iterable[tuple[Path | None, Job]]) -> TireStory:
    """The story of one tire, told by all its jobs with the files they come from. Reads and changes no file."""
    groups: list[list[_Found]] = []
    overtaken = []
    for path, job in jobs:
        source, assessment = Source(path, job.job_number), _assessed(job)
        if assessment is not None and job.decisions and job.decisions[-1].answer != assessment.answer:
            overtaken.append(source)
        mine = _all_in(job, source, assessment)
        known = list(groups)  # two marks of one job are two things
        for found in mine:
            same = next((group for group in known if all(_is_same(found, other) for other in group)), None)
            if same is None:
                groups.append([found])
            else:
                same.append(found)
                known.remove(same)
    groups.sort(key=_order)
    return TireStory(tuple(_told(groups)), tuple(overtaken))


def _assessed(job: Job) -> Assessment | None:
    try:
        return assess(job, advise=False)
    except TiremapError:  # a size code nobody can read: the story is told without places and answers
        return None


def _all_in(job: Job, source: Source, assessment: Assessment | None) -> list[_Found]:
    """Everything one job tells, in the order it stands there."""
    found = []
    marks: tuple[Repair | Injury, ...] = (*job.repairs, *job.injuries)
    for mark in marks:
        assessed = None if assessment is None else assessment.mark(mark.id)
        is_repair = isinstance(mark, Repair)
        date = (mark.date if isinstance(mark, Repair) else job.date) or ""
        rule_set = None if is_repair else job.rule_set
        entry = StoryEntry(0, date.strip(), mark, (source,), rule_set, None, job.tire)
        if assessment is not None and assessed is not None and not is_repair:
            shown, own = assessment.answer_shown(assessed), assessment.better_by_itself(assessed)
            entry = replace(entry, answer=shown, own_answer=own)
        placed = None if assessment is None or assessed is None else _place(assessment, assessed, is_repair)
        found.append(_Found(entry, placed))
    for each in job.decisions:
        date = each.date.isoformat(timespec="minutes")
        found.append(_Found(StoryEntry(0, date, each, (source,), each.rule_set, each.answer, job.tire)))
    return found


def _place(assessment: Assessment, mark: AssessedMark, is_repair: bool) -> _Place | None:
    """The place a mark was measured by: a repair's head on the liner, an injury's outside end."""
    facts = mark.facts
    end, across = (facts.inside, mark.inside) if is_repair else (facts.outside, mark.outside)
    if end is None:
        return None
    width = _slack(assessment.known_facts.tread_width)
    return _Place(across, _slack(end.reading), end.origin, width, facts.around.stated, _slack(facts.around))


def _slack(reading: Reading) -> float:
    return (reading.high - reading.low) / 2


def _is_same(one: _Found, other: _Found) -> bool:
    """Whether two entries of different jobs are certainly the same thing."""
    first, second = one.entry.what, other.entry.what
    if type(first) is not type(second):
        return False
    if isinstance(first, Decision) or isinstance(second, Decision):
        return first == second
    if not _same_day(one, other):
        return False
    if first == second and one.place is not None and one.place.around is not None:
        return True
    tires = one.entry.tire, other.entry.tire
    sure = _measured(first) and _measured(second) and _one_side(*tires) and _one_datum(*tires)
    return sure and first.kind == second.kind and _meet(one.place, other.place)


def _may_be_same(one: _Found, other: _Found) -> bool:
    """Whether two entries of different jobs cannot be told apart for certain."""
    first, second = one.entry.what, other.entry.what
    if isinstance(first, Decision) or type(first) is not type(second) or one.entry.sources == other.entry.sources:
        return False
    if _told_apart(one, other):
        return False
    return _meet(one.place, other.place) or not _told_apart_by_day(one, other)


def _meet(one: _Place | None, other: _Place | None) -> bool:
    """Whether two places taken from the same origin agree within the tolerances they were measured with."""
    if one is None or other is None or one.around is None or other.around is None or one.origin != other.origin:
        return False
    return abs(one.across - other.across) <= one.across_slack + other.across_slack and (
        abs(remainder(one.around - other.around, tau)) <= one.around_slack + other.around_slack
    )


def _told_apart(one: _Found, other: _Found) -> bool:
    """Whether their places are certainly two; where a side is not known, either way it may be seen."""
    first, second = one.place, other.place
    if first is None or second is None:
        return False
    ways = (1,) if _one_side(one.entry.tire, other.entry.tire) else (1, -1)
    slack = first.across_slack + second.across_slack
    slack += 0.0 if first.origin == second.origin else first.edge_slack + second.edge_slack
    if min(abs(first.across - way * second.across) for way in ways) > slack:
        return True
    if first.around is None or second.around is None or not _one_datum(one.entry.tire, other.entry.tire):
        return False
    apart = min(abs(remainder(first.around - way * second.around, tau)) for way in ways)
    return apart > first.around_slack + second.around_slack


def _measured(mark: Repair | Injury) -> bool:
    """Whether its place was measured and not put there by eye or clock hour."""
    across = mark.inside if isinstance(mark, Repair) else mark.outside
    return all(taken is not None and taken.how not in _BY_GUESS for taken in (across, mark.around))


def _one_datum(one: Tire, other: Tire) -> bool:
    """Whether angles on both count from the same mark on the tire."""
    return one.datum is not None and one.datum == other.datum


def _one_side(one: Tire, other: Tire) -> bool:
    """Whether outboard is known, and so the same side, on both."""
    return "unknown" not in (one.outboard_by, other.outboard_by)


def _same_day(one: _Found, other: _Found) -> bool:
    dates = _order_of_date(one.entry.date), _order_of_date(other.entry.date)
    return dates[0] == dates[1] and len(dates[0]) == _A_WHOLE_DATE


def _told_apart_by_day(one: _Found, other: _Found) -> bool:
    dates = _order_of_date(one.entry.date), _order_of_date(other.entry.date)
    return dates[0] != dates[1] and all(len(date) == _A_WHOLE_DATE for date in dates)


def _order_of_date(date: str) -> str:
    """What a date is put in order by, such as ``2025-03`` of that month; empty for one that is not year first."""
    match = _DATE.match(date)
    return match[0] if match else ""


def _order(group: Sequence[_Found]) -> tuple[bool, str, int, str]:
    """Dated first; on one day repairs, then injuries, then decisions by the hour."""
    entry = group[0].entry
    kinds: tuple[Kind, ...] = ("repair", "injury", "decision")
    date = _order_of_date(entry.date)
    moment = _moment(entry.what) if isinstance(entry.what, Decision) else ""
    return (not date, date, kinds.index(entry.kind), moment)


def _moment(decision: Decision) -> str:
    """When a decision was made, so that two on one day stand in order; one without a time zone is taken as UTC."""
    at: datetime = decision.date
    return (at if at.tzinfo is not None else at.replace(tzinfo=UTC)).astimezone(UTC).isoformat()


def _told(groups: Sequence[Sequence[_Found]]) -> Iterable[StoryEntry]:
    """The groups as entries, each with the numbers of those it may be the same as."""
    for number, group in enumerate(groups, 1):
        others = (
            at for at, other in enumerate(groups, 1)
            if at != number and any(_may_be_same(one, two) for one in group for two in other)
        )
        sources = tuple(found.entry.sources[0] for found in group)
        yield replace(group[0].entry, number=number, sources=sources, may_be_same_as=tuple(others))


def with_every_repair(job: Job, path: Path | None, story: TireStory) -> tuple[Job, tuple[int, ...]]:
    """The job with the repairs only other files of its tire hold, to be drawn; and the numbers of those left out.

    Added is what was placed from the same datum and side; left out is what has no such place, or may be the same as
    one that is there already, which would then be counted twice.
    """
    source = Source(path, job.job_number)
    repairs = [entry for entry in story.entries if isinstance(entry.what, Repair)]
    there = {entry.number for entry in repairs if source in entry.sources}
    left_out = []
    for entry in repairs:
        if entry.number in there:
            continue
        if not entry.placed_as(job) or there & set(entry.may_be_same_as):
            left_out.append(entry.number)
            continue
        repair = changed(entry.what, id=new_id(job, "R"))
        job = changed(job, repairs=(*job.repairs, repair))
        there.add(entry.number)
    return job, tuple(left_out)
