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
from tiremap.ui.language import TableText, marked, told, tr
from tiremap.ui.wording import margin as rounded_down
from tiremap.ui.wording import mm_as, number
from tiremap.workshop.stock import house_stock

PLACEHOLDER = marked("The stock is a placeholder, assumed: enter the shop's own units.")
OUTLINE_WORDS = {
    "head": marked("Head"),
    "buffed": marked("Buffed"),
    "pre_cleaned": marked("Pre-cleaned"),
    "sealed": marked("Sealed"),
}
_HEADS = {
    "around": marked("Stem {stem}, head {long} by {wide}, long side around the tire."),
    "across": marked("Stem {stem}, head {long} by {wide}, long side across the tire."),
}
_KINDS = {"one_piece": marked("One piece"), "stem_and_patch": marked("Stem and patch apart")}
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
        return tr("Stem {stem}, round head {long}.", stem=stem, long=long)
    return told(_HEADS[unit.head_along], stem=stem, long=long, wide=wide)


def dimension_lines(
    dimensions: RepairDimensions, mark: AssessedMark, assessment: Assessment, unit: LengthUnit
) -> tuple[Line, ...]:
    """Everything but the outlines, in the order the work meets it."""
    lines = [_kind(dimensions), _cutter(dimensions, unit), _unit(dimensions, unit)]
    hangs_on = _channel_hangs_on(mark, assessment)
    lines += [_channel(dimensions.channel, hangs_on, unit), _stem(dimensions, unit)]
    if dimensions.orientation:
        lines.append(Line(tr("Which way"), dimensions.orientation))
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
        _on_whose_word(tr("Stock"), stock.grade, stock.source),
        _on_whose_word(tr("Ground beyond the head"), beyond.grade, beyond.source),
        _on_whose_word(tr("Stem longer than the channel"), **_word(read["stem"])),
        _on_whose_word(tr("Cement"), **_word(read["cement"])),
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
    says = tr("Not known yet") if dimensions.kind is None else told(_KINDS[dimensions.kind])
    why = _sentence(dimensions.kind_why)
    if not dimensions.kind_in_stock:
        return Line(tr("Unit"), says, tr("{why} The shop's stock has none of this kind.", why=why), wrong=True)
    return Line(tr("Unit"), says, why)


