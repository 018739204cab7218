"""The shop's own rule sets: found, refused with file and key, compared with the published ones."""

import hashlib
import json
import os
from pathlib import Path

import pytest

from tiremap.errors import TiremapError
from tiremap.model.job import Job, Tire
from tiremap.model.looser import looser_than
from tiremap.model.reference_sizes import half_width_on, reference_tires
from tiremap.model.rule_set import RuleSet, ZoneEdge
from tiremap.model.rule_set_file import (
    broken_rule_sets,
    published_rule_set_names,
    read_shop_rule_set,
    rule_set_named,
    rule_set_names,
    rule_set_or_why,
    rule_set_path,
    shop_files_as_they_stand,
    usable_rule_sets,
)
from tiremap.resources import resource_path, sample_jobs_folder, shop_rule_sets_folder
from tiremap.rules.facts import tire_facts
from tiremap.rules.shop_set import looser_than_parent
from tiremap.rules.zones import drawn_half_width
from tiremap.storage.shop_rule_sets import copy_rule_set, import_rule_set, share_rule_set, write_limit

SEVEN = published_rule_set_names()


def shop_set(parent: str, *changes: tuple[str, str], name: str = "our_shop") -> Path:
    """A copy of a published set with each text of ``changes`` replaced everywhere by the other."""
    path = copy_rule_set(parent, name)
    text = path.read_text()
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    path.write_text(text)
    return path


def without(parent: str, field: str, name: str = "our_shop") -> Path:
    """A copy of a published set that lacks every limit of a field."""
    path = copy_rule_set(parent, name)
    tables = path.read_text().split("\n[[")
    path.write_text("\n[[".join(table for table in tables if not table.startswith(f"{field}]]")))
    return path


def refused(path: Path) -> str:
    with pytest.raises(TiremapError) as error:
        read_shop_rule_set(path)
    return str(error.value)


def test_a_link_to_a_file_that_is_gone_is_named_as_broken_and_the_others_still_work():
    shop_set("japan")
    gone = shop_rule_sets_folder() / "lent.toml"
    gone.symlink_to(shop_rule_sets_folder() / "nowhere" / "lent.toml")
    ((path, why),) = broken_rule_sets()
    assert path == gone and "cannot be read: No such file or directory" in why
    assert rule_set_names() == (*SEVEN, "our_shop")
    assert ("lent.toml", 0, 0) in shop_files_as_they_stand()
    gone.unlink()
    copy_rule_set("japan", "lent")
    assert ("lent.toml", 0, 0) not in shop_files_as_they_stand()  # the watching window sees that it came back


def test_there_are_seven_published_sets_and_a_shop_starts_with_none_of_its_own():
    assert len(SEVEN) == 7
    assert rule_set_names() == SEVEN
    assert broken_rule_sets() == []


@pytest.mark.parametrize("parent", SEVEN)
def test_a_copy_has_every_limit_of_its_parent_and_is_nowhere_looser(parent):
    path = copy_rule_set(parent, "our_shop")
    copy, original = rule_set_named("our_shop"), rule_set_named(parent)
    assert path == shop_rule_sets_folder() / "our_shop.toml"
    assert (copy.name, copy.parent) == ("our_shop", parent)
    assert copy.limits == original.limits
    assert copy.title != original.title and copy.issuer != original.issuer
    assert looser_than_parent(copy) == ()
    assert rule_set_names() == (*SEVEN, "our_shop")


def test_a_copy_never_overwrites_a_file_and_never_takes_a_published_name():
    path = copy_rule_set("japan", "our_shop")
    before = path.read_bytes()
    for name in ("our_shop", "germany", "Germany", "all", "../outside", "a/b", "", ".hidden"):
        with pytest.raises(TiremapError):
            copy_rule_set("germany", name)
    assert path.read_bytes() == before
    assert list(shop_rule_sets_folder().iterdir()) == [path]
    with pytest.raises(TiremapError, match="our_shop"):
        copy_rule_set("our_shop", "grandchild")


