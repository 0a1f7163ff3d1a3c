"""The late list on paper. Belongs here: its content as plain words and its PDF, from the same rows as the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from bookings import clocks, wording
from bookings.afterwards import Afterwards
from studio.models import Profile
from studio.paper import blocks, page


@dataclass(frozen=True)
class LateSheet:
    """All that are past their promise, one row each."""

    studio: str
    printed_at: str
    rows: tuple[tuple[str, ...], ...]


def content(found: Sequence[Afterwards], profile: Profile, now: datetime) -> LateSheet:
    return LateSheet(
        studio=profile.studio_name,
        printed_at=wording.moment_in_full(now, profile.zone),
        rows=tuple(_row(one) for one in found),
    )


def render(sheet: LateSheet, paper: page.Paper = page.A4) -> bytes:
    """A PDF; equal content gives equal bytes."""
    title = _("Late list")
    columns = [
        blocks.Column(_("days past"), 9, right=True), blocks.Column(_("sitting"), 24),
        blocks.Column(_("promised for"), 22), blocks.Column(_("whose move"), 25), blocks.Column(_("reason"), 32),
    ]  # fmt: skip
    found = [blocks.head(title, [sheet.studio, _("Sittings past the day they were promised for.")], paper=paper)]
    if sheet.rows:
        found += blocks.table(columns, sheet.rows, paper=paper)
    else:
        found += blocks.paragraph(_("Nothing is late."), paper=paper)
    foot = _("%(title)s   printed %(at)s") % {"title": title, "at": sheet.printed_at}
    return page.write(page.Document(title, sheet.studio, tuple(found), title, foot), paper)


def _row(one: Afterwards) -> tuple[str, ...]:
    since = date_format(one.turn.at.astimezone(one.zone), "j F Y")
    whose = _("client's") if one.whose == clocks.CLIENT else _("studio's")
    return (
        str(one.days_past),
        f"{one.sitting.number}\n{one.sitting.client.name}",
        wording.date(one.promise) if one.promise else "-",
        _("%(whose)s: %(what)s, since %(since)s") % {"whose": whose, "what": one.what_words, "since": since},
        str(one.reason) if one.reason else _("not said yet"),
    )
