"""Items, quotes and invoices of a sitting. Belongs here: charging and taking back an item, where it goes and so how it
is taxed, and papers about money frozen with a number, each in one transaction. Not here: payments (`actions.money`)."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import bill_content, wording
from bookings.actions import money
from bookings.bill_refusals import AcceptedAlready, NoPrice, NothingToBill, QuoteLapsed, TakenBackAlready
from bookings.models import Charge, Invoice, Item, ItemKind, NumberSeries, Quote, Sitting, SittingChange
from bookings.refusals import NoteNeeded
from studio import clock
from studio.models import Member, Profile, versions

What = SittingChange.What
Wanted = tuple[Item, int]


@transaction.atomic
def charge_item(*, by: Member, sitting: Sitting, item: Item, count: int) -> Charge:
    """Charge an item at the price of today. Refuses with `NoPrice`."""
    kept = _locked(sitting)
    line = _line(kept, item, count)
    return _charge(kept, line, by)


@transaction.atomic
def take_item_back(*, by: Member, charge: Charge, note: str) -> Charge:
    """Meet an item with a counter-entry. Refuses with `NoteNeeded`, `TakenBackAlready`."""
    kept = _locked(charge.sitting)
    if not note.strip():
        raise NoteNeeded
    if charge.what != Charge.What.ITEM or not money.standing(kept).filter(pk=charge.pk).exists():
        raise TakenBackAlready(charge.words)
    money.tell(kept, What.ITEM, before=charge.words, after=_("taken back"), by=by, note=note)
    return money.counter(charge, by=by, note=note.strip())


@transaction.atomic
def change_destination(*, by: Member, sitting: Sitting, place: str, seen: int) -> Sitting:
    """Send what is sold somewhere else: what stands on no invoice is taxed anew, what stands on one keeps its tax.

    Raises `Stale` where somebody else was faster.
    """
    kept = _locked(sitting)
    before, kept.destination = kept.destination, place
    versions.save(kept, seen=seen)
    if before == place:
        return kept
    money.tell(kept, What.DESTINATION, before=before or _("anywhere"), after=place or _("anywhere"), by=by)
    for charge in money.standing(kept).filter(invoices=None).select_related("item"):
        again = money.tax_of(kept, charge.item_kind, charge.base, keep_amount=charge.item_kind == ItemKind.CHANGE)
        if (again["tax"], again["amount"]) == (charge.tax, charge.amount):
            continue
        money.counter(charge, by=by, note=_("goes to %(place)s") % {"place": place or _("anywhere")})
        Charge.objects.create(
            sitting=kept, what=charge.what, item=charge.item, label=charge.label, count=charge.count, base=charge.base,
            place=place, at=clock.now(), by=by, note=charge.note, **again,
        )  # fmt: skip
    return kept


@transaction.atomic
def quote(*, by: Member, sitting: Sitting, wanted: Sequence[Wanted], valid_until: date) -> Quote:
    """Freeze what the sitting costs so far and with the items asked for. Refuses with `NoPrice`, `NothingToBill`."""
    kept = _locked(sitting)
    lines = [_of_charge(charge) for charge in money.standing(kept).select_related("item")]
    lines += [_line(kept, item, count) for item, count in wanted]
    if not lines:
        raise NothingToBill
    content = bill_content.frozen(kept, lines, Profile.get(), clock.now())
    number = NumberSeries.take("quotes")
    made = Quote.objects.create(
        sitting=kept, number=number, content=content, valid_until=valid_until, at=clock.now(), by=by
    )
    total = wording.money(Decimal(content["total"]), kept.currency)
    words = _("%(total)s, valid until %(day)s") % {"total": total, "day": wording.date(valid_until)}
    money.tell(kept, What.QUOTE, before=str(made), after=words, by=by)
    return made


@transaction.atomic
def accept(*, by: Member, quote: Quote) -> Quote:
    """Charge what a quote offers, at its own prices and taxes, whatever they are now.

    Refuses with `AcceptedAlready`, `QuoteLapsed`.
    """
    kept = _locked(quote.sitting)
    now = Quote.objects.select_for_update().get(pk=quote.pk)
    if now.accepted_at is not None:
        raise AcceptedAlready(str(now))
    if now.has_lapsed(timezone.localdate(clock.now(), Profile.get().zone)):
        raise QuoteLapsed(now)
    for line in now.lines:
        if line.get("item") and not line.get("charged"):
            _charge(kept, line, by, tell=False)
    now.accepted_at, now.accepted_by = clock.now(), by
    now.save(update_fields=["accepted_at", "accepted_by"])
    money.tell(kept, What.QUOTE, before=str(now), after=_("accepted"), by=by)
    return now


@transaction.atomic
def invoice(*, by: Member, sitting: Sitting) -> Invoice:
    """Put every charge that stands on no invoice yet on one, counter-entries too. Refuses with `NothingToBill`."""
    kept = _locked(sitting)
    charges = list(Charge.objects.filter(sitting=kept, invoices=None).select_related("item"))
    if not charges:
        raise NothingToBill
    content = bill_content.frozen(kept, [_of_charge(charge) for charge in charges], Profile.get(), clock.now())
    number = NumberSeries.take("invoices")
    made = Invoice.objects.create(sitting=kept, number=number, content=content, at=clock.now(), by=by)
    made.charges.set(charges)
    return made


def _locked(sitting: Sitting) -> Sitting:
    return Sitting.objects.select_for_update(of=("self",)).select_related("client", "kind").get(pk=sitting.pk)


def _line(sitting: Sitting, item: Item, count: int) -> dict[str, Any]:
    """An item as a line of a bill, at today's price and tax."""
    price = item.price_on(clock.today())
    if price is None:
        raise NoPrice(item.name)
    base = price * count
    found = money.tax_of(sitting, item.kind, base)
    return bill_content.line(
        what=Charge.What.ITEM, label=item.name, count=count, base=base, place=sitting.destination, item=item.pk, **found
    )


def _of_charge(charge: Charge) -> dict[str, Any]:
    found = bill_content.line(
        what=charge.what, label=charge.label or str(charge.get_what_display()), count=charge.count, base=charge.base,
        place=charge.place, item=charge.item_id, amount=charge.amount, tax=charge.tax,
        tax_percent=charge.tax_percent, tax_words=charge.tax_words,
    )  # fmt: skip
    return found | {"charged": True}


def _charge(sitting: Sitting, line: dict[str, Any], by: Member, tell: bool = True) -> Charge:
    numbers = {name: Decimal(line[name]) for name in ("base", "amount", "tax", "tax_percent")}
    made = Charge.objects.create(
        sitting=sitting, what=Charge.What.ITEM, item_id=line["item"], label=line["label"], count=line["count"],
        place=line["place"], tax_words=line["tax_words"], at=clock.now(), by=by, **numbers,
    )  # fmt: skip
    if tell:
        amount = wording.money(made.amount, sitting.currency)
        money.tell(sitting, What.ITEM, before=made.words, after=amount, by=by)
    return made
