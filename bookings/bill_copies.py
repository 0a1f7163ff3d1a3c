"""Bills as files, for a screen, a printer or a letter: the same bytes for all three. Belongs here: reading a quote, an
invoice or a receipt out of its rows into its paper. Not here: the papers (`bill_paper`), making a bill (`actions`)."""

from __future__ import annotations

from decimal import Decimal

from django.utils import timezone

from bookings import bill_paper, wording
from bookings.models import Charge, Invoice, Payment, Quote
from studio import clock
from studio.models import Profile
from studio.paper.page import PAPERS

Bill = Quote | Invoice | Payment


def number_of(bill: Bill) -> str:
    """As it stands on the paper."""
    return bill.receipt_number if isinstance(bill, Payment) else str(bill)


def amount_of(bill: Bill) -> str:
    """What it is about, as money in words; what was refunded counts as what it is."""
    if isinstance(bill, Payment):
        return wording.money(abs(bill.amount), bill.sitting.currency)
    return wording.money(Decimal(bill.content["total"]), bill.content["currency"])


def pdf(bill: Bill, profile: Profile) -> bytes:
    paper = PAPERS[profile.paper]
    if isinstance(bill, Quote):
        return bill_paper.quote(str(bill), bill.content, wording.date(bill.valid_until), paper)
    if isinstance(bill, Invoice):
        return bill_paper.invoice(str(bill), bill.content, _paid_before(bill), paper)
    return bill_paper.receipt(_receipt(bill, profile), paper)


def _paid_before(bill: Invoice) -> str:
    before = Payment.objects.filter(sitting=bill.sitting, at__lte=bill.at)
    return wording.money(sum((p.amount for p in before), Decimal(0)), bill.sitting.currency)


def _receipt(found: Payment, profile: Profile) -> bill_paper.Receipt:
    """The payment, with the account as it stood then."""
    sitting = found.sitting
    charged = Charge.objects.filter(sitting=sitting, at__lte=found.at)
    paid = Payment.objects.filter(sitting=sitting, receipt__lte=found.receipt)
    return bill_paper.Receipt(
        number=found.receipt_number,
        client=sitting.client.name,
        sitting=sitting.number,
        kind=str(found.get_kind_display()),
        amount=found.amount,
        currency=sitting.currency,
        paid_on=wording.date(timezone.localdate(found.at, profile.zone)),
        method=str(found.get_method_display()),
        by=found.by.name,
        note=found.note,
        corrects=found.corrects.receipt_number if found.corrects else "",
        due=sum((c.amount for c in charged), Decimal(0)),
        paid=sum((p.amount for p in paid), Decimal(0)),
        studio=profile.studio_name,
        address=profile.address,
        tax_number=profile.tax_number,
        printed_at=wording.moment_near(clock.now(), found.at, profile.zone),
    )
