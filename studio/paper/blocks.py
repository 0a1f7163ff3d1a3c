"""Blocks that any document of the house is set from: its head, paragraphs, facts, tables, lines and boxes to write in.

Belongs here: how they look. What they say comes from the caller as plain words. Sizes are millimetres unless a name
says points; nothing smaller than 12 points is read in the hand, the foot and a table's head apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from studio.paper import fonts
from studio.paper.codes import QR_MM, squares
from studio.paper.page import (
    A4,
    ALERT,
    BODY,
    FRAME_RULE,
    HEAVY,
    RULE,
    SMALL,
    TICK_MM,
    Block,
    Paper,
    Pen,
    fitted,
    line_mm,
    section,
    space,
)  # fmt: skip
from studio.tongue import gettext as _

__all__ = [
    "Column", "facts", "head", "lines_to_write", "paragraph", "section", "signature", "space", "table", "ticks",
]  # fmt: skip
GAP = 3.0  # between columns
WRITE_MM = 9.5  # a line that a hand writes on
SIGN_MM = 22.0


@dataclass(frozen=True)
class Column:
    """A column of a table: its head, its share of the width, numbers to the right."""

    head: str
    share: float
    right: bool = False


def head(title: str, under: Iterable[str] = (), *, from_whom: Sequence[str] = (), url: str = "",
         paper: Paper = A4) -> Block:  # fmt: skip
    """What it is and for whom at the left; who sends it, or a code with an address, at the right."""
    side = QR_MM if url else paper.inner * 0.38 if from_whom else 0.0
    room = paper.inner - side - (GAP if side else 0.0)
    titles = fitted(title, ALERT, room, bold=True)
    lines = [line for words in under for line in fitted(words, BODY, room)]
    beside = [line for words in from_whom for line in fitted(words, BODY, side)] if side and not url else []
    left = len(titles) * line_mm(ALERT) + len(lines) * line_mm(BODY)
    height = max(left, len(beside) * line_mm(BODY), QR_MM - 2.0 if url else 0.0) + 3.0

    def draw(pen: Pen, top: float) -> None:
        y = top + pen.lines(0, top, titles, ALERT, bold=True)
        pen.lines(0, y, lines, BODY)
        for n, line in enumerate(beside):
            pen.text(paper.inner, top + n * line_mm(BODY), line, BODY, align="right")
        if url:
            pen.squares(squares(url), paper.inner - QR_MM, top - 2.0, QR_MM)

    return Block(height, draw)


def paragraph(words: str, *, points: float = BODY, bold: bool = False, paper: Paper = A4) -> list[Block]:
    """A text, line by line, so that it may run on to the next page; an empty line in it stays one."""
    found = []
    for part in words.split("\n"):
        for line in fitted(part, points, paper.inner, bold):
            found.append(Block(line_mm(points), lambda pen, top, line=line: pen.text(0, top, line, points, bold=bold)))
    return [*found, space(1.6)]


def facts(rows: Iterable[tuple[str, str]], *, label_mm: float = 52.0, paper: Paper = A4) -> list[Block]:
    """What is asked at the left, what holds at the right, one row each."""
    return [_fact(label, words, label_mm, paper) for label, words in rows]


def _fact(label: str, words: str, label_mm: float, paper: Paper) -> Block:
    labels = fitted(label, BODY, label_mm - GAP)
    lines = [line for part in words.split("\n") for line in fitted(part, BODY, paper.inner - label_mm, True)]
    height = max(len(labels), len(lines)) * line_mm(BODY) + 1.2

    def draw(pen: Pen, top: float) -> None:
        pen.lines(0, top, labels, BODY)
        pen.lines(label_mm, top, lines, BODY, bold=True)

    return Block(height, draw)


def table(columns: Sequence[Column], rows: Iterable[Sequence[str]], *, bold_last: bool = False, points: float = BODY,
          paper: Paper = A4) -> list[Block]:  # fmt: skip
    """Rows under a head that is repeated on each page; cells break into lines, nothing is cut."""
    widths = _widths(columns, paper.inner)
    top_row = _row(columns, [column.head for column in columns], widths, SMALL, bold=True, weight=HEAVY)
    body = list(rows)
    found = [_row(columns, row, widths, points, bold=bold_last and n == len(body) - 1, head=top_row)
             for n, row in enumerate(body)]  # fmt: skip
    return [Block(top_row.height, top_row.draw, with_next=True), *found]


def _widths(columns: Sequence[Column], inner: float) -> list[float]:
    whole = sum(column.share for column in columns)
    return [inner * column.share / whole for column in columns]


def _row(columns: Sequence[Column], cells: Sequence[str], widths: Sequence[float], points: float, *, bold: bool,
         weight: float = RULE, head: Block | None = None) -> Block:  # fmt: skip
    if len(cells) != len(columns):
        raise ValueError(f"{len(cells)} cells under {len(columns)} columns")
    broken = [
        [line for part in cell.split("\n") for line in fitted(part, points, width - GAP, bold)]
        for cell, width in zip(cells, widths, strict=True)
    ]
    height = max(len(lines) for lines in broken) * line_mm(points) + 2.0

    def draw(pen: Pen, top: float) -> None:
        x = 0.0
        for column, lines, width in zip(columns, broken, widths, strict=True):
            for n, line in enumerate(lines):
                at = x + width - (0.0 if column is columns[-1] else GAP) if column.right else x
                align = "right" if column.right else "left"
                pen.text(at, top + 0.7 + n * line_mm(points), line, points, bold=bold, align=align)
            x += width
        pen.rule(0, top + height, sum(widths), weight)

    return Block(height, draw, head=head)


def ticks(question: str, answers: Sequence[str], *, paper: Paper = A4) -> Block:
    """A question with a box before each answer; as many lines of answers as they take, none cut."""
    asked = fitted(question, BODY, paper.inner, True) if question else []
    inset = TICK_MM + 2.0
    placed: list[tuple[float, float, list[str]]] = []
    x = y = 0.0
    step = TICK_MM + 2.2
    for answer in answers:
        lines = fitted(answer, BODY, paper.inner - inset)
        wide = paper.inner if len(lines) > 1 else inset + fonts.width_pt(answer, BODY) + 7.0
        if x and x + wide > paper.inner:
            x, y = 0.0, y + step
        placed.append((x, y, lines))
        x += wide
        if len(lines) > 1:
            x, y = 0.0, y + max(step, len(lines) * line_mm(BODY) + 2.2)
    height = len(asked) * line_mm(BODY) + y + (step if x else 0.0) + 2.0

    def draw(pen: Pen, top: float) -> None:
        under = top + pen.lines(0, top, asked, BODY, bold=True) + 0.8
        for at, down, lines in placed:
            pen.box(at, under + down, TICK_MM, TICK_MM)
            pen.lines(at + inset, under + down + 1.0, lines, BODY)

    return Block(height, draw)


def lines_to_write(label: str, lines: int = 1, *, paper: Paper = A4) -> Block:
    """A label and ruled lines for a hand."""
    room = fonts.width_pt(label, BODY) + 2.5
    first = room if room < paper.inner * 0.5 else 0.0
    over = line_mm(BODY) if not first else 0.0

    def draw(pen: Pen, top: float) -> None:
        pen.text(0, top + (WRITE_MM - line_mm(BODY) if first else 0.0), label, BODY)
        for n in range(lines):
            begin = first if n == 0 else 0.0
            pen.rule(begin, top + over + (n + 1) * WRITE_MM - 0.8, paper.inner - begin, FRAME_RULE)

    return Block(over + lines * WRITE_MM + 1.0, draw)


def signature(label: str, *, paper: Paper = A4) -> Block:
    """Room for a signature and a date over their rules."""
    wide = paper.inner * 0.62

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top + SIGN_MM - 6.0, wide, FRAME_RULE)
        pen.rule(wide + 8.0, top + SIGN_MM - 6.0, paper.inner - wide - 8.0, FRAME_RULE)
        pen.text(0, top + SIGN_MM - 5.4, label, SMALL)
        pen.text(wide + 8.0, top + SIGN_MM - 5.4, _("date"), SMALL)

    return Block(SIGN_MM, draw)
