"""The repair units a shop has, as records; which one a hole takes is the workshop's business."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from tiremap.model.after_repair import UnitKind

Size = Annotated[float, Field(gt=0, le=200)]


class RepairUnit(BaseModel):
    """A stem and the head it comes with, mm. Round unless ``head_width_mm`` is given; the cutter equals the stem."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    stem_mm: Size
    head_length_mm: Size
    head_width_mm: Size | None = None
    head_along: Literal["around", "across"] = "around"
    stem_length_mm: Size | None = None
    """As it comes, before it is pulled in and cut; ``None`` where nobody entered it."""
    mass_g: Annotated[float, Field(gt=0, le=10_000)] | None = None
    """Of the whole unit; ``None`` where nobody weighed it."""

    @property
    def width_mm(self) -> float:
        """Across the head's long axis; the diameter of a round one."""
        return self.head_length_mm if self.head_width_mm is None else self.head_width_mm

    @property
    def end_radius_mm(self) -> float:
        """Radius of the rounded ends."""
        return self.width_mm / 2

    @property
    def half_axis_mm(self) -> tuple[float, float]:
        """Half the distance between the centers of the rounded ends: across, around. One of the two is 0."""
        half = (self.head_length_mm - self.width_mm) / 2
        return (half, 0.0) if self.head_along == "across" else (0.0, half)

    @property
    def reach_mm(self) -> tuple[float, float, float]:
        """How far the head reaches: radius of its ends, across from its center, around from its center."""
        across, around = self.half_axis_mm
        return self.end_radius_mm, across + self.end_radius_mm, around + self.end_radius_mm

    @model_validator(mode="after")
    def _the_length_is_the_longer(self) -> "RepairUnit":
        if self.width_mm > self.head_length_mm:
            raise ValueError("head_length_mm is the longer side of a head, head_width_mm the shorter")
        return self


class BeyondTheHead(BaseModel):
    """How far the shop works beyond a head, mm: buffed and cleaned beyond the head, sealed beyond the buffed edge."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    border: Annotated[float, Field(gt=0, le=100)]
    pre_cleaned: Annotated[float, Field(gt=0, le=100)]
    sealed: Annotated[float, Field(ge=0, le=100)]
    source: str
    grade: str


class Stock(BaseModel):
    """The repair units a shop has, by growing stem; a thicker stem never has a smaller head."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    cutter: str
    source: str
    grade: str
    made: Annotated[tuple[UnitKind, ...], Field(min_length=1)] = ("one_piece", "stem_and_patch")
    """How the units come: stem and head in one piece, or a stem and a patch apart."""
    beyond_the_head: BeyondTheHead
    units: Annotated[tuple[RepairUnit, ...], Field(min_length=1)]

    @model_validator(mode="after")
    def _heads_grow_with_stems(self) -> "Stock":
        for thin, thick in zip(self.units, self.units[1:], strict=False):
            if thick.stem_mm <= thin.stem_mm:
                raise ValueError(f"units must be listed by growing stem; {thick.stem_mm} follows {thin.stem_mm}")
            if any(thicker < thinner for thinner, thicker in zip(thin.reach_mm, thick.reach_mm, strict=True)):
                raise ValueError(f"the {thick.stem_mm} mm stem has a smaller head than the {thin.stem_mm} mm stem")
        return self
