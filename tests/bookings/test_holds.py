"""Holds: they end, they queue, and a deposit makes them firm."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext

from bookings import promises, stages
from bookings.actions import changes, holds, sittings
from bookings.models import Claim, Client, Hold, Sitting
from bookings.refusals import MovedMeanwhile, NotHeld, Taken, Waiting, WrongEnd
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import again, set_clock
from tests.bookings.making import House, at
from tests.bookings.test_booking import book_other
from tests.pages import Visitor

NOW = at(8, days=-10)  # ten days before the day, well before any set-up


@pytest.fixture(autouse=True)
def clock_at_now(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, NOW)


def second(house: House, behind: Sitting, **changes: Any) -> Sitting:
    return house.book(client=Client(name="Juno Tarrant"), behind=behind, **changes)


def places() -> list[tuple[str, int, str | None]]:
    """Who is held, at which place, behind whom."""
    rows = Hold.objects.select_related("sitting", "behind").order_by("sitting__number")
    return [(row.sitting.number, row.place, row.behind and row.behind.number) for row in rows]


def who_holds() -> set[str]:
    return set(Claim.objects.values_list("sitting__number", flat=True))


def move(house: House, sitting: Sitting, starts_at: datetime, **more: Any) -> None:
    sitting = again(sitting)
    names = ("minutes", "setup_minutes", "strike_minutes", "room", "photographer", "assistant", "purpose")
    as_it_is = {name: getattr(sitting, name) for name in (*names, "print_width_cm")}
    wanted = as_it_is | {"by": house.desk, "sitting": sitting, "seen": sitting.version, "people": []} | more
    changes.change(starts_at=starts_at, **wanted)


def test_feature_03_a_hold_lapses_by_itself_and_the_second_moves_up(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = house.book()
    assert first.hold.expires_at == NOW + timedelta(hours=48)
    with pytest.raises(Taken) as refused:
        house.book(client=Client(name="Juno Tarrant"))
    assert refused.value.held_by.sitting == first
    waiting = second(house, first)
    assert places() == [("L-0001", 1, None), ("L-0002", 2, "L-0001")]
    assert who_holds() == {"L-0001"}
    assert stages.sentence(again(waiting)) == "Second hold behind L-0001, Askew. Nobody's move until that is given up."
    set_clock(monkeypatch, NOW + timedelta(hours=48))
    with pytest.raises(Taken, match=r"held by L-0002, Tarrant"):
        house.book(client=Client(name="Ignace Dorrow"))
    assert (again(first).stage, places(), who_holds()) == ("enquiry", [("L-0002", 1, None)], {"L-0002"})
    assert stages.sentence(again(waiting)) == (
        "Held, moved up from behind. "
        "Studio's move: offer it to the client; it lapses on Friday 27 November 2026, 08:00."
    )
    lapsed = first.stage_changes.last()
    assert (lapsed.by, lapsed.note) == (None, "the hold lapsed on Wednesday 25 November 2026, 08:00")
    assert [change.sentence for change in waiting.changes.all()] == ["place in the queue from 2 to 1"]


def test_a_lapsed_hold_whose_time_nobody_wants_stands_until_it_is_looked_for(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = house.book()
    set_clock(monkeypatch, NOW + timedelta(hours=49))
    house.book(starts_at=at(14))
    assert again(first).stage == "held"
    assert "the hold lapsed on Wednesday 25 November 2026, 08:00. Studio's move" in stages.sentence(again(first))
    assert holds.release_lapsed(NOW + timedelta(hours=49)) == ["L-0001"]
    assert holds.release_lapsed(NOW + timedelta(hours=49)) == []
    assert who_holds() == {"L-0002"}


def test_a_hold_never_outlasts_the_beginning_of_its_set_up(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, at(8))
    assert house.book().hold.expires_at == at(9)
    assert house.book(starts_at=at(8, 10, days=-1)).hold.expires_at == at(8, days=1), "written down afterwards"


def test_three_who_wait_move_up_in_their_order_and_keep_it(house: House) -> None:
    first = house.book()
    for _number in range(3):
        second(house, first)
    sittings.change_stage(by=house.desk, sitting=first, to="cancelled", note="moved away")
    assert places() == [("L-0002", 1, None), ("L-0003", 2, "L-0002"), ("L-0004", 3, "L-0002")]
    sittings.change_stage(by=house.desk, sitting=Sitting.objects.get(number="L-0003"), to="cancelled", note="n")
    assert places() == [("L-0002", 1, None), ("L-0004", 2, "L-0002")]


def test_who_moves_up_and_still_finds_somebody_in_the_way_waits_behind_them(house: House) -> None:
    first = house.book()
    waiting = second(house, first, photographer=cast.make_member("photographer", name="Nell Orrin"), starts_at=at(10))
    book_other(house, assistant=house.members["assistant"], starts_at=at(11, 30), minutes=30, setup_minutes=15)
    move(house, waiting, at(10, 15))
    assert places()[1] == ("L-0002", 2, "L-0001"), "still in the way of the first, so it goes on waiting"
    sittings.change_stage(by=house.desk, sitting=first, to="cancelled", note="moved away")
    assert places()[0] == ("L-0002", 2, "L-0003")
    assert [change.sentence for change in waiting.changes.all()][-1] == (
        "place in the queue from 2 to 2, behind L-0003"
    )


def test_a_sitting_that_moves_away_frees_its_time_for_who_waits(house: House) -> None:
    first = house.book()
    waiting = second(house, first)
    move(house, first, at(14))
    assert who_holds() == {"L-0001", "L-0002"}
    assert again(waiting).hold.to_offer
    holds.told(by=house.desk, sitting=waiting, seen=again(waiting).version)
    assert "moved up" not in stages.sentence(again(waiting))


def test_who_waits_and_finds_a_free_time_waits_no_longer(house: House) -> None:
    first = house.book()
    waiting, third = second(house, first), second(house, first)
    move(house, waiting, at(14))
    assert places() == [("L-0001", 1, None), ("L-0002", 1, None), ("L-0003", 2, "L-0001")]
    with pytest.raises(Taken, match="L-0002"):
        move(house, third, at(14, 30))


def test_a_second_hold_is_held_where_the_first_is_gone_and_refused_where_another_came(house: House) -> None:
    first = house.book()
    sittings.change_stage(by=house.desk, sitting=first, to="cancelled", note="moved away")
    assert second(house, first).hold.place == 1
    with pytest.raises(Taken, match="L-0002"):
        second(house, first)


def test_what_waits_cannot_be_confirmed_and_a_waiting_hold_lapses_too(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = house.book()
    waiting = second(house, first)
    with pytest.raises(Waiting, match="L-0002 waits behind L-0001, Askew"):
        sittings.change_stage(by=house.desk, sitting=waiting, to="confirmed")
    sittings.change_stage(by=house.desk, sitting=first, to="confirmed")
    set_clock(monkeypatch, at(9))
    assert holds.release_lapsed(at(9)) == ["L-0002"]
    assert again(waiting).stage == "enquiry"
    assert who_holds() == {"L-0001"}


def test_one_who_waits_too_long_is_passed_over(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    first = house.book()
    waiting, third = second(house, first), second(house, first)
    Hold.objects.filter(sitting=waiting).update(expires_at=NOW + timedelta(hours=1))
    set_clock(monkeypatch, NOW + timedelta(hours=48))
    holds.release_lapsed(NOW + timedelta(hours=48))
    assert (again(waiting).stage, places()) == ("enquiry", [(third.number, 1, None)])


def test_an_enquiry_is_held_again_where_its_time_is_free(house: House) -> None:
    first = house.book()
    Hold.objects.update(expires_at=NOW)
    other = house.book(client=Client(name="Juno Tarrant"))
    assert again(first).stage == "enquiry"
    with pytest.raises(Taken, match="L-0002"):
        sittings.change_stage(by=house.desk, sitting=first, to="held")
    sittings.change_stage(by=house.desk, sitting=other, to="cancelled", note="n")
    kept = sittings.change_stage(by=house.desk, sitting=first, to="held")
    assert (kept.hold.place, who_holds()) == (1, {"L-0001"})


def test_an_enquiry_that_is_moved_holds_nothing(house: House) -> None:
    first = house.book()
    Hold.objects.update(expires_at=NOW)
    holds.release_lapsed(NOW)
    move(house, first, at(14))
    assert who_holds() == set()


def test_moving_a_lapsed_hold_is_no_reason_to_let_it_go(house: House) -> None:
    first = house.book()
    Hold.objects.update(expires_at=NOW)
    move(house, first, at(9, 45))
    assert (again(first).stage, again(first).starts_at) == ("held", at(9, 45))


def test_the_end_of_a_hold_can_be_moved_within_its_bounds_and_the_history_says_so(house: House) -> None:
    first = house.book()
    holds.prolong(by=house.desk, sitting=first, seen=1, expires_at=at(9), note="she rings on Thursday")
    assert (again(first).hold.expires_at, again(first).hold.note) == (at(9), "she rings on Thursday")
    assert [change.sentence for change in first.changes.all()] == [
        "end of the hold from Wednesday 25 November 2026, 08:00 to Thursday 3 December 2026, 09:00"
    ]
    with pytest.raises(MovedMeanwhile):
        holds.prolong(by=house.desk, sitting=first, seen=1, expires_at=at(9))
    for moment in (NOW, at(9, 1)):
        with pytest.raises(WrongEnd, match="until its set-up begins, Thursday 3 December 2026, 09:00"):
            holds.prolong(by=house.desk, sitting=first, seen=2, expires_at=moment)
    sittings.change_stage(by=house.desk, sitting=first, to="confirmed")
    with pytest.raises(NotHeld, match="L-0001 is confirmed: it has no hold"):
        holds.prolong(by=house.desk, sitting=first, seen=3, expires_at=at(9))


def test_the_database_refuses_a_place_without_somebody_to_wait_behind(house: House) -> None:
    sitting = house.book()
    with pytest.raises(IntegrityError), transaction.atomic():
        Hold.objects.filter(sitting=sitting).update(place=2)
    with pytest.raises(IntegrityError), transaction.atomic():
        Hold.objects.filter(sitting=sitting).update(behind=sitting)


# On the pages.


@pytest.fixture
def maud(house: House) -> Visitor:
    return Visitor(cast.client_of(house.desk))


def test_the_desk_holds_longer_tells_the_client_and_sees_all_holds(house: House, maud: Visitor) -> None:
    first = house.book()
    second(house, first)
    maud.open("/sittings/L-0001/")
    page = maud.press("Save the hold", {"hold_day": "2026-12-01", "hold_time": "18:00", "hold_note": "she rings"})
    assert "confirm by Tuesday 1 December 2026, 18:00." in page.words
    page = maud.press("Save the hold", {"hold_day": "2026-12-24"})
    assert (page.status, "A hold can end from now until its set-up begins" in page.words) == (422, True)
    page = maud.open("/holds/")
    assert page.words.index("L-0001") < page.words.index("L-0002")
    assert "Second hold behind L-0001" in page.words
    move(house, first, at(14))
    maud.open("/sittings/L-0002/")
    assert "Saved: the client was told." in maud.press("The client was told").words


def test_a_hold_that_ends_in_an_hour_which_comes_twice_asks_which_and_ends_as_answered(
    house: House, maud: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    Profile.objects.update(time_zone="Europe/London")
    set_clock(monkeypatch, datetime(2026, 10, 23, 9, tzinfo=UTC))
    first = house.book()
    maud.open("/sittings/L-0001/")
    twice = {"hold_day": "2026-10-25", "hold_time": "01:30", "hold_note": "she rings"}
    asked = maud.press("Save the hold", twice)
    assert (asked.status, "say below which of the two is meant" in asked.words) == (422, True)
    assert "The second 01:30, an hour later" in asked.words
    assert {name: asked.form_with("Save the hold").values[name][0] for name in twice} == twice
    assert again(first).hold.expires_at == datetime(2026, 10, 25, 9, tzinfo=UTC), "as it was"
    for which, ends in (("1", 1), ("0", 0)):
        maud.press("Save the hold", {"which": which})
        assert again(first).hold.expires_at == datetime(2026, 10, 25, ends, 30, tzinfo=UTC)
        maud.press("Save the hold", {"hold_note": f"rings again {which}"})
        assert again(first).hold.expires_at == datetime(2026, 10, 25, ends, 30, tzinfo=UTC), "said once, it stays"


def test_a_hold_cannot_end_in_an_hour_that_the_clocks_skip(house: House, maud: Visitor) -> None:
    Profile.objects.update(time_zone="Europe/London")
    house.book(starts_at=datetime(2027, 4, 3, 9, 30, tzinfo=UTC))
    maud.open("/sittings/L-0001/")
    page = maud.press("Save the hold", {"hold_day": "2027-03-28", "hold_time": "01:30"})
    assert (page.status, "it is not there that day. Choose another." in page.words) == (422, True)
    assert "which of the two" not in page.words


@pytest.mark.parametrize("junk", ["", "x", "\x00", "9" * 40, "-1", "2026-13-40", "24:61"])
def test_junk_is_never_an_error_of_ours(house: House, maud: Visitor, junk: str) -> None:
    first = house.book()
    good = {"hold_day": "2026-12-01", "hold_time": "18:00", "hold_note": "", "seen": "1"}
    for name in good:
        answer = maud.client.post("/sittings/L-0001/hold/", good | {"hold_day": "2030-01-01"} | {name: junk})
        assert answer.status_code in (302, 422), name
    assert maud.client.post("/sittings/L-0001/told/", {"seen": junk}).status_code == 302
    assert again(first).hold.expires_at == NOW + timedelta(hours=48)


def test_the_list_of_holds_asks_the_database_as_often_for_nine_as_for_one(house: House) -> None:
    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert promises.held()
        return len(queries)

    house.book()
    one = asked()
    for number in range(8):
        house.book(starts_at=at(9, 30, days=number + 1))
    assert asked() == one == 1
