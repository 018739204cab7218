"""Hypothesis strategies for everything a job holds: random but valid, measured as such things are measured.

``jobs()`` ranges over sizes, units, origins, ways of measuring and tolerances of a bench, with any field unknown.
Pass ``later=True`` for records that also hold fields this version does not know.
"""

from datetime import UTC, datetime, timedelta, timezone
from typing import Any

from hypothesis import strategies as st

from tiremap.errors import TiremapError
from tiremap.model.job import (
    Checks,
    Decision,
    Finding,
    Injury,
    Job,
    MakerWord,
    Repair,
    RepairsLookedFor,
    Tire,
    TypedDimensions,
)
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length
from tiremap.rules.facts import tire_facts

SIZE_CODES = ("205/55R16", "225/45R17", "195/65R15 91H", "155/80R13", "315/35ZR20", "LT245/75R16", "185R14C")
RULE_SETS = ("united_kingdom", "north_america")

words = st.text(max_size=20)
tolerances = st.none() | st.floats(0, 10)
json_values = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**70), 2**70) | st.floats(allow_nan=False, allow_infinity=False) | words,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words, inner, max_size=3),
    max_leaves=6,
)
later_fields = st.dictionaries(words.map(lambda name: f"later_{name}"), json_values, max_size=2)


def maybe(strategy: st.SearchStrategy) -> st.SearchStrategy:
    """The field unknown, or as drawn."""
    return st.none() | strategy


def seldom(strategy: st.SearchStrategy) -> st.SearchStrategy:
    """As `maybe`, mostly unknown: what few technicians enter."""
    return st.none() | st.none() | st.none() | strategy


def records(kind: type, later: bool = False, /, **fields: st.SearchStrategy) -> st.SearchStrategy:
    """Records of a kind from a strategy for each field; with ``later``, holding unknown fields too."""
    known = st.fixed_dictionaries(fields)
    if not later:
        return known.map(lambda drawn: kind(**drawn))
    return st.tuples(known, later_fields).map(lambda drawn: kind(**drawn[1], **drawn[0]))


def taken(how: tuple[str, ...]) -> dict[str, st.SearchStrategy]:
    """The fields every measurement has; ``how`` are the ways such a thing is measured."""
    return {"how": st.sampled_from(how), "minus": tolerances, "plus": tolerances}


def lengths(
    least: float = 0, most: float = 400, how: tuple[str, ...] = ("tape", "rule", "gauge", "exact"), later: bool = False
) -> st.SearchStrategy[Length]:
    """Lengths between ``least`` and ``most`` mm, in mm or inches."""
    return _in_mm_or_inches(Length, least, most, how, later)


def hole_sizes(least: float = 0.5, most: float = 15, later: bool = False) -> st.SearchStrategy[HoleSize]:
    """Hole diameters, mm or inches; by gauge sometimes with the one that stops."""
    holes = _in_mm_or_inches(HoleSize, least, most, ("gauge", "rule", "object", "eye"), later)
    stepped = st.tuples(holes, st.floats(0.1, 2)).map(
        lambda drawn: HoleSize(**{**dict(drawn[0]), "how": "gauge", "stops": drawn[0].value + drawn[1]})
    )
    return holes | stepped


def acrosses(reach_mm: float = 150, later: bool = False) -> st.SearchStrategy[Across]:
    """Places across: from the center to either side, or from either tread edge inward."""
    how = taken(("tape", "rule", "probe", "eye", "exact"))
    edges = st.sampled_from(["outboard_edge", "inboard_edge"])
    ways = []
    for unit, per_unit in (("mm", 1.0), ("in", 25.4)):
        reach = reach_mm / per_unit
        center = {"value": st.floats(-reach, reach), "origin": st.just("center")}
        edge = {"value": st.floats(0, reach), "origin": edges}
        ways += [records(Across, later, unit=st.just(unit), **place, **how) for place in (center, edge)]
    return st.one_of(ways)


