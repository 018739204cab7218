"""How far a crown zone reaches, for an answer and for the drawing, on a tire known exactly."""

import pytest

from tests.helpers.jobs import bench_job, measured_tire, taped
from tiremap.model.job import MakerWord, Tire
from tiremap.model.measures import Length
from tiremap.model.rule_set import CrownZone, ZoneEdge
from tiremap.model.rule_set_file import rule_set_or_why
from tiremap.rules.facts import TireFacts, tire_facts
from tiremap.rules.zones import drawn_half_width, drawn_passing_half_width, half_width, passing_edge, zone_readings

INCH = ZoneEdge(kind="inset_from_tread_edge", value=25.4)
BELT = ZoneEdge(kind="inset_from_belt_edge", value=10.0)
WHOLE = ZoneEdge(kind="whole_tread", value=0.0)
GROOVES = ZoneEdge(kind="inside_outer_grooves", value=5.0)
OF_SECTION = ZoneEdge(kind="share_of_section_width", value=0.70)
OF_TREAD = ZoneEdge(kind="share_of_tread_width", value=0.75)


def facts_of(**tire) -> TireFacts:
    """A section 205 mm wide with 170 mm of tread."""
    return tire_facts(bench_job(tire=measured_tire(**tire)))


def uk_bands() -> list[CrownZone]:
    """60 % of the nominal section width up to 155 mm, 65 % up to 200 mm, 70 % above."""
    rule_set, _ = rule_set_or_why("united_kingdom")
    return rule_set.bands("passenger")


def zone_of(edge: ZoneEdge, outer: ZoneEdge | None = None) -> CrownZone:
    return uk_bands()[0].model_copy(update={"edge": edge, "refused_beyond": outer})


def tire_with(inset: float | None, **more) -> Tire:
    taken = None if inset is None else Length(value=inset, how="exact")
    return measured_tire(maker_word=MakerWord(source="the maker's sheet", zone_inset=taken), **more)


@pytest.mark.parametrize(
    ("section_width", "reach"),
    [(150.0, 45.0), (155.0, 46.5), (156.0, 50.7), (200.0, 65.0), (202.0, 70.7), (240.0, 84.0), (260.0, 85.0)],
)
def test_of_the_bands_of_section_width_the_one_it_falls_in_gives_the_share_up_to_the_tread_edge(section_width, reach):
    reaches = half_width(OF_SECTION, facts_of(), uk_bands())
    assert reaches(170.0, 0.0, section_width, 0.0) == pytest.approx(reach)


def test_a_band_with_another_kind_of_edge_gives_no_share():
    first, *_, last = uk_bands()
    bands = [first.model_copy(update={"edge": INCH}), last]
    assert half_width(OF_SECTION, facts_of(), bands)(170.0, 0.0, 150.0, 0.0) == pytest.approx(0.70 * 75.0)


@pytest.mark.parametrize("tread_width", [160.0, 170.0])
def test_the_whole_tread_reaches_to_the_tread_edge_less_what_the_maker_asks(tread_width):
    assert half_width(WHOLE, facts_of())(tread_width, 0.0, 205.0, 0.0) == tread_width / 2
    assert half_width(WHOLE, facts_of(), inset=30.0)(tread_width, 0.0, 205.0, 0.0) == tread_width / 2 - 30.0


@pytest.mark.parametrize(
    ("edge", "half"),
    [
        (INCH, 59.6),
        (WHOLE, 85.0),
        (OF_SECTION, 71.75),
        (OF_TREAD, 63.75),
        (BELT, 70.0),  # the belt drawn 5 mm inside the tread edge
        (GROOVES, 54.5),  # drawn 70 % of the tread apart
    ],
    ids=lambda each: getattr(each, "kind", None),
)
def test_a_zone_is_drawn_by_the_drawing_s_own_figures_where_nobody_measured(edge, half):
    assert drawn_half_width(edge, facts_of()) == pytest.approx(half)
    assert drawn_half_width(edge, facts_of(), 20.0) == pytest.approx(min(half, 65.0))


def test_a_zone_is_drawn_as_measured_where_somebody_did():
    facts = facts_of(belt_width=taped(140.0), between_outer_grooves=taped(100.0))
    assert (drawn_half_width(BELT, facts), drawn_half_width(GROOVES, facts)) == (60.0, 45.0)


def test_only_what_an_edge_is_measured_from_moves_it():
    facts = facts_of()
    for edge, moves in ((INCH, ()), (WHOLE, ()), (OF_TREAD, ()), (BELT, (0,)), (GROOVES, (2,))):
        readings = zone_readings(edge, facts)
        assert [at for at, reading in enumerate(readings) if not reading.settled] == list(moves)
    assert zone_readings(OF_SECTION, facts)[1] is facts.nominal_width
    assert zone_readings(INCH, facts)[1].stated == 214.0  # on its rim


@pytest.mark.parametrize(
    ("zone", "inset", "edge"),
    [
        (zone_of(INCH), None, INCH),
        (zone_of(INCH), 30.0, INCH),
        (zone_of(INCH, WHOLE), None, INCH),
        (zone_of(INCH, WHOLE), 30.0, WHOLE),
        (zone_of(INCH, WHOLE), 0.0, WHOLE),
    ],
)
def test_of_two_edges_the_outer_counts_once_the_maker_s_figure_is_entered(zone, inset, edge):
    assert passing_edge(zone, tire_with(inset)) == (edge, inset or 0.0)


@pytest.mark.parametrize(
    ("zone", "inset", "belt_width", "half"),
    [
        (zone_of(INCH), None, 150.0, 59.6),
        (zone_of(INCH), 30.0, 150.0, 55.0),
        (zone_of(INCH, BELT), None, 150.0, 59.6),  # inside both: 59.6 and 65
        (zone_of(INCH, BELT), None, 100.0, 40.0),
        (zone_of(INCH, BELT), 5.0, 150.0, 65.0),
        (zone_of(INCH, BELT), 30.0, 150.0, 55.0),
    ],
)
def test_a_zone_is_drawn_where_a_hole_passes(zone, inset, belt_width, half):
    tire = tire_with(inset, belt_width=taped(belt_width))
    assert drawn_passing_half_width(zone, tire, tire_facts(bench_job(tire=tire))) == pytest.approx(half)
