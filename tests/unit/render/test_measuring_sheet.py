"""The measuring sheet: what to measure in bench order, where, how, what passes, and boxes to write in."""

import re
from io import BytesIO

import pytest
from pypdf import PdfReader

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tests.unit.drawing.scenes_of import assessed, by_eye
from tiremap.assess import assess
from tiremap.drawing.bench_order import to_be_measured
from tiremap.errors import TiremapError
from tiremap.model.cautions import full_cautions
from tiremap.render.measuring_rows import looks, rows
from tiremap.render.measuring_sheet import write_measuring_sheet
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job


def plain(text: str) -> str:
    """Without line breaks and blanks, which a PDF does not keep."""
    return re.sub(r"\s+", "", text)


def written(path) -> list[str]:
    return [plain(page.extract_text()) for page in PdfReader(BytesIO(path.read_bytes())).pages]


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_sheet_of_a_fresh_click_is_one_page_with_every_measurement_check_and_caution(size, tmp_path):
    assessment = by_eye()
    for name in ("one.pdf", "other.pdf"):
        write_measuring_sheet(assessment, tmp_path / name, page=size)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "other.pdf").read_bytes()
    [text] = written(tmp_path / "one.pdf")
    asked = rows(assessment, "mm")
    assert [row.number for row in asked] == list(range(1, len(asked) + 1))
    for row in asked:
        for said in (row.words, row.where, row.passes, row.ways):
            assert plain(said) in text
    for look in looks(assessment):
        assert plain(f"{look.title}: {look.look_at}") in text
    for caution in full_cautions():
        assert plain(caution) in text
    assert "Measurefirst" in text


def test_what_is_asked_for_is_measured_or_ticked_and_nothing_else():
    assessment = by_eye()
    measured = {row.field for row in rows(assessment, "mm")}
    ticked = {each.field for each in to_be_measured(assessment) if each.field.startswith("checks.")}
    assert measured | ticked == {each.field for each in to_be_measured(assessment)}
    assert len([look for look in looks(assessment) if look.found == ("fine", "found")]) == 9  # the whole tire, 8 checks
    checked = assess(bench_job(crown_injury(), tire=measured_tire(tread_depth=None)))
    assert looks(checked) == []
    assert [row.field for row in rows(checked, "mm")] == ["tire.tread_depth"]


def test_each_row_says_how_it_is_taken_with_its_tolerance_and_from_where_on_it_passes():
    """Tolerances of dimensions/tolerances.toml: gauge 0.2 mm and rule 1 mm for a depth; United Kingdom: 1.6 mm."""
    assessment = assess(bench_job(crown_injury(), tire=measured_tire(tread_depth=None)))
    [depth] = rows(assessment, "mm")
    assert depth.ways == "gauge ±0.2 mm, rule ±1 mm"
    assert depth.unit == "mm"
    settles = next(each.settles for each in assessment.all_reasons if each.level == "measure")
    assert depth.passes == f"{settles.at_least:g} mm or more passes."
    [inches] = rows(assessment, "in")
    assert inches.unit == "in" and inches.passes.endswith(" in or more passes.") and "±0.04 in" in inches.ways


def test_two_checks_that_need_the_same_figure_ask_for_the_stricter():
    job = read_job(sample_jobs_folder() / "tread_width_not_measured.json")
    assessment = assess(job)
    asking = [each.settles for each in assessment.all_reasons if each.level == "measure" and each.settles is not None]
    lows = [each.at_least for each in asking if each.field == "tire.tread_width" and each.at_least is not None]
    assert len(set(lows)) == 2  # the crown zone and the head at the tread edge
    [width] = [row for row in rows(assessment, "mm") if row.field == "tire.tread_width"]
    assert width.passes.startswith(f"{max(lows):g} mm or more passes")


@pytest.mark.parametrize("across", [0.0, 84.0])
def test_a_tire_with_an_answer_has_no_measuring_sheet_and_is_told_why(across, tmp_path):
    with pytest.raises(TiremapError, match="no measurement is asked for"):
        write_measuring_sheet(assessed(crown_injury("1", across)), tmp_path / "sheet.pdf")
    assert not (tmp_path / "sheet.pdf").exists()
