"""What a member sets for themselves. Belongs here: their own page. Not here: their calendar (`bookings`)."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from studio import access
from studio.access import allow
from studio.forms.mine import MineForm
from studio.models import Member


@allow(*access.EVERY_ROLE)
def mine(request: HttpRequest) -> HttpResponse:
    row = Member.objects.get(pk=request.member.pk)  # type: ignore[attr-defined]
    form = MineForm(request.POST or None, instance=row)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("Your settings are saved."))
        return redirect("home")
    return render(request, "studio/mine.html", {"form": form}, status=422 if form.is_bound else 200)
