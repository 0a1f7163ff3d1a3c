"""Bills by letter. Belongs here: writing the letter that a quote, an invoice or a receipt goes with. Not here: making
one (`bills`, `money`), its paper (`bookings.bill_copies`), how the owner words the letter (`wordings`)."""

from __future__ import annotations

from datetime import datetime
from datetime import time as time_of_day

from django.db import transaction
from django.utils import timezone

from bookings import bill_copies, correspondence, wording
from bookings.actions import letters
from bookings.actions.letters import Enclosed
from bookings.bill_copies import Bill
from bookings.bill_refusals import QuoteLapsed
from bookings.models import Invoice, Letter, LetterKind, Quote, Sitting
from studio import clock
from studio.languages import as_house
from studio.models import Member, Profile


@transaction.atomic
def send(*, by: Member, bill: Bill) -> tuple[Letter, bool]:
    """A letter to the client with the bill's paper in it, and whether it is new: one that waits with the same paper for
    the same address is not written twice. Without an address it waits for a printer. Refuses with `QuoteLapsed`.
    """
    kept = Sitting.objects.select_for_update(of=("self",)).with_people().get(pk=bill.sitting_id)
    profile = Profile.get()
    if isinstance(bill, Quote) and bill.has_lapsed(timezone.localdate(clock.now(), profile.zone)):
        raise QuoteLapsed(bill)
    name, to = f"{bill_copies.number_of(bill)}.pdf", kept.client.email
    waiting = Letter.objects.waiting().filter(sitting=kept, to=to, attachments__name=name).first()
    if waiting is not None:
        return waiting, False
    with as_house(profile):
        text = correspondence.compose(kind_of(bill), kept, profile, more=blanks_of(bill))
        enclosed = Enclosed(name, "application/pdf", bill_copies.pdf(bill, profile))
    written = letters.write(
        sitting=kept, kind=kind_of(bill), to=to, subject=text.subject, body=text.body, attachments=[enclosed], by=by,
        useless_at=_end(bill, profile),
    )  # fmt: skip
    return written, True


def kind_of(bill: Bill) -> str:
    if isinstance(bill, Quote):
        return LetterKind.QUOTE
    return LetterKind.INVOICE if isinstance(bill, Invoice) else LetterKind.RECEIPT


def blanks_of(bill: Bill) -> dict[str, str]:
    return {
        "bill.number": bill_copies.number_of(bill),
        "bill.amount": bill_copies.amount_of(bill),
        "bill.until": wording.date(bill.valid_until) if isinstance(bill, Quote) else "",
    }


def _end(bill: Bill, profile: Profile) -> datetime | None:
    """A quote that is out of date is not sent any more."""
    if not isinstance(bill, Quote) or bill.accepted_at is not None:
        return None
    return datetime.combine(bill.valid_until, time_of_day.max, profile.zone)
