"""The steps that places set by hand fall on: no finer than a pixel shows, and never coarser."""

from math import tau

from tiremap.resources import read_toml

STEPS_MM: tuple[float, ...] = tuple(sorted(read_toml("drawing", "hand.toml")["snap"]["steps_mm"], reverse=True))
FINEST_MM = STEPS_MM[-1]


def snap_step(px_per_mm: float) -> float:
    """The largest step (mm) that is smaller than one pixel at this scale, else the finest."""
    return next((step for step in STEPS_MM if step * px_per_mm < 1), FINEST_MM)


def snapped(mm: float, step: float) -> float:
    """The length on the nearest step, mm."""
    # Adding 0.0 turns -0.0, which would read "-0.0 mm", into 0.0.
    return round(round(mm / step) * step, 6) + 0.0


def snapped_angle(angle: float | None, tread_radius: float, step: float) -> float | None:
    """The angle (radians) on the nearest step along the tread, in [0, 2 pi); ``None`` stays unknown."""
    if angle is None:
        return None
    return round(angle * tread_radius / step) * step / tread_radius % tau
