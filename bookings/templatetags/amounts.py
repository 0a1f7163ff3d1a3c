"""Amounts in templates. Belongs here: how money is written on a page."""

from __future__ import annotations

from decimal import Decimal

from django import template

from bookings import prices, wording

register = template.Library()


@register.filter
def money(amount: Decimal | None, currency: str) -> str:
    """Nothing for what is not known."""
    return "" if amount is None else wording.money(amount, currency)


@register.filter
def figures(amount: Decimal | None, currency: str) -> str:
    """As it is typed into a field."""
    return "" if amount is None else str(prices.rounded(amount, currency))
