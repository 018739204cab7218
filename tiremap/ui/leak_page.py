"""The leak check beside the drawing: two readings of the gauge, the answer in words, the numbers with their ranges."""

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.leak_check import set_leak_check
from tiremap.geometry.section import SectionCannotBeDrawn, draw_section
from tiremap.model.after_repair import LeakCheck, Pressure, PressureUnit, Temperature
from tiremap.model.pressures import KPA, read_pressure, read_temperature
from tiremap.model.typed_amounts import read_hours, read_liters
from tiremap.resources import read_toml
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, heading
from tiremap.ui.preferences import Preferences
from tiremap.ui.typed_field import TypedField
from tiremap.ui.wording import number
from tiremap.workshop.leak import leak_found, places_to_look
from tiremap.workshop.leak_words import answer_line, number_lines

_NAMES = {
    "before": marked("First gauge pressure"), "before_temperature": marked("Temperature at the first reading"),
    "after": marked("Second gauge pressure"), "after_temperature": marked("Temperature at the second reading"),
    "hours": marked("Time between the readings"), "gauge": marked("How far the gauge may be off, either way"),
    "air_volume_l": marked("Air in the tire, liters"),
}
"""The fields of the leak check as they are told to a screen reader, in the order they are entered."""
_BELOW = {
    "hours": marked("Time between the readings"),
    "gauge": marked("The gauge may be off, either way"),
    "air_volume_l": marked("Air in the tire"),
}
"""What stands under the two readings, with its label."""
_SOURCES = ("permeation", "orifice", "bubbles")


