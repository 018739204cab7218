"""The answer: its word, symbol and hatch, what comes next, the margin, and by which rule set."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.drawing.decision_words import decision_said, overtaken_said
from tiremap.edits.decisions import overtaken_decision
from tiremap.model.measures import LengthUnit
from tiremap.model.rule_set_titles import shown_title
from tiremap.ui import reason_words, wording
from tiremap.ui.answer_symbol import AnswerSymbol
from tiremap.ui.language import told, tr
from tiremap.ui.layouts import faint, fault, tell_fault
from tiremap.ui.palettes import Theme


class AnswerPanel(QFrame):
    """The tire's answer, under it that of the chosen injury, and what was decided last.

    Signals: ``sign_wanted()`` the decision is to be recorded.
    """

    sign_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Answer"))
        self.symbol = AnswerSymbol()
        self.word = QLabel()
        self.word.setProperty("role", "answer")
        self.word.setAccessibleName(tr("The answer"))
        self.word.setWordWrap(True)
        self.margin = QLabel()
        self.margin.setAccessibleName(tr("Margin"))
        self.margin.setWordWrap(True)
        self.next = QLabel()
        self.next.setAccessibleName(tr("What comes next, or how far it is refused"))
        self.next.setWordWrap(True)
        self.by = faint()
        self.by.setAccessibleName(tr("Guidance"))
        self.decided = QLabel()
        self.decided.setAccessibleName(tr("What was decided"))
        self.decided.setWordWrap(True)
        self.overtaken = fault()
        self.overtaken.setAccessibleName(tr("Whether the answer has changed since"))
        self.sign = QPushButton(tr("Record the decision…"))
        self.sign.setToolTip(tr("Sign what is decided, under this answer (Ctrl+D)"))
        self.sign.clicked.connect(self.sign_wanted)
        words = QVBoxLayout()
        words.setSpacing(1)
        for label in (self.word, self.next, self.margin, self.by, self.decided, self.overtaken):
            words.addWidget(label)
        words.addSpacing(3)
        words.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignLeft)
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 6, 10, 6)
        row.setSpacing(12)
        row.addWidget(self.symbol)
        row.addLayout(words, 1)

    def show_assessment(self, assessment: Assessment, chosen: str | None, unit: LengthUnit, theme: Theme) -> None:
        """Show the answer of an assessment."""
        self.symbol.show_answer(assessment.answer, theme)
        self.word.setText(told(wording.ANSWER_WORDS[assessment.answer]))
        self.next.setText(reason_words.next_step(assessment, unit))
        self.next.setVisible(bool(self.next.text()))
        self.margin.setText(_margin_words(assessment, chosen, unit))
        self.margin.setVisible(bool(self.margin.text()))
        rule_set = assessment.rule_set
        self.by.setText(_by(assessment))
        self.by.setToolTip("" if rule_set is None else f"{rule_set.issuer}\n{rule_set.deciding}")
        decisions, overtaken = assessment.job.decisions, overtaken_decision(assessment)
        self.decided.setText(decision_said(decisions[-1]) if decisions else "")
        self.decided.setVisible(bool(decisions))
        tell_fault(self.overtaken, "" if overtaken is None else overtaken_said(overtaken))


def _by(assessment: Assessment) -> str:
    """By whose limits the answer is given."""
    if assessment.rule_set is not None:
        return tr("By: {title}", title=shown_title(assessment.rule_set))
    chosen = assessment.job.rule_set
    return tr("No guidance chosen") if chosen is None else tr("{chosen} cannot be read: no answer", chosen=chosen)


def _margin_words(assessment: Assessment, chosen: str | None, unit: LengthUnit) -> str:
    """The chosen injury's answer, or its own part of a worse one, and margin; with none chosen, the least margin."""
    for injury in assessment.injuries:
        if injury.id == chosen and injury.answer is not None:
            own = assessment.better_by_itself(injury)
            words = wording.ANSWER_WORDS[assessment.answer_shown(injury)] if own is None else wording.OWN_WORDS[own]
            refused = own is None and assessment.answer_shown(injury) == "not_repairable"
            by_place = injury.margin_mm is not None and injury.margin_mm < 0
            margin = "" if refused and not by_place else _margin_of(injury.margin_mm, unit)
            return tr("Injury {id}: {answer}{margin}", id=injury.id, answer=told(words), margin=margin)
    if assessment.answer == "not_repairable":
        return ""  # how far it is refused stands above
    return reason_words.least_margin(assessment, unit)


def _margin_of(margin_mm: float | None, unit: LengthUnit) -> str:
    if margin_mm is None:
        return tr(", margin not known")
    return tr(", margin {margin}", margin=wording.margin(margin_mm, unit))
