"""Power and place on paper: where it is and how one comes in, circuits with their loads, leads, ceiling and floor, what
to do in an emergency. Belongs here: its content and its page. Not here: the sums (`place`)."""

from __future__ import annotations

from dataclasses import dataclass

from shotplans.sheets import place
from shotplans.sheets.measures import METRIC, Measures
from studio.paper import blocks
from studio.paper.blocks import Column
from studio.paper.page import A4, Block, Document, Paper, section, space, write
from studio.tongue import gettext as _
from studio.tongue import noop

TO_FILL_IN = noop("Nearest hospital, whom to call, where the first-aid kit is")


@dataclass(frozen=True, kw_only=True)
class LocationSheet:
    """What is on it; words of the room as the owner wrote them, empty where nothing is known."""

    studio: str
    sitting: str
    client: str
    date: str
    room: str
    away: bool
    times: str
    plan_version: int
    printed_at: str
    url: str
    address: str
    way_in: str
    power_note: str
    emergency: str
    size: str
    loads: tuple[place.Load, ...]
    leads: tuple[place.Lead, ...]
    clearances: tuple[place.Clearance, ...]
    measures: Measures = METRIC

    @property
    def cautions(self) -> tuple[tuple[str, str], ...]:
        return tuple((code, _(words)) for code, words in place.CAUTIONS.items())

    @property
    def lead_rows(self) -> list[tuple[str, str, str]]:
        return [(one.setup, one.letter, place.lead_words(one, self.measures)) for one in self.leads]

    @property
    def space_rows(self) -> list[tuple[str, str, str, bool]]:
        length = self.measures.length
        short = self.measures.near if self.measures.is_imperial else length
        return [
            (one.setup, _("{gap} over light {letter}").format(gap=short(one.ceiling_gap_m), letter=one.letter),
             _("{part} of {whole}").format(part=length(one.set_length_m), whole=length(one.room_length_m)), one.tight)
            for one in self.clearances
        ]  # fmt: skip


def render(sheet: LocationSheet, paper: Paper = A4) -> bytes:
    """The sheet as a PDF. Equal content, print time included, gives equal bytes."""
    return write(document(sheet, paper), paper)


def document(sheet: LocationSheet, paper: Paper = A4) -> Document:
    title = _("Power and place, {sitting}").format(sitting=sheet.sitting)
    under = [
        f"{sheet.client}, {sheet.room}, {sheet.date}",
        _("{times}. Plan {plan_version}").format(times=sheet.times, plan_version=sheet.plan_version),
    ]
    found: list[Block] = [blocks.head(title, under, url=sheet.url, paper=paper), space(2.0)]
    known = ((_("Address"), sheet.address), (_("Way in, parking"), sheet.way_in), (_("Room"), sheet.size),
             (_("Power there"), sheet.power_note))  # fmt: skip
    found += blocks.facts([(name, said) for name, said in known if said], paper=paper)
    found.append(section(_("In an emergency"), paper))
    found += blocks.paragraph(sheet.emergency, bold=True, paper=paper) if sheet.emergency else []
    if not sheet.emergency:
        found.append(blocks.lines_to_write(_(TO_FILL_IN), 2, paper=paper))
    found += [section(_("Circuits"), paper), *_loads(sheet, paper)]
    found += [space(1.6), *blocks.paragraph(_(place.CAUTIONS["power"]), paper=paper)]
    found += [section(_("Leads"), paper), *blocks.table(
        [Column(_("set-up"), 3), Column(_("light"), 1), Column(_("lead"), 4)], sheet.lead_rows, paper=paper
    ), space(1.6), *blocks.paragraph(_(place.CAUTIONS["leads"]), paper=paper)]  # fmt: skip
    rows = [(a, f"{'! ' if tight else ''}{b}", c) for a, b, c, tight in sheet.space_rows]
    found += [section(_("Ceiling and floor"), paper), *blocks.table(
        [Column(_("set-up"), 3), Column(_("under the ceiling"), 3), Column(_("set, of the room's length"), 3)], rows,
        paper=paper,
    ), space(1.6), *blocks.paragraph(_(place.CAUTIONS["place"]), paper=paper)]  # fmt: skip
    return Document(
        title,
        sheet.studio,
        tuple(found),
        title,
        _("{title}   printed {printed_at}").format(title=title, printed_at=sheet.printed_at),
    )


def _loads(sheet: LocationSheet, paper: Paper) -> list[Block]:
    if not sheet.loads:
        return blocks.paragraph(_("No circuit of this room is known: ask before anything is plugged in."), paper=paper)
    rows = [
        (one.setup, one.circuit, one.letters,
         ("! " if one.over else "") + _("{part} of {whole}").format(
             part=f"{one.watts:.0f}", whole=f"{one.limit_watts:.0f} W"
         ),
         f"{one.peak_amps:g} A")
        for one in sheet.loads
    ]  # fmt: skip
    columns = [Column(_("set-up"), 3), Column(_("circuit"), 2), Column(_("lights"), 1.2), Column(_("load"), 2.4),
               Column(_("peak"), 1, right=True)]  # fmt: skip
    return blocks.table(columns, rows, paper=paper)
