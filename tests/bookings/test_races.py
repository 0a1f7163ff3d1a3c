"""Many at once who want the same: one gets it, the others are told so, and nobody meets a locked database."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pytest

from bookings.actions import changes, claims
from bookings.actions.sittings import SitterInput
from bookings.models import Claim, Place, Sitting, SittingChange
from tests import cast
from tests.bookings import racing
from tests.bookings.making import House, at, make_house
from tests.bookings.turns import begun

ROUNDS, CLIENTS = 2, 64  # of what is promised; a hundred rounds: `python -m tests.bench race`
THREADS = 16  # around it


@pytest.fixture
def shared_house(transactional_db: None) -> House:
    """Kept for good, so that every thread sees it."""
    return make_house()


def race(act: Callable[[int], object], threads: int = THREADS) -> Counter[str]:
    return racing.race(act, threads)


def test_of_64_who_book_one_hour_one_gets_it_and_63_are_told(shared_house: House) -> None:
    house = shared_house
    people = [house.members["photographer"], house.members["assistant"]]
    for number in range(ROUNDS):

        def book(thread: int, day: int = number) -> None:
            # Every other one asks for the same people the other way round: who locks as asked would embrace.
            photographer, assistant = people if thread % 2 else reversed(people)
            house.book(starts_at=at(9, days=day), photographer=photographer, assistant=assistant)

        assert race(book, CLIENTS) == {"done": 1, "Taken": CLIENTS - 1}
    assert sorted(Sitting.objects.values_list("number", flat=True)) == [f"L-{n:04d}" for n in range(1, ROUNDS + 1)]
    assert Claim.objects.count() == 3 * ROUNDS


def test_of_many_sittings_that_want_one_boom_one_gets_it(shared_house: House) -> None:
    house = shared_house
    kit = [cast.make_kit("stands", f"boom-{n}", label="boom", kind="boom").pk for n in range(2)]
    rooms = [cast.make_room(f"Room {n}", circuits=0) for n in range(THREADS)]
    people = [cast.make_member("photographer", name=f"P{n} Orrin") for n in range(THREADS)]
    for number in range(2):
        sittings = [
            house.book(starts_at=at(9, days=number), room=room, photographer=person, assistant=None)
            for room, person in zip(rooms, people, strict=True)
        ]

        def want(thread: int, booked: list[Sitting] = sittings) -> None:
            claims.claim_kit(sitting=booked[thread], kit=kit if thread % 2 else reversed(kit))

        assert race(want) == {"done": 1, "Taken": THREADS - 1}


def test_different_rooms_and_people_at_one_time_all_get_theirs_with_numbers_of_their_own(shared_house: House) -> None:
    house = shared_house
    rooms = [cast.make_room(f"Room {n}", circuits=0) for n in range(THREADS)]
    people = [cast.make_member("photographer", name=f"P{n} Orrin") for n in range(THREADS)]

    def book(thread: int) -> None:
        house.book(room=rooms[thread], photographer=people[thread], assistant=None)

    assert race(book) == {"done": THREADS}
    assert len(set(Sitting.objects.values_list("number", flat=True))) == THREADS


def test_of_many_sittings_moved_into_one_hour_one_gets_there_and_the_others_keep_theirs(shared_house: House) -> None:
    booked = [shared_house.book(starts_at=at(9, days=n + 1), sitters=[SitterInput("A")]) for n in range(THREADS)]

    def move(thread: int) -> None:
        row = booked[thread]
        names = ("minutes", "setup_minutes", "strike_minutes", "room", "photographer", "assistant", "purpose")
        as_it_is = {name: getattr(row, name) for name in (*names, "print_width_cm")}
        changes.change(by=shared_house.desk, sitting=row, seen=1, starts_at=at(9), people=[], **as_it_is)

    assert race(move) == {"done": 1, "Taken": THREADS - 1}
    assert Claim.objects.count() == 3 * THREADS
    assert Sitting.objects.filter(starts_at=at(9)).count() == 1
    assert SittingChange.objects.filter(what="starts_at").count() == 1


def test_one_entry_sent_by_eight_at_once_is_carried_out_once_and_answered_alike(shared_house: House) -> None:
    rota, answers = begun(shared_house, 2), []
    headers = {"X-Entry": "6f1c2d52-0a0e-4a57-9c39-6f8a5d0f3b11", "X-Entry-Made": "0", "X-Entry-Sent": "1000"}
    windows = [cast.client_of(shared_house.members["assistant"]) for _thread in range(8)]

    def send(thread: int) -> None:
        address = f"/sittings/{rota.sitting.number}/rota/walk-in/"
        answers.append(windows[thread].post(address, {"name": "Wren Hollis"}, headers=headers).json()["outcome"])

    assert race(send, 8) == {"done": 8}
    assert answers == ["kept"] * 8
    assert Place.objects.filter(sitter__label="Wren Hollis").count() == 1
