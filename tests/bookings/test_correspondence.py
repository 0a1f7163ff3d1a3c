"""The house's own letters: everything that was agreed, the invitation that follows every change, and wordings."""

from __future__ import annotations

import re
from datetime import datetime
from decimal import Decimal
from io import BytesIO

import pytest
from icalendar import Calendar
from pypdf import PdfReader

from bookings import correspondence, letter_paper
from bookings.actions import correspondence as writing
from bookings.actions import letters, money
from bookings.actions.sittings import SitterInput, change_stage
from bookings.blanks import faults
from bookings.first_wordings import FIRST
from bookings.models import Letter, LetterKind, Sitting, Stage
from studio.models import Profile
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.making import House, at, make_house
from tests.bookings.test_reminders import move


@pytest.fixture
def house(db: None, monkeypatch: pytest.MonkeyPatch) -> House:
    set_clock(monkeypatch, at(9, days=-20))
    house = make_house()
    agree(house)
    house.client.email = "askew@quillbridge.example"
    house.client.save()
    Profile.objects.update(
        telephone="01632 960100", email="desk@lindenmere.example", address="1 Weir Lane\nQuillbridge",
        way_in="Green door, no step", time_zone="Europe/London",
    )  # fmt: skip
    return house


@pytest.fixture
def sitting(house: House) -> Sitting:
    person = SitterInput("Ottoline", age_years=66, wishes=[{"note": "lines", "wish": "softer"}])
    held = house.book(sitters=[person, SitterInput("Bertram", age_years=70)])
    money.take(by=house.desk, sitting=held, kind="deposit", amount=Decimal(45), method="card")
    return again(held)


def event_of(letter: Letter) -> tuple[str, int, datetime, str]:
    enclosed = letter.attachments.get()
    calendar = Calendar.from_ical(bytes(enclosed.content))
    event = calendar.events[0]
    assert enclosed.media_type == f'text/calendar; method={calendar["method"]}; charset="utf-8"'
    return str(event["uid"]), int(event["sequence"]), event.start, str(calendar["method"])


@pytest.mark.parametrize("kind", list(FIRST))
def test_the_first_wordings_have_no_wrong_blank(kind: str) -> None:
    text = correspondence.first_wording(kind)
    assert faults(text.subject + "\n" + text.body, correspondence.BLANKS) == []


def test_the_deposit_confirms_in_writing_and_the_letter_shows_it_paid(sitting: Sitting) -> None:
    letter = Letter.objects.get(kind=LetterKind.CONFIRMATION)
    assert sitting.stage == Stage.CONFIRMED
    assert letter.to == "askew@quillbridge.example"
    assert "GBP 45.00 (paid)" in letter.body
    assert event_of(letter)[1:] == (0, at(9, 30), "REQUEST")


def test_wishes_and_notes_stand_in_no_letter_and_no_invitation(sitting: Sitting) -> None:
    letter = Letter.objects.get(kind=LetterKind.CONFIRMATION)
    said = letter.body + letter.subject + bytes(letter.attachments.get().content).decode()
    assert not [word for word in ("softer", "lines", "wish") if word in said.lower()]
    assert not re.search(r"\b66\b", said)  # an invitation's own number may hold any digits


def test_what_was_promised_is_kept_with_the_sitting_when_the_kind_changes(house: House) -> None:
    house.kind.included, house.kind.images = "One large print", 6
    house.kind.save()
    held = house.book()
    house.kind.included, house.kind.images = "Nothing", 1
    house.kind.save()
    said = correspondence.values(again(held), Profile.get())
    assert (said["sitting.included"], said["sitting.images"]) == ("One large print", "6")


def test_a_move_updates_the_same_invitation_and_withdraws_the_letter_that_waits(
    house: House, sitting: Sitting
) -> None:
    first = Letter.objects.get(kind=LetterKind.CONFIRMATION)
    move(house, sitting, at(12))
    assert Letter.objects.get(pk=first.pk).state == Letter.State.WITHDRAWN
    second = Letter.objects.filter(kind=LetterKind.CONFIRMATION).latest("pk")
    assert event_of(second) == (event_of(first)[0], 1, at(12), "REQUEST")
    letters.handed_over(letter=second, by=house.desk)
    move(house, sitting, at(13))
    change = Letter.objects.get(kind=LetterKind.CHANGE)
    assert event_of(change)[1:] == (2, at(13), "REQUEST")
    assert "13:00" in change.body
    assert "costs" not in change.body  # nothing was charged, so nothing is said of it
    correspondence_again(house, sitting)
    assert sitting.invitation.sequence == 2  # the same once more is no change


def correspondence_again(house: House, sitting: Sitting) -> None:
    writing.confirm(again(sitting), by=house.desk)


def test_cancelling_takes_it_out_of_the_calendar_and_says_the_fee(
    house: House, sitting: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_clock(monkeypatch, at(9, days=-2))
    change_stage(
        by=house.desk, sitting=sitting, to=Stage.CANCELLED, note="rang", agreed_fee=Decimal(45)
    )
    letter = Letter.objects.get(kind=LetterKind.CANCELLATION)
    assert event_of(letter)[1:] == (1, at(9, 30), "CANCEL")
    assert "GBP 45.00" in letter.body
    assert Letter.objects.get(kind=LetterKind.CONFIRMATION).state == Letter.State.WITHDRAWN


def test_an_enquiry_or_a_hold_let_go_writes_nothing(house: House) -> None:
    change_stage(by=house.desk, sitting=house.book(), to=Stage.CANCELLED, note="rang")
    assert not Letter.objects.exists()


def test_a_client_without_an_address_gets_paper_and_no_invitation(house: House) -> None:
    house.client.email = ""
    house.client.save()
    held = house.book()
    money.take(by=house.desk, sitting=held, kind="deposit", amount=Decimal(45), method="cash")
    letter = Letter.objects.get()
    assert (letter.to, letter.attachments.count()) == ("", 0)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_on_paper_it_says_the_same(sitting: Sitting, paper: str) -> None:
    profile = Profile.get()
    profile.paper = paper
    letter = Letter.objects.get()
    raw = letter_paper.render(letter, profile)
    said = " ".join("".join(page.extract_text() for page in PdfReader(BytesIO(raw)).pages).split())
    for line in letter.body.splitlines():
        assert " ".join(line.split())[:40] in said
    assert raw == letter_paper.render(letter, profile)
