"""Words with a shape in templates. Belongs here: one way to write them, without a template of its own, for a day's
arrivals have a hundred."""

from __future__ import annotations

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from bookings.permissions import Said

register = template.Library()


@register.filter
def shaped(said: Said) -> SafeString:
    return mark_safe(f'<span class="said {said.shape}">{escape(said.words)}</span>')  # shapes are ours
