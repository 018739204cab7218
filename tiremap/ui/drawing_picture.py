"""What the drawings show: assessment, chosen mark and sight, and the scenes these make. No Qt, no ink.

Points are mm in a drawing's own frame, screen points logical pixels with y down.
"""

from dataclasses import replace

from shapely import STRtree

from tiremap.assessment import Assessment
from tiremap.drawing import places
from tiremap.drawing.mark_looks import chosen_mark, key_of
from tiremap.drawing.ring_scene import ring_scene
from tiremap.drawing.scene import Scene, SceneMark, Symbol, View
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.sight import section_of, side
from tiremap.drawing.strip_scene import strip_scene
from tiremap.drawing.wording import Unit
from tiremap.free_places import FreePlaces
from tiremap.gestures.panels import GREATEST_SECTION_SHARE, LEAST_RING_SHARE, panels_in, shares_around
from tiremap.gestures.pointer import DrawingName
from tiremap.gestures.sight import Screen, Sight, fitted
from tiremap.model.job import TypedDimensions
from tiremap.ui.drawing_partners import (
    answered_anew,
    neighbors_around,
    off_what_stays,
    only,
    partners_of,
    texts_that_stay,
)

DRAWINGS: tuple[DrawingName, ...] = ("section", "strip", "ring")
_NO_TIRE_RADIUS = 300.0
_SENTENCE_SCALE = 2.0
"""Tire mm to a mm of the screen while there is no tire."""
_LEAST_TIRE_SHARE = 0.4
"""Of the height of its panel, for the tire itself, however large what is written over it."""
_LEAST_WINDOW = 120.0
"""px; a window that never had room, such as a hidden one, is fitted once it has."""
_FITTING_ROUNDS, _FITTED_TO = 24, 1e-5
"""Margins are in paper mm, so the frame depends on the scale that fits it: it settles in a few rounds."""

_Tire = tuple[str | None, TypedDimensions | None]


