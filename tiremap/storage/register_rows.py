"""One row of the register: what a job file says, how it is answered, or why it cannot be."""

import hashlib
import os
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from tiremap import __version__
from tiremap.assess import Verdict, verdict
from tiremap.assessment import Assessment
from tiremap.errors import TiremapError
from tiremap.model.job import Answer, Job
from tiremap.resources import read_toml, resource_path, shop_rule_sets_folder, shop_stock_path
from tiremap.storage.job_file import job_from_bytes
from tiremap.storage.register_scan import Found

A_MONTH = re.compile(r"\d{4}-\d{2}")
"""How a date begins that is written year first."""


@dataclass(frozen=True)
class RegisterRow:
    """One job file. ``path`` is relative to the folder; what the job does not say is ``None``.

    ``deciding`` and ``deciding_says`` are of the heaviest reason where it refuses or must be measured; a Repairable has
    none. ``fault`` says why the file cannot be read or answered, empty if it can.
    """

    path: str
    job_number: str | None = None
    fleet_number: str | None = None
    tire_number: str | None = None
    size: str | None = None
    """The size code as entered."""
    date_code: str | None = None
    date: str | None = None
    rule_set: str | None = None
    answer: Answer | None = None
    deciding: str | None = None
    deciding_says: str | None = None
    injuries: int = 0
    repairs: int = 0
    decisions: int = 0
    last_decision: str | None = None
    """``repair``, ``do_not_repair`` or ``measure``."""
    against_answer: bool = False
    """Whether a repair was decided on while the answer recorded with it was not Repairable."""
    fault: str = ""


@dataclass(frozen=True)
class Entry:
    """A row with all the index keeps beside it.

    ``across`` are the places of injuries across, as share of half the tread width, + outboard. ``repaired`` counts the
    repairs recorded for each day, or month where no day is given. ``rules`` is what the answer was worked out by.
    """

    row: RegisterRow
    found: Found
    settled: bool
    content: str
    rules: str
    search: str
    tire_key: str
    across: tuple[float, ...] = ()
    repaired: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True)
class Again:
    """A file looked at again that holds the same as before."""

    found: Found
    settled: bool


@dataclass(frozen=True)
class Asked:
    """A file to be read: in which folder, the content it had if that is still answered as it was, and by what rules."""

    folder: str
    found: Found
    content: str | None
    rules: str
    settled_before_ns: int


def entry_of(asked: Asked) -> Entry | Again:
    """The entry of a file; `Again` where its content is what it was. A fault is part of the row, never raised."""
    found, fault, data = asked.found, asked.found.fault, b""
    settled = found.changed_ns < asked.settled_before_ns
    if not fault:
        try:
            data = _bytes_of(os.path.join(asked.folder, found.path))
        except OSError as error:
            # Whether it may be read can change without its time stamp: it is tried again each time.
            fault, settled = f"It cannot be read: {error.strerror}.", False
    content = hashlib.sha256(fault.encode() or data).hexdigest()
    if content == asked.content:
        return Again(found, settled)
    plain = Entry(RegisterRow(found.path, fault=fault), found, settled, content, asked.rules, "", "")
    return _to_be_found(plain if fault else _read(plain, data))


def entries_of(asked: Iterable[Asked]) -> list[Entry | Again]:
    """The entries of several files, as one errand for another process."""
    return [entry_of(each) for each in asked]


def rules_in_force() -> str:
    """What answers depend on beside the jobs: the program's version and the content of every rule set and limit."""
    parts = hashlib.sha256(__version__.encode())
    files = [*sorted(resource_path().rglob("*.toml")), *sorted(shop_rule_sets_folder().glob("*.toml"))]
    if shop_stock_path().exists():
        files.append(shop_stock_path())
    for path in files:
        parts.update(path.name.encode())
        try:
            parts.update(path.read_bytes())
        except OSError:  # not to be read: its jobs say so
            parts.update(b"unreadable")
    return parts.hexdigest()[:16]


