"""The packing list: what to take for a day's sittings, ticked out and ticked in. Belongs here: its page."""

from __future__ import annotations

from shotplans.sheets.content import Case, PackedSitting, PackingGroup, PackingRow, PackingSheet, StandLoad
from shotplans.sheets.measures import Measures
from studio.paper.blocks import Column, paragraph, table
from studio.paper.codes import QR_MM, squares
from studio.paper.page import (
    A4,
    ALERT,
    BODY,
    FRAME_RULE,
    HEAVY,
    ROW,
    SMALL,
    TICK_MM,
    Block,
    Document,
    Paper,
    Pen,
    fitted,
    line_mm,
    section,
    space,
    write,
)
from studio.tongue import gettext as _
from studio.tongue import noop

OUT_IN = 22.0  # for the two boxes at the right
FOR_WIDE = 62.0
LIFTING = noop(
    "Lifting: above 16 kg share it or use the trolley. Task, person, load and way decide; local rules come first."
)


def render(sheet: PackingSheet, paper: Paper = A4) -> bytes:
    """The list as a PDF. Equal content, print time included, gives equal bytes."""
    return write(document(sheet, paper), paper)


def document(sheet: PackingSheet, paper: Paper = A4) -> Document:
    plans = ", ".join(
        _("{sitting} plan {plan_version}").format(sitting=s.sitting, plan_version=s.plan_version)
        for s in sheet.sittings
    )
    title = _("Packing list, {date}").format(date=sheet.date)
    found = [_head(sheet, paper), *(_sitting(s, paper) for s in sheet.sittings), space(2.0)]
    for group in sheet.groups:
        found += _group(group, paper)
    found += [*_cases(sheet, paper), _foot(paper)]
    words = _("{title}   printed {printed_at}").format(title=title, printed_at=sheet.printed_at)
    short = _("{n} sittings").format(n=len(sheet.sittings)) if len(sheet.sittings) > 1 else plans
    return Document(title, sheet.studio, tuple(found), f"{title}: {short}", words)


def _head(sheet: PackingSheet, paper: Paper) -> Block:
    title = fitted(_("Packing list, {date}").format(date=sheet.date), ALERT, paper.inner - QR_MM - 3, bold=True)
    says = fitted(
        _("Pack by the path of the picture. Tick OUT when it goes into the case, IN when it comes back whole."),
        BODY,
        paper.inner - QR_MM - 3,
    )

    def draw(pen: Pen, top: float) -> None:
        y = top + pen.lines(0, top, title, ALERT, bold=True)
        y += pen.lines(0, y, [sheet.studio], BODY)
        pen.lines(0, y + 1.0, says, BODY)
        pen.squares(squares(sheet.url), paper.inner - QR_MM, top - 2.0, QR_MM)

    return Block(QR_MM - 1.0, draw)


def _sitting(one: PackedSitting, paper: Paper) -> Block:
    words = _("{client}, {room}. Set-up {setup_at}, sitter {sitter_at}, plan {plan_version}").format(
        client=one.client, room=one.room, setup_at=one.setup_at, sitter_at=one.sitter_at, plan_version=one.plan_version
    )
    lines = fitted(words, BODY, paper.inner - 26)

    def draw(pen: Pen, top: float) -> None:
        pen.text(0, top, one.sitting, BODY, bold=True)
        pen.lines(26, top, lines, BODY)

    return Block(len(lines) * line_mm(BODY) + 0.6, draw)


def _group(group: PackingGroup, paper: Paper) -> list[Block]:
    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top + 0.3, paper.inner, HEAVY)
        pen.text(0, top + 1.6, group.name, ROW, bold=True)
        pen.text(paper.inner - OUT_IN - FOR_WIDE, top + 2.4, _("for"), SMALL)
        pen.text(paper.inner - OUT_IN + 1.0, top + 2.4, _("OUT"), SMALL, bold=True)
        pen.text(paper.inner - TICK_MM + 1.0, top + 2.4, _("IN"), SMALL, bold=True)

    head = Block(9.0, draw, with_next=True)
    return [head, *(_row(row, head, paper) for row in group.rows)]


