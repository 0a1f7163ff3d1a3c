"""The blocks of a lane of the diary as markup. Belongs here: one `<li>` for each block. Put together here and not by a
template, for a full day has some hundred and fifty of them; what is said of a sitting is said once for all its lanes.
Not here: what the blocks are (`bookings.calendar`)."""

from __future__ import annotations

from typing import Any

from django import template
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from bookings.calendar import ROOM, Block, Day, Lane
from bookings.models import Sitting, Stage

register = template.Library()
TO = "\N{EN DASH}"


@register.simple_tag(takes_context=True)
def blocks_of(context: Any, lane: Lane) -> SafeString:
    """The lane's blocks in their order. Of the page it needs `day`, `words`, `may_book`, `changeable`, `in_week`,
    `stage_words` and `drawn`, which keeps what was said of a sitting for its next lane."""
    day: Day = context["day"]
    page = context.flatten() if not isinstance(context, dict) else context
    new = f"{page['new_sitting']}?{lane.asks}={lane.id}&amp;day={day.date:%Y-%m-%d}&amp;at="
    return mark_safe("\n".join(_block(block, lane, page, new) for block in lane.blocks))  # each part is escaped below


def _block(block: Block, lane: Lane, page: dict[str, Any], new: str) -> str:
    words = page["words"]
    if block.what == "gap":
        if not (page["may_book"] and block.bookable):
            return f'<li class="gap {block.place}"></li>'
        start, offered = block.start, block.start_offered
        inside = f'<a href="{new}{offered}" data-from="{start}">{escape(words["free"])} {escape(block.from_to)}</a>'
        return f'<li class="gap {block.place}">{inside}</li>'
    if block.what == "closed":
        said = block.words or words["closed" if lane.kind == ROOM else "off"]
        return f'<li class="closed {block.place}"><span>{escape(said)}{_times(block, page)}</span></li>'
    assert block.sitting is not None  # gaps and closed time aside, every block is a sitting's
    if block.what in ("sitting", "waiting"):
        return _sitting(block, block.sitting, page)
    is_setup = lane.kind == ROOM or lane.id == block.sitting.assistant_id
    said = words["strike" if block.what == "strike" else "setup" if is_setup else "before"]
    return f'<li class="around {block.place}"><span>{escape(said)}{_times(block, page)}</span></li>'


def _times(block: Block, page: dict[str, Any]) -> str:
    return "" if page.get("in_week") else f" {block.start}{TO}{block.end}"


def _sitting(block: Block, sitting: Sitting, page: dict[str, Any]) -> str:
    key = (sitting.pk, block.what)
    if key not in page["drawn"]:
        page["drawn"][key] = _said(sitting, block.what, page)
    opens, said, number, moves = page["drawn"][key]
    queue = " waiting" if block.what == "waiting" else " has-waiting" if block.has_waiting else ""
    when = block.start if page.get("in_week") else f"{block.start}{TO}{block.end}"
    return (
        f'<li class="sitting {sitting.stage}{queue} {block.place}"{number}>'
        f'{opens}<span class="when">{when}</span> {said}</a>{moves if block.rows > 2 else ""}</li>'
    )


def _said(sitting: Sitting, what: str, page: dict[str, Any]) -> tuple[str, str, str, str]:
    """What is the same in all lanes: its link, its name with number and stage, its mark and its handle to be moved."""
    name = escape(sitting.client.short_name)  # said whole when pointed at: a narrow lane cuts it
    opens = f'<a class="open" href="{reverse("sitting", args=[sitting.number])}" title="{name}">'
    stage = f"{sitting.number}, {page['stage_words'][sitting.stage]}{_hold(sitting, what, page)}"
    said = f"<b>{name}</b> <span>{escape(stage)}</span>"
    if not (page["may_book"] and sitting.stage in page["changeable"]):
        return opens, said, "", ""
    there, move = reverse("change_sitting", args=[sitting.number]), escape(page["words"]["move"])
    moves = f'<a class="move" href="{there}" tabindex="-1" aria-label="{move} {sitting.number}">{move}</a>'
    return opens, said, f' data-number="{sitting.number}"', moves


def _hold(sitting: Sitting, what: str, page: dict[str, Any]) -> str:
    hold = getattr(sitting, "hold", None) if sitting.stage == Stage.HELD else None
    if hold is None:
        return ""
    if what == "waiting":
        return ", " + _("place %(place)s behind %(first)s") % {"place": hold.place, "first": hold.behind.number}
    if hold.expires_at <= page["day"].now:
        return f", {page['words']['lapsed']}"
    return " " + _("until %(end)s") % {"end": date_format(localtime(hold.expires_at), "D j M, H:i")}
