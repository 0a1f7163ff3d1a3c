"""Booking on the page: one page, everything typed kept, every no beside its field."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest
from django.test import Client as Browser

from bookings.models import Sitting
from studio.models import Profile
from tests import cast
from tests.bookings.filling import new_sitting, person
from tests.bookings.making import House

ADDRESS = "/sittings/new/"


@pytest.fixture
def desk(house: House) -> Browser:
    return cast.client_of(house.desk)


def text(page: Any) -> str:
    return page.content.decode()


def beside(page: Any, name: str) -> str:
    """The sentences that stand with one field."""
    part = re.search(rf'id="div_id_{name}".*?(?=id="div_id_|</fieldset>)', text(page), re.S)
    assert part, name
    return " ".join(unescape(said) for said in re.findall(r'id="error_[^"]*"><strong>([^<]*)', part.group()))


@pytest.mark.parametrize(("field", "changes"), [("photographer", {}), ("assistant", {"photographer": "other"})])
def test_a_taken_person_is_told_beside_the_person(house: House, desk: Browser, field: str, changes: Any) -> None:
    house.book()
    other = cast.make_member("photographer", name="Nell Orrin")
    people = {"assistant": house.members["assistant"].pk} | dict.fromkeys(changes, other.pk)
    page = desk.post(ADDRESS, new_sitting(house, time="10:00", **people))
    assert "is held by L-0001, Askew" in beside(page, field)


def test_one_person_in_both_roles_is_told_beside_the_assistant(house: House, desk: Browser) -> None:
    both = cast.make_member("photographer", "assistant", name="Nell Orrin")
    page = desk.post(ADDRESS, new_sitting(house, photographer=both.pk, assistant=both.pk))
    assert "cannot be its assistant too" in beside(page, "assistant")


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"new_name": ""}, "new_name", "Name the client, or choose one who is known."),
        ({"kind": ""}, "kind", "required"),
        ({"day": "3rd of May"}, "day", "valid date"),
        ({"day": "9999-12-31"}, "day", "between 2000 and 2100"),
        ({"time": "25:00"}, "time", "valid time"),
        ({"minutes": "0"}, "minutes", "greater than or equal to 5"),
        ({"room": "99999999999999999999"}, "room", "Select a valid choice"),
        ({"print_width_cm": "wide"}, "print_width_cm", "Enter a number"),
        ({"new_email": "no address"}, "new_email", "valid email"),
        ({"new_name": "two\x07lines"}, "new_name", "one line"),
    ],
)
def test_each_fault_is_told_beside_its_field(house: House, desk: Browser, typed: Any, field: str, says: str) -> None:
    page = desk.post(ADDRESS, new_sitting(house, **typed))
    assert page.status_code == 200
    assert says in beside(page, field)
    assert not Sitting.objects.exists()


def test_an_hour_that_the_clocks_skip_is_told_beside_the_time(house: House, desk: Browser) -> None:
    Profile.objects.update(time_zone="Europe/London")
    page = desk.post(ADDRESS, new_sitting(house, day="2027-03-28", time="01:30"))
    assert "The clocks are changed in that hour" in beside(page, "time")


@pytest.mark.parametrize(
    ("people", "says"),
    [
        ([person(0), person(1)], "Name at least one person who sits."),
        ([person(0, "A"), person(1, "A")], "Somebody else in this sitting is called that."),
        ([person(0, age_years="71"), person(1)], "Give this person a short name, or empty the row."),
        ([person(0, notes={"beard": "full"}), person(1)], "Give this person a short name, or empty the row."),
        ([person(0, "A", age_years="200"), person(1)], "Give a number from 0 to 130 years."),
        ([person(0, "A", notes={"turn_limit_deg": "120"})], "Give a number from 0 to 90 degrees."),
        ([person(0, "A", notes={"skin": "blue"})], "Select a valid choice"),
        ([person(0, "A", wishes=[{"note": "lines"}])], "Say what is wished"),
        ([person(0, "A", wishes=[{"wish": "softer"}])], "Say what the wish is about"),
    ],
)
def test_each_fault_of_a_person_is_told_and_nothing_is_lost(
    house: House, desk: Browser, people: Any, says: str
) -> None:
    page = desk.post(ADDRESS, new_sitting(house, *people))
    assert says in text(page).replace("&#x27;", "'")
    assert "Not booked." in text(page)
    assert not Sitting.objects.exists()


def test_notes_with_a_fault_are_shown_open(house: House, desk: Browser) -> None:
    page = desk.post(ADDRESS, new_sitting(house, person(0, "A", notes={"stand_minutes": "soon"})))
    assert text(page).count("<details open>") == 1


def test_another_row_is_added_without_a_script_and_without_a_word_of_blame(house: House, desk: Browser) -> None:
    typed = new_sitting(house, person(0, "Ignace", notes={"beard": "full"}), kind="") | {"more": "1"}
    page = desk.post(ADDRESS, typed)
    assert 'name="people-2-label"' in text(page)
    assert 'value="Ignace"' in text(page)
    assert '<option value="full" selected' in text(page)
    assert "invalid-feedback" not in text(page)
    assert "is-invalid" not in text(page)
    assert not Sitting.objects.exists()


def test_a_click_in_the_diary_fills_in_room_day_and_time(house: House, desk: Browser) -> None:
    page = desk.get(ADDRESS, {"room": house.room.pk, "day": "2026-12-03", "at": "11:00", "client": house.client.pk})
    assert f'<option value="{house.room.pk}" selected' in text(page)
    assert 'value="2026-12-03"' in text(page)
    assert 'value="11:00"' in text(page)


SINGLY = ("day", "time", "room", "start_instead", "people-TOTAL_FORMS", "people-0-wishes-TOTAL_FORMS")


@pytest.mark.parametrize("junk", ["x", "-1", "\x00", "9" * 30, "2026-13-40", "NaN", "1e400", "<b>", "\u0663"])
def test_junk_is_never_an_error_of_ours(house: House, desk: Browser, junk: str) -> None:
    good = new_sitting(house) | {"kind": ""}  # never booked, so that the page is drawn with everything on it
    for name in SINGLY:
        assert desk.post(ADDRESS, good | {name: junk}).status_code == 200, name
    everywhere = {name: junk for name in good if "_FORMS" not in name}
    assert desk.post(ADDRESS, good | everywhere).status_code == 200
    assert desk.post(ADDRESS, good | everywhere | {"more": "1"}).status_code == 200
    assert desk.get(ADDRESS, dict.fromkeys(("room", "day", "at", "client", "photographer"), junk)).status_code == 200


def test_an_empty_post_is_answered_too(house: House, desk: Browser) -> None:
    assert desk.post(ADDRESS, {}).status_code == 200


def test_the_page_asks_the_database_as_often_for_forty_people_as_for_two(
    house: House, desk: Browser, django_assert_max_num_queries: Any
) -> None:
    with django_assert_max_num_queries(12):
        desk.get(ADDRESS)
    with django_assert_max_num_queries(12):
        desk.post(ADDRESS, new_sitting(house, *[person(n, f"P{n}") for n in range(40)], new_name=""))
