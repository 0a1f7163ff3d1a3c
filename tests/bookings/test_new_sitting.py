"""Booking on the page: one page, everything typed kept, every no beside its field."""

from __future__ import annotations

import re
from decimal import Decimal
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from django.contrib.staticfiles import finders
from django.test import Client as Browser

from bookings import wording
from bookings.models import Client, Sitting
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import agree
from tests.bookings.filling import new_sitting, person
from tests.bookings.making import House, at

ADDRESS = "/sittings/new/"


@pytest.fixture
def desk(house: House) -> Browser:
    return cast.client_of(house.desk)


def text(page: Any) -> str:
    return page.content.decode()


def beside(page: Any, name: str) -> str:
    """The sentences that stand with one field."""
    part = re.search(rf'id="div_id_{name}".*?(?=id="div_id_|</fieldset>|</form>)', text(page), re.S)
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
        ({"occasion_on": "0201-06-01"}, "occasion_on", "between 1900 and 2100"),
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


@pytest.mark.parametrize(("which", "starts"), [("0", "00:30"), ("1", "01:30")])
def test_an_hour_that_the_clocks_repeat_is_asked_and_booked_as_answered(
    house: House, desk: Browser, which: str, starts: str
) -> None:
    Profile.objects.update(time_zone="Europe/London")
    asked = desk.post(ADDRESS, new_sitting(house, day="2027-10-31", time="01:30"))
    assert "say below which of the two" in beside(asked, "time")
    assert not Sitting.objects.exists()
    said = {"which": which, "acknowledged": ["closed", "outside_hours"]}
    desk.post(ADDRESS, new_sitting(house, day="2027-10-31", time="01:30", **said))
    assert f"{Sitting.objects.get().starts_at:%H:%M}" == starts


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


JUNK = ("x", "-1", "\x00", "9" * 30, "2026-13-40", "NaN", "1e400", "<b>", "\u0663")


@pytest.mark.parametrize("junk", JUNK)
def test_junk_is_never_an_error_of_ours(house: House, desk: Browser, junk: str) -> None:
    good = new_sitting(house) | {"kind": ""}  # never booked, so that the page is drawn with everything on it
    for name in list(SINGLY)[JUNK.index(junk) :: len(JUNK)]:  # each field alone once, all fields at once with each
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


def posted(desk: Browser, sent: dict[str, Any], **more: Any) -> Any:
    return desk.post(ADDRESS, sent | more)


def test_people_of_one_line_are_booked_with_it(house: House, desk: Browser) -> None:
    line = "Ottoline 66, Bertram 70, Wilf 6 on a lap"
    posted(desk, new_sitting(house, person(0), people_line=line))
    sitters = Sitting.objects.get().sitters.all()
    assert [(one.label, one.age_years, one.posture) for one in sitters] == [
        ("Ottoline", 66, ""),
        ("Bertram", 70, ""),
        ("Wilf", 6, "lap"),
    ]


def test_a_line_adds_to_the_rows_and_takes_the_empty_ones_first(house: House, desk: Browser) -> None:
    rows = (person(0, "Nan", age_years="80"), person(1), person(2, notes={"beard": "full"}), person(3, "Bob"))
    page = posted(desk, new_sitting(house, *rows, people_line="Una 31, Ida 33"), rows="1")
    assert [re.search(rf'name="people-{n}-label" value="([^"]*)"', text(page)) is not None for n in range(5)] == [
        True,
        True,
        False,
        True,
        True,
    ]
    for number, label in ((0, "Nan"), (1, "Una"), (3, "Bob"), (4, "Ida")):
        assert f'name="people-{number}-label" value="{label}"' in text(page)
    assert '<option value="full" selected' in text(page)
    assert "invalid-feedback" not in text(page)
    assert not Sitting.objects.exists()


@pytest.mark.parametrize("asked", [{"rows": "1"}, {}])
def test_a_line_with_too_many_stays_and_says_so(house: House, desk: Browser, asked: dict[str, str]) -> None:
    page = posted(desk, new_sitting(house, person(0), people_line="61 people"), **asked)
    assert "One sitting takes 60 people at most" in beside(page, "people_line")
    assert 'value="61 people"' in text(page)
    assert not Sitting.objects.exists()


