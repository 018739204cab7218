"""How far apart two marks lie on the liner, as a range over their raw readings.

Distances go by the inside ends, along the liner, center to center, the short way around. Two places that hang on the
same tread width hang on one and the same, and so they do on the thickness where the tread is known to be as deep at
any hole: each mark's reach is kept for every end of these, and a pair compares like with like. Where one hole may lie
in deeper tread than the other, each has a thickness of its own. Across and around are ranged apart from each other,
which can only widen the range.

A stated distance is at the stated places, with the crown as thick as it is drawn where nobody measured it; the range
goes over all it may be.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product
from math import hypot, inf, pi

from tiremap.geometry.crown import liner_across, short_way_around
from tiremap.rules.facts import TireFacts
from tiremap.rules.margins import Margin
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reading import ENDLESS, UNBOUNDED, Reading

Range = tuple[float, float]

_LEAST, _STATED, _GREATEST = 0, 1, 2
"""Which head a half axis is taken of."""


@dataclass(frozen=True)
class Reach:
    """Where the inside end of a mark may lie.

    ``across`` holds its least and greatest tread coordinate (mm) for each end of what all marks share, in one order
    for all of them; ``around`` its least and greatest angle (radians, not wrapped); ``radii`` the least and
    greatest liner radius there, mm. Stated values are ``None`` where they hang on something never entered.
    """

    mark: MarkFacts
    across: tuple[Range, ...]
    around: Range
    radii: Range
    stated: tuple[float, float] | None
    """Tread coordinate and liner radius, mm."""
    stated_around: float | None

    @cached_property
    def whole_across(self) -> Range:
        """Least and greatest tread coordinate, mm, whatever tread width and thickness are."""
        return _whole(self.across)


@dataclass(frozen=True)
class Apart:
    """Two marks' separation, mm on the liner: across and around, each least and greatest.

    Stated distances are ``None`` where a place was never entered; ``around_rad`` is the stated angle between them and
    ``angle`` its least and greatest, radians, the short way.
    """

    first: MarkFacts
    second: MarkFacts
    across: Range
    around: Range
    stated_across: float | None
    stated_around: float | None
    around_rad: float | None
    angle: Range

    @property
    def distance(self) -> float | None:
        """Center to center along the liner, mm, at the stated places."""
        if self.stated_across is None or self.stated_around is None:
            return None
        return hypot(self.stated_across, self.stated_around)

    def gap(self, beyond: float = 0.0) -> Margin:
        """The gap between the two heads, each grown by ``beyond`` mm; negative where they overlap. mm."""
        one, other = self.first.head, self.second.head

        def between(across: float, around: float, at: int) -> float:
            bare_across = across - one.half_across[at] - other.half_across[at]
            bare_around = around - one.half_around[at] - other.half_around[at]
            return hypot(max(0.0, bare_across), max(0.0, bare_around)) - 2 * beyond

        low = between(self.across[0], self.around[0], _GREATEST) - one.radius.high - other.radius.high
        high = between(self.across[1], self.around[1], _LEAST) - one.radius.low - other.radius.low
        stated = None
        across, around, radii = self.stated_across, self.stated_around, (one.radius.stated, other.radius.stated)
        if across is not None and around is not None and radii[0] is not None and radii[1] is not None:
            stated = between(across, around, _STATED) - radii[0] - radii[1]
        return Margin(stated, -inf if low < -ENDLESS else low, inf if high > ENDLESS else high)


def reach_of(facts: TireFacts, mark: MarkFacts) -> Reach:
    """Where the inside end of a mark may lie, over all its readings; worked out once for each tire."""
    kept = mark.kept_on(facts)
    if "reach" not in kept:
        kept["reach"] = _reach(facts, mark)
    return Reach(mark, *kept["reach"])


def _reach(
    facts: TireFacts, mark: MarkFacts
) -> tuple[tuple[Range, ...], Range, Range, tuple[float, float] | None, float | None]:
    """All of a `Reach` but the mark, which keeps it."""
    across, channel_ends = [], mark.ends_on(facts)
    for tread_width, crown in product(_ends(facts.tread_width), _crowns(facts)):
        ends = [
            channel_ends(tread_width, outside, inside, thickness)[1]
            for outside, inside, thickness in product(_ends(mark.outside_reading), _ends(mark.inside_reading), crown)
        ]
        across.append((max(-UNBOUNDED, min(ends)), min(UNBOUNDED, max(ends))))
    stated_across, stated_around = _stated(facts, mark)
    stated = None
    if stated_across is not None:
        stated = stated_across, facts.liner_radius(stated_across, facts.drawn_thickness)
    radii = _radii(facts, *_whole(across))
    return tuple(across), _around(facts, mark), radii, stated, stated_around


def _whole(across: Sequence[Range]) -> Range:
    return min(low for low, _ in across), max(high for _, high in across)


def _radii(facts: TireFacts, low: float, high: float) -> Range:
    """Least and greatest liner radius (mm) between two tread coordinates: it falls away from the center plane."""
    nearest, furthest = max(0.0, low, -high), max(abs(low), abs(high))
    return facts.liner_radius(furthest, facts.thickness.high), facts.liner_radius(nearest, facts.thickness.low)


def _crowns(facts: TireFacts) -> tuple[tuple[float, ...], ...]:
    """The ends of the thickness (mm) that all holes share, each for itself, or together where each has its own."""
    ends = _ends(facts.thickness)
    return tuple((end,) for end in ends) if facts.depths.at_a_hole.settled else (ends,)


def _ends(reading: Reading) -> Range:
    return reading.low, reading.high


def _stated(facts: TireFacts, mark: MarkFacts) -> tuple[float | None, float | None]:
    """Tread coordinate (mm) and angle (radians) of the inside end at the stated readings."""
    outside, inside = mark.outside_reading.stated, mark.inside_reading.stated
    across = around = None
    needs_width = mark.hangs_on_tread_width and facts.tread_width.stated is None
    if outside is not None and inside is not None and not needs_width:
        width = facts.drawn_tread_width
        across = mark.channel_ends(facts, width, outside, inside, facts.drawn_thickness)[1]
    if mark.around.stated is not None and mark.lean_around.stated is not None:
        shift = mark.around_shift(facts, facts.drawn_thickness, mark.lean_around.stated)
        around = mark.around.stated + shift
    return across, around


def _shifts(facts: TireFacts, mark: MarkFacts) -> Range:
    """By how much (radians, least and greatest) a lean around shifts the inside end."""
    shifts = [
        mark.around_shift(facts, thickness, lean)
        for thickness, lean in product(_ends(facts.thickness), _ends(mark.lean_around))
    ]
    return min(shifts), max(shifts)


def _around(facts: TireFacts, mark: MarkFacts) -> Range:
    """Least and greatest angle of the inside end from the datum, radians."""
    least, greatest = _shifts(facts, mark)
    return mark.around.low + least, mark.around.high + greatest


def turning(facts: TireFacts, mark: MarkFacts) -> Callable[[float], Reach]:
    """Where the inside end may lie as a function of the place around, were that exactly known (radians).

    Only the angle turns with it, and nothing is stated: it serves for least and greatest distances.
    """
    reach, (least, greatest) = reach_of(facts, mark), _shifts(facts, mark)

    def at(around: float) -> Reach:
        return replace(reach, around=(around + least, around + greatest), stated_around=None)

    return at


def apart(facts: TireFacts, first: Reach, second: Reach) -> Apart:
    """How far apart two marks lie."""
    low, high, angle = _angle_apart(first, second)
    least_radius, most_radius = ((one + other) / 2 for one, other in zip(first.radii, second.radii, strict=True))
    stated_across, stated_around = _stated_apart(facts, first, second, angle)
    return Apart(
        first.mark, second.mark, _across(facts, first, second), (low * least_radius, high * most_radius),
        stated_across, stated_around, angle, (low, high),
    )


def _across(facts: TireFacts, first: Reach, second: Reach) -> Range:
    """Least and greatest distance across the liner, mm."""
    apart = [(a[0] - b[1], a[1] - b[0]) for a, b in zip(first.across, second.across, strict=True)]
    lowest, highest = min(low for low, _ in apart), max(high for _, high in apart)
    least = max(0.0, lowest, -highest)
    most = max(-lowest, highest)
    return (
        liner_across(least, facts.thickness.high, facts.crown_radius),
        liner_across(most, facts.thickness.low, facts.crown_radius),
    )


def _angle_apart(first: Reach, second: Reach) -> tuple[float, float, float | None]:
    """Least, greatest and stated angle between two inside ends, radians, the short way."""
    low, high = first.around[0] - second.around[1], first.around[1] - second.around[0]
    stated = None
    if first.stated_around is not None and second.stated_around is not None:
        stated = abs(short_way_around(first.stated_around - second.stated_around))
    if high - low >= 2 * pi:
        return 0.0, pi, stated
    middle, half = abs(short_way_around((low + high) / 2)), (high - low) / 2
    return max(0.0, middle - half), min(pi, middle + half), stated


def _stated_apart(
    facts: TireFacts, first: Reach, second: Reach, angle: float | None
) -> tuple[float | None, float | None]:
    """Stated distance across and around, mm along the liner."""
    if first.stated is None or second.stated is None:
        return None, None
    across = abs(first.stated[0] - second.stated[0])
    around = None if angle is None else angle * (first.stated[1] + second.stated[1]) / 2
    return liner_across(across, facts.drawn_thickness, facts.crown_radius), around
