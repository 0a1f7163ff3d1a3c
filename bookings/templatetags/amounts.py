"""Amounts in templates. Belongs here: how money is written on a page."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import template

from bookings import accounts, prices, wording
from bookings.models import Sitting

register = template.Library()


@register.filter
def money(amount: Decimal | None, currency: str) -> str:
    """Nothing for what is not known."""
    return "" if amount is None else wording.money(amount, currency)


@register.filter
def amount(text: str, currency: str) -> str:
    """An amount as a frozen paper keeps it."""
    return wording.money(Decimal(text), currency)


@register.inclusion_tag("bookings/_balance.html")
def balance(sitting: Sitting) -> dict[str, Any]:
    """What is left to pay of a sitting, for each of its pages."""
    return {"account": accounts.of(sitting)}


@register.filter
def figures(amount: Decimal | None, currency: str) -> str:
    """As it is typed into a field."""
    return "" if amount is None else str(prices.rounded(amount, currency))