class LeakPage(QScrollArea):
    """Follows the job: the readings stand in its leak check, and what they tell is worked out anew each time.

    A pressure or temperature without a unit is taken in that of its partner, else in what the preferences show.
    """

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self.setAccessibleName(tr("Leak check"))
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)  # the width texts wrap at stays the same
        self.fields = {name: self._field(name) for name in _NAMES}
        self.answer = _plain("heading")
        self._numbers = QVBoxLayout()
        self._numbers.setSpacing(4)
        self.sources = faint()
        self.sources.setText(_sources())
        self._lay_out()

    @property
    def numbers(self) -> list[str]:
        """The lines under the answer."""
        labels = [self._numbers.itemAt(at).widget() for at in range(self._numbers.count())]
        return [label.text() for label in labels if label.text()]

    def show_assessment(self, assessment: Assessment, chosen: str | None = None) -> None:
        """Show the readings the job holds and what they tell of the tire as it is drawn."""
        check = assessment.job.leak_check or LeakCheck()
        for name, field in self.fields.items():
            field.show_value(getattr(check, name))
        volume = _volume(assessment)
        self._hint(volume)
        self._show_found(check, volume)

    def take_preferences(self) -> None:
        """Show hints and numbers in the units of the preferences."""
        self.show_assessment(self._editor.session.assessment)

    def _show_found(self, check: LeakCheck, volume: float | None) -> None:
        liters = volume if check.air_volume_l is None else check.air_volume_l
        if check.before is None or check.after is None or check.hours is None:
            self.answer.setText(tr("Enter both pressures and the time between."))
            self._show_numbers([])
        elif liters is None:
            self.answer.setText(tr("Enter the size code, or the liters of air in the tire."))
            self._show_numbers([])
        else:
            found = leak_found(check, liters, volume_exact=check.air_volume_l is not None)
            self.answer.setText(answer_line(found, check.before.unit))
            self._show_numbers(number_lines(found, check.before.unit))

    def _show_numbers(self, lines: list[str]) -> None:
        """One label for each line; those there are taken again, so that a selection survives other changes."""
        while self._numbers.count() < len(lines):
            self._numbers.addWidget(_plain())
        for at in range(self._numbers.count()):
            label = self._numbers.itemAt(at).widget()
            text = lines[at] if at < len(lines) else ""
            if label.text() != text:
                label.setText(text)
            label.setVisible(bool(text))

    def _hint(self, volume: float | None) -> None:
        """What a field takes while it is empty, in the units shown."""
        gauge = read_toml("workshop", "leak.toml")["gauge"]["kpa"] / KPA[self._pressure_unit()]
        inches = self._preferences.settings.units == "in"
        self.fields["before"].setPlaceholderText(tr("as 33 psi") if inches else tr("as 230 kPa"))
        self.fields["after"].setPlaceholderText(tr("as 31 psi") if inches else tr("as 215 kPa"))
        for name in ("before_temperature", "after_temperature"):
            self.fields[name].setPlaceholderText(tr("as 68 F") if inches else tr("as 20 C"))
        self.fields["hours"].setPlaceholderText(tr("as 24 h, or 17:30 to 8:00"))
        self.fields["gauge"].setPlaceholderText(
            tr("{pressure} {unit}, usual", pressure=number(gauge, 1), unit=self._pressure_unit())
        )
        self.fields["air_volume_l"].setPlaceholderText(
            tr("as 28 L") if volume is None else tr("{volume:.0f} L, of the section", volume=volume)
        )

    def _field(self, name: str) -> TypedField:
        read, show = self._way(name)
        field = TypedField(told(_NAMES[name]), read, show)
        field.setToolTip(told(_NAMES[name]))
        field.entered.connect(partial(self._entered, name))
        return field

    def _way(self, name: str) -> tuple[Callable[[str], Any], Callable[[Any], str]]:
        """How a field is read and shown."""
        if name == "hours":
            return read_hours, lambda hours: f"{number(hours, 4)} h"
        if name == "air_volume_l":
            return read_liters, lambda liters: f"{number(liters, 1)} L"
        if name.endswith("temperature"):
            return (lambda text: read_temperature(text, self._temperature_unit())), _with_unit
        return (lambda text: read_pressure(text, self._pressure_unit())), _with_unit

    def _pressure_unit(self) -> PressureUnit:
        check = self._editor.job.leak_check or LeakCheck()
        known = next((each for each in (check.before, check.after) if each is not None), None)
        usual: PressureUnit = "psi" if self._preferences.settings.units == "in" else "kPa"
        return usual if known is None else known.unit

    def _temperature_unit(self) -> Any:
        check = self._editor.job.leak_check or LeakCheck()
        known = next((each for each in (check.before_temperature, check.after_temperature) if each is not None), None)
        return ("F" if self._preferences.settings.units == "in" else "C") if known is None else known.unit

    def _entered(self, name: str, value: Any) -> None:
        self._editor.try_change(told(_NAMES[name]), set_leak_check, **{name: value})

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(8, 6, 8, 6)
        column.setSpacing(4)
        column.addWidget(heading(tr("Leak check")))
        column.addWidget(faint(tr(
            "Two readings of a tire that stands, with the same gauge, and each time how warm the tire is. The further "
            "apart, the more they tell."
        )))
        column.addLayout(self._readings())
        for name, words in _BELOW.items():
            label = QLabel(told(words))
            label.setBuddy(self.fields[name])
            column.addWidget(label)
            column.addWidget(self.fields[name])
            column.addWidget(self.fields[name].fault)
        column.addWidget(self.answer)
        column.addLayout(self._numbers)
        column.addWidget(heading(tr("Where to look first")))
        for rank, (where, why) in enumerate(places_to_look(), start=1):
            column.addWidget(_plain(text=f"{rank}. {where[0].upper()}{where[1:]}: {why}."))
        column.addWidget(self.sources)
        column.addStretch(1)
        self.setWidget(inside)

    def _readings(self) -> QGridLayout:
        """First and second reading under each other, pressure beside temperature."""
        grid = QGridLayout()
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(3)
        for at, words in enumerate((tr("Pressure"), tr("Temperature")), start=1):
            grid.addWidget(QLabel(words), 0, at)
        for at, (words, name) in enumerate(((tr("First"), "before"), (tr("Second"), "after"))):
            row, pressure, temperature = 2 * at + 1, self.fields[name], self.fields[f"{name}_temperature"]
            grid.addWidget(QLabel(words), row, 0)
            grid.addWidget(pressure, row, 1)
            grid.addWidget(temperature, row, 2)
            faults = QVBoxLayout()
            faults.setSpacing(2)
            faults.addWidget(pressure.fault)
            faults.addWidget(temperature.fault)
            grid.addLayout(faults, row + 1, 0, 1, 3)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(2, 1)
        return grid


def _volume(assessment: Assessment) -> float | None:
    """Liters of air of the section as it is drawn; ``None`` while there is none."""
    if assessment.section_inputs is None:
        return None
    try:
        return draw_section(assessment.section_inputs).air_volume_l
    except SectionCannotBeDrawn:
        return None


def _with_unit(quantity: Pressure | Temperature) -> str:
    return f"{number(quantity.value, 4)} {quantity.unit}"


def _sources() -> str:
    data = read_toml("workshop", "leak.toml")
    return "\n".join(f"{data[each]['source'][0].upper()}{data[each]['source'][1:]}." for each in _SOURCES)


def _plain(role: str = "", text: str = "") -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    if role:
        label.setProperty("role", role)
    return label
