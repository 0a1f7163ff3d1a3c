"""Which reminder is due when: the latest whose moment has come, never late in a bunch, none after an answer."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings import reminders
from bookings.actions import changes, sittings
from bookings.actions import reminders as actions
from bookings.letter_refusals import NothingToAnswer
from bookings.models import Answer, Letter, Sitting, Stage
from studio.models import DaysOff, Profile
from tests.bookings.agreeing import again, set_clock
from tests.bookings.making import EVERY_OBJECTION, House, at, make_house

LONDON = ZoneInfo("Europe/London")
ALL = {"clothes", "coming", "tomorrow"}
SITS = datetime(2026, 3, 30, 9, 30, tzinfo=LONDON)  # the day after the clocks were put on


def due(now: datetime, *, settled: datetime = datetime(2026, 1, 1, tzinfo=UTC), kinds: set[str] = ALL) -> str | None:
    one = reminders.due(starts_at=SITS, settled_at=settled, now=now, kinds=kinds, zone=LONDON)
    return one.kind if one else None


def day(number: int, hour: int = 10, minute: int = 0) -> datetime:
    return datetime(2026, 3, number, hour, minute, tzinfo=LONDON)


@pytest.mark.parametrize(
    ("now", "kind"),
    [
        (day(16, 9, 59), None), (day(16), "clothes"), (day(27, 9, 59), "clothes"), (day(27), "coming"),
        (day(29, 9, 59), "coming"), (day(29), "tomorrow"), (day(30, 9, 29), "tomorrow"), (day(30, 9, 30), None),
    ],
)  # fmt: skip
def test_the_latest_that_has_come_is_due_at_ten_by_the_wall_whatever_the_clocks_do(now: datetime, kind: str) -> None:
    assert due(now) == kind


def test_what_should_have_gone_before_the_booking_is_never_sent_late() -> None:
    booked = day(25)  # five days before
    assert [due(day(n), settled=booked) for n in (25, 26, 27, 29)] == [None, None, "coming", "tomorrow"]
    assert due(day(30, 8), settled=day(29, 18)) is None


def test_a_kind_may_do_without_some() -> None:
    assert due(day(28), kinds={"clothes"}) == "clothes"
    assert due(day(28), kinds=set()) is None


@given(st.integers(0, 20 * 24), st.integers(0, 20 * 24))
def test_none_is_ever_due_before_its_day_or_from_before_the_booking(ahead_h: int, settled_h: int) -> None:
    start = SITS.astimezone(UTC)
    now, settled = start - timedelta(hours=ahead_h), start - timedelta(hours=settled_h)
    one = reminders.due(starts_at=start, settled_at=settled, now=now, kinds=ALL, zone=LONDON)
    if one is not None:
        assert settled <= one.at <= now < one.useless_at <= start


@pytest.fixture
def house(db: None, monkeypatch: pytest.MonkeyPatch) -> House:
    set_clock(monkeypatch, at(9, days=-20))
    house = make_house()
    house.client.email = "askew@quillbridge.example"
    house.client.save()
    Profile.objects.update(telephone="01632 960100", email="desk@lindenmere.example")
    return house


def booked(house: House, **changed: object) -> Sitting:
    sitting = house.book(**changed)
    return sittings.change_stage(by=house.desk, sitting=sitting, to=Stage.CONFIRMED)


def run(monkeypatch: pytest.MonkeyPatch, moment: datetime) -> list[str]:
    set_clock(monkeypatch, moment)
    return [letter.kind for letter in actions.write_due(moment, Profile.get())]


def test_each_is_written_once_and_none_at_night(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    booked(house)
    assert run(monkeypatch, at(10, days=-14)) == ["clothes"]
    assert run(monkeypatch, at(11, days=-14)) == []
    assert run(monkeypatch, at(22, days=-3)) == []
    assert run(monkeypatch, at(10, days=-2)) == ["coming"]
    assert run(monkeypatch, at(10, days=-1)) == ["tomorrow"]


def test_an_answer_stops_what_waits_and_what_would_follow(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    sitting = booked(house)
    run(monkeypatch, at(10, days=-3))
    actions.answer(sitting=sitting, what=Answer.What.COMING, by=house.desk)
    actions.answer(sitting=sitting, what=Answer.What.COMING, by=house.desk)
    assert sitting.answers.count() == 1
    assert Letter.objects.get(kind="coming").state == Letter.State.WITHDRAWN
    assert run(monkeypatch, at(10, days=-1)) == []


def test_after_a_move_it_is_asked_anew_and_after_cancelling_never(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = booked(house)
    run(monkeypatch, at(10, days=-3))
    actions.answer(sitting=sitting, what=Answer.What.NOT_THEN, by=None)
    set_clock(monkeypatch, at(12, days=-3))
    move(house, sitting, at(9, 30, days=7))
    assert run(monkeypatch, at(10, days=4)) == ["coming"]
    sittings.change_stage(by=house.desk, sitting=again(sitting), to=Stage.CANCELLED, note="rang")
    assert Letter.objects.filter(kind="coming").latest("pk").state == Letter.State.WITHDRAWN
    assert run(monkeypatch, at(10, days=6)) == []
    with pytest.raises(NothingToAnswer):
        actions.answer(sitting=sitting, what=Answer.What.COMING, by=None)


def test_on_a_closed_day_reminders_go_by_day_all_the_same(house: House) -> None:
    DaysOff.objects.create(first_day=at(0).date(), last_day=at(0).date())
    assert [actions.is_daytime(at(hour), Profile.get()) for hour in (8, 9, 18, 19)] == [False, True, True, False]


def test_finding_what_is_due_takes_as_many_queries_for_many(
    house: House, monkeypatch: pytest.MonkeyPatch, django_assert_num_queries: object
) -> None:
    for n in range(3):
        booked(house, starts_at=at(9 + 3 * n, days=1), acknowledged=EVERY_OBJECTION)
    set_clock(monkeypatch, at(10, days=-2))
    profile = Profile.get()
    with django_assert_num_queries(2):  # type: ignore[operator]
        assert len(list(actions.due(at(10, days=-2), profile))) == 3


def test_a_change_withdraws_reminders_that_wait(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    sitting = booked(house)
    run(monkeypatch, at(10, days=-3))
    move(house, sitting, at(12))
    assert Letter.objects.get(kind="coming").state == Letter.State.WITHDRAWN


def move(house: House, sitting: Sitting, to: datetime) -> None:
    kept = again(sitting)
    changes.change(
        by=house.desk, sitting=kept, seen=kept.version, starts_at=to, minutes=kept.minutes,
        setup_minutes=kept.setup_minutes, strike_minutes=kept.strike_minutes, room=kept.room,
        photographer=kept.photographer, assistant=kept.assistant, purpose=kept.purpose,
        print_width_cm=kept.print_width_cm, people=(), acknowledged=EVERY_OBJECTION,
    )  # fmt: skip
