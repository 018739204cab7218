"""Are two repairs far enough apart around the tire: in millimeters on the tread, or as an angle?"""

from dataclasses import replace
from functools import partial

from tiremap.model.rule_set import AngleApart, AroundApart
from tiremap.model.units import degrees
from tiremap.rules.around_again import around_settles, around_turns
from tiremap.rules.case import Case
from tiremap.rules.margins import Margin
from tiremap.rules.pairs import Apart
from tiremap.rules.reasons import Reason, Settles
from tiremap.rules.weighing import LimitSays, Words, level_of, reason_for


def around_apart(case: Case, pair: Apart) -> list[Reason]:
    """The distance around on the tread against the rule set's. Margin: mm beyond the least distance."""
    radius = case.facts.overall_diameter / 2
    return _apart(case, pair, "around_apart", case.around_apart, radius, "mm")


def angle_apart(case: Case, pair: Apart) -> list[Reason]:
    """The angle between two repairs against the rule set's. Margin: degrees beyond the least angle."""
    return _apart(case, pair, "angle_apart", case.angles_apart, degrees(1.0), "deg")


def _apart(
    case: Case, pair: Apart, code: str, limits: list[AroundApart] | list[AngleApart], per_radian: float, unit: str
) -> list[Reason]:
    """The strictest limit that may hold: refused where even the loosest is broken, passed where the strictest holds."""
    if not limits:
        return []
    strictest, loosest = (pick(limits, key=lambda limit: limit.value) for pick in (max, min))
    low, high = (end * per_radian for end in pair.angle)
    stated = None if pair.around_rad is None else pair.around_rad * per_radian - strictest.value
    margin = Margin(stated, low - strictest.value, high - loosest.value)
    both = f"{pair.first.title} and {pair.second.title}"
    both = f"{both[0].upper()}{both[1:]}"
    what = f"{strictest.value:g} {'mm on the tread' if unit == 'mm' else 'degrees'}"
    words = Words(
        f"{both} lie at least {what} apart around the tire.",
        f"{both} lie too close around the tire: at least {loosest.value:g} {what.partition(' ')[2]} is asked.",
        f"{both} may lie too close around the tire: at least {what} is asked.",
    )
    says = LimitSays(strictest.value, unit, strictest.source, grows=True, measured="apart around")
    subject = (pair.first.id, pair.second.id)
    level, sentence = level_of(margin, True, words, "refuse")
    if level != "measure":
        reason = reason_for(code, level, sentence, margin, says, subject)
        turns = partial(around_turns, case.facts, pair, lambda each: each.angle[1] * per_radian - loosest.value)
        return [replace(reason, turns_later=turns) if level == "refuse" else reason]
    built_would = low - loosest.value >= 0
    settles, asks = _settles(pair, built_would)
    reason = reason_for(code, level, sentence, margin, says, subject, settles, asks)
    if built_would:
        return [replace(reason, settles_later=lambda: settles)]
    again = partial(around_settles, case.facts, pair, lambda each: each.angle[0] * per_radian - strictest.value)
    return [replace(reason, settles_later=again)]


def _settles(pair: Apart, built_would: bool) -> tuple[Settles, tuple[tuple[str, str], ...]]:
    """What to measure: how the tire is built where that alone decides, else the places around."""
    if built_would:
        field, words = "tire.built", "whether the tire is self-supporting"
        return Settles(field, words, ""), ((field, words),)
    arounds = [mark.around for mark in (pair.first, pair.second)]
    first = min(arounds, key=lambda around: (around.stated is not None, not around.estimated))
    asks = tuple((each.field, each.words) for each in arounds if each.stated is None)
    return Settles(first.field, first.words, "deg", alone=False), asks

