"""``tiremap rules``: every limit of every file is listed with what it asks, of which tires, source and grade."""

import tomllib
from collections import Counter
from typing import get_args

import pytest

from tiremap.cli import run
from tiremap.model.job import Built, TireClass
from tiremap.model.rule_set_file import rule_set_named, rule_set_names
from tiremap.model.rule_set_words import BUILT_WORDS, CLASS_WORDS, DEPTH_PLACE_WORDS, LIMIT_WORDS, limit_lines
from tiremap.resources import resource_path

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
            assert f"{limit['value']:g} {limit['unit']} ({limit['operator']})" in text
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
    assert ("passenger; built self-supporting", "at most 2 repairs (<=)") in [(c.tires, c.asks) for c in counts]


def test_a_lean_that_only_chooses_the_unit_is_said_to_refuse_nothing():
    lines = limit_lines(rule_set_named("new_zealand"))
    asks = {line.about: line.asks for line in lines}
    assert asks["Lean for a one-piece unit"].endswith("never refuses")
    assert asks["Steepest lean"] == "at most 45 degrees (<=)"


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
