"""A time for a sitting that is there already: another like it for its client, or this one moved, by pages alone."""

from __future__ import annotations

from datetime import date

import pytest
from django.test import Client as Browser

from bookings import once_more
from bookings.models import Sitting, Stage
from tests import lindenmere
from tests.hands.quick import QuickHand
from tests.pages import Visitor

TARRANT, ASKEW = "L-0005", "L-0001"


@pytest.fixture
def maud(studio: None) -> Visitor:
    return lindenmere.visitor("front_desk")


def first_gap(maud: Visitor) -> str:
    """The address behind the first answer."""
    return next(address for words, address in maud.page.links if "/?day=" in address)


def test_a_client_is_booked_once_more_without_typing_anything_again(maud: Visitor) -> None:
    before = Sitting.objects.get(number=ASKEW)
    maud.open(f"/clients/{before.client_id}/")
    maud.follow("Once more: Anniversary couple")
    assert "like L-0001" in maud.page.words
    maud.open(first_gap(maud))
    assert maud.page.form_with("Book it").values["people_line"] == ["Ottoline 66, Bertram 68"]
    maud.press("Book it")
    booked = Sitting.objects.order_by("-pk").first()
    assert booked is not None
    assert booked.pk != before.pk
    assert (booked.client_id, booked.kind_id, booked.minutes) == (before.client_id, before.kind_id, before.minutes)
    assert [one.label for one in booked.sitters.all()] == ["Ottoline", "Bertram"]
    assert not any(hasattr(one, "notes") for one in booked.sitters.all()), "what somebody told once is asked anew"


def test_ages_go_on_with_the_years(studio: None) -> None:
    row = Sitting.objects.get(number=ASKEW)
    assert once_more.people_in_a_line(row, row.starts_at.date()) == "Ottoline 66, Bertram 68"
    assert once_more.people_in_a_line(row, date(row.starts_at.year + 2, 12, 31)) == "Ottoline 68, Bertram 70"
    row.sitters.filter(label="Bertram").update(age_years=None)
    row.sitters.filter(label="Ottoline").update(age_years=0.5)
    assert once_more.people_in_a_line(row, row.starts_at.date()) == "Ottoline 6 months, Bertram"


def test_a_sitting_is_moved_to_another_free_time_without_typing_one(maud: Visitor) -> None:
    before = Sitting.objects.get(number=TARRANT)
    maud.open(f"/sittings/{TARRANT}/")
    maud.follow("Other free times")
    assert "Nothing is moved before you save it." in maud.page.words
    maud.open(first_gap(maud))
    assert Sitting.objects.get(number=TARRANT).starts_at == before.starts_at
    maud.press("Save")
    after = Sitting.objects.get(number=TARRANT)
    assert after.starts_at != before.starts_at
    for same in ("room_id", "photographer_id", "assistant_id", "minutes"):
        assert getattr(after, same) == getattr(before, same), same


def test_from_find_a_sitting_is_moved_in_twelve_strokes(maud: Visitor) -> None:
    before, hand = Sitting.objects.get(number=TARRANT), QuickHand(maud.client)
    hand.find("tarrant")
    hand.follow("Other free times", beside=TARRANT)
    hand.follow("day ")
    hand.press("Save")
    hand.says("Changed.")
    assert Sitting.objects.get(number=TARRANT).starts_at != before.starts_at
    assert hand.counted.clicks + hand.counted.keys <= 12


@pytest.mark.parametrize(
    "asked", ["like=L-9999", "move=%00", "like=\u00e9", "move=" + "9" * 5000, "like=", "move=L-0005&first=junk"]
)
def test_what_an_address_names_wrongly_is_left_out(maud: Visitor, asked: str) -> None:
    browser: Browser = maud.client
    assert browser.get(f"/diary/gaps/?{asked}").status_code == 200
    assert browser.get(f"/sittings/new/?{asked}&day=junk&at=25:99&room=x").status_code == 200


def test_a_sitting_that_was_photographed_is_not_moved(maud: Visitor) -> None:
    Sitting.objects.filter(number=TARRANT).update(stage=Stage.PHOTOGRAPHED)
    assert once_more.of({"move": TARRANT}) is None
    assert once_more.of({"like": TARRANT}) is not None
