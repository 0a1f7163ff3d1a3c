"""Booking a sitting: what it holds, what is refused and in which words."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction

from bookings.actions import claims
from bookings.actions.sittings import SitterInput
from bookings.models import Claim, Client, Notes, Sitter, Sitting, StageChange, Wish
from bookings.refusals import NotInUse, SamePerson, Taken, WrongPeople
from studio.models import Member, Profile
from tests import cast
from tests.bookings.making import House, at


def book_other(house: House, **changes: Any) -> Sitting:
    """Another client in another room with other people, but for `changes`."""
    another = {
        "client": Client(name="Ignace Dorrow"),
        "room": house.other_room,
        "photographer": Member.objects.filter(name="Nell Orrin").first()
        or cast.make_member("photographer", name="Nell Orrin"),
        "assistant": None,
    }
    return house.book(**(another | changes))


def test_a_sitting_holds_its_room_and_people_each_for_its_own_span(house: House) -> None:
    sitting = house.book()
    held = {(c.resource_kind, c.resource_id): (c.starts_at, c.ends_at) for c in sitting.claims.all()}
    assert held == {
        ("room", house.room.pk): (at(9), at(11)),
        ("member", house.members["assistant"].pk): (at(9), at(11)),
        ("member", house.members["photographer"].pk): (at(9, 15), at(10, 45)),
    }
    assert (sitting.setup_starts_at, sitting.ends_at, sitting.strike_ends_at) == (at(9), at(10, 45), at(11))


def test_numbers_run_on_behind_the_letter_of_the_studio(house: House) -> None:
    assert [house.book(starts_at=at(9, days=n)).number for n in range(3)] == ["L-0001", "L-0002", "L-0003"]


def test_a_refused_booking_uses_no_number_and_keeps_nothing(house: House) -> None:
    house.book()
    with pytest.raises(Taken):
        house.book(client=Client(name="Nobody yet"), sitters=[SitterInput("N", notes={"no_flash": True})])
    assert (Client.objects.count(), Sitting.objects.count(), Sitter.objects.count()) == (1, 1, 2)
    assert (Notes.objects.count(), StageChange.objects.count()) == (0, 1)
    assert house.book(starts_at=at(14)).number == "L-0002"


def test_a_taken_room_is_refused_with_what_holds_it_and_when_it_is_free(house: House) -> None:
    house.book()
    with pytest.raises(Taken) as refused:
        book_other(house, room=house.room, starts_at=at(10, 30))
    assert str(refused.value) == ("The Long Room is held by L-0001, Askew, from 09:00 to 11:00. Next free: 11:00.")
    assert refused.value.next_free == at(11)
    assert refused.value.next_start == at(11, 30)
    book_other(house, room=house.room, starts_at=refused.value.next_start)


def test_a_taken_person_is_refused_by_name(house: House) -> None:
    house.book()
    with pytest.raises(Taken) as refused:
        house.book(room=house.other_room, assistant=None, starts_at=at(10, 30))
    assert str(refused.value) == "Tobiah Renn is held by L-0001, Askew, from 09:15 to 10:45. Next free: 10:45."


def test_the_start_on_offer_suits_everybody_not_only_the_first_in_the_way(house: House) -> None:
    house.book()
    book_other(house, assistant=house.members["assistant"], starts_at=at(12), minutes=60)
    with pytest.raises(Taken) as refused:
        house.book(starts_at=at(10))
    # The room is free from 11:00, but Ines is at the other sitting from 11:30 to 13:15.
    assert refused.value.next_start == at(13, 45)
    house.book(starts_at=refused.value.next_start)


def test_another_day_is_said_with_its_day_and_times_are_those_of_the_studio(house: House) -> None:
    Profile.objects.update(time_zone="Asia/Tokyo")
    house.book(minutes=1440)
    with pytest.raises(Taken) as refused:
        house.book(starts_at=at(9))
    assert "from 18:00 to Friday 4 December 2026, 18:45. Next free: Saturday 5 December 2026, 08:00." in str(
        refused.value
    )


def test_feature_04_the_only_boom_wanted_twice_is_refused_with_the_reason(house: House) -> None:
    boom = cast.make_kit("stands", "boom-1", label="boom", kind="boom")
    first, second = house.book(), book_other(house, starts_at=at(10))
    claims.claim_kit(sitting=first, kit=[boom.pk])
    with pytest.raises(Taken) as refused:
        claims.claim_kit(sitting=second, kit=[boom.pk])
    assert str(refused.value) == "The boom is held by L-0001, Askew, from 09:00 to 11:00. Next free: 11:00."
    assert claims.kit_held_by_others(second) == {boom.pk}
    with pytest.raises(Taken, match="Long Room"):
        book_other(house, room=house.room, photographer=house.desk)
    with pytest.raises(Taken, match="Ines Calloway"):
        book_other(house, photographer=house.desk, room=cast.make_room("Attic"), assistant=house.members["assistant"])


def test_feature_05_a_ten_o_clock_sitting_with_60_and_30_around_blocks_nine_onward(house: House) -> None:
    house.book(starts_at=at(10), minutes=60, setup_minutes=60, strike_minutes=30)
    around = {"setup_minutes": 0, "strike_minutes": 0, "minutes": 30}
    for moment in (at(8, 45), at(9), at(11, 15)):
        with pytest.raises(Taken, match="from 09:00 to 11:30"):
            house.book(starts_at=moment, **around)
    house.book(starts_at=at(8, 30), **around)
    house.book(starts_at=at(11, 30), **around)


def test_moving_the_kit_gives_up_what_is_not_wanted_any_more(house: House) -> None:
    head, octabox = cast.make_kit("heads"), cast.make_kit("modifiers")
    first, second = house.book(), book_other(house)
    claims.claim_kit(sitting=first, kit=[head.pk, octabox.pk])
    claims.claim_kit(sitting=first, kit=[octabox.pk])
    claims.claim_kit(sitting=second, kit=[head.pk])
    assert first.claims.count() == 4
    with pytest.raises(Taken):
        claims.claim_kit(sitting=second, kit=[octabox.pk])
    assert second.claims.filter(resource_kind="kit").get().resource_id == head.pk, "a refusal gives nothing up"


def test_one_person_is_not_photographer_and_assistant_at_once(house: House) -> None:
    with pytest.raises(SamePerson, match="Tobiah Renn is the photographer"):
        house.book(assistant=house.members["photographer"])


def test_a_room_out_of_use_is_refused(house: House) -> None:
    type(house.room).objects.update(active=False)
    with pytest.raises(NotInUse, match="The Long Room is not in use any more"):
        house.book()


@pytest.mark.parametrize(
    ("people", "says"),
    [
        ([], "at least one"),
        ([SitterInput("A"), SitterInput("A")], "Two people are called A"),
        ([SitterInput(str(n)) for n in range(61)], "60 people at most"),
    ],
)
def test_people_must_be_some_and_told_apart(house: House, people: list[SitterInput], says: str) -> None:
    with pytest.raises(WrongPeople, match=says):
        house.book(sitters=people)


def test_people_come_with_their_notes_and_wishes(house: House) -> None:
    wish = {"note": "lines", "side": "both", "wish": "softer"}
    notes = {"texture": "deep lines", "no_flash": False, "skin": "", "stand_minutes": None}
    sitting = house.book(sitters=[SitterInput("Ottoline", notes=notes, wishes=[wish, {"note": "", "side": ""}])])
    kept = Notes.objects.get(sitter__sitting=sitting)
    assert (kept.texture, kept.no_flash, kept.hearing, kept.skin) == ("deep lines", False, None, "")
    assert list(Wish.objects.values("note", "side", "wish")) == [wish]


def test_a_sitter_of_whom_nothing_is_known_has_no_row_of_notes(house: House) -> None:
    house.book(sitters=[SitterInput("Ottoline", notes={"skin": "", "no_flash": None})])
    assert not Notes.objects.exists()


# The database itself: what no code of ours may get around.


def claim(sitting: Sitting, first: int, last: int, **changes: Any) -> Claim:
    values = {"resource_kind": "kit", "resource_id": 7, "starts_at": at(first), "ends_at": at(last)}
    return Claim.objects.create(sitting=sitting, **(values | changes))


@pytest.mark.parametrize(("first", "last"), [(10, 11), (8, 13), (9, 12), (8, 10), (11, 13)])
def test_the_database_refuses_an_overlap_whoever_asks(house: House, first: int, last: int) -> None:
    sitting = house.book()
    claim(sitting, 9, 12)
    with pytest.raises(IntegrityError), transaction.atomic():
        claim(sitting, first, last)
    claim(sitting, first, last, resource_id=8)
    claim(sitting, 12, 13)
    later = claim(sitting, 8, 9)
    with pytest.raises(IntegrityError), transaction.atomic():
        Claim.objects.filter(pk=later.pk).update(ends_at=at(9) + timedelta(seconds=1))
    Claim.objects.filter(pk=later.pk).update(ends_at=at(8) + timedelta(microseconds=500))


@pytest.mark.parametrize("last", [9, 8, 9 + 24 * 32])
def test_the_database_refuses_a_claim_without_length_or_without_end(house: House, last: int) -> None:
    sitting = house.book()
    with pytest.raises(IntegrityError), transaction.atomic():
        claim(sitting, 9, last)


def test_a_claim_as_long_as_may_be_still_stands_in_the_way_on_its_last_day(house: House) -> None:
    sitting = house.book()
    claim(sitting, 9, 9 + 24 * 31)
    with pytest.raises(IntegrityError), transaction.atomic():
        claim(sitting, 8 + 24 * 31, 10 + 24 * 31)
