"""Bills as frozen content: the lines of a quote or an invoice with their sums, as JSON keeps them. Belongs here: what
is frozen and how it is added up. Not here: making one (`actions.bills`), its page (`bill_paper`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.utils import timezone

from bookings import wording
from bookings.models import Sitting
from studio.models import Profile

Line = dict[str, Any]


def line(*, base: Decimal, amount: Decimal, tax: Decimal, tax_percent: Decimal, **words: Any) -> Line:
    """One line; numbers as text, because JSON knows no exact ones."""
    numbers = {"base": base, "amount": amount, "tax": tax, "tax_percent": tax_percent}
    return words | {name: str(value) for name, value in numbers.items()}


def frozen(sitting: Sitting, lines: Sequence[Line], profile: Profile, at: datetime) -> dict[str, Any]:
    """Everything the paper says, so that it says so for ever."""
    agreed = sitting.agreed
    return {
        "client": sitting.client.name,
        "sitting": sitting.number,
        "kind": sitting.kind.name,
        "day": wording.date(timezone.localdate(sitting.starts_at, profile.zone)),
        "made_on": wording.date(timezone.localdate(at, profile.zone)),
        "currency": sitting.currency,
        "place": sitting.destination,
        "exempt": sitting.client.tax_exempt,
        "lines": list(lines),
        "total": str(total(lines)),
        "tax": str(sum((Decimal(one["tax"]) for one in lines), Decimal(0))),
        "deposit": str(sitting.deposit),
        "terms": agreed.words if agreed else "",
        "studio": profile.studio_name,
        "address": profile.address,
        "telephone": profile.telephone,
        "email": profile.email,
        "tax_number": profile.tax_number,
    }


def total(lines: Iterable[Line]) -> Decimal:
    return sum((Decimal(one["amount"]) for one in lines), Decimal(0))


def by_tax(content: dict[str, Any]) -> list[tuple[str, Decimal, Decimal, Decimal]]:
    """Name and percent of each tax with net, tax and gross of its lines, in the order of first standing there."""
    sums: dict[tuple[str, str], list[Decimal]] = {}
    for one in content["lines"]:
        kept = sums.setdefault((one["tax_words"], one["tax_percent"]), [Decimal(0), Decimal(0)])
        kept[0] += Decimal(one["amount"]) - Decimal(one["tax"])
        kept[1] += Decimal(one["tax"])
    named = ((tax_name(words, percent, content["exempt"]), net, tax) for (words, percent), (net, tax) in sums.items())
    return [(name, net, tax, net + tax) for name, net, tax in named]


def tax_name(words: str, percent: str, exempt: str) -> str:
    """ "Sales tax 7.25 %", "exempt, 123", or nothing where no rule held."""
    if not words:
        return ""
    number = f"{Decimal(percent).normalize():f}"
    return words if exempt and words.endswith(exempt) else f"{words} {number} %"
