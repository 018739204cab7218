"""The register's figures, against counts made by hand."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, from_outboard_edge, measured_tire
from tiremap.model.job import Decision, Job
from tiremap.storage.job_file import write_job
from tiremap.storage.register import Register


def registered(folder: Path, *jobs: Job) -> Register:
    folder.mkdir(exist_ok=True)
    for number, job in enumerate(jobs):
        write_job(folder / f"{number}.json", job)
    register = Register(folder)
    register.refresh()
    return register


def repair_decided(day: int, month: int = 3) -> Decision:
    date = datetime(2026, month, day, 9, tzinfo=UTC)
    return Decision(date=date, rule_set="japan", answer="repairable", decision="repair")


def test_answers_and_what_decides_are_counted(tmp_path):
    register = registered(
        tmp_path / "jobs", bench_job(crown_injury()), bench_job(crown_injury(across_mm=80)),
        bench_job(crown_injury(across_mm=-80)), bench_job(crown_injury(), rule_set=None), Job(),
    )
    (tmp_path / "jobs" / "wrong.json").write_text("[]")
    register.refresh()
    assert register.answers() == {"repairable": 1, "not_repairable": 2, "measure_first": 2, None: 1}
    decided = register.deciding()
    assert decided[0][0] == "place" and decided[0][2] == 2 and "Injury 1" in decided[0][1]
    assert sum(number for _, _, number in decided) == 4
    assert [number for *_, number in decided] == sorted((number for *_, number in decided), reverse=True)


@pytest.mark.parametrize("across_mm", [-120, -85, -40, -0.1, 0, 8.4, 8.5, 84.9, 85, 101.9, 130])
def test_an_injury_counts_in_the_bin_it_lies_in(tmp_path, across_mm):
    """On a tread of 170 mm: the share is the place over 85 mm, and bins are a tenth of that wide."""
    register = registered(tmp_path / "jobs", bench_job(crown_injury(across_mm=across_mm)))
    edges, counts = register.across_edges(), register.across()
    assert sum(counts) == 1 and len(edges) == len(counts) + 1 and {-1.0, 0.0, 1.0} <= set(edges)
    share = min(max(across_mm / 85, edges[0]), edges[-1] - 1e-9)
    place = counts.index(1)
    assert edges[place] <= share < edges[place + 1]


def test_a_place_taken_from_the_tread_edge_counts_like_the_same_from_the_center(tmp_path):
    one = registered(tmp_path / "center", bench_job(crown_injury(across_mm=47)))
    other = registered(tmp_path / "edge", bench_job(crown_injury(outside=from_outboard_edge(38))))
    assert one.across() == other.across()


def test_an_injury_not_measured_across_is_not_counted_at_the_center(tmp_path):
    assert sum(registered(tmp_path / "jobs", bench_job(crown_injury(outside=None))).across()) == 0


def test_repairs_are_counted_by_month_from_dates_and_decisions(tmp_path):
    register = registered(
        tmp_path / "jobs",
        bench_job(earlier_repair(date="2025-08-19"), decisions=(repair_decided(2),)),
        bench_job(earlier_repair(date="2025-08"), earlier_repair("R2", date="last summer")),
        bench_job(decisions=(repair_decided(2), repair_decided(3, month=4))),
    )
    assert register.per_month() == [("2025-08", 2), ("2026-03", 2), ("2026-04", 1)]


def test_work_recorded_in_several_files_of_a_tire_is_counted_once(tmp_path):
    tire, other = measured_tire(number="T-1"), measured_tire(number="T-2")
    register = registered(
        tmp_path / "jobs",
        bench_job(crown_injury(), tire=tire, decisions=(repair_decided(2), repair_decided(2))),
        bench_job(earlier_repair(date="2026-03-02"), earlier_repair("R2", 0, 90, date="2026-03-02"), tire=tire),
        bench_job(earlier_repair(date="2026-03-02"), tire=tire),
        bench_job(earlier_repair(date="2026-03-02"), tire=other),
        bench_job(earlier_repair(date="2026-03-02")),
    )
    assert register.per_month() == [("2026-03", 2 + 1 + 1)]