def test_the_seven_are_never_touched_and_a_shop_cannot_stand_in_for_one():
    def sums() -> dict[str, str]:
        files = resource_path("rule_sets").iterdir()
        return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in files}

    before, germany = sums(), rule_set_named("germany")
    path = shop_set("germany", ("value = 6.0", "value = 3.0"))
    impostor = path.rename(path.with_name("germany.toml"))
    impostor.write_text(impostor.read_text().replace('name = "our_shop"', 'name = "germany"'))
    assert rule_set_named("germany") == germany
    assert [broken for broken, _ in broken_rule_sets()] == [impostor]
    assert rule_set_names() == SEVEN
    with pytest.raises(TiremapError, match="never changed"):
        write_limit("germany", "largest_injuries", 0, 3.0, "our own word")
    assert sums() == before


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("value = 6.0", 'value = "six"', "largest_injuries.0.value"),
        ('grade = "issuer"', 'grade = "hearsay"', "grade"),
        ('name = "our_shop"', 'name = "another"', "name"),
        ('parent = "germany"', 'parent = "atlantis"', "parent"),
        ('parent = "germany"\n', "", "parent"),
        ("value = 6.0", "value = nan", "largest_injuries.0.value"),
        ("value = 6.0", "value = 6.0\nsize = 3", "largest_injuries.0.size"),
        ('tighter = "less"', 'tighter = "more"', "largest_injuries.0.tighter"),
        ("value = 6.0", "value = ", "TOML"),
        ("value = 6.0", "value = " + "[" * 5000, "TOML"),
    ],
)
def test_a_broken_file_is_named_with_its_key_and_the_others_still_work(old, new, key):
    copy_rule_set("japan", "sound")
    path = shop_set("germany", (old, new))
    ((found, message),) = broken_rule_sets()
    assert found == path
    assert "our_shop.toml" in message and key in message
    assert rule_set_names() == (*SEVEN, "sound")
    assert rule_set_named("sound").parent == "japan"
    with pytest.raises(TiremapError, match=r"our_shop\.toml"):
        rule_set_named("our_shop")


def test_a_file_that_is_not_text_and_a_folder_with_a_files_name_are_refused_in_words():
    folder = shop_rule_sets_folder()
    (folder / "folder.toml").mkdir(parents=True)
    (folder / "bytes.toml").write_bytes(b"\xff\xfe\x00")
    if hasattr(os, "mkfifo"):  # a pipe would be waited for without an end
        os.mkfifo(folder / "folder pipe.toml")
        with pytest.raises(TiremapError, match="not a file"):
            import_rule_set(folder / "folder pipe.toml")
    messages = [message for _, message in broken_rule_sets()]
    assert [message for message in messages if "bytes.toml" in message] == messages[:1]
    assert all("folder" in message and "not a file" in message for message in messages[1:]) and len(messages) >= 2


def test_a_set_that_is_not_there_is_told_with_those_there_are():
    copy_rule_set("japan", "our_shop")
    for name in ("nowhere", "../rule_sets/our_shop", "", "japan.toml"):
        with pytest.raises(TiremapError, match="our_shop"):
            rule_set_named(name)


def test_a_changed_file_is_read_again():
    path = shop_set("japan")
    assert rule_set_named("our_shop").largest_injuries[0].value == 6.0
    path.write_text(path.read_text().replace("value = 6.0", "value = 5.75"))
    assert rule_set_named("our_shop").largest_injuries[0].value == 5.75
    path.unlink()
    assert rule_set_names() == SEVEN
    with pytest.raises(TiremapError, match="no rule set"):
        rule_set_named("our_shop")


