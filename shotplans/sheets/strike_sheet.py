"""The strike list on paper: last built first, what stays up for the next sitting, the last sweep. Belongs here: its
content and its page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shotplans.sheets.strike import Line
from studio.paper import blocks
from studio.paper.page import A4, Block, Document, Paper, section, space, write
from studio.tongue import gettext as _


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
    title = _("Strike list, {sitting}").format(sitting=sheet.sitting)
    under = [
        f"{sheet.client}, {sheet.room}, {sheet.date}",
        _("Sitters leave {finish_at}, struck by {struck_at}. Plan {plan_version}, “{setup}”").format(
            finish_at=sheet.finish_at, struck_at=sheet.struck_at, plan_version=sheet.plan_version, setup=sheet.setup
        ),
    ]
    found: list[Block] = [blocks.head(title, under, url=sheet.url, paper=paper), space(2.0)]
    down = [one.says for one in sheet.lines if not one.stays]
    found += [section(_("Take down, last built first"), paper), *_ticks(down, paper)]
    if sheet.after:
        found += [section(_("Stays up for {after}").format(after=sheet.after), paper), *_ticks(sheet.stays, paper)]
        found += [section(_("What moves or changes for it"), paper), *_ticks(sheet.moves, paper)]
    found.append(section(_("Cautions"), paper))
    for words in sheet.cautions:
        found += blocks.paragraph(words, paper=paper)
    found.append(blocks.lines_to_write(_("Struck by, time"), paper=paper))
    return Document(
        title,
        sheet.studio,
        tuple(found),
        title,
        _("{title}   printed {printed_at}").format(title=title, printed_at=sheet.printed_at),
    )


def _ticks(lines: Sequence[str], paper: Paper) -> list[Block]:
    return [blocks.ticks("", [words], paper=paper) for words in lines]
