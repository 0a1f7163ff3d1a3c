"""What speaks against a sitting at that time, though nothing is taken. Belongs here: comparing its time with opening
hours, with who works when, and with who sits, and the one wording of each. Pure: no database, no clock, no framework.
Not here: reading the hours (`hours`); whether the desk books it all the same (`actions`).

The minutes are common practice, no source, unless a line says otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, time, timedelta, tzinfo

from bookings.rota import CATCH_UP_AFTER, CATCH_UP_MINUTES
from bookings.slots import Span, gaps, overlaps
from studio.tongue import noop

SMALL_CHILD_YEARS = 5.0
SMALL_CHILD_UNTIL = time(16)  # best in the morning or after a nap
SMALL_CHILD_MINUTES = 60
INFANT_YEARS, INFANT_MINUTES = 1.0, 90  # an hour as for any small child, and half an hour to feed
NEWBORN_YEARS, NEWBORN_MINUTES = 0.25, 180
# Two people this old, not yet those whom the light calls older (65): an objection to every other couple is not read.
OLDER_YEARS, OLDER_PAIR_MINUTES = 75.0, 40
EACH_IN_TURN_MINUTES = 10
FIRST_MINUTES, EACH_MORE_MINUTES = 25, 5  # people in one picture


@dataclass(frozen=True)
class Off:
    """Days on which somebody is away or the house is closed; `words` say why, where that may be said."""

    span: Span
    words: str = ""


@dataclass(frozen=True)
class Worker:
    """One of the studio's people in this sitting: for which span, when they work around it, and days off. Without
    hours of their own, `works` None, they work whenever the house is open."""

    id: int
    name: str
    span: Span
    works: Sequence[Span] | None = None
    off: Sequence[Off] = ()


def _as_it_stands(text: str) -> str:
    return text


@dataclass(frozen=True)
class Asked:
    """A sitting as it is asked for; `zone` is the one that its times are said in.

    `open` and `closed` are the opening hours and the closures of the days it touches; `ages` has one entry for each
    person, None where the age is not known; `in_turn` when they are photographed one after the other.
    """

    sitting: Span
    whole: Span
    ages: Sequence[float | None] = ()
    kind_minutes: int = 0
    in_turn: bool = False
    open: Sequence[Span] = ()
    closed: Sequence[Off] = ()
    workers: Sequence[Worker] = ()
    zone: tzinfo = UTC
    translated: Callable[[str], str] = _as_it_stands

    @property
    def minutes(self) -> int:
        return int(self.sitting.length / timedelta(minutes=1))


@dataclass(frozen=True)
class Objection:
    """One thing that speaks against it. `code` stays the same while the reason does."""

    code: str
    sentence: str


SENTENCES = {
    "closed": noop("The house is closed then: {words}."),
    "closed_wordless": noop("The house is closed then."),
    "closed_weekday": noop("The house is not open on that day of the week."),
    "outside_hours": noop("From set-up to strike it takes from {start} to {end}; the house is open {hours}."),
    "off": noop("{name} is off then: {words}."),
    "off_wordless": noop("{name} is off then."),
    "off_weekday": noop("{name} does not work on that day of the week."),
    "not_working": noop("{name} is needed from {start} to {end} and works {hours} that day."),
    "from_to": noop("from {start} to {end}"),
    "small_child_late": noop("A child under five sits at {start}: in the morning or after a nap it goes better."),
    "small_child_short": noop("A child under five sits: book {needed} minutes, this is {minutes}."),
    "infant": noop("A child under one sits: book {needed} minutes, this is {minutes}."),
    "newborn": noop("A newborn sits: book {needed} minutes, this is {minutes}."),
    "older_pair": noop("Both who sit are {age} or older: after {most} minutes they want a rest, this is {minutes}."),
    "no_gap": noop(
        "{people} people in turn in {minutes} minutes leave no gap to catch up: with ten minutes after every "
        "five or six it takes {needed}."
    ),
    "too_short": noop("{people} people need about {needed} minutes, this is {minutes}."),
}  # fmt: skip


def objections(asked: Asked) -> list[Objection]:
    """Everything that speaks against it, hours first. Empty when nothing does."""
    return [*_hours(asked), *(one for worker in asked.workers for one in _worker(asked, worker)), *_people(asked)]


def needed_minutes(people: int, kind_minutes: int, *, in_turn: bool) -> int:
    """What so many people take at the least, without a gap; what the studio gives its kind is enough for the first."""
    first = EACH_IN_TURN_MINUTES if in_turn else FIRST_MINUTES
    each = EACH_IN_TURN_MINUTES if in_turn else EACH_MORE_MINUTES
    if kind_minutes:
        first, each = min(first, kind_minutes), min(each, kind_minutes)
    return first + each * (people - 1) if people else 0


def catch_up_minutes(people: int) -> int:
    """How much of a run of people in turn is left free to catch up."""
    return CATCH_UP_MINUTES * ((people - 1) // CATCH_UP_AFTER) if people else 0


def _hours(asked: Asked) -> Iterator[Objection]:
    closed = [off for off in asked.closed if overlaps(off.span, asked.whole)]
    if closed:
        yield _closed(asked, closed[0])
    elif gaps(asked.open, asked.whole):
        hours = _from_to(asked, asked.open, asked.whole)
        if hours:
            yield _said(asked, "outside_hours", hours=hours, **_ends(asked, asked.whole))
        else:
            yield _said(asked, "closed_weekday", code="closed")


def _closed(asked: Asked, off: Off) -> Objection:
    if off.words:
        return _said(asked, "closed", words=off.words)
    return _said(asked, "closed_wordless", code="closed")


def _worker(asked: Asked, worker: Worker) -> Iterator[Objection]:
    code = f"off_{worker.id}"
    away = [off for off in worker.off if overlaps(off.span, worker.span)]
    if away and away[0].words:
        yield _said(asked, "off", code=code, name=worker.name, words=away[0].words)
    elif away:
        yield _said(asked, "off_wordless", code=code, name=worker.name)
    elif worker.works is not None and gaps(worker.works, worker.span):
        hours = _from_to(asked, worker.works, worker.span)
        if hours:
            yield _said(asked, "not_working", code=code, name=worker.name, hours=hours, **_ends(asked, worker.span))
        else:
            yield _said(asked, "off_weekday", code=code, name=worker.name)


def _people(asked: Asked) -> Iterator[Objection]:
    ages, minutes = [age for age in asked.ages if age is not None], asked.minutes
    youngest, start = min(ages, default=SMALL_CHILD_YEARS), asked.sitting.starts_at.astimezone(asked.zone)
    if youngest < SMALL_CHILD_YEARS and start.time() >= SMALL_CHILD_UNTIL:
        yield _said(asked, "small_child_late", start=f"{start:%H:%M}")
    for code, years, needed in (
        ("newborn", NEWBORN_YEARS, NEWBORN_MINUTES),
        ("infant", INFANT_YEARS, INFANT_MINUTES),
        ("small_child_short", SMALL_CHILD_YEARS, SMALL_CHILD_MINUTES),
    ):
        if youngest < years:
            if minutes < needed:
                yield _said(asked, code, needed=needed, minutes=minutes)
            break
    if len(asked.ages) == len(ages) == 2 and min(ages) >= OLDER_YEARS and minutes > OLDER_PAIR_MINUTES:
        yield _said(asked, "older_pair", age=int(OLDER_YEARS), most=OLDER_PAIR_MINUTES, minutes=minutes)
    yield from _number(asked, len(asked.ages), minutes)


def _number(asked: Asked, people: int, minutes: int) -> Iterator[Objection]:
    needed = needed_minutes(people, asked.kind_minutes, in_turn=asked.in_turn)
    with_gaps = needed + (catch_up_minutes(people) if asked.in_turn else 0)
    if minutes < needed:
        yield _said(asked, "too_short", people=people, needed=with_gaps, minutes=minutes)
    elif minutes < with_gaps:
        yield _said(asked, "no_gap", people=people, needed=with_gaps, minutes=minutes)


def _from_to(asked: Asked, spans: Sequence[Span], around: Span) -> str:
    """Those hours in words that begin on the days a span touches; nothing where none do."""
    last = around.ends_at - timedelta(microseconds=1)
    days = {moment.astimezone(asked.zone).date() for moment in (around.starts_at, last)}
    text = asked.translated(SENTENCES["from_to"])
    same_days = [span for span in spans if span.starts_at.astimezone(asked.zone).date() in days]
    return ", ".join(text.format(**_ends(asked, span)) for span in same_days)


def _ends(asked: Asked, span: Span) -> dict[str, str]:
    start, end = span.starts_at.astimezone(asked.zone), span.ends_at.astimezone(asked.zone)
    return {"start": f"{start:%H:%M}", "end": f"{end:%H:%M}"}


def _said(asked: Asked, which: str, /, *, code: str = "", **values: object) -> Objection:
    return Objection(code or which, asked.translated(SENTENCES[which]).format(**values))
