"""``tiremap rules`` where it writes: the shop's own rule sets copied, taken over, changed and shared."""

from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.model.limit_values import limit_at, number_shown, unit_shown, value_typed
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_named
from tiremap.model.rule_set_titles import parent_title
from tiremap.rules.shop_set import looser_than_parent
from tiremap.storage.shop_rule_sets import copy_rule_set, import_rule_set, share_rule_set, write_limit


def copy_set(parent: str, name: str) -> int:
    """Copy a published set as the shop's own; 0. Raises `TiremapError`."""
    path = copy_rule_set(parent, name)
    print(path)
    print(f"A copy of {parent}, answering as it does until a limit is changed. What to do next:")
    print(f"  tiremap rules {name}")
    print(f'  tiremap rules {name} --change LIMIT=VALUE --source "on whose word"')
    print(f"  tiremap assess JOB --rules {name}")
    return 0


def take_set(file: str) -> int:
    """Take over a shared rule set; 0. Raises `TiremapError`."""
    path = import_rule_set(Path(file))
    print(path)
    _tell_where_looser(rule_set_named(path.stem))
    return 0


def share_set(name: str | None, file: str) -> int:
    """Write a copy of a shop's set for another shop; 0. Raises `TiremapError`."""
    path = share_rule_set(_named(name, "--share"), Path(file))
    print(path)
    print(f"Another shop takes it over with: tiremap rules --take {path.name}")
    return 0


def change_limit(name: str | None, change: str, source: str | None) -> int:
    """Change one limit, such as ``tread_depths.0=3``, of a shop's set; 0. Raises `TiremapError`."""
    name = _named(name, "--change")
    key, equals, text = change.partition("=")
    if not equals:
        raise TiremapError(f"{change!r} changes no limit.", "LIMIT=VALUE, such as tread_depths.0=3")
    if source is None:
        raise TiremapError("A changed limit needs a source: on whose word it was changed.", 'Add --source "…".')
    key = key.strip()
    before = limit_at(rule_set_named(name), key)
    field, _, number = key.partition(".")
    changed = write_limit(name, field, int(number), value_typed(before, text), source)
    now = limit_at(changed, key)
    print(f"{key}: {number_shown(before)} -> {number_shown(now)} {unit_shown(now)} [{now.grade}] {now.source}")
    _tell_where_looser(changed)
    return 0


def _named(name: str | None, option: str) -> str:
    if name is None:
        raise TiremapError(f"{option} needs the name of a shop's own rule set.", f"tiremap rules NAME {option} …")
    return name


def _tell_where_looser(rule_set: RuleSet) -> None:
    """Print each limit looser than the parent's: every answer will say so."""
    looser = looser_than_parent(rule_set)
    if looser:
        print(f"Looser than {parent_title(rule_set)}, the set it was copied from; every answer will say so:")
    for sentence in looser:
        print(f"  {sentence}")
