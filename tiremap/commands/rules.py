"""``tiremap rules``: every limit of one or all rule sets, with its source and how good that source is."""

import shutil
import sys
from collections.abc import Iterator
from textwrap import wrap

from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import broken_rule_sets, rule_set_named, usable_rule_sets
from tiremap.model.rule_set_titles import parent_title
from tiremap.model.rule_set_words import limit_lines

_NARROWEST, _WIDEST = 60, 110
"""Characters in a line, however narrow or wide the terminal is."""


def print_rules(name: str | None) -> int:
    """Print the limits of the rule set of that name, or of all; 0. Raises `TiremapError` for a name there is not.

    With all, a shop's own that cannot be used is told on standard error with file, key and reason.
    """
    sets = usable_rule_sets() if name is None else [rule_set_named(name)]
    wide = max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size().columns))
    print("\n\n".join("\n".join(in_words(rule_set, wide)) for rule_set in sets))
    for path, wrong in broken_rule_sets() if name is None else ():
        print(f"tiremap rules: {path}: {wrong}", file=sys.stderr)
    return 0


def in_words(rule_set: RuleSet, wide: int) -> Iterator[str]:
    """A rule set as lines of at most ``wide`` characters: its head, then every limit under what it is about."""
    yield f"{rule_set.title} ({rule_set.name})"
    if rule_set.parent is not None:
        yield from _wrapped(f"The shop's own, copied from: {parent_title(rule_set)} ({rule_set.parent})", "  ", wide)
    yield from _wrapped(f"Issuer: {rule_set.issuer}", "  ", wide)
    yield from _wrapped(f"Who decides: {rule_set.deciding}", "  ", wide)
    about = ""
    for line in limit_lines(rule_set):
        if line.about != about:
            about = line.about
            yield f"  {about}"
        yield from _wrapped(f"{line.key}  {line.tires}: {line.asks}", "    ", wide)
        yield from _wrapped(line.on_whose_word, "      ", wide)


def _wrapped(text: str, indent: str, wide: int) -> list[str]:
    return wrap(
        text, wide, initial_indent=indent, subsequent_indent=indent + "  ", break_long_words=False,
        break_on_hyphens=False,
    )