def test_a_row_added_without_a_script_can_be_booked(house: House, desk: Browser) -> None:
    typed = new_sitting(house, person(0, "Ignace"))
    page = text(posted(desk, typed, more="1"))
    sent = dict(re.findall(r'name="(people-2-[^"]*)" value="([^"]*)"', page))
    assert sent["people-2-wishes-TOTAL_FORMS"] == "3"
    posted(desk, typed | sent | {"people-2-label": "Wren", "people-TOTAL_FORMS": "3"})
    assert [one.label for one in Sitting.objects.get().sitters.all()] == ["Ignace", "Wren"]


def test_a_known_client_is_found_and_chosen_without_a_script(house: House, desk: Browser) -> None:
    typed = new_sitting(house, new_name="askew")
    page = text(posted(desk, typed, find="1"))
    assert re.search(rf'type="radio" name="client" value="{house.client.pk}"', page)
    assert "invalid-feedback" not in page
    posted(desk, typed, client=house.client.pk)
    assert Sitting.objects.get().client == house.client
    assert Client.objects.count() == 1


def test_somebody_of_the_same_name_is_pointed_out_and_never_in_the_way(house: House, desk: Browser) -> None:
    typed = new_sitting(house, new_name="ottoline and bertram ASKEW")
    page = text(posted(desk, typed, kind=""))
    assert "There is already somebody like that" in page
    assert "01632 960123" in page
    posted(desk, typed)
    assert Client.objects.count() == 2


def test_objections_stand_with_ticks_and_a_tick_books_all_the_same(house: House, desk: Browser) -> None:
    typed = new_sitting(house, person(0, "Wilf", age_years="2"), time="17:00", purpose="a gift")
    page = text(posted(desk, typed))
    assert "A child under five sits at 17:00" in page
    assert "Book it all the same" in page
    assert 'value="a gift"' in page
    assert "Not booked. What is wrong" not in page
    assert not Sitting.objects.exists()
    codes = re.findall(r'name="acknowledged" value="([^"]*)"', page)
    posted(desk, typed, acknowledged=codes)
    assert Sitting.objects.count() == 1


def test_a_tick_for_one_objection_is_not_one_for_another(house: House, desk: Browser) -> None:
    typed = new_sitting(house, person(0, "Wilf", age_years="2"), time="17:00")
    page = text(posted(desk, typed, acknowledged=["closed"]))
    assert "A child under five" in page
    assert not Sitting.objects.exists()


def test_a_taken_time_offers_a_second_hold_behind_whoever_has_it(house: House, desk: Browser) -> None:
    first = house.book()
    typed = new_sitting(house, time="10:00", room=house.room.pk)
    page = text(posted(desk, typed))
    assert f"Place a second hold behind {first.number}" in page
    assert page.count(f"is held by {first.number}") == 2  # beside its field, and where the offers are
    page = desk.post(ADDRESS, typed | {"behind": first.number}, follow=True)
    assert f"L-0002 waits behind {first.number}." in text(page)
    second = Sitting.objects.get(number="L-0002")
    assert second.hold.behind == first
    assert not second.claims.exists()


def test_a_second_hold_that_is_objected_to_is_still_one_once_it_is_ticked(house: House, desk: Browser) -> None:
    first = house.book(starts_at=at(16, 30))
    typed = new_sitting(house, person(0, "Wilf", age_years="2"), time="17:00", room=house.room.pk, behind=first.number)
    page = text(posted(desk, typed))
    assert f'name="behind" value="{first.number}"' in page
    posted(desk, typed, acknowledged=re.findall(r'name="acknowledged" value="([^"]*)"', page))
    assert Sitting.objects.get(number="L-0002").hold.behind == first


@pytest.mark.parametrize("number", ["L-9999", "x", "\x00", "\u0663", ""])
def test_nobody_waits_behind_a_number_that_is_none(house: House, desk: Browser, number: str) -> None:
    house.book()
    page = posted(desk, new_sitting(house, time="10:00", room=house.room.pk, behind=number))
    assert page.status_code == 200
    assert Sitting.objects.count() == 1


