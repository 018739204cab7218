"""What must hold for every drawn section, whatever its size: returned as a list of faults, empty when sound."""

from itertools import combinations

import numpy as np
from shapely import LineString

from tiremap.geometry.section import Section


def faults_of(section: Section) -> list[str]:
    faults = []
    layers = section.layers
    for name, line in (("outer", section.outer), ("liner", section.liner), ("rim", section.rim)):
        if not np.isfinite(line).all():
            faults.append(f"{name} is not finite")
        if not LineString(line).is_simple:
            faults.append(f"{name} crosses itself")
        if not np.allclose(line, (line * (-1.0, 1.0))[::-1], atol=1e-9):
            faults.append(f"{name} is not symmetrical")
    faults += [f"{name} is not valid" for name, shape in layers.items() if not shape.is_valid or shape.is_empty]
    if faults:
        return faults
    total = sum(shape.area for shape in layers.values())
    if abs(total - section.body.area) > 1e-6 * section.body.area:
        faults.append(f"layers add up to {total:.3f}, the body is {section.body.area:.3f}")
    for (first, a), (second, b) in combinations(layers.items(), 2):
        if a.intersection(b).area > 1e-6:
            faults.append(f"{first} overlaps {second}")
    if sharpest_turn(section.outer[5:-5]) > 16.0:  # the toe and the end of the seat are corners
        faults.append("outer has a kink")
    if sharpest_turn(section.liner) > 16.0:
        faults.append("liner has a kink")
    if LineString(section.outer).distance(layers["belts"]) < 0.9:
        faults.append("a belt shows outside")
    if LineString(section.outer[5:-5]).distance(layers["body_ply"]) < 0.4:
        faults.append("the ply shows outside")
    if section.widest_half_width > max(section.inputs.section_width, section.inputs.tread_width) / 2 + 4.0 + 1e-6:
        faults.append("wider than section width and shoulder rib")
    return faults


def sharpest_turn(line: np.ndarray) -> float:
    """The greatest change of direction between two steps, degrees. A smooth line drawn in steps stays small."""
    steps = np.diff(line, axis=0)
    steps = steps[np.hypot(*steps.T) > 1e-9]
    ways = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    return float(np.degrees(np.abs(np.diff(ways)).max()))
