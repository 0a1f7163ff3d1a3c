"""Telling everybody of a rota their own time. Belongs here: what each letter says, its entry for a calendar, and who
was told what. Not here: writing it into the outbox (`actions.letters`), the order (`rota`). Nothing known of
somebody's comfort is in it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from urllib.parse import urlsplit

import icalendar
from django.conf import settings
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import wording
from bookings.models import Letter, LetterKind, Place, Rota
from studio import clock
from studio.models import Profile

EARLY_MINUTES = 5
NOT_TOLD, TOLD, CHANGED, NO_ADDRESS = "not_told", "told", "changed", "no_address"


@dataclass(frozen=True)
class Told:
    """One place with whether its person knows of it; `letter` is the newest one to them."""

    place: Place
    letter: Letter | None

    @property
    def state(self) -> str:
        if self.letter is not None:
            known = (self.letter.once_key or "").rpartition("-")[0]
            return TOLD if known == key_of(self.place) else CHANGED
        return NOT_TOLD if self.place.email else NO_ADDRESS

    @property
    def words(self) -> str:
        if self.state == TOLD and self.letter is not None:
            at = self.letter.sent_at or self.letter.written_at
            said = _("told %(day)s") if self.letter.sent_at else _("letter written %(day)s")
            return said % {"day": timezone.localtime(at).strftime("%d.%m., %H:%M")}
        words = {
            NOT_TOLD: _("not told yet"),
            CHANGED: _("told another time or place"),
            NO_ADDRESS: _("no address: tell by telephone"),
        }
        return str(words[self.state])

    @property
    def is_to_be_told(self) -> bool:
        return self.state == NOT_TOLD or (self.state == CHANGED and bool(self.place.email))


def key_of(place: Place) -> str:
    """The same as long as the time, the room and the address are: then nobody is told twice. A letter's own key has
    its number in the row of letters to this person behind it, so that a time given back is told again."""
    sitting = place.rota.sitting
    return f"{_begin(place)}{sitting.room_id}-{place.starts_at:%Y%m%d%H%M}-{place.email.casefold()[:60]}"


def _begin(place: Place) -> str:
    return f"place-{place.sitter_id}-"


def told(rota: Rota) -> list[Told]:
    """Everybody in turn, in a constant number of queries."""
    places = list(rota.places.in_turn().select_related("rota__sitting__room", "rota__sitting__client"))
    letters: dict[str, Letter] = {}
    for letter in Letter.objects.filter(sitting=rota.sitting, kind=LetterKind.PLACE).order_by("written_at", "pk"):
        letters["-".join((letter.once_key or "").split("-")[:2]) + "-"] = letter
    return [Told(place, letters.get(_begin(place))) for place in places]


def subject(place: Place, profile: Profile) -> str:
    time, day = wording.time(place.starts_at, profile.zone), wording.day(place.starts_at, profile.zone)
    return _("Your portrait: %(day)s, %(time)s") % {"day": day, "time": time}


def body(place: Place, profile: Profile) -> str:
    rota, sitting = place.rota, place.rota.sitting
    where = ", ".join(filter(None, [sitting.room.name, profile.studio_name, *profile.address.splitlines()]))
    lines = [
        _("Dear %(name)s,") % {"name": place.sitter.label},
        "",
        _("%(studio)s photographs you for %(client)s.")
        % {"studio": profile.studio_name, "client": sitting.client.name},
        "",
        _("When: %(day)s, %(time)s. It takes about %(minutes)d minutes; please be there %(early)d minutes before.")
        % {
            "day": wording.day(place.starts_at, profile.zone), "time": wording.time(place.starts_at, profile.zone),
            "minutes": rota.place_minutes, "early": EARLY_MINUTES,
        },
        _("Where: %(where)s.") % {"where": where},
    ]  # fmt: skip
    if rota.wear:
        lines.append(_("What to wear: %(wear)s") % {"wear": rota.wear})
    lines += ["", _("Your number is %(number)d: say it at the door.") % {"number": place.number}]
    reach = ", ".join(filter(None, [profile.telephone, profile.email]))
    if reach:
        lines += ["", _("If you cannot come then, tell us: %(reach)s.") % {"reach": reach}]
    return "\n".join([*lines, "", profile.studio_name])


def entry(place: Place, profile: Profile, *, sequence: int) -> bytes:
    """The place as an invitation (RFC 5545, method REQUEST): one identity for the person, a higher number each time."""
    host = urlsplit(settings.TENTHSTOP_URL).hostname or "localhost"
    event = icalendar.Event()
    event.add("uid", f"place-{place.sitter_id}@{host}")
    event.add("dtstamp", clock.now())
    event.add("sequence", sequence)
    event.add("dtstart", place.starts_at)
    event.add("dtend", place.starts_at + timedelta(minutes=place.rota.place_minutes))
    event.add("summary", _("Portrait at %(studio)s") % {"studio": profile.studio_name})
    event.add("location", ", ".join([place.rota.sitting.room.name, *profile.address.splitlines()]))
    event.add("status", "CONFIRMED")
    is_asked = bool(profile.email and place.email)
    if is_asked:
        event.add("organizer", f"mailto:{profile.email}")
        event.add("attendee", f"mailto:{place.email}", parameters={"PARTSTAT": "NEEDS-ACTION"})
    calendar = icalendar.Calendar()
    calendar.add("prodid", "-//Tenthstop//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "REQUEST" if is_asked else "PUBLISH")
    calendar.add_component(event)
    return bytes(calendar.to_ical())


def sequence_of(place: Place) -> int:
    """How many letters went to this person before."""
    return Letter.objects.filter(once_key__startswith=_begin(place)).count()


def without_address(rows: Iterable[Told]) -> Sequence[str]:
    return [row.place.sitter.label for row in rows if row.state == NO_ADDRESS]
