"""Kit as a studio owns it: where it is packed, how old, tested when, in which state, and who says so."""

from __future__ import annotations

import io
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from PIL import Image
from pytest_django import DjangoAssertNumQueries

from studio import clock
from studio.actions import kit as actions
from studio.models import KIT, Consumable, CountChange, KitChange, KitItem, versions
from studio.views import kit as pages
from tests import cast
from tests.studio.forms import opened

pytestmark = pytest.mark.django_db


def text(client: Client, url: str, **asked: Any) -> str:
    return client.get(url, asked).content.decode()


def test_feature_66_an_item_due_for_its_electrical_test_shows_thirty_days_ahead(owner: Client) -> None:
    today = clock.today()
    days = {"past": -1, "today": 0, "last": 30, "later": 31}
    for code, n in days.items():
        cast.make_kit("heads", code, label=f"head {code}", next_test_on=today + timedelta(days=n))
    cast.make_kit("heads", "gone", label="head gone", next_test_on=today, state="lost")
    for url in ("/kit/of-all/to-see-to/", "/studio/"):
        page = text(owner, url)
        tests = page[: page.index("In repair or lost")]
        shown = [code for code in (*days, "gone") if f">head {code}</a>" in tests]
        assert shown == ["past", "today", "last"]
        assert "in 30 days" in tests
        assert tests.index("head past") < tests.index("✕ past") < tests.index("head today")


def test_what_is_away_or_runs_low_is_the_owner_s_to_see_to(owner: Client) -> None:
    cast.make_kit("heads", "h400-1", state="repair", note="tube flickers")
    cast.make_kit("heads", "h400-2", state="charging")
    Consumable.objects.create(name="Gaffer tape", unit="rolls", count=2, low_mark=2)
    Consumable.objects.create(name="White paper", unit="rolls", count=3, low_mark=2)
    page = text(owner, "/kit/of-all/to-see-to/")
    assert "tube flickers" in page
    assert "Gaffer tape" in page
    assert "White paper" not in page
    assert "h400-2" not in page


def test_a_state_is_changed_in_one_tap_and_kept_with_who_when_and_why() -> None:
    cast.make_kit("heads", "h400-1")
    ines = cast.make_member("assistant")
    page = cast.client_of(ines)
    assert 'name="seen" value="1"' in text(page, "/k/h400-1/")
    answer = page.post("/k/h400-1/state/", {"to": "repair", "why": "tube  flickers", "seen": "1"}, follow=True)
    assert "no plan takes it" in answer.content.decode()
    assert not KitItem.objects.free().exists()
    change = KitChange.objects.get()
    assert (change.by, change.before, change.after, change.why) == (ines, "ready", "repair", "tube flickers")
    other = cast.client_of(cast.make_member("photographer"))
    again = other.post("/k/h400-1/state/", {"to": "lost", "seen": "1"}, follow=True).content.decode()
    assert "Somebody else changed 400 Ws head (h400-1) meanwhile, it is now: in repair." in again
    assert "That is no state" in page.post("/k/h400-1/state/", {"to": "broken"}, follow=True).content.decode()
    page.post("/k/h400-1/state/", {"to": "repair"})
    assert KitChange.objects.count() == 1, "what is as before is no change"
    harriet = cast.client_of(cast.make_member("owner"))
    trail = text(harriet, "/audit/", what="kit")
    assert all(words in trail for words in ("400 Ws head (h400-1)", "Ines Calloway", "in repair", "tube flickers"))
    edit = "/kit/h400-1/edit/"
    assert harriet.post(edit, opened(harriet, edit) | {"state": "ready"}).status_code == 302
    assert [c.after for c in KitChange.objects.all()] == ["repair", "ready"]


def test_a_state_changed_unseen_is_refused_before_anything_is_written() -> None:
    piece, by = cast.make_kit("heads"), cast.make_member("assistant")
    with pytest.raises(versions.Stale):
        actions.change_state(by=by, piece=piece, state="lost", seen=7)
    assert KitItem.objects.get().state == "ready"
    assert not KitChange.objects.exists()


@pytest.mark.parametrize("typed", ["h400-1", " H400-1 ", "http://127.0.0.1:8000/k/h400-1/"])
def test_a_typed_code_or_a_scanned_address_opens_the_piece(typed: str, owner: Client) -> None:
    cast.make_kit("heads", "h400-1")
    answer = owner.get("/k/", {"code": typed})
    assert answer.headers["Location"] == "/k/h400-1/"


@pytest.mark.parametrize("typed", ["h999", "\x00", "/", "x" * 5000, "<b>"])
def test_a_code_nobody_has_is_said_beside_the_field(typed: str, owner: Client) -> None:
    answer = owner.get("/k/", {"code": typed})
    assert answer.status_code == 404
    assert "No piece has the code" in answer.content.decode()
    assert "<b>”" not in answer.content.decode()


