"""The starter list. Belongs here: the one page on which a new studio says what it owns."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import ngettext

from studio.access import allow
from studio.actions import starter_kit
from studio.forms.starter_kit import StarterKitForm
from studio.models import KitItem


@allow("owner")
def starter(request: HttpRequest) -> HttpResponse:
    form = StarterKitForm(request.POST or None, usual=not KitItem.objects.exists())
    if request.method == "POST" and form.is_valid():
        n = len(starter_kit.own(counts=form.counts))
        said = ngettext("One piece is in the kit now.", "%(n)d pieces are in the kit now.", n)
        messages.success(request, said % {"n": n})
        return redirect("studio")
    return render(request, "studio/starter_kit.html", {"form": form}, status=422 if form.is_bound else 200)
