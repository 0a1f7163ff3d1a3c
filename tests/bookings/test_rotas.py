"""From a pasted list to kept places: the people, the sitting's length, the notes that are not shown again."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from bookings.actions import rota_days
from bookings.models import Claim, Notes, Place, Rota, Sitter, Sitting
from bookings.refusals import Taken
from bookings.rota_refusals import RotaBegun
from studio.models.versions import Stale
from tests import cast
from tests.bookings.agreeing import again
from tests.bookings.making import House, at
from tests.bookings.turns import NAMES, begun, day_of, keep, lines_of, place
from tests.pages import Visitor

TWENTY = "\n".join(NAMES)


def at_list(house: House, sitting: Sitting) -> Visitor:
    visitor = Visitor(cast.client_of(house.desk))
    visitor.open(f"/sittings/{sitting.number}/rota/")
    return visitor


def test_names_become_the_people_of_the_sitting_and_the_sitting_as_long_as_they_need(house: House) -> None:
    sitting = day_of(house, 3)
    first = sitting.sitters.first()
    keep(house, sitting, TWENTY, lengthen=True)
    sitting = again(sitting)
    assert set(sitting.sitters.values_list("label", flat=True)) == set(NAMES)
    assert Sitter.objects.get(pk=first.pk).label == NAMES[0]  # whoever stood for somebody got a name
    assert sitting.minutes == 230
    room = Claim.objects.get(sitting=sitting, resource_kind="room")
    assert (room.starts_at, room.ends_at) == (at(8, 30), at(13, 5))
    assert [change.what for change in sitting.changes.all()].count("added") == 17


def test_what_the_list_says_of_comfort_is_kept_as_notes_and_never_shown_again(house: House) -> None:
    sitting = day_of(house)
    Notes.objects.create(sitter=sitting.sitters.get(), glasses_lens="strong")
    Sitter.objects.filter(sitting=sitting).update(label="Ambrose Tull")
    visitor = at_list(house, sitting)
    typed = "Ambrose Tull, glasses\nNell Quayle, no flash\nRafe Colley, shy, glasses"
    visitor.press("Show the places", {"names": typed})
    visitor.press("Save these places")
    assert Notes.objects.get(sitter__label="Ambrose Tull").glasses_lens == "strong"  # what was known stays
    assert Notes.objects.get(sitter__label="Nell Quayle").no_flash
    assert Notes.objects.get(sitter__label="Rafe Colley").shy
    assert lines_of(Rota.objects.get())[0] == "09:00 1 Nell Quayle"
    for address in (f"/sittings/{sitting.number}/rota/", f"/sittings/{sitting.number}/rota/board/"):
        shown = visitor.open(address).html
        names = shown.split('id="id_names"')[1].split("</textarea>")[0] if "id_names" in shown else shown
        assert not [word for word in ("glasses", "flash", "shy", "ease") if word in names.lower()]
    history = " ".join(change.sentence for change in sitting.changes.all()).lower()
    assert "glasses" not in history
    assert "flash" not in history


def test_what_is_known_from_elsewhere_moves_the_order(house: House) -> None:
    sitting = day_of(house)
    Sitter.objects.filter(sitting=sitting).update(label="Piran Tregear")
    Notes.objects.create(sitter=sitting.sitters.get(), no_flash=True)
    keep(house, sitting, TWENTY)
    assert place(Rota.objects.get(), "Piran").number == 1


def test_a_list_is_shown_before_it_is_kept_and_anew_when_it_was_changed(house: House) -> None:
    sitting = day_of(house)
    visitor = at_list(house, sitting)
    page = visitor.press("Show the places", {"names": TWENTY, "lunch_at": "12:00"})
    assert "20 places, not saved yet" in page.words
    assert "The sitting is booked until 10:00: 205 minutes too short." in page.words
    assert "Nobody is named to go first: Corin Vale warms up the set." in page.words
    assert "lunch until 12:45" in page.words
    assert not Rota.objects.exists()
    page = visitor.press("Save these places", {"names": TWENTY + "\nWren Hollis"})
    assert (page.status, Rota.objects.exists()) == (422, False)
    assert "The list was changed after its places were shown" in page.words
    visitor.press("Save these places")
    assert Place.objects.count() == 21


def test_every_line_that_is_wrong_is_said_and_nothing_typed_is_lost(house: House) -> None:
    sitting = day_of(house)
    typed = "Corin Vale, leader\nDelphine Orr, tall\nCorin Vale"
    page = at_list(house, sitting).press("Show the places", {"names": typed, "lunch_at": "08:00", "place_minutes": ""})
    assert page.status == 422
    assert "Line 2: “tall” is no e-mail address, number or word of this list" in page.words
    assert "Line 3: Corin Vale is on line 1 too." in page.words
    assert "The first place is at 09:00: let lunch come after it" in page.words
    assert page.form_with("Show the places").values["names"] == [typed]
    assert not Rota.objects.exists()


@pytest.mark.parametrize("coding", ["utf-8-sig", "utf-16", "cp1252"])
def test_a_file_is_read_and_shown_in_the_list(house: House, coding: str) -> None:
    sitting = day_of(house)
    file = SimpleUploadedFile("people.csv", "Name;E-mail\r\nZoë Ash;zoe@marrowfield.example\r\n".encode(coding))
    page = at_list(house, sitting).press("Show the places", {"file": file})
    assert "2 places, not saved yet" not in page.words
    assert "zoe@marrowfield.example" in page.words
    assert page.form_with("Save these places").values["names"][0].startswith("Name;E-mail")
    huge = SimpleUploadedFile("people.csv", b"x" * 300_000)
    page = at_list(house, sitting).press("Show the places", {"file": huge})
    assert "larger than a list of names can be" in page.words


def test_who_is_in_the_sitting_and_not_on_the_list_has_a_place_too_or_is_taken_out(house: House) -> None:
    rota = begun(house, 4)
    sitting = rota.sitting
    rest = "\n".join(NAMES[:3])
    visitor = at_list(house, sitting)
    page = visitor.press("Show the places", {"names": rest})
    assert f"Not on the list but in the sitting, and given a place too: {NAMES[3]}." in page.words
    visitor.press("Show the places anew", {"only_listed": "on"})
    visitor.press("Save these places")
    assert set(sitting.sitters.values_list("label", flat=True)) == set(NAMES[:3])
    assert sorted(Place.objects.values_list("sitter__label", flat=True)) == sorted(NAMES[:3])


def test_addresses_and_parts_are_there_to_begin_the_next_list_with(house: House) -> None:
    sitting = day_of(house)
    keep(house, sitting, "Corin Vale, corin@marrowfield.example, leader\nNell Quayle\n\"Orr, Delphine\", 2")
    shown = at_list(house, sitting).page.form_with("Show the places").values["names"][0]
    assert set(shown.splitlines()) == {
        "Corin Vale, corin@marrowfield.example, leader", "Nell Quayle", '"Orr, Delphine", 2'
    }  # fmt: skip
    keep(house, sitting, "Corin Vale, leader\nNell Quayle\n\"Orr, Delphine\"", seen=1)
    assert place(Rota.objects.get(), "Corin").email == "corin@marrowfield.example"


def test_a_rota_that_has_begun_keeps_its_list(house: House) -> None:
    rota = begun(house)
    rota_days.mark(by=house.desk, place=place(rota, "Corin"), to="absent", seen=1)
    rota.refresh_from_db()
    with pytest.raises(RotaBegun):
        keep(house, rota.sitting, TWENTY, seen=rota.version)
    assert Place.objects.count() == 4


def test_the_second_of_two_desks_is_told_and_keeps_its_text(house: House) -> None:
    sitting = day_of(house)
    one, other = at_list(house, sitting), at_list(house, sitting)
    one.press("Show the places", {"names": TWENTY})
    other.press("Show the places", {"names": "Wren Hollis"})
    one.press("Save these places")
    page = other.press("Save these places")
    assert "Somebody else saved this while you had it open." in page.words or "anew" in page.words
    assert page.form_with("Save these places").values["names"] == ["Wren Hollis"]
    assert Place.objects.count() == 20
    with pytest.raises(Stale):
        keep(house, again(sitting), TWENTY, seen=0)


def test_a_longer_sitting_that_meets_another_keeps_nothing(house: House) -> None:
    sitting = day_of(house)
    house.book(starts_at=at(11))
    with pytest.raises(Taken):
        keep(house, sitting, TWENTY, lengthen=True)
    assert not Rota.objects.exists()
    assert sitting.sitters.count() == 1
    visitor = at_list(house, sitting)
    visitor.press("Show the places", {"names": TWENTY})
    page = visitor.press("Save these places", {"lengthen": "on"})
    assert "is held by" in page.words
    assert page.form_with("Save these places").values["names"] == [TWENTY]


def test_a_rota_moves_along_with_its_sitting(house: House) -> None:
    rota = begun(house, 2)
    Sitting.objects.filter(pk=rota.sitting_id).update(starts_at=at(14, days=1))
    assert lines_of(rota) == ["14:00 1 Corin Vale", "14:10 2 Delphine Orr"]


def test_the_sitting_offers_places_to_people_in_turn_alone(house: House) -> None:
    couple, company = house.book(starts_at=at(15)), day_of(house)
    desk = Visitor(cast.client_of(house.desk))
    assert ("Give them places", f"/sittings/{company.number}/rota/") in desk.open(f"/sittings/{company.number}/").links
    assert "Give them places" not in desk.open(f"/sittings/{couple.number}/").words


@pytest.mark.parametrize("sent", [{}, {"names": "\x00"}, {"names": "A", "seen": "x" * 50, "keep": "1"},
                                  {"names": "A", "place_minutes": "1e9", "lunch_at": "25:99"}])  # fmt: skip
def test_whatever_is_sent_is_answered_in_words(house: House, sent: dict[str, Any]) -> None:
    sitting = day_of(house)
    answer = cast.client_of(house.desk).post(f"/sittings/{sitting.number}/rota/", sent)
    assert answer.status_code == 422
    assert not Rota.objects.exists()


def test_the_next_day_of_a_company_begins_with_what_one_person_really_took(house: House) -> None:
    rota = begun(house, 4)
    Rota.objects.update(wear="Dark and plain.", place_minutes=12)
    for number, row in enumerate(Place.objects.filter(rota=rota)):
        began = at(9, 10 * number)
        Place.objects.filter(pk=row.pk).update(state="done", on_set_at=began, done_at=began + timedelta(minutes=11))
    later = day_of(house, client=rota.sitting.client, starts_at=at(9, days=300))
    values = at_list(house, later).page.form_with("Show the places").values
    assert [values[name] for name in ("real_minutes", "place_minutes", "wear")] == [["11"], ["12"], ["Dark and plain."]]
