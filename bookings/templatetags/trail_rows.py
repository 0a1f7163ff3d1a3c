"""The rows of the audit trail. Belongs here: drawing up to two hundred of them at once, each as seven cells, which
takes a fourth of what a template's nodes take. Not here: what they say (`bookings.audit`), the page around them.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from django import template
from django.urls import reverse
from django.utils import formats, timezone
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from bookings.audit import Row

register = template.Library()


@register.simple_tag
def trail_rows(rows: Iterable[Row]) -> SafeString:
    """Each row; on a telephone a cell says its column's name."""
    names = [escape(name) for name in (_("Who"), _("Sitting"), _("What"), _("From"), _("To"), _("Note"))]
    linked = cache(_link)
    found = []
    for row in rows:
        said = (row.who, None, row.what, row.before, row.after, row.note)
        cells = [linked(row.sitting) if text is None else escape(text) for text in said]
        drawn = "".join(f'<td data-label="{n}">{cell}</td>' for n, cell in zip(names, cells, strict=True))
        when = formats.date_format(timezone.localtime(row.at), "j M Y, H:i")
        found.append(f'<tr><th scope="row">{escape(when)}</th>{drawn}</tr>')
    return mark_safe("\n".join(found))  # each value was escaped where it was put in


def _link(number: str) -> str:
    return f'<a href="{escape(reverse("sitting", args=[number]))}">{escape(number)}</a>' if number else ""
