"""The class of tire a size code names: what a rule set's limits are given for."""

from tiremap.model.job import TireClass
from tiremap.model.load_range import is_truck_load_range
from tiremap.model.size_code import SizeCode
from tiremap.resources import read_toml


def class_of(size: SizeCode) -> TireClass | None:
    """The class, or ``None`` where the code does not tell.

    It does not for special trailer tires, of which no rule set read speaks, nor for an LT or C size with a truck's
    load index and no load range: that may be either, and some limits of each are looser than the other's. Nor does it
    for a code without LT or C that may be that of a light truck or truck all the same: with the load index of twin
    tires, as a flotation size, or without a load index and higher than passenger tires are.
    """
    if size.prefix == "T":
        return "temporary_spare"
    if size.prefix == "ST":
        return None
    truck = read_toml("dimensions", "classes.toml")["truck"]
    on_truck_rim = size.rim_code >= truck["rim_code_from"] and size.rim_code % 1 in truck["rim_code_fractions"]
    if on_truck_rim:
        return "truck"
    if size.load_range is not None:
        return "truck" if is_truck_load_range(size.load_range) else "light_truck"
    heavy = bool(size.load_indices) and size.load_indices[0] >= truck["load_index_from"]
    if size.is_lt or size.is_c:
        return None if heavy else "light_truck"
    if heavy:
        return "truck"
    return None if _may_carry_loads(size) else "passenger"


def _may_carry_loads(size: SizeCode) -> bool:
    """Whether a code without LT, C and load range may be of a light truck or truck tire; one with P or HL is not."""
    if size.prefix:
        return False
    if size.flotation_diameter_in is not None or len(size.load_indices) > 1:
        return True
    if size.load_indices or size.aspect_ratio is None:
        return False
    highest: float = read_toml("dimensions", "classes.toml")["passenger"]["section_height_to_mm"]
    return size.nominal_width_mm * size.aspect_ratio / 100 > highest
