"""Everybody of a rota is told their own time, once, and again when it changes; with an entry for their calendar."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import icalendar
import pytest

from bookings import place_letters
from bookings.actions import place_letters as telling
from bookings.models import Letter, Notes, Place, Rota, Sitting
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import set_clock
from tests.bookings.making import House, at
from tests.bookings.turns import day_of, keep, place
from tests.pages import Visitor

LIST = "Corin Vale, corin@marrowfield.example\nZoë Ash, zoe@marrowfield.example, glasses\nLotta Grieg"


@pytest.fixture
def rota(house: House, monkeypatch: pytest.MonkeyPatch) -> Rota:
    set_clock(monkeypatch, at(9, days=-7))
    Profile.objects.update(
        time_zone="Europe/Berlin", address="3 Tannery Row\nQuillbridge", telephone="01632 960 214",
        email="desk@lindenmere.example",
    )  # fmt: skip
    return keep(house, day_of(house), LIST, only_listed=True, wear="Dark and plain.")


def states(rota: Rota) -> list[str]:
    """Of Corin, of Zoë and of Lotta."""
    found = {row.place.sitter.label: row.state for row in place_letters.told(rota)}
    return [found[name] for name in ("Corin Vale", "Zoë Ash", "Lotta Grieg")]


def test_everybody_is_told_their_own_time_in_the_house_s_zone(house: House, rota: Rota) -> None:
    Notes.objects.filter(sitter__label="Zoë Ash").update(no_flash=True)
    letters = telling.tell(by=house.desk, rota=rota)
    assert {letter.to for letter in letters} == {"corin@marrowfield.example", "zoe@marrowfield.example"}
    corin = next(letter for letter in letters if letter.to.startswith("corin"))
    assert corin.subject == "Your portrait: Thursday 3 December 2026, 10:00"
    assert "Dear Corin Vale," in corin.body
    assert "When: Thursday 3 December 2026, 10:00, for about 10 minutes" in corin.body
    assert "Please be there at: 09:55" in corin.body
    assert "Where: Long Room, 3 Tannery Row, Quillbridge" in corin.body
    assert "Marrowfield Joinery" in corin.body
    assert "What to wear: Dark and plain." in corin.body
    assert "Your number is 1" in corin.body
    for letter in letters:
        text = (letter.subject + letter.body + bytes(letter.attachments.get().content).decode()).lower()
        assert not [word for word in ("glasses", "flash", "shy") if word in text]


def test_the_owner_words_the_letter_and_sees_it_on_a_real_place(house: House, rota: Rota) -> None:
    harriet = Visitor(cast.client_of(house.members["owner"]))
    harriet.open("/wordings/place/")
    typed = {"subject": "{{ place.name }} at {{ place.time }}", "body": "Wear: {{ place.wear }}\n{{ place.shoes }}"}
    assert "there is no blank “place.shoes”" in harriet.press("Save", typed).words
    page = harriet.press("Preview", typed | {"body": "Wear: {{ place.wear }}"})
    assert "Corin Vale at 10:00" in page.words
    assert "Wear: Dark and plain." in page.words
    harriet.press("Save")
    assert {letter.subject for letter in telling.tell(by=house.desk, rota=rota)} == {
        "Corin Vale at 10:00", "Zoë Ash at 10:20"
    }  # fmt: skip


def test_the_entry_for_the_calendar_is_read_back_and_follows_a_change(house: House, rota: Rota) -> None:
    telling.tell(by=house.desk, rota=rota)
    Place.objects.filter(rota=rota, number=1).update(after=60)
    telling.tell(by=house.desk, rota=rota)
    to_corin = Letter.objects.filter(to__startswith="corin").order_by("pk")
    kept = [bytes(letter.attachments.get().content) for letter in to_corin]
    first, second = (icalendar.Calendar.from_ical(raw) for raw in kept)
    assert (first["METHOD"], first["VERSION"]) == ("REQUEST", "2.0")
    events = [calendar.walk("VEVENT")[0] for calendar in (first, second)]
    assert [event.errors for event in events] == [[], []]
    assert events[0]["UID"] == events[1]["UID"]
    assert [int(event["SEQUENCE"]) for event in events] == [0, 1]
    assert [event.decoded("DTSTART") for event in events] == [at(9), at(10)]
    assert events[0].decoded("DTEND") - events[0].decoded("DTSTART") == timedelta(minutes=10)
    assert events[0]["ATTENDEE"] == "mailto:corin@marrowfield.example"
    assert all(len(line) <= 75 for raw in kept for line in raw.split(b"\r\n"))


def test_the_entry_is_made_as_every_invitation_of_the_house_is(house: House, rota: Rota, settings: Any) -> None:
    settings.EMAIL_FROM = "Lindenmere <post@lindenmere.example>"
    (corin, _zoe) = telling.tell(by=house.desk, rota=rota)
    enclosed = corin.attachments.get()
    calendar = icalendar.Calendar.from_ical(bytes(enclosed.content))
    event = calendar.walk("VEVENT")[0]
    assert enclosed.media_type == 'text/calendar; method=REQUEST; charset="utf-8"'
    assert event["ORGANIZER"] == "mailto:post@lindenmere.example", "from where the letter comes"
    assert event["DTSTART"].params["TZID"] == "Europe/Berlin"
    assert calendar.walk("VTIMEZONE")


def test_a_studio_without_an_address_encloses_no_entry_and_takes_the_place_back_all_the_same(
    house: House, rota: Rota
) -> None:
    Profile.objects.update(email="")
    assert [letter.attachments.count() for letter in telling.tell(by=house.desk, rota=rota)] == [0, 0]
    Letter.objects.filter(to__startswith="zoe").update(state="sent", sent_at=at(9, days=-6))
    rota.refresh_from_db()
    rota = keep(house, Sitting.objects.get(pk=rota.sitting_id), "Lotta Grieg", seen=rota.version, only_listed=True)
    (off,) = telling.tell(by=house.desk, rota=rota)
    assert (off.to, off.attachments.count()) == ("zoe@marrowfield.example", 0)


def test_nobody_is_told_twice_and_whoever_moves_is_told_again(house: House, rota: Rota) -> None:
    assert states(rota) == ["not_told", "not_told", "no_address"]
    assert len(telling.tell(by=house.desk, rota=rota)) == 2
    assert telling.tell(by=house.desk, rota=rota) == []
    assert states(rota) == ["told", "told", "no_address"]
    keep(house, Sitting.objects.get(pk=rota.sitting_id), LIST, seen=rota.version)  # the same list again
    assert states(Rota.objects.get()) == ["told", "told", "no_address"]
    rota = Rota.objects.get()
    Place.objects.filter(rota=rota, sitter__label="Zoë Ash").update(after=30)
    assert states(rota) == ["told", "changed", "no_address"]
    telling.tell(by=house.desk, rota=rota)
    Place.objects.filter(rota=rota, sitter__label="Zoë Ash").update(after=20)  # and back
    assert len(telling.tell(by=house.desk, rota=rota)) == 1
    Sitting.objects.filter(pk=rota.sitting_id).update(starts_at=at(14))
    assert states(Rota.objects.get()) == ["changed", "changed", "no_address"]


def test_the_desk_writes_them_with_one_press_and_hears_who_has_no_address(house: House, rota: Rota) -> None:
    maud = Visitor(cast.client_of(house.desk))
    maud.open(f"/sittings/{rota.sitting.number}/rota/")
    page = maud.press("Write to everybody who does not know their time")
    assert "2 letters are written. Without an address, to be told by telephone: Lotta Grieg." in page.words
    assert "letter written" in page.words
    page = maud.press("Write to everybody who does not know their time")
    assert "Everybody with an address knows their time." in page.words
    assert place(rota, "Lotta").email == ""


def test_whoever_is_taken_off_is_told_so_and_a_letter_not_gone_yet_is_not_sent(house: House, rota: Rota) -> None:
    telling.tell(by=house.desk, rota=rota)
    Letter.objects.filter(to__startswith="zoe").update(state="sent", sent_at=at(9, days=-6))
    rota.refresh_from_db()
    rota = keep(house, Sitting.objects.get(pk=rota.sitting_id), "Lotta Grieg", seen=rota.version, only_listed=True)
    (off,) = telling.tell(by=house.desk, rota=rota)
    assert (off.to, off.subject[:11]) == ("zoe@marrowfield.example", "Given back:")
    event = icalendar.Calendar.from_ical(bytes(off.attachments.get().content))
    first = icalendar.Calendar.from_ical(bytes(Letter.objects.get(to=off.to, state="sent").attachments.get().content))
    assert event["METHOD"] == "CANCEL"
    was, off_event = (one.walk("VEVENT")[0] for one in (first, event))
    for same in ("UID", "DTSTART", "DTEND", "SUMMARY", "LOCATION", "ORGANIZER", "ATTENDEE"):
        assert off_event[same].to_ical() == was[same].to_ical() != b"", same
    assert off_event["ATTENDEE"].params["CN"] == "Zoë Ash"
    assert [str(one["STATUS"]) for one in (was, off_event)] == ["CONFIRMED", "CANCELLED"]
    assert [int(one["SEQUENCE"]) for one in (was, off_event)] == [0, 1]
    assert Letter.objects.get(to__startswith="corin").state == "given_up"
    assert telling.tell(by=house.desk, rota=rota) == []
