import re
from datetime import UTC, datetime
from io import BytesIO

import pytest
from PIL import Image
from pypdf import PdfReader

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, gauged, measured_tire, taped
from tests.unit.drawing.scenes_of import assessed, by_eye, crowded
from tiremap.assess import assess
from tiremap.drawing.said import said_in
from tiremap.drawing.wording import ANSWER_WORDS
from tiremap.errors import TiremapError
from tiremap.model.cautions import full_cautions, short_caution
from tiremap.model.job import Checks, Decision, Finding, Job
from tiremap.render.page import PAGES, PLAIN, width_of, wrapped
from tiremap.render.page_file import PNG_DPI
from tiremap.render.sheet import write_sheet
from tiremap.render.sheet_words import holes_line, reason_lines, rules_lines, tire_line, to_measure
from tiremap.storage.shop_rule_sets import copy_rule_set

JOBS = {
    "repairable": lambda: assessed(crown_injury("1", 30.0, 40.0), job_number="1042", fleet_number="F-17"),
    "measure first": by_eye,
    "not repairable": lambda: assessed(crown_injury("1", 75.0, 40.0), earlier_repair("R1", 0.0, 50.0)),
    "crowded": crowded,
    "size unknown": lambda: assess(Job()),
}


def _read(path) -> PdfReader:
    return PdfReader(BytesIO(path.read_bytes()))


def _plain(text: str) -> str:
    """Without line breaks and blanks, which a PDF does not keep."""
    return re.sub(r"\s+", "", text)


def _text(path) -> str:
    return _plain("".join(page.extract_text() for page in _read(path).pages))


@pytest.mark.parametrize("job", JOBS)
def test_a_sheet_says_the_answer_every_weighty_reason_and_the_cautions(job, tmp_path):
    assessment = JOBS[job]()
    write_sheet(assessment, tmp_path / "sheet.pdf")
    pages = [_plain(page.extract_text()) for page in _read(tmp_path / "sheet.pdf").pages]
    text = "".join(pages)
    assert _plain(ANSWER_WORDS[assessment.answer]) in text
    for reason in assessment.all_reasons:
        if reason.level in ("refuse", "measure", "caution"):
            assert _plain(said_in(reason.says, "mm")) in text
            assert _plain(reason.source) in text
    for caution in full_cautions():
        assert _plain(caution) in pages[0]


def test_a_sheet_names_job_rule_set_and_who_decides(tmp_path):
    assessment = JOBS["repairable"]()
    write_sheet(assessment, tmp_path / "sheet.pdf", title="Puncture", lines=("Shop three",))
    text = _text(tmp_path / "sheet.pdf")
    for said in ("Puncture", "Shop three", "1042", "F-17", "205/55R16", assessment.rule_set.title,
                 assessment.rule_set.deciding, short_caution()):
        assert _plain(said) in text


@pytest.mark.parametrize("sign", ["\r", "\a", "\t", "\u2028"])
def test_a_sign_that_does_not_print_leaves_a_space_and_no_empty_box(sign, tmp_path):
    """matplotlib warns of a glyph its face does not have, and a warning fails a test."""
    write_sheet(assessed(job_number=f"10{sign}42", fleet_number=f"F{sign}17", note=f"a{sign}b"), tmp_path / "sheet.pdf")
    assert "1042" in _text(tmp_path / "sheet.pdf")


def test_a_measure_first_sheet_lists_what_to_measure(tmp_path):
    assessment = by_eye()
    assert to_measure(assessment)
    write_sheet(assessment, tmp_path / "sheet.pdf")
    text = _text(tmp_path / "sheet.pdf").lower()
    for words in to_measure(assessment):
        assert _plain(words).lower() in text


def test_a_repairable_sheet_asks_for_nothing(tmp_path):
    write_sheet(JOBS["repairable"](), tmp_path / "sheet.pdf")
    assert "Stilltomeasure" not in _text(tmp_path / "sheet.pdf")


def test_a_repair_decided_against_the_answer_is_printed_so(tmp_path):
    decided = Decision(date=datetime(2025, 3, 1, tzinfo=UTC), rule_set="north_america", answer="not_repairable",
                       decision="repair", by="foreman")
    job = bench_job(crown_injury("1", 75.0, 40.0), rule_set="north_america", decisions=(decided,))
    write_sheet(assess(job), tmp_path / "sheet.pdf")
    assert "AGAINSTTHEANSWER" in _text(tmp_path / "sheet.pdf")


