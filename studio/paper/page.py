"""The page: sizes, a pen that writes in millimetres from the upper left, and blocks that flow from page to page.

Nothing shrinks to fit: a block that does not fit goes to the next page, under the running head and its own section's
head. Every page ends with its number, the sitting, the plan and when it was printed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from studio import tongue
from studio.paper import fonts, pdf
from studio.paper.primitives import Drawing
from studio.tongue import gettext as _

SMALL, BODY, ROW, ALERT, AT_ONE_METRE, TIME, ON_A_STAND = 10.5, 12.0, 14.0, 18.0, 20.0, 24.0, 30.0  # points
MARGIN, FOOT_HEIGHT, RUNNING_HEIGHT = 10.0, 7.0, 11.0
TICK_MM, ACTUAL_MM = 6.5, 12.0
RULE, FRAME_RULE, HEAVY = 0.15, 0.3, 0.6
LEADING = 1.22


@dataclass(frozen=True)
class Paper:
    """A sheet of paper in millimetres."""

    width: float
    height: float

    @property
    def inner(self) -> float:
        return self.width - 2 * MARGIN

    @property
    def room(self) -> float:
        """The height for blocks between the upper margin and the foot."""
        return self.height - 2 * MARGIN - FOOT_HEIGHT


A4 = Paper(210.0, 297.0)
LETTER = Paper(215.9, 279.4)
PAPERS = {"a4": A4, "letter": LETTER}  # by the word of the studio's profile


def line_mm(points: float) -> float:
    """The height one line of this size takes."""
    return points * fonts.MM_PER_POINT * LEADING


class Pen:
    """Writes on one canvas; x from the left margin, y from the paper's upper edge, both in millimetres."""

    def __init__(self, canvas: Canvas, paper: Paper) -> None:
        self.canvas, self.paper = canvas, paper
        self.missing: set[str] = set()  # characters of this page that the font could not print

    def text(self, x: float, top: float, words: str, points: float, *, bold: bool = False, align: str = "left") -> None:
        """A line of text whose capitals begin near `top`."""
        y = self.paper.height - top - fonts.ASCENT * points * fonts.MM_PER_POINT - 0.4
        self.canvas.setFont(fonts.name(bold), points)
        put = {"left": self.canvas.drawString, "right": self.canvas.drawRightString}.get(
            align, self.canvas.drawCentredString
        )
        self.missing.update(fonts.missing(words))
        put((MARGIN + x) * mm, y * mm, fonts.printable(words))

    def lines(self, x: float, top: float, lines: Sequence[str], points: float, *, bold: bool = False) -> float:
        """Several lines; returns the height they took."""
        for n, line in enumerate(lines):
            self.text(x, top + n * line_mm(points), line, points, bold=bold)
        return len(lines) * line_mm(points)

    def box(self, x: float, top: float, width: float, height: float, weight: float = FRAME_RULE) -> None:
        self.canvas.setDash()
        self.canvas.setStrokeGray(0)
        self.canvas.setLineWidth(weight * mm)
        self.canvas.rect((MARGIN + x) * mm, (self.paper.height - top - height) * mm, width * mm, height * mm)

    def rule(self, x: float, top: float, width: float, weight: float = RULE) -> None:
        y = (self.paper.height - top) * mm
        self.canvas.setDash()
        self.canvas.setStrokeGray(0)
        self.canvas.setLineWidth(weight * mm)
        self.canvas.line((MARGIN + x) * mm, y, (MARGIN + x + width) * mm, y)

    def line(self, x: float, top: float, to_x: float, to_top: float, weight: float = RULE) -> None:
        """From one point to another."""
        self.canvas.setDash()
        self.canvas.setStrokeGray(0)
        self.canvas.setLineWidth(weight * mm)
        high = self.paper.height
        self.canvas.line((MARGIN + x) * mm, (high - top) * mm, (MARGIN + to_x) * mm, (high - to_top) * mm)

    def squares(self, matrix: Sequence[Sequence[int]], x: float, top: float, side: float) -> None:
        """The dark squares of a code, row by row, runs joined so that no seams show."""
        step = side / len(matrix)
        self.canvas.setFillGray(0)
        for r, row in enumerate(matrix):
            start = 0
            while start < len(row):
                end = start
                while end < len(row) and row[end]:
                    end += 1
                if end > start:
                    self.canvas.rect(
                        (MARGIN + x + start * step) * mm,
                        (self.paper.height - top - (r + 1) * step) * mm,
                        (end - start) * step * mm,
                        step * mm,
                        stroke=0,
                        fill=1,
                    )
                start = end + 1

    def drawing(self, drawing: Drawing, x: float, top: float) -> None:
        self.missing.update(*(fonts.missing(text.text) for text in drawing.texts))
        pdf.put(self.canvas, drawing, MARGIN + x, top, self.paper.height)


