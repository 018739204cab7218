"""What is kept of a refit, and that a tightening holds only for the figure it was done by."""

from datetime import UTC, datetime

import pytest

from tiremap.edits.refit import set_refit, take_tightening_back, tighten
from tiremap.errors import TiremapError
from tiremap.model.after_repair import Torque
from tiremap.model.job import Job
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import job_from_bytes

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
AS_TYPED = Torque(value=80.0, unit="ft-lb")


def test_a_refit_is_kept_as_typed_and_comes_back_from_its_file():
    job = set_refit(Job(), nuts=5, thread="m12 x 1,5", stud_class="10.9", torque=AS_TYPED, torque_source="manual")
    assert (job.refit.thread, job.refit.torque) == ("M12x1.5", AS_TYPED)
    job = tighten(job, NOW)
    assert job_from_bytes(job_text(job).encode()).refit == job.refit and job.refit.tightened == NOW


def test_emptied_fields_are_unknown_and_an_empty_refit_is_none():
    job = set_refit(Job(), thread="M12x1.5", stud_class="8.8")
    assert set_refit(job, thread="", stud_class=None).refit is None


def test_a_changed_torque_is_not_tightened_yet_but_a_changed_source_is():
    job = tighten(set_refit(Job(), nuts=5, torque=AS_TYPED), NOW)
    assert set_refit(job, torque_source="manual, page 9").refit.tightened == NOW
    assert set_refit(job, torque=Torque(value=90.0, unit="ft-lb")).refit.tightened is None
    assert set_refit(job, nuts=4).refit.tightened is None
    assert take_tightening_back(job).refit.tightened is None


@pytest.mark.parametrize(("known", "missing"), [({}, "nuts"), ({"nuts": 5}, "torque")])
def test_nothing_is_tightened_by_a_figure_nobody_entered(known, missing):
    with pytest.raises(TiremapError, match=missing):
        tighten(set_refit(Job(), **known), NOW)
