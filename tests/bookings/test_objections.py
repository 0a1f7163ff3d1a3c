"""What speaks against a time: hours, days off, and who sits."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from string import Formatter
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings import objections as module
from bookings.objections import Asked, Off, Worker, catch_up_minutes, needed_minutes, objections
from bookings.slots import Span

DAY = datetime(2026, 12, 3, tzinfo=UTC)


def at(hour: float, *, days: int = 0) -> datetime:
    return DAY + timedelta(days=days, hours=hour)


def asked(start: float = 9.5, minutes: int = 75, ages: Sequence[float | None] = (40,), **more: Any) -> Asked:
    """A sitting with 30 and 15 minutes around it, in a house that is open from 08:00 to 19:00."""
    sitting = Span(at(start), at(start) + timedelta(minutes=minutes))
    whole = Span(sitting.starts_at - timedelta(minutes=30), sitting.ends_at + timedelta(minutes=15))
    values = {"sitting": sitting, "whole": whole, "ages": ages, "open": [Span(at(8), at(19))]}
    return Asked(**(values | more))


def codes(found: Asked) -> list[str]:
    return [one.code for one in objections(found)]


def sentence(found: Asked) -> str:
    [one] = objections(found)
    return one.sentence


def test_a_couple_in_the_morning_meets_no_objection() -> None:
    assert objections(asked(ages=(66, 70))) == []


def test_set_up_and_strike_lie_within_the_opening_hours() -> None:
    assert codes(asked(8.5)) == []
    assert codes(asked(8.25)) == ["outside_hours"]
    assert codes(asked(17.5)) == []  # 18:45, struck by 19:00
    assert sentence(asked(17.75)) == (
        "From set-up to strike it takes from 17:15 to 19:15; the house is open from 08:00 to 19:00."
    )


def test_a_closure_says_its_words_and_a_free_weekday_that_it_is_one() -> None:
    whole_day = Span(at(0), at(24))
    assert sentence(asked(closed=[Off(whole_day, "summer closing")])) == "The house is closed then: summer closing."
    assert sentence(asked(closed=[Off(whole_day)])) == "The house is closed then."
    assert sentence(asked(open=[])) == "The house is not open on that day of the week."
    assert codes(asked(closed=[Off(Span(at(24), at(48)), "the day after")])) == []


def test_opening_hours_of_another_day_are_not_given_as_this_days() -> None:
    assert codes(asked(open=[Span(at(8, days=1), at(19, days=1))])) == ["closed"]


def test_over_midnight_two_days_that_are_open_throughout_are_one() -> None:
    until_late = [Span(at(8), at(24)), Span(at(24), at(30))]
    assert codes(asked(23, open=until_late)) == []
    assert codes(asked(23, open=until_late[:1])) == ["outside_hours"]


def test_each_person_who_is_away_is_named_once() -> None:
    span = Span(at(9.25), at(10.75))
    ill = Worker(7, "Tobiah Renn", span, off=[Off(Span(at(0), at(24)), "away")])
    late = Worker(8, "Ines Calloway", span, works=[Span(at(10), at(16))])
    never = Worker(9, "Harriet Voss", span, works=[Span(at(8, days=1), at(16, days=1))])
    here = Worker(10, "Maud Ferriby", span)
    found = objections(asked(workers=[ill, late, never, here]))
    assert [(one.code, one.sentence) for one in found] == [
        ("off_7", "Tobiah Renn is off then: away."),
        ("off_8", "Ines Calloway is needed from 09:15 to 10:45 and works from 10:00 to 16:00 that day."),
        ("off_9", "Harriet Voss does not work on that day of the week."),
    ]
    assert objections(asked(workers=[replace(ill, off=[Off(Span(at(0), at(24)))])]))[0].sentence == (
        "Tobiah Renn is off then."
    )


def test_a_toddler_at_a_quarter_to_five_is_objected_to_and_at_ten_is_not() -> None:
    assert sentence(asked(16.75, ages=(66, 41, 2))) == (
        "A child under five sits at 16:45: in the morning or after a nap it goes better."
    )
    assert codes(asked(10, ages=(66, 41, 2))) == []
    assert codes(asked(16.75, ages=(66, 41, 5))) == []
    assert codes(asked(16, ages=(4.9,))) == ["small_child_late"]
    assert codes(asked(15.75, ages=(4.9,))) == []


@pytest.mark.parametrize(
    ("age", "short", "enough", "code"),
    [(0.1, 179, 180, "newborn"), (0.9, 89, 90, "infant"), (2, 59, 60, "small_child_short")],
)
def test_small_children_need_their_time(age: float, short: int, enough: int, code: str) -> None:
    assert codes(asked(minutes=short, ages=(age,))) == [code]
    assert codes(asked(minutes=enough, ages=(age,))) == []


def test_two_old_people_want_a_rest_after_forty_minutes() -> None:
    assert codes(asked(minutes=40, ages=(75, 82))) == []
    assert codes(asked(minutes=41, ages=(75, 82))) == ["older_pair"]
    assert codes(asked(ages=(74, 82))) == codes(asked(ages=(75, 82, 40))) == codes(asked(ages=(75, None))) == []


def test_twenty_people_in_turn_need_gaps_to_catch_up() -> None:
    """job.md section 6: ten minutes each, and a gap of ten after every five or six."""
    twenty = {"ages": [None] * 20, "in_turn": True}
    assert sentence(asked(minutes=200, **twenty)) == (
        "20 people in turn in 200 minutes leave no gap to catch up: with ten minutes after every five or six "
        "it takes 230."
    )
    assert codes(asked(minutes=199, **twenty)) == ["too_short"]
    assert codes(asked(minutes=230, **twenty)) == []
    assert codes(asked(minutes=160, ages=[None] * 14, in_turn=True)) == []  # the demo's joinery: 14 and two gaps


def test_more_people_in_one_picture_need_more_minutes() -> None:
    assert codes(asked(minutes=65, ages=[30] * 9)) == []
    assert sentence(asked(minutes=64, ages=[30] * 9)) == "9 people need about 65 minutes, this is 64."


def test_what_the_studio_gives_a_kind_is_enough_for_one() -> None:
    assert codes(asked(minutes=10, kind_minutes=10)) == []
    assert codes(asked(minutes=10)) == ["too_short"]


@given(st.integers(0, 60), st.integers(0, 300), st.booleans())
def test_one_more_never_needs_less(people: int, kind: int, in_turn: bool) -> None:
    assert needed_minutes(people, kind, in_turn=in_turn) <= needed_minutes(people + 1, kind, in_turn=in_turn)
    assert catch_up_minutes(people) <= catch_up_minutes(people + 1) <= catch_up_minutes(people) + 10


@given(st.integers(0, 47), st.integers(5, 400), st.lists(st.none() | st.floats(0, 110), max_size=12), st.booleans())
def test_any_sitting_gets_sentences_without_a_hole(
    half_hours: int, minutes: int, ages: list[float | None], turn: bool
) -> None:
    worker = Worker(1, "Tobiah Renn", Span(at(half_hours / 2), at(half_hours / 2 + 1)), works=[Span(at(9), at(12))])
    found = objections(asked(half_hours / 2, minutes, ages, in_turn=turn, workers=[worker]))
    assert len({one.code for one in found}) == len(found)
    assert not [one for one in found if "{" in one.sentence or not one.sentence.endswith(".")]


def test_times_are_said_and_asked_in_the_zone_of_the_studio() -> None:
    """Five in the afternoon in Quillbridge in July is four in UTC."""
    zone = ZoneInfo("Europe/London")
    summer = datetime(2027, 7, 1, 15, 30, tzinfo=UTC)
    sitting = Span(summer, summer + timedelta(minutes=60))
    found = Asked(sitting, sitting, ages=(3,), open=[sitting], zone=zone)
    assert sentence(found) == "A child under five sits at 16:30: in the morning or after a nap it goes better."


def test_on_the_night_the_clocks_go_back_an_hour_counts_as_an_hour() -> None:
    zone = ZoneInfo("Europe/London")
    start = datetime(2026, 10, 25, 0, 30, tzinfo=UTC)  # 01:30, and an hour later it is 01:30 again
    sitting = Span(start, start + timedelta(minutes=60))
    assert Asked(sitting, sitting, open=[sitting], zone=zone).minutes == 60
    assert objections(Asked(sitting, sitting, ages=(40,), open=[sitting], zone=zone)) == []


def test_every_sentence_goes_through_the_translation() -> None:
    def backwards(text: str) -> str:
        return "".join(f"{{{name}}}" for _t, name, *_x in Formatter().parse(text) if name) or "x"

    assert sentence(asked(16.75, ages=(2,), translated=backwards)) == "16:45"


def test_it_runs_without_a_framework() -> None:
    code = "import sys, bookings.objections; print({'django', 'studio.models'} & set(sys.modules))"
    root = Path(module.__file__).parents[1]
    assert subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True).stdout == "set()\n"
