"""Rule sets read from their files: the seven published ones that ship, and the shop's own in its settings folder.

A broken file is refused with file, key and reason; the others still work.
"""

import os.path
from functools import cache, lru_cache
from pathlib import Path

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.looser import beyond_the_loosest
from tiremap.model.rule_set import RuleSet, Sourced
from tiremap.model.toml_text import bounded_bytes, toml_from_bytes
from tiremap.model.wording import in_words, shown
from tiremap.resources import read_toml, resource_path, shop_rule_sets_folder

EVERY_SET = "all"
"""What is typed in place of a name to ask every rule set; no set may be called so."""
_EXAMPLE = f"Compare it with a published one, such as {resource_path('rule_sets', 'japan.toml')}."


def read_rule_set(path: Path) -> RuleSet:
    """The rule set in a TOML file. Raises `TiremapError` naming the file, the key and the reason."""
    return rule_set_from_bytes(rule_set_bytes(path), path)


def rule_set_bytes(path: Path) -> bytes:
    """What a rule set's file holds. Raises `TiremapError` for what is no file, too large or not to be read."""
    return bounded_bytes(path, read_toml("storage.toml")["rule_set_file"]["largest_bytes"], f"The rule set {path}")


def rule_set_from_bytes(data: bytes, path: Path) -> RuleSet:
    """The rule set in the bytes of the file at ``path``. Raises `TiremapError` naming file, key and reason."""
    try:
        rule_set = RuleSet.model_validate(toml_from_bytes(data, f"The rule set {path.name}", _EXAMPLE))
    except ValidationError as error:
        fault = in_words(error, dotted=True)
        raise _cannot_be_used(path, fault.what.removesuffix("."), f"{fault.right} {_EXAMPLE}".strip()) from None
    if rule_set.name != path.stem:
        raise _cannot_be_used(
            path, f"name: it says {shown(rule_set.name)}", f'The name must be the file\'s own: name = "{path.stem}".'
        )
    return rule_set


def read_shop_rule_set(path: Path) -> RuleSet:
    """A shop's own rule set.

    Raises `TiremapError` as `read_rule_set` does, and for a set that has the name of a published one, names none of
    them as its parent, or is looser than the loosest of them.
    """
    rule_set = read_rule_set(path)
    published = published_rule_set_names()
    if rule_set.name.casefold() in (*published, EVERY_SET):
        raise _cannot_be_used(
            path, f"name: {rule_set.name!r} is taken by the program", "Give the file and its name another one."
        )
    if rule_set.parent not in published:
        says = "it is missing" if rule_set.parent is None else f"there is no published set {shown(rule_set.parent)}"
        raise _cannot_be_used(
            path, f"parent: {says}", f"It names the set it was copied from, one of: {', '.join(published)}."
        )
    others = _published()
    wrong_way = _says_the_wrong_way(rule_set, others) or beyond_the_loosest(rule_set, others)
    if wrong_way:
        raise _cannot_be_used(path, wrong_way)
    return rule_set


@cache
def published_rule_set_names() -> tuple[str, ...]:
    """The names of the rule sets that ship with the program, in alphabetical order."""
    return tuple(sorted(path.stem for path in resource_path("rule_sets").glob("*.toml")))


def rule_set_names() -> tuple[str, ...]:
    """The names of all rule sets that can be used: the published ones, then the shop's own, each by alphabet."""
    return published_rule_set_names() + tuple(path.stem for path, wrong in _shop_files() if not wrong)


def usable_rule_sets() -> tuple[RuleSet, ...]:
    """All rule sets that can be used, in the order of `rule_set_names`; a broken one is left out."""
    return (*_published(), *(rule_set for path, _ in _shop_files() if (rule_set := rule_set_or_why(path.stem)[0])))


def shop_files_as_they_stand() -> tuple[tuple[str, int, int], ...]:
    """Name, time of the last change and size of each shop's file: equal while none was touched."""
    return tuple((path.name, *_stands(path)) for path in sorted(shop_rule_sets_folder().glob("*.toml")))


