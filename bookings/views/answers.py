"""Will you be there. Belongs here: the page behind the link in a letter, and an answer noted by the desk. Not here: the
link itself (`bookings.links`)."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from bookings import links
from bookings.actions import reminders
from bookings.forms.letters import AnswerForm
from bookings.refusals import Refusal
from bookings.views import sitting_page
from studio.access import allow
from studio.languages import as_house
from studio.models import Profile


@allow.anyone
@never_cache
@require_http_methods(["GET", "POST"])
def answer(request: HttpRequest, signed: str) -> HttpResponse:
    """Reading writes nothing: programs that follow every link in a letter answer for nobody."""
    asked, profile = links.read(signed), Profile.get()
    shown = {"profile": profile}
    if asked is None:
        return render(request, "bookings/answer_gone.html", shown, status=404)
    with as_house(profile):
        if not asked.stands:
            return render(request, "bookings/answer_gone.html", shown | {"sitting": asked.sitting}, status=410)
        form = AnswerForm(request.POST or None)
        kept = asked.sitting.answers.last()
        if request.method == "POST" and form.is_valid():
            try:
                kept = reminders.answer(sitting=asked.sitting, by=None, **form.cleaned_data)
            except Refusal:  # cancelled in this very moment
                return render(request, "bookings/answer_gone.html", shown | {"sitting": asked.sitting}, status=410)
            shown |= {"sitting": asked.sitting, "kept": kept, "done": True}
            return render(request, "bookings/answer.html", shown)
        status = 422 if request.method == "POST" else 200
        shown |= {"sitting": asked.sitting, "form": form, "kept": kept}
        return render(request, "bookings/answer.html", shown, status=status)


@allow("front_desk")
@require_POST
def note_answer(request: HttpRequest, number: str) -> HttpResponse:
    """What a client said on the telephone."""
    row, form = sitting_page.found(number), AnswerForm(request.POST)
    if not form.is_valid():
        return sitting_page.page(request, row, status=422, answer_form=form)
    try:
        kept = reminders.answer(sitting=row, by=request.member, **form.cleaned_data)  # type: ignore[attr-defined]
    except Refusal as refusal:
        form.add_error(None, str(refusal))
        return sitting_page.page(request, row, status=422, answer_form=form)
    messages.success(request, _("Saved: %(answer)s. No more reminders.") % {"answer": kept.get_what_display()})
    return redirect("sitting", number)
