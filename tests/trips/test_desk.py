"""The desk's own features on its pages: what is held, refused, agreed and offered, by links and buttons alone."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from bookings.models import Sitting, Trust
from tests import cast
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.filling import new_sitting, person
from tests.bookings.making import House, at, make_house
from tests.pages import Page, Visitor

ADDRESS = "/sittings/new/"
NOW = at(8, days=-2)


@pytest.fixture
def house(db: None, settings: Any, monkeypatch: pytest.MonkeyPatch) -> House:
    settings.SITTING_PANELS = []
    set_clock(monkeypatch, NOW)
    return make_house()


@pytest.fixture
def maud(house: House) -> Visitor:
    return Visitor(cast.client_of(house.desk))


@pytest.fixture
def harriet(house: House) -> Visitor:
    return Visitor(cast.client_of(house.members["owner"]))


def ask(house: House, maud: Visitor, *people: dict[str, str], **typed: Any) -> Page:
    """What the desk sends from the page of a new sitting, objections set aside."""
    sent = new_sitting(house, *people, **({"acknowledged": ["closed", "hours", "away"]} | typed))
    return maud._arrive(ADDRESS, maud.client.post(ADDRESS, sent, follow=True))


def test_feature_01_intake_of_four_people_on_one_page(house: House, maud: Visitor) -> None:
    four = [person(n, name, age_years=age) for n, (name, age) in enumerate([("Edda", "41"), ("Piers", "43"),
            ("Wilf", "2"), ("Tove", "7")])]  # fmt: skip
    page = ask(house, maud, *four, purpose="a wall over the sideboard", print_width_cm="75")
    assert "L-0001 is booked and held." in page.words
    kept = Sitting.objects.get()
    assert [(one.label, one.age_years) for one in kept.sitters.all()] == [
        ("Edda", 41), ("Piers", 43), ("Wilf", 2), ("Tove", 7)
    ]  # fmt: skip
    assert (kept.purpose, kept.print_width_cm) == ("a wall over the sideboard", 75)


def test_feature_03_a_lapsed_hold_frees_the_time_and_the_second_is_offered_it(
    house: House, maud: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = house.book()
    page = ask(house, maud, room=house.room.pk, time="09:30")
    assert "Place a second hold behind L-0001" in str(page.forms[-1].buttons)
    maud.press("Place a second hold behind L-0001")
    assert "waits behind L-0001" in maud.page.words
    set_clock(monkeypatch, again(first).hold.expires_at)
    ask(house, maud, room=house.room.pk, time="09:30", new_name="Wren Hollis")
    assert again(first).stage == "enquiry"
    page = maud.open("/sittings/L-0002/")
    assert "Studio's move: offer it to the client" in page.words


def test_feature_04_the_only_boom_is_refused_at_booking_with_who_holds_it(
    house: House, maud: Visitor, harriet: Visitor
) -> None:
    boom = cast.make_kit("stands", "boom-1", label="boom", kind="boom")
    harriet.open(f"/kinds/{house.kind.pk}/")
    harriet.press("Save", {"Always needs": str(boom.pk)})
    house.kind.refresh_from_db()
    house.book()
    other = cast.make_member("photographer", name="Nell Orrin")
    page = ask(house, maud, time="10:00", photographer=other.pk)
    assert "The boom is held by L-0001, Askew, from 09:00 to 11:00. Next free: 11:00." in page.words
    assert Sitting.objects.count() == 1
    page = maud.press("Book it for Thursday 3 December, 11:30 instead")
    held = Sitting.objects.get(number="L-0002").claims.get(resource_kind="kit")
    assert (held.resource_id, held.starts_at, held.ends_at) == (boom.pk, at(11), at(13))


def test_feature_05_set_up_and_strike_are_in_the_way_on_the_page(house: House, maud: Visitor) -> None:
    house.book(starts_at=at(10), minutes=60, setup_minutes=60, strike_minutes=30)
    page = ask(house, maud, room=house.room.pk, time="08:30", minutes="30", setup_minutes="0", strike_minutes="0")
    assert "L-0001 is" not in page.words
    assert Sitting.objects.count() == 2
    other = cast.make_member("photographer", name="Nell Orrin")
    late = {"room": house.room.pk, "minutes": "30", "setup_minutes": "0", "strike_minutes": "0"}
    page = ask(house, maud, time="08:45", photographer=other.pk, new_name="Wren Hollis", **late)
    assert "The Long Room is held by" in page.words
    assert Sitting.objects.count() == 2


def test_feature_06_the_owner_waives_later_and_the_desk_waits_longer(
    house: House, maud: Visitor, harriet: Visitor
) -> None:
    agree(house)
    sitting = house.book()
    maud.open(f"/sittings/{sitting.number}/")
    page = maud.press("Now confirmed")
    assert "GBP 45.00 of the deposit is missing" in page.words
    assert again(sitting).stage == "held"
    maud.press("Now confirmed", {"trust_until": "2026-12-02"})
    page = maud.press("Answer for the deposit", {"trust_day": "2026-12-09"})
    assert "Trust can last from today until the day of the sitting." in page.words
    page = maud.press("Answer for the deposit", {"trust_day": "2026-12-03"})
    assert "on trust until Thursday 3 December 2026" in page.words
    assert "waive" not in page.form_with("Answer for the deposit").values
    harriet.open(f"/sittings/{sitting.number}/")
    page = harriet.press("Answer for the deposit", {"waive": "on"})
    assert "Say why in the note" in page.words
    page = harriet.press("Answer for the deposit", {"waive": "on", "deposit_note": "our mistake"})
    assert "waived by HV" in page.words
    assert "The deposit is missing" not in page.words
    assert Trust.objects.get().waived
    said = [change.sentence for change in again(sitting).changes.filter(what="deposit")]
    assert len(said) == 3


def test_a_stale_answer_for_a_deposit_is_refused(house: House, maud: Visitor) -> None:
    agree(house)
    sitting = house.book()
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Now confirmed", {"trust_until": "2026-12-02"})
    Sitting.objects.update(version=9)
    page = maud.press("Answer for the deposit", {"trust_day": "2026-12-03"})
    assert page.status == 422
    assert "Somebody else changed L-0001" in page.words
    assert Trust.objects.get().until == date(2026, 12, 2)


def test_feature_07_an_older_booking_keeps_its_terms_on_its_page(house: House, maud: Visitor) -> None:
    terms = agree(house)
    house.book()
    terms.wordings.update(deposit_percent=Decimal(50), words="Other words.")
    page = maud.open("/sittings/L-0001/")
    assert "GBP 45.00" in page.words
    assert "Twenty minutes late come off the sitting." in page.words
    assert "Other words." not in page.words


def test_the_time_on_offer_lies_in_the_hours_of_house_and_people(house: House, maud: Visitor) -> None:
    house.book(starts_at=at(16, 30))
    page = ask(house, maud, room=house.room.pk, time="17:00")
    assert "Next free: Friday 4 December 2026, 08:00" in page.words
    assert "Book it for Friday 4 December, 08:30 instead" in str([form.buttons for form in page.forms])
