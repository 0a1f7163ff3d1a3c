"""The day sheet: the day on the studio's wall, sitting by sitting, with what changes between set-ups. Belongs here:
its content and its page. It hangs where sitters pass: no notes, no reasons."""

from __future__ import annotations

from dataclasses import dataclass

from studio.paper import blocks, fonts
from studio.paper.page import (
    A4,
    AT_ONE_METRE,
    BODY,
    HEAVY,
    ROW,
    RULE,
    Block,
    Document,
    Paper,
    Pen,
    fitted,
    line_mm,
    space,
    write,
)
from studio.tongue import gettext as _
from studio.tongue import ngettext

INDENT = 8.0


@dataclass(frozen=True)
class Change:
    """From the set-up before in the same room to this one: which two, and what there is to do."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class DaySitting:
    """One sitting of the day: its four times, who and where, how far its plan is, and the changes it needs."""

    sitting: str
    client: str
    kind: str
    room: str
    setup_at: str
    sitter_at: str
    finish_at: str
    struck_at: str
    staff: str
    people: str
    plan: str
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, kw_only=True)
class DaySheet:
    """The day of all rooms, or of one."""

    studio: str
    date: str
    printed_at: str
    url: str
    sittings: tuple[DaySitting, ...]


def render(sheet: DaySheet, paper: Paper = A4) -> bytes:
    """The sheet as a PDF. Equal content, print time included, gives equal bytes."""
    return write(document(sheet, paper), paper)


def document(sheet: DaySheet, paper: Paper = A4) -> Document:
    count = len(sheet.sittings)
    under = [
        ngettext("{studio}. {count} sitting.", "{studio}. {count} sittings.", count).format(
            studio=sheet.studio, count=count
        )
        if count
        else _("{studio}. No sittings.").format(studio=sheet.studio)
    ]
    found = [blocks.head(sheet.date, under, url=sheet.url, paper=paper)]
    for one in sheet.sittings:
        found += _sitting(one, paper)
    title = _("Day sheet, {date}").format(date=sheet.date)
    foot = _("Day sheet   printed {printed_at}").format(printed_at=sheet.printed_at)
    return Document(title, sheet.studio, tuple(found), title, foot)


def _sitting(one: DaySitting, paper: Paper) -> list[Block]:
    title = _title(one, paper)
    changes = [block for change in one.changes for block in _change(change, title, paper)]
    return [title, *changes, space(1.5)]


def _title(one: DaySitting, paper: Paper) -> Block:
    """The times to be read at a metre, the sitter's own first; then who, where and how far the plan is."""
    name = fitted(f"{one.sitting}  {one.client}", ROW, paper.inner, True)
    about = fitted(f"{one.kind}. {one.room}. {one.staff}. {one.people}. {one.plan}.", BODY, paper.inner)
    times = (
        (_("set-up"), one.setup_at), (_("sitter"), one.sitter_at), (_("finish"), one.finish_at),
        (_("struck"), one.struck_at),
    )  # fmt: skip
    height = line_mm(AT_ONE_METRE) + len(name) * line_mm(ROW) + len(about) * line_mm(BODY) + 4.0

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner, HEAVY)
        x = 0.0
        for label, time in times:
            pen.text(x, top + 3.3, label, BODY)
            x += fonts.width_pt(label, BODY) + 2.0
            pen.text(x, top + 1.0, time, AT_ONE_METRE, bold=True)
            x += fonts.width_pt(time, AT_ONE_METRE, True) + 7.0
        y = top + 1.6 + line_mm(AT_ONE_METRE)
        y += pen.lines(0, y, name, ROW, bold=True)
        pen.lines(0, y, about, BODY)

    return Block(height, draw)


def _change(change: Change, head: Block, paper: Paper) -> list[Block]:
    titles = fitted(change.title, BODY, paper.inner, True)

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner, RULE)
        pen.lines(0, top + 0.8, titles, BODY, bold=True)

    found = [Block(len(titles) * line_mm(BODY) + 1.4, draw, head=head, with_next=True)]
    return found + [_line(words, head, paper) for words in change.lines]


def _line(words: str, head: Block, paper: Paper) -> Block:
    lines = fitted(words, BODY, paper.inner - INDENT)

    def draw(pen: Pen, top: float) -> None:
        pen.box(1.0, top + 1.0, 3.2, 3.2)
        pen.lines(INDENT, top + 0.4, lines, BODY)

    return Block(len(lines) * line_mm(BODY) + 1.0, draw, head=head)
