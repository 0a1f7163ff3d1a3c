"""The board of the day: one tap each, from two devices at once, taken back; who waits, and when it ends."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings import rota_board
from bookings.actions import rota_days
from bookings.models import Notes, Place, PlaceChange, Rota, Sitting
from bookings.refusals import Taken
from bookings.rota_refusals import MarkedMeanwhile, NothingToUndo, WrongName
from tests import cast
from tests.bookings.agreeing import set_clock
from tests.bookings.making import House, at, make_house
from tests.bookings.test_races import THREADS, race
from tests.bookings.turns import NAMES, begun, day_of, keep, place
from tests.pages import Visitor


@pytest.fixture
def rota(house: House) -> Rota:
    return begun(house)


@pytest.fixture(autouse=True)
def clock_at_nine(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, at(9))


def mark(house: House, rota: Rota, name: str, to: str) -> Place:
    row = place(rota, name)
    return rota_days.mark(by=house.desk, place=row, to=to, seen=row.version)


def board(rota: Rota, now: datetime | None = None) -> rota_board.Board:
    return rota_board.read(rota_board.found(rota.sitting.number), now or at(9), with_needs=False)


def names(rows: object) -> list[str]:
    return [row.name.split()[0] for row in rows]  # type: ignore[attr-defined]


def test_real_times_are_kept_and_the_next_one_on_set_ends_the_one_before(
    house: House, rota: Rota, monkeypatch: pytest.MonkeyPatch
) -> None:
    mark(house, rota, "Corin", "on_set")
    set_clock(monkeypatch, at(9, 12))
    mark(house, rota, "Delphine", "on_set")
    corin, delphine = place(rota, "Corin"), place(rota, "Delphine")
    assert (corin.state, corin.on_set_at, corin.done_at, corin.real_minutes) == ("done", at(9), at(9, 12), 12)
    assert (delphine.state, delphine.on_set_at) == ("on_set", at(9, 12))
    now = board(rota, at(9, 12))
    assert (now.on_set.name, now.next.name, names(now.done)) == ("Delphine Orr", "Ambrose Tull", ["Corin"])


def test_the_forecast_says_when_it_ends_and_who_waits(house: House, rota: Rota) -> None:
    assert board(rota).ends_at == at(9, 39)  # the last at half past, nine minutes
    now = board(rota, at(9, 25))
    assert [(row.name.split()[0], row.late) for row in now.waiting] == [
        ("Corin", 25), ("Delphine", 24), ("Ambrose", 23), ("Nell", 22)
    ]  # fmt: skip
    assert (now.ends_at, now.late) == (at(10, 1), 21)
    assert board(rota, at(9, days=1)).ends_at is None  # on another day nothing is reckoned


def test_absent_retake_and_pulled_forward_change_who_is_next(house: House, rota: Rota) -> None:
    mark(house, rota, "Corin", "absent")
    mark(house, rota, "Nell", "next")
    assert names(board(rota).queue) == ["Nell", "Delphine", "Ambrose"]
    mark(house, rota, "Nell", "on_set")
    mark(house, rota, "Nell", "retake")
    assert names(board(rota).queue) == ["Delphine", "Ambrose", "Nell"]
    assert (names(board(rota).retakes), names(board(rota).absent)) == (["Nell"], ["Corin"])
    mark(house, rota, "Corin", "waiting")
    assert names(board(rota).queue) == ["Corin", "Delphine", "Ambrose", "Nell"]


def test_a_tap_is_taken_back_with_all_it_did_and_the_one_before_after_it(
    house: House, rota: Rota, monkeypatch: pytest.MonkeyPatch
) -> None:
    mark(house, rota, "Corin", "on_set")
    set_clock(monkeypatch, at(9, 8))
    mark(house, rota, "Delphine", "on_set")
    first, last = PlaceChange.objects.order_by("at", "pk").first(), rota.last_tap()
    with pytest.raises(NothingToUndo):
        rota_days.undo(by=house.desk, rota=rota, tap=first.tap)
    rota_days.undo(by=house.desk, rota=rota, tap=last.tap)
    assert (place(rota, "Corin").state, place(rota, "Corin").done_at) == ("on_set", None)
    assert (place(rota, "Corin").on_set_at, place(rota, "Delphine").state) == (at(9), "waiting")
    with pytest.raises(NothingToUndo):
        rota_days.undo(by=house.desk, rota=rota, tap=last.tap)
    rota_days.undo(by=house.desk, rota=rota, tap=rota.last_tap().tap)
    assert set(Place.objects.values_list("state", flat=True)) == {"waiting"}
    assert rota.last_tap() is None


def test_the_same_tap_twice_is_one_and_another_is_told_who_was_first(house: House, rota: Rota) -> None:
    seen = place(rota, "Corin")
    ines = house.members["assistant"]
    rota_days.mark(by=ines, place=seen, to="done", seen=seen.version)
    rota_days.mark(by=house.desk, place=seen, to="done", seen=seen.version)
    assert PlaceChange.objects.count() == 1
    with pytest.raises(MarkedMeanwhile, match="Ines Calloway marked Corin Vale as done at 09:00"):
        rota_days.mark(by=house.desk, place=seen, to="absent", seen=seen.version)
    assert place(rota, "Corin").state == "done"


def test_two_devices_that_tap_at_once_leave_one_on_set(transactional_db: None) -> None:
    house = make_house()
    rota = begun(house, 8)
    rows = list(Place.objects.filter(rota=rota))

    def tap(thread: int) -> None:
        row = rows[thread % 8]
        rota_days.mark(by=house.desk, place=row, to="on_set", seen=row.version)

    ends = race(tap)
    assert Place.objects.filter(state="on_set").count() == 1
    assert Place.objects.filter(state="done").count() == 7
    assert {end.split("(")[0] for end in ends} <= {"done", "MarkedMeanwhile"}


def test_a_walk_in_gets_the_last_place_and_a_seat_in_the_sitting(
    house: House, rota: Rota, monkeypatch: pytest.MonkeyPatch
) -> None:
    row = rota_days.walk_in(by=house.members["assistant"], rota=rota, name="  Wren   Hollis ")
    assert (row.sitter.label, row.number, row.starts_at, row.walk_in) == ("Wren Hollis", 5, at(9, 40), True)
    assert rota.sitting.sitters.count() == 5
    set_clock(monkeypatch, at(9, days=60))
    assert rota_days.walk_in(by=house.desk, rota=rota, name="Ivo Late").starts_at == at(9, 50)
    wrong = (("wren hollis", "already"), (" ", "Write the name"), ("x" * 61, "60 letters"), ("a\x00b", "line"))
    for name, says in wrong:
        with pytest.raises(WrongName, match=says):
            rota_days.walk_in(by=house.desk, rota=rota, name=name)
    assert Place.objects.count() == 6


def test_walk_ins_added_at_once_all_get_a_place_of_their_own(transactional_db: None) -> None:
    house = make_house()
    rota = begun(house, 2)

    def walk_in(thread: int) -> None:
        if thread < 4:
            rota_days.walk_in(by=house.desk, rota=rota, name=f"Walker {thread}")

    ends = race(walk_in)
    assert ends == {"done": THREADS}
    assert sorted(Place.objects.values_list("number", flat=True)) == [1, 2, 3, 4, 5, 6]


def test_those_who_did_not_come_get_a_make_up_date_with_what_is_known_of_them(house: House, rota: Rota) -> None:
    sitter = place(rota, "Nell").sitter
    Notes.objects.create(sitter=sitter, no_flash=True)
    with pytest.raises(WrongName, match="Nobody"):
        rota_days.make_up(by=house.desk, rota=rota, starts_at=at(9, days=7))
    mark(house, rota, "Nell", "absent")
    mark(house, rota, "Corin", "done")
    mark(house, rota, "Corin", "retake")
    with pytest.raises(Taken):
        rota_days.make_up(by=house.desk, rota=rota, starts_at=at(9, 30))
    desk = Visitor(cast.client_of(house.desk))
    desk.open(f"/sittings/{rota.sitting.number}/rota/board/")
    desk.follow("Make-up date")
    page = desk.press("Book it", {"day": "2026-12-10", "time": "09:00"})
    assert "is booked, with its places" in page.words
    booked = Sitting.objects.exclude(pk=rota.sitting_id).get()
    assert [row.sitter.label for row in booked.rota.places.in_turn()] == ["Nell Quayle", "Corin Vale"]
    assert booked.sitters.get(label="Nell Quayle").notes.no_flash
    assert booked.client_id == rota.sitting.client_id


def test_without_a_script_a_tap_comes_back_to_the_board(house: House, rota: Rota) -> None:
    ines = Visitor(cast.client_of(house.members["assistant"]))
    page = ines.open(f"/sittings/{rota.sitting.number}/rota/board/")
    assert '<body class="set">' in page.html
    page = ines.press("On set: Corin Vale")
    assert place(rota, "Corin").state == "on_set"
    page = ines.press("Done: Corin Vale")
    page = ines.press("Undo")
    assert place(rota, "Corin").state == "on_set"
    page = ines.press("Add", {"name": "Wren Hollis"})
    assert "Wren Hollis" in page.words
    page = ines.press("Add", {"name": "Wren Hollis"})
    assert "is in this sitting already" in page.words
    owner = Visitor(cast.client_of(house.members["owner"])).open(f"/sittings/{rota.sitting.number}/rota/board/")
    assert not [form for form in owner.forms if "rota" in form.action]


def test_only_those_on_set_see_what_is_to_be_done_for_a_person(house: House, rota: Rota) -> None:
    Notes.objects.create(sitter=place(rota, "Corin").sitter, no_flash=True)
    address = f"/sittings/{rota.sitting.number}/rota/board/"
    shown = {
        role: "no flash" in Visitor(cast.client_of(member)).open(address).words
        for role, member in house.members.items()
    }
    assert shown == {"front_desk": False, "photographer": True, "assistant": True, "owner": False}


def test_news_are_asked_for_cheaply_and_sent_only_where_there_are_some(house: House, rota: Rota) -> None:
    client, address = cast.client_of(house.desk), f"/sittings/{rota.sitting.number}/rota/board/"
    first = client.get(address, headers={"X-Fragment": "yes"})
    assert "<html" not in first.content.decode()
    with CaptureQueriesContext(connection) as asked:
        again = client.get(address, headers={"X-Fragment": "yes", "If-None-Match": first["ETag"]})
    assert (again.status_code, again.content) == (304, b"")
    assert len(asked) <= 6
    mark(house, rota, "Corin", "on_set")
    news = client.get(address, headers={"X-Fragment": "yes", "If-None-Match": first["ETag"]})
    assert (news.status_code, news["ETag"] != first["ETag"]) == (200, True)


def test_the_board_asks_no_more_for_more_people(house: House) -> None:
    client = cast.client_of(house.desk)

    def asked(count: int, days: int) -> int:
        rota = begun(house, count) if not days else _elsewhere(house, count, days)
        address = f"/sittings/{rota.sitting.number}/rota/board/"
        with CaptureQueriesContext(connection) as queries:
            assert client.get(address, headers={"X-Fragment": "yes"}).status_code == 200
        return len(queries)

    of_two = asked(2, 0)
    assert asked(20, 1) == of_two <= 10


def _elsewhere(house: House, count: int, days: int) -> Rota:
    rota = begun_later(house, count, days)
    mark(house, rota, "Corin", "on_set")
    mark(house, rota, "Delphine", "absent")
    mark(house, rota, "Ambrose", "on_set")
    return rota


def begun_later(house: House, count: int, days: int) -> Rota:
    sitting = day_of(house, count, starts_at=at(9) + timedelta(days=days))
    return keep(house, sitting, "\n".join(NAMES[:count]), lengthen=True, keeps_list_order=True)


@pytest.mark.parametrize("said", [("", ""), ("gone", "1"), ("done", "x"), ("done", "9" * 30)])
def test_a_tap_that_is_none_is_answered_in_words(house: House, rota: Rota, said: tuple[str, str]) -> None:
    address = f"/sittings/{rota.sitting.number}/rota/board/{place(rota, 'Corin').pk}/"
    desk, sent = cast.client_of(house.desk), dict(zip(("to", "seen"), said, strict=True))
    answer = desk.post(address, sent, headers={"X-Fragment": "yes"})
    assert (answer.status_code, "That was no tap of this board" in answer.content.decode()) == (409, True)
    assert not PlaceChange.objects.exists()
    undone = desk.post(f"/sittings/{rota.sitting.number}/rota/undo/", {"tap": "no uuid"}, follow=True)
    assert "something newer to undo first" in undone.content.decode()
