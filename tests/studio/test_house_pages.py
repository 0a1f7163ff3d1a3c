"""The studio's profile, the owner's first page, the clock and the checks."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
from django.core.checks import run_checks
from django.test import Client
from django.urls import path
from django.utils import timezone

from studio import clock
from studio.models import KIT, Profile, versions
from tests import cast
from tests.studio.forms import fields, opened

pytestmark = pytest.mark.django_db
URL = "/studio/profile/"


def test_reading_the_profile_of_a_new_house_writes_nothing(owner: Client) -> None:
    assert owner.get("/studio/").status_code == 200
    assert not Profile.objects.exists()
    assert Profile.get().time_zone == "UTC"


def test_the_profile_is_kept_and_stands_in_the_head_of_every_page(owner: Client) -> None:
    form = opened(owner, URL) | {"studio_name": "Lindenmere Portraits", "time_zone": "Europe/London", "currency": "eur"}
    assert owner.post(URL, form).headers["Location"] == "/studio/"
    profile = Profile.get()
    assert (profile.studio_name, profile.time_zone, profile.currency) == (
        "Lindenmere Portraits",
        "Europe/London",
        "EUR",
    )
    assert "Lindenmere Portraits" in owner.get("/kit/").content.decode()


def test_two_first_saves_at_once_make_one_profile_and_the_second_is_told(owner: Client) -> None:
    first, second = opened(owner, URL), opened(owner, URL)
    assert owner.post(URL, first | {"studio_name": "First"}).status_code == 302
    page = owner.post(URL, second | {"studio_name": "Second"}).content.decode()
    assert "Somebody else saved this" in page
    assert Profile.objects.get().studio_name == "First"
    assert owner.post(URL, fields(page)).status_code == 302
    assert Profile.objects.get().studio_name == "Second"


@pytest.mark.parametrize("junk", [{}, {"time_zone": "../etc", "currency": "£", "units": "cubits", "version": "?"}])
def test_junk_is_refused_and_never_breaks_the_page(owner: Client, junk: dict[str, str]) -> None:
    assert owner.post(URL, junk).status_code == 200
    assert not Profile.objects.exists()


def test_the_owner_sees_first_what_is_not_ready(owner: Client) -> None:
    assert "Nothing is missing, to be tested or to be bought." in owner.get("/studio/").content.decode()
    cast.make_kit("stands", "boom-1", label="boom", state="repair", note="clamp")
    page = owner.get("/studio/").content.decode()
    assert page.index("in repair") < page.index("Profile")
    assert "boom-1: clamp" in page


def test_days_begin_at_the_studio_s_midnight(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(clock, "now", lambda: datetime(2026, 6, 1, 23, 30, tzinfo=UTC))
    with timezone.override("Europe/London"):
        assert clock.today() == date(2026, 6, 2)


def test_a_row_that_is_gone_is_stale_too() -> None:
    piece = cast.make_kit("heads")
    KIT["heads"].objects.all().delete()
    with pytest.raises(versions.Stale) as stale:
        versions.save(piece, seen=1)
    assert stale.value.current is None


class Open:
    """A table of addresses with a page that forgot to say who may see it."""

    urlpatterns = (path("open/", lambda request: None, name="open"),)


def test_a_page_that_does_not_say_who_may_see_it_fails_the_check(settings: object) -> None:
    settings.ROOT_URLCONF = Open  # type: ignore[attr-defined]
    found = {message.id for message in run_checks()}
    assert {"studio.E001", "studio.W002"} <= found
