"""The command line: reads the arguments and hands them to one command each.

Every command imports what it needs when it runs, so that ``--help`` loads neither Qt, matplotlib nor Shapely.
"""

import argparse
import sys
from pathlib import Path

from tiremap import __version__
from tiremap.errors import TiremapError
from tiremap.model.cautions import short_caution

COMMANDS = ("section", "assess", "sheet", "rules", "register")
BAD_INPUT = 2
"""Exit code where any input was bad."""


def parser() -> argparse.ArgumentParser:
    """The parser of the commands; opening the window takes none."""
    top = argparse.ArgumentParser(
        prog="tiremap",
        description="Whether a tire puncture may be repaired, by which published rule, and by what margin.",
        usage="tiremap [JOB] | tiremap {section,assess,sheet,rules,register} ...",
        epilog=f"tiremap [JOB] opens the window, on a job file if one is given. {short_caution()}",
    )
    top.add_argument("--version", action="version", version=f"tiremap {__version__}")
    commands = top.add_subparsers(dest="command", metavar="{section,assess,sheet,rules,register}")

    section = commands.add_parser("section", help="dimensions of size codes, one object per line")
    section.add_argument("sizes", nargs="+", metavar="SIZE", help="a size code, such as 205/55R16")
    section.add_argument("--json", action="store_true", help="print one JSON object per line")

    assess = commands.add_parser("assess", help="the answer for each job")
    assess.add_argument("jobs", nargs="+", metavar="JOB", help="a job file")
    assess.add_argument("--rules", metavar="NAME|all", help="another rule set than the job's own, or all of them")
    assess.add_argument("--json", action="store_true", help="print one JSON object per line")

    sheet = commands.add_parser("sheet", help="the job sheet: drawings, answer, reasons, cautions")
    sheet.add_argument("job", metavar="JOB", help="a job file")
    sheet.add_argument("-o", "--output", required=True, metavar="FILE", help="FILE.pdf, FILE.png or FILE.svg")

    rules = commands.add_parser("rules", help="every limit with its source; the shop's own rule sets")
    rules.add_argument("name", nargs="?", metavar="NAME", help="one rule set; without it, all of them")
    what = rules.add_mutually_exclusive_group()
    what.add_argument("--copy", nargs=2, metavar=("PARENT", "NEW"), help="copy a published set as the shop's own")
    what.add_argument("--take", metavar="FILE", help="take over a rule set another shop shared")
    what.add_argument("--change", metavar="LIMIT=VALUE", help="change one limit of the shop's own set NAME")
    what.add_argument("--share", metavar="FILE", help="write a copy of the shop's own set NAME for another shop")
    rules.add_argument("--source", metavar="TEXT", help="on whose word a limit is changed")

    register = commands.add_parser("register", help="the jobs of a folder: answers, counts, search, CSV")
    register.add_argument("folder", metavar="FOLDER", help="a folder of job files, also in subfolders")
    register.add_argument("--csv", metavar="FILE", help="also write the rows to a new CSV file")
    register.add_argument("--find", metavar="WORDS", default="", help="only jobs in which every word is found")
    register.add_argument("--json", action="store_true", help="print one JSON object per line")
    return top


def run(arguments: list[str]) -> int:
    """Run one command; the exit code. ``arguments`` are without the program's name."""
    if not arguments or (arguments[0] not in COMMANDS and not arguments[0].startswith("-")):
        return _open_window(arguments)
    chosen = parser().parse_args(arguments)
    try:
        if chosen.command == "section":
            from tiremap.commands.section import print_sections

            return print_sections(chosen.sizes, as_json=chosen.json)
        if chosen.command == "assess":
            from tiremap.commands.assess import print_answers

            return print_answers(chosen.jobs, chosen.rules, as_json=chosen.json)
        if chosen.command == "rules":
            return _rules(chosen)
        if chosen.command == "register":
            from tiremap.commands.register import print_register

            return print_register(chosen.folder, chosen.csv, chosen.find, as_json=chosen.json)
        from tiremap.commands.sheet import write_job_sheet

        return write_job_sheet(chosen.job, chosen.output)
    except TiremapError as error:
        print(f"tiremap: {error}", file=sys.stderr)
        return BAD_INPUT


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

        return run_window(Path(job) if job else None)
    print(f"tiremap: {needs}", file=sys.stderr)
    if job is None:
        return BAD_INPUT
    from tiremap.commands.assess import print_answers

    return print_answers([job], None, as_json=False)
