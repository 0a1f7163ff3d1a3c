"""The studio's side of an intake. Belongs here: making and sending its link, its paper, entering what was filled in by
hand, and the wording of the release. Not here: the client's page (`intake`)."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import intake_links, intake_paper
from bookings.actions import intake as actions
from bookings.actions import letters
from bookings.forms.intake import WordingForm
from bookings.models import Intake, LetterKind, ReleaseWording, Sitting
from bookings.models.intake import wording_in_force
from bookings.views import sitting_page
from bookings.views.intake import answer_forms
from studio import sending
from studio.access import allow, profile_of
from studio.languages import as_house
from studio.models import Member


@allow("front_desk", "photographer")
@require_POST
def make_intake(request: HttpRequest, number: str) -> HttpResponse:
    """A new link, which ends every earlier one; sent where that was asked and there is an address."""
    row = sitting_page.found(number)
    made = actions.make_link(sitting=row)
    if "send" in request.POST and row.client.email:
        with as_house(profile_of(request)):
            _send(row, made, request.member, profile_of(request).studio_name)  # type: ignore[attr-defined]
        messages.success(request, _("The link goes to %(to)s with the next letters.") % {"to": row.client.email})
    else:
        messages.success(request, _("A new link is made; earlier ones no longer open."))
    return redirect("sitting", number)


def _send(row: Sitting, made: Intake, by: Member, studio: str) -> None:
    body = _(
        "Dear %(name)s,\n\nbefore your sitting %(number)s we would like to ask a few questions, so that light, seats "
        "and time suit you. Answer what you like and leave the rest; it is saved as you go, and you may come back:\n\n"
        "%(link)s\n\nConsents and the release are on the same page. Whoever has this link can answer, so please hand "
        "it on only to those who sit with you.\n\n%(studio)s"
    ) % {
        "name": row.client.name, "number": row.number, "link": intake_links.address(made), "studio": studio,
    }  # fmt: skip
    subject = _("A few questions before your sitting %(number)s") % {"number": row.number}
    letters.write(sitting=row, kind=LetterKind.INTAKE, to=row.client.email, subject=subject, body=body, by=by)


@allow("front_desk", "photographer")
def enter_intake(request: HttpRequest, number: str) -> HttpResponse:
    """What a sitter wrote on paper, entered unread afterwards like every comfort note."""
    row = sitting_page.found(number)
    who = request.POST.get("who", "")
    found = Intake.objects.filter(sitting=row).first()
    if found is None:
        if request.method != "POST":
            return render(request, "bookings/intake_enter.html", {"sitting": row, "parts": []})
        actions.for_paper(sitting=row)
        return redirect("enter_intake", number)
    shown = answer_forms(found, request.POST if request.method == "POST" else None, who)
    form = shown.get(who)
    if request.method == "POST" and form is not None and form.is_valid():
        count = actions.keep(intake=found, sitter=form.sitter, said=form.said, back=form.back, by=request.member)  # type: ignore[attr-defined]
        if count:
            messages.success(request, _("Saved: on paper, entered by %(who)s.") % {"who": request.member.short})  # type: ignore[attr-defined]
        return redirect("enter_intake", number)
    wrong = form is not None and bool(form.errors)
    context = {"sitting": row, "parts": list(shown.items()), "wrong": wrong}
    return render(request, "bookings/intake_enter.html", context, status=422 if wrong else 200)


@allow("front_desk", "photographer")
def intake_sheet(request: HttpRequest, number: str) -> HttpResponse:
    """The same questions, consents and release to fill in by hand."""
    return sending.pdf(intake_paper.blank(sitting_page.found(number), profile_of(request)), f"{number}-questions.pdf")


@allow("front_desk", "photographer", "owner")
def release_copy(request: HttpRequest, number: str) -> HttpResponse:
    return sending.pdf(intake_paper.copy(sitting_page.found(number), profile_of(request)), f"{number}-release.pdf")


@allow("owner")
def release_wording(request: HttpRequest) -> HttpResponse:
    """The words of the release; a change is a new version, signatures keep the words they were given to."""
    version, words = wording_in_force()
    form = WordingForm(request.POST or None, initial={"words": words})
    if request.method == "POST" and form.is_valid():
        made = actions.word_release(by=request.member, words=form.cleaned_data["words"])  # type: ignore[attr-defined]
        messages.success(request, _("Version %(version)d is in force from now on.") % {"version": made.version})
        return redirect("release_wording")
    shown = {"form": form, "version": version, "earlier": ReleaseWording.objects.select_related("by")}
    return render(request, "bookings/release_wording.html", shown)
