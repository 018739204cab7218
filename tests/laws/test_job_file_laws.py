"""What holds for every job file, whatever job it holds."""

import json
import math

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.helpers.counts import examples
from tests.helpers.strategies import jobs, json_values
from tiremap.storage.canonical import canonical_text, job_text
from tiremap.storage.job_file import job_from_bytes, read_job, write_job

few = settings(max_examples=examples(20), deadline=None, suppress_health_check=list(HealthCheck))


@few
@given(jobs(later=True))
def test_a_job_read_back_is_the_same_job_and_has_the_same_bytes(job):
    data = job_text(job).encode()
    again = job_from_bytes(data)
    assert again == job
    assert job_text(again).encode() == data


@few
@given(job=jobs(most_marks=1, later=True))
def test_a_job_saved_to_disk_comes_back_from_disk(job, tmp_path_factory):
    path = tmp_path_factory.mktemp("jobs") / "job.json"
    write_job(path, job)
    assert read_job(path) == job
    assert path.read_bytes() == job_text(job).encode()


@few
@given(jobs(most_marks=1, later=True), st.randoms())
def test_the_order_of_fields_in_a_file_does_not_matter(job, random):
    def shuffled(data):
        if isinstance(data, dict):
            names = list(data)
            random.shuffle(names)
            return {name: shuffled(data[name]) for name in names}
        return [shuffled(each) for each in data] if isinstance(data, list) else data

    data = json.dumps(shuffled(json.loads(job_text(job)))).encode()
    assert job_text(job_from_bytes(data)) == job_text(job)


@few
@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_float_is_written_as_a_float_and_reads_back_as_itself(value):
    text = canonical_text(value)
    again = json.loads(text)
    assert type(again) is float
    assert again == value
    assert math.copysign(1, again) == math.copysign(1, value) or again == 0


@few
@given(json_values)
def test_the_canonical_text_of_a_canonical_text_is_itself(value):
    text = canonical_text(value)
    assert canonical_text(json.loads(text)) == text
