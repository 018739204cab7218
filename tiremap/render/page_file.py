"""Pages written to a file as PDF, PNG or SVG at true page size, the same bytes on every run."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

from matplotlib import rc_context
from matplotlib.backends.backend_pdf import PdfPages

from tiremap.errors import TiremapError
from tiremap.render.page import Page

PNG_DPI = 200
STABLE = {"pdf.fonttype": 42, "svg.fonttype": "none", "svg.hashsalt": "tiremap", "path.simplify": False}
"""Text stays text in PDF and SVG; nothing depends on the run."""


def write_pages(pages: Callable[[bool], list[Page]], path: Path | str, title: str) -> None:
    """Write what ``pages(one_page)`` gives, by the suffix of ``path``; a picture is the first page alone.

    Raises `TiremapError` for another suffix, or a file that cannot be written.
    """
    target = Path(path)
    suffix = target.suffix.lower()
    if suffix not in (".pdf", ".png", ".svg"):
        raise TiremapError(f"A sheet cannot be written as {target.name!r}.", "The name ends in .pdf, .png or .svg.")
    with rc_context(STABLE):
        made = pages(suffix != ".pdf")
        content = _as_pdf(made, title) if suffix == ".pdf" else _as_picture(made[0], suffix, title)
    try:
        target.write_bytes(content)
    except OSError as error:
        raise TiremapError(f"The sheet {target.name!r} cannot be written: {error.strerror}.") from error


def _as_pdf(pages: list[Page], title: str) -> bytes:
    buffer = BytesIO()
    facts = {"Title": title, "Creator": "Tiremap", "Producer": "Tiremap", "CreationDate": None, "ModDate": None}
    with PdfPages(buffer, metadata=facts) as pdf:
        for page in pages:
            pdf.savefig(page.figure)
    return buffer.getvalue()


def _as_picture(page: Page, suffix: str, title: str) -> bytes:
    buffer = BytesIO()
    if suffix == ".png":
        page.figure.savefig(buffer, format="png", dpi=PNG_DPI, metadata={"Software": None, "Title": title})
    else:
        page.figure.savefig(buffer, format="svg", metadata={"Date": None, "Creator": "Tiremap", "Title": title})
    return buffer.getvalue()
