"""After the sitting: stages and people turn the clocks, the promise moves, and what is late says why."""

from __future__ import annotations

import io
from datetime import date, datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from bookings import afterwards, late_paper, stages
from bookings.actions import clocks, sittings
from bookings.models import LateReason, Sitting, Wait
from bookings.refusals import MovedMeanwhile, NoteNeeded, NotWaiting, WaitsAlready
from studio.models import DaysOff, Profile
from studio.paper.page import LETTER
from tests import cast
from tests.bookings.agreeing import again, set_clock
from tests.bookings.making import House, at
from tests.pages import Visitor


@pytest.fixture
def sitting(house: House, monkeypatch: pytest.MonkeyPatch) -> Sitting:
    """The Askews, photographed on Thursday 3 December at eleven; five days of the studio are promised."""
    house.kind.delivery_days = 5
    house.kind.save()
    set_clock(monkeypatch, at(8, days=-2))
    row = house.book()
    for stage, hour in (("confirmed", 9), ("arrived", 10), ("photographed", 11)):
        step(house, monkeypatch, row, stage, at(hour))
    return again(row)


def step(
    house: House, monkeypatch: pytest.MonkeyPatch, row: Sitting, to: str, moment: datetime, note: str = ""
) -> Sitting:
    set_clock(monkeypatch, moment)
    return sittings.change_stage(by=house.desk, sitting=row, to=to, note=note)


def of(sitting: Sitting) -> afterwards.Afterwards:
    found = afterwards.of(again(sitting))
    assert found is not None
    return found


def test_before_it_is_photographed_no_clock_runs(house: House) -> None:
    assert afterwards.of(house.book()) is None


