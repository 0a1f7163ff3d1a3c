"""Pages of the people who work here. Belongs here: list, one person, a new one."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters

from studio.access import allow
from studio.forms.members import MemberForm
from studio.models import Member, SecondStep


@allow("owner")
def members(request: HttpRequest) -> HttpResponse:
    people = Member.objects.with_roles().select_related("user")
    return render(request, "studio/members.html", {"members": people})


@allow("owner")
@sensitive_post_parameters("password")
def new_member(request: HttpRequest) -> HttpResponse:
    return _page(request, Member())


@allow("owner")
@sensitive_post_parameters("password")
def member(request: HttpRequest, pk: int) -> HttpResponse:
    return _page(request, get_object_or_404(Member.objects.with_roles().select_related("user"), pk=pk))


def _page(request: HttpRequest, row: Member) -> HttpResponse:
    form = MemberForm(request.POST or None, instance=row)
    if request.method == "POST" and form.is_valid() and form.keep():
        if row.user_id == request.user.pk:
            update_session_auth_hash(request, row.user)  # a new password of one's own signs nobody out
        messages.success(request, _("%(name)s is saved.") % {"name": row.name})
        return redirect("members" if row.user_id != request.user.pk else "home")
    has_second = row.user_id != request.user.pk and SecondStep.objects.filter(member_id=row.pk).exists()
    return render(request, "studio/member.html", {"form": form, "person": row, "has_second": has_second})
