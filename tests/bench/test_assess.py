"""How long an answer takes, against what its shapes and records alone need.

``pytest -n 0 --benchmark-only tests/bench/test_assess.py``; ``extra_info`` holds the ratios, each of two times of one
run, the least of several. Times themselves say little on a machine with other work.
"""

from collections.abc import Callable
from math import log
from time import process_time

import pytest
import shapely
from shapely.affinity import translate

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.geometry.footprints import laid_flat
from tiremap.geometry.liner_strip import Strip
from tiremap.model.job import Job
from tiremap.storage.canonical import job_text

SIX = [crown_injury(str(n), -50 + n * 18, n * 57.0) for n in range(6)]


def least_of(rounds: int, *work: Callable[[], object]) -> list[float]:
    """The least time of each, seconds of this process; they take turns, so that each meets the same machine."""
    times: list[list[float]] = [[] for _ in work]
    for _ in range(rounds):
        for each, taken in zip(work, times, strict=True):
            begun = process_time()
            each()
            taken.append(process_time() - begun)
    return [min(taken) for taken in times]


def all_drawn(found: Assessment) -> list[object]:
    """Every shape and area of an assessment, each worked out."""
    grounds = [mark.ground for mark in found.marks if mark.ground is not None]
    shapes = [shape for each in grounds for shape in (each.head, each.buffed, each.pre_cleaned, each.sealed)]
    shared = [area for pair in found.pairs for area in (pair.head_overlap_mm2, pair.buffed_overlap_mm2)]
    return [*shapes, *shared, found.buffed_area_mm2, found.sealed_area_mm2]


def bare_calls(found: Assessment, text: str) -> None:
    """The job validated, and the Shapely calls of `all_drawn` on outlines that are at hand: no margin, no word.

    What passes the datum is cut there: heads on either side of it could not be united otherwise.
    """
    Job.model_validate_json(text)
    strip, beyond = found.strip, found.stock.beyond_the_head
    grown = (0.0, beyond.border, beyond.pre_cleaned, beyond.border + beyond.sealed)
    outlines: list[list[shapely.Geometry]] = [[] for _ in grown]
    for mark in found.injuries:
        center = strip.point(mark.inside_place)
        for by, kept in zip(grown, outlines, strict=True):
            kept.append(shapely.transform(laid_flat(mark.head.grown(by)), lambda at, center=center: at + center))
    for kept in (outlines[1], outlines[3]):
        shapely.area(shapely.union_all([part for outline in kept for part in cut_at_datum(strip, outline)]))


def cut_at_datum(strip: Strip, outline: shapely.Geometry) -> list[shapely.Geometry]:
    """The part of an outline on either side of the datum, the one below laid at the other end of the strip."""
    left, low, right, high = outline.bounds
    if low >= 0 and high <= strip.circumference:
        return [outline]
    below, above = (
        shapely.intersection(outline, shapely.box(left - 1, turn, right + 1, turn + strip.circumference))
        for turn in (-strip.circumference, 0.0)
    )
    return [above, translate(below, yoff=strip.circumference)]


@pytest.mark.parametrize("drawn", [True, False], ids=["with all shapes", "the answer alone"])
def test_six_injuries(benchmark, drawn):
    text = job_text(bench_job(*SIX))
    found = assess(Job.model_validate_json(text))

    def quick():
        answered = assess(Job.model_validate_json(text))
        return all_drawn(answered) if drawn else answered

    whole, bare = least_of(40, quick, lambda: bare_calls(found, text))
    benchmark.pedantic(quick, rounds=5, iterations=5, warmup_rounds=1)
    benchmark.extra_info["over_the_bare_calls"] = round(whole / bare, 2)
    assert found.answer == "repairable" and len(all_drawn(found)) == 6 * 4 + 15 * 2 + 2


def crowded_with(number: int) -> Job:
    """So many injuries over the whole crown, more than a job file may hold: the record is made unvalidated."""
    injuries = [crown_injury(str(n), -60 + n * 37 % 120, n * 360 / number) for n in range(number)]
    return bench_job().model_copy(update={"injuries": tuple(injuries)})


@pytest.mark.parametrize("advise", [False, True], ids=["answer", "answer and advice"])
def test_from_10_to_1000_injuries(benchmark, advise):
    """``over_n_log_n``: how many times as long as n log n would have it. ``near_pairs``: those whose arcs meet.

    A tire holds some forty heads side by side. Of a thousand each lies on thirty others, and each such pair is a
    refusal of its own. The answer ends at the first of them; to read them all grows faster than n log n:
    ``us_a_near_pair`` is what each then takes.
    """
    few, many = crowded_with(10), crowded_with(1000)
    short, long = least_of(2, lambda: [assess(few, advise=advise) for _ in range(20)],
                           lambda: assess(many, advise=advise))
    found = benchmark.pedantic(lambda: assess(few, advise=advise), rounds=3)
    assert len(found.pairs) == 45
    growth = (1000 * log(1000)) / (10 * log(10))
    pairs = assess(many, advise=advise).pairs
    (reading,) = least_of(1, lambda: [pair.reasons for pair in pairs.near])
    near = len(pairs.near)
    benchmark.extra_info["us_a_near_pair"] = round(reading / near * 1e6)
    benchmark.extra_info["over_n_log_n"] = round(long / (short / 20) / growth, 2)
    benchmark.extra_info["near_pairs"] = near
    assert near < 0.1 * 1000 * 999 / 2
