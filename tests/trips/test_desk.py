"""The desk's own features on its pages: what is held, refused, agreed and offered, by links and buttons alone."""

from __future__ import annotations

from datetime import UTC, date, time
from decimal import Decimal
from typing import Any

import pytest

from bookings import wait_list
from bookings.actions import holds
from bookings.models import Client, Letter, Sitting, Trust, WantedTime
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


def wants(house: House, name: str, **wishes: Any) -> WantedTime:
    client = Client.objects.create(name=name, email=f"{name.split()[0].lower()}@example.org")
    said = {"minutes": 60, "written_at": at(9, days=-30), "by": house.desk}
    return WantedTime.objects.create(client=client, **(said | wishes))


def test_feature_22_a_cancelled_time_lists_the_best_fit_and_one_tap_offers_it(house: House, maud: Visitor) -> None:
    sitting = house.book()
    wren = Client.objects.create(name="Wren Hollis", email="wren@example.org")
    maud.open(f"/clients/{wren.pk}/")
    maud.follow("Enter what time they would take")
    page = maud.press("Save", {"Kind of sitting": str(house.kind.pk), "weekdays": ["3"], "note": "rings after five"})
    assert "Saved: Wren Hollis waits for a time." in page.words
    assert "Anniversary couple; 75 minutes; any room; any photographer; Thursday" in page.words
    wants(house, "Orla Penhallow", room=house.room)
    wants(house, "Idris Vane", minutes=30)
    for name, no in (("Room Else", {"room": house.other_room}), ("Day Else", {"weekdays": [0]}),
                     ("Too Long", {"minutes": 90}), ("Late Only", {"earliest": time(14)}),
                     ("Later On", {"first_on": date(2026, 12, 4)})):  # fmt: skip
        wants(house, name, **no)
    maud.open(f"/sittings/{sitting.number}/")
    assert "came free" not in maud.page.words
    page = maud.press("Now cancelled", {"note": "moved away"})
    words = page.words[page.words.index("The time that came free") :]
    order = [words.index(name) for name in ("Wren Hollis", "Orla Penhallow", "Idris Vane")]
    assert order == sorted(order)
    assert not [name for name in ("Room Else", "Day Else", "Too Long", "Late Only", "Later On") if name in words]
    assert "From 09:30: fills all 75 minutes; the same kind of sitting; asked for a Thursday; waits since" in words
    assert "60 of 75 minutes; asked for the Long Room" in words
    page = maud.press("Offer it to Hollis")
    assert "Offered: the letter to Wren Hollis is on its way." in page.words
    letter = Letter.objects.get(kind="offer")
    assert (letter.to, letter.sitting_id) == ("wren@example.org", None)
    assert "Thursday 3 December 2026, 09:30, for 75 minutes in the Long Room" in letter.body
    assert "Offer it to Hollis" not in str([form.buttons for form in page.forms])
    page = maud.follow("Book it for Hollis")
    held = page.forms[-1].values
    assert (held["client"], held["day"], held["time"]) == ([str(wren.pk)], ["2026-12-03"], ["09:30"])
    house.book(client=wren)
    assert not WantedTime.objects.waiting().filter(client=wren).exists()
    page = maud.open(f"/sittings/{sitting.number}/")
    assert "came free" not in page.words  # somebody has it


def test_an_offer_that_comes_too_late_says_so_and_writes_nothing(house: House, maud: Visitor) -> None:
    sitting, wanted = house.book(), wants(house, "Orla Penhallow")
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Now cancelled", {"note": "moved away"})
    house.book(client=Client.objects.create(name="Idris Vane"))
    page = maud.press("Offer it to Penhallow")
    assert "that time is not free any more" in page.words
    wanted.refresh_from_db()
    assert (wanted.offered_at, Letter.objects.filter(kind="offer").count()) == (None, 0)


def test_a_lapsed_time_is_offered_too_and_a_wish_can_be_taken_off(
    house: House, maud: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting, wanted = house.book(), wants(house, "Orla Penhallow", latest=time(9, 0))
    near = wants(house, "Idris Vane", latest=time(9, 30))
    holds.release_lapsed(again(sitting).hold.expires_at)
    set_clock(monkeypatch, NOW)
    page = maud.open(f"/sittings/{sitting.number}/")
    assert "Idris Vane" in page.words
    assert "Orla Penhallow" not in page.words  # set-up and way there leave no start before 09:30
    maud.open(f"/waiting/times/{near.pk}/")
    page = maud.press("Waits no longer")
    assert "Taken off: Idris Vane waits no longer." in page.words
    assert list(WantedTime.objects.waiting()) == [wanted]


def test_wishes_that_cannot_be_are_refused_beside_their_field(house: House, maud: Visitor) -> None:
    maud.open(f"/clients/{house.client.pk}/times/new/")
    typed = {"first_on": "2027-02-29", "last_on": "2026-12-01", "earliest": "15:00", "latest": "14:00",
             "note": "n" * 300}  # fmt: skip
    page = maud.press("Save", typed)
    assert page.status == 422
    for said in ("Enter a valid date", "Say how long, or choose a kind", "The latest start comes before the earliest"):
        assert said in page.words
    assert page.form_with("Save").values["note"] == ["n" * 300]
    page = maud.press("Save", {"first_on": "2028-02-29", "note": "", "minutes": "60", "latest": ""})
    assert "The last day comes before the first." in page.words
    assert not WantedTime.objects.exists()


def test_as_many_questions_for_many_who_wait_as_for_one(
    house: House, maud: Visitor, django_assert_max_num_queries: Any
) -> None:
    sitting = house.book()
    for n in range(20):
        wants(house, f"Waiter{n} Vane")
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Now cancelled", {"note": "moved away"})
    sitting = again(sitting)
    with django_assert_max_num_queries(2):
        assert len(wait_list.matches(sitting, now=NOW, zone=UTC)) == wait_list.MOST
