"""A lesson: a few steps of words and state by which an instructor shows a class one thing about a tire.

Every step says in full what is shown; the file writes only what changes from the step before
(`tiremap.storage.lesson_file`). Nothing of a lesson goes into a job of the shop.
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from tiremap.model.job import Answer

FORMAT = "tiremap-lesson"
VERSION = 1

Beside = Literal["nothing", "bending", "guidance", "strip"]
"""What stands beside the section: the loaded tire and how it bends, the zones of all guidance, the liner strip."""

_Name = Annotated[str, Field(min_length=1, max_length=60)]
_Words = Annotated[str, Field(min_length=1, max_length=220)]
"""More is not read from the last row while someone speaks."""
_Width = Annotated[float, Field(gt=0, le=600)]
_Depth = Annotated[float, Field(ge=0, le=40)]
_Lean = Annotated[float, Field(gt=-80, lt=80)]


class Strict(BaseModel):
    """Frozen, and a key it does not know is refused: in a file written by hand that is a slip of the pen."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, strict=True)


class Hole(Strict):
    """A hole as the class is told of it, measured with the tools of the bench; ``None`` was not measured."""

    from_center_mm: Annotated[float, Field(ge=-400, le=400)]
    """Where it enters, along the tread, + outboard; past the tread edge on down the sidewall."""
    around_deg: Annotated[float, Field(ge=-360, le=360)] | None = None
    """From the datum by protractor, clockwise seen from outboard; or, closer, by tape:"""
    around_mm: Annotated[float, Field(ge=-4000, le=4000)] | None = None
    size_mm: Annotated[float, Field(gt=0, le=40)] | None = None
    lean_across_deg: _Lean | None = None
    lean_around_deg: _Lean | None = None


    @model_validator(mode="after")
    def _around_is_told_once(self) -> "Hole":
        if self.around_deg is not None and self.around_mm is not None:
            raise ValueError("a hole lies at around_deg or at around_mm, not both")
        return self


class LessonStep(Strict):
    """What one step shows. Lengths in mm."""

    says: _Words
    size: _Name = "205/55R16 91V"
    guidance: _Name = "united_kingdom"
    tread_width_mm: _Width | None = None
    """``None`` was not measured, as with the two depths; a file says ``"unknown"``."""
    tread_width_by: Literal["tape", "eye"] = "tape"
    tread_depth_mm: _Depth | None = None
    under_grooves_mm: _Depth | None = None
    looked_over: bool = False
    """Whether every condition check was made and found fine, and no earlier repair is in the tire."""
    holes: Annotated[tuple[Hole, ...], Field(max_length=6)] = ()
    chosen: Annotated[int, Field(ge=1, le=6)] = 1
    """Which hole stands in front and can be dragged."""
    load_mm: Annotated[float, Field(ge=0, le=200)] = 0.0
    """How far the belt edge is let down beside the section."""
    beside: Beside = "nothing"
    answer: Literal["hidden", "shown"] = "shown"
    reason: str | None = None
    """Code of the reason that is told; without it the one that weighs most."""
    expect: Answer | None = None
    """What the answer must be: checked, so that a lesson can never teach what the program does not say."""


class Lesson(Strict):
    """A lesson as it is shown.

    ``lines`` are the lines of its file at which its steps begin; ``key_lines`` those that set what a step has, be it in
    a step before.
    """

    title: _Name
    steps: Annotated[tuple[LessonStep, ...], Field(min_length=1, max_length=40)]
    lines: tuple[int, ...]
    key_lines: tuple[dict[str, int], ...] = ()
