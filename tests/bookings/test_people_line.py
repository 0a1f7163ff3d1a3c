"""People said in one line, taken apart."""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.forms.people import words
from bookings.people_line import Person, people

MOST = 40


def read(line: str, **more: object) -> list[tuple[str, str, str]]:
    found = people(line, words(), most=MOST, **more)  # type: ignore[arg-type]
    return [(person.label, person.age, person.posture) for person in found]


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("Ottoline 66, Bertram 70", [("Ottoline", "66", ""), ("Bertram", "70", "")]),
        ("Wilf 2 on a lap", [("Wilf", "2", "lap")]),
        ("Wilf, on a lap, 2", [("Wilf", "2", "lap")]),
        ("Nan (80) seated; Bob 81 standing", [("Nan", "80", "seated"), ("Bob", "81", "standing")]),
        ("Ada 44 in a wheelchair", [("Ada", "44", "wheelchair")]),
        ("Una aged 4 & Ida 8 months", [("Una", "4", ""), ("Ida", "0.67", "")]),
        ("Ottoline, 66, Bertram, 70", [("Ottoline", "66", ""), ("Bertram", "70", "")]),
        ("Ottoline and Bertram", [("Ottoline", "", ""), ("Bertram", "", "")]),
        ("Grandmother Rose 80 years old", [("Grandmother Rose", "80", "")]),
        ("Søren 41\u3001王小明 12، علي ٣٤", [("Søren", "41", ""), ("王小明", "12", ""), ("علي", "٣٤", "")]),
        ("Ида: 5", [("Ида", "5", "")]),
        ("🙂 33", [("🙂", "33", "")]),
        # What only looks like an age, a word or a seat stays in the name.
        ("R2 D2", [("R2 D2", "", "")]),
        ("Sandy", [("Sandy", "", "")]),
        ("Lapka 3", [("Lapka", "3", "")]),
        # Nobody is refused here: the row says what is wrong with it.
        ("Alexander 1966", [("Alexander", "1966", "")]),
        (" , ;\n", []),
        ("", []),
    ],
)
def test_a_line_is_read_as_it_is_said(line: str, found: list[tuple[str, str, str]]) -> None:
    assert read(line) == found


def test_people_told_by_age_or_number_alone_get_a_number_for_a_name() -> None:
    assert read("66 and 70") == [("Person 1", "66", ""), ("Person 2", "70", "")]
    assert [label for label, _age, _posture in read("2 adults, 3 children")] == [
        "Adult 1",
        "Adult 2",
        "Child 1",
        "Child 2",
        "Child 3",
    ]
    assert read("2 people", taken={"Person 1"}) == [("Person 2", "", ""), ("Person 3", "", "")]


def test_a_number_of_people_counts_those_who_are_named_and_more_does_not() -> None:
    assert len(read("Nan 80, Bob 81, 9 people")) == 9
    assert read("3 people: Nan 80") == [("Nan", "80", ""), ("Person 1", "", ""), ("Person 2", "", "")]
    assert len(read("Nan 80, Bob 81, 3 more")) == 5
    assert len(read("Nan 80, Bob 81, 1 people")) == 2


def test_a_crowd_is_cut_one_past_the_most() -> None:
    assert len(read("9999999999999999999999 people")) == MOST + 1
    assert len(read("5000 children")) == MOST + 1
    assert len(read(", ".join(string.ascii_letters))) == MOST + 1


@given(st.text(max_size=300))
def test_nothing_that_can_be_typed_is_an_error_of_ours(line: str) -> None:
    found = people(line, words(), most=MOST)
    assert len(found) <= MOST + 1
    assert all(isinstance(person, Person) and person.label.strip() for person in found)


@given(st.lists(st.tuples(st.sampled_from(["Ada", "Bo Lee", "Cécile", "王", "دانا"]), st.integers(0, 130)), max_size=9))
def test_names_and_ages_come_back_as_they_were_said(said: list[tuple[str, int]]) -> None:
    line = ", ".join(f"{name} {age}" for name, age in said)
    assert read(line) == [(name, str(age), "") for name, age in said]
