"""Comfort notes: who reads, who writes, and that nobody reads by writing."""

from __future__ import annotations

from typing import Any

import pytest

from bookings.actions.sittings import SitterInput
from bookings.models import Notes, Sitter, Wish
from tests import cast
from tests.bookings import filling
from tests.bookings.making import House, at

WISH = {"note": "lines", "side": "both", "wish": "softer"}
SECRET = SitterInput("Ottoline", notes={"texture": "deep lines", "stand_minutes": 7.0, "tremor": True}, wishes=[WISH])


@pytest.fixture
def sitter(house: House) -> Sitter:
    return house.book(sitters=[SECRET]).sitters.get()


def address(sitter: Sitter) -> str:
    return f"/sittings/{sitter.sitting.number}/notes/{sitter.pk}/"


def typed(*wishes: dict[str, str], version: int | str = "", **said: str) -> dict[str, Any]:
    return filling.notes(**said) | filling.wishes("wishes", *wishes) | {"version": version}


def test_the_desk_adds_to_the_notes_and_never_reads_them_again(house: House, sitter: Sitter) -> None:
    desk = cast.client_of(house.desk)
    shown = desk.get(address(sitter)).content.decode()
    assert "Comfort notes exist." in shown
    said = desk.post(
        address(sitter), typed({"note": "chin", "side": "", "wish": "softer"}, hearing="true"), follow=True
    )
    for page in (shown, said.content.decode(), desk.get(address(sitter)).content.decode()):
        assert "selected>deep lines" not in page
        assert 'name="stand_minutes" value' not in page
        assert 'value="true" selected' not in page
        assert 'value="lines" selected' not in page
    kept = Notes.objects.get()
    assert (kept.hearing, kept.texture, kept.stand_minutes, kept.tremor) == (True, "deep lines", 7.0, True)
    assert list(Wish.objects.values_list("note", flat=True)) == ["lines", "chin"]


def test_a_fault_keeps_what_the_desk_typed_and_shows_nothing_else(house: House, sitter: Sitter) -> None:
    page = cast.client_of(house.desk).post(address(sitter), typed(turn_limit_deg="500", beard="full")).content.decode()
    assert "Give a number from 0 to 90 degrees." in page
    assert 'value="500"' in page
    assert '<option value="full" selected' in page
    assert "selected>deep lines" not in page


def test_the_photographer_reads_and_mends_them(house: House, sitter: Sitter) -> None:
    browser = cast.client_of(house.members["photographer"])
    page = browser.get(address(sitter)).content.decode()
    assert '<option value="deep lines" selected' in page
    assert 'value="7"' in page
    assert '<option value="softer" selected' in page
    version = Notes.objects.get().version
    browser.post(address(sitter), typed(WISH | {"wish": "shown"}, version=version, texture="lines"))
    kept = Notes.objects.get()
    assert (kept.texture, kept.stand_minutes, kept.tremor) == ("lines", None, None)
    assert list(Wish.objects.values("note", "side", "wish")) == [WISH | {"wish": "shown"}]


def test_the_first_of_two_photographers_wins_and_the_other_sees_what_differs(house: House, sitter: Sitter) -> None:
    browser = cast.client_of(house.members["photographer"])
    version = Notes.objects.get().version
    browser.post(address(sitter), typed(version=version, texture="lines"))
    page = browser.post(address(sitter), typed(WISH, version=version, texture="smooth")).content.decode()
    assert "Somebody else saved this while you had it open." in page
    assert "What differs" in page
    assert '<option value="smooth" selected' in page
    assert Notes.objects.get().texture == "lines"
    browser.post(address(sitter), typed(version=version + 1, texture="smooth"))
    assert Notes.objects.get().texture == "smooth"


def test_the_first_notes_of_a_sitter_are_raced_too(house: House) -> None:
    blank = house.book(sitters=[SitterInput("Bertram")]).sitters.get()
    browser = cast.client_of(house.members["photographer"])
    browser.post(address(blank), typed(version=0, hair="grey"))
    page = browser.post(address(blank), typed(version=0, hair="white")).content.decode()
    assert "Somebody else saved this while you had it open." in page
    assert Notes.objects.get().hair == "grey"


def test_the_assistant_reads_on_that_sitting_alone_and_writes_on_none(house: House, sitter: Sitter) -> None:
    ines = cast.client_of(house.members["assistant"])
    page = ines.get(address(sitter)).content.decode()
    assert "deep lines" in page
    assert "lines, both: softer" in page
    assert ines.post(address(sitter), typed(hearing="true")).status_code == 403
    without_her = house.book(starts_at=at(15), assistant=None, sitters=[SECRET]).sitters.get()
    assert ines.get(address(without_her)).status_code == 403


def test_the_owner_reads_no_comfort_notes(house: House, sitter: Sitter) -> None:
    owner = cast.client_of(house.members["owner"])
    assert owner.get(address(sitter)).status_code == 403
    assert "Notes of" not in owner.get(f"/sittings/{sitter.sitting.number}/").content.decode()


def test_a_sitter_is_only_found_at_their_own_sitting(house: House, sitter: Sitter) -> None:
    other = house.book(starts_at=at(15), sitters=[SitterInput("Juno")])
    browser = cast.client_of(house.members["photographer"])
    assert browser.get(f"/sittings/{other.number}/notes/{sitter.pk}/").status_code == 404
    assert browser.get(f"/sittings/{other.number}/notes/{'9' * 30}/").status_code == 404


@pytest.mark.parametrize("note", ["shy", "broad_seat", "big_hair"])
def test_ease_seat_and_hair_are_asked_written_and_read_as_the_other_notes(
    house: House, sitter: Sitter, note: str
) -> None:
    cast.client_of(house.desk).post(address(sitter), typed(**{note: "true"}))
    assert getattr(Notes.objects.get(), note) is True
    field = str(Notes._meta.get_field(note).verbose_name)
    mine = cast.client_of(house.members["photographer"]).get(address(sitter)).content.decode()
    assert field.capitalize() in mine
    assert mine.count('value="true" selected') == 2  # the new one, and "trembles"
    desk = cast.client_of(house.desk).get(address(sitter)).content.decode()
    assert 'value="true" selected' not in desk
