"""Confirming the brief and making a plan of it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.models import Sitting
from bookings.refusals import Refusal
from shotplans import workbench
from shotplans.actions import plans
from shotplans.forms.briefs import BriefForm, setup_forms
from shotplans.forms.props import prop_forms
from shotplans.models import Plan
from shotplans.views.sittings import sitting_or_404
from studio.access import allow, on_screen
from studio.models.versions import Stale


@allow("photographer")
def brief(request: HttpRequest, number: str) -> HttpResponse:
    """What the picture must say and do, set-up by set-up."""
    sitting = sitting_or_404(number)
    former = workbench.starting_brief(sitting)
    version = sitting.brief.version if hasattr(sitting, "brief") else None
    labels = [s.label for s in sitting.sitters.all()]
    day = timezone.localdate(sitting.starts_at)
    sent = request.POST or None
    first, units = BriefForm.initial_from(former, day) | {"version": version}, on_screen(request).units
    form = BriefForm(sent, day=day, units=units, initial=first)
    setups = setup_forms(labels, sent, initial=former["setups"])
    props = prop_forms(labels, sent, initial=former.get("props"), units=units)
    status = 200
    if request.method == "POST":
        if all([form.is_valid(), setups.is_valid(), props.is_valid()]):  # each is asked: all sentences at once
            data = form.tree(setups.kept(), props.trees(), former)
            if _kept(request, sitting, form, data):
                return redirect("brief", number=number)
        status = 422
    context = {
        "sitting": sitting, "form": form, "setups": setups, "props": props,
        "plan": Plan.objects.of(sitting).current().first(), "told_since": workbench.told_since(sitting),
    }  # fmt: skip
    return render(request, "shotplans/brief.html", context, status=status)


def _kept(request: HttpRequest, sitting: Sitting, form: BriefForm, data: dict[str, object]) -> bool:
    try:
        plans.confirm_brief(
            by=request.member,
            sitting=sitting,
            data=data,
            seen=form.cleaned_data["version"] or 0,  # type: ignore[attr-defined]
        )
    except Stale as error:
        form.data = form.data.copy()  # type: ignore[attr-defined]
        form.data["version"] = str(error.current.version)  # type: ignore[attr-defined,union-attr,index]
        form.add_error(None, _("%(what)s Your text is still here: compare and save again.") % {"what": error})
        return False
    messages.success(request, _("Brief confirmed."))
    return True


@allow("photographer")
@require_POST
def make(request: HttpRequest, number: str) -> HttpResponse:
    """A new version of the plan from today's rows."""
    sitting = sitting_or_404(number)
    why = "".join(letter for letter in request.POST.get("why", "") if letter.isprintable())
    try:
        plan = plans.make_plan(by=request.member, sitting=sitting, why=why)  # type: ignore[attr-defined]
    except (plans.Refused, Refusal) as error:
        messages.error(request, str(error))
        return redirect("brief", number=number)
    return redirect("plan", number=number, version=plan.number)
