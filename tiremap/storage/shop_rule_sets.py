"""The shop's own rule sets: copied from a published one or taken over from a shared file, limits changed in place.

The files are edited as text, so comments and order stay as the shop wrote them. Nothing here overwrites a file but
`write_limit`, which keeps the one before as ``NAME.toml~``.
"""

import json
import re
import tempfile
from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import (
    EVERY_SET,
    published_rule_set_names,
    read_shop_rule_set,
    rule_set_bytes,
    rule_set_from_bytes,
    rule_set_named,
    rule_set_path,
)
from tiremap.model.toml_text import toml_from_bytes
from tiremap.model.wording import shown
from tiremap.resources import shop_rule_sets_folder
from tiremap.storage.checked_save import save_checked

HEAD = """\
# The shop's own rule set. Change limits below: each keeps its unit and says which way is tighter, and the source of a
# changed one says on whose word it was changed. Where it is looser than {parent}, every answer says so;
# a limit looser than that of every published set is refused when this file is read.

"""
A_NAME = re.compile(r"(?!(?:con|prn|aux|nul|com\d|lpt\d)\Z)[^\W_][\w-]{0,59}", re.IGNORECASE)
"""A letter or digit, then letters, digits, ``_`` and ``-``, and no device: a file name on every system."""

A_TABLE = re.compile(r"^\[\[(\w+)\]\][^\n]*\n(?:(?!\[)[^\n]*(?:\n|\Z))*", re.MULTILINE)
"""One limit in the file: its heading and the lines to the next one."""

A_STRING = r'(?:"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\')'


def copy_rule_set(parent_name: str, new_name: str) -> Path:
    """Copy a published rule set as the shop's own, to be changed; gives its file.

    Raises `TiremapError` for a parent that is not published, a name that cannot be used, and a file already there.
    """
    if parent_name not in published_rule_set_names():
        raise TiremapError(
            f"A shop's rule set is copied from a published one, and {parent_name!r} is none.",
            f"There are: {', '.join(published_rule_set_names())}.",
        )
    path = _new_path(new_name)
    parent = rule_set_named(parent_name)
    text = rule_set_path(parent_name).read_text(encoding="utf-8")
    for key, line in (
        ("name", f"name = {_quoted(new_name)}\nparent = {_quoted(parent_name)}"),
        ("title", f"title = {_quoted(new_name)}"),
        ("issuer", f"issuer = {_quoted(f'the shop itself, after: {parent.issuer}')}"),
    ):
        text = re.sub(rf"^{key} = .*$", _as_it_stands(line), text, count=1, flags=re.MULTILINE)
    return _added(path, HEAD.format(parent=parent_name) + text)


def import_rule_set(shared: Path) -> Path:
    """Take over a rule set another shop shared; gives its file in the settings folder.

    What the shared file is called does not matter: the set keeps the name it says. Raises `TiremapError` for one that
    cannot be used, as it would be read here, and for a name already there.
    """
    data = rule_set_bytes(shared)
    name = toml_from_bytes(data, f"The rule set {shared.name}").get("name")
    if not isinstance(name, str) or not A_NAME.fullmatch(name):
        rule_set_from_bytes(data, shared)  # says what is wrong
        raise _cannot_be_called(str(name))
    text = data.decode("utf-8-sig")
    with tempfile.TemporaryDirectory() as folder:
        tried = Path(folder, f"{name}.toml")
        tried.write_text(text, encoding="utf-8")
        read_shop_rule_set(tried)
    return _added(_new_path(name), text)


def share_rule_set(name: str, target: Path) -> Path:
    """Write a copy of a shop's rule set for another shop, into a folder or under a file's name; gives the file.

    Raises `TiremapError` for a published set, one that cannot be used, and a file already there.
    """
    if name in published_rule_set_names():
        raise TiremapError(
            f"The published rule set {name!r} is in every copy of the program.", "A shop's own can be shared."
        )
    rule_set_named(name)
    path = rule_set_path(name)
    target = target / path.name if target.is_dir() else target
    try:
        data = path.read_bytes()
        with target.open("xb") as file:
            file.write(data)
    except FileExistsError:
        raise TiremapError(f"{target} is already there.", "Choose another name or folder.") from None
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        raise TiremapError(f"{target} cannot be written: {getattr(error, 'strerror', None) or error}.") from None
    return target