def test_every_decision_is_printed_with_date_sign_answer_and_note_and_a_changed_answer_is_named(tmp_path):
    first = Decision(date=datetime(2025, 3, 1, 9, 30, tzinfo=UTC), rule_set="japan", answer="measure_first",
                     decision="measure", by="KM", note="tread width by eye")
    last = Decision(date=datetime(2025, 3, 2, 14, 5, tzinfo=UTC), rule_set="united_kingdom", answer="repairable",
                    decision="repair", by="12")
    job = bench_job(crown_injury("1", 80.0), decisions=(first, last))
    write_sheet(assess(job), tmp_path / "sheet.pdf")
    text = _text(tmp_path / "sheet.pdf")
    for said in ("Decided 2025-03-01 09:30: Measure first, by KM", "Japan", "Note: tread width by eye",
                 "Decided 2025-03-02 14:05: Repair, by 12",
                 "The answer has changed since it was signed: it was Repairable."):
        assert _plain(said) in text
    assert "AGAINST" not in text


@pytest.mark.parametrize("page", PAGES)
def test_every_page_of_a_pdf_is_exactly_the_page_size(page, tmp_path):
    write_sheet(crowded(), tmp_path / "sheet.pdf", page=page)
    pages = _read(tmp_path / "sheet.pdf").pages
    assert len(pages) > 1
    for each in pages:
        size = [float(side) / 72 * 25.4 for side in (each.mediabox.width, each.mediabox.height)]
        assert size == pytest.approx(PAGES[page], abs=0.02)


def test_a_picture_is_as_large_as_the_page(tmp_path):
    write_sheet(by_eye(), tmp_path / "sheet.png")
    with Image.open(tmp_path / "sheet.png") as picture:
        assert picture.size == tuple(int(side / 25.4 * PNG_DPI) for side in PAGES["A4"])
    write_sheet(by_eye(), tmp_path / "sheet.svg")
    head = (tmp_path / "sheet.svg").read_text()[:1500]
    width, height = (float(re.search(rf'{side}="([\d.]+)pt"', head)[1]) / 72 * 25.4 for side in ("width", "height"))
    assert (width, height) == pytest.approx(PAGES["A4"], abs=0.02)


@pytest.mark.parametrize("suffix", ["pdf", "png", "svg"])
def test_two_runs_give_the_same_bytes(suffix, tmp_path):
    for name in ("one", "other"):
        write_sheet(JOBS["not repairable"](), tmp_path / f"{name}.{suffix}")
    assert (tmp_path / f"one.{suffix}").read_bytes() == (tmp_path / f"other.{suffix}").read_bytes()


def test_text_stays_text_in_pdf_and_svg(tmp_path):
    write_sheet(JOBS["repairable"](), tmp_path / "sheet.svg")
    assert re.search(r"<text[^>]*>Repairable</text>", (tmp_path / "sheet.svg").read_text())
    write_sheet(JOBS["repairable"](), tmp_path / "sheet.pdf")
    fonts = _read(tmp_path / "sheet.pdf").pages[0]["/Resources"]["/Font"]
    kinds = {font.get_object()["/Subtype"] for font in fonts.values()}
    assert kinds and "/Type3" not in kinds


def test_a_picture_says_how_many_reasons_it_leaves_out(tmp_path):
    checks = Checks(**{name: Finding(state="found") for name in Checks.model_fields if name != "earlier_repairs"})
    assessment = assess(bench_job(crown_injury("1", 75.0, 40.0), checks=checks))
    write_sheet(assessment, tmp_path / "sheet.svg")
    assert re.search(r">\d+ more: not shown on this page\.<", (tmp_path / "sheet.svg").read_text())


