"""A printed page: one figure of exact size with its own millimeters, y downward from the top edge."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
from matplotlib.text import Text
from matplotlib.textpath import text_to_path
from matplotlib.transforms import Affine2D, ScaledTranslation

from tiremap.drawing.scene import SymbolKind
from tiremap.errors import TiremapError
from tiremap.model.units import MM_PER_INCH
from tiremap.render.artists import FACE, symbol_patch
from tiremap.render.palettes import POINTS_PER_MM, palette
from tiremap.render.symbols import symbol_parts
from tiremap.resources import read_toml

PAGES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Width and height, mm: ISO 216 and ANSI Y14.1."""
SMALL, TITLE = 1.8, 3.5
"""Cap heights, mm (ISO 3098 steps)."""
LINE = 1.75
"""From one line of text to the next, in cap heights."""


@dataclass(frozen=True)
class Type:
    """Cap height in mm, weight, and the palette's name of the color."""

    cap: float = SMALL
    bold: bool = False
    color: str = "ink"

    @property
    def points(self) -> float:
        """Font size, points."""
        share: float = read_toml("drawing", "styles.toml")["metrics"]["cap_height_of_size"]
        return self.cap / share * POINTS_PER_MM

    @property
    def line(self) -> float:
        """From one line to the next, mm."""
        return self.cap * LINE


PLAIN, BOLD, QUIET = Type(), Type(bold=True), Type(color="quiet")


class Page:
    """One page to write on. Places in mm from the upper left corner; text stands on its baseline."""

    def __init__(self, page: str | tuple[float, float], palette_name: str = "light") -> None:
        """``page`` names a paper, or is a width and height in mm."""
        if isinstance(page, str) and page not in PAGES:
            raise TiremapError(f"There is no page size {page!r}.", f"Use one of {', '.join(PAGES)}.")
        self.width, self.height = PAGES[page] if isinstance(page, str) else page
        self.colors = {**palette(palette_name), "on_yellow": palette("light")["ink"]}
        self.figure = Figure(figsize=(self.width / MM_PER_INCH, self.height / MM_PER_INCH))
        FigureCanvasAgg(self.figure)
        self.sheet = self.figure.add_axes((0, 0, 1, 1))
        self.sheet.set_axis_off()
        self.sheet.set_xlim(0, self.width)
        self.sheet.set_ylim(self.height, 0)

    def axes(self, x: float, y: float, width: float, height: float) -> Axes:
        """Axes for a drawing in the box whose upper left corner is (x, y)."""
        return self.figure.add_axes((x / self.width, 1 - (y + height) / self.height,
                                     width / self.width, height / self.height))

    def line_of_text(self, x: float, y: float, text: str, type: Type = PLAIN, right: bool = False) -> None:
        """One line on its baseline, from x to the right, or ending at x; signs that do not print leave a space."""
        written = Text(
            x, y, _printed(text), fontsize=type.points, fontfamily=FACE, fontweight="bold" if type.bold else "normal",
            color=self.colors[type.color], horizontalalignment="right" if right else "left",
            verticalalignment="baseline", parse_math=False,
        )
        self.sheet.add_artist(written)

    def text(self, x: float, y: float, lines: Iterable[str], type: Type = PLAIN) -> float:
        """Lines of text under the height ``y``; gives the height below them."""
        for line in lines:
            self.line_of_text(x, y + type.cap * 1.25, line, type)
            y += type.line
        return y

    def rule(self, x: float, y: float, x_end: float, color: str = "faint", weight: float = 0.18) -> None:
        """A level line."""
        line = Line2D([x, x_end], [y, y], color=self.colors[color], linewidth=weight * POINTS_PER_MM)
        self.sheet.add_artist(line)

    def box(
        self, x: float, y: float, width: float, height: float, color: str = "ink", weight: float = 0.25,
        hatch: str | None = None, dashed: bool = False,
    ) -> None:
        """An empty box with its upper left corner at (x, y)."""
        patch = Rectangle(
            (x, y), width, height, facecolor="none", edgecolor=self.colors[color], linewidth=weight * POINTS_PER_MM,
            hatch=hatch, linestyle=(0, (3, 2)) if dashed else "solid",
        )
        patch.set_hatch_linewidth(0.18 * POINTS_PER_MM)
        self.sheet.add_artist(patch)

    def filled(self, x: float, y: float, width: float, height: float, color: str) -> None:
        """A box filled with a color."""
        self.sheet.add_artist(Rectangle((x, y), width, height, facecolor=self.colors[color], linewidth=0))

    def symbol(self, x: float, y: float, kind: SymbolKind, size: float) -> None:
        """A symbol with its middle at (x, y), ``size`` times as large as in a drawing."""
        place = ScaledTranslation(x, y, self.sheet.transData)  # type: ignore[arg-type]  # it is affine
        to_figure = Affine2D().scale(size / MM_PER_INCH) + self.figure.dpi_scale_trans + place
        for part in symbol_parts(kind):
            dashes = None if part.dashes is None else tuple(size * each for each in part.dashes)
            grown = replace(part, weight=part.weight * size, dashes=dashes)
            self.sheet.add_artist(symbol_patch(grown, self.colors, to_figure))


def width_of(text: str, type: Type = PLAIN) -> float:
    """Width of one line as it is set, mm; kerning left out."""
    return type.points / POINTS_PER_MM * sum(_advance(letter, type.bold) for letter in text)


@lru_cache(maxsize=1024)
def _advance(letter: str, bold: bool) -> float:
    """How far one letter carries the pen, in font sizes."""
    font = FontProperties(family=FACE, size=_SAMPLE, weight="bold" if bold else "normal")
    pair = text_to_path.get_text_width_height_descent(f"n{letter}n", font, False)[0]
    return (pair - text_to_path.get_text_width_height_descent("nn", font, False)[0]) / _SAMPLE


_SAMPLE = 100.0
"""Font size letters are measured at, points."""


def wrapped(text: str, width: float, type: Type = PLAIN) -> list[str]:
    """The text in lines of at most ``width`` mm; a word that is longer by itself is broken."""
    lines: list[str] = []
    for word in _printed(text).split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, type) <= width:
            lines[-1] = longer
            continue
        pieces = _pieces(word, width, type)
        lines += pieces
    return lines


def _printed(text: str) -> str:
    return "".join(sign if sign.isprintable() else " " for sign in text)


def _pieces(word: str, width: float, type: Type) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_of(pieces[-1] + letter, type) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces
