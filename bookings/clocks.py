"""The two clocks after a sitting. Belongs here: whose clock ran for how long, and the day that is promised, as plain
values. Pure: no database, no clock on the wall, no framework. Not here: where the turns come from (`afterwards`).

One clock waits for the client (choose the frames, pay, answer), the other for the studio (show, edit, print, deliver).
Just one of them runs at a time. Only days of the studio count toward the promise: days on which the house is open and
which began while it was the studio's move. So no wait for the client can bring a promise nearer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from itertools import islice

CLIENT, STUDIO, STILL = "client", "studio", ""
# What it can wait for, and whose move that is. An empty word: nothing is waited for, both clocks stand.
WHOSE = {
    "choose": CLIENT, "pay": CLIENT, "answer": CLIENT,
    "show": STUDIO, "edit": STUDIO, "print": STUDIO, "deliver": STUDIO, "": STILL,
}  # fmt: skip
FURTHEST = 366 * 6  # days a promise is looked for: a house that never opens can promise nothing

IsOpen = Callable[[date], bool]


@dataclass(frozen=True)
class Turn:
    """From `at` on it waits for `what`, with a note of whoever said so."""

    at: datetime
    what: str
    note: str = ""

    @property
    def whose(self) -> str:
        return WHOSE[self.what]


@dataclass(frozen=True)
class Stretch:
    """One turn with its end; open at the end where it is `until` now."""

    turn: Turn
    until: datetime

    @property
    def length(self) -> timedelta:
        return self.until - self.turn.at


def stretches(turns: Sequence[Turn], now: datetime) -> list[Stretch]:
    """The turns up to now, each until the next; `turns` lie in order of time."""
    past = [turn for turn in turns if turn.at <= now]
    ends = [*(turn.at for turn in past[1:]), now]
    return [Stretch(turn, until) for turn, until in zip(past, ends, strict=True)] if past else []


def ran(turns: Sequence[Turn], whose: str, now: datetime) -> timedelta:
    """How long one clock ran; with `STILL` how long both stood."""
    return sum((one.length for one in stretches(turns, now) if one.turn.whose == whose), timedelta(0))


def promised(
    turns: Sequence[Turn], *, days: int, now: datetime, zone: tzinfo, is_open: IsOpen
) -> date | None:
    """The earliest sure day: the last of `days` days of the studio. What is still to come counts as the studio's, so
    that while it waits for the client the promise moves on day by day. None where the house never opens."""
    return next(islice(_studio_days(turns, now, zone, is_open), days - 1, None), None)


def used(turns: Sequence[Turn], *, now: datetime, zone: tzinfo, is_open: IsOpen) -> int:
    """How many days of the studio there were until now."""
    today = now.astimezone(zone).date()
    count = 0
    for day in _studio_days(turns, now, zone, is_open):
        if day > today:
            break
        count += 1
    return count


def _studio_days(turns: Sequence[Turn], now: datetime, zone: tzinfo, is_open: IsOpen) -> Iterator[date]:
    """Days that count, in order, the first after the day on which it began."""
    if not turns:
        return
    day, at = turns[0].at.astimezone(zone).date(), 0
    for _number in range(FURTHEST):
        day += timedelta(days=1)
        begins = datetime.combine(day, time(), tzinfo=zone).astimezone(UTC)
        while at + 1 < len(turns) and turns[at + 1].at <= min(begins, now):
            at += 1
        if (begins > now or turns[at].whose == STUDIO) and is_open(day):
            yield day
