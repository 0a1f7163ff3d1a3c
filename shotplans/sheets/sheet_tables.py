"""What is read off a setup sheet, as blocks: lights with their ACTUAL boxes, the camera strip.

What is ticked is in sheet_lists.py.
"""

from __future__ import annotations

from collections.abc import Sequence

from shotplans.sheets.content import CameraValue, LightRow
from studio.paper import fonts
from studio.paper.page import (
    ACTUAL_MM,
    BODY,
    FRAME_RULE,
    HEAVY,
    ON_A_STAND,
    ROW,
    SMALL,
    TIME,
    Block,
    Paper,
    Pen,
    fitted,
    line_mm,
)
from studio.tongue import gettext as _
from studio.tongue import noop

ACTUAL_WIDE = 29.0
COLUMNS = (
    ("", 8.0), (noop("role"), 30.0), (noop("power"), 27.0), (noop("distance"), 19.5), (noop("bearing"), 26.5),
    (noop("height"), 19.5),
)  # fmt: skip
BETWEEN = " · "
WRITE_IN = 12.0


def lights_head(paper: Paper) -> Block:
    """The names of the table's columns."""

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner, HEAVY)
        x = 0.0
        for name, width in (*COLUMNS, (noop("target"), 0.0)):
            pen.text(x, top + 0.8, _(name) if name else "", SMALL)
            x += width
        pen.text(paper.inner - ACTUAL_WIDE, top + 0.8, _("ACTUAL"), SMALL, bold=True)

    return Block(5.6, draw, with_next=True)


def lights(found: Sequence[LightRow], paper: Paper) -> list[Block]:
    """The light table. Heads go by name and code where every row's second line holds them, else by code; sandbags are
    on it where no row grows by them, else in the packing list alone: a row without one would read as needing none."""
    if not found:
        return []
    head, room = lights_head(paper), paper.inner - ACTUAL_WIDE - COLUMNS[0][1] - 2
    by_name = all(len(fitted(_built(row, True), BODY, room)) == 1 for row in found)
    named = [fitted(_built(row, by_name), BODY, room) for row in found]
    bagged = [fitted(_built(row, by_name, row.sandbag), BODY, room) for row in found]
    if all(len(a) == len(b) for a, b in zip(named, bagged, strict=True)):
        named = bagged
    return [head, *(_light(row, built, head, paper) for row, built in zip(found, named, strict=True))]


def _built(row: LightRow, by_name: bool, sandbag: str = "") -> str:
    """Power in words, head, modifier, ring, stand and what weighs it down."""
    head = f"{row.head_name} {row.head}" if by_name and row.head_name != row.head else row.head
    ring = _("ring {ring}").format(ring=row.ring) if row.ring else ""
    return BETWEEN.join(p for p in (row.power_words, head, row.modifier, ring, row.stand, sandbag) if p)


def _light(row: LightRow, built: Sequence[str], head: Block, paper: Paper) -> Block:
    """One light: what is set at 14 points, below it what it is built from at 12, and the box to write in."""
    values = (row.letter, row.role, row.power, row.distance, row.bearing, row.height)
    height = max(line_mm(ROW) + len(built) * line_mm(BODY) + 2.4, ACTUAL_MM + 2.6)

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner)
        x = 0.0
        for value, (name, width) in zip(values, COLUMNS, strict=True):
            bold = name in ("", "power")
            pen.text(x, top + 0.9, value, _fitting(value, width - 1.0, (ROW, BODY, SMALL), bold), bold=bold)
            x += width
        pen.text(x, top + 0.9, row.target or _("not metered"), ROW if row.target else BODY, bold=bool(row.target))
        pen.lines(COLUMNS[0][1], top + 1.1 + line_mm(ROW), built, BODY)
        if row.target:
            pen.box(paper.inner - ACTUAL_WIDE, top + 1.3, ACTUAL_WIDE, ACTUAL_MM)

    return Block(height, draw, head=head)


def _fitting(words: str, room: float, sizes: Sequence[float], bold: bool) -> float:
    """The largest of some sizes in which a word fits its column: in another language it may be longer."""
    return next((points for points in sizes if fonts.width_pt(words, points, bold) <= room), sizes[-1])


def camera(values: Sequence[CameraValue], paper: Paper) -> list[Block]:
    """The camera strip: values at 30 points, below what is metered or set its boxes; then where it stands, at 24."""
    typed, placed = [v for v in values if v.set or v.metered], [v for v in values if not (v.set or v.metered)]
    return [_strip(row, paper) for row in (typed, placed) if row]


def _strip(row: Sequence[CameraValue], paper: Paper) -> Block:
    boxes = any(v.set or v.metered for v in row)
    shares = [1.75 if v.metered else 1.0 for v in row]
    gap = 3.0
    widths = [(paper.inner + gap) * s / sum(shares) for s in shares]
    points = ON_A_STAND if boxes else TIME  # what is set is read off a stand, where it stands is read once
    values_end = 5.2 + line_mm(points)
    height = values_end + (WRITE_IN + 2.4 if boxes else 1.0)

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner, HEAVY if boxes else FRAME_RULE)
        x = 0.0
        for value, width in zip(row, widths, strict=True):
            label = f"{value.label}: {value.small}" if value.small and not value.metered else value.label
            pen.text(x, top + 0.5, fitted(label, SMALL, width - 1.0)[0], SMALL)
            size = _fitting(value.value, width - 1.0, (points, ROW, BODY), True)
            pen.text(x, top + 5.7, value.value, size, bold=True)
            if value.metered:
                pen.text(x + fonts.width_pt(value.value, points, True) + 3, top + 11.1, value.small, BODY)
            names = [n for n, wanted in ((_("METERED"), value.metered), (_("SET"), value.set)) if wanted]
            each = (width - gap) / max(1, len(names))
            for n, name in enumerate(names):
                pen.box(x + n * each, top + values_end, each - (1.0 if n + 1 < len(names) else 0.0), WRITE_IN)
                pen.text(x + n * each + 1.0, top + values_end + 0.4, name, SMALL)
            x += width

    return Block(height, draw)
