"""How far the inside of a loaded tire is bent: the strain a fitted head has to follow at every turn of the wheel.

Bending strain at the head's inner face is the change of curvature times its distance from the cord line. In the
crown the tire is flattened around, from the radius of the cord line to straight; in the sidewall the section is
bent, from the unloaded curvature to the loaded one. Between the belts and the sidewall the one is blended into the
other (assumed). A teaching model; no answer depends on it.
"""

from dataclasses import dataclass

import numpy as np

from tiremap.geometry.half_section import HalfSection
from tiremap.geometry.loaded_data import loaded_data
from tiremap.geometry.paths import lengths_along
from tiremap.geometry.sidewall_curve import SidewallCurve


@dataclass(frozen=True, eq=False)
class Bending:
    """Strain (share of the length) of the head's inner face along the unloaded liner of the outboard half.

    ``lengths`` from the center plane, mm, growing. ``blended`` are the lengths between which crown and sidewall are
    blended. Below the last length, in the bead, nothing is told.
    """

    lengths: np.ndarray
    strains: np.ndarray
    blended: tuple[float, float]
    crown: float
    widest: float  # at the widest point of the unloaded cord line
    widest_at: float  # length along the liner to there

    def at(self, length: float) -> float:
        """Strain at a length along the liner, mm, either side of the center plane."""
        return float(np.interp(abs(length), self.lengths, self.strains))

    def over(self, length: float, reach: float) -> float:
        """The greatest strain under a head that reaches ``reach`` mm to each side of ``length``."""
        ends = (abs(length) - reach, abs(length) + reach)
        inner = self.strains[(self.lengths >= ends[0]) & (self.lengths <= ends[1])]
        return max(*(self.at(each) for each in ends), *map(float, inner))


def bending_of(
    half: HalfSection, unloaded: SidewallCurve, loaded: SidewallCurve, radius_around: float, flatness: float
) -> Bending:
    """The bending between two curves of one cord; ``radius_around`` mm is the crown cord line's radius from the axle.

    ``flatness`` is how far the crown is flattened around, 0 to 1.
    """
    face = loaded_data("head", "face_from_cord")
    crown = face * flatness / radius_around
    from_start = half.joints.sidewall_lengths
    bent = _bent(unloaded, loaded, from_start) * face
    liner = lengths_along(half.liner)
    first = half.joints.ply_landing
    in_sidewall = liner[half.ply_landed : half.ply_landed + len(from_start) - first]
    blended = (float(liner[half.ply_leaves_belt]), float(in_sidewall[0]))
    share = np.linspace(0.0, 1.0, 21)
    turn = share * share * (3.0 - 2.0 * share)
    widest = float(np.interp(0.0, -unloaded.angles_at(from_start), from_start))
    return Bending(
        lengths=np.concatenate([[0.0], blended[0] + share * (blended[1] - blended[0]), in_sidewall[1:]]),
        strains=np.concatenate([[crown], crown + turn * (bent[first] - crown), bent[first + 1 :]]),
        blended=blended,
        crown=crown,
        widest=float(_bent(unloaded, loaded, np.array([widest]))[0]) * face,
        widest_at=float(np.interp(widest, from_start[first:], in_sidewall)),
    )


def _bent(unloaded: SidewallCurve, loaded: SidewallCurve, from_start: np.ndarray) -> np.ndarray:
    """Change of curvature at cord lengths from the start of both curves, 1/mm."""
    if loaded is unloaded:
        return np.zeros_like(from_start)
    before = unloaded.curvature(unloaded.angles_at(from_start))
    change: np.ndarray = loaded.curvature(loaded.angles_at(from_start)) - before
    return change
