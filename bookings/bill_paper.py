"""Bills on paper: quote, invoice and receipt. Belongs here: their pages. What they say is frozen content
(`bill_content`) or an entry that never changes; nothing here asks the database."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext as _

from bookings import bill_content, wording
from studio.paper import blocks
from studio.paper.blocks import Column
from studio.paper.page import A4, Block, Document, Paper, space, write


@dataclass(frozen=True)
class Receipt:
    """One payment as it is receipted, with the account as it stood then."""

    number: str
    client: str
    sitting: str
    kind: str
    amount: Decimal
    currency: str
    paid_on: str
    method: str
    by: str
    note: str
    corrects: str
    due: Decimal
    paid: Decimal
    studio: str
    address: str
    tax_number: str
    printed_at: str

    @property
    def balance(self) -> Decimal:
        return self.due - self.paid


def quote(number: str, content: dict[str, Any], valid_until: str, paper: Paper = A4) -> bytes:
    title = _("Quote %(number)s") % {"number": number}
    facts = [(_("Valid until"), valid_until)]
    deposit = Decimal(content["deposit"])
    if deposit:
        facts.append((_("Deposit on confirming"), wording.money(deposit, content["currency"])))
    return _bill(title, content, facts, paper)


def invoice(number: str, content: dict[str, Any], paid: str, paper: Paper = A4) -> bytes:
    return _bill(_("Invoice %(number)s") % {"number": number}, content, [(_("Paid when it was made"), paid)], paper)


def _bill(title: str, content: dict[str, Any], facts: list[tuple[str, str]], paper: Paper) -> bytes:
    under = [content["client"], f"{content['sitting']}, {content['kind']}, {content['day']}"]
    found = [
        blocks.head(title, under, from_whom=_from(content), paper=paper),
        *blocks.facts([(_("Date"), content["made_on"]), *facts, *_place(content)], paper=paper),
        space(2.0),
        *_lines(content, paper),
        space(2.0),
        *_taxes(content, paper),
    ]
    if content["terms"]:
        found += [blocks.section(_("Terms"), paper), *blocks.paragraph(content["terms"], paper=paper)]
    foot = f"{title}   {content['sitting']}"
    return write(Document(f"{title}, {content['client']}", content["studio"], tuple(found), title, foot), paper)


def _from(content: dict[str, Any]) -> list[str]:
    own = [content["studio"], *content["address"].splitlines(), content["telephone"], content["email"]]
    return [line for line in [*own, _numbered(content["tax_number"])] if line]


def _numbered(tax_number: str) -> str:
    return _("Tax number %(n)s") % {"n": tax_number} if tax_number else ""


def _place(content: dict[str, Any]) -> list[tuple[str, str]]:
    found = [(_("Goes to"), content["place"])] if content["place"] else []
    return found + ([(_("Exempt from tax"), content["exempt"])] if content["exempt"] else [])


def _lines(content: dict[str, Any], paper: Paper) -> list[Block]:
    columns = (Column(_("What for"), 7), Column(_("Each"), 2.6, True), Column(_("Tax in it"), 2.6, True),
               Column(_("Amount"), 2.8, True))  # fmt: skip
    currency = content["currency"]
    rows = []
    for one in content["lines"]:
        each = Decimal(one["base"]) / one["count"]
        name = f"{one['count']} x {one['label']}" if one["count"] > 1 else one["label"]
        numbers = (each, Decimal(one["tax"]), Decimal(one["amount"]))
        rows.append((name[:1].upper() + name[1:], *(wording.figures(number, currency) for number in numbers)))
    sums = (wording.figures(Decimal(content[name]), currency) for name in ("tax", "total"))
    rows.append((_("Together, %(currency)s") % {"currency": currency}, "", *sums))
    return blocks.table(columns, rows, bold_last=True, paper=paper)


def _taxes(content: dict[str, Any], paper: Paper) -> list[Block]:
    sums = [row for row in bill_content.by_tax(content) if row[0]]
    if not sums:
        return []
    columns = (Column(_("Tax"), 7), Column(_("Without"), 2.6, True), Column(_("Tax"), 2.6, True),
               Column(_("With"), 2.8, True))  # fmt: skip
    rows = [(name, *(wording.figures(value, content["currency"]) for value in values)) for name, *values in sums]
    return [*blocks.table(columns, rows, paper=paper), space(2.0)]


def receipt(found: Receipt, paper: Paper = A4) -> bytes:
    """What was paid or refunded, by whom and how, and what is left."""
    title = _("Receipt %(number)s") % {"number": found.number}
    own = [line for line in (found.studio, *found.address.splitlines(), _numbered(found.tax_number)) if line]
    who = _("Refunded to") if found.amount < 0 else _("Received from")
    amount = wording.money(abs(found.amount), found.currency)
    rows = [
        (_("Client") if found.corrects else who, found.client),  # a mistake met: no money went either way
        (_("Amount"), amount),
        (_("For"), f"{found.kind}, {found.sitting}"),
        (_("How"), found.method),
        (_("On"), found.paid_on),
        (_("Entered by"), found.by),
    ]
    rows += [(_("Takes back"), found.corrects)] if found.corrects else []
    rows += [(_("Note"), found.note)] if found.note else []
    left = _("To refund") if found.balance < 0 else _("Still to be paid")
    account = [
        (_("The sitting costs"), wording.money(found.due, found.currency)),
        (_("Paid with this"), wording.money(found.paid, found.currency)),
        (left, wording.money(abs(found.balance), found.currency)),
    ]
    content = [
        blocks.head(title, [f"{found.sitting}"], from_whom=own, paper=paper),
        *blocks.facts(rows, paper=paper),
        space(3.0),
        blocks.section(_("The account as it stood then"), paper),
        *blocks.facts(account, paper=paper),
    ]
    foot = f"{title}   {_('printed')} {found.printed_at}"
    return write(Document(f"{title}, {found.client}", found.studio, tuple(content), title, foot), paper)
