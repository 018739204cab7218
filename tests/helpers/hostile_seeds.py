"""The right files that are spoiled, and what is asked of each that still can be read."""

import json
from functools import cache
from pathlib import Path
from typing import Any

from tests.helpers.hostile import not_plain
from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tests.helpers.mutations import Seed, json_seed, toml_bytes, toml_seed
from tiremap.assess import assess
from tiremap.errors import TiremapError, printable
from tiremap.model.job import Job, TypedDimensions
from tiremap.model.rule_set_file import rule_set_from_bytes
from tiremap.model.size_text import SizeCodeError
from tiremap.resources import resource_path
from tiremap.storage.canonical import canonical_text, job_text
from tiremap.storage.job_file import job_from_bytes
from tiremap.storage.lesson_file import MAY_BE_UNKNOWN, lesson_from_bytes, lesson_paths
from tiremap.storage.settings import Settings, settings_from_bytes
from tiremap.storage.shop_stock import stock_text
from tiremap.workshop.stock import stock_from_bytes

FINE = {"state": "fine", "together": False}
TOO_THICK = ("thick under the tread", "thick does not fit on a section")
ASSESSED = 40
"""Of so many jobs that open, one is assessed."""
SHOP = Path("our_shop.toml")


@cache
def job_seeds() -> tuple[Seed, ...]:
    """Short jobs, as a spoiled file is read the quicker; and one in which every field is filled in."""
    typed = TypedDimensions(overall_diameter_mm=632.0, section_width_mm=214.0, rim_diameter_mm=406.0, rim_width_in=6.5)
    by_hand = measured_tire(None, typed_dimensions=typed, tire_class="passenger")
    jobs = (
        Job(), bench_job(crown_injury()), bench_job(crown_injury(), earlier_repair()), bench_job(rule_set="japan"),
        bench_job(crown_injury(), tire=by_hand),
    )
    short = tuple(json_seed(json.dumps(_short(json.loads(job_text(job))), indent=1).encode()) for job in jobs)
    return (*short, *short, *short, json_seed(full_job_file().read_bytes()))


def full_job_file() -> Path:
    """The frozen file of version 1, in which every field is filled in."""
    return Path(__file__).parents[1] / "jobs" / "old_versions" / "version_1.json"


def check_job(data: bytes, number: int) -> None:
    """A job that opens is written and opens again the same; some are assessed."""
    job = job_from_bytes(data)
    text = job_text(job)
    again = job_from_bytes(text.encode())
    assert again == job and job_text(again) == text
    if number % ASSESSED == 0:
        check_answer(job)


def check_answer(job: Job, advise: bool = False) -> None:
    """A job is answered with sentences that print.

    Refused in plain words are only a size code that cannot be read, typed dimensions no tire has, and a crown thicker
    than its tire.
    """
    try:
        found = assess(job, advise=advise)
    except TiremapError as error:
        of_its_size = isinstance(error, SizeCodeError) or job.tire.typed_dimensions is not None
        assert of_its_size or any(words in error.what for words in TOO_THICK), str(error)
        assert not_plain(error) == ""
        return
    assert found.answer in ("repairable", "measure_first", "not_repairable")
    assert [reason.says for reason in found.all_reasons if printable(reason.says) != reason.says] == []


@cache
def settings_seeds() -> tuple[Seed, ...]:
    """Fresh settings, and some in use."""
    used = Settings(
        recent_files=("/home/shop/a.json", "/home/shop/b.json"), units="in", rule_set="japan", theme="dark", paper="A4",
        register_folder="/home/shop", window=(0, 0, 1280, 800), splitters={"desk": (300, 700)},
    )
    return tuple(json_seed(canonical_text(each.model_dump(mode="json")).encode()) for each in (Settings(), used))


def check_settings(data: bytes, number: int) -> None:
    """Settings that can be used read back the same."""
    settings = settings_from_bytes(data)
    assert settings_from_bytes(canonical_text(settings.model_dump(mode="json")).encode()) == settings


