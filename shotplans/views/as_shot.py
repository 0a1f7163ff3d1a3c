"""The set as shot: copied from the plan with one press, changed where it differs; pictures of it."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from shotplans.actions import as_shot, records, set_photos
from shotplans.forms.as_shot import BuiltForm
from shotplans.models import Built, Plan, Record, SetPhoto
from shotplans.views.sittings import plan_or_404, setup_or_404, sitting_or_404
from studio import entries, on_set, sending
from studio.access import allow, on_screen
from studio.models.versions import Stale


@allow("assistant", "photographer")
@require_POST
@entries.once
def copy_plan(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """Keep a set-up as built, as planned."""
    plan, entry = setup_or_404(number, version, setup)
    name = str(entry["name"])
    try:
        with records.opened(plan) as record:
            as_shot.copy_plan(by=request.member, record=record, setup_name=name)  # type: ignore[attr-defined]
    except records.Refused as error:
        messages.error(request, str(error))
    else:
        messages.success(request, _("Saved as built: %(setup)s, as planned.") % {"setup": name})
    return redirect("record", number=number, version=version)


@allow("assistant", "photographer")
@entries.once
def built(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """One set-up as shot: what differs is typed over. Not copied yet, it opens as planned and is copied when kept, so
    that a telephone without a network has the page."""
    plan, entry = setup_or_404(number, version, setup)
    name = str(entry["name"])
    record = Record.objects.filter(plan=plan).first() or Record(plan=plan)
    record.plan = plan
    found = Built.objects.filter(record__plan=plan, setup_name=name).select_related("by").first()
    if found is None:
        if record.closed_at is not None:
            return redirect("record", number=number, version=version)
        found = Built(record=record, setup_name=name, data=as_shot.so_far(record, name))
    known = {"data_now": found.data, "planned": as_shot.planned(record, name), "kit": plan.request["kit"]}
    known["units"] = on_screen(request).units
    first = {"version": found.version, "failed": found.failed, "why_failed": found.why_failed}
    form = BuiltForm(request.POST if request.method == "POST" else None, initial=first, **known)
    if request.method == "POST" and form.is_valid() and _changed(request, plan, name, form):
        return redirect("record", number=number, version=version)
    context = {"plan": plan, "sitting": plan.sitting, "setup_number": setup, "name": name, "built": found, "form": form}
    entries.say(request, *entries.faults(form))
    return on_set.render(request, "shotplans/as_shot.html", context, status=422 if form.is_bound else 200)


def _changed(request: HttpRequest, plan: Plan, name: str, form: BuiltForm) -> bool:
    data = form.cleaned_data
    try:
        as_shot.copy_and_change(
            by=request.member, plan=plan, setup_name=name, typed=form.typed, seen=data["version"],  # type: ignore[attr-defined]
            failed=data["failed"], why_failed=data["why_failed"], why=data["why"],
        )  # fmt: skip
    except Stale as error:
        form.data = form.data.copy()  # type: ignore[attr-defined]
        form.data["version"] = str(error.current.version)  # type: ignore[attr-defined,union-attr,index]
        form.add_error(None, _("%(what)s Your text is still here: compare and save again.") % {"what": error})
    except records.Refused as error:
        field = "why_failed" if data["failed"] and not data["why_failed"].strip() else "why"
        form.add_error(field, str(error))
    return not form.errors


@allow("assistant", "photographer")
@require_POST
@entries.once
def add_photos(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """Save pictures of a set-up, as many as the phone sent; those that are none are named, the others go in."""
    plan, entry = setup_or_404(number, version, setup)
    sent = request.FILES.getlist("photos")[: set_photos.MOST_A_RECORD]
    if not sent:
        messages.error(request, _("Choose a picture first."))
        return redirect("record", number=number, version=version)
    try:
        kept, left_out = set_photos.keep(
            by=request.member, plan=plan, setup_name=str(entry["name"]),  # type: ignore[attr-defined]
            sent=(file.read(set_photos.MOST_A_FILE + 1) for file in sent),
        )  # fmt: skip
    except records.Refused as error:
        messages.error(request, str(error))
        return redirect("record", number=number, version=version)
    for place, why in left_out:
        words = _("Picture %(n)d was not saved: %(why)s") % {"n": place, "why": why}
        messages.add_message(request, messages.WARNING if kept else messages.ERROR, words)
    if kept:
        n = len(kept)
        messages.success(request, ngettext("%(n)d picture saved.", "%(n)d pictures saved.", n) % {"n": n})
    return redirect("record", number=number, version=version)


@allow("assistant", "photographer")
def photo(request: HttpRequest, number: str, version: int, pk: int) -> HttpResponse:
    """One picture of the set."""
    plan = plan_or_404(sitting_or_404(number), version)
    found = SetPhoto.objects.filter(record__plan=plan, pk=pk).first()
    try:
        body = set_photos.path_of(found).read_bytes() if found else b""
    except OSError:
        body = b""
    if not body:
        raise Http404
    return sending.jpeg(body, f"{number}-set-{pk}.jpg")


@allow("assistant", "photographer")
@require_POST
def take_photo_away(request: HttpRequest, number: str, version: int, pk: int) -> HttpResponse:
    """Take a picture away."""
    plan = plan_or_404(sitting_or_404(number), version)
    record = Record.objects.filter(plan=plan).first()
    if record is None:
        raise Http404
    try:
        set_photos.take_away(record=record, pk=pk)
    except records.Refused as error:
        messages.error(request, str(error))
    return redirect("record", number=number, version=version)
