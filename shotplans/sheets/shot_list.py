"""The shot list on paper, in the order of the day: set-up by set-up with its change-over in walks, each picture with a
tick, its time, its people and one base line and one caution.

Belongs here: its content from a plan's document, and its page.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import groupby
from typing import Any

from shotplans.planner import shotlist
from shotplans.sheets import changeover, wording
from shotplans.sheets.change_walks import Walk
from shotplans.sheets.changeover import Standing
from shotplans.sheets.content import Heading
from shotplans.sheets.measures import METRIC, Measures
from studio.paper import blocks
from studio.paper.page import (
    A4,
    BODY,
    HEAVY,
    ROW,
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
from studio.tongue import ngettext

Entry = Mapping[str, Any]
RIGHT = 44.0


@dataclass(frozen=True, kw_only=True)
class Row:
    """One picture: `when` is the clock, empty where no time is booked."""

    number: int
    when: str
    who: str
    words: str
    base: str
    caution: str
    rest: str
    must: bool
    off: bool


@dataclass(frozen=True, kw_only=True)
class Part:
    """The pictures taken in one go in one set-up, with what stands and how it is changed to."""

    setup: str
    stands: str
    walks: tuple[Walk, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, kw_only=True)
class ShotList:
    heading: Heading
    total: str
    parts: tuple[Part, ...]


def compose(
    document: Entry, request: Any, heading: Heading, starts_at: datetime, measures: Measures = METRIC
) -> ShotList:
    """The list of a plan; `starts_at` is when the sitters are there, in the studio's time."""
    setups = {s["name"]: s for s in document["setups"]}
    parts: list[Part] = []
    before: Entry | None = None
    for name, run in groupby(document["shots"], key=lambda shot: shot["setup"]):
        setup = setups[name]
        walks = () if before is None else _walks(before, setup, request, measures)
        rows = tuple(_row(shot, len(setup["sitters"]), starts_at) for shot in run)
        parts.append(Part(setup=name, stands=_stands(setup, measures), walks=walks, rows=rows))
        before = setup
    return ShotList(heading=heading, total=_total(document["shots"]), parts=tuple(parts))


def _walks(before: Entry, after: Entry, request: Any, measures: Measures) -> tuple[Walk, ...]:
    return changeover.in_walks(Standing(before, request), Standing(after, request), measures)


def _stands(setup: Entry, measures: Measures) -> str:
    camera = setup["camera"]
    if camera is None:
        return _("No usable light: see the problems of the plan.")
    return _("{focal_mm:g} mm, {distance} from the mark, {height} high, {nearest_third}").format(
        focal_mm=camera["focal_mm"],
        distance=measures.length(camera["distance_m"]),
        height=measures.length(camera["height_m"]),
        nearest_third=camera["nearest_third"],
    )


def _row(shot: Entry, everybody: int, starts_at: datetime) -> Row:
    begins, pose = shot.get("starts_min"), shot.get("pose", {})
    count = ngettext("{frames} frame", "{frames} frames", shot["frames"]).format(frames=shot["frames"])
    frames = (_("{count}, {minutes} min") if shot["minutes"] else "{count}").format(
        count=count, minutes=f"{shot['minutes'] or 0:g}"
    )
    way = f"{wording.framing(shot['framing'])}, {wording.orientation(shot.get('orientation', ''))}"
    words = [own for own in (shot.get("words"), shotlist.last_said(shot.get("last", ()))) if own]
    return Row(
        number=shot["n"],
        when=f"{starts_at + timedelta(minutes=begins):%H:%M}" if begins is not None else "",
        who=wording.people(shot["who"], everybody),
        words=" ".join(words),
        base=pose.get("base", ""),
        caution=pose.get("caution", ""),
        rest=f"{frames}. {way}",
        must=shot["must"],
        off=shot.get("falls_off", False),
    )  # fmt: skip


def _total(shots: Sequence[Entry]) -> str:
    if not shots or shots[-1].get("starts_min") is None:
        return ngettext("{n} picture.", "{n} pictures.", len(shots)).format(n=len(shots))
    ends = round(shots[-1]["starts_min"] + shots[-1]["minutes"], 1)
    off = [str(s["n"]) for s in shots if s["falls_off"]]
    words = ngettext("{n} picture in {minutes} minutes.", "{n} pictures in {minutes} minutes.", len(shots))
    said = words.format(n=len(shots), minutes=f"{ends:g}")
    return f"{said} {_('No time is left for {pictures}.').format(pictures=', '.join(off))}" if off else said


