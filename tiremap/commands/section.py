"""``tiremap section``: the dimensions that size codes give."""

import json
import sys
from typing import Any

from tiremap.errors import TiremapError
from tiremap.geometry.section import SectionCannotBeDrawn, SectionInputs, draw_section
from tiremap.model.size_code import read_size_code
from tiremap.model.tire_dimensions import dimensions_of
from tiremap.model.tread_width import tread_width_estimate
from tiremap.model.units import mm_from_inches


def print_sections(sizes: list[str], as_json: bool) -> int:
    """Print one line per size code; 2 where one could not be read (the others are still printed), else 0."""
    code = 0
    for size in sizes:
        try:
            record = section_record(size)
        except TiremapError as error:
            print(f"tiremap section: {size!r}: {error}", file=sys.stderr)
            code = 2
            continue
        print(json.dumps(record, ensure_ascii=False) if as_json else _in_words(record))
    return code


def section_record(text: str) -> dict[str, Any]:
    """The dimensions of one size code, mm unless the key says otherwise; what cannot be drawn is ``None``.

    Raises `TiremapError` for a code that cannot be read.
    """
    size = read_size_code(text)
    found = dimensions_of(size)
    tread = tread_width_estimate(size)
    record = {
        "size": text,
        "overall_diameter_mm": found.overall_diameter_mm,
        "section_width_mm": found.section_width_mm,
        "section_height_mm": found.section_height_mm,
        "rim_diameter_mm": found.rim_diameter_mm,
        "measuring_rim_width_in": found.measuring_rim_width_in,
        "tread_width_mm": tread.drawn_mm,
        "tread_width_basis": tread.basis,
        "max_in_service_width_mm": found.max_in_service_width_mm,
        "max_in_service_diameter_mm": found.max_in_service_diameter_mm,
        "air_volume_l": None,
        "widest_point_share_of_height": None,
        "approximate": None,
    }
    try:
        drawn = draw_section(
            SectionInputs(
                overall_diameter=found.overall_diameter_mm,
                section_width=found.section_width_mm,
                nominal_width=found.nominal_width_mm,
                rim_diameter=found.rim_diameter_mm,
                rim_width=mm_from_inches(found.rim_width_in),
                tread_width=tread.drawn_mm,
            )
        )
    except SectionCannotBeDrawn as error:
        print(f"tiremap section: {text!r}: {error}", file=sys.stderr)
        return record
    return record | {
        "air_volume_l": drawn.air_volume_l,
        "widest_point_share_of_height": drawn.widest_point_share_of_height,
        "approximate": drawn.approximate,
    }


def _in_words(record: dict[str, Any]) -> str:
    air = record["air_volume_l"]
    return (
        f"{record['size']}: {record['overall_diameter_mm']:g} mm in diameter, {record['section_width_mm']:g} mm wide "
        f"on a {record['measuring_rim_width_in']:g} in rim, {record['section_height_mm']:g} mm high; tread about "
        f"{record['tread_width_mm']:.0f} mm ({record['tread_width_basis']}, measure it); in service at most "
        f"{record['max_in_service_width_mm']:g} x {record['max_in_service_diameter_mm']:g} mm; "
        + ("cannot be drawn." if air is None else f"air {air:.0f} L{', drawn approximately' * record['approximate']}.")
    )
