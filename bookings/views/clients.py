"""Clients and kinds of sitting. Belongs here: their lists, one of them, a new one."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import Exists, OuterRef
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _

from bookings import afterwards, find, stages, wait_list
from bookings.forms.clients import ClientForm, KindForm
from bookings.models import Client, Kind, Sitter, Sitting
from bookings.models.prices import fee_on
from studio import clock
from studio.access import allow, profile_of
from studio.forms.versioned import VersionedForm

A_PAGE, MOST_FOUND = 50, 30


@allow("front_desk")
def clients(request: HttpRequest) -> HttpResponse:
    """All of them, a page at a time, or those who are meant by the `text` that was sent; the rows alone for the
    page's script."""
    text = request.POST.get("text", "").strip()
    if text:
        answer = find.clients(text, most=MOST_FOUND)
        shown = {"rows": answer.found, "more": answer.more, "text": text}
    else:
        page = Paginator(Client.objects.all(), A_PAGE).get_page(request.GET.get("page"))
        shown = {"rows": find.told(page.object_list), "page": page}
    name = "bookings/_client_rows.html" if request.headers.get("X-Fragment") else "bookings/clients.html"
    return render(request, name, shown)


@allow("front_desk")
def client(request: HttpRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(Client, pk=pk)
    peopled = Exists(Sitter.objects.filter(sitting=OuterRef("pk")))
    sittings = list(Sitting.objects.filter(client=row).with_people().annotate(peopled=peopled).reverse())
    afterwards.attach(sittings)
    booked = [(sitting, stages.sentence(sitting)) for sitting in sittings]
    more = {
        "booked": booked,
        "like": next((sitting for sitting in sittings if sitting.peopled), None),
        "letters": row.letters.with_names()[:50],
        "complaints": row.complaints.with_names(),
        "wanted": wait_list.lines(row.wanted_times.waiting().with_names()),
        "today": clock.today(),
    }
    return _form_page(request, ClientForm(request.POST or None, instance=row), "client", "clients", **more)


@allow("front_desk")
def new_client(request: HttpRequest) -> HttpResponse:
    return _form_page(request, ClientForm(request.POST or None, instance=Client()), "client", "clients")


@allow("owner")
def kinds(request: HttpRequest) -> HttpResponse:
    rows = Kind.objects.select_related("terms").prefetch_related("prices")
    today, currency = clock.today(), profile_of(request).currency
    kinds = [(row, fee_on(row, today)) for row in rows]
    return render(request, "bookings/kinds.html", {"kinds": kinds, "currency": currency})


@allow("owner")
def kind(request: HttpRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(Kind, pk=pk)
    return _kind_page(request, row)


@allow("owner")
def new_kind(request: HttpRequest) -> HttpResponse:
    return _kind_page(request, Kind())


def _kind_page(request: HttpRequest, row: Kind) -> HttpResponse:
    form = KindForm(request.POST or None, instance=row)
    panels = [import_string(path)(request, row) for path in settings.KIND_PANELS] if row.pk else []
    return _form_page(request, form, "kind", "kinds", currency=profile_of(request).currency, panels=panels)


def _form_page(request: HttpRequest, form: VersionedForm, noun: str, back_to: str, **more: object) -> HttpResponse:
    row = form.instance
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("%(name)s is saved.") % {"name": row.name})
        return redirect(back_to)
    return render(request, f"bookings/{noun}.html", {"form": form, noun: row, **more})
