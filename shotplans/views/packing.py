"""The assistant's first page: a day's packing, one tap out and one in for each thing; and the owner's to see to."""

from __future__ import annotations

from datetime import date, timedelta

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.http import urlencode
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.refusals import Refusal
from shotplans import clashes, packing_page, paper, workbench
from shotplans.actions import packing as actions
from shotplans.models import PackingTap, ToSeeTo
from shotplans.packing_page import PackingList
from shotplans.sheets import packing_sheet
from studio import clock, entries, on_set, sending
from studio.access import allow, on_screen, role_of
from studio.days import day_of
from studio.models import KitItem
from studio.models.versions import Stale

CONDITIONS = [(c.value, c.label) for c in PackingTap.Condition if c != PackingTap.Condition.WHOLE]


@allow("assistant", "photographer")
def packing(request: HttpRequest) -> HttpResponse:
    """What the day's plans need, packed once, each sitting's own record, and what stands in the way this week."""
    day = day_of(request)
    planned = workbench.planned_on(day)
    context = {
        "day": day, "before": day - timedelta(days=1), "after": day + timedelta(days=1), "planned": planned,
        "lists": packing_page.lists(day, planned, on_screen(request)), "conditions": CONDITIONS,
        "in_the_way": clashes.by_plan(clashes.from_day(day, workbench.plans_of(planned))),
        "may_plan": role_of(request) == "photographer",
    }  # fmt: skip
    return on_set.render(request, "shotplans/packing.html", context)


@allow("assistant", "photographer")
def packing_pdf(request: HttpRequest) -> HttpResponse:
    """The same list to print: the studio's, or that of the sitting away from it which is named."""
    try:
        found = _list(request, day_of(request), request.GET.get("where", ""))
    except Http404:
        messages.error(request, _("There is nothing to pack on that day."))
        return redirect(f"{reverse('packing')}?{urlencode({'day': day_of(request).isoformat()})}")
    body = packing_sheet.render(found.sheet, paper.size_of(request.profile))  # type: ignore[attr-defined]
    return sending.pdf(body, f"packing-{day_of(request):%Y-%m-%d}{'-' + found.where if found.where else ''}.pdf")


@allow("assistant", "photographer")
@require_POST
@entries.once
def tap(request: HttpRequest) -> HttpResponse:
    """One tap: a thing goes out, comes back, is not out after all; or all of it is packed."""
    day = day_of(request, request.POST)
    try:
        _do(request, day, _list(request, day, request.POST.get("where", "")))
    except Refusal as refusal:
        messages.error(request, str(refusal))
    except Stale:
        messages.error(request, _("Somebody changed that piece at the same moment. Look, and tap again."))
    item = slugify(request.POST.get("n", ""))
    return redirect(f"{reverse('packing')}?{urlencode({'day': day.isoformat()})}" + (f"#thing-{item}" if item else ""))


def _do(request: HttpRequest, day: date, packed: PackingList) -> None:
    by, what, post = request.member, request.POST.get("what", ""), request.POST  # type: ignore[attr-defined]
    if what == "packed":
        actions.say_packed(by=by, day=day, packed=packed)
        return
    item = post.get("item", "")
    thing = next((one for one in packed.things if one.row.item == item), None)
    if thing is None:
        raise actions.NotPacked(_("The plans of the day do not need that any more. Load the page again."))
    if what == "out":
        actions.take_out(by=by, day=day, packed=packed, thing=thing)
    elif what == "undone":
        actions.undo(by=by, day=day, packed=packed, thing=thing)
    elif what.startswith("instead:"):
        instead = what.removeprefix("instead:")
        actions.take_instead(by=by, day=day, packed=packed, thing=thing, instead=instead)
    else:
        condition = what.removeprefix("back:")
        actions.bring_back(
            by=by, day=day, packed=packed, thing=thing, condition=condition, note=post.get("note", "")
        )


def _list(request: HttpRequest, day: date, where: str) -> PackingList:
    planned = workbench.planned_on(day)
    found = packing_page.lists(day, planned, request.profile)  # type: ignore[attr-defined]
    packed = next((one for one in found if one.where == where), None)
    if packed is None:
        raise Http404
    return packed


@allow("owner")
@require_POST
def seen_to(request: HttpRequest, pk: int) -> HttpResponse:
    """What came back not whole was seen to."""
    task = get_object_or_404(ToSeeTo, pk=pk)
    try:
        actions.seen_to(by=request.member, task=task)  # type: ignore[attr-defined]
    except (Refusal, Stale) as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("%(thing)s is seen to.") % {"thing": task.item})
    return redirect("studio")


def kit_panel(request: HttpRequest, piece: KitItem) -> str:
    """For the page a piece's label opens: the same taps for it as on today's packing, where it is on a list."""
    member = request.member  # type: ignore[attr-defined]
    if not member.has_role("assistant", "photographer"):
        return ""
    day = clock.today()
    found = packing_page.lists(day, workbench.planned_on(day), on_screen(request))
    things = [(one, t) for one in found for t in one.things if piece.code in (t.row.item, t.instead)]
    context = {"day": day, "things": things, "conditions": CONDITIONS}
    return render_to_string("shotplans/_packing_of_piece.html", context, request)


def studio_panel(request: HttpRequest) -> str:
    """For the owner's first page: what came back not whole and waits for somebody, beside the kit's own list."""
    tasks = ToSeeTo.objects.still_open().beside_kit().select_related("tap__by", "piece")
    return render_to_string("shotplans/_to_see_to.html", {"tasks": tasks}, request)
