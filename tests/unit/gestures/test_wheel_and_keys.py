"""The mouse wheel, two fingers, and the keyboard."""

import pytest

from tiremap.gestures.keys import key_pressed, next_mark
from tiremap.gestures.wheel import NOTCH, two_fingers_moved, wheel_turned
from tiremap.gestures.wishes import Choose, Edit, Fit, Nudge, Pan, Remove, TurnBy, Zoom


def pressed(key, chosen="1", shift=False, ctrl=False, outboard_right=True):
    return key_pressed(key, chosen, shift=shift, ctrl=ctrl, outboard_right=outboard_right)


@pytest.mark.parametrize("over", ["section", "strip"])
def test_the_wheel_magnifies_about_the_pointer(over):
    wish = wheel_turned(NOTCH, over, (30.0, 40.0), turning=False)
    assert isinstance(wish, Zoom)
    assert wish.factor > 1
    assert wish.about == (30.0, 40.0)


def test_a_notch_back_undoes_a_notch_forward():
    forward, back = (wheel_turned(way * NOTCH, "strip", (0, 0), turning=False) for way in (1, -1))
    assert forward.factor * back.factor == pytest.approx(1)


def test_the_wheel_turns_the_strip_with_the_key_held_and_over_the_ring_without():
    assert wheel_turned(-NOTCH, "strip", (0, 0), turning=True) == wheel_turned(-NOTCH, "ring", (0, 0), turning=False)
    assert wheel_turned(-NOTCH, "ring", (0, 0), turning=False).windows > 0


def test_the_wheel_between_the_drawings_does_nothing():
    assert wheel_turned(NOTCH, None, (0, 0), turning=False) is None


def test_two_fingers_carry_section_and_strip_and_turn_the_ring():
    assert two_fingers_moved(4, -6, "strip", 300) == Pan(4, -6)
    assert two_fingers_moved(4, -6, "section", 300) == Pan(4, -6)
    assert two_fingers_moved(0, -30, "ring", 300) == TurnBy(0.1)


@pytest.mark.parametrize(
    ("shift", "ctrl", "step"), [(False, False, 1.0), (True, False, 10.0), (False, True, 0.1)]
)
def test_an_arrow_nudges_by_one_millimeter_ten_with_shift_a_tenth_with_ctrl(shift, ctrl, step):
    assert pressed("right", shift=shift, ctrl=ctrl) == Nudge("1", step, 0.0)
    assert pressed("down", shift=shift, ctrl=ctrl) == Nudge("1", 0.0, step)


def test_opposite_arrows_undo_each_other():
    for one, other in (("left", "right"), ("up", "down")):
        a, b = pressed(one), pressed(other)
        assert (a.across + b.across, a.along + b.along) == (0, 0)


def test_arrows_point_as_on_the_screen_when_outboard_is_left():
    assert pressed("right", outboard_right=False) == pressed("left", outboard_right=True)


def test_delete_enter_and_escape_speak_of_the_chosen_mark():
    assert [pressed(key) for key in ("delete", "enter", "escape")] == [Remove("1"), Edit("1"), Choose("")]


@pytest.mark.parametrize("key", ["left", "right", "up", "down", "delete", "enter", "escape"])
def test_keys_for_a_mark_do_nothing_while_none_is_chosen(key):
    assert pressed(key, chosen="") is None


def test_keys_for_the_picture_need_no_mark():
    assert pressed("home", chosen="") == pressed("0", chosen="") == Fit()
    assert pressed("+").factor * pressed("-").factor == pytest.approx(1)
    assert pressed("page up").windows == -pressed("page down").windows < 0


def test_tab_goes_through_every_mark_and_then_lets_the_focus_go_on():
    ids, chosen, seen = ("1", "2", "R1"), "", []
    while (chosen := next_mark(ids, chosen)) is not None:
        seen.append(chosen)
    assert seen == ["1", "2", "R1"]


def test_shift_tab_goes_the_other_way():
    ids = ("1", "2", "R1")
    assert [next_mark(ids, chosen, back=True) for chosen in ("", "R1", "2", "1")] == ["R1", "2", "1", None]


def test_tab_on_a_tire_without_marks_lets_the_focus_go_on():
    assert next_mark((), "") is None
