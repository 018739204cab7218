"""The dimensions of a repair as lines to read; of what is unknown, which measurement it hangs on.

A least length is rounded up, a clearance down; the figures themselves stay as they were worked out.
"""

from dataclasses import dataclass
from math import ceil
from typing import Any

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.said import said_in
from tiremap.model.measures import LengthUnit
from tiremap.model.stock import RepairUnit
from tiremap.model.units import MM_PER_INCH
from tiremap.repair_dimensions import Clears, Neighbor, Outline, Range, RepairDimensions
from tiremap.resources import read_toml
from tiremap.ui.wording import margin as rounded_down
from tiremap.ui.wording import mm_as, number
from tiremap.workshop.stock import house_stock

PLACEHOLDER = "The stock is a placeholder, assumed: enter the shop's own units."
OUTLINE_WORDS = {"head": "Head", "buffed": "Buffed", "pre_cleaned": "Pre-cleaned", "sealed": "Sealed"}
_KINDS = {"one_piece": "One piece", "stem_and_patch": "Stem and patch apart"}
_DECIMALS = {"mm": 1, "in": 2}
"""As finely as a tape on the bench is read."""
_HAIR = 1e-6


@dataclass(frozen=True)
class Line:
    """One dimension: its name, its value, what is to be known with it; ``wrong`` where it cannot be worked to."""

    name: str
    says: str
    hint: str = ""
    wrong: bool = False


def rounded_up(mm: float, unit: LengthUnit) -> str:
    """A length given in mm, rounded up to a tenth of a millimeter or a hundredth of an inch."""
    value, steps = (mm / MM_PER_INCH if unit == "in" else mm), 10 ** _DECIMALS[unit]
    return f"{number(ceil(value * steps - _HAIR) / steps, _DECIMALS[unit])} {unit}"


def rounded(mm: float, unit: LengthUnit) -> str:
    """A length given in mm, to the nearest tenth of a millimeter or hundredth of an inch."""
    return mm_as(mm, unit, _DECIMALS[unit])


def area(mm2: float, unit: LengthUnit) -> str:
    """An area given in mm2, in cm2 or square inches."""
    if unit == "in":
        return f"{number(mm2 / MM_PER_INCH**2, 2)} in²"
    return f"{number(mm2 / 100, 1)} cm²"


def unit_in_words(unit: RepairUnit, shown_in: LengthUnit) -> str:
    """Stem and head of a unit."""
    stem, long, wide = (mm_as(each, shown_in) for each in (unit.stem_mm, unit.head_length_mm, unit.width_mm))
    if unit.head_length_mm == unit.width_mm:
        return f"Stem {stem}, round head {long}."
    return f"Stem {stem}, head {long} by {wide}, long side {unit.head_along} the tire."


def dimension_lines(
    dimensions: RepairDimensions, mark: AssessedMark, assessment: Assessment, unit: LengthUnit
) -> tuple[Line, ...]:
    """Everything but the outlines, in the order the work meets it."""
    lines = [_kind(dimensions), _cutter(dimensions, unit), _unit(dimensions, unit)]
    hangs_on = _channel_hangs_on(mark, assessment)
    lines += [_channel(dimensions.channel, hangs_on, unit), _stem(dimensions, unit)]
    if dimensions.orientation:
        lines.append(Line("Which way", dimensions.orientation))
    lines += [_place_across(dimensions, place_hangs_on(mark, assessment), unit), _place_around(dimensions, unit)]
    if dimensions.unit is not None:
        lines.append(_belt_edge(dimensions.belt_edge, mark, assessment, unit))
        lines += [_neighbor(each, assessment, unit) for each in dimensions.neighbors]
        lines += [_would_clear(each, assessment, unit) for each in dimensions.would_clear]
    lines.append(_cement(dimensions))
    return tuple(lines)


def outline_reach(outline: Outline, unit: LengthUnit) -> tuple[str, str]:
    """How far it reaches from the middle of the hole, across and around: enough ground rather than too little."""
    return rounded_up(outline.across, unit), rounded_up(outline.around, unit)