def test_the_kit_is_asked_by_words_section_state_and_case(owner: Client) -> None:
    cast.make_kit("heads", "h400-1", case="Case 1", serial="QB-4471")
    cast.make_kit("heads", "h400-2", case="Case 2", state="repair")
    cast.make_kit("seats", "chair-1")

    def found(**asked: str) -> list[str]:
        page = text(owner, "/kit/", **asked)
        return [code for code in ("h400-1", "h400-2", "chair-1") if f'href="/kit/{code}/"' in page]

    assert found() == ["h400-1", "h400-2", "chair-1"]
    assert found(words="head 4471") == ["h400-1"]
    assert found(section="heads", state="ready") == ["h400-1"]
    assert found(case="Case 2") == ["h400-2"]
    assert found(case="-") == ["chair-1"]
    assert "Nothing of the kit fits." in text(owner, "/kit/", words="trombone")
    answer = owner.get("/kit/", {"section": "lamps", "state": "\x00", "page": "9" * 40})
    assert answer.status_code == 422
    assert "Choose one of the list." in answer.content.decode()


def test_the_list_turns_pages_and_asks_no_more_for_more_kit(
    owner: Client, django_assert_max_num_queries: DjangoAssertNumQueries, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pages, "PAGE", 4)
    for n in range(9):
        cast.make_kit("seats", f"chair-{n}", case=f"Case {n}")
    with django_assert_max_num_queries(9):
        page = text(owner, "/kit/", words="chair", page="2")
    assert [n for n in range(9) if f'"/kit/chair-{n}/"' in page] == [4, 5, 6, 7]
    assert "Page 2 of 3, 9 pieces" in page
    assert "words=chair&amp;page=3" in page


def test_every_kind_has_a_mass_a_case_and_its_papers(owner: Client) -> None:
    for section in KIT:
        cast.make_kit(section, f"{section}-1")
    edit = "/kit/panels-1/edit/"
    form = opened(owner, edit) | {"mass_kg": "3.2", "case": "Long bag", "serial": "QB-9", "bought_on": "2019-05-02"}
    assert owner.post(edit, form).status_code == 302
    page = text(owner, "/kit/panels-1/")
    assert all(words in page for words in ("3.2 kg", "Long bag", "QB-9", "2 May 2019"))
    wrong = owner.post(edit, opened(owner, edit) | {"bought_on": "1066-10-14"}).content.decode()
    assert "Give a day from 1900 to 2100." in wrong


def jpeg_with_place() -> bytes:
    exif = Image.Exif()
    exif[0x010F], exif[0x0110] = "somebody", "QB-4471"
    out = io.BytesIO()
    Image.new("RGB", (60, 40), "grey").save(out, "JPEG", exif=exif)
    return out.getvalue()


def test_a_photo_is_kept_made_anew_and_the_one_before_goes(
    owner: Client, settings: Any, tmp_path: Path, django_capture_on_commit_callbacks: Any
) -> None:
    settings.DATA_DIR = tmp_path
    cast.make_kit("heads", "h400-1")
    for _ in range(2):
        with django_capture_on_commit_callbacks(execute=True):
            owner.post("/k/h400-1/photo/change/", {"photo": io.BytesIO(jpeg_with_place())})
    assert len(list((tmp_path / "kit_photos").iterdir())) == 1
    body = owner.get("/k/h400-1/photo/").content
    assert Image.open(io.BytesIO(body)).size == (60, 40)
    assert b"QB-4471" not in body
    said = owner.post("/k/h400-1/photo/change/", {"photo": io.BytesIO(b"no picture")}, follow=True).content.decode()
    assert "The photo was not saved: no picture a page can show" in said
    with django_capture_on_commit_callbacks(execute=True):
        owner.post("/k/h400-1/photo/change/", {"take_away": "1"})
    assert owner.get("/k/h400-1/photo/").status_code == 404
    assert list((tmp_path / "kit_photos").iterdir()) == []


def test_consumables_are_counted_by_taps_and_never_below_none(owner: Client) -> None:
    url = "/kit/of-all/consumables/new/"
    form = {"name": "Gaffer tape", "unit": "rolls", "count": "1", "low_mark": "1", "version": "0"}
    assert owner.post(url, form).status_code == 302
    row, ines_herself = Consumable.objects.get(), cast.make_member("assistant")
    ines = cast.client_of(ines_herself)
    tap = f"/kit/of-all/consumables/{row.pk}/count/"
    for step, left in (("more", 2), ("less", 1), ("less", 0), ("less", 0)):
        assert f"Gaffer tape, rolls: {left}." in ines.post(tap, {"step": step}, follow=True).content.decode()
    edit = f"/kit/of-all/consumables/{row.pk}/"
    assert owner.post(edit, opened(owner, edit) | {"count": "7"}).status_code == 302
    told = [(c.by == ines_herself, c.before, c.after) for c in CountChange.objects.select_related("by")]
    assert told == [(False, 0, 1), (True, 1, 2), (True, 2, 1), (True, 1, 0), (False, 0, 7)]
    assert "Gaffer tape, rolls" in text(owner, "/audit/", what="kit")
    assert "nothing else can be tapped" in ines.post(tap, {"step": "12"}, follow=True).content.decode()
    assert "That is counted already." in owner.post(url, form).content.decode()
    assert "Ensure this value is greater" in owner.post(url, form | {"name": "Gel", "count": "-1"}).content.decode()
