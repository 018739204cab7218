"""``tiremap rules``: every limit of every file is listed with what it asks, of which tires, source and grade."""

import tomllib
from collections import Counter
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import get_args

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.cli import run
from tiremap.model.job import Built, TireClass
from tiremap.model.rule_set_file import rule_set_named, rule_set_names
from tiremap.model.rule_set_words import BUILT_WORDS, CLASS_WORDS, DEPTH_PLACE_WORDS, LIMIT_WORDS, limit_lines
from tiremap.resources import resource_path, shop_rule_sets_folder
from tiremap.storage.job_file import write_job

FILES = sorted(resource_path("rule_sets").glob("*.toml"))


def written(path) -> list[tuple[str, dict]]:
    """Kind and entries of every limit as it stands in a file, read without the program's records."""
    tables = tomllib.loads(path.read_text(encoding="utf-8"))
    return [(kind, limit) for kind, limits in tables.items() if isinstance(limits, list) for limit in limits]


def told(capsys, *arguments: str) -> str:
    """What the command prints, without its line breaks."""
    assert run(["rules", *arguments]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_no_limit_is_without_source_or_grade():
    every = [line for path in FILES for line in limit_lines(rule_set_named(path.stem))]
    without = [line for line in every if not line.source.strip() or not line.grade.strip()]
    assert len(without) == 0
    assert len(every) == sum(len(written(path)) for path in FILES) > 40


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_limit_of_a_file_is_listed_with_its_source_and_grade(path):
    listed = Counter((line.about, line.source, line.grade) for line in limit_lines(rule_set_named(path.stem)))
    assert listed == Counter((LIMIT_WORDS[kind], limit["source"], limit["grade"]) for kind, limit in written(path))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_figure_of_a_file_is_printed_with_its_operator_and_its_place(path, capsys):
    text = told(capsys, path.stem)
    for _, limit in written(path):
        if "value" in limit:
            in_words = {"<=": "at most", "<": "less than", ">=": "at least", ">": "more than"}[limit["operator"]]
            strict = ROUND_FLOOR if limit["operator"].startswith("<") else ROUND_CEILING
            figure = float(Decimal(str(limit["value"])).quantize(Decimal("0.01"), strict))
            assert f"{in_words} {figure:g} {limit['unit']}" in text
        if "place" in limit:
            assert DEPTH_PLACE_WORDS[limit["place"]] in text
        for said in ("between_says", "source"):
            assert " ".join(limit.get(said, "").split()) in text
        for edge in (limit.get("edge"), limit.get("refused_beyond")):
            if edge and edge["value"]:
                share = edge["kind"].startswith("share")
                assert (f"{edge['value'] * 100:g} %" if share else f"{edge['value']:g} mm inside the") in text
        for width in ("section_width_over", "section_width_up_to"):
            if width in limit:
                assert f"{limit[width]:g}" in text


def test_all_sets_are_printed_with_title_issuer_and_who_decides(capsys):
    text = told(capsys)
    for name in rule_set_names():
        rule_set = rule_set_named(name)
        assert f"{rule_set.title} ({name})" in text
        assert f"Issuer: {rule_set.issuer}" in text
        assert f"Who decides: {rule_set.deciding}" in text


def test_a_band_of_section_widths_and_a_way_of_building_stand_beside_the_limit():
    zones = [line for line in limit_lines(rule_set_named("united_kingdom")) if line.about == "Crown zone"]
    assert [(zone.tires, zone.asks.partition(",")[0]) for zone in zones] == [  # BTMA summary of BS AU 159
        ("passenger, light truck; section width up to 155 mm", "the central 60 % of the nominal section width"),
        ("passenger, light truck; section width over 155 to 200 mm", "the central 65 % of the nominal section width"),
        ("passenger, light truck; section width over 200 mm", "the central 70 % of the nominal section width"),
    ]
    counts = [line for line in limit_lines(rule_set_named("new_zealand")) if "Number of repairs" in line.about]
    assert ("passenger; built self-supporting", "at most 2 repairs") in [(c.tires, c.asks) for c in counts]


def test_a_lean_that_only_chooses_the_unit_is_said_to_refuse_nothing():
    lines = limit_lines(rule_set_named("new_zealand"))
    asks = {line.about: line.asks for line in lines}
    assert asks["Lean for a one-piece unit"].endswith("never refuses")
    assert asks["Steepest lean"] == "at most 45 degrees"


def test_limits_are_told_without_signs_in_hundredths_and_no_grade_twice(capsys):
    text = told(capsys)
    assert not set("<>") & set(text)
    assert "more than 1.59 mm" in text and "1.5875" not in text
    assert "common practice: common practice" not in text and "[common practice] common practice" not in text


def test_every_class_and_way_of_building_has_words():
    assert CLASS_WORDS.keys() == set(get_args(TireClass))
    assert BUILT_WORDS.keys() == set(get_args(Built))


def test_a_name_there_is_not_is_told_with_the_names_there_are(capsys):
    assert run(["rules", "atlantis"]) == 2
    told_of = capsys.readouterr()
    assert told_of.out == ""
    assert "'atlantis'" in told_of.err
    assert all(name in told_of.err for name in rule_set_names())


def test_lines_fit_a_narrow_terminal(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "72")
    assert run(["rules"]) == 0
    assert max(len(line) for line in capsys.readouterr().out.splitlines()) <= 72


def asked(capsys, *arguments: str) -> tuple[int, str, str]:
    """Exit code, output and error of the command."""
    code = run(["rules", *arguments])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_a_set_is_copied_and_its_file_is_named_with_what_to_do_next(capsys):
    code, out, _ = asked(capsys, "--copy", "united_kingdom", "our_shop")
    path = shop_rule_sets_folder() / "our_shop.toml"
    assert code == 0 and path.is_file()
    assert out.splitlines()[0] == str(path)
    assert "tiremap rules our_shop --change" in out
    text = told(capsys, "our_shop")
    assert "The shop's own, copied from: United Kingdom (united_kingdom)" in text
    assert told(capsys).count("The shop's own, copied from") == 1


def test_a_limit_is_changed_by_the_key_the_listing_prints(capsys):
    asked(capsys, "--copy", "united_kingdom", "our_shop")
    text = told(capsys, "our_shop")
    assert "crown_zones.2 passenger, light truck; section width over 200 mm: the central 70 %" in text
    code, out, _ = asked(capsys, "our_shop", "--change", "crown_zones.2=65", "--source", "our foreman")
    assert (code, out) == (0, "crown_zones.2: 70 -> 65 % of nominal section width [assumed] our foreman\n")
    assert rule_set_named("our_shop").crown_zones[2].edge.value == 0.65
    code, out, _ = asked(capsys, "our_shop", "--change", "largest_injuries.0 = 1/4 in", "--source", "our foreman")
    assert code == 0 and "Looser than United Kingdom" in out and "6.35 mm" in out


def test_a_set_goes_from_shop_to_shop_by_file(capsys, tmp_path, monkeypatch):
    asked(capsys, "--copy", "japan", "our_shop")
    shared = tmp_path / "for the neighbor.toml"
    assert asked(capsys, "our_shop", "--share", str(shared))[0] == 0
    code, _, err = asked(capsys, "our_shop", "--share", str(shared))
    assert code == 2 and "already there" in err
    code, _, err = asked(capsys, "--take", str(shared))
    assert code == 2 and "already a rule set 'our_shop'" in err
    monkeypatch.setenv("TIREMAP_SETTINGS_FOLDER", str(tmp_path / "neighbor"))
    code, out, _ = asked(capsys, "--take", str(shared))
    assert (code, out.strip()) == (0, str(shop_rule_sets_folder() / "our_shop.toml"))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--copy", "atlantis", "our_shop"), "'atlantis' is none"),
        (("--copy", "japan", "germany"), "cannot be called 'germany'"),
        (("--take", "nowhere.toml"), "cannot be read"),
        (("--change", "tread_depths.0=3", "--source", "us"), "name of a shop's own"),
        (("japan", "--change", "tread_depths.0=3", "--source", "us"), "never changed"),
        (("mine", "--change", "tread_depths.0", "--source", "us"), "LIMIT=VALUE"),
        (("mine", "--change", "tread_depths.0=3"), "on whose word"),
        (("mine", "--change", "tread_depths.0=3", "--source", " "), "on whose word"),
        (("mine", "--change", "tread_depths.7=3", "--source", "us"), "no limit 'tread_depths.7'"),
        (("mine", "--change", "tread_depths.0=deep", "--source", "us"), "deep"),
        (("mine", "--change", "tread_depths.0=0.5", "--source", "us"), "loosest allowed is north_america's"),
        (("mine", "--change", "axle_cautions.0=1", "--source", "us"), "no value"),
        (("--share", "file.toml"), "name of a shop's own"),
        (("japan", "--share", "file.toml"), "every copy of the program"),
        (("mine", "--source", "us"), "--change"),
        (("mine", "--copy", "japan", "other"), "one name too many"),
    ],
)
def test_what_cannot_be_done_is_exit_2_in_words_and_writes_nothing(capsys, tmp_path, monkeypatch, arguments, words):
    asked(capsys, "--copy", "japan", "mine")
    monkeypatch.chdir(tmp_path)
    before = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    code, out, err = asked(capsys, *arguments)
    assert (code, out) == (2, "")
    assert err.startswith("tiremap: ") and words in err
    assert {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()} == before


