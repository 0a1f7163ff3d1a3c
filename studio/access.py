"""Who may see what. Belongs here: the one line every view carries and the answer it gives. Not here: which
roles a page is for (each view says so itself)."""

from __future__ import annotations

import copy
from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib import auth
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import resolve_url
from django.utils import timezone
from django.utils.http import urlencode

from studio import doors
from studio.models import Member, Profile, Role

View = Callable[..., HttpResponse]
EVERY_ROLE: tuple[str, ...] = tuple(Role.values)
ANYONE: tuple[str, ...] = ("anyone",)
_CHOSEN = "role"  # the role somebody with several works in just now, kept in the session


def member_of(request: HttpRequest) -> Member | None:
    """Who is asking, roles and all; None for a stranger and for one who no longer works here. Asked once."""
    if not hasattr(request, "member"):
        found = None
        user = getattr(request, "user", None)
        if user is not None and user.is_authenticated:
            found = Member.objects.active().with_roles().select_related("second_step").filter(user=user).first()
        request.member = found  # type: ignore[attr-defined]
    member: Member | None = request.member  # type: ignore[attr-defined]
    return member


def role_of(request: HttpRequest) -> str | None:
    """The role somebody works in just now: the one chosen, else the first of theirs in the house's order.

    On a page that is for another of their roles it is that one, so that the words beside the page fit it.
    """
    member = member_of(request)
    held = [role for role in EVERY_ROLE if member is not None and role in member.roles]
    chosen = request.session.get(_CHOSEN) if held else None
    wished = [chosen, *held] if chosen in held else held
    here = getattr(request, "allowed_roles", EVERY_ROLE)
    return next((role for role in wished if role in here), wished[0] if wished else None)


def choose_role(request: HttpRequest, role: str) -> bool:
    """Work in another of one's own roles from now on; false when it is not one's own."""
    member = member_of(request)
    if member is None or role not in member.roles:
        return False
    request.session[_CHOSEN] = role
    return True


def profile_of(request: HttpRequest) -> Profile:
    """The studio's profile, asked once a page."""
    if not hasattr(request, "profile"):
        request.profile = Profile.get()  # type: ignore[attr-defined]
    profile: Profile = request.profile  # type: ignore[attr-defined]
    return profile


def on_screen(request: HttpRequest) -> Profile:
    """The profile as whoever looks reads it: lengths in their own units. For pages; paper is the house's."""
    member, profile = member_of(request), profile_of(request)
    if member is None or member.units in ("", profile.units):
        return profile
    shown = copy.copy(profile)
    shown.units = member.units
    return shown


def _to_sign_in(request: HttpRequest) -> HttpResponse:
    """And back again to a page that was asked for."""
    back = urlencode({"next": request.get_full_path()}) if request.method == "GET" else ""
    return HttpResponseRedirect(resolve_url("sign_in") + (f"?{back}" if back else ""))


class _Allow:
    """`@allow("owner", ...)`: only these roles. `@allow.anyone`: also a stranger; for signing in alone.

    A stranger is sent to sign in and back again, a member without the role gets the 403 page. Inside the view
    `request.member` and `request.profile` are there and the studio's time zone is in force.
    """

    def __call__(self, *roles: str) -> Callable[[View], View]:
        if not roles or not set(roles) <= set(EVERY_ROLE):
            raise ValueError(f"allow{roles}: expected some of {EVERY_ROLE}")
        return lambda view: self._guarded(view, roles)

    def anyone(self, view: View) -> View:
        view.allowed_roles = ANYONE  # type: ignore[attr-defined]
        return view

    def _guarded(self, view: View, roles: tuple[str, ...]) -> View:
        @wraps(view)
        def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
            if not request.user.is_authenticated:
                return _to_sign_in(request)
            member = member_of(request)
            if member is None or not member.has_role(*roles):
                raise PermissionDenied
            asked = lambda: profile_of(request).owners_second_step  # noqa: E731  (asked of owners alone)
            first = doors.before_the_house(request, member, asked_of_owners=asked)
            if first == "sign_in":
                auth.logout(request)
                return _to_sign_in(request)
            if first is not None:
                return HttpResponseRedirect(resolve_url(first))
            request.allowed_roles = roles  # type: ignore[attr-defined]
            with timezone.override(profile_of(request).zone):
                return view(request, *args, **kwargs)

        guarded.allowed_roles = roles  # type: ignore[attr-defined]
        return guarded


allow = _Allow()