def _row(row: PackingRow, head: Block, paper: Paper) -> Block:
    """Item and name, below it the mount proved; for which sittings and lights; the two ticks."""
    wide = paper.inner - OUT_IN - FOR_WIDE - 3
    name = f"{row.item}  {row.label}" if row.label else row.item
    things = fitted(f"{row.count} x {name}" if row.count > 1 else name, BODY, wide)
    fits = [
        line
        for proof in row.fits.split("; ")
        if proof
        for line in fitted(_("fits {proof}").format(proof=proof), BODY, wide)
    ]
    uses = fitted(row.used_for, BODY, FOR_WIDE - 3)
    most = max(len(things) + len(fits), len(uses))

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner)
        taken = pen.lines(0, top + 1.3, things, BODY, bold=True)
        pen.lines(0, top + 1.3 + taken, fits, BODY)
        pen.lines(paper.inner - OUT_IN - FOR_WIDE, top + 1.3, uses, BODY)
        pen.box(paper.inner - OUT_IN + 1.0, top + 0.9, TICK_MM, TICK_MM)
        pen.box(paper.inner - TICK_MM, top + 0.9, TICK_MM, TICK_MM)

    return Block(max(TICK_MM + 1.6, most * line_mm(BODY) + 2.0), draw, head=head)


def _foot(paper: Paper) -> Block:
    """Who packed, who checked in, and the last sweep."""

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top + 0.5, paper.inner, HEAVY)
        for x, words in ((0.0, _("Packed by, time")), (95.0, _("Checked in by, time"))):
            pen.text(x, top + 5.4, words, BODY)
            pen.rule(x + 40, top + 10.0, 52, FRAME_RULE)
        pen.box(0, top + 13.0, TICK_MM, TICK_MM)
        pen.text(TICK_MM + 2, top + 13.7, _("Needs charge, cleaning or repair: written down"), BODY)
        pen.box(115, top + 13.0, TICK_MM, TICK_MM)
        pen.text(115 + TICK_MM + 2, top + 13.7, _("Floor swept, last look round"), BODY)

    return Block(21.0, draw)


def _cases(sheet: PackingSheet, paper: Paper) -> list[Block]:
    """What is carried, case by case with its mass; and each stand with its load."""
    ways, found = sheet.measures, list[Block]()
    if sheet.cases:
        rows = [
            (c.name, _mass(c, ways) + (" ! " + _("two people or the trolley") if c.heavy else ""), ", ".join(c.items))
            for c in sheet.cases
        ]  # fmt: skip
        columns = [Column(_("case"), 2), Column(_("mass"), 2.4), Column(_("in it"), 6)]
        found += [section(_("By case"), paper), *table(columns, rows, paper=paper)]
        found += [space(1.6), *paragraph(_(LIFTING), paper=paper)]
    stands = [
        (s.stand, s.used_for, _("{part} of {whole}").format(part=ways.mass(s.load_kg), whole=ways.mass(s.carries_kg))
         + (" ! " + _("nearly full") if s.near_full else ""), _weights(s, ways))
        for s in sheet.stands
    ]  # fmt: skip
    if stands:
        columns = [
            Column(_("stand"), 2),
            Column(_("for"), 4),
            Column(_("load at most"), 3),
            Column(_("weights at least"), 3),
        ]
        found += [section(_("By stand"), paper), *table(columns, stands, paper=paper)]
    return found


def _mass(case: Case, ways: Measures) -> str:
    if case.unknown == len(case.items):
        return _("not weighed")
    mass = ways.mass(case.mass_kg)
    return _("{mass} and {n} not weighed").format(mass=mass, n=case.unknown) if case.unknown else mass


def _weights(stand: StandLoad, ways: Measures) -> str:
    said = _("bag {mass}").format(mass=ways.mass(stand.bag_kg)) if stand.bag_kg else _("a bag")
    if not stand.counterweight_kg:
        return said
    return _("{bag}, counterweight {mass}").format(bag=said, mass=ways.mass(stand.counterweight_kg))
