"""Whether stem and head come in one piece or apart: the lean chooses, by the rule set's figure."""

from tiremap.model.after_repair import UnitKind


def kind_by_lean(
    lean_deg: tuple[float, float] | None, whole: bool, most_deg: float | None
) -> tuple[UnitKind | None, str]:
    """The kind of unit and why. ``lean_deg`` is the total lean known so far, stated and at the top of its tolerance.

    A lean known only in part can already be too much, but not yet little enough: then the kind is ``None``, as where
    the rule set names no figure.
    """
    if most_deg is None:
        return None, "the rule set names no lean for one piece: ask the repair-material maker"
    if lean_deg is not None and lean_deg[1] > most_deg + _ON_THE_LIMIT:
        return "stem_and_patch", f"leans up to {lean_deg[1]:.0f}°, more than {most_deg:g}°: stem and patch apart"
    if lean_deg is None or not whole:
        return None, f"probe the lean both ways: up to {most_deg:g}° one piece, beyond it stem and patch apart"
    return "one_piece", f"leans up to {lean_deg[1]:.0f}°, no more than {most_deg:g}°: one piece"


_ON_THE_LIMIT = 1e-6
"""Degrees; absorbs arithmetic, not measurement."""
