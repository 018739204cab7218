"""How far apart two marks lie on the liner, as a range over their raw readings.

Distances go by the inside ends, along the liner, center to center, the short way around. Across and around are
ranged apart from each other: they share at most the thickness, and taking it at its worst in both only widens the
range, never narrows it. A stated distance is at the stated places, with the crown as thick as it is drawn where nobody
measured it; the range goes over all it may be.
"""

from dataclasses import dataclass
from math import hypot, inf, pi

from tiremap.geometry.crown import liner_across, short_way_around
from tiremap.rules.case import Case
from tiremap.rules.margins import Margin, Question, greatest, least
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reading import UNBOUNDED, Reading

Range = tuple[float, float]


@dataclass(frozen=True)
class Apart:
    """Two marks' separation, mm on the liner: across, around, and center to center; each least and greatest.

    ``stated`` distances are ``None`` where a place was never entered.
    """

    first: MarkFacts
    second: MarkFacts
    across: Range
    around: Range
    stated_across: float | None
    stated_around: float | None
    around_rad: float | None

    @property
    def distance(self) -> float | None:
        """Center to center along the liner, mm, at the stated places."""
        if self.stated_across is None or self.stated_around is None:
            return None
        return hypot(self.stated_across, self.stated_around)

    def gap(self, beyond: float = 0.0) -> Margin:
        """The gap between the two heads, each grown by ``beyond`` mm; negative where they overlap. mm."""
        half_across = self.first.head.half_across + self.second.head.half_across
        half_around = self.first.head.half_around + self.second.head.half_around

        def between(across: float, around: float) -> float:
            return hypot(max(0.0, across - half_across), max(0.0, around - half_around))

        one, other = self.first.head.radius, self.second.head.radius
        low = between(self.across[0], self.around[0]) - one.high - other.high - 2 * beyond
        high = between(self.across[1], self.around[1]) - one.low - other.low - 2 * beyond
        stated = None
        if self.distance is not None and one.stated is not None and other.stated is not None:
            across, around = abs(self.stated_across or 0.0), abs(self.stated_around or 0.0)
            stated = between(across, around) - one.stated - other.stated - 2 * beyond
        return Margin(stated, -inf if low < -UNBOUNDED / 2 else low, inf if high > UNBOUNDED / 2 else high)


def apart(case: Case, first: MarkFacts, second: MarkFacts) -> Apart:
    """How far apart two marks lie."""
    across_low, across_high = _across_range(case, first, second)
    ends = [_inside_ends(case, mark) for mark in (first, second)]
    stated_s = [_stated_inside(case, mark) for mark in (first, second)]
    angle_low, angle_high, angle = _angle_apart(case, first, second)
    around = _stated_around(case, stated_s, angle)
    across = None if None in stated_s else _on_liner(case, stated_s[0] - stated_s[1])
    most = sum(case.facts.liner_radius(min(abs(a), abs(b)) if a * b > 0 else 0.0, case.facts.thickness.low)
               for a, b in ends) / 2
    fewest = sum(case.facts.liner_radius(max(abs(a), abs(b)), case.facts.thickness.high) for a, b in ends) / 2
    return Apart(
        first, second, (across_low, across_high), (angle_low * fewest, angle_high * most), across, around, angle
    )


def _on_liner(case: Case, across: float) -> float:
    thickness = case.facts.thickness.stated
    return liner_across(across, case.facts.drawn_thickness if thickness is None else thickness, case.facts.crown_radius)


def _across_range(case: Case, first: MarkFacts, second: MarkFacts) -> Range:
    """Least and greatest distance across the liner, mm. A tread width both places hang on is one width."""
    facts = case.facts

    def difference(out1, in1, out2, in2, tread_width, thickness):
        s1 = first.channel_ends(facts, tread_width, out1, in1, thickness)[1]
        s2 = second.channel_ends(facts, tread_width, out2, in2, thickness)[1]
        return liner_across(s1 - s2, thickness, facts.crown_radius)

    readings = (
        *_end_readings(first), *_end_readings(second), facts.tread_width, facts.thickness
    )
    question = Question(readings, lambda *values: -abs(difference(*values)), (difference,))
    return -greatest(question), min(-least(question), UNBOUNDED)


def _end_readings(mark: MarkFacts) -> tuple[Reading, Reading]:
    return mark.outside_reading, mark.inside_reading


def _inside_ends(case: Case, mark: MarkFacts) -> Range:
    """Least and greatest tread coordinate of the inside end, mm."""
    question = _inside_question(case, mark)
    ends = Question(question.readings, lambda *values: -question.margin(*values))
    return max(-UNBOUNDED, least(question)), min(UNBOUNDED, -least(ends))


def _inside_question(case: Case, mark: MarkFacts) -> Question:
    def inside_end(outside, inside, tread_width, thickness):
        return mark.channel_ends(case.facts, tread_width, outside, inside, thickness)[1]

    return Question((*_end_readings(mark), case.facts.tread_width, case.facts.thickness), inside_end)


def _stated_inside(case: Case, mark: MarkFacts) -> float | None:
    """The stated tread coordinate of the inside end, or ``None`` where it hangs on something never entered."""
    question = _inside_question(case, mark)
    *placed, thickness = (reading.as_stated() for reading in question.readings)
    if thickness.stated is None:
        thickness = thickness.fixed(case.facts.drawn_thickness)
    bare = Question((*placed, thickness), question.margin)
    low, high = least(bare), greatest(bare)
    return low if high - low <= 1e-6 else None


def _angle_apart(case: Case, first: MarkFacts, second: MarkFacts) -> tuple[float, float, float | None]:
    """Least, greatest and stated angle between two inside ends, radians, the short way."""
    one, other = _inside_angle(case, first), _inside_angle(case, second)
    low, high = one[0] - other[2], one[2] - other[0]
    stated = None if one[1] is None or other[1] is None else abs(short_way_around(one[1] - other[1]))
    if high - low >= 2 * pi:
        return 0.0, pi, stated
    middle, half = abs(short_way_around((low + high) / 2)), (high - low) / 2
    return max(0.0, middle - half), min(pi, middle + half), stated


def _inside_angle(case: Case, mark: MarkFacts) -> tuple[float, float | None, float]:
    """Least, stated and greatest angle of the inside end from the datum, radians: a lean around shifts it."""
    around, lean, thickness = mark.around, mark.lean_around, case.facts.thickness
    if not mark.is_injury:
        return around.low, around.stated, around.high
    shifts = [
        mark.around_shift(case.facts, deep, tangent)
        for deep in (thickness.low, thickness.high)
        for tangent in (lean.low, lean.high)
    ]
    deep = case.facts.drawn_thickness if thickness.stated is None else thickness.stated
    stated = None
    if around.stated is not None and lean.stated is not None:
        stated = around.stated + mark.around_shift(case.facts, deep, lean.stated)
    return around.low + min(shifts), stated, around.high + max(shifts)


def _stated_around(case: Case, stated_s: list[float | None], angle: float | None) -> float | None:
    if angle is None or None in stated_s:
        return None
    deep = case.facts.drawn_thickness if case.facts.thickness.stated is None else case.facts.thickness.stated
    return angle * sum(case.facts.liner_radius(s, deep) for s in stated_s) / 2
