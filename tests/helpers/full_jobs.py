"""Jobs in which every number a job can hold may be entered, each with its own tolerance, and the exact jobs inside.

``full_jobs()`` draws what was entered; ``exact_jobs_inside(job)`` draws one job with an exact value for each quantity,
within its tolerance where it was entered and within all that is possible of it where it was not. Every tolerance is
written into the job, so that the tests read none from the program.
"""

from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st

from tests.helpers.jobs import all_fine
from tiremap.edits.change import changed
from tiremap.model.job import Injury, Job, MakerWord, Repair, Tire
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length
from tiremap.model.rule_set import RuleSet, ZoneEdge
from tiremap.model.rule_set_file import published_rule_set_names, rule_set_named
from tiremap.model.size_code import read_size_code
from tiremap.model.tread_width import tread_width_estimate
from tiremap.resources import read_toml
from tiremap.rules.facts import TireFacts, tire_facts

SIZES = {
    "passenger": ("155/80R13 79T", "185/65R15 88H", "205/55R16 91V", "225/45R17 94W"),
    "light_truck": ("185R14C 102/100R", "LT245/75R16 120/116S", "LT295/70R18 E 129/126Q"),
    "truck": ("315/80R22.5 156/150L", "215/75R17.5 118/116M"),
}
"""Sizes of each class, in every band of section width and load index a published rule set tells apart."""

DEPTHS = ("tread_depth", "tread_depth_outboard", "tread_depth_central", "tread_depth_inboard")
BRINKS = ("place", "belt", "size", "depth", "lean", "crack", "apart")
"""What may lie about its limit while all else mostly passes; of the belt, a hole the maker allows to the tread edge."""

JOB_DATE = "2026-06-01"


def published() -> tuple[RuleSet, ...]:
    return tuple(rule_set_named(name) for name in published_rule_set_names())


def every_rule_set() -> tuple[RuleSet, ...]:
    """The published rule sets, and one whose zone ends at the outermost grooves, as a shop's own may."""
    european = rule_set_named("european_makers")
    (zone,) = european.crown_zones
    grooves = zone.model_copy(update={"edge": ZoneEdge(kind="inside_outer_grooves", value=0.0)})
    return *published(), european.model_copy(update={"crown_zones": (grooves,)})


def exact(value: float, kind: type = Length, **more: Any) -> Any:
    """A measurement without any tolerance."""
    return kind(value=value, how="exact", **more)


