"""Does a tire leak? Two gauge pressures, hours apart, against temperature and what rubber lets through.

Everything is carried as least, stated and greatest over what gauge, thermometer, weather and volume may be off. What
cannot be told says so.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product
from typing import Any, Literal

from tiremap.errors import TiremapError
from tiremap.model.after_repair import LeakCheck, Temperature
from tiremap.model.pressures import KPA, ZERO_C, kelvin, kpa
from tiremap.resources import read_toml
from tiremap.workshop.orifice import hole_mm

LeakAnswer = Literal["leak", "temperature", "permeation", "cannot_tell"]
Bubbles = Literal["at once", "perhaps", "no", "cannot_tell"]
Ends = tuple[float, float, float]
"""Least, stated, greatest."""


@dataclass(frozen=True)
class Uncertainty:
    """How far what a leak check rests on may be off; all zero, and the loss is one figure."""

    gauge_kpa: float
    """Either way, at each of the two readings."""
    first_kelvin: Ends
    second_kelvin: Ends
    outside_kpa: Ends
    """The air outside."""
    volume_share: float
    """Of the volume, either way."""


@dataclass(frozen=True)
class LeakFound:
    """What two readings tell, each as least, stated and greatest.

    ``loss_kpa`` is the loss at constant temperature between them, ``temperature_share_kpa`` what the change of
    temperature alone took off the gauge, ``permeation_kpa_per_month`` what rubber lets through at that temperature.
    """

    loss_kpa: Ends
    loss_kpa_per_month: Ends
    temperature_share_kpa: Ends
    permeation_kpa_per_month: Ends
    leak_pa_m3_s: Ends
    equivalent_hole_mm: Ends
    hours: float
    answer: LeakAnswer
    bubbles: Bubbles
    """Whether soap or a water tank could show it."""
    hours_to_tell: float
    """Hours between two such readings after which a leak of twice what rubber lets through certainly shows."""
    temperatures_read: bool
    flat_in_a_month: bool
    """Whether a month at this rate would take more than stood in the tire."""
    rose: bool
    """Whether pressure certainly rose by more than temperature explains, as it does where air was added."""
    perhaps_flat: bool
    """Whether the tire may have been flat by the second reading: then it may leak faster than the two tell."""

    def as_record(self) -> dict[str, Any]:
        """What the command line prints."""
        record: dict[str, Any] = {}
        for key in ("loss_kpa_per_month", "temperature_share_kpa", "leak_pa_m3_s", "equivalent_hole_mm"):
            low, stated, high = getattr(self, key)
            record |= {key: stated, f"{key}_low": low, f"{key}_high": high}
        return record | {"answer": self.answer}


def leak_found(
    check: LeakCheck, volume_l: float, *, volume_exact: bool = False, off: Uncertainty | None = None
) -> LeakFound:
    """What a leak check tells of a tire with that much air; ``off`` is what is usual, see `usual_uncertainty`.

    Raises `TiremapError` where a pressure or the hours are missing, or the volume is none.
    """
    hours = check.hours
    if check.before is None or check.after is None or hours is None:
        raise TiremapError("A leak check needs both pressures and the hours between.", "Such as 33 psi, 31 psi, 24.")
    if not 0 < volume_l < 1e5:
        raise TiremapError(f"{volume_l:g} L is no air volume of a tire.", "A car tire holds 20 to 60 L.")
    data = read_toml("workshop", "leak.toml")
    off = off or usual_uncertainty(check, volume_exact)
    before, after = (_around(kpa(each), off.gauge_kpa) for each in (check.before, check.after))
    first, second, outside = off.first_kelvin, off.second_kelvin, off.outside_kpa
    volume = _around(volume_l, volume_l * off.volume_share)

    loss = _ranged(lambda p, q, t, u, a: p + a - (q + a) * t / u, before, after, first, second, outside)
    by_temperature = _ranged(lambda p, t, u, a: (p + a) * (1 - u / t), before, first, second, outside)
    month = data["month"]["hours"]
    a_month = _scaled(loss, month / hours)
    leak = _ranged(lambda dp, v: dp * v / (hours * 3600), loss, volume)  # kPa L is Pa m3
    inside = _ranged(lambda p, q, a: (p + q) / 2 + a, before, after, outside)
    flow = data["orifice"]
    coefficient = (flow["greatest_coefficient"], flow["usual_coefficient"], flow["least_coefficient"])
    hole = _ranged(
        # the loss is counted at the first temperature, so the flow is too
        lambda q, p, a, t, c: hole_mm(q, p * 1000, a * 1000, t, c), leak, inside, outside, first, coefficient
    )
    rubber = _permeation(first, second, data["permeation"])
    apparent = kpa(check.before) - kpa(check.after)
    return LeakFound(
        loss_kpa=loss, loss_kpa_per_month=a_month, temperature_share_kpa=by_temperature,
        permeation_kpa_per_month=rubber, leak_pa_m3_s=leak, equivalent_hole_mm=hole, hours=hours,
        answer=_answer(a_month, rubber, apparent, by_temperature[1]),
        bubbles=_bubbles(leak, data["bubbles"]), hours_to_tell=(loss[2] - loss[0]) / 2 / rubber[2] * month,
        temperatures_read=None not in (check.before_temperature, check.after_temperature),
        flat_in_a_month=a_month[1] > kpa(check.before), rose=loss[2] < 0, perhaps_flat=after[0] <= 0 < before[0],
    )


def usual_uncertainty(check: LeakCheck, volume_exact: bool = False) -> Uncertainty:
    """The user's own gauge, else a usual one; a usual thermometer, else any temperature; weather and height."""
    data = read_toml("workshop", "leak.toml")
    first, second = (_kelvin(each, data["thermometer"]) for each in (check.before_temperature, check.after_temperature))
    air = data["atmosphere"]
    return Uncertainty(
        gauge_kpa=kpa(check.gauge) if check.gauge is not None else data["gauge"]["kpa"],
        first_kelvin=first, second_kelvin=second, outside_kpa=(air["least_kpa"], air["kpa"], air["greatest_kpa"]),
        volume_share=0.0 if volume_exact else data["volume"]["of_section"],
    )