def from_to(ends: tuple[float, float], unit: LengthUnit) -> tuple[str, str]:
    """Where ground begins and ends: enough rather than too little."""
    return rounded_down(ends[0], unit), rounded_up(ends[1], unit)


def sources(assessment: Assessment) -> tuple[str, ...]:
    """On whose word the dimensions stand, line by line."""
    read, stock = read_toml("workshop", "repair_dimensions.toml"), assessment.stock
    beyond = stock.beyond_the_head
    return (
        _on_whose_word("Stock", stock.grade, stock.source),
        _on_whose_word("Ground beyond the head", beyond.grade, beyond.source),
        _on_whose_word("Stem longer than the channel", **_word(read["stem"])),
        _on_whose_word("Cement", **_word(read["cement"])),
    )


def is_placeholder(assessment: Assessment) -> bool:
    """Whether the stock is the one that ships."""
    return assessment.stock == house_stock()


def _word(entry: dict[str, Any]) -> dict[str, str]:
    return {"grade": entry["grade"], "source": entry["source"]}


def _on_whose_word(what: str, grade: str, source: str) -> str:
    """A source often begins with its grade; it is not said twice."""
    return f"{what}: {source}." if source.startswith(grade) else f"{what} ({grade}): {source}."


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _kind(dimensions: RepairDimensions) -> Line:
    says = "Not known yet" if dimensions.kind is None else _KINDS[dimensions.kind]
    why = _sentence(dimensions.kind_why)
    if not dimensions.kind_in_stock:
        return Line("Unit", says, f"{why} The shop's stock has none of this kind.", wrong=True)
    return Line("Unit", says, why)


