"""A planner's sentences and numbers in the studio's own measures. Belongs here: filters for the light's templates."""

from __future__ import annotations

from django import template

from shotplans.sheets import measures

register = template.Library()


@register.filter
def mass(kilograms: float, units: str) -> str:
    """A mass as the studio writes it."""
    return measures.of(units or "metric").mass(round(kilograms, 1))


@register.filter
def measured(sentence: str, units: str) -> str:
    """The sentence with its metres written as the studio writes them."""
    return measures.of(units or "metric").said(str(sentence))
