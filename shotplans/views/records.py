"""The record beside the plan: readings typed beside targets, what was changed, the signature."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from shotplans import workbench
from shotplans.actions import records
from shotplans.forms.records import ChangeForm
from shotplans.models import Plan, Record
from shotplans.records.readings import Unclear, parse_reading
from shotplans.views import meter
from shotplans.views.sittings import plan_or_404, sitting_or_404
from studio import entries, on_set
from studio.access import allow, on_screen
from studio.sent import whole


def _open(number: str, version: int) -> tuple[Plan, Record | None]:
    plan = plan_or_404(sitting_or_404(number), version)
    return plan, Record.objects.filter(plan=plan).first()


@allow("assistant", "photographer")
def current(request: HttpRequest, number: str) -> HttpResponse:
    """Where a sheet's code leads: the record of the plan that holds now."""
    plan = plan_or_404(sitting_or_404(number))
    return redirect("record", number=number, version=plan.number)


@allow("assistant", "photographer")
def sheet_code(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """Where a printed sheet's code leads: the record of its plan, or, where another plan holds now, that it is old."""
    plan = plan_or_404(sitting_or_404(number), version)
    if plan.superseded_at is None:
        return redirect("record", number=number, version=version)
    holds = plan_or_404(plan.sitting)
    return render(request, "shotplans/old_sheet.html", {"plan": plan, "holds": holds, "sitting": plan.sitting})


@allow("assistant", "photographer")
def record(
    request: HttpRequest,
    number: str,
    version: int,
    form: ChangeForm | None = None,
    asked_back: workbench.AskedBack | None = None,
) -> HttpResponse:
    """The meter round, the changes and the as-shot list of one plan."""
    plan, held = _open(number, version)
    units = on_screen(request).units
    context = {
        "plan": plan, "sitting": plan.sitting, "record": held, "rounds": workbench.rounds(plan, held, asked_back),
        "form": form or ChangeForm(setups=plan.setups), "as_shot": workbench.as_shot(held, units) if held else [],
        "set_ups": workbench.set_ups(plan, held),
    }  # fmt: skip
    return on_set.render(request, "shotplans/record.html", context, status=422 if form or asked_back else 200)


def _step_asked_for(request: HttpRequest, plan: Plan) -> workbench.Step | None:
    step = whole(request.POST.get("step", ""), digits=3)
    return None if step is None else workbench.step_of(plan, request.POST.get("setup", ""), step)


@allow("assistant", "photographer")
@require_POST
@entries.once
def reading(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """Keep one reading. Answers a script with the difference, a plain form with the page."""
    plan, _held = _open(number, version)
    found, text = _step_asked_for(request, plan), _typed(request)
    if found is None:
        return _answer(request, plan, {"error": _("The plan has no such reading.")})
    setup, step = found.setup_name, found.step["step"]
    try:
        parse_reading(text)  # what asks back waits for nobody's lock
        with records.opened(plan) as record_of_plan:
            kept = records.type_reading(
                by=request.member, record=record_of_plan, setup_name=setup, step=step, text=text,  # type: ignore[attr-defined]
                seen=entries.seen(request), came_in_at=entries.came_in(request),
            )  # fmt: skip
    except Unclear as error:
        if _wants_json(request):
            return _answer(request, plan, {"error": str(error)})
        entries.say(request, str(error))
        asked_back = workbench.AskedBack(setup, step, text, str(error))
        if in_round(request):
            return meter.step(request, number, version, meter.setup_number(plan, setup), step, asked_back)
        return record(request, number, version, asked_back=asked_back)
    except records.Refused as error:
        return _answer(request, plan, {"error": str(error)})
    if in_round(request):
        return meter.onwards(request, plan, setup, step)
    shown = workbench.Step(setup, found.step, found.off, kept)
    return _answer(request, plan, {"shown": shown.shown, "words": shown.words, "outside": shown.outside})


@allow("assistant", "photographer")
@require_POST
def preview(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """The difference of a reading that is still being typed; keeps nothing."""
    plan, _held = _open(number, version)
    found = _step_asked_for(request, plan)
    if found is None:
        return JsonResponse({"error": _("The plan has no such reading.")}, status=404)
    try:
        stops = parse_reading(request.POST.get("text", ""))
    except Unclear as error:
        # Half a reading is not a fault while it is being typed: a status of refusal would fill the log of the browser.
        return JsonResponse({"error": str(error)})
    return JsonResponse(workbench.compared(found, stops))


def _typed(request: HttpRequest) -> str:
    """A reading typed as text, or pressed as two keys: the whole stop and the tenth."""
    text = request.POST.get("text", "")
    if not text.strip() and "stop" in request.POST and "tenth" in request.POST:
        return f"{request.POST['stop']} {request.POST['tenth']}"
    return text


def in_round(request: HttpRequest) -> bool:
    """Whether a form was sent from a step of the round, which goes on there."""
    return request.POST.get("then") == "round" and not _wants_json(request)


def _wants_json(request: HttpRequest) -> bool:
    return request.headers.get("Accept") == "application/json"


def _answer(request: HttpRequest, plan: Plan, found: dict[str, object]) -> HttpResponse:
    if _wants_json(request):
        return JsonResponse(found, status=422 if "error" in found else 200)
    if "error" in found:
        messages.error(request, str(found["error"]))
    return redirect("record", number=plan.sitting.number, version=plan.number)


@allow("assistant", "photographer")
@require_POST
@entries.once
def change(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """Keep one difference from the plan."""
    plan, _held = _open(number, version)
    form = ChangeForm(request.POST, setups=plan.setups)
    if not form.is_valid():
        entries.say(request, *entries.faults(form))
        return record(request, number, version, form)
    data = form.cleaned_data
    planned = workbench.planned_value(plan, data["setup_name"], data["about"], data["what"])
    try:
        with records.opened(plan) as record_of_plan:
            records.note_change(by=request.member, record=record_of_plan, planned=planned, **data)  # type: ignore[attr-defined]
    except records.Refused as error:
        messages.error(request, str(error))
    step = whole(request.POST.get("step", ""), digits=3)
    if in_round(request) and step is not None:
        return meter.onwards(request, plan, data["setup_name"], step, stay=True)
    return redirect("record", number=number, version=version)


@allow("assistant", "photographer")
@require_POST
@entries.once
def sign(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """Close the record."""
    plan, _held = _open(number, version)
    try:
        with records.opened(plan) as record_of_plan:
            records.sign(by=request.member, record=record_of_plan)  # type: ignore[attr-defined]
    except records.Refused as error:
        messages.error(request, str(error))
    return redirect("record", number=number, version=version)
