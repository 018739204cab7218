"""The rubber body of a section cut into its layers: polygons that share their edges, so they tile it.

Built from shared points rather than by cutting, so that no sliver stays over and no two layers overlap.
"""

import numpy as np
from shapely import Polygon

from tiremap.geometry.half_section import HalfSection
from tiremap.geometry.paths import mirrored


def body_of(half: HalfSection) -> Polygon:
    """The whole rubber body: between the outer surface and the liner, toe to toe."""
    return Polygon(np.concatenate([mirrored(half.outer.points), mirrored(half.liner)[::-1]]))


def layers_of(half: HalfSection) -> dict[str, Polygon]:
    """The layers by name, tread first; side layers end in ``_outboard`` or ``_inboard``."""
    layers = {
        "tread": Polygon(_whole(_tread_half(half))),
        "belts": Polygon(_whole(_belts_half(half))),
        "body_ply": Polygon(_whole(np.concatenate([_ply_outside(half), _ply_inside(half)[::-1]]))),
        "liner": Polygon(_whole(np.concatenate([_liner_top(half), half.liner[::-1]]))),
    }
    sides = {"sidewall": _sidewall(half), "bead": _bead(half), "bead_core": _core(half)}
    for name, outline in sides.items():
        layers[f"{name}_outboard"] = Polygon(outline)
        layers[f"{name}_inboard"] = Polygon(outline * (-1.0, 1.0))
    return layers


def _whole(outline: np.ndarray) -> np.ndarray:
    """A half outline that starts and ends on the center plane, closed over to the inboard side."""
    return np.concatenate([outline, (outline * (-1.0, 1.0))[-2:0:-1]])


def _tread_half(half: HalfSection) -> np.ndarray:
    top, step, bottom = half.belts
    leaves, end = half.ply_leaves_belt, half.ply_beside_tread_end
    return np.concatenate(
        [
            half.outer.points[: half.tread_rubber_end + 1],
            half.ply_top[leaves : end + 1][::-1],
            bottom[leaves + 1 :],
            step[::-1],
            top[::-1],
        ]
    )


def _belts_half(half: HalfSection) -> np.ndarray:
    top, step, bottom = half.belts
    return np.concatenate([top, step, bottom[::-1]])


def _ply_outside(half: HalfSection) -> np.ndarray:
    return np.concatenate([half.ply_top, half.wrap.aside(half.half_ply)[1:]])


def _ply_inside(half: HalfSection) -> np.ndarray:
    return np.concatenate([half.ply_bottom, half.wrap.aside(-half.half_ply)[1:]])


def _liner_top(half: HalfSection) -> np.ndarray:
    """The side of the liner's layer that lies on the ply, and in the bead on the bead rubber."""
    return np.concatenate([half.ply_bottom, half.liner_top_bead[1:]])


def _sidewall(half: HalfSection) -> np.ndarray:
    return np.concatenate(
        [
            half.outer.points[half.tread_rubber_end : half.bead_start + 1],
            half.ply_top[half.ply_beside_tread_end : half.ply_bead_start + 1][::-1],
        ]
    )


def _bead(half: HalfSection) -> np.ndarray:
    start = half.ply_bead_start
    return np.concatenate(
        [
            half.outer.points[half.bead_start : half.liner_edge + 1],
            half.liner_top_bead[1:-1][::-1],
            half.wrap.aside(-half.half_ply),
            half.core_free.points,
            half.ply_top[start:-1][::-1],
        ]
    )


def _core(half: HalfSection) -> np.ndarray:
    return np.concatenate([half.wrap.aside(half.half_ply), half.core_free.points[1:-1]])
