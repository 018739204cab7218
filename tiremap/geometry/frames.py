"""The three frames of a tire, named once.

::

    section (x, r)            tread (s, a)                      strip (s_liner, t), seen from inside

        r ^   ____            s: arc length across the outer    datum ---------------- t = 0
          |  /    \\              surface as a tape reads it,         |  s_liner ->    |
          | |      |             + outboard                         |                |
          | |_    _|          a: angle around from the datum,       v  t = a * R0    |
          +---axle---> x         clockwise seen from outboard    datum ---------------- t = 2 pi R0

- section: origin on the wheel axle at the center plane; ``x`` across, + outboard; ``r`` radius from the axle. mm.
- tread: origin on the tread surface at the center plane and the datum; ``s`` mm, ``a`` radians.
- strip: the liner cut at the datum and rolled flat; ``s_liner`` and ``t`` mm; ``R0`` is the liner radius on the
  center plane. ``t`` and ``t + 2 pi R0`` are one place.

Across is always the tread coordinate ``s``: a place inside the rubber has the ``s`` of the foot of its normal.
"""

from typing import NamedTuple


class SectionPoint(NamedTuple):
    """A point in the cut across the tire: ``x`` mm + outboard of the center plane, ``r`` mm from the axle."""

    x: float
    r: float


class TreadPoint(NamedTuple):
    """A place by the tread surface: ``s`` mm across (+ outboard), ``a`` radians around from the datum."""

    s: float
    a: float


class StripPoint(NamedTuple):
    """A point on the flat liner strip: ``s_liner`` mm across (+ outboard), ``t`` mm around from the datum."""

    s_liner: float
    t: float
