"""Everything a day needs on paper: the day sheet, door lists, each sitting's setup sheets and meter cards, the packing
list.

Belongs here: which papers there are, in which order, and what they are called. Not here: what is on them (`paper` and
`sheets`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.conf import settings
from django.db.models import prefetch_related_objects
from django.urls import reverse
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings import rota_board, rota_paper
from bookings.models import Sitting
from shotplans import packing_page, paper, set_papers, workbench
from shotplans.models import Plan
from shotplans.sheets import (
    changeover,
    day_sheet,
    location_sheet,
    measures,
    meter_card,
    packing_sheet,
    setup_sheet,
    strike,
    strike_sheet,
)
from shotplans.sheets.changeover import Standing
from shotplans.sheets.day_sheet import Change, DaySheet, DaySitting
from shotplans.workbench import Planned, plans_of
from studio import clock
from studio.models import Profile
from studio.paper.page import Document, write_all

MOST_NAME = 60  # letters of a client's name in the name of a file


@dataclass(frozen=True)
class Paper:
    """One paper of the day: its file's name and what is on it."""

    file: str
    document: Document


@dataclass(frozen=True)
class _Built:
    """A set-up in the order of the day, with the sitting it belongs to."""

    sitting: Sitting
    standing: Standing


def day_content(day: date, planned: Sequence[Planned], profile: Profile, printed_at: datetime) -> DaySheet:
    """The day sheet's content: every sitting, planned or not."""
    prefetch_related_objects([one.sitting for one in planned], "sitters")
    last: dict[int, _Built] = {}  # by room: the set-up that stands there
    rows = []
    for one in planned:
        changes = _changes(one, last, profile) if one.plan else ()
        rows.append(_sitting(one, changes))
    return DaySheet(
        studio=profile.studio_name,
        date=paper.day_words(day),
        printed_at=paper.moment_words(printed_at),
        url=f"{settings.TENTHSTOP_URL}{reverse('day_sheet')}?day={day:%Y-%m-%d}",
        sittings=tuple(rows),
    )


def papers(day: date, profile: Profile, printed_at: datetime | None = None) -> list[Paper]:
    """All papers of a day, the wall's first, then the door's, then sitting by sitting, then what is packed."""
    now, size = printed_at or clock.now(), paper.size_of(profile)
    planned = workbench.planned_on(day)
    found = [Paper("day-sheet.pdf", day_sheet.document(day_content(day, planned, profile, now), size))]
    found += door_lists(planned, profile, now)
    plans = plans_of(planned)
    for plan in plans:
        found += of_plan(plan, profile, now)
    for where, packed in packing_page.by_list(plans).items():
        name = f"packing-list-{where.lower()}.pdf" if where else "packing-list.pdf"
        found.append(Paper(name, packing_sheet.document(paper.packing_list(packed, profile, now), size)))
    return found


def door_lists(planned: Sequence[Planned], profile: Profile, now: datetime) -> Iterator[Paper]:
    """A list for the door for each sitting whose people come in turn, planned or not."""
    for rota in rota_board.of_sittings(one.sitting for one in planned):
        board = rota_board.read(rota, now, with_needs=False)
        yield Paper(f"{_file_name(rota.sitting)}-door-list.pdf", rota_paper.door_document(board, profile))


def of_plan(plan: Plan, profile: Profile, printed_at: datetime) -> Iterator[Paper]:
    """The setup sheets and meter cards of one plan, set-up by set-up."""
    size, name = paper.size_of(profile), _file_name(plan.sitting)
    cards = {card.number: card for card in paper.meter_cards(plan, profile, printed_at)}
    for sheet in paper.sheets(plan, profile, printed_at):
        yield Paper(f"{name}-setup-{sheet.number}.pdf", setup_sheet.document(sheet, size))
        if sheet.number in cards:
            yield Paper(f"{name}-meter-{sheet.number}.pdf", meter_card.document(cards[sheet.number], size))
    struck = set_papers.strike(plan, profile, printed_at)
    if struck is not None:
        yield Paper(f"{name}-strike.pdf", strike_sheet.document(struck, size))
    if plan.sitting.room.away:
        place = set_papers.location(plan, profile, printed_at)
        yield Paper(f"{name}-place.pdf", location_sheet.document(place, size))


def pdf(day: date, profile: Profile) -> bytes:
    """The whole day as one file with a bookmark for each paper."""
    title = _("All papers of %(day)s") % {"day": paper.day_words(day)}
    found = papers(day, profile)
    return write_all([p.document for p in found], paper.size_of(profile), title=title, author=profile.studio_name)


def _file_name(sitting: Sitting) -> str:
    client = slugify(sitting.client.short_name)[:MOST_NAME].strip("-")  # a name in another script leaves nothing
    return re.sub("-+$", "", f"{sitting.number}-{client}".lower())


def _sitting(one: Planned, changes: tuple[Change, ...]) -> DaySitting:
    sitting = one.sitting
    staff = [sitting.photographer.name] + ([sitting.assistant.name] if sitting.assistant else [])
    return DaySitting(
        sitting=sitting.number,
        client=sitting.client.name,
        kind=sitting.kind.name,
        room=sitting.room.name,
        setup_at=paper.clock_words(sitting.setup_starts_at),
        sitter_at=paper.clock_words(sitting.starts_at),
        finish_at=paper.clock_words(sitting.ends_at),
        struck_at=paper.clock_words(sitting.strike_ends_at),
        staff=", ".join(staff),
        people=_people(one),
        plan=_plan(one.plan),
        changes=changes,
    )


def _people(one: Planned) -> str:
    count = len(one.sitting.sitters.all())
    return ngettext("%(n)d person", "%(n)d people", count) % {"n": count}


def _plan(plan: Plan | None) -> str:
    if plan is None:
        return _("No plan yet")
    count = len(plan.setups)
    return ngettext("Plan %(v)d, %(n)d set-up", "Plan %(v)d, %(n)d set-ups", count) % {"v": plan.number, "n": count}


def _changes(one: Planned, last: dict[int, _Built], profile: Profile) -> tuple[Change, ...]:
    """From what stands in the room already to each set-up of this sitting."""
    given, ways = one.plan.filled_request, measures.of(profile.units)  # type: ignore[union-attr]
    found = []
    for setup in one.plan.setups:  # type: ignore[union-attr]
        if setup["camera"] is None:
            continue
        here = _Built(one.sitting, Standing(setup, given))
        before = last.get(one.sitting.room_id)
        if before is not None:
            stays = strike.stays_up(before.standing, here.standing, ways) if before.sitting != here.sitting else ()
            said = tuple(_("Stays up: %(what)s") % {"what": what} for what in stays)
            lines = changeover.lines(before.standing, here.standing, ways)
            found.append(Change(_from(before, here), (*said, *lines)))
        last[one.sitting.room_id] = here
    return tuple(found)


def _from(before: _Built, here: _Built) -> str:
    names = {"before": before.standing.setup["name"], "after": here.standing.setup["name"]}
    if before.sitting == here.sitting:
        return _("From “%(before)s” to “%(after)s”") % names
    return _("From %(number)s “%(before)s” to “%(after)s”") % (names | {"number": before.sitting.number})
