"""The tire in the contact patch as a scene: let down by its load, its liner toned by how hard it is bent.

A teaching model, and it says so. The head of the chosen injury lies where that is, another one in the middle of the
crown to compare with.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import copysign
from typing import NamedTuple

import numpy as np
from shapely import Geometry, MultiPolygon, Polygon, transform

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.dimensions import with_arrows
from tiremap.drawing.ground import at_no_mark
from tiremap.drawing.labels import Lettering, Texts, Wanted, laid, texts_of
from tiremap.drawing.lettering import broken, text_box
from tiremap.drawing.mark_looks import chosen_mark, head_style, key_of
from tiremap.drawing.scene import Area, DimensionLine, Label, Line, Scene, SceneMark, View
from tiremap.drawing.section_marks import THINNEST_CHANNEL
from tiremap.drawing.section_tire import LAYER_STYLES, drawn_size
from tiremap.drawing.sight import side
from tiremap.drawing.wording import length
from tiremap.geometry.channel import channel_outline
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.loaded_data import turns_per_km
from tiremap.geometry.loaded_section import LoadedSection
from tiremap.geometry.paths import lengths_along, mirrored
from tiremap.resources import read_toml

TONES = 5
"""How many tones of bending there are; the last is for all above."""
TONE_STEP = 0.01
"""Strain from one tone to the next: one in a hundred, about what the crown is bent by."""


class HeadBent(NamedTuple):
    """A head on the loaded liner: what it has to follow at its worst place, and where its middle is."""

    strain: float
    place: SectionPoint


def loaded_scene(assessment: Assessment, loaded: LoadedSection, view: View) -> Scene:
    """The loaded section of the job's tire."""
    lettering, ground = Lettering(view.paper_scale, view.type_size), _ground(loaded, at_no_mark(view))
    mark, across = chosen_mark(assessment, view), side(view)
    marks = list(ground.under)
    if mark is not None and mark.facts.is_injury:
        marks += _shown_head(loaded, assessment, mark, across)
    labels = laid(
        _wanted(loaded, mark, across), [loaded.body], ground.texts, ground.frame, lettering, not view.while_dragging
    )
    return Scene("loaded", (*marks, *ground.said, *labels), ground.frame, view.type_size)


@dataclass(frozen=True, eq=False)
class _Ground:
    """What is the same for every mark: the tire and the road, and over the marks what is said, with its texts."""

    frame: tuple[float, float, float, float]
    under: tuple[SceneMark, ...]
    said: tuple[Label, ...]
    texts: Texts


@lru_cache(maxsize=16)
def _ground(loaded: LoadedSection, view: View) -> _Ground:
    lettering, unloaded = Lettering(view.paper_scale, view.type_size), loaded.unloaded
    half = max(float(loaded.outer[:, 0].max()), unloaded.widest_half_width) + 3.0 * view.paper_scale
    bottom = float(unloaded.rim[:, 1].min()) - 3.0 * view.paper_scale
    top = unloaded.inputs.overall_diameter / 2 + 3.0 * view.paper_scale
    road = Line(np.array([(-half, loaded.ground), (half, loaded.ground)]), "road")
    said = _said(loaded, view, lettering)
    return _Ground(
        (-half, bottom, half, top), (*_tire_marks(loaded), road, *_let_down(loaded, view, lettering, half)),
        tuple(said), texts_of(said, lettering),
    )


@lru_cache(maxsize=8)
def _tire_marks(loaded: LoadedSection) -> tuple[SceneMark, ...]:
    """The tire itself: its layers and belts, how hard it is bent, and where it was without load."""
    return (
        Line(loaded.unloaded.outer, "unloaded"),
        *(Area(shape, LAYER_STYLES[_layer(name)]) for name, shape in loaded.layers.items()),
        *(Line(line, "belt") for line in loaded.belts),
        *_tones(loaded),
        Area(loaded.body, "body"),
        Line(loaded.unloaded.rim, "rim"),
    )


def bent_head(loaded: LoadedSection, mark: AssessedMark) -> HeadBent:
    """How hard the head of an injury is bent, and where its middle lies."""
    reach = 0.0 if mark.head is None else mark.head.reach_across
    return HeadBent(loaded.bending.over(loaded.liner_length(mark.inside), reach), loaded.liner_place(mark.inside))


def percent(strain: float) -> str:
    """A strain as it is written: tenths of a percent."""
    return f"{100 * strain:.1f} %"


def _layer(name: str) -> str:
    return name.removesuffix("_outboard").removesuffix("_inboard")


