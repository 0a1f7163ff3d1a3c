"""Beams from a laboratory's files: which pairs have one, bringing one in, taking one out of use."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from shotplans.actions import beams as actions
from shotplans.forms.beams import BeamForm
from shotplans.models import MeasuredBeam
from shotplans.records.lm63 import Unreadable
from studio.access import allow


@allow("owner", "photographer")
def beams(request: HttpRequest) -> HttpResponse:
    form = BeamForm(request.POST, request.FILES) if request.method == "POST" else BeamForm()
    if form.is_valid() and _kept(request, form):
        return redirect("beams")
    rows = MeasuredBeam.objects.in_force().select_related("by").order_by("head", "modifier")
    return render(request, "shotplans/beams.html", {"form": form, "rows": rows}, status=422 if form.is_bound else 200)


@allow("owner", "photographer")
@require_POST
def take_out(request: HttpRequest, pk: int) -> HttpResponse:
    beam = get_object_or_404(MeasuredBeam, pk=pk)
    actions.take_out(by=request.member, beam=beam)  # type: ignore[attr-defined]
    messages.success(request, _("Out of use: plans made from now on go by the modifier's own width."))
    return redirect("beams")


def _kept(request: HttpRequest, form: BeamForm) -> bool:
    said = form.cleaned_data
    try:
        beam = actions.keep(
            by=request.member, head=said["head"], modifier=said["modifier"], file_name=said["file"].name,  # type: ignore[attr-defined]
            content=form.content,
        )  # fmt: skip
    except Unreadable as error:
        form.add_error("file", str(error))
        return False
    words = {"flux": f"{beam.flux_lm:,.0f}", "width": f"{beam.width_deg:g}"}
    messages.success(request, _("The beam is saved: %(flux)s lm in the file, %(width)s degrees wide at half.") % words)
    return True
