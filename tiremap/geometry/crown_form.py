"""The crown across as it is drawn: circles about one center, a depth for each layer. Section frame, mm and radians."""

import math
from dataclasses import dataclass

import numpy as np

from tiremap.geometry.paths import Path, arc


@dataclass(frozen=True)
class CrownForm:
    """The crown across: circles about one center. Depths are below the tread surface."""

    top: float  # radius of the tread surface from the axle, on the center plane
    radius: float  # of the tread surface, across
    tread_half: float  # tape, center to tread edge
    belt_half: float  # as drawn, across
    outer_belt_half: float
    belts_top: float  # depths
    belts_middle: float
    ply_top: float
    ply_bottom: float
    thickness: float

    @property
    def center(self) -> np.ndarray:
        """Center of the crown circles."""
        return np.array([0.0, self.top - self.radius])

    def line(self, depth: float, to: float, count: int = 20, since: float = 0.0) -> Path:
        """The circle ``depth`` below the tread surface, from the angle ``since`` off the center plane to ``to``."""
        right = 0.5 * math.pi
        return arc(self.center, self.radius - depth, right - since, right - to, count)

    @staticmethod
    def edge_across(tread_half: float, radius: float) -> float:
        """How far off the center plane the tread edge lies."""
        return radius * math.sin(tread_half / radius)

    def angle_at(self, x: float, depth: float) -> float:
        """The angle at which the circle at ``depth`` is ``x`` off the center plane."""
        return math.asin(x / (self.radius - depth))
