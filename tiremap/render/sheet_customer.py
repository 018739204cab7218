"""What the first page of a job sheet says to whoever owns the tire: why it is refused, what was done, who signs."""

from collections.abc import Sequence

from tiremap.assessment import Assessment
from tiremap.drawing.said import said_in
from tiremap.drawing.wording import ANSWER_WORDS, Unit, area, figure, length
from tiremap.model.job import Answer, Job
from tiremap.render.page import PLAIN, QUIET, Type, wrapped
from tiremap.render.sheet_flow import INDENT, LEVEL_INDENT, SYMBOLS, Block, joined_blocks
from tiremap.render.sheet_table import TableRow, table
from tiremap.render.sheet_words import REASONS_TITLE
from tiremap.repair_dimensions import RepairDimensions, repair_dimensions
from tiremap.repair_steps import step_titles
from tiremap.resources import read_toml
from tiremap.rules.reasons import Reason

SAID = Type(2.1)
"""The plain words are a little larger than the rest: a customer reads them standing at the counter."""
STEP_COLUMNS = 3
_LINE = "_" * 18
SIGNED: dict[Answer, str] = {
    "repairable": f"Repaired by {_LINE}  Date {_LINE}     Checked by {_LINE}  Date {_LINE}",
    "measure_first": f"Measured by {_LINE}  Date {_LINE}     Customer told by {_LINE}  Date {_LINE}",
    "not_repairable": f"Refused by {_LINE}  Date {_LINE}     Customer told by {_LINE}  Date {_LINE}",
}
"""Lines to sign by hand."""


def plain_words(code: str) -> str | None:
    """Why a check refuses, for the customer; ``None`` for a code that never refuses."""
    words: str | None = read_toml("refusals.toml")["says"].get(code)
    return words


def why_refused(assessment: Assessment, unit: Unit, width: float) -> list[Block]:
    """For each refusal its plain words, once for each check; under them what was found and the source."""
    refused = [each for each in assessment.all_reasons if each.level == "refuse"]
    if not refused:
        return []
    blocks = [Block.heading(REASONS_TITLE["not_repairable"])]
    for code in dict.fromkeys(each.code for each in refused):
        blocks.append(_refusal(code, [each for each in refused if each.code == code], unit, width))
    return blocks


def _refusal(code: str, reasons: list[Reason], unit: Unit, width: float) -> Block:
    wide = width - LEVEL_INDENT - 2.0
    lines = [(_TEXT, line, SAID) for line in wrapped(plain_words(code) or "", wide, SAID)]
    found = " ".join(dict.fromkeys(said_in(_without_advice(each), unit) for each in reasons))
    lines += [(_TEXT, line, PLAIN) for line in wrapped(f"Found: {found}", wide)]
    for source in dict.fromkeys(each.source for each in reasons):
        lines += [(_TEXT, line, QUIET) for line in wrapped(f"Source: {source}", wide, QUIET)]
    return Block(tuple(lines), SYMBOLS["refuse"])


_TEXT = LEVEL_INDENT + 1.5
"""mm from the symbol's left end to the words of a refusal."""


def _without_advice(reason: Reason) -> str:
    """What was found, and how far past the limit; not which entry would have to be wrong: that is the shop's."""
    found = reason.says.removesuffix(reason.advice).strip() if reason.advice else reason.says
    return f"{found} {reason.past[0].upper()}{reason.past[1:]}." if reason.past else found


def in_short(reasons: Sequence[Reason], unit: Unit, width: float, room: float = 0.0) -> list[Block]:
    """Cautions, then what passed as far as ``room`` (mm) goes, at best with its source; figures are the shop's."""
    cautions = joined_blocks([each for each in reasons if each.level == "caution"], unit, width, figures=False)
    notes = [each for each in reasons if each.level == "note"]
    room -= sum(each.height for each in cautions)
    room -= QUIET.line + 1.2
    passed = joined_blocks(notes, unit, width, figures=False, gap=0.6)
    if sum(each.height for each in passed) <= room:
        return [*cautions, *passed, _pointer("")]
    passed = [
        block for each in notes for block in joined_blocks([each], unit, width, figures=False, source=False, gap=0.3)
    ]
    shown = passed
    while shown and sum(each.height for each in shown) > room:
        shown = shown[:-1]
    return [*cautions, *shown, _pointer(_left_out(len(passed) - len(shown), some=bool(shown)))]


