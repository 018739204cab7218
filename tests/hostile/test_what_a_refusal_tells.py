"""A refusal says what was wrong, where it stands, and what a right one looks like."""

from pathlib import Path

import pytest

from tests.helpers.hostile import not_plain
from tests.helpers.hostile_seeds import lesson_seeds, rule_set_seeds, stock_seeds
from tiremap.errors import TiremapError
from tiremap.model.job import MOST_MARKS
from tiremap.model.rule_set_file import rule_set_from_bytes
from tiremap.model.size_code import read_size_code
from tiremap.storage.job_file import job_from_bytes
from tiremap.storage.lesson_file import lesson_from_bytes
from tiremap.storage.settings import settings_from_bytes
from tiremap.workshop.stock import stock_from_bytes

JOB = '{"format": "tiremap-job",\n "version": 1,\n '


def refused(read, data):
    with pytest.raises(TiremapError) as caught:
        read(data if isinstance(data, bytes) else data.encode())
    assert not_plain(caught.value) == ""
    assert caught.value.right or "such as" in caught.value.what
    return str(caught.value)


@pytest.mark.parametrize(
    ("rest", "says"),
    [
        ('"note": "a", "later": {},\n "note": "b"}', "Line 4: The field 'note' stands twice in one group. Each"),
        ('"later": [{"a": 1}, {"a": 1,\n "b": 2, "a": 3}]}', "Line 4: The field 'a' stands twice"),
        ('"note": "NaN",\n "later": NaN}', "Line 4: NaN is not a number that can be measured. Write null"),
        ('"note": "",\n "later": [1, 1e999]}', "Line 4: 1e999 is not a number"),
        ('"later": ' + "9" * 1000 + "}", "Line 3: 99999999999999999999... is not a number"),
        ('"note": "x",\n "later": "\\uD800"}', "Line 4: A text holds \\ud800, half of a character"),
        ('"note": oops}', "line 3, column 10: Expecting value. A right line is"),
        ('"note": true}', "note: true cannot be used. It should be text."),
        ('"tire": []}', "tire: a list cannot be used. It should be a group of named fields"),
        ('"injuries": {}}', "injuries: a group of fields cannot be used. It should be a list"),
        ('"injuries": [{}]}', "injuries, 1st: id: it is missing. It must be there"),
        ('"injuries": [{"id": "\\r=1"}]}', "injuries, 1st: id: it is made of letters, digits and signs that print"),
        ('"refit": {"nuts": 3}}', "refit: nuts: 3 cannot be used. It should be 4, 5, 6, 8 or 10"),
        ('"refit": {"tightened": "noon"}}', "refit: tightened: 'noon' cannot be used. It should be a day and time"),
        ('"note": 1' + "0" * 200 + "}", "note: a number of very many digits cannot be used. It should be text"),
    ],
)
def test_of_a_job(rest, says):
    assert says in refused(job_from_bytes, JOB + rest)


@pytest.mark.parametrize(
    "code", ["\x1b[2J", "205/55R16 \x07", "205/55\u202eR16", "9" * 5000, "x" * 5000, "205/55R" + "9" * 99]
)
def test_of_a_size_code_with_signs_that_do_not_print_or_without_an_end(code):
    says = refused(lambda data: read_size_code(data.decode()), code)
    assert says.isprintable() and len(says) < 300


def test_of_a_job_with_more_marks_than_can_be_weighed():
    many = ", ".join(f'{{"id": "{number}"}}' for number in range(MOST_MARKS + 1))
    assert "injuries: a list cannot be used. It should hold 200 or fewer" in refused(
        job_from_bytes, f'{JOB}"injuries": [{many}]}}'
    )
    assert len(job_from_bytes(f'{JOB}"injuries": [{many.rpartition(", ")[0]}]}}'.encode()).injuries) == MOST_MARKS


def test_of_a_job_with_values_without_an_end():
    assert "more than any job" in refused(job_from_bytes, f'{JOB}"later": [{",".join(["0"] * 200_001)}]}}')


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ('{"window": [0, 0, 1, 1' + "0" * 40 + "]}", "window, 4th: a number of very many digits cannot be used"),
        ('{"splitters": {"a\\u0000b": 1}}', "splitters: 'a\\x00b': 1 cannot be used. It should be a list"),
        ('{"theme": "pink"}', "theme: 'pink' cannot be used. It should be 'light', 'dark' or 'projector'"),
        ('{"maximized": 1}', "maximized: 1 cannot be used. It should be true or false"),
        ("[]", "a list cannot be used. It should be a group of named fields"),
    ],
)
def test_of_settings(data, says):
    assert says in refused(settings_from_bytes, data)


TOML_FAULTS = (
    (b"a." * 3000 + b"a = 1\n", "line 1: more than 12 words are joined by dots. A name is one word"),
    (b"later = 0x" + b"f" * 5000 + b"\n", "'later': its number is beyond 1000000000. A right one is"),
    (b"later = 1979-05-27\n", "'later': it is a date or a time. A text stands in quotation marks"),
    (b"later = " + b"[" * 20 + b"]" * 20 + b"\n", "too deep inside each other. At most 12 levels"),
    (b"later = \xff\n", "is not readable TOML: line 1 is not UTF-8. Save it as UTF-8"),
    (b"later = \n", "is not readable TOML: Invalid value (at line 1, column 9)."),
    (b"a = 1\na = 2\n", "line 2"),
    (b"a.b = 1\n[a.b]\n", "is not readable TOML: Cannot "),
    (b"later = " + b"9" * 5000 + b"\n", "a whole number in it is too long"),
)


@pytest.mark.parametrize(("fault", "says"), TOML_FAULTS)
@pytest.mark.parametrize(
    ("seeds", "read"),
    [
        (rule_set_seeds, lambda data: rule_set_from_bytes(data, Path("our_shop.toml"))),
        (stock_seeds, lambda data: stock_from_bytes(data, "stock.toml")),
        (lesson_seeds, lambda data: lesson_from_bytes(data, "mine.toml")),
    ],
)
def test_of_what_is_written_by_hand(seeds, read, fault, says):
    read(seeds()[0].data)
    read(b"\xef\xbb\xbf" + seeds()[0].data)
    assert says in refused(read, fault + seeds()[0].data)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (b"value = 6.0", b'value = "six"', "largest_injuries.0.value: 'six' cannot be used. It should be a number"),
        (b"value = 6.0", b"value = 6.0, size = 3", "largest_injuries.0.size: there is no entry of that name here"),
        (b'"passenger"', b'"Passenger"', "crown_zones.0.classes.0: 'Passenger' cannot be used. It should be"),
        (b"value = 2 ", b"value = 2.5 ", "repair_counts.0.value: 2.5 cannot be used. It should be a whole number"),
        (b'"our_shop"', b'"../our_shop"', "name: it says '../our_shop'. The name must be the file's own"),
    ],
)
def test_of_a_rule_set(old, new, says):
    data = rule_set_seeds()[0].data
    assert old in data
    assert says in refused(lambda spoiled: rule_set_from_bytes(spoiled, Path("our_shop.toml")), data.replace(old, new))
