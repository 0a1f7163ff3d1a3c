"""Who changed the hours, when, from what to what."""

from __future__ import annotations

import pytest

from studio.models import HoursChange
from tests import cast

pytestmark = pytest.mark.django_db
HOUSE = "/studio/hours/week/"
OPEN = {"from_0": "09:00", "to_0": "17:00", "version": "0"}


def test_hours_days_off_and_going_back_are_kept_and_shown() -> None:
    owner, member = cast.make_member("owner"), cast.make_member("photographer", name="Tobiah Merrow")
    browser = cast.client_of(owner)
    browser.post(HOUSE, OPEN)
    browser.post(HOUSE, OPEN | {"to_0": "18:00", "version": "1"})
    browser.post(HOUSE, OPEN | {"to_0": "18:00", "version": "2"})  # as it was: no change
    browser.post(f"{HOUSE}{member.pk}/", OPEN)
    browser.post(f"{HOUSE}{member.pk}/as-the-house/")
    closed = {"first_day": "2026-12-24", "last_day": "2026-12-26", "words": "closed", "version": 0}
    browser.post("/studio/hours/off/new/", closed)
    told = [(row.what, row.member, row.before, row.after) for row in HoursChange.objects.all()]
    assert told == [
        ("week", None, "as before anybody said", "Monday 09:00 to 17:00"),
        ("week", None, "Monday 09:00 to 17:00", "Monday 09:00 to 18:00"),
        ("week", member, "as before anybody said", "Monday 09:00 to 17:00"),
        ("week", member, "Monday 09:00 to 17:00", "as the house"),
        ("days_off", None, "", "2026-12-24 to 2026-12-26, closed"),
    ]
    page = browser.get("/audit/", {"kind": "time"}).content.decode()
    for words in ("Opening hours", "Working hours of Tobiah Merrow", "Monday 09:00 to 18:00", owner.name):
        assert words in page
