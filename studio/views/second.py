"""The second step and one's own password. Belongs here: setting them on the pages of one's own, taking another's second
step off, and the page at the door that asks for the code."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import segno
from django.contrib import auth, messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST

from studio import access, doors
from studio.access import allow
from studio.actions import members as members_actions
from studio.actions import second
from studio.forms.sign_in import (
    CodeAtTheDoorForm,
    CodeForm,
    CountedCodeForm,
    FirstCodeForm,
    OwnPasswordForm,
    PresentPasswordForm,
)
from studio.models import Member, Role, SecondStep

_WAITING, _SECRET = "waiting_at_the_door", "secret_to_be"  # in the session
WAITS = timedelta(minutes=10)


def ask_for_code(request: HttpRequest, user: Any, back: str) -> HttpResponse | None:
    """Somebody's password was right: to the page that asks for their code, or None where they have no second step."""
    if not SecondStep.objects.filter(member__user=user, member__active=True).exists():
        return None
    request.session.cycle_key()
    request.session[_WAITING] = {"user": user.pk, "hash": user.get_session_auth_hash(), "at": doors.now(), "back": back}
    return redirect("sign_in_code")


@allow.anyone
@sensitive_post_parameters()
@never_cache
def sign_in_code(request: HttpRequest) -> HttpResponse:
    """Nobody is signed in before the code is good; what was typed before is good for ten minutes."""
    waiting = request.session.get(_WAITING)
    step = None
    if waiting and doors.now() - waiting["at"] < WAITS.total_seconds():
        rows = SecondStep.objects.select_related("member__user")
        step = rows.filter(member__user=waiting["user"], member__active=True).first()
    if step is None or step.member.user.get_session_auth_hash() != waiting["hash"]:
        return redirect("sign_in")
    form = CodeAtTheDoorForm(request.POST or None, request=request, step=step)
    if request.method == "POST" and form.is_valid():
        request.session.pop(_WAITING, None)
        auth.login(request, step.member.user, backend="django.contrib.auth.backends.ModelBackend")
        doors.came_in_by(request, step)
        answer = redirect(waiting["back"] or "home")
        doors.know_device(answer, step.member.user)
        return answer
    return render(request, "registration/code.html", {"form": form}, status=_status(form))


def _status(form: Any) -> int:
    if any(form.has_error(name, "wait") for name in (None, *form.fields)):
        return 429
    return 422 if form.is_bound else 200


@allow(*access.EVERY_ROLE)
@never_cache
def second_step(request: HttpRequest) -> HttpResponse:
    return _page(request)


def _page(request: HttpRequest, **shown: Any) -> HttpResponse:
    member: Member = request.member  # type: ignore[attr-defined]
    step = SecondStep.objects.filter(member=member).first()
    asked = Role.OWNER in member.roles and access.profile_of(request).owners_second_step
    context = {
        "step": step, "asked": asked, "left": step.recovery_codes.filter(used_at=None).count() if step else 0,
        "password_form": PresentPasswordForm(user=request.user), "code_form": CodeForm(),
    }  # fmt: skip
    form = next((one for one in shown.values() if hasattr(one, "is_bound")), None)
    status = _status(form) if form is not None and form.errors else 200
    return render(request, "studio/second_step.html", context | shown, status=status)


@allow(*access.EVERY_ROLE)
@never_cache
@sensitive_post_parameters()
@require_POST
def begin_second(request: HttpRequest) -> HttpResponse:
    form = PresentPasswordForm(request.POST, user=request.user)
    if not form.is_valid():
        return _page(request, password_form=form)
    request.session[_SECRET] = second.new_secret()
    return _to_be_set(request)


def _to_be_set(request: HttpRequest, **shown: Any) -> HttpResponse:
    """The key as squares and as letters; nothing is asked at the door before a code of it was typed here."""
    secret = request.session[_SECRET]
    name = access.profile_of(request).studio_name
    code = segno.make(second.address_of(secret, request.member, name), micro=False)  # type: ignore[attr-defined]
    picture = code.svg_data_uri(scale=4, border=4, dark="#000", light="#fff")
    letters = " ".join(secret[at : at + 4] for at in range(0, len(secret), 4))
    return _page(request, picture=picture, letters=letters, **({"code_form": FirstCodeForm()} | shown))


@allow(*access.EVERY_ROLE)
@never_cache
@sensitive_post_parameters()
@require_POST
def keep_second(request: HttpRequest) -> HttpResponse:
    form, secret = FirstCodeForm(request.POST), request.session.get(_SECRET)
    if secret is None:
        return redirect("second_step")
    if form.is_valid():
        try:
            step, codes = second.set_up(
                member=request.member, secret=secret, code=form.cleaned_data["code"]  # type: ignore[attr-defined]
            )  # fmt: skip
        except second.WrongCode as refusal:
            form.add_error("code", str(refusal))
        else:
            del request.session[_SECRET]
            doors.came_in_by(request, step)
            return _page(request, codes=codes)
    return _to_be_set(request, code_form=form)


@allow(*access.EVERY_ROLE)
@never_cache
@sensitive_post_parameters()
@require_POST
def change_second(request: HttpRequest) -> HttpResponse:
    """New codes for paper, or no second step any more; either needs a code."""
    member: Member = request.member  # type: ignore[attr-defined]
    step = SecondStep.objects.select_related("member__user").filter(member=member).first()
    if step is None:
        return redirect("second_step")
    form = CountedCodeForm(request.POST, request=request, step=step)
    if form.is_valid():
        try:
            if "off" in request.POST:
                second.take_off_own(step=step, code=form.cleaned_data["code"])
                form.forget()
                messages.success(request, _("The second step is taken off: your password alone opens the house."))
                return redirect("second_step")
            codes = second.new_codes(step=step, code=form.cleaned_data["code"])
            form.forget()
            return _page(request, codes=codes)
        except (second.WrongCode, second.HouseAsks) as refusal:
            form.add_error("code", str(refusal))
    return _page(request, code_form=form)


@allow("owner")
@require_POST
def take_off_second(request: HttpRequest, pk: int) -> HttpResponse:
    """Of somebody else whose telephone is gone."""
    row = get_object_or_404(Member, pk=pk)
    if row.pk == request.member.pk:  # type: ignore[attr-defined]
        messages.error(request, _("Your own second step is taken off on your own page, with a code."))
    elif second.take_off(member=row, by=request.member):  # type: ignore[attr-defined]
        messages.success(request, _("The second step of %(name)s is taken off.") % {"name": row.name})
    return redirect("member", pk=pk)


@allow(*access.EVERY_ROLE)
@never_cache
@sensitive_post_parameters()
def own_password(request: HttpRequest) -> HttpResponse:
    form = OwnPasswordForm(request.POST or None, user=request.user)
    if request.method == "POST" and form.is_valid():
        members_actions.set_own_password(member=request.member, password=form.cleaned_data["password"])  # type: ignore[attr-defined]
        request.user.refresh_from_db()
        auth.update_session_auth_hash(request, request.user)  # here; everywhere else they are signed out by it
        messages.success(request, _("Your new password is saved. Wherever else you were signed in, you are not now."))
        return redirect("mine")
    return render(request, "studio/own_password.html", {"form": form}, status=_status(form))
