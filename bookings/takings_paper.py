"""The day's total on paper. Belongs here: what came in by how it was paid, each entry, and the cash counted. Not here:
adding it up (`takings`), the page and its blocks (`studio.paper`)."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from django.utils.translation import gettext as _

from bookings import takings, wording
from bookings.models import DayCount, Payment
from bookings.takings import Takings
from studio.models import Profile
from studio.paper import blocks
from studio.paper.blocks import Column
from studio.paper.page import PAPERS, Block, Document, Paper, space, write


def day(found: Takings, profile: Profile, printed_at: datetime) -> bytes:
    """One day as it stands now."""
    paper, on = PAPERS[profile.paper], wording.date(found.first)
    title = _("Money of %(day)s") % {"day": on}
    content = [
        blocks.head(title, [profile.studio_name], paper=paper),
        *(_by_method(found, profile.currency, paper) if found.payments else _nothing(paper)),
        space(3.0),
        blocks.section(_("Cash in the till"), paper),
        *_counts(found.counts, profile, paper),
        *_entries(found.payments, profile, paper),
        blocks.signature(_("counted by"), paper=paper),
    ]
    start, _end = takings.span(found.first, found.last, profile)
    printed = wording.moment_near(printed_at, start, profile.zone)
    foot = f"{title}   {_('printed')} {printed}"
    return write(Document(title, profile.studio_name, tuple(content), title, foot), paper)


def _nothing(paper: Paper) -> list[Block]:
    return blocks.paragraph(_("No money was entered."), paper=paper)


def _by_method(found: Takings, currency: str, paper: Paper) -> list[Block]:
    columns = (Column(_("How"), 4), Column(_("Entries"), 1.8, True), Column(_("Taken"), 3, True),
               Column(_("Refunded"), 3, True), Column(_("Together, %(c)s") % {"c": currency}, 3, True))  # fmt: skip
    rows = [
        (method, str(entries), *(wording.figures(amount, currency) for amount in amounts))
        for method, entries, *amounts in found.by_method
    ]
    rows.append((_("Together"), str(len(found.payments)), "", "", wording.figures(found.total, currency)))
    return blocks.table(columns, rows, bold_last=True, paper=paper)


def _counts(counts: Iterable[DayCount], profile: Profile, paper: Paper) -> list[Block]:
    rows = []
    for count in counts:
        amounts = {
            "counted": wording.money(count.counted, profile.currency),
            "expected": wording.money(count.expected, profile.currency),
        }
        words = [_("%(counted)s; by the entries %(expected)s") % amounts]
        if count.difference:
            words.append(_("! difference %(amount)s") % {"amount": wording.money(count.difference, profile.currency)})
        words += [count.note] if count.note else []
        who = _("%(at)s, %(name)s") % {"at": wording.time(count.at, profile.zone), "name": count.by.name}
        rows.append((who, "\n".join(words)))
    return blocks.facts(rows, paper=paper) if rows else blocks.paragraph(_("Not counted yet."), paper=paper)


def _entries(payments: Iterable[Payment], profile: Profile, paper: Paper) -> list[Block]:
    rows = [
        (
            payment.receipt_number,
            wording.time(payment.at, profile.zone),
            f"{payment.sitting.number} {payment.sitting.client}" + _taken_back(payment),
            f"{payment.get_kind_display()}, {payment.get_method_display()}",
            wording.figures(payment.amount, payment.sitting.currency),
        )
        for payment in payments
    ]
    if not rows:
        return []
    columns = (Column(_("Receipt"), 2.2), Column(_("Time"), 1.6), Column(_("Sitting"), 5.6), Column(_("For, how"), 3.6),
               Column(_("Amount"), 2.4, True))  # fmt: skip
    return [space(3.0), blocks.section(_("Entries"), paper), *blocks.table(columns, rows, paper=paper)]


def _taken_back(payment: Payment) -> str:
    if payment.corrects is None:
        return ""
    return "; " + _("takes %(receipt)s back") % {"receipt": payment.corrects.receipt_number}
