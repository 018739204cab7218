"""Published dimensions against the formulas, row by row.

Source: ETRTO Standards Manual 2025, dimension tables of passenger car tires and temporary-use spare tires, read from
a transcription. Columns: size; measuring rim in; overall diameter, section width, greatest width and greatest
diameter in service, mm; narrowest and widest approved rim, in.
"""

import pytest

from tiremap.model.size_code import read_size_code
from tiremap.model.tire_dimensions import dimensions_of

ROWS = [
    ("125/80R13", 3.5, 530, 126, 131, 538, (3.0, 4.0)),
    ("135/80R13", 3.5, 546, 133, 138, 554, (3.5, 4.5)),
    ("155/80R13", 4.5, 578, 157, 163, 588, (4.0, 5.0)),
    ("165/65R14", 5.0, 570, 170, 177, 578, (4.5, 6.0)),
    ("185/50R16", 6.0, 592, 194, 202, 600, (5.0, 6.5)),
    ("185/55R15", 6.0, 585, 194, 202, 593, (5.0, 6.5)),
    ("185/60R14", 5.5, 578, 189, 197, 586, (5.0, 6.5)),
    ("185/65R15", 5.5, 621, 189, 197, 631, (5.0, 6.5)),
    ("195/65R15", 6.0, 635, 201, 209, 645, (5.5, 7.0)),
    ("195/70R14", 6.0, 630, 201, 209, 640, (5.0, 6.5)),
    ("205/55R16", 6.5, 632, 214, 223, 642, (5.5, 7.5)),
    ("215/40R17", 7.5, 604, 218, 227, 610, (7.0, 8.5)),
    ("215/70R15", 6.5, 683, 221, 230, 695, (5.5, 7.0)),
    ("215/70R16", 6.5, 708, 221, 230, 720, (5.5, 7.0)),
    ("225/30R20", 8.0, 644, 230, 239, 650, (8.0, 8.0)),
    ("225/45R17", 7.5, 634, 225, 234, 642, (7.0, 8.5)),
    ("225/50R17", 7.0, 658, 233, 242, 668, (6.0, 8.0)),
    ("225/75R15", 6.0, 719, 223, 232, 733, (6.0, 7.5)),
    ("235/55R18", 7.5, 715, 245, 255, 725, (6.5, 8.5)),
    ("255/35R19", 9.0, 661, 260, 270, 669, (8.5, 10.0)),
    ("255/50R19", 8.0, 739, 265, 276, 749, (7.0, 9.0)),
    ("275/40R20", 9.5, 728, 278, 289, 736, (9.0, 11.0)),
    ("275/45R20", 9.0, 756, 273, 284, 766, (8.5, 10.5)),
    ("275/60R20", 8.0, 838, 279, 290, 852, (7.5, 9.5)),
    ("295/30R20", 10.5, 686, 301, 313, 694, (10.0, 11.0)),
    ("HL 255/40R20", 9.0, 712, 260, 270, 720, (9.0, 9.0)),
    ("HL 265/45R21", 9.0, 771, 266, 277, 781, (9.0, 9.0)),
    ("HL 295/25R22", 10.5, 707, 301, 313, 713, (10.0, 11.0)),
    ("T105/95R17", 3.0, 632, 106, 110, 640, (3.0, 3.5)),
    ("T125/80R16", 3.5, 606, 126, 131, 614, (3.0, 4.0)),
    ("T125/85R16", 3.5, 618, 126, 131, 626, (3.0, 4.0)),
    ("T135/70R16", 4.0, 596, 138, 144, 604, (3.5, 4.5)),
    ("T135/80R17", 3.5, 648, 133, 138, 656, (3.5, 4.5)),
    ("T155/90D16", 4.5, 686, 157, 166, 708, (4.0, 5.0)),
    ("T165/90D19", 4.5, 781, 165, 175, 805, (4.0, 5.5)),
    ("T175/70R20", 5.0, 754, 177, 184, 764, (4.5, 6.0)),
]

# The maker's table decides these, no formula: HL sizes, aspect ratios of 30 and less and above 80.
NO_APPROVED_FORMULA = {
    "225/30R20", "295/30R20", "HL 255/40R20", "HL 265/45R21", "HL 295/25R22",
    "T105/95R17", "T125/85R16", "T155/90D16", "T165/90D19",
}  # fmt: skip


@pytest.mark.parametrize(("size", "rim", "diameter", "width", "width_max", "diameter_max", "approved"), ROWS)
def test_a_size_has_the_dimensions_of_the_published_row(size, rim, diameter, width, width_max, diameter_max, approved):
    found = dimensions_of(read_size_code(size))
    assert found.measuring_rim_width_in == rim
    assert found.overall_diameter_mm == diameter
    assert found.section_width_mm == width
    assert found.max_in_service_width_mm == width_max
    assert found.max_in_service_diameter_mm == diameter_max
    assert found.approved_rim_width_in == (None if size in NO_APPROVED_FORMULA else approved)


def test_the_narrow_spare_is_the_one_published_row_the_formula_misses():
    # ETRTO Standards Manual 2025: T95/85R16 on a 3.0 in rim, 99 mm wide; the formula alone would say 2.5.
    found = dimensions_of(read_size_code("T95/85R16"))
    assert (found.measuring_rim_width_in, found.section_width_mm) == (3.0, 99)
    assert found.overall_diameter_mm == 406 + 2 * 81
    assert found.basis.measuring_rim_width == found.basis.section_width == "published"


def test_an_american_passenger_size_agrees_with_its_own_table():
    # Tire and Rim Association design data, 1999, second-hand: P205/60R15 is 24.69 in by 8.23 in.
    found = dimensions_of(read_size_code("P205/60R15"))
    assert found.overall_diameter_mm / 25.4 == pytest.approx(24.69, abs=0.005)
    assert found.section_width_mm / 25.4 == pytest.approx(8.23, abs=0.005)


@pytest.mark.parametrize(
    ("rim_code", "diameter"),
    # ETRTO Standards Manual 2025, specified rim diameters rounded to the millimeter.
    [(13, 330), (14, 356), (15, 381), (16, 406), (17, 432), (18, 457), (19, 483), (20, 508), (21, 533), (22, 559)],
)
def test_a_rim_code_has_its_published_diameter(rim_code, diameter):
    assert dimensions_of(read_size_code(f"225/50R{rim_code}")).rim_diameter_mm == diameter


@pytest.mark.parametrize(
    ("size", "rim", "diameter", "width"),
    # Tire makers' published data.
    [
        ("165R13C", 4.5, 596, 167),
        ("185R14C", 5.5, 652, 189),
        ("195R14C", 5.5, 666, 198),
        ("195R15C", 5.5, 690, 198),
    ],
)
def test_a_van_size_without_aspect_ratio_is_the_makers_row(size, rim, diameter, width):
    found = dimensions_of(read_size_code(size))
    assert (found.measuring_rim_width_in, found.overall_diameter_mm, found.section_width_mm) == (rim, diameter, width)
    assert found.basis.overall_diameter == found.basis.section_width == found.basis.measuring_rim_width == "published"
    assert found.rim_diameter_mm + 2 * found.section_height_mm == diameter
