"""The tables of a setup sheet as blocks: lights with their ACTUAL boxes, the camera strip, shots, packing, the foot."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from shotplans.sheets.content import CameraValue, Foot, LightRow, PackingRow, Row, ShotRow
from studio.paper import fonts
from studio.paper.page import (
    ACTUAL_MM,
    BODY,
    FRAME_RULE,
    HEAVY,
    ON_A_STAND,
    ROW,
    SMALL,
    TICK_MM,
    TIME,
    Block,
    Paper,
    Pen,
    fitted,
    line_mm,
    section,
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
SHOT_RIGHT, FRAMING_WIDE = 34.0, 30.0
PACKED_ABREAST = 3
MANY_IN_TURN = 4  # from which on what all are told is said once


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


def rows(found: Sequence[Row], paper: Paper) -> list[Block]:
    """Who stands where, from camera left, row by row."""
    if not found:
        return []
    head = section(_("Who stands where, from camera left"), paper)
    return [head, *(_line(f"{row.name}: {', '.join(row.people)}", head, paper) for row in found)]


def _line(words: str, head: Block, paper: Paper) -> Block:
    lines = fitted(words, BODY, paper.inner)

    def draw(pen: Pen, top: float) -> None:
        pen.lines(0, top, lines, BODY)

    return Block(len(lines) * line_mm(BODY) + 1.2, draw, head=head)


def shots(found: Sequence[ShotRow], paper: Paper) -> list[Block]:
    """The shot list: tick, number, who with the cue, must or extra, frames. One framing for all is said once, and so
    is what many in turn are told alike."""
    if not found:
        return []
    framed = len({shot.framing for shot in found}) > 1
    head = section(_("Shots") if framed else _("Shots, {framing}").format(framing=found[0].framing), paper)
    rows = []
    for _alike, run in groupby(found, lambda shot: (shot.cue, shot.must, shot.frames, shot.framing)):
        turns = list(run)
        if len(turns) >= MANY_IN_TURN and all(_in_a_column(shot, paper) for shot in turns):
            rows.append(_in_turn(turns, head, framed, paper))
        else:
            rows += [_shot(shot, head, framed, paper) for shot in turns]
    return [head, *rows]


def _in_a_column(shot: ShotRow, paper: Paper) -> bool:
    return len(fitted(shot.who, BODY, paper.inner / PACKED_ABREAST - TICK_MM - 14.0)) == 1


def _in_turn(turns: Sequence[ShotRow], head: Block, framed: bool, paper: Paper) -> Block:
    """People who are told the same, one after the other: what they are told once, then each with a tick."""
    wide, first = paper.inner / PACKED_ABREAST, turns[0]
    said = _("Each in turn: {cue}").format(cue=first.cue)
    frames = (
        _("{frames} frames, {framing}").format(frames=first.frames, framing=first.framing)
        if framed
        else _("{frames} frames").format(frames=first.frames)
    )
    right = SHOT_RIGHT + (FRAMING_WIDE if framed else 0.0)
    lines = fitted(said, BODY, paper.inner - right - 3)
    rows, step = -(-len(turns) // PACKED_ABREAST), TICK_MM + 1.0
    words = len(lines) * line_mm(BODY) + 1.6

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner)
        pen.lines(0, top + 1.0, lines, BODY)
        pen.text(paper.inner - right, top + 1.0, _("must") if first.must else _("extra"), BODY, bold=first.must)
        pen.text(paper.inner - right + 12, top + 1.0, frames, BODY)
        for n, shot in enumerate(turns):
            x, y = n // rows * wide, top + words + n % rows * step
            pen.box(x, y, TICK_MM, TICK_MM)
            pen.text(x + TICK_MM + 9.5, y + 0.1, str(shot.number), ROW, bold=True, align="right")
            pen.text(x + TICK_MM + 12.0, y + 0.4, shot.who[:1].upper() + shot.who[1:], BODY)

    return Block(words + rows * step + 0.8, draw, head=head)


def _shot(shot: ShotRow, head: Block, framed: bool, paper: Paper) -> Block:
    left, right = TICK_MM + 12.0, SHOT_RIGHT + (FRAMING_WIDE if framed else 0.0)
    words = f"{shot.who}. {shot.cue}"
    lines = fitted(words[:1].upper() + words[1:], BODY, paper.inner - left - right - 3)
    frames = (
        _("{frames} frames, {framing}").format(frames=shot.frames, framing=shot.framing)
        if framed
        else _("{frames} frames").format(frames=shot.frames)
    )
    framing = fitted(frames, BODY, right - 12)
    height = max(max(len(lines), len(framing)) * line_mm(BODY) + 1.2, TICK_MM + 0.6) + 1.2

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner)
        pen.box(0, top + 0.9, TICK_MM, TICK_MM)
        pen.text(TICK_MM + 9.5, top + 1.0, str(shot.number), ROW, bold=True, align="right")
        pen.lines(left, top + 1.3, lines, BODY)
        x = paper.inner - right
        pen.text(x, top + 1.3, _("must") if shot.must else _("extra"), BODY, bold=shot.must)
        pen.lines(x + 12, top + 1.3, framing, BODY)

    return Block(height, draw, head=head)


def packing(found: Sequence[PackingRow], left: float, paper: Paper) -> list[Block]:
    """The packing rows in three columns read downwards, each as high as its own rows: tick, count, thing, what for.

    `left` is what the page has left for them, millimetres: what goes beyond it stands in columns of its own.
    """
    if not found:
        return []
    head, wide = section(_("Packing"), paper), paper.inner / PACKED_ABREAST
    rows = [_packed(row, wide) for row in found]
    here = len(rows)
    while here and _columns(rows[:here], head, wide).height > left - head.height:
        here -= 1
    parts = [part for part in (rows[:here], rows[here:]) if part] if here >= 2 * PACKED_ABREAST else [rows]
    return [head, *(_columns(part, head, wide) for part in parts)]


def _packed(row: PackingRow, wide: float) -> Block:
    left, right = TICK_MM + 1.6, 14.5
    lines, uses = fitted(thing(row), BODY, wide - left - right - 1), fitted(row.used_for, BODY, right - 2, bold=True)

    def draw(pen: Pen, top: float, x: float = 0.0) -> None:
        pen.box(x, top + 0.4, TICK_MM, TICK_MM)
        pen.lines(x + left, top + 0.9, lines, BODY)
        pen.lines(x + wide - right, top + 0.9, uses, BODY, bold=True)

    return Block(max(TICK_MM + 1.2, max(len(lines), len(uses)) * line_mm(BODY) + 1.4), draw)


def _columns(rows: Sequence[Block], head: Block, wide: float) -> Block:
    """Rows one under the other in columns of about one height, the first the longest."""
    most = sum(row.height for row in rows) / PACKED_ABREAST
    while len(columns := _filled(rows, most)) > PACKED_ABREAST:
        most += 0.5

    def draw(pen: Pen, top: float) -> None:
        for n, column in enumerate(columns):
            at = top
            for row in column:
                row.draw(pen, at, n * wide)  # type: ignore[call-arg]
                at += row.height

    return Block(max((sum(row.height for row in column) for column in columns), default=0.0), draw, head=head)


def _filled(rows: Sequence[Block], most: float) -> list[list[Block]]:
    """Columns no higher than `most`, each filled before the next is begun."""
    columns: list[list[Block]] = [[]]
    for row in rows:
        if columns[-1] and sum(one.height for one in columns[-1]) + row.height > most:
            columns.append([])
        columns[-1].append(row)
    return columns


def thing(row: PackingRow) -> str:
    """A thing in words: how many if more than one, its name, its code."""
    name = f"{row.label} {row.item}" if row.label else row.item
    return f"{row.count} x {name}" if row.count > 1 else name


def end(walk: Sequence[str], found: Foot, paper: Paper) -> Block:
    """The hazard walk, done before the sitters come in, and below it what is asked and signed: never parted."""
    head = section(_("Hazard walk, before the sitters come in"), paper)
    pairs = [_pair(walk[n : n + 2], paper.inner / 2) for n in range(0, len(walk), 2)]
    parts = [head, *pairs, _foot(found, paper)]

    def draw(pen: Pen, top: float) -> None:
        for part in parts:
            part.draw(pen, top)
            top += part.height

    return Block(sum(part.height for part in parts), draw)


def _pair(pair: Sequence[str], half: float) -> Block:
    texts = [fitted(words, BODY, half - TICK_MM - 4) for words in pair]

    def draw(pen: Pen, top: float) -> None:
        for n, lines in enumerate(texts):
            pen.box(n * half, top + 0.6, TICK_MM, TICK_MM)
            pen.lines(n * half + TICK_MM + 2, top + 1.2, lines, BODY)

    return Block(max(TICK_MM + 0.8, max(map(len, texts)) * line_mm(BODY) + 1.8), draw)


def _foot(found: Foot, paper: Paper) -> Block:
    """Questions to tick with yes or no, then signature and time."""
    each = paper.inner / len(found.questions)

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top + 1.0, paper.inner, HEAVY)
        for n, words in enumerate(found.questions):
            x = n * each
            pen.text(x, top + 2.0, words, BODY, bold=True)
            for m, answer in enumerate((_("yes"), _("no"))):
                pen.box(x + m * 20, top + 7.6, TICK_MM, TICK_MM)
                pen.text(x + m * 20 + TICK_MM + 1.5, top + 8.3, answer, BODY)
        y = top + 20.6
        pen.text(0, y - 4.6, _("Signature"), BODY)
        pen.rule(21, y, 92, FRAME_RULE)
        pen.text(122, y - 4.6, _("Time"), BODY)
        pen.rule(134, y, paper.inner - 134, FRAME_RULE)

    return Block(22.0, draw)