def _tones(loaded: LoadedSection) -> list[SceneMark]:
    """The inside of the rubber toned by its strain, one shape for each tone."""
    points, lengths = loaded.liner_half, loaded.bending.lengths
    along = lengths_along(loaded.unloaded.half.liner)
    count = int(np.searchsorted(along, lengths[-1])) + 1
    inward = _inward(points[:count])
    deep = points[:count] - read_toml("drawing", "styles.toml")["drawn"]["toned_depth"] * inward
    steps: list[list[Polygon]] = [[] for _ in range(TONES)]
    for first in range(count - 1):
        strain = loaded.bending.at((along[first] + along[first + 1]) / 2)
        piece = np.array([points[first], points[first + 1], deep[first + 1], deep[first]])
        tone = min(int(strain / TONE_STEP + 1e-9), TONES - 1)
        steps[tone] += [Polygon(piece), Polygon(piece * (-1, 1))]
    areas = [Area(MultiPolygon(pieces), f"bend_{tone}") for tone, pieces in enumerate(steps) if pieces]
    return [*areas, Line(mirrored(deep), "bend_outline")]


def _inward(points: np.ndarray) -> np.ndarray:
    """Unit normals into the cavity along a line that runs from the center plane outboard and down."""
    along = np.gradient(points, axis=0)
    inward: np.ndarray = np.column_stack([along[:, 1], -along[:, 0]])
    inward = inward / np.maximum(np.hypot(*inward.T), 1e-9)[:, None]
    return inward


def _shown_head(loaded: LoadedSection, assessment: Assessment, mark: AssessedMark, across: int) -> list[SceneMark]:
    """The channel of the injury, its head, and the same head in the middle of the crown."""
    key, reach = key_of(mark), 0.0 if mark.head is None else mark.head.reach_across
    outer, inner = loaded.outer_place(mark.outside), loaded.liner_place(mark.inside)
    size = max(THINNEST_CHANNEL, mark.facts.channel.stated or 0.0)
    channel = channel_outline(outer, inner, size).intersection(loaded.body)
    shapes: list[SceneMark] = [Area(_seen(channel, across), "channel", key)]
    if reach:
        thick = drawn_size("head_thickness")
        compared = _band(loaded, 0.0, reach, thick)
        head = _band(loaded, mark.inside, reach, thick)
        shapes += [Area(_seen(compared, across), "head_compared", key),
                   Area(_seen(head, across), head_style(assessment, mark), key)]
    return shapes


@lru_cache(maxsize=16)
def _band(loaded: LoadedSection, middle: float, reach: float, thick: float) -> Polygon:
    """A head on the loaded liner about the tread coordinate ``middle``, ``thick`` mm into the cavity."""
    places = np.array([loaded.liner_place(s) for s in np.linspace(middle - reach, middle + reach, 33)])
    return Polygon(np.vstack([places, (places + thick * _inward(places))[::-1]])).buffer(0)


def _seen(shape: Geometry, across: int) -> Geometry:
    return shape if across > 0 else transform(shape, lambda points: points * (-1, 1))


def _let_down(loaded: LoadedSection, view: View, lettering: Lettering, half: float) -> list[SceneMark]:
    """How far the tread came down, as a dimension at the center plane's far side."""
    if not loaded.load:
        return []
    x = -side(view) * 0.55 * float(loaded.unloaded.tread_edge_s)
    before = loaded.unloaded.outer_place(x).r
    line = DimensionLine((x, before), (x, loaded.ground), "", "dimension")
    return [with_arrows(line, lettering)]


def _said(loaded: LoadedSection, view: View, lettering: Lettering) -> list[Label]:
    """In the cavity: what this is, and what the load does."""
    inputs = loaded.unloaded.inputs
    bottom = inputs.rim_diameter / 2
    room = 2 * float(loaded.unloaded.sidewall.xm) * 0.95 / lettering.scale
    lines = [
        "Teaching model",
        f"belt edge {length(loaded.load, view.unit)} lower",
        f"{turns_per_km(inputs.overall_diameter, loaded.load):.0f} turns per km",
    ]
    text = "\n".join(broken(line, "label", lettering.type_size, room) for line in lines)
    row = lettering.scale * text_box("0", "label", lettering.type_size)[1]
    middle = (bottom + loaded.liner_place(0.0).r - 1.2 * row) / 2  # under the strain of the crown
    return [Label(0.0, middle, text, "label")]


def _wanted(loaded: LoadedSection, mark: AssessedMark | None, across: int) -> list[Wanted]:
    """The strain at the injury's head and in the middle of the crown."""
    crown = loaded.liner_place(0.0)
    wanted = []
    if mark is not None and mark.facts.is_injury:
        bent = bent_head(loaded, mark)
        if abs(mark.inside) > 1.0:
            sides = ("below", "left", "right") if abs(bent.place.x) < 0.8 * loaded.sidewall.xm else (
                ("left", "left below") if copysign(1, across * bent.place.x) > 0 else ("right", "right below"))
            wanted.append(Wanted(across * bent.place.x, bent.place.r, percent(bent.strain), "label_bend", key_of(mark),
                                 sides, off=loaded.body))
        wanted.append(Wanted(0.0, crown.r, percent(loaded.bending.crown), "label_bend", key_of(mark), ("below",)))
    return wanted