def _cutter(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    cutter = dimensions.cutter
    if dimensions.reamed:
        return Line("Cutter", f"{mm_as(cutter.high or cutter.low, unit)}, reamed")
    least = mm_as(cutter.low, unit)
    if cutter.stated is None:
        return Line("Cutter", f"{least} or more", "Measure the hole outside and inside: its size is not known.")
    if cutter.high is None:
        return Line("Cutter", f"{least} or more", "The hole may be larger than any cutter in stock.", wrong=True)
    if cutter.low == cutter.high:
        return Line("Cutter", f"{least}, foreseen", "Until the hole has been reamed.")
    return Line("Cutter", f"{least} to {mm_as(cutter.high, unit)}, foreseen", "Gauge the hole to know which.")


def _unit(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    if dimensions.unit is not None:
        return Line("Stem and head", unit_in_words(dimensions.unit, unit))
    if dimensions.cutter.stated is None:
        return Line("Stem and head", "Not known", "Measure the hole outside and inside.")
    return Line("Stem and head", "None in stock", "No stem in stock is thick enough for this hole.", wrong=True)


def place_hangs_on(mark: AssessedMark, assessment: Assessment) -> str:
    """What was never entered of all that places the middle of the head across, as one sentence."""
    tire, missing = assessment.job.tire, _of_the_place(mark)
    if tire.tread_width is None:
        missing.append("the tread width")
    return _still(missing)


def _channel_hangs_on(mark: AssessedMark, assessment: Assessment) -> str:
    """What was never entered of all the channel's length hangs on, as one sentence."""
    missing = []
    if mark.facts.thickness.stated is None:
        if assessment.job.tire.under_grooves is None:
            missing.append("the thickness under the grooves")
        if assessment.facts.depths.at_a_hole.stated is None:
            missing.append("the tread depth at every place")
    missing += _of_the_place(mark)
    if mark.facts.lean_around.stated is None:
        missing.append("the lean around")
    return _still(missing)


def _of_the_place(mark: AssessedMark) -> list[str]:
    facts = mark.facts
    if facts.outside is None and facts.inside is None:
        return ["the place across"]
    both = facts.outside is not None and facts.inside is not None
    return ["the lean across"] if facts.lean_across.stated is None and not both else []


def _still(missing: list[str]) -> str:
    return f"Still to measure: {', '.join(missing)}." if missing else ""


def _channel(channel: Range, hangs_on: str, unit: LengthUnit) -> Line:
    least = rounded_down(channel.low, unit)
    if channel.high is None:
        return Line("Channel", f"{least} or longer", hangs_on)
    most = rounded_up(channel.high, unit)
    return Line("Channel", f"{least} long" if least == most else f"{least} to {most} long", hangs_on)


def _stem(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    if dimensions.stem_at_least is None:
        return Line("Stem length", "Not known", "It hangs on the channel.")
    says = f"{rounded_up(dimensions.stem_at_least, unit)} or longer, before it is cut"
    if dimensions.stem_short is None:
        if dimensions.unit is None:
            return Line("Stem length", says)
        return Line("Stem length", says, "The stock does not say how long this stem is: hold it against the tire.")
    in_stock = mm_as(dimensions.unit.stem_length_mm, unit)
    if dimensions.stem_short > 0:
        short = rounded_up(dimensions.stem_short, unit)
        return Line("Stem length", says, f"The stem in stock is {in_stock} long: {short} too short.", wrong=True)
    return Line("Stem length", says, f"The stem in stock is {in_stock} long: enough.")


def _place_across(dimensions: RepairDimensions, hangs_on: str, unit: LengthUnit) -> Line:
    name, value = "Middle, across", dimensions.from_outboard_edge
    if value is None:
        return Line(name, "Not known", hangs_on)
    return Line(name, f"{rounded(value, unit)} from the outboard tread edge", "Where the hole comes out inside.")


def _place_around(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    name, value = "Middle, around", dimensions.from_datum
    if value is None:
        return Line(name, "Not known", "Measure the place around from the datum.")
    angle = "" if dimensions.around_deg is None else f" ({number(dimensions.around_deg, 1)}°)"
    return Line(name, f"{rounded(value, unit)} over the tread from the datum{angle}")


def _belt_edge(gap: Range, mark: AssessedMark, assessment: Assessment, unit: LengthUnit) -> Line:
    tire = assessment.job.tire
    missing = ["the belt width"] if tire.belt_width is None else []
    if tire.tread_width is None:
        missing.append("the tread width")
    hint = _still(missing + _of_the_place(mark))
    return _gap("To the belt edge", gap, hint, "The head may pass the belt edge by {}.", unit)


def _neighbor(neighbor: Neighbor, assessment: Assessment, unit: LengthUnit) -> Line:
    name = f"To {_mark_in_words(neighbor.id, assessment)}"
    unknown = neighbor.gap_mm.stated is None
    hint = "Still to measure: size and place, across and around, of both." if unknown else ""
    return _gap(name, neighbor.gap_mm, hint, "The heads may overlap by {}.", unit)


def _gap(name: str, gap: Range, hint: str, past: str, unit: LengthUnit) -> Line:
    """A clearance by its least; one that may be negative says by how much."""
    if gap.low is None:
        return Line(name, "Not known", hint)
    if gap.is_clear:
        return Line(name, f"{rounded_down(gap.low, unit)} or more", hint)
    return Line(name, past.format(rounded_up(-gap.low, unit)), hint, wrong=not hint)


def _would_clear(clears: Clears, assessment: Assessment, unit: LengthUnit) -> Line:
    what = ["the belt edge"] if clears.clears_belt_edge else []
    what += [_mark_in_words(each, assessment) for each in clears.clears]
    hint = f"{said_in(_sentence(clears.how), unit)} It clears {', '.join(what)}."
    return Line("Would clear", unit_in_words(clears.unit, unit), hint)


def _mark_in_words(id: str, assessment: Assessment) -> str:
    return f"repair {id}" if any(each.id == id for each in assessment.repairs) else f"injury {id}"


def _cement(dimensions: RepairDimensions) -> Line:
    if dimensions.cement_ml is None:
        return Line("Cement", "Not known", "It hangs on the unit's head: measure the hole outside and inside.")
    found = dimensions.cement_ml
    return Line(
        "Cement", f"About {number(found.stated, 1)} mL for the buffed ground",
        f"{number(found.low, 1)} to {number(found.high, 1)} mL, by brush.",
    )
