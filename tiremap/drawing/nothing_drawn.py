"""A drawing that has nothing to draw says so in a sentence."""

from tiremap.drawing.lettering import broken
from tiremap.drawing.scene import Label, Scene, SceneName, View
from tiremap.model.cautions import short_caution

EMPTY_HALF = 110.0
"""Half the width of an empty drawing, mm."""


def sentence_scene(
    name: SceneName, sentence: str, view: View, scale: float, half: float | None = None
) -> Scene:
    """A scene with one sentence in its middle and the caution under it; ``half`` is half its width, mm."""
    half = EMPTY_HALF * scale / 2 if half is None else half
    width = 1.7 * half / scale
    text, caution = (broken(each, style, view.type_size, width)
                     for each, style in ((sentence, "sentence"), (short_caution(), "caution")))
    tall = 0.7 * half
    said = [Label(0.0, 0.0, text, "sentence")]
    if name == "section" or not view.composed:
        said.append(Label(0.0, -0.9 * tall, caution, "caution", anchor="above"))
    return Scene(
        name,
        tuple(said),
        (-half, -tall, half, tall),
        view.type_size,
    )
