"""However a folder came to hold what it holds, its index says what one made anew from it says."""

import os
import shutil
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tiremap.model.job import Job
from tiremap.storage.canonical import job_text
from tiremap.storage.register import Register

CONTENTS = (
    *(job_text(Job(job_number=letter)) for letter in "abc"),  # as long as each other
    job_text(Job(date="2026-01-02", fleet_number="7")),
    job_text(bench_job(crown_injury(across_mm=12), earlier_repair(date="2025-02-03"), date="2026-01-02")),
    job_text(bench_job(tire=measured_tire("no size", number="T-1"))),
    "{",
    "",
)

paths = st.sampled_from(["1.json", "2.json", "below/1.json", "below/deeper/3.JSON"])
written_now = st.booleans()
changes = st.one_of(
    st.tuples(st.just("write"), paths, st.sampled_from(range(len(CONTENTS))), written_now),
    st.tuples(st.just("delete"), paths),
    st.tuples(st.just("move"), paths, paths),
    st.tuples(st.just("link"), paths, paths),
    st.tuples(st.just("remove folder"), st.sampled_from(["below", "below/deeper"])),
    st.tuples(st.just("refresh")),
    st.tuples(st.just("stopped refresh")),
)


def make(folder: Path, register: Register, change: tuple) -> None:
    """Make one change to the folder, as far as it can be made, or refresh its register."""
    kind, *rest = change
    if kind == "refresh":
        register.refresh()
    elif kind == "stopped refresh":
        register.refresh(stopped=lambda: True)
    elif kind == "remove folder":
        shutil.rmtree(folder / rest[0], ignore_errors=True)
    else:
        path = folder / rest[0]
        path.parent.mkdir(parents=True, exist_ok=True)
        if kind == "delete":
            path.unlink(missing_ok=True)
        elif kind == "write":
            path.unlink(missing_ok=True)
            path.write_text(CONTENTS[rest[1]])
            if not rest[2]:  # long ago, each content at a time of its own: an old time stamp is trusted
                os.utime(path, ns=(10**18 + rest[1], 10**18 + rest[1]))
        elif kind == "move" and path.is_file():
            (folder / rest[1]).parent.mkdir(parents=True, exist_ok=True)
            os.replace(path, folder / rest[1])
        elif kind == "link" and not os.path.lexists(path):
            path.symlink_to(folder / rest[1])


def all_of(register: Register) -> tuple:
    """Everything a register can be asked."""
    return (
        register.find(limit=-1), register.count(), register.answers(), register.deciding(), register.across(),
        register.per_month(), register.of_tire("T-1"), register.find("below a"),
    )


@settings(max_examples=25, deadline=None)
@given(st.lists(changes, min_size=3, max_size=12))
def test_an_index_kept_up_equals_one_made_anew(made):
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "jobs"
        folder.mkdir()
        register = Register(folder)
        for change in made:
            make(folder, register, change)
        register.refresh()
        kept_up = all_of(register)
        register.index_path.unlink()
        register.refresh()
        assert kept_up == all_of(register)
