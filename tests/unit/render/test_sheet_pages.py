"""The two halves of a job sheet: the first page for the customer and the file, the shop's page with all numbers."""

import re
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

import tiremap.rules
from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, from_outboard_edge, measured_tire
from tests.unit.drawing.scenes_of import crowded
from tiremap.assess import assess
from tiremap.drawing.wording import length
from tiremap.model.after_repair import LeakCheck, Pressure, Refit, Temperature, Torque
from tiremap.model.job import StepDone
from tiremap.render.sheet import write_sheet
from tiremap.render.sheet_customer import plain_words
from tiremap.repair_dimensions import repair_dimensions
from tiremap.repair_steps import step_titles
from tiremap.resources import read_toml
from tiremap.rules.condition import condition_checks
from tiremap.workshop.leak import leak_found
from tiremap.workshop.leak_words import leak_lines

NEVER_REFUSES = {"head_at_tread_edge", "head_at_belt_edge", "ends_disagree", "tread_width"}
"""Weighed like the others, but at worst to be measured or a caution."""
MARCH = datetime(2026, 3, 2, 9, 30, tzinfo=UTC)


def plain(text: str) -> str:
    return re.sub(r"\s+", "", text)


def written(tmp_path, job, **fields) -> list[str]:
    """The text of each page without blanks, which a PDF does not keep."""
    write_sheet(assess(job), tmp_path / "sheet.pdf", **fields)
    return [plain(page.extract_text()) for page in PdfReader(BytesIO((tmp_path / "sheet.pdf").read_bytes())).pages]


def refusing_codes() -> set[str]:
    """The codes the rules may refuse with, as their files spell them."""
    files = Path(tiremap.rules.__file__).parent.glob("*.py")
    source = "\n".join(each.read_text("utf-8") for each in files)
    found = set(re.findall(r'Reason\(\s*"(\w+)", "refuse"', source))
    found |= set(re.findall(r'\b(?:_?weigh(?:ed)?|reason_for)\(\s*"(\w+)"', source))
    found |= set(re.findall(r'_apart\(\s*case, pair, "(\w+)"', source))
    found |= set(re.findall(r'Reason\(\s*"(\w+)", level', source))
    return found - NEVER_REFUSES | {f"condition_{each.name}" for each in condition_checks()}


def test_every_check_that_can_refuse_is_told_to_the_customer_in_plain_words_and_nothing_else_is():
    codes = refusing_codes()
    assert len(codes) > 20
    assert codes - {"hole_size"} <= set(read_toml("refusals.toml")["says"])
    assert set(read_toml("refusals.toml")["says"]) <= codes | {"hole_size"}
    assert plain_words("size_again") is None


def test_a_refused_tires_first_page_says_why_in_plain_words_with_the_source_and_the_shops_page_how_far_off(tmp_path):
    job = bench_job(crown_injury("1", 75.0, 40.0), rule_set="north_america")
    [first, shop] = written(tmp_path, job)
    [refusal] = [each for each in assess(job).all_reasons if each.level == "refuse"]
    for said in (plain_words("place"), refusal.source, "Refused by", "Customer told by"):
        assert plain(said) in first
    assert plain(refusal.advice) not in first and plain(refusal.says) in shop
    assert "Whatwouldbefitted" not in first


def test_a_tire_refused_for_two_heads_tells_nobody_how_to_work(tmp_path):
    text = "".join(written(tmp_path, bench_job(crown_injury("1", 0.0, 0.0), crown_injury("2", 0.0, 2.0))))
    assert plain(plain_words("heads_overlap")) in text and plain("Injury 1: what it was weighed with") in text
    assert not any(word in text for word in ("toworkto", "Cement", "beforeitiscut", "Whatwouldbefitted"))


def test_a_refusal_of_two_holes_is_explained_once(tmp_path):
    job = bench_job(crown_injury("1", 75.0, 40.0), crown_injury("2", 75.0, 140.0), rule_set="north_america")
    text = "".join(written(tmp_path, job))
    assert text.count(plain(plain_words("place"))) == 1
    assert plain("Injury 1 lies in the shoulder") in text and plain("Injury 2 lies in the shoulder") in text


