"""Keys at the drawings. Arrows move the chosen mark the way they point on the screen.

Up and down go along the tread by the same millimeters as left and right go across: one key is one distance on the
rubber, whatever the size of the tire.
"""

from tiremap.gestures.wishes import Choose, Edit, Fit, Nudge, Remove, TurnBy, Wish, Zoom

STEP_MM, LONG_STEP_MM, SHORT_STEP_MM = 1.0, 10.0, 0.1
ZOOM_PER_KEY = 1.25
WINDOWS_PER_KEY = 0.5

_ARROWS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}
_PICTURE: dict[str, Wish] = {
    "home": Fit(),
    "0": Fit(),
    "+": Zoom(ZOOM_PER_KEY),
    "-": Zoom(1 / ZOOM_PER_KEY),
    "page up": TurnBy(-WINDOWS_PER_KEY),
    "page down": TurnBy(WINDOWS_PER_KEY),
}


def key_pressed(key: str, chosen: str, *, shift: bool, ctrl: bool, outboard_right: bool) -> Wish | None:
    """What a key asks for while the mark ``chosen`` is chosen (empty: none).

    Arrows nudge it by 1 mm, with ``shift`` by 10 and with ``ctrl`` by 0.1.
    """
    if key in _PICTURE:
        return _PICTURE[key]
    if not chosen:
        return None
    if key in _ARROWS:
        step = LONG_STEP_MM if shift else SHORT_STEP_MM if ctrl else STEP_MM
        right, down = _ARROWS[key]
        return Nudge(chosen, step * (right if outboard_right else -right) + 0.0, step * down)
    of_the_chosen: dict[str, Wish] = {"delete": Remove(chosen), "enter": Edit(chosen), "escape": Choose("")}
    return of_the_chosen.get(key)


def next_mark(ids: tuple[str, ...], chosen: str, back: bool = False) -> str | None:
    """The mark that Tab (or Shift+Tab) goes to; ``None`` past the last one, where the focus moves on."""
    if chosen not in ids:
        return (ids[-1] if back else ids[0]) if ids else None
    place = ids.index(chosen) + (-1 if back else 1)
    return ids[place] if 0 <= place < len(ids) else None


def mark_after(ids: tuple[str, ...], chosen: str, back: bool = False) -> str | None:
    """The mark that N (or P, back) goes to: all of them in turn, without end; ``None`` where there are none."""
    following = next_mark(ids, chosen, back)
    return following if following is not None else next_mark(ids, "", back)