def test_tighter_in_every_way_is_nowhere_looser():
    shop_set(
        "new_zealand",
        ("value = 25.4", "value = 30.0"),
        ('"inset_from_belt_edge", value = 0.0', '"inset_from_tread_edge", value = 30.0'),
        ("value = 6.0", "value = 5.0"), ("value = 1.6", "value = 3.0"), ("value = 45.0", "value = 30.0"),
        ("value = 3\n", "value = 1\n"), ("value = 150.0", "value = 500.0"),
        ('operator = "<="\nunit = "mm"', 'operator = "<"\nunit = "mm"'),
        ('holds_for = "hole"', 'holds_for = "prepared"'),
    )
    assert looser_than_parent(rule_set_named("our_shop")) == ()


@pytest.mark.parametrize(
    ("parent", "old", "new", "words"),
    [
        ("japan", "value = 2\n", "value = 3\n", ("Number of repairs", "at most 3 repairs here", "at most 2 repairs")),
        ("japan", "value = 400.0", "value = 399.0", ("around", "at least 399 mm here", "at least 400 mm under Japan")),
        ("european_makers", 'operator = "<"\n', 'operator = "<="\n', ("at most 6 mm", "less than 6 mm")),
        ("european_makers", "value = 10.0", "value = 11.0", ("Oldest tire", "at most 11 years", "at most 10 years")),
        ("new_zealand", "value = 45.0", "value = 60.0", ("Steepest lean", "60", "45")),
        ("germany", 'operator = ">"\n', 'operator = ">="\n', ("Tread depth", "at least 1.6 mm", "more than 1.6 mm")),
        (
            "japan", 'place = "whole_tread"', 'place = "central_three_quarters"',
            ("Tread depth", "three-quarters", "anywhere"),
        ),
        ("united_kingdom", 'holds_for = "prepared"', 'holds_for = "hole"', ("Largest injury", "hole", "prepared")),
        ("united_kingdom", "value = 240.0", "value = 270.0", ("second repair", "270", "240")),
        ("european_makers", "value = 0.75", "value = 0.76", ("Crown zone (passenger, on ", "passed to", "European")),
        ("north_america", "value = 38.1", "value = 30.0", ("Crown zone (truck, on ",)),
    ],
)
def test_one_limit_looser_than_the_parents_is_one_sentence(parent, old, new, words):
    shop_set(parent, (old, new))
    (sentence,) = looser_than_parent(rule_set_named("our_shop"))
    assert [word for word in words if word not in sentence] == []


@pytest.mark.parametrize(
    ("parent", "field"),
    [
        ("germany", "sealant_refused"), ("japan", "axle_cautions"), ("japan", "repair_counts"),
        ("new_zealand", "steepest_leans"), ("european_makers", "oldest_tires"), ("united_kingdom", "second_repairs"),
    ],
)
def test_a_limit_the_parent_has_and_the_shop_lacks_is_looser(parent, field):
    without(parent, field)
    sentences = looser_than_parent(rule_set_named("our_shop"))
    assert sentences and all("no limit here" in sentence for sentence in sentences)


def test_the_outer_edge_of_a_zone_is_compared_like_the_inner_one():
    shop_set("new_zealand", ("inset_from_belt_edge", "inset_from_tread_edge"))
    sentences = looser_than_parent(rule_set_named("our_shop"))
    # the belt edge is drawn 5 mm inside the tread edge, on every size alike
    assert [sentence.partition(", on")[0] for sentence in sentences] == [
        "Crown zone, outer edge (passenger", "Crown zone, outer edge (truck",
    ]


def test_what_only_chooses_the_kind_of_unit_is_never_looser():
    shop_set("germany", ("value = 25.0", "value = 40.0"))
    assert looser_than_parent(rule_set_named("our_shop")) == ()


def test_a_class_the_parent_does_not_speak_of_is_looser():
    shop_set("european_makers", ('classes = ["passenger"]', 'classes = ["passenger", "light_truck"]'))
    (sentence,) = looser_than_parent(rule_set_named("our_shop"))
    assert sentence == "Class (light truck): answered here, not under European makers."


def test_a_count_raised_for_one_way_of_building_names_it():
    shop_set("new_zealand", ("value = 2\n", "value = 3\n"))
    (sentence,) = looser_than_parent(rule_set_named("our_shop"))
    assert "self-supporting" in sentence and "standard" not in sentence


