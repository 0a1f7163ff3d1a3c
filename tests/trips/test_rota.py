"""A headshot day from the pasted list to the last name on the board, by the pages' own links and buttons alone."""

from __future__ import annotations

import io
from typing import Any

import pytest
from pypdf import PdfReader

from bookings.models import Place, Sitting
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import set_clock
from tests.bookings.making import House, at, make_house
from tests.bookings.turns import NAMES, day_of, lines_of
from tests.pages import Visitor

LIST = "\n".join(f"{name}, {name.split()[0].lower()}@marrowfield.example" for name in NAMES)


@pytest.fixture
def headshots(db: None, settings: Any, monkeypatch: pytest.MonkeyPatch) -> House:
    settings.SITTING_PANELS = []
    set_clock(monkeypatch, at(8, 50))
    return make_house()


def with_places(house: House) -> Sitting:
    """What the desk does: paste the list, look at it, keep it."""
    sitting = day_of(house)
    maud = Visitor(cast.client_of(house.desk))
    maud.open(f"/sittings/{sitting.number}/")
    maud.follow("Give them places")
    maud.press("Show the places", {"Names, one a line": LIST, "Lunch at": "12:00"})
    maud.press("Save these places", {"lengthen": "on"})
    return sitting


def words_of(page: Any) -> str:
    return " ".join(page.extract_text().split())


def test_feature_18_twenty_pasted_names_have_their_places_with_lunch_and_gaps(headshots: House) -> None:
    sitting = day_of(headshots)
    maud = Visitor(cast.client_of(headshots.desk))
    maud.open(f"/sittings/{sitting.number}/")
    maud.follow("Give them places")
    page = maud.press("Show the places", {"Names, one a line": LIST, "Lunch at": "12:00"})
    assert "20 places, not saved yet" in page.words
    assert "The last one ends at 13:25." in page.words
    assert page.words.count("gap to catch up until") == 2
    assert "lunch until 12:45" in page.words
    # One link, one paste, four keys for the time of lunch, two buttons; the tick to book it so long is set already.
    assert 'name="lengthen" id="id_lengthen" value="on" checked' in page.html
    maud.press("Save these places", {"lengthen": "on"})
    kept = lines_of(sitting.rota if hasattr(sitting, "rota") else Sitting.objects.get(pk=sitting.pk).rota)
    assert [line.split()[0] for line in kept] == [
        "09:00", "09:10", "09:20", "09:30", "09:40", "09:50", "10:10", "10:20", "10:30", "10:40", "10:50", "11:10",
        "11:20", "11:30", "11:40", "11:50", "12:45", "12:55", "13:05", "13:15",
    ]  # fmt: skip
    assert Sitting.objects.get(pk=sitting.pk).ends_at == at(13, 25)
    assert Place.objects.exclude(email="").count() == 20


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_door_has_its_list_and_each_person_a_slate_on_paper(headshots: House, paper: str) -> None:
    Profile.objects.update(paper=paper)
    sitting = with_places(headshots)
    maud = Visitor(cast.client_of(headshots.desk))
    maud.open(f"/sittings/{sitting.number}/rota/")
    door = PdfReader(io.BytesIO(maud.fetch("Door list (PDF)").content))
    text = " ".join(words_of(page) for page in door.pages)
    assert "Door list, Marrowfield Joinery" in text
    assert "09:00 1 Corin Vale release to sign" in text
    assert "12:00 lunch, 45 minutes" in text
    assert all(name in text for name in NAMES)
    slates = PdfReader(io.BytesIO(maud.fetch("Name slates (PDF)").content))
    assert len(slates.pages) == 20
    assert all(f"{n}" in words_of(page) and name.split()[0] in words_of(page)
               for n, (page, name) in enumerate(zip(slates.pages, NAMES, strict=True), 1))  # fmt: skip
    width, height = slates.pages[0].mediabox.width, slates.pages[0].mediabox.height
    assert width > height


def test_feature_55_done_absent_and_retake_are_one_tap_each_and_the_next_name_is_large(
    headshots: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = with_places(headshots)
    ines = Visitor(cast.client_of(headshots.members["assistant"]))
    ines.open(f"/sittings/{sitting.number}/")
    page = ines.follow("Board")
    assert '<p class="large next-name"><span class="number">1</span> <bdi>Corin Vale</bdi></p>' in page.html
    set_clock(monkeypatch, at(9))
    ines.press("On set: Corin Vale")
    set_clock(monkeypatch, at(9, 11))
    page = ines.press("Done: Corin Vale")  # one tap
    assert "Done: one 09:11 1 Corin Vale 11 minutes" in page.words
    page = ines.press("Absent: Delphine Orr")  # one tap
    assert "Absent: one 09:10 2 Delphine Orr" in page.words
    page = ines.press("Retake: Corin Vale")  # one tap
    assert {place.state for place in Place.objects.filter(number__lt=3)} == {"retake", "absent"}
    maud = Visitor(cast.client_of(headshots.desk)).open(f"/sittings/{sitting.number}/rota/board/")
    assert "Next 3 Ambrose Tull" in maud.words  # the desk sees the same
    assert "Next 3 Ambrose Tull" in page.words
    assert "Make-up date" in maud.words


def test_feature_56_the_slate_shows_the_next_name_and_number_alone(
    headshots: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = with_places(headshots)
    ines = Visitor(cast.client_of(headshots.members["assistant"]))
    ines.open(f"/sittings/{sitting.number}/rota/board/")
    page = ines.follow("Slate")
    assert '<p class="slate-number">1</p>' in page.html
    assert "Corin Vale" in page.words
    assert "head-bar" not in page.html  # nothing but the slate
    page = ines.press("On set: Corin Vale")
    assert page.address.endswith("/rota/slate/")
    page = ines.press("Done: Corin Vale")
    assert '<p class="slate-number">2</p>' in page.html
