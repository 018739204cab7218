"""What stands in a file and cannot be used is told with a right one, in words anybody reads."""

from datetime import UTC, datetime
from typing import Annotated, Literal

import pytest
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from tiremap.model.job import Injury
from tiremap.model.wording import in_words, shown


class Every(BaseModel):
    """One field for each way a value can be wrong."""

    model_config = ConfigDict(strict=True)

    fewer: Annotated[float, Field(lt=5)] = 0.0
    most: Annotated[float, Field(le=5)] = 0.0
    choice: Literal["a", "b"] = "a"
    word: Annotated[str, Field(min_length=1, max_length=3)] = "a"
    truth: bool = True
    when: datetime = datetime(2026, 1, 1, tzinfo=UTC)
    some: Annotated[tuple[int, ...], Field(min_length=1, max_length=2)] = (1,)
    inside: dict[str, int] = {}
    unusual: frozenset[int] = frozenset()


@pytest.mark.parametrize(
    ("wrong", "what", "right"),
    [
        ({"fewer": 5.0}, "5.0 cannot be used", "less than 5"),
        ({"most": 5.5}, "5.5 cannot be used", "5 or less"),
        ({"choice": "c"}, "'c' cannot be used", "'a' or 'b'"),
        ({"word": ""}, "'' cannot be used", "not be empty"),
        ({"word": "long"}, "'long' cannot be used", "3 characters or fewer"),
        ({"truth": "yes"}, "'yes' cannot be used", "true or false"),
        ({"when": "noon"}, "'noon' cannot be used", "day and time"),
        ({"some": ()}, "a list cannot be used", "one or more"),
        ({"some": (1, 2, 3)}, "a list cannot be used", "2 or fewer"),
        ({"some": 1}, "1 cannot be used", "a list, as in"),
        ({"inside": "x"}, "'x' cannot be used", "a group of named fields"),
        ({"unusual": {"a": 1}}, "a group of fields cannot be used", "It should be a valid frozenset"),
    ],
)
def test_every_kind_of_wrong_value_is_told_with_a_right_one(wrong, what, right):
    with pytest.raises(ValidationError) as refused:
        Every.model_validate(wrong)
    told = in_words(refused.value)
    assert what in told.what and right in told.right


def test_of_two_faulty_entries_the_first_is_told_though_the_other_has_fewer_faults():
    inside = {"value": "x", "how": "tape", "origin": "the moon"}  # two faults as a place across
    with pytest.raises(ValidationError) as refused:
        Injury.model_validate({"id": "A", "inside": inside, "lean_across": {"value": "y", "how": "probe"}})
    assert {fault["loc"][0] for fault in refused.value.errors()} == {"inside", "lean_across"}
    told = in_words(refused.value)
    assert told.what == "inside: value: 'x' cannot be used."
    assert "number" in told.right


@pytest.mark.parametrize(
    ("value", "told"),
    [
        (None, "null"), (True, "true"), (False, "false"), (10**400, "a number of very many digits"), (6.5, "6.5"),
        ({"a": 1}, "a group of fields"), ([1], "a list"), (object(), "what stands there"),
    ],
)
def test_a_value_is_shown_as_it_stands_in_a_file(value, told):
    assert shown(value) == told
