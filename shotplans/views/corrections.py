"""What the studio's readings taught: a table, the months, and taking a correction out of use."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from shotplans import corrections as read
from shotplans import months_plot
from shotplans.actions import corrections
from shotplans.forms.corrections import RetireForm
from shotplans.models import Retired
from shotplans.planner.kit import MOST_CORRECTION_STOPS
from studio.access import allow


@allow("owner", "photographer")
def all_corrections(request: HttpRequest, form: RetireForm | None = None) -> HttpResponse:
    """Every pair that was read, what is retired, and how near the plans came month by month."""
    known = read.fit()
    months = read.months()
    context = {
        "rows": read.rows(known), "months": months, "plot": months_plot.render(months), "known": known,
        "form": form or RetireForm(pairs=known.pairs), "retired": Retired.objects.select_related("by", "taken_back_by"),
        "most": MOST_CORRECTION_STOPS,
    }  # fmt: skip
    return render(request, "shotplans/corrections.html", context, status=422 if form else 200)


@allow("owner", "photographer")
@require_POST
def retire(request: HttpRequest) -> HttpResponse:
    """Take a pair's, or a head's, readings so far out of use."""
    form = RetireForm(request.POST, pairs=read.fit().pairs)
    if not form.is_valid():
        return all_corrections(request, form)
    head, modifier = form.pair
    try:
        corrections.retire(by=request.member, head=head, modifier=modifier, why=form.cleaned_data["why"])  # type: ignore[attr-defined]
    except corrections.Refused as error:
        messages.error(request, str(error))
    else:
        messages.success(request, _("Retired: plans made from now on do without it until it is read again."))
    return redirect("corrections")


@allow("owner", "photographer")
@require_POST
def take_back(request: HttpRequest, pk: int) -> HttpResponse:
    """Let the readings of a retired correction count again."""
    try:
        corrections.take_back(by=request.member, retired=get_object_or_404(Retired, pk=pk))  # type: ignore[attr-defined]
    except corrections.Refused as error:
        messages.error(request, str(error))
    return redirect("corrections")
