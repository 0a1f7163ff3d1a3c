"""A thing's row on a packing list. Belongs here: its one line, and the form of a thing nobody has touched, drawn once a
list since the others differ by the thing's name alone. Not here: the taps themselves (`shotplans/_packing_taps.html`).
"""

from __future__ import annotations

from typing import Any

from django import template
from django.template.loader import render_to_string
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from shotplans.packing_page import PackingList, Thing
from shotplans.templatetags.measures import mass

register = template.Library()
ITEM, ANCHOR = "__item__", "__anchor__"


@register.filter
def about(thing: Thing, units: str) -> str:
    """What it is for, its mass, its case and what it fits."""
    row = thing.row
    parts = [row.used_for, mass(row.mass_kg, units) if row.mass_kg else "", row.case or ""]
    if row.fits:
        parts.append(_("fits %(fits)s") % {"fits": row.fits})
    return " · ".join([parts[0], *filter(None, parts[1:])])


@register.simple_tag(takes_context=True)
def untouched_taps(context: dict[str, Any], packed: PackingList) -> SafeString:
    """The form of an open thing of this list, with marks where its name stands; empty where a ring is missing, for
    then a thing has taps of its own."""
    if packed.unproved:
        return mark_safe("")
    thing = {"row": {"item": ITEM}, "anchor": ANCHOR, "is_open": True}
    given = {"list": packed, "t": thing, "day": context["day"], "csrf_token": context["csrf_token"]}
    return mark_safe(render_to_string("shotplans/_packing_taps.html", given))


@register.filter
def named(taps: str, thing: Thing) -> SafeString:
    """That form for one thing: its item escaped, its anchor a slug, the rest escaped where it was put in."""
    return mark_safe(taps.replace(ITEM, escape(thing.row.item)).replace(ANCHOR, thing.anchor))
