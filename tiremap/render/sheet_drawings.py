"""The three drawings on a sheet: strip under section on one scale, the ring beside them."""

from dataclasses import replace
from math import pi

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.ring_scene import BESIDE, ring_scene
from tiremap.drawing.scene import Scene, View
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.sight import half_width_shown
from tiremap.drawing.strip_scene import strip_scene
from tiremap.drawing.wording import Unit
from tiremap.render.page import Page
from tiremap.render.painter import Painter

WEIGHT = ("not_repairable", "measure_first", "repairable")
FITTING_ROUNDS, FITTED_TO = 12, 1e-3
TALLEST_SECTION = 0.66
"""Share of the drawings' height that the section may take."""


def draw(
    page: Page, assessment: Assessment, unit: Unit, corner: tuple[float, float], width: float, height: float,
    ring_width: float,
) -> float:
    """Lay the drawings in a box whose upper left corner is given, mm; gives the height below the ring."""
    x, y = corner
    view = _view(assessment, unit)
    view, section = _fitted(assessment, view, width, height)
    view = replace(view, ring_scale=assessment.known_facts.overall_diameter / (ring_width - 2 * BESIDE))
    section_height = (section.frame[3] - section.frame[1]) / view.paper_scale
    _lay(page, section, x, y, width, section_height)
    _lay(page, strip_scene(assessment, view), x, y + section_height, width, height - section_height)
    ring = ring_scene(assessment, view)
    ring_height = ring_width * (ring.frame[3] - ring.frame[1]) / (ring.frame[2] - ring.frame[0])
    _lay(page, ring, page.width - x - ring_width, y, ring_width, ring_height)
    return y + ring_height


def shown_injury(assessment: Assessment) -> AssessedMark | None:
    """The injury a sheet draws in full: of the weightiest answer the one with the smallest margin."""
    def weight(mark: AssessedMark) -> tuple[int, float]:
        return WEIGHT.index(mark.answer or "measure_first"), mark.margin_mm if mark.margin_mm is not None else 0.0

    return min(assessment.injuries, key=weight, default=None)


def _view(assessment: Assessment, unit: Unit) -> View:
    shown = shown_injury(assessment)
    if shown is None:
        return View(unit=unit, type_size="paper", composed=True)
    has_place = any(reason.code == "place" for reason in shown.reasons)
    return View(
        chosen=shown.id, shown_reason=("place", (shown.id,)) if has_place else None, unit=unit, type_size="paper",
        composed=True,
        strip_middle=0.0 if shown.around is None else shown.around % (2 * pi),
    )


def _fitted(assessment: Assessment, view: View, width: float, height: float) -> tuple[View, Scene]:
    """The view at the scale that fills the width, or at which the section leaves room for the strip."""
    for _ in range(FITTING_ROUNDS):  # what stands beside and above has its own size on paper
        half = half_width_shown(assessment, view)
        section = section_scene(assessment, view)
        tall = section.frame[3] - section.frame[1]
        scale = max(2 * half / width, tall / (TALLEST_SECTION * height))
        settled = abs(scale / view.paper_scale - 1) < FITTED_TO
        view = replace(view, paper_scale=scale)
        if settled:
            break
    section = section_scene(assessment, view)
    tall = (section.frame[3] - section.frame[1]) / scale
    strip = strip_scene(assessment, view)
    room = (strip.frame[3] - strip.frame[1] - min(view.strip_length, assessment.known_strip.circumference)) / scale
    return replace(view, strip_length=(height - tall - room) * scale), section


def _lay(page: Page, scene: Scene, x: float, y: float, width: float, height: float) -> None:
    painter = Painter(page.axes(x, y, width, height), "light")
    painter.fit(scene)
    painter.lay(scene)
