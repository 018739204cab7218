"""``tiremap lesson``: check a lesson, print what its steps answer, write its steps as pictures."""

from dataclasses import replace
from pathlib import Path

from tiremap.drawing.bending_scene import widest_words
from tiremap.drawing.shown_reason import first_told
from tiremap.drawing.teach_scenes import Shown, lanes_of, loaded_of, middle_of_holes
from tiremap.drawing.wording import ANSWER_WORDS
from tiremap.errors import TiremapError
from tiremap.lesson_check import TriedStep, refuse_broken, tried
from tiremap.rules.reasons import Reason
from tiremap.storage.lesson_file import lesson_paths, read_lesson


def check_lesson(file: str, pictures: str | None) -> int:
    """Print each step with its answer; 0. Raises `TiremapError` with line and reason for the first broken step.

    ``file`` is a lesson, or the name of one that ships; ``pictures`` a folder to write each step to as PNG.
    """
    path = _path(file)
    lesson = read_lesson(path)
    refuse_broken(lesson, path.name)
    steps = tried(lesson)
    print(f"{lesson.title}: {len(steps)} steps, nothing wrong")
    for each in steps:
        hidden = ", hidden" if each.step.answer == "hidden" else ""
        print(f"{each.number:2}. {ANSWER_WORDS[each.known_assessment.answer]}{hidden}: {each.step.says}")
        loaded = loaded_of(each.known_assessment, each.step.beside, float(each.step.load_mm))
        if loaded is not None:
            print(f"    {widest_words(loaded, 'mm')}")
    if pictures is not None:
        _write_pictures(steps, Path(pictures), path.stem)
    return 0


def _path(file: str) -> Path:
    """The file itself, or the lesson that ships under that name."""
    shipped = {path.stem: path for path in lesson_paths()}
    return shipped.get(file, Path(file))


def _write_pictures(steps: tuple[TriedStep, ...], folder: Path, stem: str) -> None:
    from tiremap.render.class_picture import ClassPicture, write_class_picture

    if not folder.is_dir():
        raise TiremapError(f"The folder {str(folder)!r} of the pictures does not exist.")
    for each in steps:
        shown, reason = _shown(each)
        place = f"{each.number} of {len(steps)}"
        target = folder / f"{stem}_{each.number:02}.png"
        write_class_picture(ClassPicture(shown, each.step.says, place, reason), target)
        print(target)


def _shown(each: TriedStep) -> tuple[Shown, Reason | None]:
    """What a step shows, and the reason it tells."""
    step, assessment = each.step, each.known_assessment
    chosen = str(step.chosen) if step.holes else None
    shown = Shown(
        assessment, chosen, step.beside, loaded_of(assessment, step.beside, float(step.load_mm)),
        lanes_of(assessment.job) if step.beside == "guidance" else (), hidden=step.answer == "hidden",
        strip_middle=middle_of_holes(assessment, chosen),
    )
    reasons = assessment.all_reasons
    reason = reasons[first_told(assessment, chosen, step.reason)] if reasons else None
    if reason is None or shown.hidden:
        return shown, None
    return replace(shown, reason=(reason.code, reason.subject)), reason