def write_limit(name: str, field: str, number: int, value: float, source: str) -> RuleSet:
    """Change one value in a shop's rule set: that of limit ``number`` (from 0) of ``field``, such as ``tread_depths``.

    ``source`` says on whose word; the grade becomes "assumed", for the old one spoke of the old value. Of a crown zone
    it is the value of the inner edge. Raises `TiremapError` for a published set, for a limit that is not there or has
    no value, and where the set could not be used any more; then the file is as it was.
    """
    if name in published_rule_set_names():
        raise TiremapError(
            f"The published rule set {name!r} is never changed.", "Copy it under a name of the shop's own first."
        )
    if not source.strip():
        raise TiremapError("A changed limit needs a source: on whose word it was changed.", "Such as: our foreman.")
    rule_set_named(name)
    path = rule_set_path(name)
    text = _with_value(path, field, number, value, source.strip())
    with tempfile.TemporaryDirectory() as folder:
        tried = Path(folder, path.name)
        tried.write_text(text, encoding="utf-8")
        read_shop_rule_set(tried)
    save_checked(path, text.encode())
    return rule_set_named(name)


def _new_path(name: str) -> Path:
    """Where a new rule set of that name goes."""
    if not A_NAME.fullmatch(name) or name.casefold() in (*published_rule_set_names(), EVERY_SET):
        raise _cannot_be_called(name)
    path = rule_set_path(name)
    if path.exists():
        raise TiremapError(f"There is already a rule set {name!r}: {path}.", "Choose another name.")
    return path


def _cannot_be_called(name: str) -> TiremapError:
    return TiremapError(
        f"A shop's rule set cannot be called {shown(name)}.",
        "Letters, digits, _ and -, and not the name of a published set: for example our_shop.",
    )


def _added(path: Path, text: str) -> Path:
    """Write a new file and read it as the shop's rule set; never over another."""
    folder = shop_rule_sets_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = f"The folder {folder} for the shop's rule sets cannot be made: {error.strerror}."
        raise TiremapError(what, "Move away what stands in its place.") from None
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise TiremapError(f"{path} is already there.", "Choose another name.") from None
    except OSError as error:
        raise TiremapError(f"The rule set {path} cannot be written: {error.strerror}.") from None
    read_shop_rule_set(path)
    return path


def _with_value(path: Path, field: str, number: int, value: float, source: str) -> str:
    """The text of a rule set's file with another value, and its source, in one limit."""
    text = path.read_text(encoding="utf-8")
    of_field = [table for table in A_TABLE.finditer(text) if table[1] == field]
    if not 0 <= number < len(of_field):
        raise TiremapError(f"The rule set {path.name} has no limit {field}.{number} written as [[{field}]].")
    table = of_field[number]
    value_stands = r"edge\s*=\s*\{[^}\n]*\bvalue\s*=\s*" if field == "crown_zones" else r"value\s*=\s*"
    changed = table[0]
    for before, old, new in (
        (value_stands, r"[-+.\w]+", _number(value)),
        (r"source\s*=\s*", A_STRING, _quoted(source)),
        (r"grade\s*=\s*", A_STRING, _quoted("assumed")),
    ):
        changed, found = re.subn(
            rf"^({before}){old}", r"\g<1>" + _as_it_stands(new), changed, count=1, flags=re.MULTILINE
        )
        if not found:
            raise TiremapError(
                f"The limit {field}.{number} of {path.name} cannot be changed here.",
                "Its value, source and grade stand on a line each; else change the file itself.",
            )
    return text[: table.start()] + changed + text[table.end() :]


def _as_it_stands(text: str) -> str:
    """A replacement in which nothing stands for something else."""
    return text.replace("\\", r"\\")


def _number(value: float) -> str:
    """A number as TOML writes it; a count must not become a decimal."""
    return str(value) if isinstance(value, int) else repr(value)


def _quoted(text: str) -> str:
    """A string as TOML writes it, which for these is as JSON does."""
    return json.dumps(text, ensure_ascii=False)
