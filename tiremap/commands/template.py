"""``tiremap template``: the ground around each head at true scale, as a PDF to print and cut out."""

from pathlib import Path

from tiremap.assess import assess
from tiremap.commands.assess import own_rule_set
from tiremap.errors import TiremapError
from tiremap.render.template import write_template
from tiremap.storage.job_file import read_job


def write_job_template(job: str, output: str, paper: str) -> int:
    """Write the template of a job file; 0. Raises `TiremapError` for a bad job or an output that cannot be written."""
    target = Path(output)
    if target.suffix.lower() != ".pdf":
        raise TiremapError(f"A template cannot be written as {target.name!r}.", "The name ends in .pdf.")
    if not target.parent.is_dir():
        raise TiremapError(f"The folder {str(target.parent)!r} of the template does not exist.")
    opened = read_job(Path(job))
    write_template(assess(opened, own_rule_set(opened)), target, page=paper)
    return 0
