"""What differs between two versions of a job, entry by entry, in a technician's words.

Nothing that differs is left out: jobs without a difference are equal. Marks are told apart by their number, what this
program does not know is named as it stands in the file.
"""

from collections.abc import Iterator, Sequence
from typing import Any, Literal, NamedTuple, get_args, get_origin

from tiremap.edits.taken_words import as_it_stands, entry_in_words, in_short
from tiremap.model.after_repair import LeakCheck, Refit
from tiremap.model.job import (
    Checks,
    Decision,
    FittedUnit,
    Injury,
    Job,
    MakerWord,
    Repair,
    StepDone,
    Tire,
    TypedDimensions,
)
from tiremap.model.record import Record
from tiremap.resources import read_toml

WORDS_OF: dict[type[Record], str] = {
    Job: "of_a_job", Tire: "of_a_tire", TypedDimensions: "of_typed_dimensions", MakerWord: "of_a_maker_word",
    Checks: "of_the_checks", Injury: "of_an_injury", Repair: "of_a_repair", FittedUnit: "of_a_fitted_unit",
    Decision: "of_a_decision", StepDone: "of_a_step", LeakCheck: "of_a_leak_check", Refit: "of_a_refit",
}
"""The table of ``field_words.toml`` for each record that is compared field by field."""
_NAMED_BY: dict[type[Record], str] = {Injury: "id", Repair: "id", StepDone: "step"}
"""The field by which entries of a list are told apart; others go by their place in it."""
NOT_ENTERED = "not entered"
NOT_THERE = "not there"


class Difference(NamedTuple):
    """One entry that differs: where it stands, and how it reads in the first and in the second job."""

    where: str
    first: str
    second: str


def differences(first: Job, second: Job) -> tuple[Difference, ...]:
    """Everything that differs between two jobs, in the order of the job; empty for equal ones."""
    return tuple(_of_records(first, second, ""))


def _of_records(first: Record, second: Record, where: str) -> Iterator[Difference]:
    ones, others = _entries(first), _entries(second)
    for name in dict.fromkeys([*ones, *others]):
        one, other = ones.get(name, NOT_THERE), others.get(name, NOT_THERE)
        if one != other:
            yield from _of_entries(type(first), name, one, other, where)


def _of_entries(kind: type[Record], name: str, one: Any, other: Any, where: str) -> Iterator[Difference]:
    place = f"{where}, {_called(kind, name)}" if where else _called(kind, name)
    if isinstance(one, tuple) and isinstance(other, tuple):
        yield from _of_lists(one, other, place)
    elif type(one) is type(other) and type(one) in WORDS_OF:
        yield from _of_records(one, other, place)
    else:
        yield Difference(place, *_told_apart(one, other, _words(kind, name, one), _words(kind, name, other)))


def _told_apart(one: Any, other: Any, says: str, instead: str) -> tuple[str, str]:
    """The words of two entries that differ; where the words do not, as they stand in the file."""
    if says != instead:
        return says, instead
    says, instead = in_short(one), in_short(other)
    return (says, instead) if says != instead else (as_it_stands(one), as_it_stands(other))


def _of_lists(ones: Sequence[Record], others: Sequence[Record], place: str) -> Iterator[Difference]:
    first, second = _by_name(ones, others)
    for name in dict.fromkeys([*first, *second]):
        one, other = first.get(name), second.get(name)
        if one is not None and other is not None:
            yield from _of_records(one, other, f"{place} {name}")
        else:
            yield Difference(f"{place} {name}", *_told_apart(one, other, _whole(one), _whole(other)))
    both = [name for name in first if name in second]
    if both != [name for name in second if name in first]:
        yield Difference(f"{place}: order", ", ".join(first), ", ".join(second))


def _by_name(ones: Sequence[Record], others: Sequence[Record]) -> tuple[dict[str, Record], dict[str, Record]]:
    """Both lists by what their entries are told apart by: a name of their own, else their number in the list."""
    field = _NAMED_BY.get(type(next(iter([*ones, *others]))))
    named = [[str(getattr(each, field)) if field else "" for each in entries] for entries in (ones, others)]
    if any(len(set(names)) < len(names) or "" in names for names in named):
        named = [[str(number + 1) for number in range(len(entries))] for entries in (ones, others)]
    return dict(zip(named[0], ones, strict=True)), dict(zip(named[1], others, strict=True))


def _entries(record: Record) -> dict[str, Any]:
    """Every field by name, those the program does not know included."""
    return dict(record)


def _called(kind: type[Record], name: str) -> str:
    """What a field is called; its own name if the program does not know it."""
    return str(read_toml("field_words.toml")[WORDS_OF[kind]].get(name, name))


def _words(kind: type[Record], name: str, value: Any) -> str:
    if value == NOT_THERE:
        return NOT_THERE
    if value is None or name not in kind.model_fields:
        return NOT_ENTERED if value is None else in_short(value)
    if type(value) in WORDS_OF:
        return _whole(value)
    words = entry_in_words(value, name)
    return words.replace("_", " ") if isinstance(value, str) and _is_a_choice(kind, name) else words


def _whole(record: Record | None) -> str:
    """All that is entered in a record, on one line."""
    if record is None:
        return NOT_THERE
    entered = {name: value for name, value in _entries(record).items() if value not in (None, "", ())}
    kind = type(record)
    named = _NAMED_BY.get(kind)
    said = [f"{_called(kind, name)}: {_words(kind, name, value)}" for name, value in entered.items() if name != named]
    return "; ".join(said) or "nothing entered"


def _is_a_choice(kind: type[Record], name: str) -> bool:
    """Whether a field takes one of some words, rather than any text."""
    allowed = kind.model_fields[name].annotation
    return get_origin(allowed) is Literal or any(get_origin(each) is Literal for each in get_args(allowed))
