"""The small drawing of a measuring sheet: section and strip with a number at each place to be measured."""

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

from matplotlib.lines import Line2D
from matplotlib.patches import Circle

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.edges import belt_edge, tread_edge
from tiremap.drawing.scene import Scene, SceneMark, View
from tiremap.drawing.section_marks import mark_shapes as section_shapes
from tiremap.drawing.section_tire import tire_marks
from tiremap.drawing.sight import section_of, strip_half_width, strip_window
from tiremap.drawing.strip_ground import datum_marks, edge_marks, ground_marks, window_outline
from tiremap.drawing.strip_marks import mark_shapes as strip_shapes
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.section import Section
from tiremap.render.measuring_rows import Row
from tiremap.render.page import BOLD, QUIET, Page, width_of
from tiremap.render.painter import Painter
from tiremap.render.palettes import POINTS_PER_MM

HEIGHT = 62.0
"""Of the whole drawing, mm of paper, with its titles."""
SECTION_SHARE, GAP, BAND, TITLE_ROOM = 0.66, 4.0, 8.0, 4.5
BALLOON, APART = 2.3, 5.6
"""Radius of a number's circle, and from one to the next, mm."""
CROWN_DEPTH = 62.0
"""How far below the tread the section is shown, mm of tire: the crown and the shoulders."""
OUTER_GROOVE_SHARE = 0.7
"""Where the outermost grooves are drawn from, as a share of the half tread width: nobody has measured them yet."""

LEADERS_UNDER = 2.5
"""Order of a number's circle: over its lines (2), under the number itself (3)."""

Point = tuple[float, float]


@dataclass(frozen=True)
class Target:
    """A number and the points it speaks of, mm of paper."""

    number: int
    points: tuple[Point, ...]


def draw_places(page: Page, assessment: Assessment, asked: list[Row], x: float, y: float, width: float) -> float:
    """Lay section and strip with the numbers of what is asked for; gives the height below. Nothing without a tire."""
    section = section_of(assessment)
    if section is None or assessment.strip is None:
        return y
    page.sheet.set_zorder(1)  # the numbers' lines lie over the drawings
    wide = width * SECTION_SHARE
    page.text(x, y, ["Section, outboard to the right"], QUIET)
    page.text(x + wide + GAP, y, ["Liner strip from inside, outboard to the right"], QUIET)
    top = y + TITLE_ROOM
    _draw_section(page, assessment, section, asked, (x, top), wide, HEIGHT - TITLE_ROOM)
    _draw_strip(page, assessment, asked, (x + wide + GAP, top), width - wide - GAP, HEIGHT - TITLE_ROOM)
    return y + HEIGHT + 1.5


def _draw_section(
    page: Page, assessment: Assessment, section: Section, asked: list[Row], corner: Point, width: float, height: float
) -> None:
    x, y = corner
    view = View(type_size="paper", composed=True)
    top = section.outer_place(0.0).r
    half = section.widest_half_width
    marks = (*tire_marks(section), *section_shapes(assessment, section, view))
    frame = (-half, top - CROWN_DEPTH, half, top + 2.0)
    to_paper = _lay(page, Scene("section", marks, frame, "paper"), (x, y + BAND), width, height - 2 * BAND)
    outer: list[Target] = []
    inner: list[Target] = []
    for row in asked:
        above, points = _in_section(assessment, section, row)
        if points:
            (outer if above else inner).append(Target(row.number, tuple(to_paper(point) for point in points)))
    _number(page, outer, x, width, y + BALLOON)
    _number(page, inner, x, width, y + height - BALLOON)


def _in_section(assessment: Assessment, section: Section, row: Row) -> tuple[bool, list[Point]]:
    """Whether the number stands above, and the points of the section (mm) it speaks of."""
    edge = tread_edge(assessment.known_facts).drawn
    across = {
        "tread_width": (-edge, edge), "between_outer_grooves": (-OUTER_GROOVE_SHARE * edge, OUTER_GROOVE_SHARE * edge),
        "tread_depth": (-0.4 * edge,), "tread_depth_central": (-0.1 * edge,), "tread_depth_inboard": (-0.9 * edge,),
        "tread_depth_outboard": (0.9 * edge,), "under_grooves": (0.2 * edge,),
    }.get(row.place)
    if across is not None:
        return True, [_point(section.outer_place(s)) for s in across]
    if row.place == "belt_width":
        belt = belt_edge(assessment.known_facts).drawn
        return False, [_point(section.liner_place(s)) for s in (-belt, belt)]
    mark = _mark_of(assessment, row)
    if mark is None:
        return True, []
    if row.place in ("outside", "size_outside"):
        return True, [_point(section.outer_place(mark.outside))]
    if row.place in ("inside", "size_inside", "lean_across", "head_length"):
        return False, [_point(section.liner_place(mark.inside))]
    return True, []