def test_nothing_runs_off_the_page(tmp_path):
    long = bench_job(crown_injury("1", 75.0, 40.0), rule_set="north_america", job_number="N" * 150)
    write_sheet(assess(long), tmp_path / "sheet.png")
    with Image.open(tmp_path / "sheet.png") as picture:
        grey = picture.convert("L")
        edge = int(8 / 25.4 * PNG_DPI)
        for box in ((0, 0, edge, grey.height), (grey.width - edge, 0, grey.width, grey.height),
                    (0, 0, grey.width, edge), (0, grey.height - edge, grey.width, grey.height)):
            assert grey.crop(box).getextrema() == (255, 255)


def test_lines_are_broken_to_the_width_they_have():
    text = "The association's procedures exclude shoulder and belt edge by a picture, without a distance. " + "x" * 300
    lines = wrapped(text, 60.0)
    assert all(width_of(line, PLAIN) <= 60.0 for line in lines)
    assert _plain("".join(lines)) == _plain(text)


def test_inches_on_a_sheet_are_inches(tmp_path):
    write_sheet(JOBS["repairable"](), tmp_path / "sheet.pdf", unit="in")
    assert _plain("limit 1.00 in") in _text(tmp_path / "sheet.pdf")


@pytest.mark.parametrize("name", ["sheet.doc", "sheet"])
def test_a_sheet_of_another_kind_is_refused(name, tmp_path):
    with pytest.raises(TiremapError, match=r"\.pdf"):
        write_sheet(by_eye(), tmp_path / name)


def test_a_sheet_that_cannot_be_written_is_told_in_words(tmp_path):
    with pytest.raises(TiremapError, match="cannot be written"):
        write_sheet(by_eye(), tmp_path / "no_such_folder" / "sheet.pdf")


def test_the_depths_measured_and_the_groove_distance_stand_with_the_tire():
    def line(**measured) -> str:
        return tire_line(assess(bench_job(crown_injury(), tire=measured_tire(**measured))), "mm")

    assert "tread depth 6 mm" in line() and "grooves" not in line()
    assert "tread depth central 4 mm" in line(tread_depth=None, tread_depth_central=gauged(4.0))
    places = line(
        tread_depth_outboard=gauged(3.0), tread_depth_inboard=gauged(7.0), between_outer_grooves=taped(118.0)
    )
    assert "tread depth 6 mm, outboard 3 mm, inboard 7 mm" in places
    assert "between outer grooves 118 mm" in places
    assert "tread depth not measured" in line(tread_depth=None)


def test_a_sheet_says_what_each_hole_is_as_far_as_it_was_entered(tmp_path):
    cut = crown_injury("1", kind="cut", object="broken glass", cords_splayed=False)
    write_sheet(assessed(cut, crown_injury("2", 0.0, 180.0)), tmp_path / "sheet.pdf")
    assert _plain("Found at injury 1: cut, broken glass, no cords splayed.") in _text(tmp_path / "sheet.pdf")
    write_sheet(assessed(crown_injury("2", 0.0, 180.0)), tmp_path / "sheet.pdf")
    assert _plain("Found at") not in _text(tmp_path / "sheet.pdf")


def test_a_sheet_shortens_an_object_written_at_length_and_keeps_the_rest(tmp_path):
    long = crown_injury("1", kind="puncture", object="nail " * 200, cords_splayed=True)
    write_sheet(assessed(long), tmp_path / "sheet.png")
    said = holes_line(assessed(long))
    assert len(said) < 100
    assert said.startswith("Found at injury 1: puncture, nail nail")
    assert said.endswith("…, cords splayed.")


def test_a_sheet_names_the_parent_of_a_shops_own_set_and_a_set_that_cannot_be_read():
    job = bench_job(crown_injury(), rule_set="our_shop")
    assert rules_lines(assess(job)) == ["The rule set our_shop cannot be read: no answer by it."]
    copy_rule_set("japan", "our_shop")
    assert rules_lines(assess(job))[0].startswith("Rule set: our_shop, after Japan. the shop itself, after: ")
    assert rules_lines(assess(Job())) == ["No rule set chosen."]


def test_a_margin_without_a_bound_to_one_side_is_told_by_the_other():
    [place] = (each for each in by_eye().all_reasons if each.code == "head_at_belt_edge")
    assert place.margin_low is None and place.margin_high is not None
    told = reason_lines(place, "mm").figures
    assert "margin not known (85.5 mm at best)" in told and "no bound" not in told
