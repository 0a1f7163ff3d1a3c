"""What is ticked on a setup sheet, as blocks: shots, packing, the hazard walk, the questions at its foot."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from shotplans.sheets.content import Foot, PackingRow, ShotRow
from studio.paper.page import BODY, FRAME_RULE, HEAVY, ROW, TICK_MM, Block, Paper, Pen, fitted, line_mm, section
from studio.tongue import gettext as _
from studio.tongue import ngettext

SHOT_RIGHT, FRAMING_WIDE = 34.0, 30.0
ABREAST = 3  # columns of packing, and of people who are told the same
MANY_IN_TURN = 4  # from which on what all are told is said once


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
    return len(fitted(shot.who, BODY, paper.inner / ABREAST - TICK_MM - 14.0)) == 1


def _frames(shot: ShotRow, framed: bool) -> str:
    """How many frames, and how they are framed where the shots of the sheet differ in it."""
    count = ngettext("{frames} frame", "{frames} frames", shot.frames).format(frames=shot.frames)
    return f"{count}, {shot.framing}" if framed else count


def _in_turn(turns: Sequence[ShotRow], head: Block, framed: bool, paper: Paper) -> Block:
    """People who are told the same, one after the other: what they are told once, then each with a tick."""
    wide, first = paper.inner / ABREAST, turns[0]
    said = _("Each in turn: {cue}").format(cue=first.cue)
    frames = _frames(first, framed)
    right = SHOT_RIGHT + (FRAMING_WIDE if framed else 0.0)
    lines = fitted(said, BODY, paper.inner - right - 3)
    rows, step = -(-len(turns) // ABREAST), TICK_MM + 1.0
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
    framing = fitted(_frames(shot, framed), BODY, right - 12)
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
    head, wide = section(_("Packing"), paper), paper.inner / ABREAST
    rows = [_packed(row, wide) for row in found]
    here = len(rows)
    while here and _columns(rows[:here], head, wide).height > left - head.height:
        here -= 1
    parts = [part for part in (rows[:here], rows[here:]) if part] if here >= 2 * ABREAST else [rows]
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
    most = sum(row.height for row in rows) / ABREAST
    while len(columns := _filled(rows, most)) > ABREAST:
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
