"""One job under every rule set: answer, what decides it, its margin, and what is still open. No Qt here."""

from collections.abc import Sequence
from dataclasses import dataclass

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.drawing.bench_order import still_to_measure
from tiremap.model.job import Job
from tiremap.model.measures import LengthUnit
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import usable_rule_sets
from tiremap.model.rule_set_titles import parent_title, shown_title
from tiremap.rules.reasons import Level, Reason
from tiremap.ui import reason_words
from tiremap.ui.language import marked, told, tr

_LEVEL_WORDS: dict[Level, str] = {
    "refuse": marked("Refused"),
    "measure": marked("Measure"),
    "caution": marked("Caution"),
    "note": marked("Passed, nearest its limit"),
}


@dataclass(frozen=True)
class Compared:
    """A job's assessment under one rule set; ``own`` where it is the one the job follows."""

    rule_set: RuleSet
    assessment: Assessment
    own: bool

    @property
    def title(self) -> str:
        """What the rule set is called; of a shop's own with its parent."""
        return shown_title(self.rule_set)

    @property
    def title_lines(self) -> str:
        """The same, the parent on a line of its own."""
        parent = parent_title(self.rule_set)
        return (
            tr("{title}\nafter {parent}", title=self.rule_set.title, parent=parent) if parent else self.rule_set.title
        )

    @property
    def decides(self) -> Reason:
        """The first reason in order of weight; where every check passed, the one nearest to its limit (mm)."""
        first = self.assessment.all_reasons[0]
        near = [each for each in self.assessment.all_reasons if each.unit == "mm" and each.margin_low is not None]
        return min(near, key=_least) if first.level == "note" and near else first

    @property
    def decides_says(self) -> str:
        """What decides, with the level in a word."""
        says = self.decides.says
        return f"{told(_LEVEL_WORDS[self.decides.level])}: {says[:1].upper()}{says[1:]}"

    @property
    def still_open(self) -> tuple[str, ...]:
        """What can still turn the answer, in bench order: what was never entered, then what is known too coarsely."""
        never = [each.words for each in still_to_measure(self.assessment)]
        if self.assessment.answer == "not_repairable":
            return tuple(never)
        reasons = self.assessment.all_reasons
        return (*never, *(each.says for each in reasons if each.level == "measure" and not each.asks))


def compared(job: Job) -> tuple[Compared, ...]:
    """The job under every rule set that can be used, in their order."""
    return tuple(
        Compared(each, assess(job, each, advise=False), each.name == job.rule_set) for each in usable_rule_sets()
    )


def margin_says(reason: Reason, unit: LengthUnit) -> str:
    """The margin as stated and from least to greatest; margins are rounded down. A dash where there is none."""
    low, high = reason.margin_low, reason.margin_high
    if low is None and high is None:
        return "–"
    ends = reason_words.margin_ends(reason, unit)
    if low == high or reason.margin is None:
        return ends
    return f"{reason_words.margin_as(reason.margin, reason, unit)}\n({ends})"


def details(row: Compared) -> str:
    """What stands under the table for the chosen rule set: source of what decides, what is open, the last word."""
    parts = [f"{row.title}: {reason_words.source(row.decides, row.assessment)}."]
    if row.still_open:
        parts.append(
            tr("Still open ({count}): {sentence}", count=len(row.still_open), sentence=_sentence(row.still_open))
        )
    return " ".join((*parts, row.rule_set.deciding))


def _sentence(parts: Sequence[str]) -> str:
    return "; ".join(part.rstrip(".") for part in parts) + "."


def _least(reason: Reason) -> float:
    return reason.margin_low