def bead_toes(later: bool = False) -> st.SearchStrategy[BeadToes]:
    """Places on the liner from both bead toes, mm or inches."""
    return st.one_of(
        records(
            BeadToes,
            later,
            from_outboard=st.floats(0, 500 / per_unit),
            from_inboard=st.floats(0, 500 / per_unit),
            unit=st.just(unit),
            **taken(("tape", "exact")),
        )
        for unit, per_unit in (("mm", 1.0), ("in", 25.4))
    )


def arounds(later: bool = False) -> st.SearchStrategy[Around]:
    """Places around: degrees, tape along the tread, or clock hours, up to a turn and a little more."""
    ways = (
        ("deg", 400, ("protractor", "clock", "eye", "exact")),
        ("mm", 2500, ("tape", "exact")),
        ("in", 100, ("tape", "exact")),
        ("h", 12, ("clock",)),
    )
    return st.one_of(
        records(Around, later, value=st.floats(0, most), unit=st.just(unit), **taken(how)) for unit, most, how in ways
    )


def leans(most: float = 60, later: bool = False) -> st.SearchStrategy[Lean]:
    """One part of a lean, degrees."""
    return records(Lean, later, value=st.floats(-most, most), **taken(("probe", "eye", "exact")))


def injuries(id: str = "1", later: bool = False) -> st.SearchStrategy[Injury]:
    """Injuries of that id with any of their measurements unknown."""
    return records(
        Injury,
        later,
        id=st.just(id),
        outside=maybe(acrosses(later=later)),
        inside=maybe(acrosses(later=later) | bead_toes(later)),
        around=maybe(arounds(later)),
        lean_across=maybe(leans(later=later)),
        lean_around=maybe(leans(later=later)),
        size_outside=maybe(hole_sizes(later=later)),
        size_inside=maybe(hole_sizes(later=later)),
        size_prepared=maybe(lengths(3, 15, ("exact",), later)),
        kind=maybe(st.sampled_from(["puncture", "cut"])),
        object=words,
        cords_splayed=maybe(st.booleans()),
        note=words,
    )


def repairs(id: str = "R1", later: bool = False) -> st.SearchStrategy[Repair]:
    """Earlier repairs of that id with any of their measurements unknown."""
    heads = maybe(lengths(15, 100, ("tape", "rule", "eye"), later))
    return records(
        Repair,
        later,
        id=st.just(id),
        inside=maybe(acrosses(later=later) | bead_toes(later)),
        around=maybe(arounds(later)),
        head_length=heads,
        head_width=heads,
        head_along=st.sampled_from(["around", "across"]),
        kind=st.sampled_from(["stem_and_head", "plug_only", "patch_only", "string", "unknown"]),
        date=maybe(words),
        note=words,
    )


def tires(later: bool = False) -> st.SearchStrategy[Tire]:
    """Tires with a known size code, or typed dimensions, or neither, and any measurement unknown.

    Those that are refused in words, a crown thicker than the section is high among them, are left out: nothing else can
    be asked about them.
    """
    typed = records(
        TypedDimensions,
        later,
        overall_diameter_mm=st.floats(500, 1200),
        section_width_mm=st.floats(120, 400),
        rim_diameter_mm=st.floats(300, 480),
        rim_width_in=st.floats(3, 14),
    )
    sizes = st.one_of(
        st.just({}),
        st.sampled_from(SIZE_CODES).map(lambda code: {"size_code": code}),
        typed.map(lambda dimensions: {"size_code": "6.50-16", "typed_dimensions": dimensions}),
    )
    rest = records(
        Tire,
        later,
        tire_class=maybe(st.sampled_from(["passenger", "light_truck", "truck", "temporary_spare"])),
        number=maybe(words),
        date_code=maybe(st.from_regex(r"[0-5][0-9][0-2][0-9]", fullmatch=True)),
        rim_width_in=maybe(st.floats(3, 14)),
        tread_width=maybe(lengths(80, 300, ("tape", "exact"), later)),
        tread_depth=maybe(lengths(0, 17, ("gauge", "rule", "exact"), later)),
        tread_depth_outboard=seldom(lengths(0, 17, ("gauge", "rule", "exact"), later)),
        tread_depth_central=seldom(lengths(0, 17, ("gauge", "rule", "exact"), later)),
        tread_depth_inboard=seldom(lengths(0, 17, ("gauge", "rule", "exact"), later)),
        between_outer_grooves=seldom(lengths(50, 250, ("tape", "rule", "exact"), later)),
        under_grooves=maybe(lengths(2, 15, ("gauge", "probe", "exact"), later)),
        belt_width=maybe(lengths(70, 300, ("tape", "exact"), later)),
        crack_depth=maybe(lengths(0, 5, ("gauge", "rule", "exact"), later)),
        cracks_joined=maybe(st.booleans()),
        datum=maybe(st.sampled_from(["valve", "date_code"])),
        outboard_by=st.sampled_from(["known", "identification_number", "unknown"]),
        maker_word=maybe(maker_words(later)),
    )
    return st.tuples(rest, sizes).map(lambda drawn: Tire(**{**dict(drawn[0]), **drawn[1]})).filter(_is_not_refused)


