"""A sitting's account. Belongs here: its lines and items, where it goes, quotes, invoices and receipts as papers and by
letter."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST

from bookings import accounts, bill_copies, wording
from bookings.actions import bill_letters, bills, outbox
from bookings.bill_copies import Bill
from bookings.forms.bills import DestinationForm, ItemCountForm, QuoteForm
from bookings.models import Charge, Invoice, Payment, Quote, Sitting
from bookings.refusals import Refusal
from bookings.views import sitting_page
from studio import clock, sending
from studio.access import allow, profile_of
from studio.models.versions import Stale

CHANGED = gettext_lazy(
    "Somebody else changed this sitting while you had it open. Nothing was saved; look at it and send it again."
)


@allow("front_desk", "owner")
def account(request: HttpRequest, number: str) -> HttpResponse:
    return _page(request, sitting_page.found(number))


def _page(request: HttpRequest, row: Sitting, *, status: int = 200, wrong: str = "", **forms: Any) -> HttpResponse:
    charges = row.charges.select_related("by", "corrects", "corrected_by", "item").prefetch_related("invoices")
    quotes, today = row.quotes.select_related("by", "accepted_by"), clock.today()
    said = {
        "sitting": row,
        "account": accounts.of(row),
        "charges": list(charges),
        "quotes": [(quote, quote.has_lapsed(today)) for quote in quotes],
        "invoices": row.invoices.select_related("by"),
        "to_invoice": any(not charge.invoices.all() for charge in charges),
        "wrong": wrong,
        "item_form": ItemCountForm(),
        "quote_form": QuoteForm(),
        "destination": DestinationForm(row),
    }
    return render(request, "bookings/account.html", said | forms, status=status)


@allow("front_desk", "owner")
@require_POST
def charge_item(request: HttpRequest, number: str) -> HttpResponse:
    row, form = sitting_page.found(number), ItemCountForm(request.POST)
    if form.is_valid():
        try:
            made = bills.charge_item(by=request.member, sitting=row, **form.cleaned_data)  # type: ignore[attr-defined]
        except Refusal as refusal:
            form.add_error("item", str(refusal))
        else:
            words = {"item": made.words, "amount": wording.money(made.amount, row.currency)}
            messages.success(request, _("%(item)s is charged: %(amount)s.") % words)
            return redirect("account", number)
    return _page(request, row, status=422, item_form=form)


@allow("front_desk", "owner")
@require_POST
def take_item_back(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    row = sitting_page.found(number)
    charge = get_object_or_404(Charge.objects.select_related("sitting"), sitting=row, pk=pk)
    note = request.POST.get("why", "").replace("\0", "")[:400]
    try:
        bills.take_item_back(by=request.member, charge=charge, note=note)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _page(request, row, status=422, wrong_charge={"pk": pk, "says": str(refusal)})
    messages.success(request, _("%(item)s is taken back.") % {"item": charge.words})
    return redirect("account", number)


@allow("front_desk", "owner")
@require_POST
def change_destination(request: HttpRequest, number: str) -> HttpResponse:
    row = sitting_page.found(number)
    form = DestinationForm(row, request.POST)
    if form.is_valid():
        try:
            bills.change_destination(by=request.member, sitting=row, **form.cleaned_data)  # type: ignore[attr-defined]
        except Stale:
            form.add_error("place", CHANGED)
        else:
            messages.success(request, _("Saved. What stands on no invoice yet is taxed for there."))
            return redirect("account", number)
    return _page(request, row, status=422, destination=form)


@allow("front_desk", "owner")
@require_POST
def make_quote(request: HttpRequest, number: str) -> HttpResponse:
    row, form = sitting_page.found(number), QuoteForm(request.POST)
    if form.is_valid():
        day = form.cleaned_data["valid_until"]
        try:
            made = bills.quote(
                by=request.member, sitting=row, wanted=form.wanted.wanted(), valid_until=day  # type: ignore[attr-defined]
            )
        except Refusal as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("%(number)s is made. Print it or send it.") % {"number": made})
            return redirect("account", number)
    return _page(request, row, status=422, quote_form=form)


@allow("front_desk", "owner")
@require_POST
def accept_quote(request: HttpRequest, number: str, quote: int) -> HttpResponse:
    row = sitting_page.found(number)
    found = get_object_or_404(Quote.objects.select_related("sitting"), sitting=row, number=quote)
    try:
        bills.accept(by=request.member, quote=found)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _page(request, row, status=422, wrong=str(refusal))
    messages.success(request, _("%(number)s is accepted: its items are charged at its prices.") % {"number": found})
    return redirect("account", number)


@allow("front_desk", "owner")
@require_POST
def make_invoice(request: HttpRequest, number: str) -> HttpResponse:
    row = sitting_page.found(number)
    try:
        made = bills.invoice(by=request.member, sitting=row)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _page(request, row, status=422, wrong=str(refusal))
    messages.success(request, _("%(number)s is made.") % {"number": made})
    return redirect("account", number)


@allow("front_desk", "owner")
def quote_pdf(request: HttpRequest, number: str, quote: int) -> HttpResponse:
    return _pdf(request, _bill(number, "quotes", quote))


@allow("front_desk", "owner")
def invoice_pdf(request: HttpRequest, number: str, invoice: int) -> HttpResponse:
    return _pdf(request, _bill(number, "invoices", invoice))


@allow("front_desk", "owner")
def receipt_pdf(request: HttpRequest, number: str, receipt: int) -> HttpResponse:
    return _pdf(request, _bill(number, "receipts", receipt))


@allow("front_desk", "owner")
@require_POST
def send_bill(request: HttpRequest, number: str, what: str, bill: int) -> HttpResponse:
    """A letter to the client with the paper in it; back to the page it was asked on."""
    found = _bill(number, what, bill)
    try:
        letter, is_new = bill_letters.send(by=request.member, bill=found)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _page(request, sitting_page.found(number), status=422, wrong=str(refusal))
    words = {"number": bill_copies.number_of(found), "to": letter.to}
    if not is_new:
        messages.success(request, _("A letter with %(number)s waits already; nothing is sent twice.") % words)
    elif letter.to and outbox.may_send():
        messages.success(request, _("%(number)s goes to %(to)s with the next letters.") % words)
    else:
        messages.success(request, _("A letter with %(number)s is among those to be printed, under Letters.") % words)
    page, part = ("sitting", "money") if "back" in request.POST else ("account", what)
    return redirect(f"{reverse(page, args=[number])}#{part}")


def _bill(number: str, what: str, pk: int) -> Bill:
    """One of the sitting's own papers, by its number."""
    if what == "quotes":
        return get_object_or_404(Quote.objects.select_related("sitting"), sitting__number=number, number=pk)
    if what == "invoices":
        return get_object_or_404(Invoice.objects.select_related("sitting"), sitting__number=number, number=pk)
    rows = Payment.objects.select_related("sitting__client", "by", "corrects")
    if what == "receipts":
        return get_object_or_404(rows, sitting__number=number, receipt=pk)
    raise Http404


def _pdf(request: HttpRequest, bill: Bill) -> HttpResponse:
    body, name = bill_copies.pdf(bill, profile_of(request)), f"{bill_copies.number_of(bill)}.pdf"
    return sending.pdf(body, name)
