"""What the shop's page of a job sheet says: every dimension, pair and unit, leak check and refit, and every check.

Lengths follow the sheet's unit; what was never entered says so and is never left out.
"""

from collections.abc import Callable, Sequence
from math import inf

from tiremap.assessment import AssessedPair, Assessment
from tiremap.drawing.sight import section_of
from tiremap.drawing.wording import Unit, angle, area, figure, length, span
from tiremap.errors import TiremapError
from tiremap.model.after_repair import LeakCheck, Pressure, Refit, Temperature
from tiremap.model.stock import RepairUnit, Stock
from tiremap.render.sheet_flow import Block, Written, joined_blocks, reason_blocks
from tiremap.render.sheet_measured import measured_blocks
from tiremap.render.sheet_table import table
from tiremap.render.sheet_words import printed_reasons
from tiremap.repair_dimensions import Neighbor, Outline, Range, RepairDimensions, repair_dimensions
from tiremap.rules.reasons import Reason
from tiremap.workshop.leak import leak_found
from tiremap.workshop.leak_words import leak_lines
from tiremap.workshop.refit import refit_guide

OUTLINE_WORDS = {"head": "Head", "buffed": "Buff to", "pre_cleaned": "Clean to", "sealed": "Seal to"}
UNKNOWN = "not known"
NEAREST_PAIRS = 12
"""How many pairs are printed, the nearest first."""
_LABEL, _VALUE = 34.0, 150.0


def shop_blocks(assessment: Assessment, unit: Unit, width: float) -> Sequence[Written]:
    """Everything on the shop's page, in order."""
    blocks: list[Written] = []
    for each in repair_dimensions(assessment):
        blocks += injury_blocks(each, unit, width, refused=assessment.answer == "not_repairable")
    blocks += pair_blocks(assessment, unit, width)
    blocks += measured_blocks(assessment, width)
    blocks += stock_blocks(assessment, unit, width)
    job = assessment.job
    blocks += leak_blocks(job.leak_check, _air_l(assessment, job.leak_check), width)
    blocks += refit_blocks(job.refit, width)
    return [*blocks, *check_blocks(printed_reasons(assessment), unit, width)]


def check_blocks(reasons: Sequence[Reason], unit: Unit, width: float) -> Sequence[Written]:
    """Every check: those that ask for something each by itself, the others together where their source is the same."""
    weighty = [each for each in reasons if each.level in ("refuse", "measure")]
    others = [each for each in reasons if each.level in ("caution", "note")]
    heading = Block.heading("Every check, with its figures and source")
    return [heading, *reason_blocks(weighty, unit, width), *joined_blocks(others, unit, width)]


def injury_blocks(of: RepairDimensions, unit: Unit, width: float, *, refused: bool = False) -> Sequence[Written]:
    """The dimensions to work to at one injury, then its ground as a tape finds it.

    Of a refused tire they are what it was weighed with, and nothing is said of how to work.
    """
    cutter = "as reamed" if of.reamed else "foreseen: gauge again after each cutter"
    rows = [
        ("Unit", _unit(of, unit)),
        ("Cutter", f"{_ranged(of.cutter, unit)}, {cutter}"),
        ("Channel", f"{_ranged(of.channel, unit)} long"),
        *([] if refused else [("Stem before it is cut", _stem(of, unit))]),
        ("Middle of the head", _middle(of, unit)),
        ("Head to the belt edge", f"{_gap(of.belt_edge, unit)}, + inside it"),
    ]
    rows += [("How the head lies", of.orientation)] if of.orientation and not refused else []
    rows += [("Nearest head", _neighbors(of.neighbors, unit))] if of.neighbors else []
    rows += [("Would clear", "; ".join(each.how for each in of.would_clear))] if of.would_clear else []
    rows += [("Cement", f"{_number(of.cement_ml)} ml")] if of.cement_ml is not None and not refused else []
    title = f"Injury {of.injury}: {'what it was weighed with' if refused else 'to work to'}"
    blocks = table(title, (), rows, (_LABEL, _VALUE), width)
    ground = [_outline(each, unit) for each in of.outlines]
    heads = ("", "across", "around", "from the outboard edge", "from the datum, around the tread", "true area")
    return [*blocks, *table(f"Injury {of.injury}: ground on the liner", heads, ground, (16, 18, 18, 36, 46, 22), width)]