def _left_out(count: int, some: bool) -> str:
    """How many checks that were passed are not shown, where ``some`` are or none."""
    if not count:
        return ""
    if count == 1:
        return "One more check was passed. " if some else "One check was passed. "
    return f"{count} more checks were passed. " if some else f"{count} checks were passed. "


def _pointer(left_out: str) -> Block:
    words = f"{left_out}All figures and sources stand on the shop's page of the PDF."
    return Block(((INDENT, words, QUIET),), counted=False)


def fitted_lines(assessment: Assessment, unit: Unit, full: bool) -> list[str]:
    """What would be fitted at each injury that is not refused, and the ground worked; ``full`` with where and how."""
    lines = []
    for each in repair_dimensions(assessment):
        lines.append(f"Injury {each.injury}: {_cutter_and_head(each, unit)}")
        lines += _where_and_how(each, unit) if full else []
    if assessment.buffed_area_mm2:
        lines.append(f"Buffed area {area(assessment.buffed_area_mm2, unit)}")
    if assessment.sealed_area_mm2:
        lines.append(f"Sealed area {area(assessment.sealed_area_mm2, unit)}")
    return lines


def _cutter_and_head(of: RepairDimensions, unit: Unit) -> str:
    if of.unit is None:
        return "no unit chosen yet"
    head = length(of.unit.head_length_mm, unit)
    if of.unit.head_width_mm is not None:
        head = f"{figure(of.unit.head_length_mm, unit)} × {length(of.unit.head_width_mm, unit)}"
    return f"cutter and stem {length(of.unit.stem_mm, unit)}, head {head}"


def _where_and_how(of: RepairDimensions, unit: Unit) -> list[str]:
    """How the unit is made, how long its stem is, how far the ground reaches and where its middle lies."""
    kind = {"one_piece": "One piece", "stem_and_patch": "Stem and patch apart", None: "Kind by the lean, not known yet"}
    said = kind[of.kind]
    if of.stem_at_least is not None:
        said += f"; uncut stem at least {length(of.stem_at_least, unit)} long"
    lines = [said]
    reach = {each.name: length(2 * each.across, unit) for each in of.outlines}
    if reach:
        lines.append(f"Clean {reach['pre_cleaned']}, buff {reach['buffed']}, seal {reach['sealed']} across")
    if of.from_outboard_edge is not None:
        around = "" if of.from_datum is None else f", {length(of.from_datum, unit)} around from the datum"
        lines.append(f"Middle {length(of.from_outboard_edge, unit)} from the outboard edge{around}")
    return lines


def steps_done_blocks(job: Job, width: float) -> list[Block | TableRow]:
    """The steps that were ticked, in three columns, each with its time; at a stop with the answer that stood there."""
    if not job.steps_done:
        return []
    days = {f"{each.at:%Y-%m-%d}" for each in job.steps_done}
    titles = step_titles()
    said = []
    for each in job.steps_done:
        answer = f", {ANSWER_WORDS[each.answer]}" if each.answer else ""
        when = f"{each.at:%H:%M}" if len(days) == 1 else f"{each.at:%Y-%m-%d %H:%M}"
        said.append(f"{when}  {titles.get(each.step, each.step)}{answer}")
    rows = -(-len(said) // STEP_COLUMNS)
    said += [""] * (rows * STEP_COLUMNS - len(said))
    table_rows = [tuple(said[row::rows]) for row in range(rows)]
    on = f" on {days.pop()}" if len(days) == 1 else ""
    return table(f"Steps done{on}", ("",) * STEP_COLUMNS, table_rows, (1,) * STEP_COLUMNS, width)
