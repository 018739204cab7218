"""How far from the center plane one edge of a crown zone lies, from what it is measured from."""

from tiremap.model.rule_set import ZoneKind


def zone_reach(
    kind: ZoneKind, value: float, tread_width: float, belt_half_width: float, section_width: float,
    between_outer_grooves: float,
) -> float:
    """The half-width of a zone edge, mm. Never past the tread edge: the crown lies between the tread edges.

    ``value`` is mm for an inset, a share (0-1) for a share; ``section_width`` is the nominal one, the other widths are
    of this tire, all mm.
    """
    tread_edge = tread_width / 2
    if kind == "share_of_section_width":
        return min(value * section_width / 2, tread_edge)
    if kind == "share_of_tread_width":
        return min(value * tread_edge, tread_edge)
    if kind == "inset_from_belt_edge":
        return min(belt_half_width - value, tread_edge)
    if kind == "inside_outer_grooves":
        return min(between_outer_grooves / 2 - value, tread_edge)
    return tread_edge - value  # inset_from_tread_edge, whole_tread