def _cutter(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    cutter = dimensions.cutter
    if dimensions.reamed:
        return Line(tr("Cutter"), tr("{size}, reamed", size=mm_as(cutter.high or cutter.low, unit)))
    least = mm_as(cutter.low, unit)
    if cutter.stated is None:
        return Line(
            tr("Cutter"),
            tr("{least} or more", least=least),
            tr("Measure the hole outside and inside: its size is not known."),
        )
    if cutter.high is None:
        return Line(
            tr("Cutter"),
            tr("{least} or more", least=least),
            tr("The hole may be larger than any cutter in stock."),
            wrong=True,
        )
    if cutter.low == cutter.high:
        return Line(tr("Cutter"), tr("{least}, foreseen", least=least), tr("Until the hole has been reamed."))
    return Line(
        tr("Cutter"),
        tr("{least} to {most}, foreseen", least=least, most=mm_as(cutter.high, unit)),
        tr("Gauge the hole to know which."),
    )


def _unit(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    if dimensions.unit is not None:
        return Line(tr("Stem and head"), unit_in_words(dimensions.unit, unit))
    if dimensions.cutter.stated is None:
        return Line(tr("Stem and head"), tr("Not known"), tr("Measure the hole outside and inside."))
    return Line(
        tr("Stem and head"), tr("None in stock"), tr("No stem in stock is thick enough for this hole."), wrong=True
    )


def place_hangs_on(mark: AssessedMark, assessment: Assessment) -> str:
    """What was never entered of all that places the middle of the head across, as one sentence."""
    tire, missing = assessment.job.tire, _of_the_place(mark)
    if tire.tread_width is None:
        missing.append(tr("the tread width"))
    return _still(missing)


def _channel_hangs_on(mark: AssessedMark, assessment: Assessment) -> str:
    """What was never entered of all the channel's length hangs on, as one sentence."""
    missing = []
    if mark.facts.thickness.stated is None:
        if assessment.job.tire.under_grooves is None:
            missing.append(tr("the thickness under the grooves"))
        if assessment.facts.depths.at_a_hole.stated is None:
            missing.append(tr("the tread depth at every place"))
    missing += _of_the_place(mark)
    if mark.facts.lean_around.stated is None:
        missing.append(tr("the lean around"))
    return _still(missing)


def _of_the_place(mark: AssessedMark) -> list[str]:
    facts = mark.facts
    if facts.outside is None and facts.inside is None:
        return [tr("the place across")]
    both = facts.outside is not None and facts.inside is not None
    return [tr("the lean across")] if facts.lean_across.stated is None and not both else []


def _still(missing: list[str]) -> str:
    return tr("Still to measure: {missing}.", missing=", ".join(missing)) if missing else ""


def _channel(channel: Range, hangs_on: str, unit: LengthUnit) -> Line:
    least = rounded_down(channel.low, unit)
    if channel.high is None:
        return Line(tr("Channel"), tr("{least} or longer", least=least), hangs_on)
    most = rounded_up(channel.high, unit)
    return Line(
        tr("Channel"),
        tr("{least} long", least=least) if least == most else tr("{least} to {most} long", least=least, most=most),
        hangs_on,
    )


def _stem(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    if dimensions.stem_at_least is None:
        return Line(tr("Stem length"), tr("Not known"), tr("It hangs on the channel."))
    says = tr("{length} or longer, before it is cut", length=rounded_up(dimensions.stem_at_least, unit))
    if dimensions.stem_short is None:
        if dimensions.unit is None:
            return Line(tr("Stem length"), says)
        return Line(
            tr("Stem length"), says, tr("The stock does not say how long this stem is: hold it against the tire.")
        )
    in_stock = mm_as(dimensions.unit.stem_length_mm, unit)
    if dimensions.stem_short > 0:
        short = rounded_up(dimensions.stem_short, unit)
        return Line(
            tr("Stem length"),
            says,
            tr("The stem in stock is {in_stock} long: {short} too short.", in_stock=in_stock, short=short),
            wrong=True,
        )
    return Line(tr("Stem length"), says, tr("The stem in stock is {in_stock} long: enough.", in_stock=in_stock))


def _place_across(dimensions: RepairDimensions, hangs_on: str, unit: LengthUnit) -> Line:
    name, value = tr("Middle, across"), dimensions.from_outboard_edge
    if value is None:
        return Line(name, tr("Not known"), hangs_on)
    return Line(
        name,
        tr("{length} from the outboard tread edge", length=rounded(value, unit)),
        tr("Where the hole comes out inside."),
    )


def _place_around(dimensions: RepairDimensions, unit: LengthUnit) -> Line:
    name, value = tr("Middle, around"), dimensions.from_datum
    if value is None:
        return Line(name, tr("Not known"), tr("Measure the place around from the datum."))
    angle = "" if dimensions.around_deg is None else f" ({number(dimensions.around_deg, 1)}°)"
    return Line(name, tr("{length} over the tread from the datum{angle}", length=rounded(value, unit), angle=angle))


def _belt_edge(gap: Range, mark: AssessedMark, assessment: Assessment, unit: LengthUnit) -> Line:
    tire = assessment.job.tire
    missing = [tr("the belt width")] if tire.belt_width is None else []
    if tire.tread_width is None:
        missing.append(tr("the tread width"))
    hint = _still(missing + _of_the_place(mark))
    return _gap(tr("To the belt edge"), gap, hint, marked("The head may pass the belt edge by {length}."), unit)


def _neighbor(neighbor: Neighbor, assessment: Assessment, unit: LengthUnit) -> Line:
    name = tr("To {mark}", mark=_mark_in_words(neighbor.id, assessment))
    unknown = neighbor.gap_mm.stated is None
    hint = tr("Still to measure: size and place, across and around, of both.") if unknown else ""
    return _gap(name, neighbor.gap_mm, hint, marked("The heads may overlap by {length}."), unit)


def _gap(name: str, gap: Range, hint: str, past: TableText, unit: LengthUnit) -> Line:
    """A clearance by its least; one that may be negative says by how much."""
    if gap.low is None:
        return Line(name, tr("Not known"), hint)
    if gap.is_clear:
        return Line(name, tr("{length} or more", length=rounded_down(gap.low, unit)), hint)
    return Line(name, told(past, length=rounded_up(-gap.low, unit)), hint, wrong=not hint)


def _would_clear(clears: Clears, assessment: Assessment, unit: LengthUnit) -> Line:
    what = [tr("the belt edge")] if clears.clears_belt_edge else []
    what += [_mark_in_words(each, assessment) for each in clears.clears]
    hint = tr("{how} It clears {what}.", how=said_in(_sentence(clears.how), unit), what=", ".join(what))
    return Line(tr("Would clear"), unit_in_words(clears.unit, unit), hint)


def _mark_in_words(id: str, assessment: Assessment) -> str:
    return tr("repair {id}", id=id) if any(each.id == id for each in assessment.repairs) else tr("injury {id}", id=id)


def _cement(dimensions: RepairDimensions) -> Line:
    if dimensions.cement_ml is None:
        return Line(
            tr("Cement"), tr("Not known"), tr("It hangs on the unit's head: measure the hole outside and inside.")
        )
    found = dimensions.cement_ml
    return Line(
        tr("Cement"), tr("About {volume} mL for the buffed ground", volume=number(found.stated, 1)),
        tr("{low} to {high} mL, by brush.", low=number(found.low, 1), high=number(found.high, 1)),
    )
