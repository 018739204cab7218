"""The repair units a shop has, as records; which one a hole takes is the workshop's business."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

Size = Annotated[float, Field(gt=0, le=200)]


class RepairUnit(BaseModel):
    """A stem and the head it comes with, mm. Round unless ``head_width_mm`` is given; the cutter equals the stem."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    stem_mm: Size
    head_length_mm: Size
    head_width_mm: Size | None = None
    head_along: Literal["around", "across"] = "around"

    @property
    def half_across_mm(self) -> float:
        """How far the head reaches from its center across the tire."""
        round_or_turned = self.head_width_mm is None or self.head_along == "across"
        return (self.head_length_mm if round_or_turned else self.head_width_mm) / 2


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
    beyond_the_head: BeyondTheHead
    units: tuple[RepairUnit, ...]

    @model_validator(mode="after")
    def _heads_grow_with_stems(self) -> "Stock":
        for thin, thick in zip(self.units, self.units[1:], strict=False):
            if thick.stem_mm <= thin.stem_mm:
                raise ValueError(f"units must be listed by growing stem; {thick.stem_mm} follows {thin.stem_mm}")
            if thick.head_length_mm < thin.head_length_mm or thick.half_across_mm < thin.half_across_mm:
                raise ValueError(f"the {thick.stem_mm} mm stem has a smaller head than the {thin.stem_mm} mm stem")
        return self
