"""Real times beside planned ones on the page of a kind of sitting, and taking what they suggest."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.models import Kind
from bookings.refusals import Refusal
from shotplans import overruns
from shotplans.actions import overruns as actions
from shotplans.models import BufferChange
from studio.access import allow
from studio.models.versions import Stale
from studio.sent import whole


def kind_panel(request: HttpRequest, kind: Kind) -> str:
    """For the page of a kind: what set-up and strike really took, what that suggests, what was taken before."""
    if kind.pk is None:
        return ""
    context = {
        "kind": kind, "learned": overruns.of_kind(kind),
        "taken": BufferChange.objects.filter(kind=kind).select_related("by").order_by("-at", "-pk")[:10],
    }  # fmt: skip
    return render_to_string("shotplans/_overruns.html", context, request)


@allow("owner")
@require_POST
def take(request: HttpRequest, pk: int) -> HttpResponse:
    """One tap takes a suggested buffer."""
    kind = get_object_or_404(Kind, pk=pk)
    seen = whole(request.POST.get("seen", "")) or 0
    try:
        done = actions.take(by=request.member, kind=kind, field=request.POST.get("field", ""), seen=seen)  # type: ignore[attr-defined]
    except (Refusal, Stale) as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("%(n)d minutes stand from now on.") % {"n": done.after})
    return redirect("kind", pk=pk)
