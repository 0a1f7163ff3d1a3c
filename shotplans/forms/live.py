"""What a hand sent of a set: the state it saw, one gesture of the drawing, or the values typed beside it.

Belongs here: bytes of a form into the planner's own changes, each fault as a sentence. Not here: what they do.
"""

from __future__ import annotations

from collections.abc import Iterable

from django.http import QueryDict
from django.utils.translation import gettext as _

from shotplans import live_page
from shotplans.live_rows import Cell
from shotplans.planner import by_hand
from shotplans.planner.forecast import Change
from shotplans.sheets import live
from studio import lengths

LONGEST_STATE, LONGEST = 20_000, 80


class Unreadable(ValueError):
    """What was sent makes no sense; str() is the sentence."""


def state(post: QueryDict) -> tuple[Change, ...]:
    """The changes the page had. Raises Unreadable."""
    text = post.get("changes", "")
    try:
        if len(text) > LONGEST_STATE:
            raise ValueError
        return live_page.read(text)
    except (ValueError, RecursionError):
        raise Unreadable(_("What was moved before could not be read, so it stands as the plan has it.")) from None


def gesture(post: QueryDict) -> Change | None:
    """One thing done on the drawing; None where nothing was. Raises Unreadable."""
    thing, key = post.get("thing", ""), post.get("key", "")
    if not thing:
        return None
    name, value, free = post.get("name", "")[:LONGEST], post.get("value", "")[:LONGEST], post.get("free") == "on"
    if key != "sheet":
        return Change(thing, name, key, value, free)
    try:
        view, x, y = value.split()
        right, other = live.place(post.get("ruler", ""), view, float(x), float(y))
    except ValueError:
        raise Unreadable(_("That place on the drawing could not be read.")) from None
    if view == live.SIDE:
        return Change(thing, name, "height_m", f"{other:.3f}", free)
    return Change(thing, name, by_hand.FLOOR, f"{right:.3f} {other:.3f}", free)


def typed(post: QueryDict, cells: Iterable[Cell], units: str) -> list[tuple[Change, str]]:
    """Every value typed otherwise than it stands, with its label; a length in the house's units."""
    found = []
    for cell in cells:
        text = post.get(cell.field)
        if text is None or text.strip() == cell.value:
            continue
        thing, name, key = cell.key
        found.append((Change(thing, name, key, _metric(text, key, units), post.get("free") == "on"), cell.label))
    return found


def _metric(text: str, key: str, units: str) -> str:
    """Metres where feet and inches were typed; what is no length goes on as it is, to be refused by its own words."""
    if units == "imperial" and key.endswith("_m") and key != "aim_m":  # chosen, and a place, not a length
        try:
            return f"{lengths.parse(text, units):.4f}"
        except lengths.NoLength:
            return text[:LONGEST]
    return text[:LONGEST]
