"""The one font on paper, and how wide a text is in it. Belongs here: registering, measuring and breaking lines.

Sizes are millimetres unless a name says points. The font is embedded as a subset; its files come with its package.
"""

from __future__ import annotations

from functools import cache
from importlib.resources import as_file, files
from unicodedata import category, normalize

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

REGULAR, BOLD = "FiraSans", "FiraSans-Bold"
MISSING = "\N{WHITE VERTICAL RECTANGLE}"  # what stands for a character the font has no glyph for
MM_PER_POINT = 25.4 / 72
ASCENT, DESCENT = 0.74, 0.22  # of the size: what capitals and tails take above and below the line
_FILES = {REGULAR: "FiraSans-Regular.ttf", BOLD: "FiraSans-Bold.ttf"}


@cache
def register() -> None:
    """Makes both weights known to reportlab, once a process; pages are packed as they are, not spelt out in letters."""
    rl_config.useA85 = 0  # a quarter larger and an eighth slower, for mail programs of the last century
    for name, file in _FILES.items():
        with as_file(files("fontpkg_fira_sans").joinpath("files", file)) as path:
            pdfmetrics.registerFont(TTFont(name, path))


def name(bold: bool) -> str:
    return BOLD if bold else REGULAR


@cache
def missing(text: str) -> tuple[str, ...]:
    """The characters of a text that the font cannot print, each once; marks of direction and such print as nothing."""
    register()
    glyphs = pdfmetrics.getFont(REGULAR).face.charToGlyph
    return tuple(dict.fromkeys(c for c in _visible(text) if ord(c) not in glyphs))


@cache
def printable(text: str) -> str:
    """The text with a visible stand-in for each character that the font has no glyph for."""
    gone = missing(text)
    return "".join(MISSING if c in gone else c for c in _visible(text))


def _visible(text: str) -> str:
    """Composed as far as can be, without what has no shape of its own: control and marks of direction."""
    return "".join(c for c in normalize("NFC", text) if category(c) not in ("Cf", "Cc", "Cs"))


@cache
def width_mm(text: str, size_mm: float, bold: bool = False) -> float:
    """Width of a line of text as it is printed; the same unit as its size."""
    register()
    return float(pdfmetrics.stringWidth(printable(text), name(bold), size_mm))


def width_pt(text: str, size_pt: float, bold: bool = False) -> float:
    """Width in millimetres of a line whose size is given in points."""
    return width_mm(text, size_pt * MM_PER_POINT, bold)


def wrap(text: str, size_pt: float, room_mm: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than `room_mm`; a word that is wider than a line is broken, never cut off."""
    lines: list[str] = []
    line = ""
    for word in filter(None, text.split(" ")):
        joined = f"{line} {word}" if line else word
        if width_pt(joined, size_pt, bold) <= room_mm:
            line = joined
            continue
        if line:
            lines.append(line)
        while width_pt(word, size_pt, bold) > room_mm and len(word) > 1:
            fits = next(n for n in range(len(word), 0, -1) if n == 1 or width_pt(word[:n], size_pt, bold) <= room_mm)
            lines.append(word[:fits])
            word = word[fits:]
        line = word
    return [*lines, line] if line or not lines else lines