def test_it_waits_for_the_client_and_says_that_the_studio_s_clock_stands(
    sitting: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_clock(monkeypatch, at(12, days=4))
    assert of(sitting).sentence == (
        "Waiting for the client since Thursday 3 December 2026: the studio's clock stands; made today, the promised "
        "date moves from Wednesday 9 December 2026 to Saturday 12 December 2026."
    )
    assert stages.sentence(again(sitting)) == (
        "Photographed. Client's move: choose the frames by Thursday 17 December 2026."
    )


def test_chosen_the_studio_s_clock_starts_and_the_promise_stands(
    house: House, sitting: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    step(house, monkeypatch, sitting, "chosen", at(12, days=4))
    assert stages.sentence(again(sitting)) == "Chosen. Studio's move: deliver by Saturday 12 December 2026."
    set_clock(monkeypatch, at(12, days=6))
    assert of(sitting).promise == date(2026, 12, 12)
    assert of(sitting).ran == (
        "The client's clock ran 4 days, the studio's 2 days. Days of the studio: 5 promised, 2 gone."
    )


def test_a_question_to_the_client_stops_the_studio_s_clock_until_the_answer(
    house: House, sitting: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    step(house, monkeypatch, sitting, "chosen", at(12))
    set_clock(monkeypatch, at(15, days=1))
    clocks.wait_for(by=house.desk, sitting=sitting, what="answer", note="which of the two for the wall?")
    set_clock(monkeypatch, at(15, days=6))
    assert stages.sentence(again(sitting)) == (
        "Chosen. Client's move: answer by Friday 11 December 2026. Which of the two for the wall?"
    )
    assert of(sitting).promise == date(2026, 12, 14)  # one day was the studio's; Sunday is closed
    clocks.wait_for(by=house.desk, sitting=sitting, what="print")
    assert (of(sitting).whose, of(sitting).promise) == ("studio", date(2026, 12, 14))


def test_days_the_house_is_closed_are_not_the_studio_s(sitting: Sitting) -> None:
    DaysOff.objects.create(first_day=date(2026, 12, 7), last_day=date(2026, 12, 8))
    assert of(sitting).promise == date(2026, 12, 11)


def test_a_kind_that_promises_other_days_later_leaves_what_was_booked(house: House, sitting: Sitting) -> None:
    house.kind.delivery_days = 50
    house.kind.save()
    assert of(sitting).promise == date(2026, 12, 9)


def test_delivery_stops_both_clocks_and_a_step_back_lets_them_run_on(
    house: House, sitting: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    step(house, monkeypatch, sitting, "chosen", at(12))
    step(house, monkeypatch, sitting, "delivered", at(12, days=2))
    set_clock(monkeypatch, at(12, days=30))
    assert of(sitting).sentence == (
        "Delivered on Saturday 5 December 2026; promised for Wednesday 9 December 2026."
    )
    assert stages.sentence(again(sitting)) == (
        "Delivered. Studio's move: close it by Saturday 19 December 2026."
    )
    step(house, monkeypatch, sitting, "chosen", at(12, days=30), note="the wrong size")
    assert of(sitting).whose == "studio"
    assert not of(sitting).is_late  # days after the delivery were nobody's
    assert of(sitting).promise == date(2027, 1, 6)


def test_what_it_waits_for_is_refused_where_nothing_is_waited_for_or_nothing_changes(
    house: House, sitting: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    with pytest.raises(WaitsAlready, match="waits for that already: choose the frames"):
        clocks.wait_for(by=house.desk, sitting=sitting, what="choose")
    with pytest.raises(MovedMeanwhile):
        clocks.wait_for(by=house.desk, sitting=sitting, what="edit", seen=1)
    with pytest.raises(NoteNeeded):
        clocks.say_why_late(by=house.desk, sitting=sitting, code="lab", note=" ")
    with pytest.raises(NotWaiting):
        clocks.wait_for(by=house.desk, sitting=house.book(starts_at=at(9, 30, days=1)), what="edit")
    assert not Wait.objects.exists()


@pytest.fixture
def late(house: House, sitting: Sitting, monkeypatch: pytest.MonkeyPatch) -> Sitting:
    """Chosen on the day, promised for the ninth; it is the twelfth."""
    step(house, monkeypatch, sitting, "chosen", at(12))
    set_clock(monkeypatch, at(9, days=9))
    return again(sitting)


def test_the_page_asks_why_it_is_late_and_keeps_what_was_typed(house: House, late: Sitting) -> None:
    maud = Visitor(cast.client_of(house.desk))
    assert "It has become late: say why." in maud.open(f"/sittings/{late.number}/").words
    page = maud.press("Save the reason", {"code": "lab", "why": ""})
    assert (page.status, "This field is required." in page.words) == (422, True)
    page = maud.press("Save the reason", {"code": "lab", "why": "their printer stands still"})
    assert "Late because of the lab: their printer stands still (Maud Ferriby, 12 December)" in page.words
    assert "late because of the lab by Maud Ferriby" in page.words  # in the history
    assert LateReason.objects.count() == 1


def test_turning_the_clocks_by_hand_stands_in_the_history_with_its_note(house: House, sitting: Sitting) -> None:
    maud = Visitor(cast.client_of(house.desk))
    maud.open(f"/sittings/{sitting.number}/")
    page = maud.press("Save what it waits for", {"what": "show", "wait_note": "the frames are not sorted yet"})
    assert "Photographed. Studio's move: show the frames by" in page.words
    assert "studio's move set: show the frames by Maud Ferribythe frames are not sorted yet" in page.words
    page = maud.press("Save what it waits for", {"what": "show", "wait_note": "the frames are not sorted yet"})
    assert (page.status, "waits for that already" in page.words) == (422, True)


def test_the_list_on_paper_says_what_the_page_says(house: House, late: Sitting) -> None:
    clocks.say_why_late(by=house.desk, sitting=late, code="lab", note="their printer stands still")
    desk = cast.client_of(house.desk)
    assert "3 days past" in desk.get("/late/").content.decode()
    answer = desk.get("/late/list.pdf")
    words = " ".join(PdfReader(io.BytesIO(answer.content)).pages[0].extract_text().split())
    for said in ("Late list", "L-0001 Ottoline", "Wednesday 9 December", "deliver, since 3 December", "the lab: their"):
        assert said in words
    sheet = late_paper.content(afterwards.late(), Profile.get(), at(9, days=9))
    assert sheet.rows[0][0] == "3"
    assert late_paper.render(sheet, LETTER) == late_paper.render(sheet, LETTER) != late_paper.render(sheet)


def test_the_list_costs_the_same_however_long_it_is(house: House, late: Sitting, monkeypatch: Any) -> None:
    desk = cast.client_of(house.desk)

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            desk.get("/late/")
        return len(queries)

    one = asked()
    for n in range(1, 4):
        set_clock(monkeypatch, at(11, days=n))
        row = house.book(starts_at=late.starts_at + timedelta(days=n))
        for to in ("confirmed", "arrived", "photographed", "chosen"):
            step(house, monkeypatch, row, to, at(12, days=n))
    set_clock(monkeypatch, at(9, days=40))
    assert len(afterwards.late()) == 4
    assert asked() == one
