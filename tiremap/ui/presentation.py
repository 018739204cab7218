"""What an instructor shows: a lesson and its step, what was changed by hand since, what is hidden. No Qt here.

It holds a job of its own. Nothing done before a class reaches the job the shop works on.
"""

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.drawing.bending_scene import comparison
from tiremap.drawing.guidance_scene import Lane
from tiremap.drawing.scene import View
from tiremap.drawing.shown_reason import first_told
from tiremap.drawing.teach_scenes import Shown, lanes_of, loaded_of, middle_of_holes
from tiremap.drawing.wording import Unit
from tiremap.errors import TiremapError
from tiremap.geometry.loaded_data import greatest_load, usual_load
from tiremap.geometry.loaded_section import LoadedSection
from tiremap.model.job import Job
from tiremap.model.lesson import Beside, Lesson, LessonStep
from tiremap.model.lesson_job import lesson_job
from tiremap.model.rule_set_file import rule_set_or_why
from tiremap.rules.reasons import Reason
from tiremap.ui import mark_wishes

FARTHEST = 1.0
"""How far past the tread edge a hole can be dragged, in section heights: down the sidewall to the bead."""


class Presentation:
    """The step in view as it stands. Every change gives a new assessment; `shown` is what the drawings take."""

    def __init__(self, lesson: Lesson) -> None:
        self.lesson = lesson
        self.number = 0
        self.unit: Unit = "mm"
        self.job = Job()
        self._kept_lanes: tuple[Lane, ...] = ()
        self.begin()

    @property
    def step(self) -> LessonStep:
        """The step as the lesson has it."""
        return self.lesson.steps[self.number]

    def open(self, lesson: Lesson) -> None:
        """Show another lesson from its first step."""
        self.lesson, self.number = lesson, 0
        self.begin()

    def begin(self) -> None:
        """Show the step as the lesson has it: what was changed by hand is taken back.

        Raises `TiremapError` where the guidance it names can no longer be read; what was shown stays.
        """
        step = self.step
        job = lesson_job(step)
        self.assessment = self._assessed(job)
        self.job = job
        self.chosen = str(step.chosen) if step.holes else None
        self.beside: Beside = step.beside
        self.load = float(step.load_mm)
        self.hidden = step.answer == "hidden"
        self._strip_middle = middle_of_holes(self.assessment, self.chosen)  # it stays there while a hole is dragged
        self.told = first_told(self.assessment, self.chosen, step.reason)

    def go(self, by: int) -> bool:
        """Go on by so many steps; False where there is none."""
        before = self.number
        if not 0 <= before + by < len(self.lesson.steps):
            return False
        self.number = before + by
        try:
            self.begin()
        except TiremapError:
            self.number = before
            raise
        return True

    # --- by hand --------------------------------------------------------------------------------------------------

    def move(self, across_mm: float, around_rad: float | None = None, *, dragging: bool = False) -> None:
        """Put the chosen hole elsewhere; past the sidewall it stops there."""
        if self.chosen is None:
            return
        reach = self.farthest
        across_mm = round(min(max(across_mm, -reach), reach), 1)
        moved = mark_wishes.moved(self.job, self.chosen, across_mm, around_rad)
        self.job = mark_wishes.confirmed(moved, self.chosen)  # before a class it lies where it is put
        self.assessment = self._assessed(self.job, self.assessment if dragging else None)
        self.told = first_told(self.assessment, self.chosen)

    def choose(self, mark_id: str) -> None:
        """Choose another hole to drag and to speak of."""
        if mark_wishes.mark_in(self.job, mark_id) is not None:
            self.chosen = mark_id

    def let_down(self, load_mm: float) -> None:
        """Load the tire so far."""
        self.load = min(max(load_mm, 0.0), self.greatest_load)

    def put_beside(self, beside: Beside) -> None:
        """Show something else beside the section; the loaded tire is loaded as usual at first."""
        self.beside = beside
        if beside == "bending" and not self.load:
            self.load = round(usual_load(self._section_height), 1)

    def tell_next(self, by: int = 1) -> None:
        """Tell the next of the reasons, and after the last the first."""
        self.told = (self.told + by) % max(len(self.reasons), 1)

    # --- what there is to show ------------------------------------------------------------------------------------

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """The reasons to be told, the weightiest first."""
        return self.assessment.all_reasons

    @property
    def reason(self) -> Reason | None:
        """The reason told now."""
        return self.reasons[self.told] if self.told < len(self.reasons) else None

    @property
    def greatest_load(self) -> float:
        """How far the belt edge can be let down, mm."""
        return greatest_load(self._section_height)

    @property
    def farthest(self) -> float:
        """How far from the center a hole can be dragged, mm along the surface."""
        return self.assessment.facts.drawn_tread_width / 2 + FARTHEST * self._section_height

    @property
    def across(self) -> float | None:
        """Where the chosen hole enters, tread coordinate, mm."""
        mark = None if self.chosen is None else self.assessment.mark(self.chosen)
        return None if mark is None else mark.outside

    @property
    def loaded(self) -> LoadedSection | None:
        """The tire under its load; ``None`` where it is not shown or has no shape under it."""
        return loaded_of(self.assessment, self.beside, self.load)

    def shown(self, *, dragging: bool = False) -> Shown:
        """What the drawings take."""
        told = None if self.hidden or self.reason is None else (self.reason.code, self.reason.subject)
        return Shown(
            self.assessment, self.chosen, self.beside, self.loaded, self._lanes(dragging), told, self.hidden,
            self.unit, self._strip_middle, dragging,
        )

    def bends(self) -> str:
        """How hard the head is bent, in a sentence; empty where the loaded tire is not shown."""
        loaded = self.loaded
        return "" if loaded is None else comparison(self.assessment, loaded, View(chosen=self.chosen))

    def _lanes(self, dragging: bool) -> tuple[Lane, ...]:
        """Every guidance on this job; while a hole is dragged they are answered once it rests."""
        if self.beside != "guidance":
            return ()
        if dragging and self._kept_lanes:
            return self._kept_lanes
        self._kept_lanes = lanes_of(self.job)
        return self._kept_lanes

    @property
    def _section_height(self) -> float:
        return self.assessment.section_inputs.section_height

    def _assessed(self, job: Job, before: Assessment | None = None) -> Assessment:
        rule_set, wrong = rule_set_or_why(job.rule_set)
        if rule_set is None:
            raise TiremapError(wrong)
        return assess(job, rule_set, advise=False, before=before)