def test_a_zone_of_another_kind_is_compared_on_the_reference_sizes():
    # A 205 with the tread drawn 165.64 mm wide: 0.75 of the tread is 62.1 mm each side, 25.4 mm inside its edge 57.4.
    # A 115/70R15 (tread 87.1 mm): 32.7 against 18.2 mm.
    shop_set(
        "north_america",
        ('{ kind = "inset_from_tread_edge", value = 25.4 }\nunit = "mm"\ntighter = "more"',
         '{ kind = "share_of_tread_width", value = 0.75 }\nunit = "share of tread width"\ntighter = "less"'),
    )
    first, _ = looser_than_parent(rule_set_named("our_shop"))  # the other is of light truck sizes
    assert first == (
        "Crown zone (passenger, on 115/70R15): passed to 32.67 mm from the center here, "
        "passed to 18.16 mm from the center under North America."
    )


def test_looser_than_all_seven_is_refused_with_the_loosest_allowed():
    # 1/4 in (6.35 mm), North America, is the largest hole of a passenger tire in any of the seven
    allowed = shop_set("united_kingdom", ("value = 6.0", "value = 6.35"))
    assert "Largest injury" in looser_than_parent(read_shop_rule_set(allowed))[0]
    message = refused(shop_set("united_kingdom", ("value = 6.0", "value = 6.36"), name="beyond"))
    assert "beyond.toml" in message and "largest_injuries (passenger" in message
    assert "6.36" in message and "6.35" in message and "north_america" in message


def test_the_least_tread_any_set_allows_is_two_thirty_seconds():
    # North America: more than 2/32 in = 1.5875 mm
    message = refused(shop_set("japan", ("value = 1.6", "value = 1.58")))
    assert "tread_depths" in message and "1.58" in message and "1.5875" in message and "north_america" in message
    message = refused(shop_set("north_america", ('operator = ">"\n', 'operator = ">="\n'), name="at_the_limit"))
    assert "tread_depths" in message


def test_a_zone_wider_than_any_of_the_seven_is_refused():
    message = refused(shop_set("united_kingdom", ("value = 0.70", "value = 0.75")))
    assert "crown_zones (passenger, on " in message and "united_kingdom" in message
    message = refused(shop_set("european_makers", ("value = 0.75", "value = 1.0"), name="whole"))
    assert "crown_zones" in message


def test_a_band_of_widths_without_a_reference_size_is_refused():
    between = {"to = 155.0": "to = 156.0", "over = 155.0": "over = 156.0"}
    between |= {"to = 200.0": "to = 158.0", "over = 200.0": "over = 158.0"}
    message = refused(shop_set("united_kingdom", *between.items()))
    assert "crown_zones" in message and "158" in message


def test_a_class_no_published_set_speaks_of_is_refused():
    spares_too = ('classes = ["passenger"]', 'classes = ["passenger", "temporary_spare"]')
    message = refused(shop_set("european_makers", spares_too))
    assert "temporary spare" in message


def test_every_published_set_is_no_looser_than_itself_and_some_are_looser_than_others():
    sets: dict[str, RuleSet] = {name: rule_set_named(name) for name in SEVEN}
    assert [name for name, each in sets.items() if looser_than(each, each)] == []
    said = " ".join(looser_than(sets["north_america"], sets["united_kingdom"]))
    assert "Largest injury (passenger; light truck): at most 6.35 mm of the hole here, at most 6 mm prepared" in said