class Picture:
    """The state of the drawings. ``tried`` is the assessment of a place a mark is being dragged over."""

    def __init__(self, px_per_paper_mm: float) -> None:
        self.px_per_paper_mm = px_per_paper_mm
        self.assessment: Assessment | None = None
        self.tried: Assessment | None = None
        self.free: FreePlaces | None = None
        """Where one more unit could go, if that is to be shown."""
        self.chosen = ""
        self.hovered = ""
        self.shown_reason: tuple[str, tuple[str, ...]] | None = None
        self.unit: Unit = "mm"
        self.datum_hour = 12.0
        self.from_inside = True
        self.large_type = False
        self._window, self._shares = (2.0, 2.0), (LEAST_RING_SHARE, GREATEST_SECTION_SHARE)
        self.panels = panels_in(*self._window)
        self.sight = Sight(1.0, 0.0, 0.0, 0.0, _NO_TIRE_RADIUS, (-1.0, -1.0, 1.0, 1.0), (-1.0, -1.0, 1.0, 1.0))
        self.untouched = True
        """Whether the sight is still as it was fitted: such a one is fitted again when the window changes."""
        self._tire: _Tire | None = None
        self._laid: dict[DrawingName, Scene] = {}
        self._still: dict[tuple[DrawingName, frozenset[str]], STRtree] = {}
        """Texts of what is laid that stay while marks of those keys move."""
        self._ring_shows: tuple[object, ...] = ()
        self._turned: frozenset[str] = frozenset()

    # --- what is shown --------------------------------------------------------------------------------------------

    @property
    def shown(self) -> Assessment | None:
        """The assessment on the screen."""
        return self.tried or self.assessment

    @property
    def has_tire(self) -> bool:
        """Whether there is a tire to put marks on."""
        return self.assessment is not None and self.assessment.strip is not None

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of all marks, injuries first."""
        return () if self.assessment is None else tuple(mark.id for mark in self.assessment.marks)

    @property
    def tread_radius(self) -> float:
        """Radius of the tread from the axle, mm."""
        return self.assessment.facts.overall_diameter / 2

    def show(self, assessment: Assessment, chosen: str, reason: tuple[str, tuple[str, ...]] | None) -> None:
        """Show an assessment; the sight stays unless it is of another tire."""
        newly_chosen = chosen and chosen != self.chosen
        tire = (assessment.job.tire.size_code, assessment.job.tire.typed_dimensions)
        self.assessment, self.tried, self.chosen, self.shown_reason = assessment, None, chosen, reason
        if self.hovered not in self.ids:
            self.hovered = ""
        if tire != self._tire:
            self._tire = tire
            self.fit()
        elif assessment.strip is not None:
            self.sight = replace(self.sight, liner_radius=assessment.strip.R0)
        if newly_chosen:
            self.bring_into_view(chosen)

    def bring_into_view(self, id: str) -> None:
        """Turn the strip to a mark that was chosen elsewhere and lies out of its window."""
        mark = self.shown.mark(id)
        if mark is None or mark.inside_place is None:
            return
        _, y = places.strip_point(self.shown, self.view(), mark.inside_place.s, mark.inside_place.a)
        if abs(y) > self.sight.strip_length(self.panels) / 2:
            self.sight = self.sight.turned_to(mark.inside_place.a)

    def fit(self) -> None:
        """Look at the whole section; the strip stays turned as it is."""
        self.untouched = True
        if self.assessment is None or min(self._window) < _LEAST_WINDOW:
            return
        if not self.has_tire:
            self._fit_sentences()
            return
        bare = replace(self.assessment, injuries=(), repairs=(), pairs=())
        self.sight = replace(self.sight, liner_radius=self.assessment.strip.R0)
        for _ in range(_FITTING_ROUNDS):
            before = self.sight.scale
            self._fit_round(bare)
            if abs(self.sight.scale / before - 1) < _FITTED_TO:
                break

    def _fit_round(self, bare: Assessment) -> None:
        """Fit to the frames that the drawings have at the present scale; ``bare`` is the tire without its marks."""
        view, scale = self.view(while_dragging=True), self.sight.scale
        section, strip, ring = (scene(bare, view).frame for scene in (section_scene, strip_scene, ring_scene))
        self._lay_panels(shares_around(section[2] - section[0], section[3] - section[1], self.panels))
        half_length = view.strip_length / 2
        rooms = (strip[3] - half_length) * scale, (-half_length - strip[1]) * scale
        fit = fitted(section, ring, self.sight.liner_radius, self.sight.turn, self.panels)
        tire = self.tread_radius - section[1]
        least = _LEAST_TIRE_SHARE * self.panels.section.height / tire
        if fit.scale < least:  # a window too low for all that is written: the tire goes before the words
            fit = replace(fit, scale=least, radius=section[1] + self.panels.section.height / 2 / least)
        self.sight = replace(fit, strip_rooms=rooms)

    def _fit_sentences(self) -> None:
        """Without a tire there are only sentences, which are not magnified."""
        self._lay_panels((LEAST_RING_SHARE, GREATEST_SECTION_SHARE))
        view = replace(self.view(), paper_scale=_SENTENCE_SCALE, ring_scale=_SENTENCE_SCALE)
        section, ring = section_scene(self.assessment, view).frame, ring_scene(self.assessment, view).frame
        fit = fitted(section, ring, _NO_TIRE_RADIUS, self.sight.turn, self.panels)
        self.sight = replace(fit, scale=self.px_per_paper_mm / _SENTENCE_SCALE)

    def resize(self, width: float, height: float) -> None:
        """Lay the panels out anew; a sight the user has not touched is fitted again."""
        self._window = width, height
        self._lay_panels(self._shares)
        if self.untouched:
            self.fit()

    def _lay_panels(self, shares: tuple[float, float]) -> None:
        self._shares = shares
        self.panels = panels_in(*self._window, *shares)

    def look(self, sight: Sight) -> None:
        """Look elsewhere, as the user asked."""
        self.untouched = self.untouched and replace(sight, turn=self.sight.turn) == self.sight
        self.sight = sight

    def set_large_type(self, large: bool) -> None:
        """Write larger; what is written takes room from the drawings."""
        if large == self.large_type:
            return
        self.large_type = large
        sight, untouched = self.sight, self.untouched
        self.fit()
        if not untouched:
            self.sight = replace(sight, strip_rooms=self.sight.strip_rooms)
            self.untouched = False

    def see_from_inside(self, from_inside: bool) -> None:
        """Look from inside the tire or at the tread, at the same part of it."""
        if from_inside != self.from_inside:
            self.from_inside = from_inside
            self.sight = self.sight.mirrored()

    def view(self, while_dragging: bool = False) -> View:
        """The view that scenes are made for."""
        return View(
            chosen=self.chosen or None,
            hovered=self.hovered or None,
            shown_reason=self.shown_reason,
            from_inside=self.from_inside,
            strip_middle=self.sight.turn,
            strip_length=self.sight.strip_length(self.panels),
            datum_hour=self.datum_hour,
            unit=self.unit,
            while_dragging=while_dragging,
            composed=True,
            visible=self.sight.limits("section", self.panels),
            paper_scale=self.px_per_paper_mm / self.sight.scale,
            ring_scale=self.px_per_paper_mm / self.sight.scale_of("ring", self.panels),
            type_size="large" if self.large_type else "screen",
        )

    def scenes(self) -> dict[DrawingName, Scene]:
        """The three scenes as they are now."""
        view = self.view()
        strip = strip_scene(self.shown, view, self.free)
        made = (section_scene(self.shown, view), strip, ring_scene(self.shown, view))
        self._laid, self._still = dict(zip(DRAWINGS, made, strict=True)), {}
        self._ring_shows = self._on_ring()
        return self._laid

    def dragged_scenes(self) -> dict[DrawingName, Scene]:
        """What a frame of a drag may change: scenes of the dragged mark and of what it has to do with.

        The ring is left out while the mark does not go around.
        """
        view = self.view(while_dragging=True)
        turned = answered_anew(self.assessment, self.shown, self.chosen)
        self._turned = frozenset(self.key_of(id) for id in turned)
        partners = only(self.shown, partners_of(self.shown, self.chosen) | self._spoken_of() | turned)
        scenes: dict[DrawingName, Scene] = {
            "section": section_scene(partners, view), "strip": strip_scene(partners, view)
        }
        before, self._ring_shows = self._ring_shows, self._on_ring()
        if self._ring_shows != before:
            scenes["ring"] = ring_scene(only(self.shown, neighbors_around(self.shown, self.chosen) | turned), view)
        return {name: self._off_what_stays(name, scene, view) if name in self._laid else scene
                for name, scene in scenes.items()}

    def _off_what_stays(self, name: DrawingName, scene: Scene, view: View) -> Scene:
        moving, scale = self.upper_keys, view.ring_scale if name == "ring" else view.paper_scale
        if (name, moving) not in self._still:
            self._still[name, moving] = texts_that_stay(self._laid[name], moving, scale)
        return off_what_stays(scene, self._still[name, moving], moving, scale)

    @property
    def symbol_keys(self) -> frozenset[str]:
        """Keys of marks of which a frame lays the symbol alone: the one pointed at, and those a drag turns."""
        turned = self._turned if self.tried is not None else frozenset()
        return turned | ({self.key_of(self.hovered)} if self.hovered else frozenset())

    def hovered_scenes(self) -> dict[DrawingName, Scene]:
        """The scenes as last laid, with the mark under the pointer raised, and its distance to the chosen one."""
        key = self.key_of(self.hovered)
        laid = {**self._laid, "strip": strip_scene(self.shown, self.view(), self.free)}
        return {name: replace(scene, marks=tuple(_raised(mark, key) for mark in scene.marks))
                for name, scene in laid.items()}

    def _spoken_of(self) -> set[str]:
        """Ids of the mark under the pointer and of those the shown reason is about."""
        return {self.hovered, *(self.shown_reason[1] if self.shown_reason else ())}

    def _on_ring(self) -> tuple[object, ...]:
        """What the ring shows of the chosen mark."""
        mark = self.shown.mark(self.chosen)
        return () if mark is None else (mark.around, self.shown.answer_shown(mark))

    @property
    def upper_keys(self) -> frozenset[str]:
        """Keys of what a drag moves: the chosen mark's."""
        mark = None if self.shown is None else chosen_mark(self.shown, self.view())
        return frozenset() if mark is None else frozenset({key_of(mark)})

    def key_of(self, id: str) -> str:
        """The key of a mark's shapes; empty for none."""
        mark = None if self.shown is None else self.shown.mark(id)
        return "" if mark is None else key_of(mark)

    def leader(self) -> tuple[Screen, Screen] | None:
        """From the foot of the section to the head of the strip's window, where the chosen mark crosses the gap."""
        mark = None if self.shown is None else chosen_mark(self.shown, self.view())
        if mark is None or mark.inside_place is None or section_of(self.shown) is None:
            return None
        on_strip = places.strip_point(self.shown, self.view(), mark.inside_place.s, mark.inside_place.a)
        in_section = section_of(self.shown).liner_place(mark.inside).x * side(self.view())
        half_length = self.sight.strip_length(self.panels) / 2
        if abs(on_strip[1]) > half_length:
            return None
        panel = self.panels.section
        x, foot = self.sight.screen_at("section", (in_section, self.sight.section_frame[1]), self.panels)
        head = self.sight.screen_at("strip", (on_strip[0], half_length), self.panels)
        if not panel.left <= x <= panel.left + panel.width:
            return None
        return (x, min(foot, panel.top + panel.height)), head

    def point_at(self, drawing: DrawingName, screen: Screen) -> tuple[float, float]:
        """The point of a drawing under a point of the screen."""
        return self.sight.point_at(drawing, screen, self.panels)

    def chosen_on_screen(self) -> Screen | None:
        """Where the chosen mark stands on the strip, if it is in view there."""
        mark = None if self.shown is None else self.shown.mark(self.chosen)
        if mark is None or mark.inside_place is None:
            return None
        point = places.strip_point(self.shown, self.view(), mark.inside_place.s, mark.inside_place.a)
        screen = self.sight.screen_at("strip", point, self.panels)
        return screen if self.panels.strip.holds(screen) else None


def _raised(mark: SceneMark, key: str) -> SceneMark:
    """A symbol with that key as it looks under the pointer; anything else as it is."""
    if not isinstance(mark, Symbol) or mark.hovered == (mark.key == key):
        return mark
    return replace(mark, hovered=mark.key == key)
