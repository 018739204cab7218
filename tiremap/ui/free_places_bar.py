"""Where a repair could go: the unit it is asked for, and the answer in words; the drawing shows the region."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.drawing.said import said_in
from tiremap.drawing.strip_free import free_beside_its_unit, has_gap, unit_in_words
from tiremap.free_places import FreePlaces, smallest_unit_for, where_a_repair_could_go
from tiremap.model.measures import LengthUnit
from tiremap.model.stock import RepairUnit
from tiremap.ui.language import tr
from tiremap.ui.layouts import WholeWords, choice, heading, show_choice, widen_list


class FreePlacesBar(QFrame):
    """Asks where a unit of the stock could go on the shown tire. Hidden, it asks nothing.

    The unit is the one the chosen hole takes until the user chooses another, which then stays.

    Signals:
        ``unit_chosen()``: the user chose another unit; ``places`` is what it finds.
        ``gap_wanted(angle)``: the drawing is to be turned to the middle of the widest gap, radians from the datum.
    """

    unit_chosen = Signal()
    gap_wanted = Signal(float)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.places: FreePlaces | None = None
        self._shown: tuple[Assessment, RepairUnit] | None = None
        self._by_hand: RepairUnit | None = None
        self._assessment: Assessment | None = None
        self._unit: LengthUnit = "mm"
        self.setAccessibleName(tr("Where a repair could go"))
        title = heading(tr("Where a repair could go"))
        self.units = choice(tr("Repair unit to place"), [])
        self.units.activated.connect(self._choose_unit)
        self.units.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        title.setBuddy(self.units)
        title.setWordWrap(True)
        self.words = WholeWords()
        self.words.setAccessibleName(tr("What is free"))
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.turn_there = QPushButton(tr("Turn there"))
        self.turn_there.setAccessibleName(tr("Turn the strip to the widest gap"))
        self.turn_there.setToolTip(tr("Turn the strip to the middle of the widest gap"))
        self.turn_there.clicked.connect(self._want_gap)
        asked = QVBoxLayout()
        asked.setSpacing(2)
        asked.addWidget(title)
        asked.addWidget(self.units)
        asked.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 6, 8, 2)
        row.setSpacing(10)
        row.addLayout(asked)
        row.addWidget(self.words, 1)
        row.addWidget(self.turn_there, 0, Qt.AlignmentFlag.AlignBottom)
        self.hide()

    def open(self) -> None:
        """Show the bar with the focus on its unit; what it finds comes with the next assessment shown."""
        self.show()
        self.units.setFocus()

    def close_up(self) -> None:
        """Hide the bar and forget the unit chosen by hand."""
        self._by_hand, self.places, self._shown = None, None, None
        self.hide()

    def show_assessment(self, assessment: Assessment, chosen: str | None, unit: LengthUnit) -> None:
        """Find anew where the unit could go, if the bar is open and assessment or unit is another than before."""
        if self.isHidden():
            return
        if self._assessment is None or assessment.stock != self._assessment.stock or unit != self._unit:
            self._offer(assessment.stock.units, unit)
        self._assessment, self._unit = assessment, unit
        if self._by_hand not in assessment.stock.units:
            self._by_hand = None
        self._find(self._by_hand or smallest_unit_for(assessment, chosen))

    def _choose_unit(self) -> None:
        self._by_hand = self.units.currentData()
        self._find(self._by_hand)
        self.unit_chosen.emit()

    def _want_gap(self) -> None:
        start, end = self.places.widest_gap
        self.gap_wanted.emit((start + end) / 2)

    def _find(self, wanted: RepairUnit) -> None:
        show_choice(self.units, wanted)
        asked = (self._assessment, wanted)
        if self._shown is None or asked[0] is not self._shown[0] or asked[1] != self._shown[1]:
            self.places, self._shown = where_a_repair_could_go(*asked), asked
        says = (said_in(sentence, self._unit) for sentence in self.places.says)
        self.words.setText(" ".join((free_beside_its_unit(self.places, self._unit), *says)))
        self.turn_there.setVisible(has_gap(self.places))

    def _offer(self, units: tuple[RepairUnit, ...], unit: LengthUnit) -> None:
        self.units.blockSignals(True)
        self.units.clear()
        for each in units:
            self.units.addItem(unit_in_words(each, unit), each)
        self.units.blockSignals(False)
        widen_list(self.units)