def _is_not_refused(tire: Tire) -> bool:
    try:
        tire_facts(Job(tire=tire))
    except TiremapError:
        return False
    return True


def maker_words(later: bool = False) -> st.SearchStrategy[MakerWord]:
    """A maker's figures with their source."""
    return records(
        MakerWord,
        later,
        source=st.text(min_size=1, max_size=20),
        zone_inset=maybe(lengths(0, 60, later=later)),
        largest_prepared_size=maybe(lengths(3, 12, later=later)),
        head_past_tread_edge=st.booleans(),
    )


def checks(later: bool = False) -> st.SearchStrategy[Checks]:
    """Checks answered singly, together or not at all."""
    return records(
        Checks,
        later,
        **{
            name: maybe(records(Finding, later, state=st.sampled_from(["fine", "found"]), together=st.booleans()))
            for name in Checks.model_fields
            if name != "earlier_repairs"
        },
        earlier_repairs=maybe(
            records(RepairsLookedFor, later, state=st.sampled_from(["none", "all_marked"]), together=st.booleans())
        ),
    )


def decisions(later: bool = False) -> st.SearchStrategy[Decision]:
    """Decisions at any time of day, with and without a time zone."""
    zones = st.none() | st.just(UTC) | st.integers(-14 * 60, 14 * 60).map(lambda m: timezone(timedelta(minutes=m)))
    return records(
        Decision,
        later,
        date=st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1), timezones=zones),
        rule_set=st.sampled_from(RULE_SETS),
        answer=st.sampled_from(["repairable", "measure_first", "not_repairable"]),
        decision=st.sampled_from(["repair", "do_not_repair", "measure"]),
        by=words,
        note=words,
    )


@st.composite
def jobs(draw: Any, most_marks: int = 3, later: bool = False) -> Job:
    """Whole jobs with up to ``most_marks`` injuries and as many earlier repairs."""
    counts = st.integers(0, most_marks)
    drawn_injuries = [draw(injuries(str(i + 1), later)) for i in range(draw(counts))]
    drawn_repairs = [draw(repairs(f"R{i + 1}", later)) for i in range(draw(counts))]
    return draw(
        records(
            Job,
            later,
            job_number=maybe(words),
            fleet_number=maybe(words),
            date=maybe(st.dates().map(str)),
            rule_set=maybe(st.sampled_from(RULE_SETS)),
            tire=tires(later),
            checks=checks(later),
            injuries=st.just(tuple(drawn_injuries)),
            repairs=st.just(tuple(drawn_repairs)),
            decisions=st.lists(decisions(later), max_size=2).map(tuple),
            note=words,
        )
    )


def _in_mm_or_inches(kind: type, least: float, most: float, how: tuple[str, ...], later: bool) -> st.SearchStrategy:
    return st.one_of(
        records(kind, later, value=st.floats(least / per_unit, most / per_unit), unit=st.just(unit), **taken(how))
        for unit, per_unit in (("mm", 1.0), ("in", 25.4))
    )
