"""The command line: reads the arguments and hands them to one command each.

Every command imports what it needs when it runs, so that ``--help`` loads neither Qt, matplotlib nor Shapely.
"""

import argparse
import sys
from pathlib import Path

from tiremap.arguments import COMMANDS, parser
from tiremap.errors import TiremapError

BAD_INPUT = 2
"""Exit code where any input was bad."""


def run(arguments: list[str]) -> int:
    """Run one command; the exit code. ``arguments`` are without the program's name."""
    if not arguments or (arguments[0] not in COMMANDS and not arguments[0].startswith("-")):
        return _open_window(arguments)
    chosen = parser().parse_args(arguments)
    try:
        return RUN[chosen.command](chosen)
    except TiremapError as error:
        print(f"tiremap: {error}", file=sys.stderr)
        return BAD_INPUT


def _section(chosen: argparse.Namespace) -> int:
    from tiremap.commands.section import print_sections

    return print_sections(chosen.sizes, as_json=chosen.json)


def _assess(chosen: argparse.Namespace) -> int:
    from tiremap.commands.assess import print_answers

    return print_answers(chosen.jobs, chosen.rules, as_json=chosen.json)


def _sheet(chosen: argparse.Namespace) -> int:
    from tiremap.commands.sheet import write_job_sheet

    return write_job_sheet(chosen.job, chosen.output, chosen.paper, chosen.units)


def _template(chosen: argparse.Namespace) -> int:
    from tiremap.commands.template import write_job_template

    return write_job_template(chosen.job, chosen.output, chosen.paper)


def _steps(chosen: argparse.Namespace) -> int:
    from tiremap.commands.steps import print_steps

    return print_steps(chosen.job, as_json=chosen.json)


def _leak(chosen: argparse.Namespace) -> int:
    from tiremap.commands.leak import print_leak

    return print_leak(
        chosen.size, chosen.volume_l, chosen.before, chosen.after, chosen.hours, chosen.before_temp,
        chosen.after_temp, as_json=chosen.json,
    )


def _refit(chosen: argparse.Namespace) -> int:
    from tiremap.commands.refit import print_refit

    return print_refit(chosen.nuts, chosen.thread, chosen.stud_class, chosen.torque_nm, as_json=chosen.json)


def _register(chosen: argparse.Namespace) -> int:
    from tiremap.commands.register import print_register

    return print_register(chosen.folder, chosen.csv, chosen.find, as_json=chosen.json)


def _lesson(chosen: argparse.Namespace) -> int:
    from tiremap.commands.lesson import check_lesson

    return check_lesson(chosen.file, chosen.pictures)


def _rules(chosen: argparse.Namespace) -> int:
    """List the rule sets, or do the one thing asked with the shop's own."""
    if chosen.name is not None and (chosen.copy is not None or chosen.take is not None):
        raise TiremapError(f"{chosen.name!r} is one name too many.", "--copy and --take name all they need.")
    if chosen.source is not None and chosen.change is None:
        raise TiremapError("--source says on whose word a limit is changed.", "Add --change LIMIT=VALUE.")
    from tiremap.commands import shop_rules

    if chosen.copy is not None:
        return shop_rules.copy_set(*chosen.copy)
    if chosen.take is not None:
        return shop_rules.take_set(chosen.take)
    if chosen.change is not None:
        return shop_rules.change_limit(chosen.name, chosen.change, chosen.source)
    if chosen.share is not None:
        return shop_rules.share_set(chosen.name, chosen.share)
    from tiremap.commands.rules import print_rules

    return print_rules(chosen.name)


def _open_window(arguments: list[str]) -> int:
    """Open the window on a job, or without one; where there is no display, print the answer instead."""
    if len(arguments) > 1:
        print(
            f"tiremap: one job can be opened at a time, and {len(arguments)} were given. "
            f"To answer several: tiremap assess {' '.join(arguments)}",
            file=sys.stderr,
        )
        return BAD_INPUT
    from tiremap.display import window_needs

    job = arguments[0] if arguments else None
    needs = window_needs()
    if needs is None:
        from tiremap.app import run as run_window

        code: int = run_window(Path(job) if job else None)  # the window's modules are not checked
        return code
    print(f"tiremap: {needs}", file=sys.stderr)
    if job is None:
        return BAD_INPUT
    from tiremap.commands.assess import print_answers

    return print_answers([job], None, as_json=False)


RUN = {
    "section": _section,
    "assess": _assess,
    "sheet": _sheet,
    "template": _template,
    "steps": _steps,
    "leak": _leak,
    "refit": _refit,
    "rules": _rules,
    "register": _register,
    "lesson": _lesson,
}
"""What each command of `tiremap.arguments` does; each imports what it needs when it runs."""
