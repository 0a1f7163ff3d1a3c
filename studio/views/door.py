"""Coming in, going out, changing the role one works in. Belongs here: what is the same for every member."""

from __future__ import annotations

from django.contrib import auth
from django.core.exceptions import NON_FIELD_ERRORS
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST

from studio import access, doors, navigation
from studio.access import allow
from studio.forms.sign_in import SignInForm
from studio.models import Role, Room
from studio.views import second


@allow(*access.EVERY_ROLE)
def home(request: HttpRequest) -> HttpResponse:
    """Each role lands on its own first page."""
    member = access.member_of(request)
    if member is not None and member.has_role(Role.OWNER) and not Room.objects.exists():
        return redirect("studio")  # a new house: its first steps are there, whatever else its owner does
    role = access.role_of(request)
    return redirect(navigation.first_page(role or ""))


@allow.anyone
@sensitive_post_parameters()
@never_cache
def sign_in(request: HttpRequest) -> HttpResponse:
    form = SignInForm(request, data=request.POST or None)
    if request.method == "POST" and form.is_valid():
        asked = second.ask_for_code(request, form.get_user(), _back(request))
        if asked is not None:
            return asked
        auth.login(request, form.get_user())
        answer = redirect(_back(request) or "home")
        doors.know_device(answer, form.get_user())
        return answer
    status = 429 if form.has_error(NON_FIELD_ERRORS, "wait") else 200
    return render(request, "registration/sign_in.html", {"form": form, "next": _back(request)}, status=status)


def _back(request: HttpRequest) -> str:
    """Where somebody was going; only a page of our own, so that nobody is led away by a link."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    ours = url_has_allowed_host_and_scheme(asked, {request.get_host()}, require_https=request.is_secure())
    return asked if ours else ""


@allow(*access.EVERY_ROLE)
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    auth.logout(request)
    return redirect(f"{reverse('sign_in')}?out=1")  # so that the page forgets what was typed and not sent


@allow(*access.EVERY_ROLE)
@require_POST
def change_role(request: HttpRequest) -> HttpResponse:
    access.choose_role(request, request.POST.get("role", ""))
    return redirect("home")
