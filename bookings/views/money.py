"""Money of a sitting. Belongs here: entering what was taken or refunded, and the counter-entry of a mistake."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import accounts, wording
from bookings.actions import money
from bookings.bill_refusals import EnteredMeanwhile
from bookings.forms.steps import DepositForm, PaymentForm
from bookings.models import Payment
from bookings.refusals import DepositMissing, NoteNeeded, Refusal, WrongTrust
from bookings.views import sitting_page
from studio import clock
from studio.access import allow
from studio.models import Role


@allow("front_desk", "owner")
@require_POST
def take_money(request: HttpRequest, number: str) -> HttpResponse:
    row = sitting_page.found(number)
    form = PaymentForm(accounts.of(row), request.POST)
    if form.is_valid():
        values = form.cleaned_data
        try:
            paid = money.take(
                by=request.member,  # type: ignore[attr-defined]
                sitting=row,
                kind=values["kind"],
                amount=values["amount"],
                method=values["method"],
                note=values["paid_note"],
                entries=values["entries"],
            )
        except EnteredMeanwhile as refusal:
            form.add_error(None, str(refusal))
            form.know(accounts.of(row))
        except Refusal as refusal:
            form.add_error("amount", str(refusal))
        else:
            words = {"receipt": paid.receipt_number, "amount": wording.money(abs(paid.amount), row.currency)}
            messages.success(request, _("%(receipt)s: %(amount)s is entered.") % words)
            return redirect("sitting", number)
    return sitting_page.page(request, row, status=422, payment=form)


@allow("front_desk", "owner")
@require_POST
def correct_payment(request: HttpRequest, number: str, receipt: int) -> HttpResponse:
    row = sitting_page.found(number)
    payment = get_object_or_404(Payment, sitting=row, receipt=receipt)
    note = request.POST.get("why", "").replace("\0", "")[:400]
    try:
        counter = money.correct(by=request.member, payment=payment, note=note)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return sitting_page.page(request, row, status=422, wrong_entry={"receipt": receipt, "says": str(refusal)})
    words = {"counter": counter.receipt_number, "receipt": payment.receipt_number}
    messages.success(request, _("%(counter)s takes %(receipt)s back.") % words)
    return redirect("sitting", number)


@allow("front_desk", "owner")
@require_POST
def answer_for_deposit(request: HttpRequest, number: str) -> HttpResponse:
    row = sitting_page.found(number)
    member = request.member  # type: ignore[attr-defined]
    form = DepositForm(row.version, request.POST, may_waive=member.has_role(Role.OWNER))
    if form.is_valid():
        values = form.cleaned_data
        try:
            kept = money.answer_for_deposit(
                by=member,
                sitting=row,
                seen=values["seen"],
                waive=values.get("waive", False),
                trust_until=values["trust_day"],
                note=values["deposit_note"],
            )
        except Refusal as refusal:
            form.add_error(_field_of(refusal), str(refusal))
        else:
            said = accounts.deposit_of(accounts.of(sitting_page.found(kept.number)), clock.today())
            messages.success(request, _("Deposit: %(words)s.") % {"words": said.words})
            return redirect("sitting", number)
    return sitting_page.page(request, row, status=422, deposit_answer=form)


def _field_of(refusal: Refusal) -> str | None:
    if isinstance(refusal, NoteNeeded):
        return "deposit_note"
    return "trust_day" if isinstance(refusal, WrongTrust | DepositMissing) else None
