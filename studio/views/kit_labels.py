"""Labels of the kit. Belongs here: asking which, and the sheets of stickers. Not here: how they lie
(`studio.paper.stickers`)."""

from __future__ import annotations

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils.translation import gettext as _

from studio import access, sending
from studio.access import allow
from studio.forms.kit_labels import MOST, LabelsForm
from studio.models import KitItem
from studio.paper import stickers


@allow("photographer", "assistant", "owner")
def labels(request: HttpRequest) -> HttpResponse:
    """The question; what the list of the kit asked for is taken over."""
    return _asked_back(request, LabelsForm(initial=request.GET.dict(), paper=access.profile_of(request).paper))


@allow("photographer", "assistant", "owner")
def sheet(request: HttpRequest) -> HttpResponse:
    form = LabelsForm(request.GET, paper=access.profile_of(request).paper)
    if not form.is_valid():
        return _asked_back(request, form)
    rows = form.labelled()
    if not rows:
        form.add_error(None, _("Nothing of the kit fits: there is nothing to print."))
    elif len(rows) > MOST:
        form.add_error(None, _("That is more than %(n)d labels: ask for a section or a case at a time.") % {"n": MOST})
    if form.errors:
        return _asked_back(request, form)
    body = stickers.render(
        [_sticker(row) for row in rows], stickers.GRIDS[form.cleaned_data["grid"]],
        start=form.cleaned_data["start"], title=_("Labels of the kit"), author=access.profile_of(request).studio_name,
    )  # fmt: skip
    return sending.pdf(body, "kit-labels.pdf")


def _sticker(row: KitItem) -> stickers.Sticker:
    return stickers.Sticker(settings.TENTHSTOP_URL + reverse("tick", args=[row.code]), row.code, row.label)


def _asked_back(request: HttpRequest, form: LabelsForm) -> HttpResponse:
    return render(request, "studio/kit_labels.html", {"form": form}, status=422 if form.is_bound else 200)
