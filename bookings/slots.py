"""Spans of time. Belongs here: overlaps, gaps and the next free time, as plain values. Pure: no database, no clock,
no framework. Not here: whose time it is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

PHOTOGRAPHER_BEFORE_MINUTES = 15  # the photographer looks at the set before the sitter comes


@dataclass(frozen=True, order=True)
class Span:
    """A span from `starts_at` up to but not including `ends_at`; two that only touch do not overlap."""

    starts_at: datetime
    ends_at: datetime

    def __post_init__(self) -> None:
        if not self.starts_at < self.ends_at:
            raise ValueError(f"a span from {self.starts_at} to {self.ends_at}: expected the end after the start")

    @property
    def length(self) -> timedelta:
        return self.ends_at - self.starts_at


def overlaps(one: Span, other: Span) -> bool:
    """Whether two spans share any time."""
    return one.starts_at < other.ends_at and other.starts_at < one.ends_at


def merged(spans: Iterable[Span]) -> list[Span]:
    """The same time in the fewest spans, in order; spans that touch become one."""
    found: list[Span] = []
    for span in sorted(spans):
        if found and span.starts_at <= found[-1].ends_at:
            found[-1] = Span(found[-1].starts_at, max(found[-1].ends_at, span.ends_at))
        else:
            found.append(span)
    return found


def gaps(busy: Iterable[Span], within: Span) -> list[Span]:
    """What of `within` no busy span covers, in order."""
    found, at = [], within.starts_at
    for span in merged(busy):
        if span.starts_at >= within.ends_at:
            break
        if span.starts_at > at:
            found.append(Span(at, span.starts_at))
        at = max(at, span.ends_at)
    if at < within.ends_at:
        found.append(Span(at, within.ends_at))
    return found


@dataclass(frozen=True)
class Want:
    """One thing a sitting needs: for which span, and when it is busy."""

    span: Span
    busy: Sequence[Span]


def next_start(wants: Sequence[Want], start: datetime) -> datetime:
    """The first moment from `start` on to which a sitting planned for `start` can be moved with all it wants."""
    # Moved to s, a want spans s + before .. s + after: it meets a busy span just when s lies strictly between
    # busy.starts_at - after and busy.ends_at - before.
    blocked = [
        Span(busy.starts_at - (want.span.ends_at - start), busy.ends_at - (want.span.starts_at - start))
        for want in wants
        for busy in want.busy
    ]
    at = start
    for span in sorted(blocked):
        if span.starts_at < at < span.ends_at:
            at = span.ends_at
    return at


@dataclass(frozen=True)
class SittingSpans:
    """For how long a sitting claims what it needs: `whole` room, assistant and kit; `photographer` the photographer."""

    sitting: Span
    whole: Span
    photographer: Span


def sitting_spans(starts_at: datetime, *, minutes: int, setup_minutes: int, strike_minutes: int) -> SittingSpans:
    """The spans of a sitting, in UTC, so that a change of the clocks inside one is counted in real minutes."""
    start = starts_at.astimezone(UTC)
    end = start + timedelta(minutes=minutes)
    return SittingSpans(
        sitting=Span(start, end),
        whole=Span(start - timedelta(minutes=setup_minutes), end + timedelta(minutes=strike_minutes)),
        photographer=Span(start - timedelta(minutes=PHOTOGRAPHER_BEFORE_MINUTES), end),
    )


@dataclass(frozen=True, order=True)
class Starts:
    """Every moment from `first` to `last`, both included, at which something could start."""

    first: datetime
    last: datetime


@dataclass(frozen=True)
class Need:
    """One thing a sitting needs, from `before` its start to `after` it, and when it is free."""

    before: timedelta
    after: timedelta
    free: Sequence[Span]

    @property
    def starts(self) -> list[Starts]:
        """When a sitting could start if it needed nothing else."""
        found = ((span.starts_at + self.before, span.ends_at - self.after) for span in merged(self.free))
        return [Starts(first, last) for first, last in found if first <= last]


def common(one: Sequence[Starts], other: Sequence[Starts]) -> list[Starts]:
    """The moments in both, each in order."""
    found, here, there = [], 0, 0
    while here < len(one) and there < len(other):
        first, last = max(one[here].first, other[there].first), min(one[here].last, other[there].last)
        if first <= last:
            found.append(Starts(first, last))
        if one[here].last < other[there].last:
            here += 1
        else:
            there += 1
    return found
