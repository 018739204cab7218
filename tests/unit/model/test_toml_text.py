"""A TOML file is read up to what any of ours may hold; beyond it is refused with line, key and a right one."""

import pytest

from tiremap.errors import TiremapError
from tiremap.model.toml_text import bounded_bytes, toml_from_bytes


def refused(text: bytes) -> str:
    with pytest.raises(TiremapError) as error:
        toml_from_bytes(text, "The stock")
    return str(error.value)


def test_what_is_read_is_the_table_with_or_without_a_byte_order_mark():
    assert toml_from_bytes(b"a = 1", "x") == toml_from_bytes(b"\xef\xbb\xbfa = 1", "x") == {"a": 1}


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (b"a = 1\nb = \xff", "line 2 is not UTF-8"),
        (b"a = " + b"[" * 50_000, "The stock"),
        (b"a = 1\na = 2", "not readable TOML"),
        (b"a.b = 1\na.b = 2", "not readable TOML"),
        (b"a = 1" + b"0" * 6000, "a whole number in it is too long"),
        (b"a = 2026-01-01", "'a': it is a date or a time"),
        (b"b = 1" + b"0" * 30, "its number is beyond"),
        (b".".join([b"a"] * 40) + b" = 1", "words are joined by dots"),
        (b"a = " + b"[" * 60 + b"]" * 60, "The stock"),
        (b"[a]\n[a]", "not readable TOML"),
    ],
)
def test_what_no_file_of_ours_holds_is_refused_in_words(text, says):
    assert says in refused(text)


def test_a_file_is_refused_by_its_size_alone_also_where_it_grew_while_it_was_read(tmp_path, monkeypatch):
    path = tmp_path / "stock.toml"
    path.write_bytes(b"x" * 11)
    with pytest.raises(TiremapError, match=r"too large: more than 0\.01 kB"):
        bounded_bytes(path, 10, "The stock")
    path.write_bytes(b"x" * 10)
    assert bounded_bytes(path, 10, "The stock") == b"x" * 10
    grown = type("Grown", (), {"st_size": 5})
    path.write_bytes(b"x" * 11)
    monkeypatch.setattr("tiremap.model.toml_text.os.fstat", lambda handle: grown)
    with pytest.raises(TiremapError, match="too large"):
        bounded_bytes(path, 10, "The stock")


def test_what_is_no_file_is_told(tmp_path):
    with pytest.raises(TiremapError, match="it is not a file"):
        bounded_bytes(tmp_path, 10, "The stock")
    with pytest.raises(TiremapError, match="No such file"):
        bounded_bytes(tmp_path / "none", 10, "The stock")
