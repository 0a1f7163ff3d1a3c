"""The house has a language, a member may have another on screens; paper and letters are the house's."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings
from django.utils import translation
from django.utils.translation import trans_real

from bookings import first_wordings
from bookings.actions import correspondence
from studio import languages
from studio.models import Profile
from tests import cast, catalogue
from tests.bookings.making import make_house
from tests.studio.forms import opened

pytestmark = pytest.mark.django_db

GERMAN = {"Your settings": "Ihre Einstellungen", "Late": "Verspätet", "page {n} of {of}": "Seite {n} von {of}"}


@pytest.fixture
def german(tmp_path: Path) -> Iterator[None]:
    with catalogue.kept(tmp_path, "de", GERMAN):
        yield


@pytest.fixture
def house() -> None:
    Profile.objects.create(pk=1)


def test_with_one_language_nobody_is_asked_for_one(house):
    owner = cast.client_of(cast.make_member("owner", name="Harriet Voss"))
    assert "language" not in opened(owner, "/mine/")
    assert "language" not in opened(owner, "/studio/profile/")
    assert list(languages.known()) == ["en-gb"]


def test_a_member_reads_another_language_than_the_house(house, german):
    harriet, wren = cast.make_member("owner", name="Harriet Voss"), cast.make_member("owner", name="Wren Hollis")
    browser, other = cast.client_of(harriet), cast.client_of(wren)
    page = browser.get("/mine/").content.decode()
    assert '<option value="de">Deutsch</option>' in page
    assert browser.post("/mine/", opened(browser, "/mine/") | {"language": "de"}).status_code == 302
    page = browser.get("/mine/").content.decode()
    assert "<h1>Ihre Einstellungen</h1>" in page
    assert '<html lang="de">' in page
    assert "<h1>Your settings</h1>" in other.get("/mine/").content.decode()
    refused = browser.post("/mine/", opened(browser, "/mine/") | {"language": "tlh"})
    assert (refused.status_code, "tlh" in refused.content.decode()) == (422, True)


def test_paper_is_in_the_house_s_language_whoever_prints_it(house, german):
    desk = cast.make_member("front_desk", name="Ines Calloway")
    desk.language = "de"
    desk.save()
    browser = cast.client_of(desk)
    assert '<html lang="de">' in browser.get("/late/").content.decode()
    assert b"/Lang (en-gb)" in browser.get("/late/list.pdf").content
    Profile.objects.filter(pk=1).update(language="de")
    assert b"/Lang (de)" in browser.get("/late/list.pdf").content


def test_the_house_chooses_for_itself_and_for_strangers(house, german):
    owner = cast.client_of(cast.make_member("owner", name="Harriet Voss"))
    assert opened(owner, "/studio/profile/")["language"] == "en-gb"
    owner.post("/studio/profile/", opened(owner, "/studio/profile/") | {"language": "de"})
    assert Profile.get().language == "de"
    owner.logout()
    assert '<html lang="de">' in owner.get("/sign-in/").content.decode()


def test_a_language_written_from_right_to_left_is_drawn_so(house, tmp_path):
    with catalogue.kept(tmp_path, "he", {"Your settings": "ההגדרות שלך"}):
        harriet = cast.make_member("owner", name="Harriet Voss")
        harriet.language = "he"
        harriet.save()
        assert '<html lang="he" dir="rtl">' in cast.client_of(harriet).get("/mine/").content.decode()


def test_a_letter_is_in_the_house_s_language_whoever_writes_it(tmp_path):
    house = make_house()
    sitting = house.book()
    first = str(first_wordings.FIRST["confirmation"].subject)
    with catalogue.kept(tmp_path, "de", {first: "Ihr Termin am {{ sitting.date }}"}), translation.override("de"):
        assert correspondence.confirm(sitting, by=house.desk).subject.startswith("Your sitting on ")
        Profile.objects.filter(pk=1).update(language="de")
        assert correspondence.confirm(sitting, by=house.desk).subject.startswith("Ihr Termin am ")


def test_no_empty_catalogue_is_asked():
    """What the apps bring for the language the sentences are written in says nothing, and cost a seventh of a page."""
    asked = trans_real.translation(settings.LANGUAGE_CODE)
    while (asked := asked._fallback) is not None:
        assert len(asked._catalog) > 1
