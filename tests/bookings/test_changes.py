"""A booked sitting changed on its page: claims move or nothing does, history says what, nothing typed is lost."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings.actions import claims, sittings
from bookings.actions.sittings import SitterInput
from bookings.models import Claim, Notes, Sitter, Sitting, SittingChange
from shotplans.workbench import starting_brief
from studio.models import Profile
from tests import cast
from tests.bookings.making import House, at
from tests.bookings.test_booking import book_other
from tests.pages import Page, Visitor

SAVE = "Save"


@pytest.fixture
def sitting(house: House) -> Sitting:
    return house.book()


@pytest.fixture
def maud(house: House, sitting: Sitting) -> Visitor:
    """At the front desk with the page open."""
    visitor = Visitor(cast.client_of(house.desk))
    visitor.open(address(sitting))
    return visitor


def address(sitting: Sitting) -> str:
    return f"/sittings/{sitting.number}/change/"


def held(sitting: Sitting) -> set[tuple[str, int, Any, Any]]:
    return set(sitting.claims.values_list("resource_kind", "resource_id", "starts_at", "ends_at"))


def lines() -> list[str]:
    return [change.sentence for change in SittingChange.objects.order_by("pk")]


def labels(sitting: Sitting) -> list[str]:
    return [sitter.label for sitter in Sitter.objects.filter(sitting=sitting)]


def test_the_desk_comes_from_the_sitting_s_page_and_moves_it_with_all_it_holds(
    house: House, sitting: Sitting, maud: Visitor
) -> None:
    boom = cast.make_kit("stands", "boom-1", label="boom")
    claims.claim_kit(sitting=sitting, kit=[boom.pk])
    maud.open(f"/sittings/{sitting.number}/")
    maud.follow("Change time, place or people")
    page = maud.press(
        SAVE, {"day": "2026-12-04", "time": "13:00", "room": str(house.other_room.pk), "minutes": "60", "note": "rain"}
    )
    assert page.address == f"/sittings/{sitting.number}/"
    assert held(sitting) == {
        ("room", house.other_room.pk, at(12, 30, days=1), at(14, 15, days=1)),
        ("member", house.members["assistant"].pk, at(12, 30, days=1), at(14, 15, days=1)),
        ("member", house.members["photographer"].pk, at(12, 45, days=1), at(14, days=1)),
        ("kit", boom.pk, at(12, 30, days=1), at(14, 15, days=1)),
    }
    assert lines() == [
        "start from Thursday 3 December 2026, 09:30 to Friday 4 December 2026, 13:00",
        "length from 75 minutes to 60 minutes",
        "room from Long Room to Garden Room",
    ]
    assert "room from Long Room to Garden Room by Maud Ferriby" in page.words
    assert page.words.count("rain") == 3
    sitting.refresh_from_db()
    assert (sitting.version, sitting.starts_at) == (2, at(13, days=1))


def test_times_are_read_and_written_in_the_studio_s_zone(house: House, sitting: Sitting, maud: Visitor) -> None:
    Profile.objects.update(time_zone="Asia/Tokyo")
    values = maud.open(address(sitting)).form_with(SAVE).values
    assert (values["time"], values["print_width_cm"]) == (["18:30"], ["75"])
    page = maud.press(SAVE, {"time": "19:00"})
    against = "From set-up to strike it takes from 18:30 to 20:30; the house is open from 08:00 to 19:00."
    assert against in page.words
    maud.press(SAVE, {"acknowledged": "outside_hours"})
    assert Sitting.objects.get().starts_at == at(10)
    moved = "start from Thursday 3 December 2026, 18:30 to Thursday 3 December 2026, 19:00"
    assert lines() == [moved, f"booked all the same: {against[:-1]}"]


def test_what_overlaps_only_itself_is_free(sitting: Sitting, maud: Visitor) -> None:
    maud.press(SAVE, {"time": "09:45"})
    assert Sitting.objects.get().starts_at == at(9, 45)


@pytest.mark.parametrize(
    ("other", "says"),
    [
        ({"room": "same"}, "The Long Room is held by L-0002, Dorrow, from 13:00 to 15:00. Next free: 15:00."),
        ({"assistant": "same"}, "Ines Calloway is held by L-0002, Dorrow, from 13:00 to 15:00. Next free: 15:00."),
        ({"photographer": "same"}, "Tobiah Renn is held by L-0002, Dorrow, from 13:15 to 14:45. Next free: 14:45."),
    ],
)
def test_what_is_taken_is_refused_as_in_booking_and_the_start_on_offer_is_taken(
    house: House, sitting: Sitting, maud: Visitor, other: Mapping[str, str], says: str
) -> None:
    same = {"room": house.room} | {role: house.members[role] for role in ("assistant", "photographer")}
    book_other(house, starts_at=at(13, 30), **{name: same[name] for name in other})
    before = held(sitting)
    page = maud.press(SAVE, {"time": "14:00", "people-0-age_years": "67"})
    assert page.status == 422
    assert says in page.words
    assert (held(sitting), lines(), Sitting.objects.get(pk=sitting.pk).version) == (before, [], 1)
    offer = next(words for form in page.forms for words in form.buttons if words.startswith("Move it to"))
    maud.press(offer)
    assert Sitting.objects.get(pk=sitting.pk).starts_at > at(14)
    assert sitting.sitters.get(label="Ottoline").age_years == 67


def test_kit_that_another_sitting_holds_then_refuses_the_move_and_nothing_is_let_go(
    house: House, sitting: Sitting, maud: Visitor
) -> None:
    boom = cast.make_kit("stands", "boom-1", label="boom")
    claims.claim_kit(sitting=sitting, kit=[boom.pk])
    claims.claim_kit(sitting=book_other(house, starts_at=at(13, 30)), kit=[boom.pk])
    before = held(sitting)
    page = maud.press(SAVE, {"time": "14:00"})
    assert "The boom is held by L-0002, Dorrow, from 13:00 to 15:00." in page.words
    assert held(sitting) == before


def test_people_and_purpose_are_corrected_without_touching_what_is_held(sitting: Sitting, maud: Visitor) -> None:
    before = set(sitting.claims.values_list("pk", flat=True))
    maud.press(SAVE, {"purpose": "golden wedding", "print_width_cm": "90", "people-1-age_years": "68"})
    assert set(sitting.claims.values_list("pk", flat=True)) == before
    assert lines() == [
        "what the pictures are for from “ruby wedding” to “golden wedding”",
        "width of the print from 75 cm to 90 cm",
        "details of Bertram corrected: age",
    ]
    assert "68" not in " ".join(lines())


def test_a_person_is_added_renamed_and_taken_out_and_notes_go_with_the_person(
    house: House, sitting: Sitting, maud: Visitor
) -> None:
    ottoline = Sitter.objects.get(label="Ottoline")
    ottoline.keep_with = "Bertram"
    ottoline.save()
    Notes.objects.create(sitter=Sitter.objects.get(label="Bertram"), no_flash=True)
    maud.open(address(sitting))
    maud.press("Add a person")
    maud.press(SAVE, {"people-1-label": "Bert", "people-2-label": "Wren", "people-2-age_years": "12"})
    assert labels(sitting) == ["Ottoline", "Bert", "Wren"]
    assert Sitter.objects.get(label="Ottoline").keep_with == "Bert"
    assert Notes.objects.get().sitter.label == "Bert"
    assert lines() == [
        "short name from Bertram to Bert",
        "details of Ottoline corrected: keep beside",
        "Wren added",
    ]
    maud.open(address(sitting))
    maud.press(SAVE, {"people-1-DELETE": "on", "people-0-keep_with": ""})
    assert labels(sitting) == ["Ottoline", "Wren"]
    assert not Notes.objects.exists()
    assert lines()[-1] == "details of Ottoline corrected: keep beside"
    assert "Bert taken out" in lines()


def test_two_may_swap_their_names(sitting: Sitting, maud: Visitor) -> None:
    maud.press(SAVE, {"people-0-label": "Bertram", "people-1-label": "Ottoline"})
    assert labels(sitting) == ["Bertram", "Ottoline"]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"people-0-label": ""}, "Give this person a short name."),
        ({"people-0-label": "Bertram"}, "Somebody else in this sitting is called that."),
        ({"people-0-age_years": "200"}, "Give a number from 0 to 130 years."),
        ({"people-0-keep_with": "Nobody"}, "Nobody else in this sitting is called that."),
        ({"people-0-keep_with": "Ottoline"}, "Nobody else in this sitting is called that."),
        ({"people-0-keep_with": "Bertram", "people-1-DELETE": "on"}, "Nobody else in this sitting is called that."),
        ({"people-0-DELETE": "on", "people-1-DELETE": "on"}, "Name at least one person who sits."),
        ({"day": "9999-12-31"}, "Give a day between 2000 and 2100."),
        ({"time": "25:00"}, "Enter a valid time."),
        ({"minutes": ""}, "This field is required."),
        ({"setup_minutes": "-1"}, "greater than or equal to 0"),
        ({"room": "999"}, "Select a valid choice."),
        ({"note": "n" * 401}, "at most 400 characters"),
    ],
)
def test_each_fault_is_told_beside_its_field_and_nothing_is_lost(
    sitting: Sitting, maud: Visitor, typed: dict[str, str], says: str
) -> None:
    page = maud.press(SAVE, {"purpose": "golden wedding"} | typed)
    assert page.status == 422
    assert says in page.words
    assert page.form_with(SAVE).values["purpose"] == ["golden wedding"]
    assert (lines(), labels(sitting)) == ([], ["Ottoline", "Bertram"])


def test_one_person_in_both_roles_is_refused(house: House, sitting: Sitting, maud: Visitor) -> None:
    both = cast.make_member("photographer", "assistant", name="Nell Orrin")
    maud.open(address(sitting))
    page = maud.press(SAVE, {"photographer": str(both.pk), "assistant": str(both.pk)})
    assert "Nell Orrin is the photographer of this sitting and cannot be its assistant too." in page.words


def test_nothing_different_writes_nothing(sitting: Sitting, maud: Visitor) -> None:
    assert "Nothing was different: nothing was changed." in maud.press(SAVE).words
    assert (lines(), Sitting.objects.get().version) == ([], 1)


def test_the_first_save_wins_and_the_second_sees_what_differs_and_keeps_its_text(
    house: House, sitting: Sitting, maud: Visitor
) -> None:
    other = Visitor(maud.client)
    other.open(address(sitting))
    other.press("Add a person")
    other.press(SAVE, {"time": "10:00", "people-1-label": "Bert", "people-2-label": "Wren"})
    page = maud.press(SAVE, {"time": "11:00", "people-0-age_years": "67"})
    assert page.status == 422
    assert "Somebody else saved this while you had it open." in page.words
    for row in (
        '<th scope="row">The sitting starts at</th><td>10:00</td><td>11:00</td>',
        '<th scope="row">Bert: Short name</th><td>Bert</td><td>Bertram</td>',
        '<th scope="row">Ottoline: Age (years)</th><td>66</td><td>67</td>',
        '<th scope="row">Who sits</th><td>Wren</td><td>-</td>',
    ):
        assert row in page.html
    assert Sitting.objects.get().starts_at == at(10)
    maud.press(SAVE)
    assert Sitting.objects.get().starts_at == at(11)
    assert labels(sitting) == ["Ottoline", "Bertram", "Wren"], "whom nobody took out is still there"


def test_somebody_taken_out_meanwhile_comes_back_only_when_saved_again(
    house: House, sitting: Sitting, maud: Visitor
) -> None:
    other = Visitor(maud.client)
    other.open(address(sitting))
    other.press(SAVE, {"people-1-DELETE": "on"})
    page = maud.press(SAVE, {"purpose": "golden wedding"})
    assert '<th scope="row">Who sits</th><td>-</td><td>Bertram</td>' in page.html
    assert labels(sitting) == ["Ottoline"]
    maud.press(SAVE)
    assert labels(sitting) == ["Ottoline", "Bertram"]


def uses(sitting: Sitting) -> dict[str, str]:
    return {"Bertram": "the guest book"}


RENAMED: list[Mapping[str, str]] = []


def rename(sitting: Sitting, names: Mapping[str, str]) -> None:
    RENAMED.append(names)


def test_upper_apps_are_asked_before_somebody_goes_and_told_of_a_new_name(
    sitting: Sitting, maud: Visitor, settings: Any
) -> None:
    settings.SITTER_USES, settings.SITTER_RENAMES = [f"{__name__}.uses"], [f"{__name__}.rename"]
    page = maud.press(SAVE, {"people-1-DELETE": "on", "purpose": "golden wedding"})
    assert "Bertram is named in the guest book and cannot be taken out before that is changed." in page.words
    assert (lines(), labels(sitting)) == ([], ["Ottoline", "Bertram"])
    maud.open(address(sitting))
    maud.press(SAVE, {"people-0-label": "Otti"})
    assert RENAMED.pop() == {"Ottoline": "Otti"}


@pytest.mark.parametrize("stages", [["cancelled"], ["confirmed", "arrived", "photographed"]])
def test_what_is_over_or_off_stays_as_it_was(house: House, sitting: Sitting, maud: Visitor, stages: list[str]) -> None:
    form = maud.page.form_with(SAVE)
    for stage in stages:
        sitting = sittings.change_stage(by=house.desk, sitting=sitting, to=stage, note="n")
    answer = maud.client.post(address(sitting), form.values | {"purpose": "other"}, follow=True)
    assert "its time, place and people stay as they were." in answer.content.decode()
    assert lines() == []
    assert "Change time, place or people" not in maud.open(f"/sittings/{sitting.number}/").words


def test_a_room_out_of_use_since_does_not_stop_a_correction_but_a_move(
    house: House, sitting: Sitting, maud: Visitor
) -> None:
    type(house.room).objects.filter(pk=house.room.pk).update(active=False)
    maud.press(SAVE, {"people-0-age_years": "67"})
    assert lines() == ["details of Ottoline corrected: age"]
    maud.open(address(sitting))
    assert "The Long Room is not in use any more" in maud.press(SAVE, {"time": "12:00"}).words


@pytest.mark.parametrize("role", ["photographer", "assistant", "owner"])
def test_only_the_desk_is_offered_the_change(house: House, sitting: Sitting, role: str, maud: Visitor) -> None:
    visitor = Visitor(cast.client_of(house.members[role]))
    assert "Change time, place or people" not in visitor.open(f"/sittings/{sitting.number}/").words
    assert "Change time, place or people" in maud.open(f"/sittings/{sitting.number}/").words


def test_a_number_nobody_bears_is_not_found(maud: Visitor) -> None:
    assert maud.client.get("/sittings/L-9999/change/").status_code == 404


def test_the_page_asks_the_database_as_often_for_forty_people_as_for_two(house: House, maud: Visitor) -> None:
    def asked(sitting: Sitting) -> int:
        with CaptureQueriesContext(connection) as queries:
            page: Page = maud.open(address(sitting))
        assert page.status == 200
        return len(queries)

    forty = book_other(house, starts_at=at(15), sitters=[SitterInput(f"P{n}") for n in range(40)])
    assert asked(forty) == asked(Sitting.objects.get(number="L-0001")) <= 12
    assert Claim.objects.filter(sitting=forty).count() == 2


def test_where_it_will_hang_is_kept_changed_and_told_to_the_brief(sitting: Sitting, maud: Visitor) -> None:
    page = maud.press(SAVE, {"Where it will hang": "over the sideboard, seen from 3 m"})
    assert "Where it will hang" in page.words
    assert "over the sideboard, seen from 3 m" in page.words
    assert lines() == ["where it will hang from - to “over the sideboard, seen from 3 m”"]
    sitting.refresh_from_db()
    assert starting_brief(sitting)["purpose"] == "ruby wedding. It will hang: over the sideboard, seen from 3 m"
    maud.open(address(sitting))
    page = maud.press(SAVE, {"Where it will hang": "n" * 300})
    assert page.form_with(SAVE).values["hangs"] == ["n" * 300]
    assert "at most 200 characters" in page.words


@pytest.mark.parametrize(
    "name", ["שירה אבני", "محمود الناصر", "王小明", "Zoë 🌿 Ní Bhriain", "Łucja Ćwiek"]
)
def test_words_in_any_script_are_kept_and_stand_apart(sitting: Sitting, maud: Visitor, name: str) -> None:
    page = maud.press(SAVE, {"purpose": name})
    assert f"<bdi>{name}</bdi>" in page.html
    apart = "\N{FIRST STRONG ISOLATE}" in SittingChange.objects.get(what="purpose").sentence
    assert apart == (name[0] in "שم")  # what runs the other way leaves the sentence of the history in its order
    sitting.refresh_from_db()
    assert sitting.purpose == name


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"day": "2027-02-29"}, "Enter a valid date"),
        ({"day": "2027-03-28", "time": "01:30"}, "it is not there that day"),
        ({"day": "2027-10-31", "time": "01:30"}, "say below which of the two is meant"),
        ({"minutes": "-5"}, "greater than or equal to 5"),
    ],
)
def test_a_time_that_is_not_there_is_refused_and_what_was_typed_stays(
    sitting: Sitting, maud: Visitor, typed: dict[str, str], said: str
) -> None:
    Profile.objects.update(time_zone="Europe/London")
    page = maud.press(SAVE, typed)
    assert page.status == 422
    assert said in page.words
    assert {name: page.form_with(SAVE).values[name][0] for name in typed} == typed
    assert not lines()


def test_the_second_of_two_times_is_kept_and_stays_when_something_else_is_changed(
    sitting: Sitting, maud: Visitor
) -> None:
    Profile.objects.update(time_zone="Europe/London")
    asked = maud.press(SAVE, {"day": "2027-10-31", "time": "01:30"})
    assert "The second 01:30, an hour later" in asked.words
    maud.press(SAVE, {"which": "1"})
    maud.press(SAVE, {"acknowledged": ["closed"]})
    sitting.refresh_from_db()
    assert sitting.starts_at.isoformat() == "2027-10-31T01:30:00+00:00"
    maud.open(address(sitting))
    maud.press(SAVE, {"purpose": "a gift"})
    sitting.refresh_from_db()
    assert (sitting.purpose, sitting.starts_at.isoformat()) == ("a gift", "2027-10-31T01:30:00+00:00")
    maud.open(address(sitting))
    maud.press(SAVE, {"which": "0"})
    sitting.refresh_from_db()
    assert sitting.starts_at.isoformat() == "2027-10-31T00:30:00+00:00"


def test_a_sitting_may_run_over_midnight(sitting: Sitting, maud: Visitor) -> None:
    asked = maud.press(SAVE, {"day": "2028-02-29", "time": "23:30"})
    assert asked.status == 422  # past closing time: the desk says that it is meant
    maud.press(SAVE, {"acknowledged": ["outside_hours"]})
    sitting.refresh_from_db()
    assert (sitting.starts_at, sitting.ends_at) == (
        sitting.starts_at.replace(year=2028, month=2, day=29, hour=23, minute=30),
        sitting.starts_at.replace(year=2028, month=3, day=1, hour=0, minute=45),
    )
