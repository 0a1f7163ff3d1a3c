"""Moving a sitting in the diary: what it takes is shown, and nothing is saved before it is agreed."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from django.db import connection
from django.test import Client as Browser
from django.test.utils import CaptureQueriesContext

from bookings.actions import moves, sittings
from bookings.actions.moves import Place
from bookings.models import Claim, Client, Hold, Sitting
from studio.models import DaysOff, Profile
from tests import cast
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.making import House, at

NOW = at(8, days=-10)
PAGE = "/diary/move/"


@pytest.fixture(autouse=True)
def clock_at_now(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, NOW)


@pytest.fixture
def desk(house: House) -> Browser:
    return cast.client_of(house.desk)


def confirmed(house: House) -> Sitting:
    return sittings.change_stage(
        by=house.desk, sitting=house.book(), to="confirmed", trust_until=date(2026, 12, 1), note="known for years"
    )


def dropped(sitting: Sitting, **changes: Any) -> dict[str, Any]:
    """What the diary sends when a block is dropped at 14:00 of the same day, but for `changes`."""
    sent = {
        "number": sitting.number, "seen": again(sitting).version, "day": "2026-12-03", "time": "14:00",
        "room": sitting.room_id, "photographer": sitting.photographer_id, "assistant": sitting.assistant_id or "",
        "back": "/diary/?day=2026-12-03&by=rooms",
    }  # fmt: skip
    return sent | changes


def shown(desk: Browser, sent: dict[str, Any]) -> str:
    answer = desk.post(PAGE, sent, headers={"x-fragment": "yes"})
    page = answer.content.decode()
    assert "<html" not in page
    return page


def test_a_preview_shows_the_new_time_and_writes_nothing(house: House, desk: Browser) -> None:
    sitting = house.book()
    kept = list(Claim.objects.values_list("pk", "starts_at"))
    page = shown(desk, dropped(sitting))
    assert "Thursday 3 December, 09:30, Long Room, Tobiah Renn, Ines Calloway" in page
    assert "<b>Thursday 3 December, 14:00</b>, Long Room" in page
    assert "from 13:30 to 15:30 with set-up and strike" in page
    assert "none: it is not confirmed yet" in page
    assert ("Move it" in page, "Leave it" in page) == (True, True)
    assert list(Claim.objects.values_list("pk", "starts_at")) == kept
    assert (again(sitting).version, again(sitting).changes.count()) == (sitting.version, 0)


def test_moving_it_saves_and_leads_back_to_the_diary_on_that_day(house: House, desk: Browser) -> None:
    sitting = house.book()
    answer = desk.post(PAGE, dropped(sitting, day="2026-12-04", save="1", room=house.other_room.pk))
    assert answer.headers["Location"] == "/diary/?day=2026-12-04&by=rooms"
    moved = again(sitting)
    assert (moved.starts_at, moved.room) == (at(14, days=1), house.other_room)
    assert {claim.starts_at for claim in moved.claims.all()} == {at(13, 30, days=1), at(13, 45, days=1)}
    assert "L-0001 is moved to Friday 4 December 2026, 14:00." in desk.get(answer.headers["Location"]).content.decode()
    assert moved.changes.count() == 2


def test_a_conflict_is_said_in_the_words_of_the_refusal_and_another_start_offered(house: House, desk: Browser) -> None:
    sitting = house.book()
    house.book(starts_at=at(14), client=Client(name="Wren Pell"))
    page = shown(desk, dropped(sitting))
    assert "The Long Room is held by L-0002, Pell, from 13:30 to 15:30. Next free: 15:30." in page
    assert "Move it" not in page
    assert "Look at Thursday 3 December, 16:00 instead" in page
    page = desk.post(PAGE, dropped(sitting, start_instead="2026-12-03T16:00:00+00:00")).content.decode()
    assert "<b>Thursday 3 December, 16:00</b>" in page
    assert again(sitting).starts_at == at(9, 30)


def test_the_fee_is_that_of_the_terms_frozen_in_the_booking(
    house: House, desk: Browser, monkeypatch: pytest.MonkeyPatch
) -> None:
    terms = agree(house)
    sitting = confirmed(house)
    terms.wordings.update(move=[])
    set_clock(monkeypatch, at(9, 30, days=-1))
    page = shown(desk, dropped(sitting))
    assert "GBP 18.00 by the terms of this booking" in page
    assert 'value="18.00"' in page
    assert "none: the time stays" in shown(desk, dropped(sitting, time="09:30", room=house.other_room.pk))
    sent = dropped(sitting, save="1", agreed_fee="5")
    answer = desk.post(PAGE, sent)
    assert answer.status_code == 422
    page = answer.content.decode()
    assert "it is GBP 18.00. Say in the note why another fee was agreed." in page
    assert 'value="5"' in page
    assert again(sitting).starts_at == at(9, 30)
    assert desk.post(PAGE, sent | {"note": "our mistake"}).status_code == 302
    assert again(sitting).starts_at == at(14)
    assert again(sitting).changes.filter(after__contains="5.00").exists()


def test_no_fee_is_promised_only_where_the_terms_say_so(house: House, desk: Browser) -> None:
    sitting = confirmed(house)
    assert "no terms were agreed for this booking" in shown(desk, dropped(sitting))
    agree(house)
    other = house.book(starts_at=at(9, 30, days=40), client=Client(name="Wren Pell"))
    sittings.change_stage(by=house.desk, sitting=other, to="confirmed", trust_until=date(2026, 12, 1), note="known")
    page = shown(desk, dropped(other, day="2027-01-13"))
    assert "none by the terms of this booking" in page


def test_objections_are_ticked_before_it_is_moved(house: House, desk: Browser) -> None:
    sitting = house.book()
    DaysOff.objects.create(first_day=date(2026, 12, 4), last_day=date(2026, 12, 4), words="stocktaking")
    sent = dropped(sitting, day="2026-12-04")
    page = shown(desk, sent)
    assert "The house is closed then: stocktaking." in page
    assert "Move it all the same" in page
    answer = desk.post(PAGE, sent | {"save": "1"})
    assert answer.status_code == 422
    assert "The house is closed then: stocktaking." in answer.content.decode()
    assert again(sitting).starts_at == at(9, 30)
    assert desk.post(PAGE, sent | {"save": "1", "acknowledged": ["closed"]}).status_code == 302
    assert again(sitting).starts_at == at(14, days=1)


def test_somebody_who_was_faster_is_told_of(house: House, desk: Browser) -> None:
    sitting = house.book()
    sent = dropped(sitting, save="1")
    assert desk.post(PAGE, sent).status_code == 302
    answer = desk.post(PAGE, sent | {"time": "16:00"})
    assert answer.status_code == 422
    assert "Somebody else saved this while you had it open." in answer.content.decode()
    assert again(sitting).starts_at == at(14)


def test_people_are_changed_only_for_people_who_do_that_work(house: House, desk: Browser) -> None:
    sitting = house.book()
    orla = cast.make_member("photographer", name="Orla Finch", short="OF")
    page = shown(desk, dropped(sitting, photographer=house.desk.pk))
    assert "That person is no photographer: drop it on somebody who is." in page
    assert "Move it" not in page
    assert "<b>Thursday 3 December, 09:30</b>, Long Room, Orla Finch" in shown(
        desk, dropped(sitting, photographer=orla.pk, time="09:30")
    )
    assert "no assistant" in shown(desk, dropped(sitting, assistant=orla.pk))


def test_a_sitting_that_is_over_stays(house: House, desk: Browser) -> None:
    sitting = confirmed(house)
    for stage in ("arrived", "photographed"):
        sittings.change_stage(by=house.desk, sitting=again(sitting), to=stage)
    assert "its time, place and people stay as they were" in shown(desk, dropped(sitting))


def test_a_hour_the_clocks_leave_out_is_told(house: House, desk: Browser) -> None:
    Profile.objects.update(time_zone="Europe/London")
    sitting = house.book()
    page = shown(desk, dropped(sitting, day="2027-03-28", time="01:30"))
    assert "The clocks are changed in that hour" in page
    assert "Leave it" in page
    twice = {"day": "2027-10-31", "time": "01:30"}
    assert "The first 01:30, before they are put back" in shown(desk, dropped(sitting, **twice))
    assert 'name="which" value="1"' in shown(desk, dropped(sitting, **twice, which="1"))


def test_who_waits_behind_moves_up_only_when_it_is_done(house: House, desk: Browser) -> None:
    first = house.book()
    second = house.book(client=Client(name="Juno Tarrant"), behind=first)
    shown(desk, dropped(first))
    assert Hold.objects.get(sitting=second).place == 2
    desk.post(PAGE, dropped(first, save="1"))
    assert Hold.objects.get(sitting=second).place == 1


@pytest.mark.parametrize("name", ["number", "seen", "day", "time", "room", "photographer", "assistant", "back"])
@pytest.mark.parametrize("junk", ["", "x", "-1", "9" * 30, "\x00", "\u202e"])
def test_junk_is_never_an_error_of_ours(house: House, desk: Browser, name: str, junk: str) -> None:
    sitting = house.book()
    answer = desk.post(PAGE, dropped(sitting, **{name: junk}))
    assert answer.status_code in (200, 404, 422)
    assert again(sitting).starts_at == at(9, 30)


@pytest.mark.parametrize("back", ["//elsewhere.example", "javascript:alert(1)", "/sittings/", "/diary/week/?x=1"])
def test_back_leads_to_the_diary_alone(house: House, desk: Browser, back: str) -> None:
    answer = desk.post(PAGE, dropped(house.book(), back=back, save="1"))
    assert answer.headers["Location"] == f"/diary/{'week/' if 'week' in back else ''}?day=2026-12-03"


def test_a_preview_costs_no_more_with_a_full_diary(house: House) -> None:
    sitting = house.book()
    to = Place(at(14), house.room, house.members["photographer"], house.members["assistant"])

    def asked() -> int:
        row = again(sitting)
        with CaptureQueriesContext(connection) as queries:
            assert moves.preview(by=house.desk, sitting=row, seen=row.version, to=to).refusal == ""
        return len(queries)

    alone = asked()
    for number in range(1, 8):
        house.book(starts_at=at(14, days=number), client=Client(name=f"Client {number}"))
    assert asked() == alone
