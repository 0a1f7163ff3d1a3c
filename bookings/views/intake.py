"""The intake as its client meets it: by a link, with no sign-in, session or cookie. Belongs here: showing it, and
keeping each part as it is sent. What somebody answered is never shown again, for a link is handed on in a family;
consents and the release are, since they can be taken back. Not here: the studio's side (`intake_desk`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect, JsonResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.csrf import csrf_exempt

from bookings import intake_links, intake_paper, intake_questions, permissions
from bookings.actions import arrivals
from bookings.actions import intake as kept
from bookings.forms.intake import AnswersForm, ClientConsentsForm, SignForm
from bookings.models import How, Intake, Sitter
from bookings.permissions import Permission
from bookings.refusals import Refusal, WrongSignature
from bookings.stages import CHANGEABLE
from studio import clock
from studio.access import allow
from studio.languages import as_house
from studio.models import Profile


@csrf_exempt  # the address itself is the only key there is: no cookie could be misused
@allow.anyone
def intake(request: HttpRequest, signed: str) -> HttpResponse:
    profile = Profile.get()
    with as_house(profile):
        found = intake_links.read(signed)
        if found is None or intake_links.is_over(found, clock.now()):
            return _guarded(render(request, "bookings/intake_gone.html", {"studio": profile}, status=410))
        if request.method == "POST":
            return _guarded(_take(request, found, signed))
        return _guarded(_page(request, found))


@allow.anyone
def intake_copy(request: HttpRequest, signed: str) -> HttpResponse:
    """Release and consents as they stand, to keep. What was told for comfort is not in it."""
    profile = Profile.get()
    with as_house(profile):
        found = intake_links.read(signed)
        if found is None or intake_links.is_over(found, clock.now()):
            return _guarded(render(request, "bookings/intake_gone.html", {"studio": profile}, status=410))
        body = intake_paper.copy(found.sitting, profile)
    return _guarded(HttpResponse(body, content_type="application/pdf"))


def _guarded(answer: HttpResponse) -> HttpResponse:
    """Kept by no machine on the way, found by no search, and its address told to nobody."""
    answer["Cache-Control"] = "no-store"
    answer["Referrer-Policy"] = "no-referrer"
    answer["X-Robots-Tag"] = "noindex"
    return answer


def answer_forms(found: Intake, data: Any = None, sent: str = "") -> dict[str, AnswersForm]:
    """The questions by who they are about, the part that was sent with what it holds."""
    kind, sitters = found.sitting.kind, list(found.sitting.sitters.all())
    answers = list(found.answers.all())
    parts: list[Sitter | None] = [None, *sitters]
    made = {}
    for sitter in parts:
        key = str(sitter.pk) if sitter else "all"
        there = {one.question: one for one in answers if one.sitter_id == (sitter.pk if sitter else None)}
        own_age = "age" in there and not there["age"].apart
        asked = (
            intake_questions.of_sitter(kind, len(sitters), sitter, own_age=own_age) if sitter
            else intake_questions.of_sitting(kind, len(sitters))
        )  # fmt: skip
        questions = [one for one in asked if one.code in found.questions]
        made[key] = AnswersForm(questions, found.questions, sitter, there, data if sent == key else None)
    return made


def _take(request: HttpRequest, found: Intake, signed: str) -> HttpResponse:
    kept.opened(intake=found)
    part, who = request.POST.get("part", ""), request.POST.get("who", "")
    if part == "opened":
        return HttpResponse(status=204)
    rows = {str(row.sitter.pk): row for row in permissions.of_sitting(found.sitting)}
    if part == "answers" and found.sitting.stage in CHANGEABLE and (who == "all" or who in rows):
        form: forms.Form = answer_forms(found, request.POST, who)[who]
    elif part in ("consents", "sign") and who in rows:
        form = (ClientConsentsForm if part == "consents" else SignForm)(rows[who], request.POST)
    else:
        raise Http404
    if form.is_valid() and _kept(found, form):
        if request.headers.get("X-Fragment"):
            return JsonResponse({"kept": _("saved %(time)s") % {"time": _now()}})
        return HttpResponseRedirect(f"{reverse('intake', args=[signed])}?kept={part}-{who}#{part}-{who}")
    if request.headers.get("X-Fragment"):
        said = {form.add_prefix(name): " ".join(errors) for name, errors in form.errors.items()}
        return JsonResponse({"wrong": said}, status=422)
    return _page(request, found, part, who, form)


def _kept(found: Intake, form: Any) -> bool:
    """Whether it is kept; a refusal is said beside its field."""
    try:
        if isinstance(form, AnswersForm):
            kept.keep(intake=found, sitter=form.sitter, said=form.said, back=form.back)
        elif isinstance(form, SignForm):
            arrivals.sign(
                by=None, sitting=found.sitting, people=[form.row.sitter.pk], signature=form.signature, how=How.LINK,
                signed_on=timezone.localdate(clock.now()),
            )  # fmt: skip
        else:
            arrivals.answer(by=None, sitting=found.sitting, answers=form.answers, how=How.LINK)
    except WrongSignature as refusal:
        form.add_error(refusal.field if refusal.field in form.fields else None, str(refusal))
    except Refusal as refusal:
        form.add_error(None, str(refusal))
    return not form.errors


def _now() -> str:
    return f"{timezone.localtime(clock.now()):%H:%M}"


def _page(
    request: HttpRequest, found: Intake, part: str = "", who: str = "", sent: forms.Form | None = None
) -> HttpResponse:
    answers = answer_forms(found) if found.sitting.stage in CHANGEABLE else {}
    if part == "answers" and isinstance(sent, AnswersForm):
        answers[who] = sent
    people = []
    for row in permissions.of_sitting(found.sitting):
        key = str(row.sitter.pk)
        people.append({
            "row": row, "key": key, "answers": answers.get(key),
            "consents": sent if part == "consents" and who == key else ClientConsentsForm(row),
            "sign": None if row.is_signed else sent if part == "sign" and who == key else SignForm(row),
            "wording": _wording(row),
        })  # fmt: skip
    shown = {
        "intake": found, "sitting": found.sitting, "studio": Profile.get(), "about_all": answers.get("all"),
        "people": people, "signed": intake_links.signed(found), "kept": request.GET.get("kept", ""), "now": _now(),
        "wrong": sent is not None, "adult_years": permissions.ADULT_YEARS,
    }  # fmt: skip
    return render(request, "bookings/intake.html", shown, status=422 if sent is not None else 200)


def _wording(row: Permission) -> str:
    """What was signed, in its own words."""
    return row.release.wording if row.release else ""