@cache
def stock_seeds() -> tuple[Seed, ...]:
    """The stock that ships, and a short one."""
    shipped = stock_from_bytes(resource_path("stock", "house_stock.toml").read_bytes(), "it")
    fields = shipped.model_dump(exclude_none=True)
    few = {**fields, "units": fields["units"][:2]}
    return tuple(toml_seed(toml_bytes(each), _plain(each)) for each in (few, few, fields))


def check_stock(data: bytes, number: int) -> None:
    """A stock that can be used is written as its window writes it, and reads back the same."""
    stock = stock_from_bytes(data, "stock.toml")
    assert stock_from_bytes(stock_text(stock).encode(), "stock.toml") == stock


@cache
def lesson_seeds() -> tuple[Seed, ...]:
    """A short lesson of two steps, and one that ships."""
    short = {"format": "tiremap-lesson", "version": 1, "title": "Two steps", "step": [
        {"says": "First.", "tread_width_mm": 166.0, "looked_over": True, "load_mm": 20, "answer": "hidden",
         "holes": [{"from_center_mm": 20.0, "around_deg": 0.0, "size_mm": 3.0}], "expect": "measure_first"},
        {"says": "Second.", "size": "205/55R16 91V", "guidance": "japan", "chosen": 1, "beside": "strip"},
    ]}
    ships = lesson_paths()[-1].read_bytes()
    return toml_seed(toml_bytes(short), short), toml_seed(ships, short)


def check_lesson(data: bytes, number: int) -> None:
    """A lesson that can be shown reads back the same from its own fields."""
    lesson = lesson_from_bytes(data, "mine.toml")
    unknown = dict.fromkeys(MAY_BE_UNKNOWN, "unknown")
    steps = [unknown | _filled(step.model_dump()) for step in lesson.steps]
    text = toml_bytes({"format": "tiremap-lesson", "version": 1, "title": lesson.title, "step": steps})
    again = lesson_from_bytes(text, "mine.toml")
    assert (again.title, again.steps) == (lesson.title, lesson.steps)


@cache
def rule_set_seeds() -> tuple[Seed, ...]:
    """A shop's short rule set for one class, as bytes and as fields; and a published one's limits."""
    said = {"classes": ["passenger"], "unit": "mm", "source": "the foreman", "grade": "assumed"}
    short = {
        "name": "our_shop", "title": "Our shop", "issuer": "the shop", "deciding": "The foreman.", "parent": "japan",
        "crown_zones": [{**said, "tighter": "more", "edge": {"kind": "inset_from_tread_edge", "value": 25.4}}],
        "largest_injuries": [{**said, "tighter": "less", "operator": "<=", "value": 6.0, "holds_for": "hole"}],
        "tread_depths": [{**said, "tighter": "more", "operator": ">", "value": 1.6, "place": "whole_tread"}],
        "heads_apart": [{**said, "tighter": "more", "operator": ">=", "value": 0.0}],
        "repair_counts": [{**said, "tighter": "less", "operator": "<=", "value": 2}],
    }
    return (toml_seed(toml_bytes(short), short),)


def check_rule_set(data: bytes, number: int) -> None:
    """A rule set that can be used reads back the same from its own fields."""
    rule_set = rule_set_from_bytes(data, SHOP)
    again = rule_set_from_bytes(toml_bytes(_filled(rule_set.model_dump())), SHOP)
    assert again == rule_set


def _short(data: Any) -> Any:
    """Without what is not known, as it need not stand in a file, and most of what was found fine."""
    if isinstance(data, dict):
        return {key: _short(value) for key, value in data.items() if value not in (None, "", [], {}, FINE)}
    return [_short(each) for each in data] if isinstance(data, list) else data


def _filled(data: Any) -> Any:
    """Without what is not known, which TOML cannot say."""
    if isinstance(data, dict):
        return {key: _filled(value) for key, value in data.items() if value is not None}
    return [_filled(each) for each in data] if isinstance(data, list | tuple) else data


def _plain(data: Any) -> Any:
    return json.loads(json.dumps(data))
