"""A tire's story as lines of a table. No Qt here."""

from pathlib import Path

from tiremap.drawing.decision_words import AGAINST, CHOICE_WORDS, guidance_title
from tiremap.model.job import Decision, Injury, Repair, RepairKind
from tiremap.model.measures import LengthUnit
from tiremap.storage.tire_story import Source, StoryEntry, TireStory
from tiremap.ui import wording
from tiremap.ui.language import marked, told, tr

REPAIR_WORDS: dict[RepairKind, str] = {
    "stem_and_head": marked("stem and head"),
    "plug_only": marked("plug only"),
    "patch_only": marked("patch only"),
    "string": marked("string"),
    "unknown": marked("kind not known"),
}


def date_said(entry: StoryEntry) -> str:
    """The date; of a decision with the time of day; one that cannot be put in order says so."""
    if isinstance(entry.what, Decision):
        return f"{entry.what.date:%Y-%m-%d}\n{entry.what.date:%H:%M}"
    if not entry.date:
        return tr("not dated")
    return entry.date if entry.dated else tr("{date}\n(not in order)", date=entry.date)


def what_said(entry: StoryEntry, unit: LengthUnit) -> str:
    """What happened or was found, where, every file it is written in, and what it may be the same as."""
    match entry.what:
        case Decision() as decision:
            says = tr("Decided: {choice}", choice=told(CHOICE_WORDS[decision.decision]))
            says += tr(", by {by}", by=decision.by) if decision.by else ""
            says += f"\n{AGAINST}" if decision.against_answer else ""
            says += f"\n{decision.note}" if decision.note else ""
        case Repair() as repair:
            says = tr(
                "Repair {id}: {kind}{place}",
                id=repair.id,
                kind=told(REPAIR_WORDS[repair.kind]),
                place=_place(repair.inside, repair.around, unit),
            )
        case Injury() as injury:
            kind = f": {injury.kind}" if injury.kind else ""
            says = tr(
                "Injury {id}{kind}{place}",
                id=injury.id,
                kind=kind,
                place=_place(injury.outside or injury.inside, injury.around, unit),
            )
    says += f"\nin {' and '.join(source_said(source) for source in entry.sources)}"
    if entry.may_be_same_as:
        says += tr("\nmay be the same as {numbers}", numbers=_numbers(entry.may_be_same_as))
    return says


def answer_said(entry: StoryEntry) -> str:
    """The answer, what an injury by itself has where its tire's is worse, and the guidance; a dash for a repair."""
    if entry.kind == "repair":
        return "–"
    answer = tr("no answer") if entry.answer is None else told(wording.ANSWER_WORDS[entry.answer])
    if entry.own_answer is not None:
        answer = tr("{answer}\n({own})", answer=answer, own=told(wording.OWN_WORDS[entry.own_answer]))
    return tr("{answer}\nby {title}", answer=answer, title=guidance_title(entry.rule_set))


def source_said(source: Source) -> str:
    """Job number and file name; the open job without a file is called so."""
    job = tr("job {number}", number=source.job_number) if source.job_number else ""
    file = source.path.name if isinstance(source.path, Path) else tr("not saved")
    return f"{job} ({file})" if job else file


def remarks(story: TireStory, left_out: tuple[int, ...], most_files: int | None) -> list[str]:
    """What must be known beside the table: what has no date, is not drawn, or was not read."""
    says = []
    if story.undated:
        one = tr("One entry has no date that can be put in order, and stands last.")
        many = tr("{count} entries have no date that can be put in order, and stand last.", count=story.undated)
        says.append(one if story.undated == 1 else many)
    if left_out:
        says.append(
            tr(
                "Not drawn: {numbers}, measured from no common datum or side, or perhaps drawn already.",
                numbers=_numbers(left_out),
            )
        )
    if most_files is not None:
        says.append(tr("Only the {most_files} newest job files of this tire are told here.", most_files=most_files))
    return says


def _numbers(numbers: tuple[int, ...]) -> str:
    words = [tr("no. {number}", number=number) for number in numbers]
    return words[0] if len(words) == 1 else tr("{others} and {last}", others=", ".join(words[:-1]), last=words[-1])


def _place(across, around, unit: LengthUnit) -> str:
    parts = [] if across is None else [wording.place_across(across, unit)]
    parts += [] if around is None else [tr("at {place}", place=wording.place_around(around, unit))]
    return f"\n{', '.join(parts)}" if parts else ""
