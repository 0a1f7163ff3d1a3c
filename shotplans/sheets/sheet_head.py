"""The head of a setup sheet: whose sitting, the three times, who works, the alerts, the intent, and the QR code."""

from __future__ import annotations

from shotplans.sheets.content import SetupSheet
from studio.paper import fonts
from studio.paper.codes import QR_MM, squares
from studio.paper.page import ALERT, BODY, HEAVY, ROW, TIME, Block, Paper, Pen, fitted, line_mm
from studio.tongue import gettext as _

ALERT_HEIGHT, ALERT_GAP, ALERT_PAD = 9.6, 2.0, 2.6


def head(sheet: SetupSheet, paper: Paper) -> Block:
    """Number and client, where and when, the times at 24 points, the people; the code at the right."""
    h = sheet.heading
    room = paper.inner - QR_MM - 3
    title = fitted(f"{h.sitting}  {h.client}", ALERT, room, bold=True)
    which = _("Set-up {number} of {of}: {setup}").format(number=sheet.number, of=sheet.of, setup=sheet.setup)
    where = fitted(f"{h.date}, {h.room}. {which}", BODY, room)
    who = fitted(
        (
            _("Photographer {photographer}, assistant {assistant}. {studio}")
            if h.assistant
            else _("Photographer {photographer}. {studio}")
        ).format(photographer=h.photographer, assistant=h.assistant, studio=h.studio),
        BODY,
        room,
    )
    times = ((_("set-up"), h.setup_at), (_("sitter"), h.sitter_at), (_("finish"), h.finish_at))
    top_part = len(title) * line_mm(ALERT) + len(where) * line_mm(BODY)
    height = max(top_part + line_mm(TIME) + 1.5 + len(who) * line_mm(BODY), QR_MM - 2.0) + 1.5

    def draw(pen: Pen, top: float) -> None:
        y = top + pen.lines(0, top, title, ALERT, bold=True)
        y += pen.lines(0, y, where, BODY) + 0.6
        x = 0.0
        for label, time in times:
            pen.text(x, y + 2.9, label, BODY)
            x += fonts.width_pt(label, BODY) + 2
            pen.text(x, y, time, TIME, bold=True)
            x += fonts.width_pt(time, TIME, True) + 7
        pen.lines(0, y + line_mm(TIME) + 0.2, who, BODY)
        pen.squares(squares(h.url), paper.inner - QR_MM, top - 2.0, QR_MM)

    return Block(height, draw)


def alerts(sheet: SetupSheet, paper: Paper) -> list[Block]:
    """Consequence words in boxes, as many lines as they need."""
    lines: list[list[str]] = [[]]
    x = 0.0
    for word in sheet.alerts:
        width = fonts.width_pt(word, ALERT, True) + 2 * ALERT_PAD
        if x and x + width > paper.inner:
            lines.append([])
            x = 0.0
        lines[-1].append(word)
        x += width + ALERT_GAP

    def drawn(words: list[str]) -> Block:
        def draw(pen: Pen, top: float) -> None:
            x = 0.0
            for word in words:
                width = fonts.width_pt(word, ALERT, True) + 2 * ALERT_PAD
                pen.box(x, top, width, ALERT_HEIGHT, HEAVY)
                pen.text(x + ALERT_PAD, top + 1.8, word, ALERT, bold=True)
                x += width + ALERT_GAP

        return Block(ALERT_HEIGHT + ALERT_GAP, draw)

    return [drawn(words) for words in lines if words]


def intent(sheet: SetupSheet, paper: Paper) -> Block:
    lines = fitted(sheet.intent, ROW, paper.inner)

    def draw(pen: Pen, top: float) -> None:
        pen.lines(0, top, lines, ROW)

    return Block(len(lines) * line_mm(ROW) + 2.0, draw)
