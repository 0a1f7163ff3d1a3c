"""Times that are waited for. Belongs here: offering one that came free, and taking a client off the list. Not here: who
fits (`bookings.wait_list`)."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction
from django.db.models import F, Q
from django.utils.translation import gettext as _

from bookings import wait_list, wording
from bookings.actions import letters
from bookings.models import Letter, LetterKind, Sitting, WantedTime
from bookings.refusals import CardChanged, NotToOffer
from studio import clock
from studio.languages import as_house
from studio.models import Member, Profile


@transaction.atomic
def offer(*, by: Member, wanted: WantedTime, sitting: Sitting) -> Letter:
    """Write to a waiting client that the time of a sitting came free; a second tap writes nothing new. The time is
    not held by it: who answers first has it. Refuses with `NotToOffer`."""
    kept = WantedTime.objects.select_for_update(of=("self",)).with_names().get(pk=wanted.pk)
    profile = Profile.get()
    if kept.off_at is not None or not wait_list.is_free(sitting, clock.now()):
        raise NotToOffer(kept.client.short_name)
    match = wait_list.match(sitting, kept, profile.zone)
    if match is None:
        raise NotToOffer(kept.client.short_name)
    if kept.offered_id != sitting.pk:
        kept.offered, kept.offered_at = sitting, clock.now()
        kept.version += 1
        kept.save(update_fields=["offered", "offered_at", "version"])
    with as_house(profile):
        subject, body = _letter(kept, sitting, match.start, profile)
    return letters.write(
        client=kept.client,
        kind=LetterKind.OFFER,
        to=kept.client.email,
        subject=subject,
        body=body,
        by=by,
        once_key=f"offer {kept.pk} {sitting.pk} {match.start.isoformat()}",
        useless_at=match.start,
    )


def _letter(kept: WantedTime, sitting: Sitting, start: datetime, profile: Profile) -> tuple[str, str]:
    """Subject and body of the offer of a time."""
    words = {
        "name": kept.client.name, "studio": profile.studio_name, "day": wording.day(start, profile.zone),
        "time": wording.time(start, profile.zone), "minutes": kept.minutes, "room": sitting.room.name,
        "who": sitting.photographer.name, "ring": f", {profile.telephone}" if profile.telephone else "",
    }  # fmt: skip
    body = _(
        "Dear %(name)s,\n\nyou asked for a time with us, and one came free: %(day)s, %(time)s, for %(minutes)d minutes "
        "in the %(room)s with %(who)s.\n\nIt is not held for you yet: whoever answers first has it. Answer this letter "
        "or ring us%(ring)s. If it does not suit you, you need not do anything; we keep your wish."
        "\n\n%(studio)s\n"
    ) % words
    return _("A time came free: %(day)s, %(time)s") % words, body


@transaction.atomic
def take_off(*, wanted: WantedTime, seen: int) -> WantedTime:
    """A client who waits no longer. Refuses with `CardChanged`."""
    kept = WantedTime.objects.select_for_update(of=("self",)).get(pk=wanted.pk)
    if kept.version != seen:
        raise CardChanged
    if kept.off_at is None:
        kept.off_at = clock.now()
        kept.version += 1
        kept.save(update_fields=["off_at", "version"])
    return kept


def booked(sitting: Sitting) -> None:
    """Inside a booking's transaction: its client waits no longer for a sitting of that kind, or of any."""
    rows = WantedTime.objects.waiting().filter(Q(kind=None) | Q(kind=sitting.kind_id), client=sitting.client_id)
    rows.update(off_at=clock.now(), version=F("version") + 1)
