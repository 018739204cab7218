"""Spoiled rule sets, stocks and lessons that can still be used answer for a tire, and none brings an answer down.

The files are asked as the program asks them: from the settings folder, with all that a shop's rule set must keep to.
"""

from itertools import count

import pytest

from tests.helpers.hostile import not_plain, usual
from tests.helpers.hostile_seeds import check_answer, job_seeds, lesson_seeds, rule_set_seeds, stock_seeds
from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tests.helpers.mutations import mutated
from tiremap.assess import assess
from tiremap.errors import TiremapError
from tiremap.lesson_check import tried
from tiremap.model.rule_set_file import read_shop_rule_set, rule_set_from_bytes
from tiremap.resources import shop_rule_sets_folder, shop_stock_path
from tiremap.storage.job_file import job_from_bytes
from tiremap.storage.lesson_file import lesson_from_bytes
from tiremap.workshop.stock import stock_from_bytes, stock_in_use

JOB = bench_job(crown_injury(), crown_injury("2", 30.0, 90.0), earlier_repair(), rule_set="our_shop")
ANSWERS = ("repairable", "measure_first", "not_repairable")
MANY = 4_000_000
"""The first number, so that the files are others than those only read."""


def accepted(seeds, read, number):
    """The first ``number`` spoiled files that ``read`` takes, with their numbers."""
    found = 0
    for each in count(MANY):
        data = mutated(seeds, each)
        try:
            read(data)
        except TiremapError:
            continue
        yield each, data
        found += 1
        if found == number:
            return


def test_a_rule_set_that_can_be_read_answers_or_is_told_as_a_reason():
    path = shop_rule_sets_folder() / "our_shop.toml"
    path.parent.mkdir(parents=True)
    used = 0
    for number, data in accepted(rule_set_seeds(), lambda data: rule_set_from_bytes(data, path), usual(60)):
        path.write_bytes(data)
        found = assess(JOB, advise=False)
        assert found.answer in ANSWERS, number
        try:
            read_shop_rule_set(path)
            used += 1
        except TiremapError as error:
            assert not_plain(error) == "", number
            assert found.answer == "measure_first", number
            assert [each.code for each in found.reasons] == ["rule_set_unreadable"], number
    assert usual(60) > used > 0


def test_a_stock_that_can_be_read_answers():
    shop_stock_path().parent.mkdir()
    for number, data in accepted(stock_seeds(), lambda data: stock_from_bytes(data, "stock.toml"), usual(40)):
        shop_stock_path().write_bytes(data)
        assert stock_in_use()[1] == "", number
        assert assess(JOB.model_copy(update={"rule_set": "japan"}), advise=False).answer in ANSWERS, number


def test_a_lesson_that_can_be_read_is_tried_step_by_step():
    for number, data in accepted(lesson_seeds(), lambda data: lesson_from_bytes(data, "mine.toml"), usual(25)):
        lesson = lesson_from_bytes(data, "mine.toml")
        assert len(tried(lesson)) == len(lesson.steps), number


@pytest.mark.long
def test_a_thousand_jobs_that_open_are_assessed_with_advice():
    for _, data in accepted(job_seeds(), job_from_bytes, 1_000):
        check_answer(job_from_bytes(data), advise=True)
