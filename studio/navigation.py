"""The top row of words and the first page, by role. Belongs here: turning the settings' table into links.
Not here: the table itself (`NAV`, `FIRST_PAGES`), and who may open a page (each view's own line)."""

from __future__ import annotations

from contextlib import suppress
from typing import Any, NamedTuple

from django.conf import settings
from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse

from studio import access, clock, on_set
from studio.models import Role


class Link(NamedTuple):
    label: str
    url: str
    here: bool


def links(role: str | None, path: str) -> list[Link]:
    """The words a role sees; the one whose pages one is on is marked, the nearest where several fit."""
    found = []
    for roles, label, name in settings.NAV:
        # A name no address bears is said by `manage.py check`; the page goes on without the word.
        with suppress(NoReverseMatch):
            if role in roles:
                found.append((str(label), reverse(name)))
    here = max((url for _label, url in found if path.startswith(url)), key=len, default="")
    return [Link(label, url, url == here) for label, url in found]


def first_page(role: str) -> str:
    return reverse(settings.FIRST_PAGES[role])


def house(request: HttpRequest) -> dict[str, Any]:
    """What every page's frame shows: the studio, who is signed in and as what, and the words of that role."""
    member = access.member_of(request)
    is_set_address = on_set.is_address(request.path)
    if member is None:
        return {"member": None, "is_set_address": is_set_address}
    role = access.role_of(request)
    return {
        "member": member,
        "is_set_address": is_set_address,
        "profile": access.on_screen(request),
        "as_of": clock.now(),
        "role": Role(role) if role else None,
        "other_roles": [held for held in Role if held in member.roles and held != role],
        "navigation": links(role, request.path),
    }
