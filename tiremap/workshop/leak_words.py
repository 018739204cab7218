"""A leak check in sentences, the answer first."""

from math import floor, log10

from tiremap.model.after_repair import PressureUnit
from tiremap.model.pressures import KPA
from tiremap.resources import read_toml
from tiremap.workshop.leak import Ends, LeakFound

_ANSWERS = {
    "leak": "It loses {loss} a month, more than rubber lets through: look for a leak.",
    "temperature": "No leak is seen: the change of temperature explains the difference.",
    "permeation": "No leak is seen: it loses no more than rubber lets through.",
    "cannot_tell": "These two readings cannot tell: they allow a leak, and none.",
}
_FAST = "It lost {loss} in {hours}, far more than rubber lets through: look for a leak."
"""Where a month of it would be more than stood in the tire."""
_ROSE = "The pressure rose by more than temperature explains: air was added, or the readings were swapped."
_BUBBLES = {
    "at once": "Soap or a water tank shows it at once.",
    "perhaps": "Soap or a water tank may show it: wait {least} to {most} minutes and look for tiny bubbles.",
    "no": "It is too small for soap or a water tank: only two pressures far enough apart tell.",
    "cannot_tell": "Whether soap or a water tank shows it cannot be told: watch for {least} to {most} minutes.",
}
_DECIMALS = {"kPa": 1, "psi": 2, "bar": 3}


def answer_line(found: LeakFound, unit: PressureUnit = "kPa") -> str:
    """The answer in one sentence."""
    if found.rose:
        return _ROSE
    if found.answer == "leak" and found.flat_in_a_month:
        return _FAST.format(loss=f"{_shown(found.loss_kpa[1], unit)} {unit}", hours=hours_in_words(found.hours))
    return _ANSWERS[found.answer].format(loss=f"{_shown(found.loss_kpa_per_month[1], unit)} {unit}")


def number_lines(found: LeakFound, unit: PressureUnit = "kPa") -> list[str]:
    """Loss, what rubber and temperature explain, the hole, what shows it, and how long to wait."""
    bubbles = read_toml("workshop", "leak.toml")["bubbles"]
    least, most = bubbles["wait_min"]
    rubber = found.permeation_kpa_per_month
    lines = [
        f"Lost at constant temperature in {hours_in_words(found.hours)}: {_range(found.loss_kpa, unit)} {unit}.",
        f"That is {_range(found.loss_kpa_per_month, unit)} {unit} in a month of 30 days.",
        f"Rubber lets through {_shown(rubber[0], unit)} to {_shown(rubber[2], unit)} {unit} a month.",
        f"The change of temperature alone takes {_range(found.temperature_share_kpa, unit)} {unit} off the gauge.",
    ]
    if found.leak_pa_m3_s[2] > 0:
        rate, hole = _digits(found.leak_pa_m3_s), _digits(found.equivalent_hole_mm)
        lines.append(f"Leak rate: {rate} Pa·m³/s, as through a round hole of {hole} mm.")
        lines.append(_BUBBLES[found.bubbles].format(least=least, most=most))
    if found.perhaps_flat:
        lines.append("The tire may have been flat by the second reading: it may leak faster than this.")
    if not found.temperatures_read:
        lines.append("A temperature was not read, so it may have been anything usual: read both to know more.")
    elif found.answer == "cannot_tell" and found.hours_to_tell > found.hours:
        wait = hours_in_words(found.hours_to_tell)
        lines.append(f"With this gauge a leak of twice what rubber lets through shows after {wait}.")
    return lines


def leak_lines(found: LeakFound, unit: PressureUnit = "kPa") -> list[str]:
    """The answer, then the numbers, each with its range in brackets."""
    return [answer_line(found, unit), *number_lines(found, unit)]


def hours_in_words(hours: float) -> str:
    """A time between readings, in days from two days on and in minutes below an hour."""
    if hours >= 48:
        return f"{hours / 24:.{1 if hours % 24 and hours < 240 else 0}f} days"
    if hours < 1:
        return f"{hours * 60:.3g} min"
    return f"{hours:.4g} h"


def _range(ends: Ends, unit: PressureUnit) -> str:
    low, stated, high = (_shown(each, unit) for each in ends)
    return stated if low == high else f"{stated} ({low} to {high})"


def _shown(kpa: float, unit: PressureUnit) -> str:
    value = kpa / KPA[unit]
    decimals = 0 if abs(value) >= 100 else _DECIMALS[unit]
    return f"{round(value, decimals) + 0.0:,.{decimals}f}".replace("-", "−")


def _digits(ends: Ends) -> str:
    """Two digits that count of each end."""
    low, stated, high = (_two_digits(each) for each in ends)
    return stated if low == high else f"{stated} ({low} to {high})"


def _two_digits(value: float) -> str:
    if value == 0:
        return "0"
    decimals = min(9, max(0, 1 - floor(log10(abs(value)))))
    return f"{value:,.{decimals}f}".replace("-", "−")
