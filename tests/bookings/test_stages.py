"""Moving a sitting on: what may follow, who did it, and whose move it is."""

from __future__ import annotations

import pytest

from bookings import stages, waiting
from bookings.actions import sittings
from bookings.models import Stage
from bookings.refusals import MovedMeanwhile, NoteNeeded, WrongStage
from tests.bookings.making import House, at


def test_every_stage_says_whose_move_it_is_and_what_may_follow(house: House) -> None:
    sitting = house.book()
    assert set(stages.FOLLOWS) == set(stages.MOVES) == set(Stage)
    for stage in Stage:
        sitting.stage = stage
        said = stages.sentence(sitting)
        assert said.startswith(str(stage.label).capitalize() + ". ")
        assert "move" in said
        assert "%" not in said


def test_a_new_sitting_is_held_and_the_move_is_the_clients(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("studio.clock.now", lambda: at(12, days=-4))
    sitting = house.book()
    assert stages.sentence(sitting) == "Held. Client's move: confirm by Tuesday 1 December 2026, 12:00."
    sittings.change_stage(by=house.desk, sitting=sitting, to=Stage.CONFIRMED)
    sitting.refresh_from_db()
    assert stages.sentence(sitting) == (
        "Confirmed. Studio's move: plan the light and pack by Thursday 3 December 2026, 09:00."
    )


def test_each_move_is_written_down_with_who_and_from_where(house: House) -> None:
    sitting = house.book()
    sittings.change_stage(by=house.desk, sitting=sitting, to="confirmed")
    sittings.change_stage(by=house.members["owner"], sitting=sitting, to="held", note="card refused")
    told = [(c.by.name, c.stage_from, c.stage_to, c.note) for c in sitting.stage_changes.all()]
    assert told == [
        ("Maud Ferriby", "", "held", ""),
        ("Maud Ferriby", "held", "confirmed", ""),
        ("Harriet Voss", "confirmed", "held", "card refused"),
    ]


def test_a_stage_that_does_not_follow_is_refused(house: House) -> None:
    with pytest.raises(WrongStage, match="L-0001 is held; from there it cannot become delivered"):
        sittings.change_stage(by=house.desk, sitting=house.book(), to="delivered")


def test_cancelling_wants_a_reason_and_frees_what_was_held(house: House) -> None:
    sitting = house.book()
    with pytest.raises(NoteNeeded):
        sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="  ")
    assert sitting.claims.count() == 3
    sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="moved away")
    assert not sitting.claims.exists()
    assert house.book().number == "L-0002"


def test_the_first_of_two_who_move_it_at_once_wins(house: House) -> None:
    sitting = house.book()
    sittings.change_stage(by=house.desk, sitting=sitting, to="confirmed", seen=1)
    with pytest.raises(MovedMeanwhile, match="it is confirmed now"):
        sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="by mistake", seen=1)
    sitting.refresh_from_db()
    assert (sitting.stage, sitting.version) == ("confirmed", 2)


def test_a_sitting_whose_time_is_over_asks_what_became_of_it(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    sitting = house.book()
    sittings.change_stage(by=house.desk, sitting=sitting, to="confirmed")
    sitting.refresh_from_db()
    monkeypatch.setattr("studio.clock.now", lambda: at(11))  # struck at this minute
    assert stages.sentence(sitting) == "Confirmed. Its time is over. Studio's move: say whether they came."
    assert waiting.everything(at(0).date()).studio == []  # today's stands on the page of arrivals
    assert [one.name for one in waiting.everything(at(0, days=1).date()).studio] == ["L-0001, Askew"]
