"""Sizes to draw in tests: the few formulas from size code to dimensions, written out a second time on purpose.

Diameter and widths by the rules of the passenger tables (section height and rim width rounded half up); the tread
width is the drawing's own default share.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tiremap.geometry.section import SectionInputs


@dataclass(frozen=True)
class Size:
    """A metric size: nominal width mm, aspect ratio percent, rim code inches, measuring rim inches if published."""

    width: int
    aspect: int
    rim_code: float
    rim_in: float | None = None

    @property
    def name(self) -> str:
        return f"{self.width}/{self.aspect}R{self.rim_code:g}"


def half_up(value: float) -> int:
    return math.floor(value + 0.5)


def rim_share(aspect: int) -> float:
    """Measuring rim width as a share of the nominal width."""
    if aspect <= 25:
        return 0.92
    return tread_share(aspect)


def tread_share(aspect: int) -> float:
    """The share of the nominal width the drawing's tread width goes by."""
    for top, share in ((40, 0.90), (45, 0.85), (55, 0.80), (70, 0.75)):
        if aspect <= top:
            return share
    return 0.70


def section_height(size: Size) -> int:
    return half_up(size.width * size.aspect / 100)


def inputs_of(size: Size, tread_of_nominal: float | None = None, **changes: float) -> SectionInputs:
    """What the section is drawn from; ``tread_of_nominal`` sets the tread width as a share of the nominal width."""
    rim_diameter = half_up(25.4 * size.rim_code)
    rim_in = size.rim_in if size.rim_in is not None else half_up(2 * rim_share(size.aspect) * size.width / 25.4) / 2
    rim_width = 25.4 * rim_in
    section_width = half_up(size.width + 0.4 * (rim_width - (0.70 if size.aspect >= 50 else 0.85) * size.width))
    share = tread_of_nominal if tread_of_nominal is not None else min(1.01 * tread_share(size.aspect), 1.0)
    given = {
        "overall_diameter": rim_diameter + 2 * section_height(size),
        "section_width": section_width,
        "nominal_width": size.width,
        "rim_diameter": rim_diameter,
        "rim_width": rim_width,
        "tread_width": share * size.width,
    }
    return SectionInputs(**{key: float(value) for key, value in {**given, **changes}.items()})


#: The 36 check sizes (published dimension tables of passenger tires and temporary spares, 2025), measuring rim inches.
CHECK_SIZES = [
    Size(125, 80, 13, 3.5), Size(135, 80, 13, 3.5), Size(155, 80, 13, 4.5), Size(165, 65, 14, 5.0),
    Size(185, 50, 16, 6.0), Size(185, 55, 15, 6.0), Size(185, 60, 14, 5.5), Size(185, 65, 15, 5.5),
    Size(195, 65, 15, 6.0), Size(195, 70, 14, 6.0), Size(205, 55, 16, 6.5), Size(215, 40, 17, 7.5),
    Size(215, 70, 15, 6.5), Size(215, 70, 16, 6.5), Size(225, 30, 20, 8.0), Size(225, 45, 17, 7.5),
    Size(225, 50, 17, 7.0), Size(225, 75, 15, 6.0), Size(235, 55, 18, 7.5), Size(255, 35, 19, 9.0),
    Size(255, 50, 19, 8.0), Size(275, 40, 20, 9.5), Size(275, 45, 20, 9.0), Size(275, 60, 20, 8.0),
    Size(295, 30, 20, 10.5), Size(255, 40, 20, 9.0), Size(265, 45, 21, 9.0), Size(295, 25, 22, 10.5),
    Size(105, 95, 17, 3.0), Size(125, 80, 16, 3.5), Size(125, 85, 16, 3.5), Size(135, 70, 16, 4.0),
    Size(135, 80, 17, 3.5), Size(155, 90, 16, 4.5), Size(165, 90, 19, 4.5), Size(175, 70, 20, 5.0),
]  # fmt: skip


def grid(step: int = 1) -> Iterator[Size]:
    """Widths 125-325 by 10, aspect 25-85 by 5, rims 12-24 with a section height of 58 mm or more; every ``step``-th."""
    sizes = (
        Size(width, aspect, rim)
        for width in range(125, 326, 10)
        for aspect in range(25, 86, 5)
        for rim in range(12, 25)
        if half_up(width * aspect / 100) >= 58
    )
    for number, size in enumerate(sizes):
        if number % step == 0:
            yield size
