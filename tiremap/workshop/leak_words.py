"""A leak check in sentences, the answer first."""

from tiremap.resources import read_toml
from tiremap.workshop.leak import Ends, LeakFound

ANSWERS = {
    "leak": "It leaks: it loses more than rubber lets through, whatever the readings may be off.",
    "temperature": "No leak is seen: the change of temperature explains the difference.",
    "permeation": "No leak is seen: it loses no more than rubber lets through.",
    "cannot_tell": "These readings cannot tell: they allow a leak, and none.",
}
_BUBBLES = {
    "at once": "Soap or a water tank shows it at once.",
    "perhaps": "Soap or a water tank may show it: wait {least} to {most} minutes and look for tiny bubbles.",
    "no": "It is too small for soap or a tank: only two pressures far enough apart tell.",
    "cannot_tell": "Whether soap or a tank shows it cannot be told: try {least} to {most} minutes.",
}


def leak_lines(found: LeakFound) -> list[str]:
    """Answer, loss, what rubber and temperature explain, the hole, what shows it, and how long to wait."""
    bubbles = read_toml("workshop", "leak.toml")["bubbles"]
    least, most = bubbles["wait_min"]
    lines = [
        ANSWERS[found.answer],
        f"Loss at constant temperature: {_range(found.loss_kpa_per_month, 1)} kPa a month; rubber lets through "
        f"{found.permeation_kpa_per_month[0]:.1f} to {found.permeation_kpa_per_month[2]:.1f}.",
        f"Temperature alone takes {_range(found.temperature_share_kpa, 1)} kPa off the gauge.",
    ]
    if found.leak_pa_m3_s[2] > 0:
        lines.append(
            f"Leak rate {_range(found.leak_pa_m3_s, 6)} Pa m3/s, as through a round hole of "
            f"{_range(found.equivalent_hole_mm, 3)} mm."
        )
        lines.append(_BUBBLES[found.bubbles].format(least=least, most=most))
    if found.answer == "cannot_tell":
        days = found.hours_to_tell / 24
        lines.append(f"Read again after {days:.0f} days or more, at the same temperature, or with a finer gauge.")
    return lines


def _range(ends: Ends, decimals: int) -> str:
    low, stated, high = (f"{each + 0.0:.{decimals}f}" for each in ends)
    return stated if low == high else f"{stated} ({low} to {high})"
