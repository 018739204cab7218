"""The true-scale template, measured on the page itself: the check square, the head, the ground around it."""

from io import BytesIO

import numpy as np
import pytest
from pypdf import PdfReader

from tests.helpers.jobs import bench_job, crown_injury, hole, measured_tire
from tiremap.assess import assess
from tiremap.cli import run
from tiremap.model.job import MakerWord
from tiremap.model.stock import RepairUnit
from tiremap.render.template import template_pages, write_template
from tiremap.storage.job_file import write_job
from tiremap.workshop.stock import house_stock

POINT_MM = 25.4 / 72
PAPER = {"A4": (210, 297), "Letter": (215.9, 279.4)}


def assessed(*marks, stock=None):
    return assess(bench_job(*(marks or (crown_injury(),))), stock=stock)


def written(assessment, tmp_path, **fields) -> PdfReader:
    write_template(assessment, tmp_path / "template.pdf", **fields)
    return PdfReader(BytesIO((tmp_path / "template.pdf").read_bytes()))


def boxes(page) -> list[tuple[float, float]]:
    """Width and height (mm) of every path on a PDF page, from the path's own points."""
    found, points = [], []
    for line in page.get_contents().get_data().decode("latin-1").splitlines():
        *numbers, operator = line.split() or [""]
        if operator in ("m", "l", "c"):
            points = points if operator != "m" else []
            points.append([float(each) for each in numbers[-2:]])
        elif points:
            corners = np.array(points)
            found.append(tuple((corners.max(axis=0) - corners.min(axis=0)) * POINT_MM))
            points = []
    return found


def holds(sizes, width: float, height: float) -> bool:
    return any(abs(w - width) <= 0.1 and abs(h - height) <= 0.1 for w, h in sizes)


@pytest.mark.parametrize("paper", PAPER)
def test_on_paper_the_square_measures_100_mm_and_every_outline_its_own_size(tmp_path, paper):
    """A 4 mm hole: head 20 + 5 x 4 = 40 mm by the house stock; buffed 6 beyond it, sealed 9, cleaned 10."""
    [page] = written(assessed(), tmp_path, page=paper).pages
    sides = [float(side) * POINT_MM for side in (page.mediabox.width, page.mediabox.height)]
    assert sides == pytest.approx(PAPER[paper], abs=0.01)
    sizes = boxes(page)
    assert holds(sizes, 100, 100)
    for across in (40, 52, 58, 60):
        assert holds(sizes, across, across), across


def test_an_oblong_head_lies_as_the_stock_says(tmp_path):
    unit = RepairUnit(stem_mm=4.0, head_length_mm=70.0, head_width_mm=40.0, head_along="across")
    stock = house_stock().model_copy(update={"units": (unit,)})
    injury = crown_injury(size_outside=hole(4.0, how="exact"), size_inside=None)
    [page] = written(assessed(injury, stock=stock), tmp_path).pages
    assert holds(boxes(page), 70, 40) and not holds(boxes(page), 40, 70)


def test_rasterized_the_square_and_the_head_keep_their_size():
    """At 600 dpi a pixel is 0.042 mm."""
    [page] = template_pages(assessed())
    page.figure.set_dpi(600)
    page.figure.canvas.draw()
    dark = np.asarray(page.figure.canvas.buffer_rgba())[..., :3].max(axis=2) < 100
    pixel = 25.4 / 600
    row = np.flatnonzero(dark[round((297 - 12 - 20) / pixel)])  # through the square, below its words
    left = row[row < 60 / pixel].max()
    right = row[(row > 100 / pixel) & (row < 115 / pixel)].min()
    assert (right - left + 1) * pixel == pytest.approx(100.0, abs=0.35)  # between the middles of two 0.25 mm lines
    middles = [line.get_xdata() for line in page.sheet.lines if len(line.get_xdata()) > 100]
    assert np.ptp(middles[0]) == pytest.approx(40.0, abs=0.1)


def test_the_viewer_is_asked_to_print_without_scaling_and_the_bytes_are_the_same_each_time(tmp_path):
    assessment = assessed()
    reader = written(assessment, tmp_path)
    first = (tmp_path / "template.pdf").read_bytes()
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.metadata.title == "Template at true scale"
    written(assessment, tmp_path)
    assert (tmp_path / "template.pdf").read_bytes() == first
    text = reader.pages[0].extract_text()
    assert "100.0 mm both ways" in text and "85 mm from the outboard edge, 0 mm from the datum" in text


def test_several_injuries_are_tiled_and_each_is_named_once(tmp_path):
    marks = [crown_injury(str(number), 0.0, 60.0 * number) for number in range(1, 6)]
    reader = written(assessed(*marks), tmp_path)
    text = [page.extract_text() for page in reader.pages]
    assert len(text) < 5
    for number in range(1, 6):
        assert sum(f"Injury {number}: head 40 mm" in each for each in text) == 1
    assert all(holds(boxes(page), 100, 100) for page in reader.pages)


def test_a_head_larger_than_the_paper_says_so_and_draws_nothing_short(tmp_path):
    unit = RepairUnit(stem_mm=4.0, head_length_mm=190.0)
    stock = house_stock().model_copy(update={"units": (unit,)})
    tire = measured_tire(maker_word=MakerWord(source="the maker's bulletin", head_past_tread_edge=True))
    small = crown_injury(size_outside=hole(4.0, how="exact"), size_inside=None)
    assessment = assess(bench_job(small, tire=tire), stock=stock)
    assert assessment.answer == "repairable"
    [page] = written(assessment, tmp_path).pages
    assert "does not fit this paper" in page.extract_text()
    assert not holds(boxes(page), 190, 190) and holds(boxes(page), 100, 100)


@pytest.mark.parametrize("across", [80.0, None])
def test_a_tire_not_repairable_or_not_yet_gets_a_page_that_says_why(tmp_path, across):
    mark = crown_injury(outside=None) if across is None else crown_injury(across_mm=across)
    assessment = assessed(mark)
    [page] = written(assessment, tmp_path).pages
    text = page.extract_text()
    assert "No template: the answer is" in text and not holds(boxes(page), 100, 100)
    assert "eye protection" in text


def test_the_command_writes_it_and_refuses_another_kind_or_place(tmp_path, capsys):
    write_job(tmp_path / "job.json", bench_job(crown_injury()))
    assert run(["template", str(tmp_path / "job.json"), "-o", str(tmp_path / "t.pdf"), "--paper", "Letter"]) == 0
    page = PdfReader(BytesIO((tmp_path / "t.pdf").read_bytes())).pages[0]
    assert float(page.mediabox.height) == pytest.approx(792)
    assert run(["template", str(tmp_path / "job.json"), "-o", str(tmp_path / "t.png")]) == 2
    assert run(["template", str(tmp_path / "job.json"), "-o", str(tmp_path / "no" / "t.pdf")]) == 2
    assert "ends in .pdf" in capsys.readouterr().err
