"""A folder full of invented jobs, the same ones each time: job, fleet and tire numbers only.

``fill(folder, number)`` writes them by month of the year they were done, as a shop might keep them.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random

from tests.helpers.jobs import all_fine, crown_injury, earlier_repair, gauged, hole, measured_tire, taped
from tiremap.model.job import Checks, Decision, Job
from tiremap.storage.canonical import job_text

SIZES = ("205/55R16 91V", "225/45R17 94W", "195/65R15 91H", "155/80R13 79T", "LT245/75R16 120/116S", "215/60R16 99H")
RULE_SETS = ("united_kingdom", "north_america", "japan", "germany")
FIRST_DAY = date(2019, 1, 7)


def invented_job(number: int) -> Job:
    """The job of that number: one to three injuries anywhere across, some with earlier repairs, some not measured."""
    draw = Random(number)
    day = FIRST_DAY + timedelta(days=number * 7 % 2500)
    injuries = [
        crown_injury(
            str(each + 1), round(draw.gauss(0, 45), 1), round(draw.uniform(0, 359), 1),
            size_outside=hole(draw.choice((3.0, 4.0, 5.0, 6.0, 8.0))), size_inside=None,
        )
        for each in range(draw.choice((1, 1, 1, 1, 2, 3)))
    ]
    repaired_on = str(day - timedelta(days=draw.randrange(30, 700)))
    repairs = [earlier_repair("R1", draw.uniform(-40, 40), draw.uniform(0, 359), date=repaired_on)]
    repairs = repairs if draw.random() < 0.25 else []
    tire = measured_tire(
        draw.choice(SIZES), number=f"T-{number // 2:06}",
        date_code=f"{draw.randrange(1, 53):02}{draw.randrange(17, 19)}",
        tread_depth=gauged(round(draw.uniform(2.0, 8.0), 1)),
        tread_width=taped(170.0) if draw.random() < 0.8 else None,
    )
    rule_set = draw.choice(RULE_SETS)
    decided = Decision(
        date=datetime(day.year, day.month, day.day, 10, tzinfo=UTC), rule_set=rule_set,
        answer=draw.choice(("repairable", "repairable", "measure_first")), decision="repair", by="7",
    )
    return Job(
        job_number=f"J-{number:06}", fleet_number=f"F-{number % 97:03}", date=str(day), rule_set=rule_set, tire=tire,
        checks=all_fine(repairs=bool(repairs)) if draw.random() < 0.85 else Checks(), injuries=tuple(injuries),
        repairs=tuple(repairs), decisions=(decided,) if draw.random() < 0.3 else (),
    )


def places(number: int) -> Iterator[str]:
    """Where each of so many jobs lies in its folder."""
    for each in range(1, number + 1):
        day = FIRST_DAY + timedelta(days=each * 7 % 2500)
        yield f"{day.year}/{day.month:02}/J-{each:06}.json"


def fill(folder: Path, number: int) -> None:
    """Write so many jobs into a folder and its subfolders."""
    for each, place in enumerate(places(number), start=1):
        path = folder / place
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(job_text(invented_job(each)), encoding="utf-8")
