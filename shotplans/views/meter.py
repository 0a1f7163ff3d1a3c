"""The meter round, one reading after another: where to stand, two keys, what to do where it is off."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from shotplans import round_page, workbench
from shotplans.actions import records
from shotplans.forms.camera_sets import CameraSetForm
from shotplans.models import CameraSet, Plan, Record
from shotplans.views.sittings import measures_of, plan_or_404, sitting_or_404
from studio import entries, on_set
from studio.access import allow
from studio.sent import whole

TENTHS = tuple(str(n) for n in range(10))


@allow("assistant", "photographer")
def meter_round(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """Where the round of a set-up goes on: its first step that is not read or is off."""
    plan = plan_or_404(sitting_or_404(number), version)
    found = round_page.round_of(plan, Record.objects.filter(plan=plan).first(), setup)
    if found is None:
        raise Http404
    return redirect("meter_step", number=number, version=version, setup=setup, step=found.first_open)


@allow("assistant", "photographer")
def step(
    request: HttpRequest,
    number: str,
    version: int,
    setup: int,
    step: int,
    asked_back: workbench.AskedBack | None = None,
    form: CameraSetForm | None = None,
) -> HttpResponse:
    """One step of the round, with its keys."""
    plan = plan_or_404(sitting_or_404(number), version)
    held = Record.objects.filter(plan=plan).first()
    found = round_page.here(plan, held, setup, step, measures_of(request), asked_back)
    if found is None:
        raise Http404
    sets = found.row.step["sets_camera"]
    context = {
        "plan": plan, "sitting": plan.sitting, "record": held, "here": found, "tenths": TENTHS,
        "camera": round_page.camera(plan, held, found.camera) if sets else None,
        "form": form or (_camera_form(found, held) if sets and found.row.reading else None),
    }  # fmt: skip
    return on_set.render(request, "shotplans/meter_step.html", context, status=422 if asked_back or form else 200)


def _camera_form(found: round_page.Here, held: Record | None) -> CameraSetForm:
    kept: CameraSet | None = round_page.newest_set(held, found.setup["name"])
    known = (
        {"f_number": f"{kept.f_number:g}", "shutter_s": f"{kept.shutter_s:.6g}", "iso": str(kept.iso)} if kept else {}
    )
    return CameraSetForm(camera=found.setup["camera"], initial=known)


@allow("assistant", "photographer")
@require_POST
@entries.once
def put_right(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """Say what was amiss; the same step is read again."""
    plan = plan_or_404(sitting_or_404(number), version)
    name, at = request.POST.get("setup", ""), whole(request.POST.get("step", ""), digits=3) or 0
    try:
        held = Record.objects.filter(plan=plan).first()
        if held is None or workbench.step_of(plan, name, at) is None:
            raise Http404
        records.put_right(
            by=request.member, record=held, setup_name=name, step=at, cause=request.POST.get("cause", ""),  # type: ignore[attr-defined]
        )  # fmt: skip
    except records.Refused as error:
        messages.error(request, str(error))
    return onwards(request, plan, name, at, stay=True)


@allow("assistant", "photographer")
@require_POST
@entries.once
def set_camera(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """Keep what the camera stands at, and judge it by the reading."""
    plan = plan_or_404(sitting_or_404(number), version)
    name, at = request.POST.get("setup", ""), whole(request.POST.get("step", ""), digits=3) or 0
    setup = plan.setup(name)
    if setup is None or workbench.step_of(plan, name, at) is None:
        raise Http404
    form = CameraSetForm(request.POST, camera=setup["camera"])
    if not form.is_valid():
        entries.say(request, *entries.faults(form))
        return step(request, number, version, plan.setups.index(setup) + 1, at, form=form)
    try:
        with records.opened(plan) as record:
            records.set_camera(by=request.member, record=record, setup_name=name, **form.cleaned_data)  # type: ignore[attr-defined]
    except records.Refused as error:
        messages.error(request, str(error))
    return onwards(request, plan, name, at, stay=True)


def onwards(request: HttpRequest, plan: Plan, setup_name: str, step: int, *, stay: bool = False) -> HttpResponse:
    """The next step of the round; the same where it is to stay or the reading is off; the test frame after the last."""
    number = setup_number(plan, setup_name)
    here = round_page.here(plan, Record.objects.filter(plan=plan).first(), number, step, measures_of(request))
    if here is None:
        return redirect("record", number=plan.sitting.number, version=plan.number)
    if not stay and not here.row.outside and not here.row.step["sets_camera"]:
        if here.after is None:
            return redirect("test_frame", number=plan.sitting.number, version=plan.number, setup=number)
        step = here.after.step["step"]
    return redirect("meter_step", number=plan.sitting.number, version=plan.number, setup=number, step=step)


def setup_number(plan: Plan, name: str) -> int:
    """The number of a set-up in its plan, as addresses have it."""
    return next((n for n, s in enumerate(plan.setups, 1) if s["name"] == name), 0)