def _unit(of: RepairDimensions, unit: Unit) -> str:
    missing = "" if of.kind_in_stock else ", which is not in stock"
    fitted = "none chosen yet" if of.unit is None else unit_said(of.unit, unit)
    return f"{fitted}; {of.kind_why}{missing}"


def unit_said(of: RepairUnit, unit: Unit) -> str:
    """Stem and head of a repair unit."""
    head = length(of.head_length_mm, unit)
    if of.head_width_mm is not None:
        head = f"{figure(of.head_length_mm, unit)} × {length(of.head_width_mm, unit)}, long side {of.head_along}"
    return f"stem {length(of.stem_mm, unit)}, head {head}"


def _stem(of: RepairDimensions, unit: Unit) -> str:
    if of.stem_at_least is None:
        return UNKNOWN
    said = f"at least {length(of.stem_at_least, unit)} long"
    return f"{said}; the one in stock is {length(of.stem_short, unit)} too short" if of.stem_short else said


def _middle(of: RepairDimensions, unit: Unit) -> str:
    parts = [
        UNKNOWN if of.from_outboard_edge is None else f"{length(of.from_outboard_edge, unit)} from the outboard edge",
        "around not known" if of.from_datum is None else f"{length(of.from_datum, unit)} from the datum",
        *([] if of.around_deg is None else [angle(of.around_deg)]),
    ]
    return ", ".join(parts)


def _neighbors(neighbors: Sequence[Neighbor], unit: Unit) -> str:
    nearest = neighbors[0]
    said = f"{nearest.id}, gap {_gap(nearest.gap_mm, unit)}"
    return said if len(neighbors) == 1 else f"{said}; {len(neighbors) - 1} others further away"


def _outline(of: Outline, unit: Unit) -> tuple[str, ...]:
    return (
        OUTLINE_WORDS[of.name], length(2 * of.across, unit), length(2 * of.around, unit),
        _both(of.from_outboard_edge, unit), _both(of.from_datum, unit), area(of.area_mm2, unit),
    )


def _both(ends: tuple[float, float] | None, unit: Unit) -> str:
    return UNKNOWN if ends is None else f"{figure(ends[0], unit)} to {length(ends[1], unit)}"


def _ranged(of: Range, unit: Unit) -> str:
    """One figure where it can be no other, else least to greatest."""
    if of.low is not None and of.high is not None and figure(of.low, unit) == figure(of.high, unit):
        return length(of.high, unit)
    return span(of.low, of.high, unit)


def _gap(of: Range, unit: Unit) -> str:
    ends = span(of.low, of.high, unit)
    return ends if of.stated is None else f"{length(of.stated, unit)} ({ends})"


def _number(of: Range) -> str:
    return f"{of.low:.1f} to {of.high:.1f}" if of.low is not None and of.high is not None else UNKNOWN


def pair_blocks(assessment: Assessment, unit: Unit, width: float) -> Sequence[Written]:
    """The nearest pairs, and how many are left out."""
    pairs = sorted(assessment.pairs, key=lambda each: inf if each.distance_mm is None else each.distance_mm)
    rows = [_pair(each, unit) for each in pairs[:NEAREST_PAIRS]]
    title = "Pairs" if len(pairs) <= NEAREST_PAIRS else f"Pairs, the {NEAREST_PAIRS} nearest of {len(pairs)}"
    heads = ("", "middle to middle", "around the tire", "around the tread", "heads overlap", "buffed overlap")
    return table(title, heads, rows, (22, 30, 28, 30, 28, 28), width)


def _pair(of: AssessedPair, unit: Unit) -> tuple[str, ...]:
    def said(value: float | None, words: Callable[[float], str]) -> str:
        return UNKNOWN if value is None else words(value)

    def shared(mm2: float) -> str:
        return area(mm2, unit) if mm2 > 0 else "none"

    return (
        f"{of.first} and {of.second}", said(of.distance_mm, lambda mm: length(mm, unit)), said(of.around_deg, angle),
        said(of.around_tread_mm, lambda mm: length(mm, unit)),
        said(of.head_overlap_mm2, shared), said(of.buffed_overlap_mm2, shared),
    )