def places_to_look() -> list[tuple[str, str]]:
    """Where to look for a leak, the likeliest first, and why there."""
    return [(each["where"], each["why"]) for each in read_toml("workshop", "leak.toml")["look"]]


def _answer(a_month: Ends, rubber: Ends, apparent: float, by_temperature: float) -> LeakAnswer:
    """A leak only where even the least loss is more than rubber lets through; none only where the greatest is not.

    Air that came from nowhere says nothing of a leak. That is judged by the stated gain, which a coarser gauge leaves
    as it is: so it never answers what a finer one could not.
    """
    if a_month[0] > rubber[2]:
        return "leak"
    if a_month[2] > rubber[2] or -a_month[1] > rubber[1]:
        return "cannot_tell"
    return "temperature" if abs(by_temperature) > abs(apparent) / 2 and apparent != 0 else "permeation"


def _bubbles(leak: Ends, data: dict[str, Any]) -> Bubbles:
    if leak[0] >= data["seen_at_once_pa_m3_s"]:
        return "at once"
    if leak[2] < data["seen_at_best_pa_m3_s"]:
        return "no"
    return "perhaps" if leak[0] >= data["seen_at_best_pa_m3_s"] else "cannot_tell"


def _permeation(warm: Ends, cold: Ends, data: dict[str, Any]) -> Ends:
    """kPa a month at the mean temperature: more by one factor for each degree, fitted to two published points."""
    factor = (data["warm_psi_a_month"] / data["greatest_psi_a_month"]) ** (
        1 / (data["warm_celsius"] - data["at_celsius"])
    )
    at = [(one + other) / 2 - ZERO_C - data["at_celsius"] for one, other in zip(warm, cold, strict=True)]
    least, greatest = data["least_psi_a_month"] * KPA["psi"], data["greatest_psi_a_month"] * KPA["psi"]
    return least * factor ** at[0], (least + greatest) / 2 * factor ** at[1], greatest * factor ** at[2]


def _kelvin(read: Temperature | None, data: dict[str, float]) -> Ends:
    """A temperature as it was read, or anything a wheel may have where nobody read it."""
    if read is None:
        return _around(data["unread_celsius"] + ZERO_C, data["unread_kelvin"])
    return _around(kelvin(read), data["kelvin"])


def _around(value: float, off: float) -> Ends:
    return value - off, value, value + off


def _scaled(ends: Ends, factor: float) -> Ends:
    return ends[0] * factor, ends[1] * factor, ends[2] * factor


def _ranged(function: Callable[..., float], *readings: Ends) -> Ends:
    """A value that rises or falls with each reading, over all their ends."""
    corners = [function(*values) for values in product(*((low, high) for low, _, high in readings))]
    stated = function(*(each[1] for each in readings))
    return min(*corners, stated), stated, max(*corners, stated)
