"""Company standards, and the light of last time planned anew."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from bookings.models import Client
from bookings.refusals import Refusal
from shotplans import again as read
from shotplans.actions import again as actions
from shotplans.actions import plans, standards
from shotplans.forms.standards import AgainForm, StandardForm
from shotplans.models import CompanyStandard, StandardEdit
from shotplans.views.sittings import sitting_or_404
from studio.access import allow, on_screen
from studio.models import Modifier
from studio.models.versions import Stale

MOST_EDITS = 50


@allow("photographer", "owner")
def standard(request: HttpRequest, pk: int) -> HttpResponse:
    """The look a company's portraits share; plans made from now on keep what is locked, or say why not."""
    client = get_object_or_404(Client, pk=pk, is_company=True)
    held = CompanyStandard.objects.filter(client=client).select_related("by").first()
    first = StandardForm.initial_of(held.values, held.locked, held.version) if held else {"version": 0}
    modifiers = Modifier.objects.order_by("code").values_list("code", "label")
    sent = request.POST if request.method == "POST" else None
    form = StandardForm(sent, initial=first, modifiers=modifiers, units=on_screen(request).units)
    if request.method == "POST" and form.is_valid() and _kept(request, client, form):
        return redirect("standard", pk=pk)
    edits = StandardEdit.objects.filter(client=client).select_related("by").order_by("-at", "pk")[:MOST_EDITS]
    context = {"client": client, "held": held, "form": form, "edits": edits}
    return render(request, "shotplans/standard.html", context, status=422 if form.is_bound else 200)


def _kept(request: HttpRequest, client: Client, form: StandardForm) -> bool:
    values, locked = form.kept()
    try:
        standards.keep(
            by=request.member, client=client, values=values, locked=locked, seen=form.cleaned_data["version"],  # type: ignore[attr-defined]
            why=form.cleaned_data["why"],
        )  # fmt: skip
    except Stale as error:
        form.data = form.data.copy()  # type: ignore[attr-defined]
        form.data["version"] = str(error.current.version if error.current else 0)  # type: ignore[attr-defined,index]
        form.add_error(None, _("%(what)s Your text is still here: compare and save again.") % {"what": error})
        return False
    except standards.SayWhy as error:
        form.add_error("why", str(error))
        return False
    messages.success(request, _("Saved: plans made from now on follow it."))
    return True


@allow("photographer")
def again(request: HttpRequest, number: str) -> HttpResponse:
    """Last time's light: what it was, what stands in for what is gone; one press plans it with today's room and kit."""
    sitting = sitting_or_404(number)
    form = AgainForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        try:
            plan = actions.plan_again(by=request.member, sitting=sitting, reason=form.cleaned_data["reason"])  # type: ignore[attr-defined]
            return redirect("plan", number=number, version=plan.number)
        except (plans.Refused, Refusal) as error:
            form.add_error(None, str(error))
    wanted = read.wanted(sitting)
    if wanted is None:
        raise Http404
    said = {"sitting": sitting, "wanted": wanted, "form": form}
    return render(request, "shotplans/again.html", said, status=422 if form.is_bound else 200)