def broken_rule_sets() -> list[tuple[Path, str]]:
    """The shop's rule sets that cannot be used, each with file, key and reason in words."""
    return [(path, wrong) for path, wrong in _shop_files() if wrong]


def rule_set_path(name: str) -> Path:
    """The file of the rule set of that name, which need not exist for a shop's own."""
    if name in published_rule_set_names():
        return resource_path("rule_sets", f"{name}.toml")
    return shop_rule_sets_folder() / f"{name}.toml"


def rule_set_named(name: str) -> RuleSet:
    """The rule set of that name, read again when its file has changed.

    Raises `TiremapError` listing the names there are, or saying what is wrong with a shop's own.
    """
    path = rule_set_path(name)
    published = name in published_rule_set_names()
    if not published and (name != Path(name).name or not os.path.isfile(path)):  # unlike Path.is_file, never an error
        raise TiremapError(f"There is no rule set {shown(name)}.", f"There are: {', '.join(rule_set_names())}.")
    return _as_it_stands(path)


def rule_set_or_why(name: str) -> tuple[RuleSet | None, str]:
    """The rule set of that name, or ``None`` and in words why it cannot be read."""
    try:
        return rule_set_named(name), ""
    except TiremapError as error:
        return None, str(error)


def _as_it_stands(path: Path) -> RuleSet:
    try:
        file = path.stat()
    except OSError as error:
        raise TiremapError(f"The rule set {path} cannot be read: {error.strerror}.") from None
    return _read_once(path, file.st_mtime_ns, file.st_size)


@lru_cache(maxsize=64)
def _read_once(path: Path, changed_ns: int, size: int) -> RuleSet:
    """The rule set in a file as it was last changed; a broken one is read anew each time."""
    return read_rule_set(path) if path.parent == resource_path("rule_sets") else read_shop_rule_set(path)


def _published() -> list[RuleSet]:
    return [rule_set_named(name) for name in published_rule_set_names()]


def _shop_files() -> list[tuple[Path, str]]:
    """The files of the shop's own rule sets, each with what is wrong with it: empty where nothing is."""
    return [(path, _wrong_with(path)) for path in sorted(shop_rule_sets_folder().glob("*.toml"))]


def _stands(path: Path) -> tuple[int, int]:
    try:
        file = path.stat()
    except OSError:  # gone since the folder was listed, or not to be looked at
        return 0, 0
    return file.st_mtime_ns, file.st_size


def _wrong_with(path: Path) -> str:
    try:
        _as_it_stands(path)
    except TiremapError as error:
        return str(error)
    return ""


def _says_the_wrong_way(rule_set: RuleSet, others: list[RuleSet]) -> str:
    """The first limit that calls another way tighter than the published sets do; empty where none does."""
    known = {_kind(key, limit): limit.tighter for other in others for key, limit in _limits(other)}
    for key, limit in _limits(rule_set):
        tighter = known.get(_kind(key, limit), limit.tighter)
        if limit.tighter != tighter:
            return f"{key}.tighter: it says {limit.tighter!r}, and this limit is tighter the way {tighter!r} says"
    return ""


def _limits(rule_set: RuleSet) -> list[tuple[str, Sourced]]:
    fields = ((field, value) for field, value in rule_set if isinstance(value, tuple))
    return [(f"{field}.{number}", limit) for field, value in fields for number, limit in enumerate(value)]


def _kind(key: str, limit: Sourced) -> tuple[str, str]:
    """What makes limits comparable: their field and, for a crown zone, how its inner edge is measured."""
    edge = getattr(limit, "edge", None)
    return key.partition(".")[0], "" if edge is None else edge.kind


def _cannot_be_used(path: Path, why: str, right: str = "") -> TiremapError:
    return TiremapError(f"The rule set {path.name} cannot be used: {why}.", right)
