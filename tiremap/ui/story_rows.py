"""A tire's story as lines of a table. No Qt here."""

from pathlib import Path

from tiremap.drawing.decision_words import AGAINST, CHOICE_WORDS, guidance_title
from tiremap.model.job import Decision, Injury, Repair, RepairKind
from tiremap.model.measures import LengthUnit
from tiremap.storage.tire_story import Source, StoryEntry, TireStory
from tiremap.ui import wording

REPAIR_WORDS: dict[RepairKind, str] = {
    "stem_and_head": "stem and head", "plug_only": "plug only", "patch_only": "patch only", "string": "string",
    "unknown": "kind not known",
}


def date_said(entry: StoryEntry) -> str:
    """The date; of a decision with the time of day; one that cannot be put in order says so."""
    if isinstance(entry.what, Decision):
        return f"{entry.what.date:%Y-%m-%d}\n{entry.what.date:%H:%M}"
    if not entry.date:
        return "not dated"
    return entry.date if entry.dated else f"{entry.date}\n(not in order)"


def what_said(entry: StoryEntry, unit: LengthUnit) -> str:
    """What happened or was found, where, every file it is written in, and what it may be the same as."""
    match entry.what:
        case Decision() as decision:
            says = f"Decided: {CHOICE_WORDS[decision.decision]}"
            says += f", by {decision.by}" if decision.by else ""
            says += f"\n{AGAINST}" if decision.against_answer else ""
            says += f"\n{decision.note}" if decision.note else ""
        case Repair() as repair:
            says = f"Repair {repair.id}: {REPAIR_WORDS[repair.kind]}{_place(repair.inside, repair.around, unit)}"
        case Injury() as injury:
            kind = f": {injury.kind}" if injury.kind else ""
            says = f"Injury {injury.id}{kind}{_place(injury.outside or injury.inside, injury.around, unit)}"
    says += f"\nin {' and '.join(source_said(source) for source in entry.sources)}"
    if entry.may_be_same_as:
        says += f"\nmay be the same as {_numbers(entry.may_be_same_as)}"
    return says


def answer_said(entry: StoryEntry) -> str:
    """The answer and by which guidance; a dash for a repair, which has none."""
    if entry.kind == "repair":
        return "–"
    answer = "no answer" if entry.answer is None else wording.ANSWER_WORDS[entry.answer]
    return f"{answer}\nby {guidance_title(entry.rule_set)}"


def source_said(source: Source) -> str:
    """Job number and file name; the open job without a file is called so."""
    job = f"job {source.job_number}" if source.job_number else ""
    file = source.path.name if isinstance(source.path, Path) else "not saved"
    return f"{job} ({file})" if job else file


def remarks(story: TireStory, left_out: tuple[int, ...], most_files: int | None) -> list[str]:
    """What must be known beside the table: what has no date, is not drawn, or was not read."""
    says = []
    if story.undated:
        one = "One entry has no date that can be put in order, and stands last."
        many = f"{story.undated} entries have no date that can be put in order, and stand last."
        says.append(one if story.undated == 1 else many)
    if left_out:
        says.append(
            f"Not drawn: {_numbers(left_out)}, measured from no common datum or side, or perhaps drawn already."
        )
    if most_files is not None:
        says.append(f"Only the {most_files} newest job files of this tire are told here.")
    return says


def _numbers(numbers: tuple[int, ...]) -> str:
    words = [f"no. {number}" for number in numbers]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _place(across, around, unit: LengthUnit) -> str:
    parts = [] if across is None else [wording.place_across(across, unit)]
    parts += [] if around is None else [f"at {wording.place_around(around, unit)}"]
    return f"\n{', '.join(parts)}" if parts else ""