@st.composite
def full_jobs(
    draw: st.DrawFn, rule_set: RuleSet | None = None, sizes: tuple[str, ...] = (), unknowns: bool = True,
    injuries: tuple[int, int] = (1, 2), repairs: tuple[int, int] = (0, 2), near: bool = False, brink: str = "",
    **tire: Any,
) -> Job:
    """A job of a size the rule set speaks of; ``near`` keeps to holes and treads that mostly pass.

    ``brink`` is one of `BRINKS`: that quantity lies about its limit. With ``unknowns`` any measurement may be missing;
    ``tire`` fixes some of the tire's fields.
    """
    chosen = rule_set or draw(st.sampled_from(published()))
    code = draw(st.sampled_from(sizes or [size for each in chosen.classes for size in SIZES.get(each, ())]))
    size = read_size_code(code)
    estimate = tread_width_estimate(size)
    width = draw(st.floats(estimate.least_mm, min(estimate.greatest_mm, size.nominal_width_mm)))
    much = 0.3 if near and not brink else 1.0
    deep, largest = (st.floats(4.0, 9.0), st.floats(1, 5)) if near else (st.floats(0.5, 9.0), st.floats(1, 9))
    deep = st.floats(1.3, 2.3) if brink == "depth" else deep
    largest = st.floats(4.5, 6.6) if brink == "size" else largest
    leans = st.floats(-40, 40) if near else st.floats(-60, 60)
    leans = leans if brink in ("", "lean") else st.floats(-5, 5)
    cracked = st.floats(1.1, 1.9) if brink == "crack" else st.floats(0, 1.2 if near else 3)

    def perhaps(value: Any, one_in: int = 4) -> Any:
        return None if unknowns and draw(st.integers(1, one_in)) == 1 else value

    def seldom(value: Any) -> Any:
        return value if draw(st.integers(1, 4)) == 1 else None

    def off(most: float) -> dict[str, Any]:
        how_far = st.sampled_from([0.0, most * much]) | st.floats(0, most * much)
        return {"minus": draw(how_far), "plus": draw(how_far)}

    def length(values: st.SearchStrategy[float], most: float) -> Length:
        return Length(value=draw(values), how="tape", **off(most))

    def across() -> Across:
        reach = width / 2 * (0.7 if near else 1.1)
        if brink in ("place", "belt"):
            at_edge = st.floats(-2, 20) if brink == "belt" else st.floats(15, 40)
            taken, side = draw(at_edge), draw(st.sampled_from(["outboard_edge", "inboard_edge", "center"]))
            taken = (width / 2 - taken) * draw(st.sampled_from([1, -1])) if side == "center" else taken
            return Across(value=taken, how="tape", origin=side, **off(4))
        if brink == "apart":
            return Across(value=draw(st.floats(-20, 20)), how="tape", origin="center", **off(4))
        if draw(st.booleans()):
            return Across(value=draw(st.floats(-reach, reach)), how="tape", origin="center", **off(4))
        edge = draw(st.sampled_from(["outboard_edge", "inboard_edge"]))
        return Across(value=draw(st.floats(width / 2 - reach if near else 0, width)), how="tape", origin=edge, **off(4))

    def on_the_liner() -> Across | BeadToes:
        if draw(st.booleans()):
            return across()
        return BeadToes(from_outboard=draw(st.floats(200, 330)), from_inboard=265.0, how="tape", **off(4))

    def around(id: str) -> Around:
        if brink == "apart":  # about as far as heads, 150 mm and 400 mm reach, either way from the first
            far = draw(st.floats(5, 12) | st.floats(24, 31) | st.floats(67, 78)) * draw(st.sampled_from([1, -1]))
            at = 0.0 if id == "1" else far
            return Around(value=at, how="protractor", **off(2))
        if draw(st.booleans()):
            return Around(value=draw(st.floats(0, 360)), how="protractor", **off(4))
        return Around(value=draw(st.floats(0, 2000)), unit="mm", how="tape", **off(10))

    def lean() -> Lean:
        return Lean(value=draw(leans), how="probe", **off(8))

    def hole() -> HoleSize:
        if draw(st.booleans()):
            return HoleSize(value=draw(largest), how="rule", **off(1))
        value = draw(largest)
        return HoleSize(value=value, stops=value + draw(st.floats(0.05, 1)), how="gauge")

    def injury(id: str) -> Injury:
        outside, inside = perhaps(across(), 8), seldom(on_the_liner())
        return Injury(
            id=id, outside=outside, inside=inside, around=perhaps(around(id)), lean_around=perhaps(lean()),
            lean_across=None if outside is not None and inside is not None else perhaps(lean()),
            size_outside=perhaps(hole()), size_inside=perhaps(hole()),
            size_prepared=seldom(exact(draw(largest))),
        )

    def repair(id: str) -> Repair:
        long = draw(st.floats(25, 70))
        return Repair(
            id=id, inside=perhaps(on_the_liner()), around=perhaps(around(id)),
            head_length=perhaps(Length(value=long, how="tape", **off(4))),
            head_width=seldom(Length(value=draw(st.floats(20, long)), how="tape", **off(4))),
            head_along=draw(st.sampled_from(["around", "across"])),
            kind="unknown" if unknowns and draw(st.integers(1, 8)) == 1 else "stem_and_head",
        )

    known: dict[str, Any] = {
        "size_code": code,
        "date_code": perhaps(draw(st.sampled_from(["0118", "2216", "2316", "0110", "1024"]))),
        "tread_width": perhaps(Length(value=width, how="tape", **off(4))),
        "tread_depth": perhaps(length(deep, 0.5)),
        **{name: seldom(length(deep, 0.5)) for name in DEPTHS[1:]},
        "under_grooves": perhaps(length(st.floats(6, 11), 1.0)),
        "belt_width": seldom(Length(value=width - draw(st.floats(-6, 30)), how="tape", **off(4))),
        "between_outer_grooves": perhaps(Length(value=width * draw(st.floats(0.4, 0.9)), how="tape", **off(4))),
        "crack_depth": length(cracked, 0.5) if brink == "crack" else seldom(length(cracked, 0.5)),
        "built": perhaps(draw(st.sampled_from(["standard", "self_supporting", "foam_lined", "sealant_lined"]))),
        "sealant_used": perhaps(False),
        "maker_word": None,
    }
    if brink == "belt":
        word = MakerWord(source="the maker", zone_inset=exact(0.0), head_past_tread_edge=True)
        known.update(maker_word=word, belt_width=seldom(known["belt_width"]))
    if brink == "apart":
        injuries, repairs = (2, 2), (0, 0)
    earlier = tuple(repair(f"R{number + 1}") for number in range(draw(st.integers(*repairs))))
    return Job(
        rule_set=chosen.name, date=JOB_DATE, tire=Tire(**{**known, **tire}), checks=all_fine(repairs=bool(earlier)),
        injuries=tuple(injury(str(number + 1)) for number in range(draw(st.integers(*injuries)))), repairs=earlier,
    )


def ends(length: Length) -> tuple[float, float]:
    """The least and greatest of a length in mm with a tolerance of its own."""
    assert length.unit == "mm" and length.minus is not None and length.plus is not None
    return max(0.0, length.value - length.minus), length.value + length.plus


