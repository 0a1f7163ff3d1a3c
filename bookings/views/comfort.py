"""Comfort notes of one sitter. Belongs here: read and mended by those who may, added to unread by the desk."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from bookings import intake_said, keeping
from bookings.access import may_mend_notes, may_read_notes
from bookings.actions import comfort
from bookings.forms.comfort import AddNotesForm, MendNotesForm, wishes_of
from bookings.models import NoteReading, Notes, Sitter
from studio.access import allow
from studio.models import Member, Role


@allow("photographer", "assistant", "front_desk")
def notes(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    sitter = get_object_or_404(
        Sitter.objects.select_related("sitting__client").with_what_is_known(), pk=pk, sitting__number=number
    )
    member = request.member  # type: ignore[attr-defined]
    if may_mend_notes(member, sitter.sitting):
        keeping.log(member, sitter.sitting, NoteReading.Where.NOTES, sitter=sitter)
        return _mend(request, sitter)
    if may_read_notes(member, sitter.sitting) and request.method == "GET":
        keeping.log(member, sitter.sitting, NoteReading.Where.NOTES, sitter=sitter)
        return render(request, "bookings/notes_read.html", _known(sitter))
    if member.has_role(Role.FRONT_DESK):
        return _add(request, sitter)
    return _refused(member, sitter)


@allow("front_desk", "photographer", "assistant", "owner")
def read_notes(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """What is known, to be read; whoever may not is refused, and that is noted."""
    sitter = get_object_or_404(Sitter.objects.select_related("sitting__client"), pk=pk, sitting__number=number)
    member = request.member  # type: ignore[attr-defined]
    if not may_read_notes(member, sitter.sitting):
        return _refused(member, sitter)
    keeping.log(member, sitter.sitting, NoteReading.Where.NOTES, sitter=sitter)
    return render(request, "bookings/notes_read.html", _known(sitter))


def _refused(member: Member, sitter: Sitter) -> HttpResponse:
    keeping.log(member, sitter.sitting, NoteReading.Where.NOTES, sitter=sitter, refused=True)
    raise PermissionDenied(
        _("Photographer and assistant read comfort notes from the booking until the set is struck; nobody else does.")
    )


def _mend(request: HttpRequest, sitter: Sitter) -> HttpResponse:
    kept = Notes.objects.filter(sitter=sitter).first() or Notes()
    kept.sitter = sitter
    form = MendNotesForm(request.POST or None, instance=kept)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("Notes of %(name)s are saved.") % {"name": sitter.label})
        return redirect("sitting", sitter.sitting.number)
    return render(request, "bookings/notes.html", {"form": form, "sitter": sitter, "own_words": intake_said.of(sitter)})


def _add(request: HttpRequest, sitter: Sitter) -> HttpResponse:
    form = AddNotesForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        added = {name: form.cleaned_data[name] for name in Notes.names()}
        comfort.add(sitter=sitter, notes=added, wishes=wishes_of(form.wishes))
        messages.success(request, _("What you wrote about %(name)s is saved.") % {"name": sitter.label})
        return redirect("sitting", sitter.sitting.number)
    return render(request, "bookings/notes.html", {"form": form, "sitter": sitter, "unread": True})


def _known(sitter: Sitter) -> dict[str, object]:
    """The notes as words, without what nobody asked."""
    row = Notes.objects.filter(sitter=sitter).first()
    facts = []
    for name in Notes.names() if row else []:
        value = getattr(row, name)
        if value is None or value == "":
            continue
        field = Notes._meta.get_field(name)
        if isinstance(value, bool):
            said = _("yes") if value else _("no")
        elif field.choices:
            said = getattr(row, f"get_{name}_display")()
        else:
            said = f"{value:g} {field.unit}"
        facts.append((field.verbose_name, said))
    return {
        "sitter": sitter, "facts": facts, "wishes": list(sitter.wishes.all()), "own_words": intake_said.of(sitter)
    }
