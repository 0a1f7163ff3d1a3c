"""What is to be seen to of the kit, and what is used up. Belongs here: the owner's list, and counting by taps. Not
here: which of it that is (`studio.kit_tasks`)."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from studio import access, clock, entries, kit_tasks, on_set
from studio.access import allow
from studio.actions import kit as actions
from studio.forms.consumables import ConsumableForm
from studio.models import Consumable
from studio.views.kit import may_edit

STEPS = {"less": -1, "more": 1}


@allow("owner")
def tasks(request: HttpRequest) -> HttpResponse:
    return render(request, "studio/kit_tasks.html", {"tasks": kit_tasks.on(clock.today())})


@allow(*access.EVERY_ROLE)
def consumables(request: HttpRequest) -> HttpResponse:
    shown = {"rows": Consumable.objects.all(), "may_edit": may_edit(request)}
    return on_set.render(request, "studio/consumables.html", shown)


@allow(*access.EVERY_ROLE)
@require_POST
@entries.once
def count(request: HttpRequest, pk: int) -> HttpResponse:
    """One more or one less, in one tap; two that are taken on two telephones are two."""
    row, step = get_object_or_404(Consumable, pk=pk), STEPS.get(request.POST.get("step", ""))
    if step is None:
        messages.error(request, _("One more or one less: nothing else can be tapped here."))
    else:
        now = actions.count(by=request.member, consumable=row, by_n=step)  # type: ignore[attr-defined]
        messages.success(request, _("%(name)s, %(unit)s: %(n)d.") % {"name": now, "n": now.count, "unit": now.unit})
    return redirect("consumables")


@allow("owner")
def new_consumable(request: HttpRequest) -> HttpResponse:
    return _page(request, Consumable())


@allow("owner")
def edit_consumable(request: HttpRequest, pk: int) -> HttpResponse:
    return _page(request, get_object_or_404(Consumable, pk=pk))


def _page(request: HttpRequest, row: Consumable) -> HttpResponse:
    form = ConsumableForm(request.POST or None, instance=row, by=request.member)  # type: ignore[attr-defined]
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("%(name)s is saved.") % {"name": row})
        return redirect("consumables")
    return render(request, "studio/consumable.html", {"form": form, "row": row})
