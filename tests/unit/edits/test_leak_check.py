"""What was read of a leak: kept field by field, and gone with the last of it."""

import pytest

from tiremap.edits.leak_check import set_leak_check
from tiremap.model.after_repair import Pressure
from tiremap.model.job import Job


def test_a_leak_check_is_there_as_long_as_anything_of_it_was_read():
    job = set_leak_check(Job(), before=Pressure(value=33.0, unit="psi"))
    job = set_leak_check(job, hours=24.0)
    assert (job.leak_check.before.value, job.leak_check.hours) == (33.0, 24.0)
    assert set_leak_check(set_leak_check(job, hours=None), before=None) == Job()


def test_a_field_there_is_not_is_an_error_of_the_program():
    with pytest.raises(TypeError):
        set_leak_check(Job(), after_lunch=1.0)
