"""What a measuring sheet asks for: each measurement with its place, ways of taking it, and from where on it passes."""

from dataclasses import dataclass, replace
from typing import Any

from tiremap.assessment import Assessment, Needed
from tiremap.drawing.bench_order import to_be_measured
from tiremap.drawing.said import said_in
from tiremap.drawing.wording import Unit, figure
from tiremap.resources import read_toml
from tiremap.rules.condition import condition_checks
from tiremap.rules.reasons import Settles
from tiremap.rules.settling import window_words, within_words

TICKED = "checks."
"""Fields that are looked at and ticked, not measured."""
REPAIRS_FOUND = ("none", "all are marked")


@dataclass(frozen=True)
class Row:
    """One measurement: its number on the drawing, field, words, where and how it is taken, what passes.

    ``unit`` stands in the box to write in; empty where it is no figure.
    """

    number: int
    field: str
    words: str
    where: str
    ways: str
    passes: str
    unit: str

    @property
    def place(self) -> str:
        """The last part of the field's name: what kind of place it is."""
        return self.field.rpartition(".")[2]


@dataclass(frozen=True)
class Look:
    """Something looked at and ticked: what for, and what it can be found to be; a heading with nothing to tick."""

    title: str
    look_at: str
    found: tuple[str, ...] = ("fine", "found")


def rows(assessment: Assessment, unit: Unit) -> list[Row]:
    """The measurements still to take, in bench order, numbered from 1."""
    asked = [each for each in to_be_measured(assessment) if not each.field.startswith(TICKED)]
    return [_row(number, each, assessment, unit) for number, each in enumerate(asked, 1)]


def looks(assessment: Assessment) -> list[Look]:
    """What nobody has looked at yet, in the order a technician goes over a tire; nothing where none is asked for."""
    asked = {each.field: f"{each.words[0].upper()}{each.words[1:]}" for each in to_be_measured(assessment)}
    checks, found = assessment.job.checks, []
    if "checks.inspected" in asked:
        found.append(Look(asked["checks.inspected"], "tread, sidewalls, beads, liner"))
    condition = [asked[f"{TICKED}{each.name}"] for each in condition_checks() if f"{TICKED}{each.name}" in asked]
    if condition:
        found.append(Look(condition[0], "each of these:", ()))
        found += [Look(each.title, each.look_at) for each in condition_checks() if getattr(checks, each.name) is None]
    if "checks.earlier_repairs" in asked:
        found.append(Look(asked["checks.earlier_repairs"], _places()["earlier_repairs"]["where"], REPAIRS_FOUND))
    return found


def _row(number: int, needed: Needed, assessment: Assessment, unit: Unit) -> Row:
    place = _places().get(needed.field.rpartition(".")[2], {})
    boxed = {"length": unit, "around": "° or " + unit, "angle": "°", "": ""}[place.get("unit", "")]
    words = f"{needed.words[0].upper()}{needed.words[1:]}"
    return Row(
        number, needed.field, words, place.get("where", ""), _ways(place, unit),
        passes(assessment, needed.field, unit), boxed,
    )


def _places() -> dict[str, Any]:
    return read_toml("help", "measuring_places.toml")


def _ways(place: dict[str, Any], unit: Unit) -> str:
    """The ways of taking it, each with how far off it may be: ``tape ±2, rule ±2 mm``; by eye is never offered."""
    tolerances, names = read_toml("dimensions", "tolerances.toml"), _places()["ways"]
    said = []
    for table in place.get("tolerances", ()):
        is_angle = table in ("around_deg", "lean")
        for way, (below, above) in tolerances[table].items():
            if way in names:
                how = names[way] + (" from both bead toes" if table == "bead_toes" else "")
                said.append(f"{how} {_off(below, above, is_angle, unit)}")
    return ", ".join(said)


def _off(below: float, above: float, is_angle: bool, unit: Unit) -> str:
    def written(value: float) -> str:
        return f"{value:g}°" if is_angle else f"{figure(value, unit)} {unit}"

    if below == above:
        return f"±{written(above)}"
    return f"+{written(above)}" if below == 0 else f"−{written(below)} +{written(above)}"


def passes(assessment: Assessment, field: str, unit: Unit) -> str:
    """From where on this measurement passes every check it would settle alone, and whether others have a say too."""
    asking = [each.settles for each in assessment.all_reasons if each.level == "measure" and each.settles is not None]
    settling = [each for each in asking if each.field == field]
    away = [window_words(each) for each in settling if each.away is not None]
    window = _together([each for each in settling if each.alone and each.away is None])
    said = ", ".join(each for each in (*away, window) if each)
    if not all(each.alone for each in settling) or not settling:
        said = f"{said}; the rest is decided with the others" if said else "Decided together with the others."
    return said_in(said if said.endswith(".") else f"{said}." if said else "", unit)


def _together(settling: list[Settles]) -> str:
    """The window that passes all of them, and how well it must be known; empty where there is none."""
    if not settling:
        return ""
    lows = [each.at_least for each in settling if each.at_least is not None]
    highs = [each.at_most for each in settling if each.at_most is not None]
    tolerances = [each.tolerance for each in settling if each.tolerance]
    low, high = max(lows, default=None), min(highs, default=None)
    if low is not None and high is not None and low > high:
        return "no value passes every check"
    both = replace(settling[0], at_least=low, at_most=high, tolerance=min(tolerances, default=None))
    return f"{window_words(both)}{within_words(both)}"
