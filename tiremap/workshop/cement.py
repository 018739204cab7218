"""How much cement the ground under a unit takes."""

from tiremap.resources import read_toml

MM3_PER_ML = 1000.0


def cement_ml(area_mm2: float) -> tuple[float, float, float]:
    """Least, usual and greatest milliliters of cement for an area of liner, mm2, in the coats the resources name."""
    cement = read_toml("workshop", "repair_dimensions.toml")["cement"]
    coats = cement["coats"] * area_mm2 / MM3_PER_ML
    return coats * cement["least_wet_mm"], coats * cement["usual_wet_mm"], coats * cement["greatest_wet_mm"]
