"""Strike list and power and place as content: what only the database knows of them. Belongs here: the same content for
screen and paper. Not here: layout or words (`sheets`)."""

from __future__ import annotations

from datetime import datetime

from django.conf import settings
from django.urls import reverse
from django.utils.translation import gettext as _

from shotplans import set_page
from shotplans.models import Plan
from shotplans.paper import clock_words, heading
from shotplans.sheets import measures, place
from shotplans.sheets.location_sheet import LocationSheet
from shotplans.sheets.strike import Line
from shotplans.sheets.strike_sheet import StrikeSheet
from studio import clock
from studio.models import Profile


def strike(plan: Plan, profile: Profile, printed_at: datetime | None = None) -> StrikeSheet | None:
    """None where nothing was built."""
    found, last = set_page.struck(plan, measures.of(profile.units)), set_page.last_setup(plan)
    if found is None or last is None:
        return None
    head = heading(plan, printed_at or clock.now(), profile)
    return StrikeSheet(
        studio=head.studio, sitting=head.sitting, client=head.client, date=head.date, room=head.room,
        finish_at=head.finish_at, struck_at=clock_words(plan.sitting.strike_ends_at), plan_version=plan.number,
        setup=last["name"], printed_at=head.printed_at, url=_url("strike", plan),
        lines=tuple(one.line for one in found.lines if isinstance(one.line, Line)), cautions=found.cautions,
        after=found.after.sitting.number if found.after else "", stays=found.stays, moves=found.moves,
    )  # fmt: skip


def location(plan: Plan, profile: Profile, printed_at: datetime | None = None) -> LocationSheet:
    sitting, ways = plan.sitting, measures.of(profile.units)
    room, head = sitting.room, heading(plan, printed_at or clock.now(), profile)
    size = _("%(width)s by %(depth)s, ceiling %(ceiling)s") % {
        "width": ways.length(room.width_m), "depth": ways.length(room.depth_m), "ceiling": ways.length(room.ceiling_m),
    }  # fmt: skip
    times = _("Set-up %(setup)s, sitters %(sitter)s to %(finish)s, struck by %(struck)s") % {
        "setup": head.setup_at, "sitter": head.sitter_at, "finish": head.finish_at,
        "struck": clock_words(sitting.strike_ends_at),
    }  # fmt: skip
    return LocationSheet(
        studio=head.studio, sitting=head.sitting, client=head.client, date=head.date, room=head.room, away=room.away,
        times=times, plan_version=plan.number, printed_at=head.printed_at, url=_url("location", plan),
        address=room.address or ("" if room.away else profile.address),
        way_in=room.way_in or ("" if room.away else profile.way_in), power_note=room.power_note,
        emergency=room.emergency, size=size, loads=tuple(place.loads(plan.document)),
        leads=tuple(place.leads(plan.document, plan.filled_request)),
        clearances=tuple(place.clearances(plan.document, plan.request)), measures=ways,
    )  # fmt: skip


def _url(name: str, plan: Plan) -> str:
    return settings.TENTHSTOP_URL + reverse(name, args=(plan.sitting.number, plan.number))