def render(listed: ShotList, paper: Paper = A4) -> bytes:
    """The list as a PDF. Equal content, print time included, gives equal bytes."""
    return write(document(listed, paper), paper)


def document(listed: ShotList, paper: Paper = A4) -> Document:
    h = listed.heading
    name = _("Shot list, {sitting} {client}").format(sitting=h.sitting, client=h.client)
    when = _("{date}, {room}. Sitter {sitter_at}, finish {finish_at}.").format(
        date=h.date, room=h.room, sitter_at=h.sitter_at, finish_at=h.finish_at
    )
    found = [blocks.head(name, (when, listed.total), url=h.url, paper=paper)]
    for n, part in enumerate(listed.parts):
        found += _part(part, n, paper)
    return Document(
        title=_("{name}, plan {plan_version}").format(name=name, plan_version=h.plan_version),
        author=h.studio, blocks=tuple(found),
        running=fitted(name, ROW, paper.inner, True)[0],
        foot=_("Sitting {sitting}   plan {plan_version}   printed {printed_at}").format(
            sitting=h.sitting, plan_version=h.plan_version, printed_at=h.printed_at
        ),
    )  # fmt: skip


def _part(part: Part, n: int, paper: Paper) -> list[Block]:
    found: list[Block] = []
    if part.walks:
        title = section(_("Changing over: {setup}").format(setup=part.setup), paper)
        found.append(title)
        for number, walk in enumerate(part.walks, 1):
            found += _kept(
                blocks.paragraph(
                    _("Walk {number}, {metres:g} m").format(number=number, metres=walk.metres), bold=True, paper=paper
                )
            )
            found += [_move(m.words, title, paper) for m in walk.moves]
    head = section(part.setup, paper)
    found += [head, *_kept(blocks.paragraph(part.stands, paper=paper)), *(_shot(r, head, paper) for r in part.rows)]
    return [*found, space(2.0)]


def _kept(found: Sequence[Block]) -> list[Block]:
    """The same on one page with what follows."""
    return [replace(block, with_next=True) for block in found]


def _move(words: str, head: Block, paper: Paper) -> Block:
    lines = fitted(words, BODY, paper.inner - TICK_MM - 3)

    def draw(pen: Pen, top: float) -> None:
        pen.box(0, top + 0.6, TICK_MM, TICK_MM)
        pen.lines(TICK_MM + 3, top + 0.8, lines, BODY)

    return Block(max(TICK_MM, len(lines) * line_mm(BODY)) + 1.4, draw, head=head)


def _shot(row: Row, head: Block, paper: Paper) -> Block:
    """One picture: the tick, number and time at the left, who and what, then base and caution, one line each."""
    left = TICK_MM + 26.0
    wide = paper.inner - left - RIGHT
    said = fitted(f"{row.who[:1].upper()}{row.who[1:]}. {row.words}".strip(), ROW, wide, True)
    under = [
        line for label, words in ((_("Base"), row.base), (_("Caution"), row.caution)) if words
        for line in fitted(f"{label}: {words}", BODY, paper.inner - left)
    ]  # fmt: skip
    side = fitted(row.rest, BODY, RIGHT - 3)
    top_part = max(len(said) * line_mm(ROW), (len(side) + 1) * line_mm(BODY), TICK_MM + 1.0)
    height = top_part + len(under) * line_mm(BODY) + 2.6

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner, HEAVY if row.must else 0.2)
        pen.box(0, top + 1.2, TICK_MM, TICK_MM)
        pen.text(TICK_MM + 9.5, top + 1.2, str(row.number), ROW, bold=True, align="right")
        pen.text(TICK_MM + 11.5, top + 1.2, row.when, ROW)
        pen.lines(left, top + 1.2, said, ROW, bold=True)
        rank = _("no time left") if row.off else _("must") if row.must else _("extra")
        pen.text(paper.inner - RIGHT + 3, top + 1.2, rank, BODY, bold=row.must)
        pen.lines(paper.inner - RIGHT + 3, top + 1.2 + line_mm(BODY), side, BODY)
        pen.lines(left, top + 1.4 + top_part, under, BODY)

    return Block(height, draw, head=head)
