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


def tried(lesson: Lesson) -> tuple[TriedStep, ...]:
    """Every step of the lesson, tried."""
    steps = zip(lesson.lines, lesson.steps, strict=True)
    return tuple(_tried(number, line, step) for number, (line, step) in enumerate(steps, 1))


def refuse_broken(lesson: Lesson, name: str) -> None:
    """Raise `TiremapError` with file, line and reason for the first step that is wrong."""
    broken = next((each for each in tried(lesson) if each.wrong), None)
    if broken is not None:
        raise TiremapError(f"{name}, step {broken.number}, line {broken.line}: {broken.wrong}")


def _tried(number: int, line: int, step: LessonStep) -> TriedStep:
    try:
        assessment = assess(lesson_job(step), rule_set_named(step.guidance), advise=False)
        wrong = _wrong_with(step, assessment)
    except TiremapError as error:
        return TriedStep(number, line, step, None, str(error))
    return TriedStep(number, line, step, assessment, wrong)


def _wrong_with(step: LessonStep, assessment: Assessment) -> str:
    """What is wrong with a step, in words. Raises `TiremapError` where its tire cannot be shown."""
    if assessment.section_inputs is None:
        return f"The size {step.size!r} cannot be read. A right one is such as 205/55R16 91V."
    load_section(draw_section(assessment.section_inputs), float(step.load_mm))
    if step.holes and step.chosen > len(step.holes):
        return f"chosen: there is no hole {step.chosen}. This step has {len(step.holes)}."
    codes = tuple(dict.fromkeys(reason.code for reason in assessment.all_reasons))
    if step.reason is not None and step.reason not in codes:
        return f"reason: {step.reason!r} is not among the reasons. They are: {', '.join(codes)}."
    if step.expect is not None and step.expect != assessment.answer:
        return f"expect: the answer is {assessment.answer}, not {step.expect}. {assessment.all_reasons[0].says}"
    return ""
