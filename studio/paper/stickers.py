"""Sheets of stickers: grids as data, and a PDF of labels with a code, a word in bold and a line. Belongs here: where
each sticker lies and what is drawn on it. Not here: what they are stuck on.

The grids are sizes common in the trade (common practice, no source), in millimetres: a sheet that lies otherwise is
one more row of `GRIDS`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from studio import tongue
from studio.paper import fonts
from studio.paper.codes import squares
from studio.paper.page import A4, LETTER, MARGIN, Paper, Pen, fitted, line_mm

EDGE = 2.0  # left white around what is printed: printers and punches are a little off
GAP = 2.0
MOST_QR_MM = 30.0
CODE_POINTS, NAME_POINTS = (14.0, 12.0, 10.0, 8.0, 7.0, 6.0), 8.0


@dataclass(frozen=True)
class Grid:
    """How stickers lie on a sheet: the first one's corner from the sheet's upper left, their size, and the way from one
    to the next."""

    paper: Paper
    across: int
    down: int
    width: float
    height: float
    left: float
    top: float
    step_x: float
    step_y: float

    @property
    def count(self) -> int:
        return self.across * self.down

    def corner(self, place: int) -> tuple[float, float]:
        """The upper left corner of a sticker, places counted from 0 along the rows."""
        row, column = divmod(place, self.across)
        return self.left + column * self.step_x, self.top + row * self.step_y


def _inches(across: int, down: int, width: float, height: float, left: float, top: float, step_x: float) -> Grid:
    inch = 25.4
    high = height * inch
    return Grid(LETTER, across, down, width * inch, high, left * inch, top * inch, step_x * inch, high)


GRIDS: dict[str, Grid] = {
    "a4-24": Grid(A4, 3, 8, 70.0, 37.0, 0.0, 0.5, 70.0, 37.0),
    "a4-21": Grid(A4, 3, 7, 63.5, 38.1, 7.25, 15.15, 66.0, 38.1),
    "a4-14": Grid(A4, 2, 7, 99.1, 38.1, 4.65, 15.15, 101.6, 38.1),
    "a4-65": Grid(A4, 5, 13, 38.1, 21.2, 4.75, 10.7, 40.6, 21.2),
    "letter-30": _inches(3, 10, 2.625, 1.0, 0.1875, 0.5, 2.75),
    "letter-20": _inches(2, 10, 4.0, 1.0, 0.15625, 0.5, 4.1875),
    "letter-10": _inches(2, 5, 4.0, 2.0, 0.15625, 0.5, 4.1875),
}


@dataclass(frozen=True)
class Sticker:
    """What is on one: the address in its code, the code as it is typed, and what it is called."""

    url: str
    code: str
    name: str


def placed(count: int, grid: Grid, start: int) -> Iterator[tuple[int, int]]:
    """Sheet and place for each sticker, the first at place `start`, from 1."""
    for n in range(start - 1, start - 1 + count):
        yield divmod(n, grid.count)


def render(stickers: Sequence[Sticker], grid: Grid, *, start: int = 1, title: str, author: str) -> bytes:
    """The sheets as a PDF, nothing printed but the stickers; equal content gives equal bytes."""
    if not 1 <= start <= grid.count:
        raise ValueError(f"start {start}: expected 1 to {grid.count}")
    fonts.register()
    file = BytesIO()
    size = (grid.paper.width * mm, grid.paper.height * mm)
    canvas = Canvas(file, pagesize=size, invariant=1, initialFontName=fonts.REGULAR, lang=tongue.language())
    canvas.setTitle(title)
    canvas.setAuthor(author)
    canvas.setCreator("Tenthstop")
    pen, on = Pen(canvas, grid.paper), 0
    for sticker, (sheet, place) in zip(stickers, placed(len(stickers), grid, start), strict=True):
        if sheet != on:
            canvas.showPage()
            on = sheet
        _draw(pen, sticker, grid, *grid.corner(place))
    canvas.showPage()
    canvas.save()
    return file.getvalue()


def _draw(pen: Pen, sticker: Sticker, grid: Grid, left: float, top: float) -> None:
    """The code at the left; beside it the typed code as large as it goes, and the name below, as far as there is
    room: what is cut off stands on the page the code opens."""
    side = min(grid.height - 2 * EDGE, grid.width * 0.45, MOST_QR_MM)
    x = left + EDGE - MARGIN  # a pen counts from the margin of a page
    pen.squares(squares(sticker.url), x, top + (grid.height - side) / 2, side)
    room = grid.width - 2 * EDGE - side - GAP
    points = next((p for p in CODE_POINTS if fonts.width_pt(sticker.code, p, True) <= room), CODE_POINTS[-1])
    codes = fitted(sticker.code, points, room, bold=True)
    most = max(0, int((grid.height - 2 * EDGE - len(codes) * line_mm(points)) / line_mm(NAME_POINTS)))
    names = fitted(sticker.name, NAME_POINTS, room)[:most]
    y = top + (grid.height - len(codes) * line_mm(points) - len(names) * line_mm(NAME_POINTS)) / 2
    y += pen.lines(x + side + GAP, y, codes, points, bold=True)
    pen.lines(x + side + GAP, y, names, NAME_POINTS)
