"""Pages of the kit. Belongs here: the list everybody reads, one piece, and the owner's pages to add and mend. Not
here: what is ticked on set (`views.tick`), lists and labels (`views.kit_lists`, `views.kit_labels`)."""

from __future__ import annotations

from itertools import groupby

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from studio import access, reading
from studio.access import allow
from studio.forms.kit import form_for
from studio.forms.kit_filter import KitFilter
from studio.models import KIT, KitItem

PAGE = 100
CHANGES = 20  # of its state, shown on the page of a piece


@allow(*access.EVERY_ROLE)
def kit(request: HttpRequest) -> HttpResponse:
    """What is asked for, by section, in the order of the brief, a hundred at a time."""
    form = KitFilter(request.GET or None)
    page = Paginator(form.pieces(), PAGE).get_page(request.GET.get("page", ""))
    asked = request.GET.copy()
    asked.pop("page", None)
    anything = bool(form.is_bound and form.is_valid() and any(form.cleaned_data.values()))
    shown = {
        "form": form, "page": page, "counts": form.counts(), "asked": asked.urlencode(), "anything": anything,
        "sections": [(KitItem.Section(name), list(rows)) for name, rows in groupby(page, lambda row: row.section)],
        "may_edit": may_edit(request),
    }  # fmt: skip
    return render(request, "studio/kit.html", shown, status=422 if form.errors else 200)


@allow(*access.EVERY_ROLE)
def piece(request: HttpRequest, code: str) -> HttpResponse:
    row, units = piece_or_404(code), access.on_screen(request).units
    return render(request, "studio/piece.html", {
        "piece": row, "facts": reading.facts(row, units), "kept": reading.kept(row, units),
        "changes": row.changes.select_related("by").order_by("-at", "-pk")[:CHANGES], "may_edit": may_edit(request),
    })  # fmt: skip


@allow("owner")
def new_piece(request: HttpRequest, section: str) -> HttpResponse:
    if section not in KIT:
        raise Http404
    return _page(request, KIT[section]())


@allow("owner")
def edit_piece(request: HttpRequest, code: str) -> HttpResponse:
    return _page(request, piece_or_404(code))


def _page(request: HttpRequest, row: KitItem) -> HttpResponse:
    units, by = access.on_screen(request).units, access.member_of(request)
    form = form_for(row.section)(request.POST or None, instance=row, units=units, by=by)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("%(piece)s is saved.") % {"piece": row})
        return redirect("piece", code=row.code)
    return render(request, "studio/piece_form.html", {"form": form, "piece": row})


def piece_or_404(code: str) -> KitItem:
    """The row with all its numbers, whatever kind it is."""
    base = get_object_or_404(KitItem, code=code)
    return get_object_or_404(KIT[base.section], pk=base.pk)


def may_edit(request: HttpRequest) -> bool:
    member = access.member_of(request)
    return member is not None and member.has_role("owner")
