"""Invitations and calendars as text (RFC 5545). Belongs here: what an event says and how a calendar is put together.
Not here: who may read one (`bookings.feed`), sending one (`actions.correspondence`).

Nothing of comfort notes, and of a client no more than their own invitation says to themselves.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event, vCalAddress, vText

PRODUCT = "-//Tenthstop//sittings//EN"
REQUEST, CANCEL = "REQUEST", "CANCEL"


@dataclass(frozen=True)
class Happening:
    """One event: when, where, what, and how often it was changed."""

    uid: str
    starts_at: datetime
    ends_at: datetime
    summary: str
    place: str = ""
    words: str = ""
    sequence: int = 0
    stamp: datetime | None = None
    tentative: bool = False

    @property
    def digest(self) -> str:
        """What it says, without how often."""
        said = (self.starts_at.isoformat(), self.ends_at.isoformat(), self.summary, self.place, self.words)
        return hashlib.sha256("\x1f".join(said).encode()).hexdigest()


@dataclass(frozen=True)
class Party:
    name: str
    email: str


def invitation(one: Happening, *, method: str, zone: tzinfo, host: Party, guest: Party) -> bytes:
    """What a mail program offers to put into the guest's calendar, or to take out again."""
    event = _event(one, zone)
    event["organizer"] = _address(host, "CHAIR")
    guest_line = _address(guest, "REQ-PARTICIPANT")
    guest_line.params["partstat"] = vText("ACCEPTED" if method == CANCEL else "NEEDS-ACTION")
    guest_line.params["rsvp"] = vText("FALSE")
    event.add("attendee", guest_line, encode=False)
    event.add("status", "CANCELLED" if method == CANCEL else "CONFIRMED")
    return _calendar([event], zone, [one], method=method).to_ical()


def read_back(sent: bytes) -> tuple[Happening, str]:
    """What an invitation said that was sent, and its guest's name: for taking it back where what it was about is
    gone."""
    event = Calendar.from_ical(sent).events[0]
    guest = event.get("attendee")
    one = Happening(
        uid=str(event["uid"]),
        starts_at=event.start,
        ends_at=event.end,
        summary=str(event["summary"]),
        place=str(event.get("location", "")),
        words=str(event.get("description", "")),
        sequence=int(event["sequence"]),
    )
    return one, "" if guest is None else str(guest.params.get("cn", ""))


def calendar(found: Sequence[Happening], *, name: str, zone: tzinfo) -> bytes:
    """A calendar to subscribe to."""
    events = []
    for one in found:
        event = _event(one, zone)
        event.add("status", "TENTATIVE" if one.tentative else "CONFIRMED")
        events.append(event)
    made = _calendar(events, zone, found, method="PUBLISH")
    made.add("x-wr-calname", name)
    made.add("name", name)
    made.add("refresh-interval", timedelta(hours=1), parameters={"value": "DURATION"})
    made.add("x-published-ttl", "PT1H")
    return made.to_ical()


def _event(one: Happening, zone: tzinfo) -> Event:
    event = Event()
    event.add("uid", one.uid)
    event.add("dtstamp", one.stamp or one.starts_at)
    starts_at, ends_at = one.starts_at.astimezone(zone), one.ends_at.astimezone(zone)
    if starts_at.fold or ends_at.fold:  # the second of an hour that comes twice: no time on the wall can say which
        starts_at, ends_at = starts_at.astimezone(UTC), ends_at.astimezone(UTC)
    event.add("dtstart", starts_at)
    event.add("dtend", ends_at)
    event.add("sequence", one.sequence)
    event.add("summary", one.summary)
    if one.place:
        event.add("location", one.place)
    if one.words:
        event.add("description", one.words)
    return event


def _calendar(events: Sequence[Event], zone: tzinfo, found: Sequence[Happening], *, method: str) -> Calendar:
    made = Calendar()
    made.add("prodid", PRODUCT)
    made.add("version", "2.0")
    made.add("method", method)
    for event in events:
        made.add_component(event)
    if found and isinstance(zone, ZoneInfo) and zone.key != "UTC":
        # From the year before to the year after: the clock changes that matter, and no seventy years of them.
        first = min(one.starts_at for one in found).date() - timedelta(days=366)
        last = max(one.ends_at for one in found).date() + timedelta(days=366)
        made.add_missing_timezones(first_date=first, last_date=last)
    return made


def _address(party: Party, role: str) -> vCalAddress:
    line = vCalAddress(f"mailto:{party.email}")
    # A parameter cannot hold a double quote or a control character.
    name = "".join(letter for letter in party.name if letter.isprintable() and letter != '"')
    if name:
        line.params["cn"] = vText(name)
    line.params["role"] = vText(role)
    return line