def stock_blocks(assessment: Assessment, unit: Unit, width: float) -> Sequence[Written]:
    """The stock the answer was given with: the units that would be fitted, the borders, and on whose word."""
    stock: Stock = assessment.stock
    used = dict.fromkeys(mark.unit for mark in assessment.injuries if mark.unit is not None)
    beyond = stock.beyond_the_head
    borders = (
        f"buffed {length(beyond.border, unit)} and cleaned {length(beyond.pre_cleaned, unit)} beyond the head, sealed "
        f"{length(beyond.sealed, unit)} beyond the buffed edge ({beyond.source}; {beyond.grade})"
    )
    rows = [
        ("Units reckoned with", "; ".join(unit_said(each, unit) for each in used) or "none"), ("Ground", borders),
        ("Whose figures", f"{stock.source} ({stock.grade})"),
    ]
    return table("Stock", (), rows, (_LABEL, _VALUE), width)


def _air_l(assessment: Assessment, check: LeakCheck | None) -> float | None:
    """Liters of air: as entered, else of the section as drawn, else unknown."""
    if check is not None and check.air_volume_l is not None:
        return check.air_volume_l
    section = section_of(assessment)
    return None if section is None else section.air_volume_l


def leak_blocks(check: LeakCheck | None, air_l: float | None, width: float) -> Sequence[Written]:
    """The leak check as it was entered, and what it tells where that can be told; nothing where none was entered."""
    if check is None:
        return []
    rows = [
        ("Before", _read(check.before, check.before_temperature)),
        ("After", _read(check.after, check.after_temperature)),
        ("Hours between", UNKNOWN if check.hours is None else f"{check.hours:g}"),
    ]
    rows += [("Gauge off by", f"± {check.gauge.value:g} {check.gauge.unit}")] if check.gauge else []
    rows += [("Air in the tire", f"{check.air_volume_l:g} L")] if check.air_volume_l else []
    if air_l is not None and check.before is not None and None not in (check.after, check.hours):
        found = leak_found(check, air_l, volume_exact=check.air_volume_l is not None)
        rows.append(("What it tells", " ".join(leak_lines(found, check.before.unit))))
    return table("Leak check", (), rows, (_LABEL, _VALUE), width)


def _read(pressure: Pressure | None, temperature: Temperature | None) -> str:
    said = UNKNOWN if pressure is None else f"{pressure.value:g} {pressure.unit}"
    return said if temperature is None else f"{said} at {temperature.value:g} °{temperature.unit}"


def refit_blocks(refit: Refit | None, width: float) -> Sequence[Written]:
    """The refit as it was entered, and the guide to it; nothing where none was entered."""
    if refit is None:
        return []
    rows = [
        ("Nuts", UNKNOWN if refit.nuts is None else f"{refit.nuts}"),
        ("Thread", refit.thread or UNKNOWN),
        ("Class of the studs", refit.stud_class or UNKNOWN),
        ("The vehicle's torque", UNKNOWN if refit.torque is None else f"{refit.torque.value:g} {refit.torque.unit}"),
    ]
    rows += [("Read in", refit.torque_source)] if refit.torque_source else []
    tightened = "not yet" if refit.tightened is None else f"{refit.tightened:%Y-%m-%d %H:%M}"
    rows += [("Tightened", tightened)]
    return table("Refit", (), [*rows, *_guide(refit)], (_LABEL, _VALUE), width)


def _guide(refit: Refit) -> list[tuple[str, str]]:
    """Order, torque, pull on the studs and the second check; what was entered wrong says so in their place."""
    try:
        guide = refit_guide(refit)
    except TiremapError as error:
        return [("Guide", str(error))]
    rows = [("Order", "-".join(map(str, guide.order.order)))] if guide.order is not None else []
    rows += [("Torque", guide.torque_says), ("Pull on the studs", guide.preload_says)]
    return [(label, said) for label, said in [*rows, ("Check again", guide.check_again)] if said]
