"""Rule sets read from their files; a broken file is refused with file, key and reason."""

import tomllib
from functools import cache
from pathlib import Path

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.rule_set import RuleSet
from tiremap.resources import resource_path


def read_rule_set(path: Path) -> RuleSet:
    """The rule set in a TOML file. Raises `TiremapError` naming the file, the key and the reason."""
    try:
        with path.open("rb") as file:
            rule_set = RuleSet.model_validate(tomllib.load(file))
    except ValidationError as error:
        first = error.errors()[0]
        key = ".".join(str(part) for part in first["loc"]) or "the file"
        raise TiremapError(f"The rule set {path.name} cannot be used: {key}: {first['msg']}.") from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise TiremapError(f"The rule set {path.name} is not readable TOML: {error}.") from None
    if rule_set.name != path.stem:
        raise TiremapError(
            f"The rule set {path.name} cannot be used: name: it says {rule_set.name!r}.",
            f'The name must be the file\'s own: name = "{path.stem}".',
        )
    return rule_set


def rule_set_names() -> tuple[str, ...]:
    """The names of the rule sets that ship with the program, in alphabetical order."""
    return tuple(sorted(path.stem for path in resource_path("rule_sets").glob("*.toml")))


@cache
def rule_set_named(name: str) -> RuleSet:
    """The rule set of that name. Raises `TiremapError` listing the names there are."""
    names = rule_set_names()
    if name not in names:
        raise TiremapError(f"There is no rule set {name!r}.", f"There are: {', '.join(names)}.")
    return read_rule_set(resource_path("rule_sets", f"{name}.toml"))
