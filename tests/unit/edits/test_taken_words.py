"""An entry in words: exactly as it was taken, with its unit, way and tolerance."""

from datetime import UTC, datetime

import pytest

from tiremap.edits.taken_words import as_it_stands, entry_in_words
from tiremap.model.after_repair import Pressure, Temperature, Torque
from tiremap.model.job import Finding, RepairsLookedFor
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length, Taken


@pytest.mark.parametrize(
    ("value", "field", "says"),
    [
        (True, "", "yes"),
        (False, "", "no"),
        (6.5, "rim_width_in", "6.5 in"),
        ("", "", "nothing"),
        (datetime(2026, 3, 1, 9, 30, tzinfo=UTC), "", "2026-03-01 09:30:00"),
        (Length(value=6.0, how="tape"), "", "6 mm, tape"),
        (Across(value=-1.5, unit="in", origin="outboard_edge", how="eye"), "", "−1.5 in from outboard edge, eye"),
        (HoleSize(value=4.0, stops=4.5, how="gauge"), "", "4 to 4.5 mm, gauge"),
        (BeadToes(from_outboard=120.0, from_inboard=130.0, how="tape"), "", "120 and 130 mm from bead toes, tape"),
        (Around(value=3.5, unit="h", how="clock"), "", "3.5 h, clock"),
        (Around(value=95.0, how="protractor"), "", "95°, protractor"),
        (Lean(value=-12.0, how="probe"), "", "−12°, probe"),
        (Finding(state="fine", together=True), "", "fine, answered with all others"),
        (RepairsLookedFor(state="all_marked"), "", "all marked"),
        (Pressure(value=33.0, unit="psi"), "", "33 psi"),
        (Torque(value=110.0, unit="N.m"), "", "110 N.m"),
        (Temperature(value=20.0, unit="C"), "", "20 °C"),
        ({"a": [1, "x"]}, "", '{"a": [1, "x"]}'),
    ],
)
def test_an_entry_is_told_as_it_was_taken(value, field, says):
    told = entry_in_words(value, field)
    assert told == says or told.startswith(f"{says} ")


def test_a_kind_of_measurement_without_words_is_told_as_no_other_kind():
    class Weight(Taken):
        """A kind nobody gave words."""

    with pytest.raises(TypeError, match="Weight"):
        entry_in_words(Weight(how="tape"))


def test_what_is_long_is_cut_and_a_record_stands_as_in_the_file():
    assert entry_in_words({"a": "x" * 100}).endswith("…")
    assert '"how": "tape"' in as_it_stands(Length(value=6.0, how="tape"))