def test_a_shared_file_is_taken_over_once_and_only_when_it_can_be_used(tmp_path):
    shared = shop_set("japan", name="neighbor").rename(tmp_path / "neighbor.toml")
    assert rule_set_names() == SEVEN
    assert import_rule_set(shared) == shop_rule_sets_folder() / "neighbor.toml"
    assert rule_set_named("neighbor").limits == rule_set_named("japan").limits
    with pytest.raises(TiremapError, match="already"):
        import_rule_set(shared)
    broken = tmp_path / "broken.toml"
    broken.write_text(shared.read_text().replace('"neighbor"', '"broken"').replace("value = 6.0", "value = 60.0"))
    with pytest.raises(TiremapError, match="largest_injuries"):
        import_rule_set(broken)
    with pytest.raises(TiremapError, match="cannot be read"):
        import_rule_set(tmp_path / "missing.toml")
    assert [path.name for path in shop_rule_sets_folder().iterdir()] == ["neighbor.toml"]


def test_a_shared_file_may_be_called_anything_and_keeps_the_name_it_says(tmp_path):
    shared = shop_set("japan", name="neighbor").rename(tmp_path / "neighbor (1).txt")
    assert import_rule_set(shared) == shop_rule_sets_folder() / "neighbor.toml"
    for name in ("../outside", "a/b", ".hidden", "germany", "all"):
        evil = tmp_path / "evil.toml"
        evil.write_text(shared.read_text().replace('name = "neighbor"', f'name = "{name}"'))
        with pytest.raises(TiremapError):
            import_rule_set(evil)
    for text in (b"\xff\xfe", b"name = ", b"name = 3\n", b""):
        evil.write_bytes(text)
        with pytest.raises(TiremapError, match="evil"):
            import_rule_set(evil)
    assert [path.name for path in shop_rule_sets_folder().iterdir()] == ["neighbor.toml"]


def test_what_one_shop_shares_another_takes_over_unchanged(tmp_path, monkeypatch):
    copy_rule_set("japan", "neighbor")
    write_limit("neighbor", "largest_injuries", 0, 5.0, "their own word")
    before = rule_set_named("neighbor")
    shared = share_rule_set("neighbor", tmp_path)
    assert shared == tmp_path / "neighbor.toml"
    monkeypatch.setenv("TIREMAP_SETTINGS_FOLDER", str(tmp_path / "another shop"))
    import_rule_set(shared)
    assert rule_set_named("neighbor") == before


def test_sharing_never_writes_over_a_file_and_shares_only_what_can_be_used(tmp_path):
    path = copy_rule_set("japan", "our_shop")
    there = tmp_path / "there.toml"
    there.write_text("something else")
    for name, target in (("our_shop", there), ("japan", tmp_path / "new.toml"), ("our_shop", tmp_path / "no" / "such")):
        with pytest.raises(TiremapError):
            share_rule_set(name, target)
    path.write_text("broken")
    with pytest.raises(TiremapError, match=r"our_shop\.toml"):
        share_rule_set("our_shop", tmp_path / "new.toml")
    assert {each.name for each in tmp_path.iterdir() if each.is_file()} == {"there.toml"}
    assert there.read_text() == "something else"


@pytest.mark.parametrize("source", ["", "   "])
def test_a_limit_is_not_changed_on_nobodys_word(source):
    path = copy_rule_set("japan", "our_shop")
    before = path.read_bytes()
    with pytest.raises(TiremapError, match="on whose word"):
        write_limit("our_shop", "largest_injuries", 0, 5.0, source)
    assert path.read_bytes() == before


def test_a_count_stays_a_whole_number_in_the_file():
    path = copy_rule_set("japan", "our_shop")
    assert write_limit("our_shop", "repair_counts", 0, 1, "our own word").repair_counts[0].value == 1
    assert "value = 1\n" in path.read_text()


def test_usable_sets_leave_out_a_broken_one_and_a_missing_one_is_told():
    copy_rule_set("japan", "sound")
    shop_set("germany", ("value = 6.0", "value = 60.0"))
    assert [each.name for each in usable_rule_sets()] == [*SEVEN, "sound"]
    for name, words in (("our_shop", "our_shop.toml"), ("nowhere", "'nowhere'"), ("a" * 300, "aaa")):
        rule_set, why = rule_set_or_why(name)
        assert rule_set is None and words in why
    assert rule_set_or_why("sound") == (rule_set_named("sound"), "")


