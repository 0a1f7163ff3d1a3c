"""Money of a sitting. Belongs here: taking and refunding money, charging what was agreed, and the deposit that makes
a hold firm, each in one transaction. Nothing here changes an entry. Not here: adding up (`bookings.accounts`)."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import accounts, prices, taxes, wording
from bookings.actions import correspondence, holds
from bookings.bill_refusals import EnteredMeanwhile
from bookings.models import (
    Charge,
    NumberSeries,
    Payment,
    Sitting,
    SittingChange,
    Stage,
    StageChange,
    TaxRule,
    Trust,
)
from bookings.models.sittings import FIRM
from bookings.refusals import (
    CorrectedAlready,
    DepositMissing,
    FeeNeedsNote,
    FeeToAgree,
    MovedMeanwhile,
    NoteNeeded,
    NothingMissing,
    OwnerOnly,
    WrongAmount,
    WrongTrust,
)
from studio import clock
from studio.models import Member, Profile, Role

What = Charge.What


@transaction.atomic
def take(
    *, by: Member, sitting: Sitting, kind: str, amount: Decimal, method: str, note: str = "", entries: int | None = None
) -> Payment:
    """Enter money taken or refunded, with the next receipt. The deposit makes a hold firm.
    `entries` is how many the page showed: two desks should not both enter one payment unseen.

    Refuses with `EnteredMeanwhile`, `WrongAmount`.
    """
    kept = Sitting.objects.select_for_update(of=("self",)).with_people().get(pk=sitting.pk)
    account = accounts.of(kept)
    if entries is not None and entries < len(account.payments):
        raise EnteredMeanwhile(account.payments[entries:], account.currency)
    _check(account, kind, amount)
    signed = -amount if kind == Payment.Kind.REFUND else amount
    receipt = NumberSeries.take("receipts")
    paid = Payment.objects.create(
        sitting=kept, receipt=receipt, kind=kind, amount=signed, method=method, at=clock.now(), by=by, note=note.strip()
    )
    if account.paid + signed >= account.deposit > 0:
        _make_firm(kept, paid, by)
    return paid


@transaction.atomic
def correct(*, by: Member, payment: Payment, note: str) -> Payment:
    """Meet a mistaken entry with the same amount the other way round, on a receipt of its own.

    Refuses with `NoteNeeded`, `CorrectedAlready`.
    """
    Sitting.objects.select_for_update().get(pk=payment.sitting_id)
    if not note.strip():
        raise NoteNeeded
    if payment.corrects_id is not None or Payment.objects.filter(corrects=payment).exists():
        raise CorrectedAlready(payment.receipt_number)
    return Payment.objects.create(
        sitting_id=payment.sitting_id,
        receipt=NumberSeries.take("receipts"),
        kind=payment.kind,
        amount=-payment.amount,
        method=payment.method,
        at=clock.now(),
        by=by,
        note=note.strip(),
        corrects=payment,
    )


def open_account(sitting: Sitting, *, by: Member) -> None:
    if sitting.fee:
        _charge(sitting, What.FEE, sitting.fee, by)


def charge_step(
    sitting: Sitting, what: str, by_terms: Decimal, *, by: Member, agreed: Decimal | None, note: str
) -> None:
    """Charge what moving, cancelling or staying away costs, and keep what was agreed in the history.

    Refuses with `FeeToAgree` where it costs something and nothing was agreed, `FeeNeedsNote`, `WrongAmount`.
    """
    label = str(What(what).label)
    if agreed is None and by_terms:
        raise FeeToAgree(label, by_terms, sitting.currency)
    if agreed is not None and (agreed < 0 or agreed != prices.rounded(agreed, sitting.currency)):
        raise WrongAmount(_("Give the fee in whole coins, nothing or more."))
    fee = agreed or Decimal(0)
    if fee != by_terms and not note.strip():
        raise FeeNeedsNote(by_terms, sitting.currency)
    if fee or by_terms:
        _charge(sitting, what, fee, by)
        words = wording.money(fee, sitting.currency)
        if fee != by_terms:
            words = _("%(fee)s; by the terms %(by_terms)s") % {
                "fee": words, "by_terms": wording.money(by_terms, sitting.currency)
            }  # fmt: skip
        tell(sitting, SittingChange.What.FEE, before=label, after=words, by=by, note=note)


def charge_fee_again(sitting: Sitting, *, by: Member) -> None:
    """Somebody came after all: the fee of the sitting instead of that of a no-show."""
    _take_back(sitting, What.NO_SHOW, by)
    open_account(sitting, by=by)


def take_fee_back(sitting: Sitting, *, by: Member) -> None:
    """Nobody sits: the fee of the sitting itself is not due."""
    _take_back(sitting, What.FEE, by)


def secure_deposit(
    sitting: Sitting, *, by: Member, waive: bool, trust_until: date | None, note: str
) -> None:
    """See that the deposit is there before a hold is firm, or that somebody answers for it.

    Refuses with `DepositMissing`, `OwnerOnly`, `NoteNeeded`, `WrongTrust`.
    """
    earlier = accounts.trust_of(sitting)
    missing = accounts.of(sitting).deposit_missing
    if not missing:
        return
    if waive:
        if not by.has_role(Role.OWNER):
            raise OwnerOnly
        if not note.strip():
            raise NoteNeeded
        words, until = _("waived"), None
    elif trust_until is not None:
        zone, now = Profile.get().zone, clock.now()
        if not timezone.localdate(now, zone) <= trust_until <= timezone.localdate(sitting.starts_at, zone):
            raise WrongTrust
        words, until = _("on trust until %(day)s") % {"day": wording.date(trust_until)}, trust_until
    else:
        raise DepositMissing(sitting, missing)
    Trust.objects.filter(sitting=sitting).delete()
    Trust.objects.create(sitting=sitting, until=until, at=clock.now(), by=by, note=note.strip())
    before = _("on trust until %(day)s") % {"day": wording.date(earlier.until)} if earlier and earlier.until else ""
    tell(sitting, SittingChange.What.DEPOSIT, before=before, after=words, by=by, note=note)


@transaction.atomic
def answer_for_deposit(
    *, by: Member, sitting: Sitting, seen: int, waive: bool, trust_until: date | None, note: str
) -> Sitting:
    """Wait longer for the deposit of a sitting that is firm already, or waive it.

    Refuses with `MovedMeanwhile`, `NothingMissing`, `DepositMissing`, `OwnerOnly`, `NoteNeeded`, `WrongTrust`.
    """
    kept = Sitting.objects.select_for_update(of=("self",)).with_people().get(pk=sitting.pk)
    if kept.version != seen:
        raise MovedMeanwhile(kept)
    if not is_waited_for(kept, accounts.of(kept)):
        raise NothingMissing(kept)
    secure_deposit(kept, by=by, waive=waive, trust_until=trust_until, note=note)
    kept.version += 1
    kept.save(update_fields=["version"])
    return kept


def is_waited_for(sitting: Sitting, account: accounts.Account) -> bool:
    """Whether a deposit is still missing from a sitting that is firm and not photographed yet."""
    trust = accounts.trust_of(sitting)
    waived = trust is not None and trust.waived
    return sitting.stage in FIRM and bool(account.deposit_missing) and not waived


def _check(account: accounts.Account, kind: str, amount: Decimal) -> None:
    currency = account.currency
    if amount <= 0 or amount != prices.rounded(amount, currency):
        raise WrongAmount(_("Give an amount in whole coins, more than nothing."))
    if kind == Payment.Kind.REFUND and amount > account.paid:
        raise WrongAmount(
            _("Only %(paid)s was paid: no more can be refunded.")
            % {"paid": wording.money(max(account.paid, Decimal(0)), currency)}
        )


def _make_firm(sitting: Sitting, paid: Payment, by: Member) -> None:
    """The deposit is there: a first hold is confirmed, and nobody answers for it any more."""
    Trust.objects.filter(sitting=sitting, until__isnull=False).delete()
    hold = holds.of(sitting)
    if sitting.stage != Stage.HELD or hold is None or hold.waits:
        return
    holds.end(sitting)
    sitting.stage = Stage.CONFIRMED
    sitting.version += 1
    sitting.save(update_fields=["stage", "version"])
    note = _("deposit, receipt %(receipt)s") % {"receipt": paid.receipt_number}
    StageChange.objects.create(
        sitting=sitting, at=clock.now(), by=by, stage_from=Stage.HELD, stage_to=Stage.CONFIRMED, note=note
    )
    correspondence.confirm(sitting, by=by)


def _charge(sitting: Sitting, what: str, amount: Decimal, by: Member) -> None:
    """The fee of the sitting by its rule of tax; what a change costs was agreed and is paid as it is."""
    found = tax_of(sitting, Charge(what=what).item_kind, amount, keep_amount=what != What.FEE)
    Charge.objects.create(
        sitting=sitting, what=what, base=amount, place=sitting.destination, at=clock.now(), by=by, **found
    )


def tax_of(sitting: Sitting, item_kind: str, base: Decimal, *, keep_amount: bool = False) -> dict[str, Any]:
    """The columns of a charge that its tax decides, by the rules of today for where the sitting's pictures go."""
    rules = [row.as_rule() for row in TaxRule.objects.filter(item_kind=item_kind, place__in=(sitting.destination, ""))]
    exempt = sitting.client.tax_exempt
    words = _("exempt, %(number)s") % {"number": exempt} if exempt else ""
    rule = taxes.rule_on(rules, item_kind, sitting.destination, clock.today())
    found = taxes.taxed(base, rule, sitting.currency, exempt=words, keep_amount=keep_amount)
    return {"amount": found.amount, "tax": found.tax, "tax_percent": found.percent, "tax_words": found.words}


def counter(charge: Charge, *, by: Member, note: str = "") -> Charge:
    """Meet a charge with the same the other way round."""
    return Charge.objects.create(
        sitting_id=charge.sitting_id, what=charge.what, item_id=charge.item_id, label=charge.label, count=charge.count,
        base=-charge.base, amount=-charge.amount, tax=-charge.tax, tax_percent=charge.tax_percent,
        tax_words=charge.tax_words, place=charge.place, at=clock.now(), by=by, note=note, corrects=charge,
    )  # fmt: skip


def standing(sitting: Sitting) -> QuerySet[Charge]:
    """Charges that hold: not taken back, and taking nothing back."""
    return Charge.objects.filter(sitting=sitting, corrects=None, corrected_by=None)


def _take_back(sitting: Sitting, what: str, by: Member) -> None:
    for charge in standing(sitting).filter(what=what):
        counter(charge, by=by)


def tell(sitting: Sitting, what: str, *, before: str, after: str, by: Member, note: str = "") -> None:
    """Keep in the sitting's history what of its money was agreed or changed."""
    SittingChange.objects.create(
        sitting=sitting, at=clock.now(), by=by, what=what, before=before, after=after, note=note.strip()
    )
