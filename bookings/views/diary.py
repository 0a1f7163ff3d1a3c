"""The diary. Belongs here: a day and a week of the house on a page. Not here: moving a sitting in it (`moves`), finding
a free time (`gaps`)."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from itertools import pairwise
from math import ceil
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from bookings import calendar, stages
from bookings.access import may_book
from bookings.calendar import Day, Lane
from bookings.models import Stage
from studio import clock
from studio.access import EVERY_ROLE, allow, member_of
from studio.days import day_of

LANES_A_SHEET = 10  # on paper, more beside each other are too narrow for a name
BOTH, ROOMS, PEOPLE = "both", "rooms", "people"
LANE_WORDS = {  # looked up once a page, not once a block
    "free": _("free"),
    "closed": _("closed"),
    "off": _("off"),
    "setup": _("set-up"),
    "before": _("before"),
    "strike": _("strike"),
    "lapsed": _("the hold lapsed"),
    "move": _("Move"),
}
WORDS = {BOTH: _("Rooms and people"), ROOMS: _("Rooms"), PEOPLE: _("People")}


@allow(*EVERY_ROLE)
def diary(request: HttpRequest) -> HttpResponse:
    on, by = day_of(request), _by(request, BOTH)
    day = calendar.day(on, now=clock.now())
    shown = {
        "day": day,
        "sheets": sheets_of(_lanes(day, by)),
        "before": on - timedelta(days=1),
        "after": on + timedelta(days=1),
        "choices": [(name, words, name == by) for name, words in WORDS.items()],
    }
    return _page(request, "bookings/diary.html", by, shown)


@allow(*EVERY_ROLE)
def week(request: HttpRequest) -> HttpResponse:
    on, by = day_of(request), _by(request, ROOMS)
    days = calendar.week(on, now=clock.now())
    only = next((lane for lane in days[0].lanes if lane.key == request.GET.get("only")), None)
    choices = [(name, WORDS[name], name == by and only is None) for name in (ROOMS, PEOPLE)]
    shown = {
        "days": [(day, _lanes(day, by, only)) for day in days],
        "week": days[0].date.isocalendar().week,
        "first": days[0].date,
        "last": days[-1].date,
        "on": on,
        "only": only,
        "before": on - timedelta(days=7),
        "after": on + timedelta(days=7),
        "choices": choices,
    }
    return _page(request, "bookings/week.html", by, shown)


def _page(request: HttpRequest, template: str, by: str, shown: dict[str, Any]) -> HttpResponse:
    member = member_of(request)
    own = {
        "by": by,
        "today": clock.today(),
        "may_book": member is not None and may_book(member),
        "changeable": stages.CHANGEABLE,
        "new_sitting": reverse("new_sitting"),
        "week_at": reverse("week"),
        "drawn": {},
        "words": {name: str(words) for name, words in LANE_WORDS.items()},
        "stage_words": {stage.value: str(stage.label) for stage in Stage},
    }
    return render(request, template, own | shown)


def _lanes(day: Day, by: str, only: Lane | None = None) -> Sequence[Lane]:
    if only is not None:
        return [lane for lane in day.lanes if lane.key == only.key]
    return {BOTH: day.lanes, ROOMS: day.rooms, PEOPLE: day.people}[by]


def sheets_of(lanes: Sequence[Lane]) -> list[Sequence[Lane]]:
    """The lanes as they are printed: on as few sheets as can be read, about equally many on each; one without any."""
    count = max(1, ceil(len(lanes) / LANES_A_SHEET))
    ends = [round(n * len(lanes) / count) for n in range(count + 1)]
    return [lanes[start:end] for start, end in pairwise(ends)]


def _by(request: HttpRequest, usual: str) -> str:
    by = request.GET.get("by", usual)
    return by if by in WORDS and (by != BOTH or usual == BOTH) else usual
