"""Pages of the kit. Belongs here: the list everybody reads, one piece, and the owner's pages to add and mend."""

from __future__ import annotations

from itertools import groupby

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from studio import access
from studio.access import allow
from studio.forms.kit import form_for
from studio.models import KIT, KitItem
from studio.reading import facts


@allow(*access.EVERY_ROLE)
def kit(request: HttpRequest) -> HttpResponse:
    """All of it on one page, by section, in the order of the brief."""
    pieces = {name: list(rows) for name, rows in groupby(KitItem.objects.order_by("section", "code"), _section)}
    sections = [(KitItem.Section(name), pieces.get(name, [])) for name in KIT]
    return render(request, "studio/kit.html", {"sections": sections, "may_edit": _may_edit(request)})


@allow(*access.EVERY_ROLE)
def piece(request: HttpRequest, code: str) -> HttpResponse:
    row = _piece(code)
    return render(request, "studio/piece.html", {
        "piece": row, "facts": facts(row, access.profile_of(request).units), "may_edit": _may_edit(request),
    })


@allow("owner")
def new_piece(request: HttpRequest, section: str) -> HttpResponse:
    if section not in KIT:
        raise Http404
    return _page(request, KIT[section]())


@allow("owner")
def edit_piece(request: HttpRequest, code: str) -> HttpResponse:
    return _page(request, _piece(code))


def _page(request: HttpRequest, row: KitItem) -> HttpResponse:
    form = form_for(row.section)(request.POST or None, instance=row, units=access.profile_of(request).units)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("%(piece)s is saved.") % {"piece": row})
        return redirect("piece", code=row.code)
    return render(request, "studio/piece_form.html", {"form": form, "piece": row})


def _piece(code: str) -> KitItem:
    """The row with all its numbers, whatever kind it is."""
    base = get_object_or_404(KitItem, code=code)
    return get_object_or_404(KIT[base.section], pk=base.pk)


def _section(row: KitItem) -> str:
    return row.section


def _may_edit(request: HttpRequest) -> bool:
    member = access.member_of(request)
    return member is not None and member.has_role("owner")
