"""Files of the shop's own rule sets: none is written over another, and what cannot be changed safely is refused."""

import pytest

from tiremap.errors import TiremapError
from tiremap.resources import settings_folder, shop_rule_sets_folder
from tiremap.storage import shop_rule_sets
from tiremap.storage.shop_rule_sets import copy_rule_set, import_rule_set, write_limit


def test_a_file_that_came_there_meanwhile_is_not_written_over(monkeypatch):
    path = shop_rule_sets_folder() / "ours.toml"
    path.parent.mkdir(parents=True)
    path.write_text("another program's")
    monkeypatch.setattr(shop_rule_sets, "_new_path", lambda name: path)  # as if it was not there yet when looked for
    with pytest.raises(TiremapError, match="already there"):
        copy_rule_set("germany", "ours")
    assert path.read_text() == "another program's"


def test_a_folder_that_cannot_be_made_is_told():
    settings_folder().write_text("a file where the folder would be")
    with pytest.raises(TiremapError, match="cannot be made: Not a directory"):
        copy_rule_set("germany", "ours")


def test_a_shared_set_with_a_name_that_is_no_file_name_everywhere_is_not_taken(tmp_path):
    text = copy_rule_set("germany", "ours").read_text(encoding="utf-8")
    shared = tmp_path / "our set.toml"
    shared.write_text(text.replace('name = "ours"', 'name = "our set"'), encoding="utf-8")
    with pytest.raises(TiremapError, match="our set"):
        import_rule_set(shared)
    assert [path.name for path in shop_rule_sets_folder().iterdir()] == ["ours.toml"]


def test_a_limit_written_otherwise_than_a_line_each_is_left_as_it_is():
    path = copy_rule_set("germany", "ours")
    text = path.read_text(encoding="utf-8").replace('grade = "issuer"', '"grade" = "issuer"', 1)
    path.write_text(text, encoding="utf-8")
    field = next(line[2:-2] for line in text[: text.index('"grade" = ')].splitlines()[::-1] if line.startswith("[["))
    with pytest.raises(TiremapError, match=rf"{field}\.0 of ours.toml cannot be changed here"):
        write_limit("ours", field, 0, 5.0, "the foreman")
    assert path.read_text(encoding="utf-8") == text


def test_a_file_in_the_place_of_the_folder_is_named_and_left(tmp_path):
    folder = shop_rule_sets_folder()
    folder.parent.mkdir(parents=True)
    folder.write_text("a list of our own")
    with pytest.raises(TiremapError, match=r"The folder .* cannot be made: File exists\. Move away what stands"):
        copy_rule_set("germany", "ours")
    assert folder.read_text() == "a list of our own"


def test_a_file_that_cannot_be_written_is_told(monkeypatch):
    path = shop_rule_sets_folder() / "gone" / "ours.toml"
    monkeypatch.setattr(shop_rule_sets, "_new_path", lambda name: path)  # as if its folder went meanwhile
    with pytest.raises(TiremapError, match=r"ours\.toml cannot be written: No such file or directory"):
        copy_rule_set("germany", "ours")
