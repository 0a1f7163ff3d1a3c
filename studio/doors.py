"""How long somebody stays signed in, from where they came, and what stands between them and the house. Belongs here:
reading and marking a request's session and device. Not here: which role may open a page (`access`), rows
(`actions.tries`, `actions.second`).

A session is over after half a day without a page and after a week in any case. What waits on a device for the network
outlives it: it is kept there and sent once its member has signed in again (`static/studio/queue.js`).
"""

from __future__ import annotations

import ipaddress
import secrets
from collections.abc import Callable
from datetime import timedelta
from typing import Any

from django.conf import settings
from django.contrib import auth
from django.contrib.auth.models import AbstractBaseUser
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.crypto import salted_hmac

from studio.models import Member, Role, SecondStep

_DOOR = "door"  # in the session: when it began, when it was last used, and by which second step
NOTED_EVERY = timedelta(minutes=10)  # so that a page costs no write
KNOWN, _SALT = "known", "studio.doors.known"  # the cookie of a device somebody came in from before
KNOWN_FOR = timedelta(days=180)
SETTING_UP = ("second_step", "begin_second", "keep_second", "sign_out")  # open while the second step is still to be set


def now() -> float:
    """The machine's time and not the house's: a session is a thing of the machine, like its cookie."""
    return timezone.now().timestamp()


def began(sender: object, request: HttpRequest, user: AbstractBaseUser, **kwargs: Any) -> None:
    """Somebody came in, whichever way."""
    if request is not None and hasattr(request, "session"):
        request.session[_DOOR] = {"began": now(), "seen": now(), "second": None}


def came_in_by(request: HttpRequest, step: SecondStep) -> None:
    """They showed a good code, too."""
    request.session[_DOOR] = request.session.get(_DOOR, {}) | {"second": step.pk}


def ending(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """The middleware that ends sessions."""

    def answered(request: HttpRequest) -> HttpResponse:
        if settings.SESSION_COOKIE_NAME in request.COOKIES and auth.SESSION_KEY in request.session:
            _see_to(request)
        return get_response(request)

    return answered


def _see_to(request: HttpRequest) -> None:
    door = request.session.get(_DOOR)
    if door is None:  # from before sessions were marked
        request.session.flush()
        return
    whole, idle = (timedelta(seconds=now() - door[since]) for since in ("began", "seen"))
    if whole > settings.SIGNED_IN_AT_MOST or idle > settings.SIGNED_IN_IDLE:
        request.session.flush()
    elif idle > NOTED_EVERY:
        request.session[_DOOR] = door | {"seen": now()}


def before_the_house(request: HttpRequest, member: Member, *, asked_of_owners: Callable[[], bool]) -> str | None:
    """The page somebody must go to first, by name: the door where their session did not show the second step they
    have, setting it up where the house asks an owner for it. It asks who they are and not the role they work in now."""
    step = getattr(member, "second_step", None)
    if step is not None:
        shown = (request.session.get(_DOOR) or {}).get("second")
        return None if shown == step.pk else "sign_in"
    here = request.resolver_match.url_name if request.resolver_match else ""
    if Role.OWNER in member.roles and here not in SETTING_UP and asked_of_owners():
        return "second_step"
    return None


def place_of(request: HttpRequest, name: str) -> str:
    """Where a name is tried from: the device its member came in from before, else the network address."""
    return device_of(request, name) or f"from {address_of(request)}"


def address_of(request: HttpRequest) -> str:
    """The asking machine's; behind the house's proxy the last that the proxy added. Of IPv6 the network, for a machine
    has as many addresses in it as it likes."""
    said = request.META.get("REMOTE_ADDR", "")
    if settings.HTTPS and (passed := request.headers.get("X-Forwarded-For")):
        said = passed.rsplit(",", 1)[-1].strip()
    try:
        found = ipaddress.ip_address(said)
    except ValueError:
        return "unknown"
    return str(found) if found.version == 4 else str(ipaddress.ip_network((found, 64), strict=False))


def device_of(request: HttpRequest, name: str) -> str:
    """The device's own number if its cookie was given for this name under its present password; else nothing."""
    if KNOWN not in request.COOKIES:
        return ""
    try:
        for_whom, number = signing.loads(request.COOKIES[KNOWN], salt=_SALT, max_age=KNOWN_FOR)
    except (signing.BadSignature, ValueError, TypeError):
        return ""
    user = auth.get_user_model().objects.filter(username=name).first()
    return f"device {number}" if user is not None and for_whom == _mark(user) else ""


def know_device(answer: HttpResponse, user: Any) -> None:
    """From now on tries from this device are counted apart from everybody else's."""
    said = signing.dumps([_mark(user), secrets.token_hex(8)], salt=_SALT)
    answer.set_cookie(
        KNOWN, said, max_age=KNOWN_FOR, secure=settings.HTTPS, httponly=True, samesite="Strict", path="/sign-in/"
    )


def _mark(user: Any) -> str:
    return salted_hmac(_SALT, f"{user.pk} {user.get_session_auth_hash()}", algorithm="sha256").hexdigest()[:16]