def rules_of_today(rules: str) -> str:
    """Marks an answer that holds on this day only: of a tire whose age is counted to today."""
    return f"{rules} {date.today().isoformat()}"


def folded(text: str) -> str:
    """Text as it is compared in a search: without regard to case and ways of writing the same letter."""
    return unicodedata.normalize("NFKC", text).casefold()


def tire_key(number: str | None) -> str:
    """A tire number as it is compared: outer spaces and case do not count. Empty where there is none."""
    return folded(number or "").strip()


def _bytes_of(path: str) -> bytes:
    """The file's bytes, at most one more than a job file may have."""
    with open(path, "rb") as file:
        return file.read(read_toml("storage.toml")["job_file"]["largest_bytes"] + 1)


def _read(plain: Entry, data: bytes) -> Entry:
    """The entry with all that the job in those bytes says."""
    try:
        job = job_from_bytes(data)
    except TiremapError as error:
        return replace(plain, row=replace(plain.row, fault=str(error)))
    told = replace(
        plain, row=_row(plain.row.path, job), tire_key=tire_key(job.tire.number), repaired=_repaired(job),
        rules=rules_of_today(plain.rules) if _ages_by_today(job) else plain.rules,
    )
    try:
        found = verdict(job)
    except TiremapError as error:
        return replace(told, row=replace(told.row, fault=str(error)))
    except Exception as error:  # one job that brings out a defect must not keep the others from being listed
        fault = f"Tiremap itself failed on this job ({type(error).__name__}: {error}). Please report it with the file."
        return replace(told, row=replace(told.row, fault=fault))
    return replace(told, row=_answered(told.row, found), across=_across(found.drawn))


def _row(path: str, job: Job) -> RegisterRow:
    return RegisterRow(
        path=path, job_number=job.job_number, fleet_number=job.fleet_number, tire_number=job.tire.number,
        size=job.tire.size_code, date_code=job.tire.date_code, date=job.date, rule_set=job.rule_set,
        injuries=len(job.injuries), repairs=len(job.repairs), decisions=len(job.decisions),
        last_decision=job.decisions[-1].decision if job.decisions else None,
        against_answer=any(each.decision == "repair" and each.answer != "repairable" for each in job.decisions),
    )


def _answered(row: RegisterRow, found: Verdict) -> RegisterRow:
    if found.deciding is None:
        return replace(row, answer=found.answer)
    return replace(row, answer=found.answer, deciding=found.deciding.code, deciding_says=found.deciding.says)


def _across(assessment: Assessment) -> tuple[float, ...]:
    """Where the injuries lie that were measured across, outside or else inside."""
    if assessment.facts is None:
        return ()
    half = assessment.facts.drawn_tread_width / 2
    measured = [each for each in assessment.injuries if each.facts.outside or each.facts.inside]
    return tuple(round(each.outside / half, 6) for each in measured)


def _repaired(job: Job) -> tuple[tuple[str, int], ...]:
    """Repairs recorded by day: the earlier repairs of that date, or one where a repair was decided on that day."""
    listed = Counter(each.date[:10] for each in job.repairs if each.date and A_MONTH.match(each.date))
    decided = {each.date.date().isoformat() for each in job.decisions if each.decision == "repair"}
    return tuple(sorted((day, max(listed[day], 1)) for day in decided | set(listed)))


def _ages_by_today(job: Job) -> bool:
    """Whether the tire's age is counted to today: the job has no date written year first."""
    try:
        date.fromisoformat(job.date or "")
    except ValueError:
        return bool(job.tire.date_code)
    return False


def _to_be_found(entry: Entry) -> Entry:
    """The entry with what a search looks in; a size also without its signs, as 20555r16 and 2055516."""
    row = entry.row
    size = folded(row.size or "")
    parts = [size, re.sub(r"[^a-z0-9]", "", size), re.sub(r"[^0-9]", "", size)]
    parts += [folded(each or "") for each in (row.date_code, row.tire_number, row.job_number, row.fleet_number)]
    return replace(entry, search="\n".join((*parts, folded(row.path))))

