"""A gesture played through."""

import pytest


def played(gesture, *happenings):
    """All wishes of a gesture, the last one last."""
    wishes = [next(gesture)]
    try:
        for happening in happenings:
            wishes.append(gesture.send(happening))
    except StopIteration as end:
        return [*wishes, end.value]
    pytest.fail("the gesture did not end")
