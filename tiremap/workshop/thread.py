"""The thread of a wheel stud or bolt as people write it: ``M12x1.5``, ``M14``, ``1/2-20``, ``9/16``."""

import re
from dataclasses import dataclass
from fractions import Fraction
from math import pi

from tiremap.errors import TiremapError
from tiremap.model.units import mm_from_inches
from tiremap.resources import read_toml

_RIGHT = "Right ones: M12x1.5, M14x1.5, 1/2-20; without its pitch M12 or 1/2."
_METRIC = re.compile(r"M\s*(\d{1,2})\s*(?:[X×*]\s*(\d(?:[.,]\d{1,2})?))?")
_INCH = re.compile(r"(\d{1,2}/\d{1,2})\s*(?:(?:IN\.?|\")\s*)?(?:[-X×]\s*(\d{1,2}))?\s*(?:UNF|UNC|UN)?")
_DIAMETERS_MM = (6.0, 30.0)
_COARSEST = 1 / 5
"""Of the diameter: a coarser pitch is no thread, but a slip of the finger."""


@dataclass(frozen=True)
class Thread:
    """A thread by its outer diameter and pitch, mm; the pitch is ``None`` where it was not given."""

    name: str
    """As it is written: M12x1.5, or 1/2-20 with threads an inch."""
    any_pitch: str
    """The same without its pitch: M12, 1/2."""
    diameter_mm: float
    pitch_mm: float | None
    is_metric: bool

    @property
    def stress_area_mm2(self) -> float | None:
        """The area the pull is spread over, mm2; ``None`` without a pitch. Source: ISO 898-1, ASME B1.1."""
        if self.pitch_mm is None:
            return None
        pitches = read_toml("workshop", "refit.toml")["stress_area"]
        lost = pitches["metric_pitches" if self.is_metric else "inch_pitches"] * self.pitch_mm
        return pi / 4 * float(self.diameter_mm - lost) ** 2


def read_thread(text: str) -> Thread:
    """The thread in a text. Raises `TiremapError` for anything that is no thread of a wheel stud."""
    plain = text.strip().upper()
    if metric := _METRIC.fullmatch(plain):
        thread = _metric(int(metric[1]), metric[2])
    elif inch := _INCH.fullmatch(plain):
        thread = _inch(inch[1], inch[2], text)
    else:
        raise TiremapError(f'"{text}" is no thread.', _RIGHT)
    least, greatest = _DIAMETERS_MM
    too_coarse = thread.pitch_mm is not None and not 0 < thread.pitch_mm <= thread.diameter_mm * _COARSEST
    if not least <= thread.diameter_mm <= greatest or too_coarse:
        raise TiremapError(f'"{text}" is no thread of a wheel stud.', _RIGHT)
    return thread


def _metric(diameter: int, pitch: str | None) -> Thread:
    any_pitch = f"M{diameter}"
    if pitch is None:
        return Thread(any_pitch, any_pitch, float(diameter), None, True)
    pitch_mm = float(pitch.replace(",", "."))
    return Thread(f"{any_pitch}x{pitch_mm:g}", any_pitch, float(diameter), pitch_mm, True)


def _inch(size: str, threads: str | None, text: str) -> Thread:
    top, bottom = size.split("/")
    if int(bottom) == 0 or (threads is not None and int(threads) == 0):
        raise TiremapError(f'"{text}" is no thread.', _RIGHT)
    diameter = mm_from_inches(float(Fraction(int(top), int(bottom))))
    if threads is None:
        return Thread(size, size, diameter, None, False)
    return Thread(f"{size}-{int(threads)}", size, diameter, mm_from_inches(1 / int(threads)), False)
