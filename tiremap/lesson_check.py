"""What a lesson would teach, tried step by step: its answers, and what is wrong with it.

A step is wrong where its guidance or size is unknown, its tire cannot be drawn under its load, the reason it tells
is not among those there are, or the answer is not the one it expects.
"""

from dataclasses import dataclass

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.errors import TiremapError
from tiremap.geometry.loaded_section import load_section
from tiremap.geometry.section import draw_section
from tiremap.model.lesson import Lesson, LessonStep
from tiremap.model.lesson_job import lesson_job
from tiremap.model.rule_set_file import rule_set_named


@dataclass(frozen=True)
class TriedStep:
    """A step with its assessment, ``None`` where it has none, and what is wrong with it, empty where nothing is."""

    number: int
    line: int
    step: LessonStep
    assessment: Assessment | None
    wrong: str

    @property
    def known_assessment(self) -> Assessment:
        """The assessment of a step that nothing is wrong with."""
        assert self.assessment is not None
        return self.assessment


def tried(lesson: Lesson) -> tuple[TriedStep, ...]:
    """Every step of the lesson, tried."""
    return tuple(_tried(lesson, number) for number in range(1, len(lesson.steps) + 1))


def refuse_broken(lesson: Lesson, name: str) -> None:
    """Raise `TiremapError` with file, line and reason for the first step that is wrong."""
    broken = next((each for each in tried(lesson) if each.wrong), None)
    if broken is not None:
        raise TiremapError(f"{name}, step {broken.number}, line {broken.line}: {broken.wrong}")


def _tried(lesson: Lesson, number: int) -> TriedStep:
    step, line = lesson.steps[number - 1], lesson.lines[number - 1]
    lines = lesson.key_lines[number - 1] if lesson.key_lines else {}
    try:
        rule_set = rule_set_named(step.guidance)
    except TiremapError as error:
        return TriedStep(number, lines.get("guidance", line), step, None, str(error))
    try:
        assessment = assess(lesson_job(step), rule_set, advise=False)
    except TiremapError as error:
        return TriedStep(number, lines.get("size", line), step, None, str(error))
    key, wrong = _wrong_with(step, assessment)
    return TriedStep(number, lines.get(key, line), step, assessment, wrong)


def _wrong_with(step: LessonStep, assessment: Assessment) -> tuple[str, str]:
    """Which key of a step is wrong and why, in words; two empty texts where nothing is."""
    if assessment.section_inputs is None:
        return "size", f"The size {step.size!r} cannot be read. A right one is such as 205/55R16 91V."
    try:
        load_section(draw_section(assessment.section_inputs), float(step.load_mm))
    except TiremapError as error:
        return "load_mm" if step.load_mm else "size", str(error)
    if step.holes and step.chosen > len(step.holes):
        return "chosen", f"chosen: there is no hole {step.chosen}. This step has {len(step.holes)}."
    codes = tuple(dict.fromkeys(reason.code for reason in assessment.all_reasons))
    if step.reason is not None and step.reason not in codes:
        return "reason", f"reason: {step.reason!r} is not told in this step. What is told: {', '.join(codes)}."
    if step.expect is not None and step.expect != assessment.answer:
        answer = f"{assessment.answer}{_why(assessment)}"
        return "expect", f"expect: this step expects {step.expect}, and the answer is {answer}"
    return "", ""


def _why(assessment: Assessment) -> str:
    """What decides an answer, after a colon; what may be repaired has nothing against it."""
    if assessment.answer == "repairable":
        return ": nothing speaks against it."
    return f": {assessment.all_reasons[0].says}"
