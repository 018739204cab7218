"""Every limit of every rule set with its source, to be read and searched."""

from collections.abc import Iterator
from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import broken_rule_sets, usable_rule_sets
from tiremap.model.rule_set_titles import parent_title, shown_title
from tiremap.model.rule_set_words import LimitLine, limit_lines
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import choice, fault, tell_fault, widen_list

GRADES = marked(
    "How good a source is: issuer, the issuer's own words were read; second-hand, someone citing the issuer; common "
    "practice, the trade does so and no rule was found; from memory, not looked up again; assumed, ours."
)


class LimitsPage(QDialog):
    """The limits of one guidance or of all; of those only the ones in which every word sought stands."""

    def __init__(self, chosen: str | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Limits and sources"))
        self.resize(860, 640)
        self.which = choice(tr("Guidance to read"), [])
        self.which.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.sought = FieldEdit(tr("Words to look for in the limits"))
        self.sought.setPlaceholderText(tr("words to look for, such as tread depth"))
        self.sought.setClearButtonEnabled(True)
        self.count = QLabel()
        self.count.setAccessibleName(tr("How many limits are shown"))
        self.text = QTextBrowser()
        self.text.setAccessibleName(tr("Limits and sources"))
        self.broken = fault()
        self._lay_out()
        self.which.activated.connect(self.show_limits)
        self.sought.textChanged.connect(self.show_limits)
        self.read_again()
        self.which.setCurrentIndex(max(0, self.which.findData(chosen)))
        self.show_limits()
        self.sought.setFocus()

    def read_again(self) -> None:
        """Read every guidance anew; one of the shop's own may have been added, changed, broken or removed."""
        kept = self.which.currentData()
        self.sets = usable_rule_sets()
        self.which.clear()
        for title, name in [(tr("all of them"), None), *((shown_title(each), each.name) for each in self.sets)]:
            self.which.addItem(title, name)
        widen_list(self.which)
        self.which.setCurrentIndex(max(0, self.which.findData(kept)))
        tell_fault(self.broken, " ".join(tr("Left out: {wrong}", wrong=wrong) for _, wrong in broken_rule_sets()))
        self.show_limits()

    def show_limits(self) -> None:
        """Show the limits of the chosen guidance that hold every word sought."""
        sets = [each for each in self.sets if self.which.currentData() in (None, each.name)]
        words = self.sought.text().casefold().split()
        found = [(each, _holding(words, each)) for each in sets]
        shown, every = sum(len(lines) for _, lines in found), sum(len(limit_lines(each)) for each in sets)
        self.count.setText(
            tr("{shown} limits", shown=shown)
            if shown == every
            else tr("{shown} of {every} limits", shown=shown, every=every)
        )
        parts = [part for rule_set, lines in found if lines for part in _page(rule_set, lines)]
        self.text.setHtml("".join(parts) or tr("<p>No limit holds all of these words.</p>"))

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.which)
        row.addWidget(self.sought, 1)
        row.addWidget(self.count)
        grades = QLabel(told(GRADES))
        grades.setProperty("role", "faint")
        grades.setWordWrap(True)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        for button in buttons.buttons():
            button.setAutoDefault(False)  # Enter in the words sought must not close the page
        buttons.rejected.connect(self.close)
        column = QVBoxLayout(self)
        column.addLayout(row)
        column.addWidget(self.broken)
        column.addWidget(self.text, 1)
        column.addWidget(grades)
        column.addWidget(buttons)


def _holding(words: list[str], rule_set: RuleSet) -> list[LimitLine]:
    """The limits in which, or in whose title, each of these words stands."""
    lines = ((f"{rule_set.title} {line.text}".casefold(), line) for line in limit_lines(rule_set))
    return [line for text, line in lines if all(word in text for word in words)]


def _page(rule_set: RuleSet, lines: list[LimitLine]) -> Iterator[str]:
    """A rule set as HTML: its head, then one row for each limit."""
    after = (
        ""
        if rule_set.parent is None
        else tr("The shop's own, copied from: {parent}<br>", parent=escape(parent_title(rule_set)))
    )
    head = f"{escape(rule_set.issuer)}<br><i>{escape(rule_set.deciding)}</i>"
    yield f"<h3>{escape(rule_set.title)}</h3><p>{after}{head}</p>"
    yield "<table width='100%' cellspacing='0' cellpadding='5' border='0'>"
    yield (
        "<tr>"
        + "".join(f"<th align='left'>{head}</th>" for head in (tr("Limit"), tr("Asks"), tr("Tires"), tr("Source")))
        + "</tr>"
    )
    about = ""
    for line in lines:
        name = "" if line.about == about else line.about
        about = line.about
        source = escape(line.on_whose_word).replace(escape(line.grade), f"<b>{escape(line.grade)}</b>", 1)
        cells = (f"<b>{escape(name)}</b>", escape(line.asks), escape(line.tires), source)
        widths = zip(cells, (17, 28, 18, 37), strict=True)
        yield "<tr>" + "".join(f"<td width='{wide}%'>{cell}</td>" for cell, wide in widths) + "</tr>"
    yield "</table>"
