"""Every text the window shows goes through the translating function, in a form a translator can be given."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from string import Formatter

import pytest
from PySide6.QtCore import QTranslator

import tiremap.ui
from tests.helpers.pseudo_language import LONGER, PseudoLanguage, pseudo
from tiremap.ui.language import marked, told, tr

FILES = sorted(path for path in Path(tiremap.ui.__file__).parent.glob("*.py") if path.name != "language.py")
TEXT_FUNCTIONS = ("tr", "marked")

ALL = None
SHOWN_BY: dict[str, slice | None] = {
    # widgets of Qt and of ours, by their first text; the others are keys, values and parents
    **dict.fromkeys((
        "QLabel", "QPushButton", "QCheckBox", "QRadioButton", "QToolButton", "QGroupBox", "QMenu", "QToolBar",
        "heading", "faint", "fault", "choice", "FieldEdit", "TypedField", "ThreeAnswers", "TextDialog", "_title",
        "_make", "_one_of", "Column", "addItem", "addMenu", "addRow", "addButton", "setText", "setToolTip",
        "setWindowTitle", "setPlaceholderText", "setAccessibleName", "setAccessibleDescription", "setStatusTip",
        "setWhatsThis", "setInformativeText", "setIconText", "setTitle", "setFormat", "setDocName", "setItemText",
        "try_change", "change", "show_text", "tell", "_tell_user", "_show_trouble", "_refuse", "append",
    ), slice(0, 1)),
    **dict.fromkeys(("QAction", "tell_fault", "MeasureField", "Line", "_on_whose_word", "_gap"), slice(0, 4)),
    **dict.fromkeys(("TiremapError", "addItems", "setHorizontalHeaderLabels", "addTab", "drawText"), ALL),
}
"""What shows its arguments, and which of them."""

NO_WORDS = {
    "N.m", "ft-lb",  # units, as typed
    "205/55R16 91V",  # a size code, as it stands on the sidewall
    "Tiremap",  # our name
}
NOT_TRANSLATED = {
    "palettes.py": 1,  # the style sheet
    "drawing_hands.py": 2,  # names of keys
    "stock_page.py": 1,  # the grade written into the shop's stock file
    "files.py": 3,  # names proposed for files
    "work_keeper.py": 1,  # the name of a thread
    "wording.py": 1,  # a place as it is typed: read back from its field
}
"""How many texts of two words and more a file may hold that are no words of the window."""


@cache
def trees() -> tuple[tuple[Path, ast.Module], ...]:
    return tuple((path, ast.parse(path.read_text(encoding="utf-8"))) for path in FILES)


def calls(tree: ast.AST, *names: str) -> Iterator[ast.Call]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and called(node) in names:
            yield node


def called(call: ast.Call) -> str:
    return getattr(call.func, "id", getattr(call.func, "attr", ""))


def placeholders(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def is_literal(call: ast.Call) -> bool:
    return len(call.args) == 1 and isinstance(call.args[0], ast.Constant) and isinstance(call.args[0].value, str)


def where(path: Path, node: ast.AST) -> str:
    return f"{path.name}:{node.lineno}: {ast.unparse(node)[:100]}"


def test_what_is_translated_is_a_plain_text_and_its_placeholders_are_filled_in():
    found = [(path, call) for path, tree in trees() for call in calls(tree, *TEXT_FUNCTIONS)]
    assert [where(path, call) for path, call in found if not is_sound(call)] == []
    assert len(found) > 500


@pytest.mark.parametrize("code", [
    'tr(f"{a} mm")', 'tr("a" + b)', "tr(text)", 'tr("{a} mm")', 'tr("{a}", b=1)', "marked(a)",
])
def test_what_no_translator_could_be_given_is_seen(code):
    (call,) = calls(ast.parse(code), *TEXT_FUNCTIONS)
    assert not is_sound(call)


def is_sound(call: ast.Call) -> bool:
    """Whether its text stands there plainly, and the values given are those it has places for."""
    named = {each.arg for each in call.keywords}
    return is_literal(call) and named == (placeholders(call.args[0].value) if called(call) == "tr" else set())


def test_a_text_of_a_table_is_told_with_the_values_it_has_places_for():
    for path, tree in trees():
        asked = {name for call in calls(tree, "marked") for name in placeholders(call.args[0].value)}
        given = {each.arg for call in calls(tree, "told") for each in call.keywords}
        assert asked == given, path.name


def test_no_text_is_translated_before_the_translator_stands():
    """What runs on import is `marked` there and `told` when it is shown."""
    for path, tree in trees():
        assert [where(path, call) for call in on_import(tree) if called(call) in ("tr", "told")] == []


def on_import(node: ast.AST) -> Iterator[ast.Call]:
    """The calls that run when a file is imported: all but those in the bodies of functions."""
    parts = ast.iter_child_nodes(node)
    if isinstance(node, ast.FunctionDef):
        parts = (*node.decorator_list, *node.args.defaults, *filter(None, node.args.kw_defaults))
    elif isinstance(node, ast.Lambda):
        parts = ()
    for part in parts:
        if isinstance(part, ast.Call):
            yield part
        yield from on_import(part)


def test_no_text_goes_into_a_widget_untranslated():
    assert [where(path, call) for path, tree in trees() for call in bare(tree)] == []


@pytest.mark.parametrize("code", [
    'QLabel("Tire")', 'a.setText("Tire" if b else "")', 'setToolTip(f"{a} of {b}")', 'heading(a or "Tire")',
    'choice(tr("Kind"), []).addItem("Tire", 1)', 'TiremapError(a, "Choose one.")', 'a.setText("Tire" + b)',
])
def test_a_text_that_goes_into_a_widget_untranslated_is_seen(code):
    assert len(list(bare(ast.parse(code)))) == 1


def bare(tree: ast.AST) -> Iterator[ast.Call]:
    """The calls that show a text which did not go through the translating function."""
    for call in calls(tree, *SHOWN_BY):
        shown = call.args if SHOWN_BY[called(call)] is ALL else call.args[SHOWN_BY[called(call)]]
        if any(has_words(each, called(call)) for each in shown):
            yield call


def has_words(node: ast.expr, shower: str) -> bool:
    """Whether a literal with words stands in an expression; what stands in calls inside it is asked by itself."""
    if isinstance(node, ast.Constant):
        return isinstance(node.value, str) and are_words(node.value)
    if isinstance(node, ast.JoinedStr):
        return are_words("".join(each.value for each in node.values if isinstance(each, ast.Constant)))
    if isinstance(node, ast.Tuple) and shower == "choice":
        return has_words(node.elts[0], shower)
    if isinstance(node, ast.IfExp):
        return has_words(node.body, shower) or has_words(node.orelse, shower)
    if isinstance(node, ast.Call | ast.Lambda | ast.Subscript):
        return False
    return any(has_words(each, shower) for each in ast.iter_child_nodes(node) if isinstance(each, ast.expr))


def are_words(text: str) -> bool:
    return text not in NO_WORDS and re.search(r"[^\W\d_]", re.sub(r"<[^<>]*>", "", text)) is not None


def test_no_sentence_stands_anywhere_in_the_window_untranslated():
    """Wherever it is kept on the way to the widget that shows it."""
    found: dict[str, list[str]] = {}
    for path, tree in trees():
        through = {id(part) for call in calls(tree, *TEXT_FUNCTIONS) for part in ast.walk(call)}
        through |= {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}  # what explains the code
        parts = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values}
        for node in ast.walk(tree):
            if id(node) in through or id(node) in parts:
                continue
            text = sentence_in(node)
            if text is not None:
                found.setdefault(path.name, []).append(f"{node.lineno}: {text[:80]}")
    beyond = {name: texts for name, texts in found.items() if len(texts) != NOT_TRANSLATED.get(name, 0)}
    assert beyond == {}


def sentence_in(node: ast.AST) -> str | None:
    """A text of two words and more."""
    text = ""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        text = node.value
    elif isinstance(node, ast.JoinedStr):
        text = "_".join(each.value for each in node.values if isinstance(each, ast.Constant))
    return text if re.search(r"[^\W\d_]{2,} [^\W\d_]{2,}", re.sub(r"<[^<>]*>", "", text)) else None


@pytest.fixture
def pseudo_language(qapp):
    language = PseudoLanguage()
    qapp.installTranslator(language)
    yield
    qapp.removeTranslator(language)


def test_a_text_is_english_until_there_is_a_translator(qapp):
    assert tr("Tire") == "Tire" and tr("{count} nuts", count=5) == "5 nuts"
    assert told(marked("Tire")) == "Tire"


def test_a_translator_exchanges_texts_and_those_of_tables_but_nothing_else(pseudo_language):
    assert tr("{count} nuts", count=5) == "[5 ñütš]"
    assert told(marked("{count} nuts"), count=5) == "[5 ñütš]"
    assert told("the shop's own words") == "the shop's own words"
    assert QTranslator.tr("Cancel") == "Cancel"


@pytest.mark.parametrize("text", ["Tire", "New job", "Record it against the answer", "Nothing\nfound"])
def test_the_pseudo_language_makes_each_line_longer(text):
    for line, longer in zip(text.split("\n"), pseudo(text).split("\n"), strict=True):
        assert len(longer) >= (1 + LONGER) * len(line)


def test_the_pseudo_language_keeps_what_is_no_word():
    kept = "{count:,} <b>&File</b> %v [*] (*.json);;{path}"
    changed = pseudo(kept)
    assert all(each in changed for each in ("{count:,}", "<b>", "&F", "</b>", "%v", "[*]", "(*.json);;", "{path}"))
    assert pseudo("\nless") == "\n[léšš]" and pseudo("") == ""
