"""The lines of a day's arrivals as markup. Belongs here: one `<li>` for each sitting. Put together here and not by a
template, for every line says some twenty things and a full day has dozens of them; what lines have in common is said
once a page. Not here: what the lines say (`bookings.arrivals`)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from django import template
from django.urls import reverse
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe
from django.utils.timezone import get_current_timezone
from django.utils.translation import gettext as _

from bookings import wording
from bookings.arrivals import Arrival
from bookings.late import Late
from bookings.models import Stage
from bookings.templatetags.said import shaped

register = template.Library()


@register.simple_tag(takes_context=True)
def arrival_lines(context: Any, arrivals: Sequence[Arrival]) -> SafeString:
    """The lines in their order; each part is escaped below."""
    words = {
        "token": f'<input type="hidden" name="csrfmiddlewaretoken" value="{context["csrf_token"]}">',
        "zone": get_current_timezone(),
        "arrived": escape(_("Arrived")),
        "after_all": escape(_("Arrived after all")),
        "release": escape(_("Release and consents")),
        "board": escape(_("Board")),
    }
    return mark_safe("\n".join("".join(_line(one, words)) for one in arrivals))


def _line(one: Arrival, words: dict[str, Any]) -> Iterator[str]:
    row = one.sitting
    opens, name = reverse("sitting", args=[row.number]), f"<bdi>{escape(row.client.short_name)}</bdi>"
    at = wording.time(row.starts_at, words["zone"])
    yield f'<li id="{row.number}" class="arrival">\n<p class="first"><strong>{at}</strong> '
    yield f'<a class="name" href="{opens}">{name}</a> {shaped(one.stand)}</p>\n'
    yield f"<p>{row.number}, {escape(row.kind.name)}, {escape(row.room.name)}, {escape(row.photographer.short)}</p>\n"
    if not one.is_as_usual:
        yield f"<p>{escape(one.sentence)}</p>\n"
    if one.late:
        yield f'<p class="alert">{escape(_late(one.late, words["zone"]))} '
        yield f'<a class="pressed" href="{opens}">{escape(_("What can be done"))}</a></p>\n'
    yield f'<ul class="plain stands">{"".join(_stands(one))}</ul>\n'
    yield f'<div class="act">{_buttons(one, name, words)}</div>\n</li>'


def _late(late: Late, zone: Any) -> str:
    words = f"{late.said}."
    if late.is_no_show:
        return f"{words} {_('By the terms of this booking it may be called a no-show.')}"
    return f"{words} {_('A no-show from %(time)s on.') % {'time': wording.time(late.no_show_at, zone)}}"


def _stands(one: Arrival) -> Iterator[str]:
    for said, names in one.said:
        yield f"<li>{shaped(said)}: {escape(names)}</li>"
    yield f"<li>{shaped(one.money)}</li>"
    if one.needs:
        yield f"<li>{escape(_('Have ready: %(needs)s') % {'needs': ', '.join(one.needs)})}</li>"
    for person in one.waivers_asked:
        waiver = person.waiver
        assert waiver is not None  # it was asked for
        said = {"who": waiver.asked_by.name, "name": person.sitter.label, "why": waiver.asked_note}
        yield f"<li>{escape(_('%(who)s asks the owner to waive the release of %(name)s: %(why)s') % said)}</li>"


def _buttons(one: Arrival, name: str, words: dict[str, Any]) -> str:
    row, of = one.sitting, f'<span class="visually-hidden">: {name}</span>'
    found = ""
    if one.may_arrive:
        label = words["after_all" if row.stage == Stage.NO_SHOW else "arrived"]
        found = (
            f'<form method="post" action="{reverse("arrive", args=[row.number])}">{words["token"]}<input type="hidden" '
            f'name="seen" value="{row.version}"><button class="first">{label}{of}</button></form>\n'
        )
    found += f'<a class="button" href="{reverse("permissions", args=[row.number])}#release">{words["release"]}{of}</a>'
    if getattr(row, "rota", None):
        found += f' <a class="button" href="{reverse("rota_board", args=[row.number])}">{words["board"]}{of}</a>'
    return found