def test_the_folder_stands_as_it_did_until_a_file_is_touched():
    stands = [shop_files_as_they_stand()]
    path = copy_rule_set("japan", "our_shop")
    stands.append(shop_files_as_they_stand())
    assert shop_files_as_they_stand() == stands[-1]
    write_limit("our_shop", "largest_injuries", 0, 5.25, "our own word")
    stands.append(shop_files_as_they_stand())
    path.unlink()
    assert shop_files_as_they_stand() == stands[0]
    assert len(set(stands)) == 3


def test_a_limit_is_changed_in_place_with_its_source_and_nothing_else_of_the_file():
    path = copy_rule_set("north_america", "our_shop")
    before = path.read_text().splitlines()
    assert write_limit("our_shop", "largest_injuries", 1, 8.0, "our own word").largest_injuries[1].value == 8.0
    assert write_limit("our_shop", "crown_zones", 1, 40.0, "our own word").crown_zones[1].edge == ZoneEdge(
        kind="inset_from_tread_edge", value=40.0
    )
    after = path.read_text().splitlines()
    changed = [(old, new) for old, new in zip(before, after, strict=True) if old != new]

    def grade(old: str) -> tuple[str, str]:
        return f'grade = "{old}"', 'grade = "assumed"'

    def source(old: str) -> tuple[str, str]:
        return f'source = "{old}"', 'source = "our own word"'

    parent = rule_set_named("north_america")
    edge = 'edge = {{ kind = "inset_from_tread_edge", value = {} }}'
    assert changed == [
        (edge.format("38.1"), edge.format("40.0")), grade("common practice"), source(parent.crown_zones[1].source),
        ("value = 9.525", "value = 8.0"), grade("issuer"), source(parent.largest_injuries[1].source),
    ]


@pytest.mark.parametrize(
    ("field", "number", "value"),
    [("largest_injuries", 0, 60.0), ("largest_injuries", 5, 5.0), ("repair_counts", 0, 1), ("tread_depths", 0, -1.0)],
)
def test_a_change_that_could_not_be_used_leaves_the_file_as_it_was(field, number, value):
    path = copy_rule_set("north_america", "our_shop")
    before = path.read_bytes()
    with pytest.raises(TiremapError, match="our_shop"):
        write_limit("our_shop", field, number, value, "our own word")
    assert path.read_bytes() == before


def test_a_zone_reaches_as_far_on_a_reference_tire_as_it_is_drawn_on_that_tire():
    edges = [
        ZoneEdge(kind="share_of_section_width", value=0.7), ZoneEdge(kind="share_of_tread_width", value=0.75),
        ZoneEdge(kind="inset_from_tread_edge", value=25.4), ZoneEdge(kind="inset_from_belt_edge", value=2.0),
        ZoneEdge(kind="whole_tread", value=0.0), ZoneEdge(kind="share_of_section_width", value=1.0),
        ZoneEdge(kind="inside_outer_grooves", value=3.0),
    ]
    for tire_class in ("passenger", "light_truck", "truck"):
        for tire in reference_tires(tire_class):
            facts = tire_facts(Job(tire=Tire(size_code=tire.size_code)))
            assert facts.tire_class == tire_class
            drawn = [drawn_half_width(edge, facts) for edge in edges]
            assert [half_width_on(edge, tire) for edge in edges] == pytest.approx(drawn, abs=1e-9)


def test_the_size_of_every_sample_job_is_a_reference_size():
    codes = {tire.size_code for each in ("passenger", "light_truck", "truck") for tire in reference_tires(each)}
    jobs = [json.loads(path.read_text()) for path in sample_jobs_folder().glob("*.json")]
    sizes = {job["tire"]["size_code"].split()[0] for job in jobs if job["tire"].get("size_code")}
    assert sizes and sizes - codes == set()


def test_a_published_set_lies_where_it_ships():
    assert rule_set_path("japan") == resource_path("rule_sets", "japan.toml")