def test_a_broken_set_is_told_and_the_others_are_listed(capsys):
    asked(capsys, "--copy", "japan", "our_shop")
    path = shop_rule_sets_folder() / "our_shop.toml"
    path.write_text(path.read_text().replace("value = 6.0", 'value = "six"'))
    code, out, err = asked(capsys)
    assert code == 0 and "United Kingdom (united_kingdom)" in out and "our_shop" not in out
    assert str(path) in err and "largest_injuries.0.value" in err and "should be a number" in err
    assert asked(capsys, "our_shop")[0] == 2


def test_a_job_by_a_broken_set_is_bad_input_and_not_an_answer(capsys, tmp_path):
    asked(capsys, "--copy", "japan", "our_shop")
    job = tmp_path / "job.json"
    write_job(job, bench_job(crown_injury(), rule_set="our_shop"))
    assert run(["assess", str(job), "--json"]) != 2
    (shop_rule_sets_folder() / "our_shop.toml").write_text("broken")
    capsys.readouterr()
    for arguments in (["assess", str(job), "--json"], ["sheet", str(job), "-o", str(tmp_path / "sheet.pdf")]):
        assert run(arguments) == 2
        said = capsys.readouterr()
        assert said.out == "" and "our_shop.toml" in said.err
    assert not (tmp_path / "sheet.pdf").exists()
    assert run(["assess", str(job), "--rules", "japan"]) != 2
