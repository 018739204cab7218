"""What the command line takes: one function for each command, read by `tiremap.cli`.

Nothing heavy is imported here, so that ``--help`` loads neither Qt, matplotlib nor Shapely.
"""

import argparse
from typing import Any

from tiremap import __version__
from tiremap.model.cautions import short_caution


def parser() -> argparse.ArgumentParser:
    """The parser of the commands; opening the window takes none."""
    names = ",".join(COMMANDS)
    top = argparse.ArgumentParser(
        prog="tiremap",
        description="Whether a tire puncture may be repaired, by which published rule, and by what margin.",
        usage=f"tiremap [JOB] | tiremap {{{names}}} ...",
        epilog=f"tiremap [JOB] opens the window, on a job file if one is given. {short_caution()}",
    )
    top.add_argument("--version", action="version", version=f"tiremap {__version__}")
    commands = top.add_subparsers(dest="command", metavar=f"{{{names}}}")
    for add in COMMANDS.values():
        add(commands)
    return top


def _section(commands: Any) -> None:
    section = commands.add_parser("section", help="dimensions of size codes, one object per line")
    section.add_argument("sizes", nargs="+", metavar="SIZE", help="a size code, such as 205/55R16")
    section.add_argument("--json", action="store_true", help="print one JSON object per line")


def _assess(commands: Any) -> None:
    assess = commands.add_parser("assess", help="the answer for each job")
    assess.add_argument("jobs", nargs="+", metavar="JOB", help="a job file")
    assess.add_argument("--rules", metavar="NAME|all", help="another rule set than the job's own, or all of them")
    assess.add_argument("--json", action="store_true", help="print one JSON object per line")


def _sheet(commands: Any) -> None:
    sheet = commands.add_parser("sheet", help="the job sheet: drawings, answer, reasons, cautions")
    sheet.add_argument("job", metavar="JOB", help="a job file")
    sheet.add_argument("-o", "--output", required=True, metavar="FILE", help="FILE.pdf, FILE.png or FILE.svg")
    sheet.add_argument("--units", choices=("mm", "in"), default="mm", help="the unit lengths are written in")
    _paper(sheet)


def _template(commands: Any) -> None:
    template = commands.add_parser("template", help="buffed outlines at true scale, to print and cut out")
    template.add_argument("job", metavar="JOB", help="a job file")
    template.add_argument("-o", "--output", required=True, metavar="FILE", help="FILE.pdf")
    _paper(template)


def _paper(command: argparse.ArgumentParser) -> None:
    command.add_argument("--paper", choices=("A4", "Letter"), default="A4", help="the paper it is printed on")


def _steps(commands: Any) -> None:
    steps = commands.add_parser("steps", help="the work on one tire, step by step, with its dimensions")
    steps.add_argument("job", metavar="JOB", help="a job file")
    steps.add_argument("--json", action="store_true", help="print one JSON object")


def _leak(commands: Any) -> None:
    leak = commands.add_parser("leak", help="what two pressures, hours apart, say of a tire")
    air = leak.add_mutually_exclusive_group(required=True)
    air.add_argument("--size", metavar="SIZE", help="a size code: its air volume is worked out from the section")
    air.add_argument("--volume-l", type=float, metavar="V", help="liters of air in the tire")
    leak.add_argument("--before", required=True, metavar="P", help="first gauge pressure: '33 psi', '230 kPa'")
    leak.add_argument("--after", required=True, metavar="P", help="second gauge pressure")
    leak.add_argument("--hours", required=True, type=float, metavar="H", help="hours between the two")
    leak.add_argument("--before-temp", metavar="T", help="temperature at the first, such as '20 C' or '68 F'")
    leak.add_argument("--after-temp", metavar="T", help="temperature at the second")
    leak.add_argument("--json", action="store_true", help="print one JSON object")


def _refit(commands: Any) -> None:
    refit = commands.add_parser("refit", help="how the wheel goes back on: order, torque, studs, cautions")
    refit.add_argument("--nuts", required=True, type=int, metavar="N", help="nuts of the wheel: 4, 5, 6, 8 or 10")
    refit.add_argument("--thread", metavar="T", help="the thread of the studs, such as M12x1.5")
    refit.add_argument("--stud-class", metavar="C", help="property class of the studs, such as 10.9")
    refit.add_argument("--torque-nm", type=float, metavar="X", help="the vehicle's own torque, N.m")
    refit.add_argument("--json", action="store_true", help="print one JSON object")


def _rules(commands: Any) -> None:
    rules = commands.add_parser("rules", help="every limit with its source; the shop's own rule sets")
    rules.add_argument("name", nargs="?", metavar="NAME", help="one rule set; without it, all of them")
    what = rules.add_mutually_exclusive_group()
    what.add_argument("--copy", nargs=2, metavar=("PARENT", "NEW"), help="copy a published set as the shop's own")
    what.add_argument("--take", metavar="FILE", help="take over a rule set another shop shared")
    what.add_argument("--change", metavar="LIMIT=VALUE", help="change one limit of the shop's own set NAME")
    what.add_argument("--share", metavar="FILE", help="write a copy of the shop's own set NAME for another shop")
    rules.add_argument("--source", metavar="TEXT", help="on whose word a limit is changed")


def _register(commands: Any) -> None:
    register = commands.add_parser("register", help="the jobs of a folder: answers, counts, search, CSV")
    register.add_argument("folder", metavar="FOLDER", help="a folder of job files, also in subfolders")
    register.add_argument("--csv", metavar="FILE", help="also write the rows to a new CSV file")
    register.add_argument("--find", metavar="WORDS", default="", help="only jobs in which every word is found")
    register.add_argument("--json", action="store_true", help="print one JSON object per line")


def _lesson(commands: Any) -> None:
    lesson = commands.add_parser("lesson", help="check a lesson for a class, and write its steps as pictures")
    lesson.add_argument("file", metavar="FILE", help="a lesson, or the name of one that ships")
    lesson.add_argument("--pictures", metavar="FOLDER", help="write each step there as a PNG")


COMMANDS = {
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
"""Every command by its name, in the order a job meets them."""