@pytest.mark.parametrize(
    "name",
    ["王小明", "علي حسن", "Zoë Łukasz", "🙂 Smile", "\u202b\u05e2\u05dc\u05d9\u202c", "O\u2019Hara", "Ж" * 120],
)
def test_names_in_any_script_are_booked_as_they_are_written(house: House, desk: Browser, name: str) -> None:
    posted(desk, new_sitting(house, person(0, name[:60]), new_name=name))
    sitting = Sitting.objects.get()
    assert sitting.client.name == name
    assert sitting.sitters.get().label == name[:60]
    assert name in unescape(text(desk.get(f"/sittings/{sitting.number}/")))


def test_a_name_of_three_hundred_letters_is_refused_with_a_sentence_and_kept(house: House, desk: Browser) -> None:
    long = "Ж" * 300
    page = posted(desk, new_sitting(house, person(0, long), new_name=long))
    assert "at most 120 characters (it has 300)" in beside(page, "new_name")
    assert "at most 60 characters (it has 300)" in text(page)
    assert text(page).count(f'value="{long}"') == 2
    form = text(page).split('name="new_name"', 1)[1]
    assert "maxlength" not in form  # a browser would cut it without a word


def test_a_kind_says_what_it_fills_in(house: House, desk: Browser) -> None:
    agree(house)
    page = unescape(text(desk.get(ADDRESS)))
    option = re.search(r'<option value="\d+" data-minutes="75".*?>Anniversary couple', page, re.S)
    assert option
    assert "75 minutes, set-up 30, strike 15. Terms: Portraits. Ask: what each wishes softer" in option.group()
    fee = wording.money(Decimal(180), Profile.get().currency)
    assert f'data-fees="[["2026-01-01", "Fee: {fee}."]]"' in option.group()
    page = unescape(text(posted(desk, new_sitting(house, new_name=""))))
    assert "Terms: Portraits." in re.search(r'id="kind-says".*?</p>', page, re.S).group()  # type: ignore[union-attr]


def test_other_times_than_the_kind_s_are_shown_open(house: House, desk: Browser) -> None:
    for minutes, is_open in (("75", False), ("90", True), ("", False)):
        page = text(posted(desk, new_sitting(house, new_name="", minutes=minutes)))
        assert ('<details id="own-times" open>' in page) is is_open


def test_where_there_is_one_room_alone_it_is_filled_in(house: House, desk: Browser) -> None:
    page = text(desk.get(ADDRESS))
    assert f'<option value="{house.members["photographer"].pk}" selected' in page
    assert f'<option value="{house.room.pk}" selected' not in page
    house.other_room.active = False
    house.other_room.save()
    assert f'<option value="{house.room.pk}" selected' in text(desk.get(ADDRESS))


def test_a_click_elsewhere_is_said_at_the_top(house: House, desk: Browser) -> None:
    asked = {"room": house.room.pk, "day": "2026-12-03", "at": "11:00", "client": house.client.pk, "minutes": 90}
    page = text(desk.get(ADDRESS, asked))
    assert "For Thursday 3 December 2026, 11:00, Long Room." in page
    assert 'value="Ottoline and Bertram Askew"' in page
    assert f'value="{house.client.pk}" id="id_client_{house.client.pk}" checked' in page
    assert '<details id="own-times" open>' in page


def test_no_note_on_health_is_in_what_a_browser_is_told_to_keep(house: House, desk: Browser) -> None:
    script = finders.find("bookings/draft.js")
    assert script
    never = re.search(r"NEVER_KEPT = /(.*?)/;", Path(script).read_text(encoding="utf-8"))
    assert never
    names = re.findall(r'name="(people-[^"]*)"', text(desk.get(ADDRESS)))
    about = [name for name in names if "-notes-" in name or "-wishes-" in name]
    assert about
    assert all(re.search(never.group(1), name) for name in about)
    assert not re.search(never.group(1), "people-0-label")
