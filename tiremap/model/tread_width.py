"""The tread width a size suggests: for the drawing, and as a range where it was never measured.

Figures and source: ``[tread_width]`` in ``resources/dimensions/size_formulas.toml``. A tape measurement replaces it.
"""

from typing import Any

from pydantic import BaseModel, ConfigDict

from tiremap.model.size_code import SizeCode
from tiremap.model.tire_dimensions import Basis, TireDimensions, dimensions_of
from tiremap.resources import read_toml


class TreadWidthEstimate(BaseModel):
    """A tread width nobody has taped, mm: ``drawn_mm`` for the picture alone, the other two for an answer."""

    model_config = ConfigDict(frozen=True, allow_inf_nan=False)

    drawn_mm: float
    least_mm: float
    greatest_mm: float
    basis: Basis = "derived"


def tread_width_estimate(tire: SizeCode | TireDimensions, *, mud_terrain: bool = False) -> TreadWidthEstimate:
    """The tread width from a size code or from dimensions; tape over the crown between the tread edges, mm.

    Raises ``TiremapError`` for a van size without aspect ratio that no table here has.
    """
    if isinstance(tire, SizeCode) and tire.aspect_ratio is None:
        tire = dimensions_of(tire)
    figures = read_toml("dimensions", "size_formulas.toml")["tread_width"]
    assert tire.aspect_ratio is not None  # dimensions always have one
    low, high = _shares_around(figures["steps"], tire.aspect_ratio)
    wide = mud_terrain or tire.family == "flotation"
    drawn = figures["drawn_mud_terrain" if wide else "drawn"] * (low + high) / 2
    least = min(figures["least_of_k"] * low, figures["least_share"])
    greatest = max(figures["greatest_of_k"] * high, figures["greatest_share"])
    cap, nominal = figures["cap_share"], tire.nominal_width_mm
    return TreadWidthEstimate(
        drawn_mm=min(drawn, cap) * nominal, least_mm=min(least, cap) * nominal, greatest_mm=min(greatest, cap) * nominal
    )


def _shares_around(steps: list[dict[str, Any]], aspect: float) -> tuple[float, float]:
    """Lowest and highest share ``k`` of the steps at an aspect ratio: two where it lies between steps."""
    below = [step["k"] for step in steps if step["aspect"][0] <= aspect][-1]
    above = next(step["k"] for step in steps if aspect <= step["aspect"][1])
    return min(below, above), max(below, above)