@pytest.mark.parametrize(("unit", "buffed"), [("mm", "52 mm 52 mm"), ("in", "2.05 in 2.05 in")])
def test_the_shops_page_holds_the_dimensions_of_each_injury(tmp_path, unit, buffed):
    """A 4 mm hole takes a 40 mm head by the house stock, buffed 6 mm beyond it."""
    job = bench_job(crown_injury("1", outside=from_outboard_edge(58.0), around_deg=95.0))
    [first, shop] = written(tmp_path, job, unit=unit)
    [dimensions] = repair_dimensions(assess(job))
    assert plain(f"Buff to {buffed}") in shop
    assert plain(f"at least {length(dimensions.stem_at_least, unit)} long") in shop
    assert plain(f"Middle {length(58.0, unit)} from the outboard edge") in first
    for said in ("58 mm from the outboard edge by tape", "95° by protractor", "4 mm enters, 5 mm does not, by gauge"):
        assert plain(said) in shop, "a measurement stands as it was taken, whatever the sheet's unit"


def test_the_shops_page_holds_the_pairs_nearest_first_and_the_stock(tmp_path):
    job = bench_job(crown_injury("1", 0.0, 0.0), earlier_repair("R1", 0.0, 90.0), earlier_repair("R2", 0.0, 200.0))
    shop = written(tmp_path, job)[-1]
    assert shop.index("1andR1") < shop.index("R1andR2")
    assert "stem4mm,head40mm" in shop and "askthe" in shop


def test_steps_leak_check_and_refit_are_printed_as_entered(tmp_path):
    steps = [StepDone(step=step, at=MARCH) for step in step_titles()]
    steps[-1] = steps[-1].model_copy(update={"answer": "repairable"})
    check = LeakCheck(
        before=Pressure(value=33, unit="psi"), after=Pressure(value=21, unit="psi"), hours=24,
        before_temperature=Temperature(value=68, unit="F"), after_temperature=Temperature(value=68, unit="F"),
        air_volume_l=28.0,
    )
    told = leak_lines(leak_found(check, 28.0, volume_exact=True), "psi")
    refit = Refit(nuts=5, thread="M12x1.5", torque=Torque(value=108, unit="N.m"), torque_source="the manual")
    job = bench_job(crown_injury(), steps_done=tuple(steps), leak_check=check, refit=refit)
    pages = written(tmp_path, job)
    assert len(pages) == 2
    for title in step_titles().values():
        assert "".join(plain(word) for word in title.split()) in pages[0]
    assert plain("Steps done on 2026-03-02") in pages[0] and pages[0].count("09:30") == len(steps)
    assert plain("pressure again, Repairable") in pages[0]
    for said in ("33 psi at 68 °F", "21 psi", "M12x1.5", "108 N.m", "the manual", told[0], "1-3-5-2-4"):
        assert plain(said) in pages[1]


def test_a_fresh_sheet_speaks_of_no_step_leak_or_refit(tmp_path):
    text = "".join(written(tmp_path, bench_job(crown_injury())))
    assert not any(word in text for word in ("Stepsdone", "Leakcheck", "Refit"))


@pytest.mark.parametrize("page", ["A4", "Letter"])
def test_checks_that_find_no_room_on_the_first_page_are_counted_there_and_stand_on_the_shops(tmp_path, page):
    marks = [crown_injury(str(number), 0.0, 60.0 * number) for number in range(1, 6)]
    job = bench_job(*marks, rule_set="united_kingdom", tire=measured_tire())
    pages = written(tmp_path, job, page=page)
    assert "morecheckswerepassed.Allfiguresandsourcesstandontheshop'spageofthePDF." in pages[0]
    assert "forthe" in pages[1] and "shop" in pages[1], "the first page does not run over"


def test_a_heading_never_stands_alone_at_the_foot_of_a_page(tmp_path):
    for text in written(tmp_path, crowded().job):
        assert not text.endswith(("trueareaandmoreonthenextpage.", "groundontheliner", "toworkto"))
