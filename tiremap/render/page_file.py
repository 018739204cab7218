"""Pages written to a file as PDF, PNG or SVG at true page size, the same bytes on every run."""

import re
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


def write_pages(
    pages: Callable[[bool], list[Page]], path: Path | str, title: str, *, true_scale: bool = False
) -> None:
    """Write what ``pages(one_page)`` gives, by the suffix of ``path``; a picture is the first page alone.

    With ``true_scale`` a PDF asks the viewer to print it without scaling. Raises `TiremapError` for another suffix, or
    a file that cannot be written.
    """
    target = Path(path)
    suffix = target.suffix.lower()
    if suffix not in (".pdf", ".png", ".svg"):
        raise TiremapError(f"A sheet cannot be written as {target.name!r}.", "The name ends in .pdf, .png or .svg.")
    with rc_context(STABLE):
        made = pages(suffix != ".pdf")
        content = _as_pdf(made, title) if suffix == ".pdf" else _as_picture(made[0], suffix, title)
    if true_scale and suffix == ".pdf":
        content = printed_unscaled(content)
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


def printed_unscaled(pdf: bytes) -> bytes:
    """A PDF whose viewer preferences ask for no scaling when it is printed (ISO 32000-1, 12.2: PrintScaling None).

    The catalog is written anew behind the end, as an incremental update (7.5.6): the bytes before stay as they were.
    """
    trailer = pdf[pdf.rindex(b"trailer") :]
    root, size, info = (_number_in(trailer, rb"/" + key + rb" (\d+)") for key in (b"Root", b"Size", b"Info"))
    pages = _number_in(pdf, rb"\b%d 0 obj\s*<<.*?/Pages (\d+) 0 R" % root)
    before = _number_in(trailer, rb"startxref\s+(\d+)")
    at = len(pdf)
    catalog = b"%d 0 obj\n<< /Type /Catalog /Pages %d 0 R" % (root, pages)
    catalog += b" /ViewerPreferences << /PrintScaling /None >> >>\nendobj\n"
    table = b"xref\n%d 1\n%010d 00000 n \n" % (root, at)
    ends = b"trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /Prev %d >>\n" % (size, root, info, before)
    return pdf + catalog + table + ends + b"startxref\n%d\n%%%%EOF\n" % (at + len(catalog))


def _number_in(pdf: bytes, pattern: bytes) -> int:
    """The number that stands there in every file matplotlib writes."""
    found = re.search(pattern, pdf, re.DOTALL)
    assert found is not None
    return int(found[1])
