"""What the house says when something cannot be: each page of an error says what was kept and what to do now."""

from __future__ import annotations

import pytest
from django.template.loader import render_to_string

from tests import cast

# What was kept, and what to do.
SAID = {
    "400.html": ("Nothing was changed", "Go back: what you typed is still there"),
    "403.html": ("Nothing was changed", "ask the owner to give you the role"),
    "403_csrf.html": ("What was saved before is safe", "load the page afresh and save again"),
    "404.html": ("Nothing was changed", "look for it with Find"),
    "500.html": ("What was saved before is safe", "Go back: what you typed is still there"),
    "503.html": ("What was saved before is safe", "send it again: what you typed is still there"),
}


@pytest.mark.parametrize("page", SAID)
def test_feature_71_every_error_says_what_was_kept_and_what_to_do(page: str) -> None:
    role = {"label": "front desk"}
    member = None if page in ("500.html", "503.html") else "M"  # those ask nothing of the database
    said = " ".join(render_to_string(page, {"member": member, "role": role, "sent": True}).split())
    for words in SAID[page]:
        assert words in said
    assert 'href="/"' in said  # a way on from each


@pytest.mark.parametrize("page", ["500.html", "503.html"])
def test_who_only_opened_a_page_is_not_told_that_something_was_not_saved(page: str) -> None:
    said = render_to_string(page, {"outage": "gone"})
    assert "What was saved before is safe." in said
    assert "sent" not in said.replace("is sent by itself", "")
    assert "again" in said


@pytest.mark.django_db
def test_feature_71_a_mistyped_address_and_another_role_are_answered_by_those_pages() -> None:
    desk = cast.client_of(cast.make_member("front_desk"))
    gone, not_theirs = desk.get("/sittings/L-0404/"), desk.get("/studio/rooms/")
    assert (gone.status_code, not_theirs.status_code) == (404, 403)
    assert "look for it with Find" in gone.content.decode()
    assert "You are working as front desk. Nothing was changed." in not_theirs.content.decode()
