"""The strike list on paper: last built first, what stays up for the next sitting, the last sweep. Belongs here: its
content and its page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shotplans.sheets.strike import Line
from studio.paper import blocks
from studio.paper.page import A4, Block, Document, Paper, section, space, write


@dataclass(frozen=True, kw_only=True)
class StrikeSheet:
    """What is on it; `after` names the sitting that follows in the room, empty for none."""

    studio: str
    sitting: str
    client: str
    date: str
    room: str
    finish_at: str
    struck_at: str
    plan_version: int
    setup: str
    printed_at: str
    url: str
    lines: tuple[Line, ...]
    cautions: tuple[str, ...]
    after: str
    stays: tuple[str, ...]
    moves: tuple[str, ...]


def render(sheet: StrikeSheet, paper: Paper = A4) -> bytes:
    """The list as a PDF. Equal content, print time included, gives equal bytes."""
    return write(document(sheet, paper), paper)


def document(sheet: StrikeSheet, paper: Paper = A4) -> Document:
    title = f"Strike list, {sheet.sitting}"
    under = [
        f"{sheet.client}, {sheet.room}, {sheet.date}",
        f"Sitters leave {sheet.finish_at}, struck by {sheet.struck_at}. Plan {sheet.plan_version}, “{sheet.setup}”",
    ]
    found: list[Block] = [blocks.head(title, under, url=sheet.url, paper=paper), space(2.0)]
    down = [one.says for one in sheet.lines if not one.stays]
    found += [section("Take down, last built first", paper), *_ticks(down, paper)]
    if sheet.after:
        found += [section(f"Stays up for {sheet.after}", paper), *_ticks(sheet.stays, paper)]
        found += [section("What moves or changes for it", paper), *_ticks(sheet.moves, paper)]
    found.append(section("Cautions", paper))
    for words in sheet.cautions:
        found += blocks.paragraph(words, paper=paper)
    found.append(blocks.lines_to_write("Struck by, time", paper=paper))
    return Document(title, sheet.studio, tuple(found), title, f"{title}   printed {sheet.printed_at}")


def _ticks(lines: Sequence[str], paper: Paper) -> list[Block]:
    return [blocks.ticks("", [words], paper=paper) for words in lines]
