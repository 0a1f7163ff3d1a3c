"""The top row of words and the first page, by role. Belongs here: turning the settings' table into links.
Not here: the table itself (`NAV`, `FIRST_PAGES`), and who may open a page (each view's own line)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from django.conf import settings
from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse

from studio import access
from studio.models import Role


class Link(NamedTuple):
    label: str
    url: str
    here: bool


def links(role: str | None, path: str) -> Iterator[Link]:
    """The words a role sees; the one whose pages one is on is marked."""
    for roles, label, name in settings.NAV:
        if role in roles:
            try:
                url = reverse(name)
            except NoReverseMatch:  # `manage.py check` says so; the page goes on without the word
                continue
            yield Link(str(label), url, path == url or (path.startswith(url) and url.count("/") > 1))


def first_page(role: str) -> str:
    return reverse(settings.FIRST_PAGES[role])


def house(request: HttpRequest) -> dict[str, Any]:
    """What every page's frame shows: the studio, who is signed in and as what, and the words of that role."""
    member = access.member_of(request)
    if member is None:
        return {"member": None}
    role = access.role_of(request)
    return {
        "member": member,
        "profile": access.profile_of(request),
        "role": Role(role) if role else None,
        "other_roles": [held for held in Role if held in member.roles and held != role],
        "navigation": list(links(role, request.path)),
    }