def _point(place: SectionPoint) -> Point:
    return place.x, place.r


def _draw_strip(
    page: Page, assessment: Assessment, asked: list[Row], corner: Point, width: float, height: float
) -> None:
    x, y = corner
    shown = width - 2 * BALLOON - 3.0  # numbers stand to the right of it
    scale = 2 * strip_half_width(assessment) / shown
    middle = next((mark.around for mark in assessment.injuries if mark.around is not None), 0.0) % (2 * pi)
    view = View(type_size="paper", composed=True, strip_middle=middle, strip_length=height * scale, paper_scale=scale)
    window = strip_window(assessment, view)
    marks: list[SceneMark] = [
        *ground_marks(assessment, window), *edge_marks(assessment, window), *strip_shapes(assessment, window, view),
        *datum_marks(assessment, window, view, window.half_width), window_outline(window),
    ]
    half = window.half_width
    frame = (-half, -window.length / 2, half, window.length / 2)
    to_paper = _lay(page, Scene("strip", tuple(marks), frame, "paper"), corner, shown, height)
    targets = []
    for row in asked:
        mark = _mark_of(assessment, row)
        if row.place not in ("around", "lean_around") or mark is None:
            continue
        up = 0.0 if mark.inside_place is None else window.height(mark.inside_place.a)
        if abs(up) < window.length / 2:  # another hole may lie further around than the drawing shows
            targets.append(Target(row.number, (to_paper((window.x(mark.inside), up)),)))
    at = y + height / 2 - (len(targets) - 1) * APART / 2
    for place, target in enumerate(sorted(targets, key=lambda each: each.points[0][1])):
        _balloon(page, target, (x + width - BALLOON, at + place * APART))


def _mark_of(assessment: Assessment, row: Row) -> AssessedMark | None:
    parts = row.field.split(".")
    return assessment.mark(parts[1]) if len(parts) == 3 else None


def _lay(page: Page, scene: Scene, corner: Point, width: float, height: float) -> Callable[[Point], Point]:
    """Lay a scene in a box of the page; gives what turns its points into points of the page."""
    x, y = corner
    axes = page.axes(x, y, width, height)
    painter = Painter(axes, "light")
    painter.fit(scene)
    painter.lay(scene)
    (low, high), (bottom, top) = axes.get_xlim(), axes.get_ylim()

    def to_paper(point: Point) -> Point:
        return x + (point[0] - low) / (high - low) * width, y + (top - point[1]) / (top - bottom) * height

    return to_paper


def _number(page: Page, targets: list[Target], x: float, width: float, y: float) -> None:
    """The numbers in a row at height ``y``, each as near above (or below) what it speaks of as the others allow."""
    ordered = sorted(targets, key=lambda each: (sum(p[0] for p in each.points) / len(each.points), each.number))
    places: list[float] = []
    for target in ordered:
        wanted = sum(point[0] for point in target.points) / len(target.points)
        places.append(max(wanted, places[-1] + APART if places else x + BALLOON))
    over = max(0.0, places[-1] - (x + width - BALLOON)) if places else 0.0
    for target, place in zip(ordered, places, strict=True):
        _balloon(page, target, (place - over, y))


def _balloon(page: Page, target: Target, at: Point) -> None:
    """A number in a circle, and a thin line from it to each point it speaks of."""
    for px, py in target.points:
        page.sheet.add_artist(Line2D([at[0], px], [at[1], py], color=page.colors["ink"],
                                     linewidth=0.18 * POINTS_PER_MM, marker="o", markevery=[1], markersize=1.6))
    number_circle(page, *at, target.number)


def number_circle(page: Page, x: float, y: float, number: int) -> None:
    """A number in a circle with its middle at (x, y)."""
    page.sheet.add_artist(Circle((x, y), BALLOON, facecolor=page.colors["paper"], edgecolor=page.colors["ink"],
                                 linewidth=0.25 * POINTS_PER_MM, zorder=LEADERS_UNDER))
    text = str(number)
    page.line_of_text(x - width_of(text, BOLD) / 2, y + BOLD.cap / 2, text, BOLD)