@st.composite
def exact_jobs_inside(draw: st.DrawFn, job: Job) -> Job:
    """One exact job that the measurements of ``job`` allow, every quantity at once; ends of ranges often."""
    facts = tire_facts(job)
    assert facts is not None

    def within(low: float, high: float) -> float:
        return draw(st.sampled_from([low, high]) | st.floats(low, high)) if low < high else low

    marks = _ExactMarks(within)
    return changed(
        job, tire=_exact_tire(draw, job.tire, facts, within), injuries=tuple(map(marks.injury, job.injuries)),
        repairs=tuple(map(marks.repair, job.repairs)),
    )


def _exact_tire(draw: st.DrawFn, tire: Tire, facts: TireFacts, within: Callable[[float, float], float]) -> Tire:
    nominal = facts.dimensions.nominal_width_mm
    width = within(facts.estimate.least_mm, min(facts.estimate.greatest_mm, nominal))
    if tire.tread_width is not None:
        low, high = ends(tire.tread_width)
        width = within(low, max(low, min(high, nominal)))
    taken: dict[str, Any] = {"tread_width": exact(width)}
    for name in (*DEPTHS, "crack_depth", "under_grooves"):
        if getattr(tire, name) is not None:
            taken[name] = exact(within(*ends(getattr(tire, name))))
    if not any(name in taken for name in DEPTHS):
        taken["tread_depth"] = exact(within(0.0, 9.5))
    taken.setdefault("under_grooves", exact(within(5.0, 12.0)))  # the range of what nobody measured
    unmeasured = read_toml("dimensions", "unmeasured.toml")
    inside, past = (unmeasured["belt_edge"][f"furthest_{side}_tread_edge_mm"] for side in ("inside", "outside"))
    belt = (width - 2 * inside, width + 2 * past) if tire.belt_width is None else ends(tire.belt_width)
    taken["belt_width"] = exact(within(*belt))
    least = unmeasured["between_outer_grooves"]["least_of_tread_width"] * width
    grooves = (least, width) if tire.between_outer_grooves is None else ends(tire.between_outer_grooves)
    taken["between_outer_grooves"] = exact(within(*grooves))
    taken["built"] = tire.built or draw(st.sampled_from(["standard", "self_supporting"]))
    taken["sealant_used"] = draw(st.booleans()) if tire.sealant_used is None else tire.sealant_used
    taken["date_code"] = tire.date_code or draw(st.sampled_from(["0118", "0110"]))
    return changed(tire, **taken)


class _ExactMarks:
    """Exact injuries and repairs within what was entered of them."""

    def __init__(self, within: Callable[[float, float], float]) -> None:
        self.within = within

    def place(self, taken: Across | BeadToes | None) -> Across | BeadToes | None:
        if taken is None:
            return None
        if isinstance(taken, Across):
            return exact(self.within(taken.value - taken.minus, taken.value + taken.plus), Across, origin=taken.origin)
        half = (taken.from_inboard - taken.from_outboard) / 2
        liner = self.within(half - taken.minus, half + taken.plus)
        return BeadToes(from_outboard=400.0, from_inboard=400.0 + 2 * liner, how="exact")

    def around(self, taken: Around | None) -> Around:
        if taken is None:
            return exact(self.within(-180.0, 180.0), Around)
        return exact(self.within(taken.value - taken.minus, taken.value + taken.plus), Around, unit=taken.unit)

    def lean(self, taken: Lean | None) -> Lean:
        if taken is None:
            return exact(self.within(-70.0, 70.0), Lean)
        return exact(self.within(taken.value - taken.minus, taken.value + taken.plus), Lean)

    def hole(self, taken: HoleSize | None) -> HoleSize | None:
        if taken is None:
            return None
        low, high = ends(taken) if taken.stops is None else (taken.value, taken.stops)
        return exact(self.within(low, high), HoleSize)

    def injury(self, taken: Injury) -> Injury:
        outside, inside = self.hole(taken.size_outside), self.hole(taken.size_inside)
        if outside is None and inside is None:
            outside = exact(self.within(0.5, 9.0), HoleSize)
        place, comes_out = self.place(taken.outside), self.place(taken.inside)
        if place is None and comes_out is None:
            place = exact(self.within(-90.0, 90.0), Across, origin="center")
        both = place is not None and comes_out is not None
        return changed(
            taken, outside=place, inside=comes_out, around=self.around(taken.around),
            lean_across=None if both else self.lean(taken.lean_across), lean_around=self.lean(taken.lean_around),
            size_outside=outside, size_inside=inside,
        )

    def repair(self, taken: Repair) -> Repair:
        def head(length: Length | None, unmeasured: tuple[float, float]) -> Length:
            return exact(self.within(*(unmeasured if length is None else ends(length))))

        long = head(taken.head_length, (20.0, 80.0))
        wide = None if taken.head_width is None else head(taken.head_width, (0.0, 0.0))
        if wide is not None:
            wide = exact(min(wide.value, long.value))
        inside = self.place(taken.inside) or exact(self.within(-90.0, 90.0), Across, origin="center")
        return changed(
            taken, inside=inside, around=self.around(taken.around), head_length=long, head_width=wide,
            kind="stem_and_head" if taken.kind == "unknown" else taken.kind,
        )
