"""The tire itself in the section: layers, belts and rim, the same for every job on that tire."""

from functools import lru_cache

import numpy as np
from shapely import Polygon

from tiremap.drawing.scene import Area, Line, SceneMark
from tiremap.geometry.section import Section
from tiremap.resources import read_toml

LAYER_STYLES = {"tread": "tread", "belts": "belts", "body_ply": "body_ply", "liner": "liner", "sidewall": "sidewall",
                "bead": "bead", "bead_core": "bead_core"}


@lru_cache(maxsize=64)
def tire_marks(section: Section) -> tuple[SceneMark, ...]:
    """Layers from tread to liner, belts as fine parallel lines, rim in outline. Alike on both sides of the center."""
    layers = tuple(
        Area(shape, LAYER_STYLES[name.removesuffix("_outboard").removesuffix("_inboard")])
        for name, shape in section.layers.items()
    )
    belts = tuple(Line(line, "belt") for line in section.belts)
    return (*layers, *belts, Area(section.body, "body"), Line(section.rim, "rim"))


def liner_band(section: Section, side: int, s_from: float, s_to: float, thickness: float) -> Polygon:
    """A band lying on the liner between two tread coordinates, ``thickness`` mm into the cavity; drawing frame."""
    feet, liner = _liner_table(section)
    across = np.linspace(s_from, s_to, 25)
    places = np.column_stack([np.interp(across, feet, liner[:, 0]), np.interp(across, feet, liner[:, 1])])
    along = np.gradient(places, axis=0)
    inward = np.column_stack([along[:, 1], -along[:, 0]])
    inward /= np.maximum(np.hypot(*inward.T), 1e-9)[:, None]
    ring = np.vstack([places, (places + thickness * inward)[::-1]])
    return Polygon(ring * (side, 1))


@lru_cache(maxsize=8)
def _liner_table(section: Section) -> tuple[np.ndarray, np.ndarray]:
    """Liner places at every millimeter of tread coordinate, to read bands from."""
    reach = np.ceil(section.tread_edge_s + 2 * section.inputs.section_height)
    feet = np.arange(-reach, reach + 1.0)
    return feet, np.array([section.liner_place(float(s)) for s in feet])


def drawn_size(name: str) -> float:
    """A thickness the drawing takes so that it can be seen, tire mm."""
    size: float = read_toml("drawing", "styles.toml")["drawn"][name]
    return size


def normal_line(section: Section, side: int, s: float, top: float, bottom: float) -> np.ndarray:
    """From ``top`` straight down to the tread at ``s``, along the normal to the liner, and on down to ``bottom``."""
    outer, liner = section.outer_place(s), section.liner_place(s)
    return np.array([
        (side * outer.x, max(top, outer.r)), (side * outer.x, outer.r), (side * liner.x, liner.r),
        (side * liner.x, bottom),
    ])
