"""``tiremap sheet``: the job sheet as PDF, PNG or SVG."""

from pathlib import Path

from tiremap.assess import assess
from tiremap.commands.assess import own_rule_set
from tiremap.drawing.wording import Unit
from tiremap.errors import TiremapError
from tiremap.render.sheet import write_sheet
from tiremap.storage.job_file import read_job

SUFFIXES = (".pdf", ".png", ".svg")


def write_job_sheet(job: str, output: str, paper: str = "A4", unit: Unit = "mm") -> int:
    """Write the sheet of a job file; 0. Raises `TiremapError` for a bad job or an output that cannot be written."""
    target = Path(output)
    if target.suffix.lower() not in SUFFIXES:
        raise TiremapError(f"A sheet cannot be written as {target.name!r}.", "The name ends in .pdf, .png or .svg.")
    if not target.parent.is_dir():
        raise TiremapError(f"The folder {str(target.parent)!r} of the sheet does not exist.")
    opened = read_job(Path(job))
    write_sheet(assess(opened, own_rule_set(opened)), target, page=paper, unit=unit)
    return 0
