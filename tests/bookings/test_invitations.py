"""Invitations and calendars by the letter of RFC 5545, read back with a reader that is not ours."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar

from bookings import invitations
from bookings.invitations import CANCEL, REQUEST, Happening, Party
from tests.light.published import only

LONDON = ZoneInfo("Europe/London")
HOST, GUEST = Party("Lindenmere Portraits", "desk@lindenmere.example"), Party('Zoë "Z"; Ask,ew', "zoe@example.org")


def happening(starts_at: datetime, **said: object) -> Happening:
    given: dict[str, object] = {
        "uid": "u@tenthstop", "summary": "Sitting; with, all \\ kinds\nof signs", "place": "Long Room, 1 Weir Lane",
        "ends_at": starts_at + timedelta(minutes=75), "stamp": datetime(2026, 1, 2, tzinfo=UTC),
    }  # fmt: skip
    return Happening(starts_at=starts_at, **(given | said))  # type: ignore[arg-type]


def invited(one: Happening, method: str = REQUEST, zone: ZoneInfo = LONDON) -> bytes:
    return invitations.invitation(one, method=method, zone=zone, host=HOST, guest=GUEST)


def read(raw: bytes) -> Calendar:
    calendar = Calendar.from_ical(raw)
    assert not calendar.errors
    assert all(not event.errors for event in calendar.events)
    return calendar


def published(quantity: str) -> float:
    return only("calendars", quantity).value


@pytest.mark.parametrize("letter", ["a", "ß", "肖", "😀"])
def test_no_line_is_longer_than_published_and_no_letter_is_cut_in_two(letter: str) -> None:
    raw = invited(happening(datetime(2026, 5, 4, 9, tzinfo=LONDON), summary=letter * 200))
    lines = raw.split(b"\r\n")
    assert max(len(line) for line in lines) <= published("longest line")
    for line in lines:
        line.decode()
    assert str(read(raw).events[0]["summary"]) == letter * 200


def test_two_hundred_octets_are_folded_as_published() -> None:
    raw = invited(happening(datetime(2026, 5, 4, 9, tzinfo=LONDON), summary="a" * (200 - len("SUMMARY:"))))
    folded = raw[raw.index(b"SUMMARY:") :].split(b"\r\n")
    last = next(n for n, line in enumerate(folded[1:], 1) if not line.startswith(b" "))
    assert last == published("lines of folded text")
    assert len(b"".join([folded[0], *(line[1:] for line in folded[1:last])])) == 200


@pytest.mark.parametrize(
    ("local", "utc"),
    [
        (datetime(2026, 3, 28, 9, 30), datetime(2026, 3, 28, 9, 30)),  # the day before the clocks are put on
        (datetime(2026, 3, 29, 0, 30), datetime(2026, 3, 29, 0, 30)),  # over the hour that is skipped
        (datetime(2026, 3, 29, 9, 30), datetime(2026, 3, 29, 8, 30)),
        (datetime(2026, 10, 25, 9, 30), datetime(2026, 10, 25, 9, 30)),
        (datetime(2028, 2, 29, 9, 30), datetime(2028, 2, 29, 9, 30)),
    ],
)
def test_times_are_right_by_the_zone_that_comes_with_them(local: datetime, utc: datetime) -> None:
    starts_at = utc.replace(tzinfo=UTC)
    raw = invited(happening(starts_at))
    assert f"DTSTART;TZID=Europe/London:{local:%Y%m%dT%H%M%S}".encode() in raw
    calendar = read(raw)
    event = calendar.events[0]
    assert (event.end.astimezone(UTC) - event.start.astimezone(UTC)) == timedelta(minutes=75)
    # The zone as it was sent, not as this machine knows it.
    assert calendar.timezones[0].to_tz().utcoffset(local) == local - utc
    assert len(raw) < 3000


@pytest.mark.parametrize("starts_at", [datetime(2026, 10, 24, 23, 45), datetime(2026, 10, 25, 1, 15)])
def test_in_the_hour_that_comes_twice_the_moment_is_said_without_the_wall(starts_at: datetime) -> None:
    event = read(invited(happening(starts_at.replace(tzinfo=UTC)))).events[0]
    assert event.start == starts_at.replace(tzinfo=UTC)
    assert event.end - event.start == timedelta(minutes=75)


def test_an_invitation_says_all_that_a_mail_program_asks_for() -> None:
    calendar = read(invited(happening(datetime(2026, 5, 4, 9, tzinfo=LONDON), sequence=3)))
    event = calendar.events[0]
    assert (calendar["version"], calendar["method"], bool(calendar["prodid"])) == ("2.0", "REQUEST", True)
    assert (event["uid"], event["sequence"], event["status"]) == ("u@tenthstop", 3, "CONFIRMED")
    assert event["organizer"] == "mailto:desk@lindenmere.example"
    assert event["attendee"] == "mailto:zoe@example.org"
    assert event["attendee"].params["cn"] == "Zoë Z; Ask,ew"
    assert str(event["summary"]) == "Sitting; with, all \\ kinds\nof signs"
    assert event["dtstamp"].dt == datetime(2026, 1, 2, tzinfo=UTC)


def test_a_cancellation_is_of_the_same_event() -> None:
    event = read(invited(happening(datetime(2026, 5, 4, 9, tzinfo=LONDON), sequence=4), CANCEL)).events[0]
    assert (event["uid"], event["sequence"], event["status"]) == ("u@tenthstop", 4, "CANCELLED")


def test_what_was_sent_is_read_back_whole() -> None:
    one = happening(datetime(2026, 5, 4, 9, tzinfo=LONDON), sequence=2, words="L-0001\nby the yard")
    assert invitations.read_back(invited(one)) == (replace(one, stamp=None), "Zoë Z; Ask,ew")


def test_what_named_no_guest_is_read_back_as_well() -> None:
    one = happening(datetime(2026, 5, 4, 9, tzinfo=UTC))
    sent = invitations.calendar([one], name="Lindenmere Portraits", zone=UTC)
    assert invitations.read_back(sent) == (replace(one, stamp=None), "")


def test_a_studio_on_universal_time_sends_no_zone() -> None:
    calendar = read(invited(happening(datetime(2026, 5, 4, 9, tzinfo=UTC)), zone=ZoneInfo("UTC")))
    assert not calendar.timezones
    assert calendar.events[0].start == datetime(2026, 5, 4, 9, tzinfo=UTC)


def test_a_calendar_without_a_sitting_is_a_calendar_all_the_same() -> None:
    calendar = read(invitations.calendar([], name="Lindenmere Portraits", zone=LONDON))
    assert (calendar["method"], calendar.events) == ("PUBLISH", [])
