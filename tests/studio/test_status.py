"""How the machine is: the last backup, what is wrong with it, and what an erased client is told of backups."""

from __future__ import annotations

import html
from datetime import timedelta
from typing import Any

import pytest
from django.http import HttpResponse
from django.test import Client

from bookings import erasure_paper, wording
from bookings.models import Client as Booker
from bookings.models import Erasure, Letter
from studio import clock, status
from studio.models import Backup, Profile
from tests import cast

pytestmark = pytest.mark.django_db


def made(nights: int = 0, **other: Any) -> Backup:
    values = {"seconds": 1.5, "path": "nights/tenthstop.sealed", "size": 3_400_000, "rows": 1664, "files": 4}
    return Backup.objects.create(at=clock.now() - timedelta(days=nights, minutes=1), sealed=True, **(values | other))


def words(answer: HttpResponse) -> str:
    return html.unescape(answer.content.decode())


def test_no_backup_and_one_of_three_nights_ago_are_said_on_the_first_page(owner: Client) -> None:
    assert "No backup was made yet." in words(owner.get("/studio/"))
    made(3)
    assert "more than two nights old" in words(owner.get("/studio/"))
    made(1)
    assert "nights old" not in words(owner.get("/studio/"))
    made(0, deleted_at=clock.now())
    assert status.last_backup().row.at < clock.now() - timedelta(hours=20)  # what is gone is none


def test_the_page_says_when_how_large_where_and_how_the_machine_is(
    owner: Client, django_assert_max_num_queries: Any
) -> None:
    for nights in range(12):
        made(nights, deleted_at=clock.now() if nights > 6 else None)
    Letter.objects.create(
        kind="reminder", to="wren@example.org", written_at=clock.now(), message_id="one",
        due_at=clock.now() - timedelta(hours=2),
    )  # fmt: skip
    with django_assert_max_num_queries(16):
        page = words(owner.get("/status/"))
    for said in (
        "3.4 MB", "nights/tenthstop.sealed", "without the passphrase nobody reads it", "1664 rows and 4 files",
        "not to be seen there from here", "deleted", "1 is due to be sent", "send_due_letters", "Release",
    ):  # fmt: skip
        assert said in page


def test_a_disk_that_fills_is_a_broken_limit(owner: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(status, "LITTLE", 10**18)
    assert "Make room before it is full." in words(owner.get("/status/"))


def test_an_erased_client_is_told_which_backups_still_hold_what_was_erased() -> None:
    client = Booker.objects.create(name="erased K-1")
    member = cast.make_member("owner")
    found = Erasure.objects.create(client=client, at=clock.now(), by=member, asked_by="by letter")
    assert "no backup made before then" in erasure_paper.backups(found, Profile.get())
    for nights in (1, 2, 9):
        made(nights, keep_nights=7, deleted_at=clock.now() if nights == 9 else None)
    days = [wording.date((clock.now() - timedelta(days=nights, minutes=1)).date()) for nights in (2, 1)]
    assert f"(2, of {days[0]} to {days[1]}) still hold" in erasure_paper.backups(found, Profile.get())
    assert "kept for 7 nights" in erasure_paper.backups(found, Profile.get())
    assert erasure_paper.receipt(found, Profile.get()).startswith(b"%PDF")
