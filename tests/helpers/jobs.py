"""Builders of jobs for tests, in the words of the bench. What is not given is unknown, as on a fresh job.

``bench_job()`` has everything a simple answer needs; ``crown_injury(...)`` and ``earlier_repair(...)`` make its marks.
"""

from typing import Any

from tiremap.model.job import Checks, Finding, Injury, Job, Repair, RepairsLookedFor, Tire
from tiremap.model.measures import Across, Around, HoleSize, Lean, Length


def taped(value: float, unit: str = "mm", **more: Any) -> Length:
    """A length by tape."""
    return Length(value=value, unit=unit, how="tape", **more)


def gauged(value: float, unit: str = "mm", **more: Any) -> Length:
    """A length by gauge, such as a tread depth."""
    return Length(value=value, unit=unit, how="gauge", **more)


def hole(value: float, stops: float | None = None, unit: str = "mm", how: str = "gauge", **more: Any) -> HoleSize:
    """A hole's diameter, by default by gauges: ``value`` enters, ``stops`` does not."""
    return HoleSize(value=value, stops=stops, unit=unit, how=how, **more)


def from_center(value: float, how: str = "tape", unit: str = "mm", **more: Any) -> Across:
    """A place across from the center, + outboard."""
    return Across(value=value, unit=unit, origin="center", how=how, **more)


def from_outboard_edge(value: float, how: str = "tape", unit: str = "mm", **more: Any) -> Across:
    """A place across from the outboard tread edge, + inward."""
    return Across(value=value, unit=unit, origin="outboard_edge", how=how, **more)


def at_angle(value: float, how: str = "protractor", **more: Any) -> Around:
    """A place around, degrees from the datum."""
    return Around(value=value, unit="deg", how=how, **more)


def probed(value: float) -> Lean:
    """One part of a lean, degrees, by probe."""
    return Lean(value=value, how="probe")


def crown_injury(id: str = "1", across_mm: float = 0.0, around_deg: float | None = 0.0, **fields: Any) -> Injury:
    """An upright 4 mm hole (5 mm stops) entering ``across_mm`` from the center; ``fields`` replace any of it."""
    usual: dict[str, Any] = {
        "outside": from_center(across_mm),
        "around": None if around_deg is None else at_angle(around_deg),
        "lean_across": probed(0.0),
        "lean_around": probed(0.0),
        "size_outside": hole(4.0, stops=5.0),
        "size_inside": hole(4.0, stops=5.0),
    }
    return Injury(id=id, **{**usual, **fields})


def earlier_repair(id: str = "R1", across_mm: float = 0.0, around_deg: float | None = 180.0, **fields: Any) -> Repair:
    """A sound earlier repair with a round 40 mm head centered there; ``fields`` replace any of it."""
    usual: dict[str, Any] = {
        "inside": from_center(across_mm),
        "around": None if around_deg is None else at_angle(around_deg),
        "head_length": taped(40.0),
        "kind": "stem_and_head",
    }
    return Repair(id=id, **{**usual, **fields})


def all_fine(repairs: bool = False) -> Checks:
    """Inspected and fine, earlier repairs looked for: none, or all marked if there are ``repairs``."""
    fine = {name: Finding(state="fine") for name in Checks.model_fields if name != "earlier_repairs"}
    return Checks(
        **fine,
        earlier_repairs=RepairsLookedFor(state="all_marked" if repairs else "none"),
    )


def measured_tire(size_code: str = "205/55R16", tread_width_mm: float = 170.0, **fields: Any) -> Tire:
    """A tire with its tread measured: width by tape, 6 mm deep and 6 mm under the grooves by gauge."""
    usual: dict[str, Any] = {
        "size_code": size_code,
        "tread_width": taped(tread_width_mm),
        "tread_depth": gauged(6.0),
        "under_grooves": gauged(6.0),
        "datum": "valve",
        "outboard_by": "known",
    }
    return Tire(**{**usual, **fields})


def evenly_worn(depth: Length) -> dict[str, Length]:
    """The same depth at every place of the tread: then it is known at any hole."""
    places = ("tread_depth", "tread_depth_outboard", "tread_depth_central", "tread_depth_inboard")
    return dict.fromkeys(places, depth)


def bench_job(*marks: Injury | Repair, rule_set: str = "united_kingdom", **fields: Any) -> Job:
    """A measured tire, all checks fine, with those injuries and repairs; ``fields`` replace any of the job's."""
    repairs = tuple(mark for mark in marks if isinstance(mark, Repair))
    usual: dict[str, Any] = {
        "rule_set": rule_set,
        "tire": measured_tire(),
        "checks": all_fine(repairs=bool(repairs)),
        "injuries": tuple(mark for mark in marks if isinstance(mark, Injury)),
        "repairs": repairs,
    }
    return Job(**{**usual, **fields})