@dataclass(frozen=True)
class Block:
    """A piece of a page that is never divided. `head` is put above it again when it opens a new page;
    `with_next` keeps it with what follows; `new_page` ends page one; `blank` is left out where a page ends."""

    height: float
    draw: Callable[[Pen, float], None]
    head: Block | None = None
    with_next: bool = False
    new_page: bool = False
    blank: bool = False


@dataclass(frozen=True)
class Document:
    """A document ready to be written: blocks, the head of every page after the first, and the words of its foot."""

    title: str
    author: str
    blocks: tuple[Block, ...]
    running: str
    foot: str


Placed = list[tuple[Block, float]]


def flow(blocks: Sequence[Block], paper: Paper) -> list[Placed]:
    """Every block with its place, page by page."""
    bottom = paper.height - MARGIN - FOOT_HEIGHT
    pages: list[Placed] = [[]]
    at = MARGIN
    for n, block in enumerate(blocks):
        needed = block.height
        if block.with_next and n + 1 < len(blocks):
            needed += blocks[n + 1].height
        over = at + needed > bottom + 0.01
        if block.blank and over:
            continue
        if pages[-1] and ((block.new_page and len(pages) == 1) or over):
            pages.append([])
            at = MARGIN + RUNNING_HEIGHT
            if block.head is not None:
                pages[-1].append((block.head, at))
                at += block.head.height
        pages[-1].append((block, at))
        at += block.height
    return pages


def write(document: Document, paper: Paper = A4, missing: set[str] | None = None) -> bytes:
    """The document as a PDF; equal content gives equal bytes. `missing` is given what the font could not print."""
    return write_all([document], paper, title=document.title, author=document.author, missing=missing)


def write_all(
    documents: Sequence[Document], paper: Paper = A4, *, title: str, author: str, missing: set[str] | None = None
) -> bytes:
    """Several documents in one file, each with its own pages counted and its own bookmark."""
    fonts.register()
    file = BytesIO()
    canvas = Canvas(
        file, pagesize=(paper.width * mm, paper.height * mm), invariant=1, initialFontName=fonts.REGULAR,
        lang=tongue.language(),
    )  # fmt: skip
    canvas.setTitle(title)
    canvas.setAuthor(author)
    canvas.setCreator("Tenthstop")
    for n, document in enumerate(documents):
        if len(documents) > 1:
            canvas.bookmarkPage(f"document-{n}")
            canvas.addOutlineEntry(document.title, f"document-{n}")
        gone = _pages(canvas, document, paper)
        if missing is not None:
            missing |= gone
    if len(documents) > 1:
        canvas.showOutline()
    canvas.save()
    return file.getvalue()


def _pages(canvas: Canvas, document: Document, paper: Paper) -> set[str]:
    """Draws every page; returns the characters that could not be printed."""
    gone = set[str]()
    pages = flow(document.blocks, paper)
    for number, placed in enumerate(pages, start=1):
        pen = Pen(canvas, paper)
        if number > 1:
            pen.text(0, MARGIN, document.running, ROW, bold=True)
            pen.rule(0, MARGIN + RUNNING_HEIGHT - 3.2, paper.inner, FRAME_RULE)
        for block, top in placed:
            block.draw(pen, top)
        _foot(pen, document.foot, _("page {n} of {of}").format(n=number, of=len(pages)))
        canvas.showPage()
        gone |= pen.missing
    return gone


def _foot(pen: Pen, words: str, page: str) -> None:
    """What it belongs to and which page it is; and what of this page the font could not print."""
    paper = pen.paper
    low = paper.height - MARGIN - FOOT_HEIGHT + 2.0
    if pen.missing:
        codes = ", ".join(f"U+{ord(c):04X}" for c in sorted(pen.missing))
        words += "   " + _("{mark} stands for {codes}").format(mark=fonts.MISSING, codes=codes)
    room = paper.inner - fonts.width_pt(page, SMALL, True) - 4.0
    pen.rule(0, low - 0.6, paper.inner)
    pen.text(0, low, fitted(words, SMALL, room)[0], SMALL)
    pen.text(paper.inner, low, page, SMALL, bold=True, align="right")


def space(height: float) -> Block:
    """White between two blocks."""
    return Block(height, lambda pen, top: None, blank=True)


def section(words: str, paper: Paper = A4) -> Block:
    """The head of a section, over a rule."""

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top + 0.3, paper.inner, HEAVY)
        pen.text(0, top + 1.6, words, ROW, bold=True)

    return Block(8.6, draw, with_next=True)


def fitted(words: str, points: float, room_mm: float, bold: bool = False) -> list[str]:
    """A text in lines that fit; at least one line."""
    return fonts.wrap(words, points, room_mm, bold) or [""]
