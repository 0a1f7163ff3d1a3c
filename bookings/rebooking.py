"""Whom to ask back. Belongs here: clients whose occasion comes round, whose year is over, or whose company may have new
people, within sixty days; in three queries. Not here: asking them (`actions.rebooking`)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from django.db.models import Exists, OuterRef, Q, QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings import wording
from bookings.afterwards import AFTER
from bookings.models import AskedBack, Client, Sitting
from bookings.models.kinds import AskBack
from bookings.models.sittings import OFF
from studio.days import midnight

WITHIN = 60  # days
YEARS_BACK = 5  # whoever stayed away for longer is not asked any more
# Who sat less than half a year before, or is booked, has come back already; a proposal, no source.
LATELY = timedelta(days=183)


@dataclass(frozen=True)
class Prompt:
    """One client to ask back, for the day `on`; `sitting` is the last that gave the reason."""

    client: Client
    sitting: Sitting
    why: str
    on: date
    years: int
    answer: AskedBack | None = None

    @property
    def words(self) -> str:
        """Why just now."""
        years = ngettext("%(n)d year", "%(n)d years", self.years) % {"n": self.years}
        what = self.sitting.purpose or str(self.sitting.kind)
        words = {"years": years, "day": wording.date(self.on), "what": what}
        if self.why == AskBack.OCCASION:
            return _("%(years)s on %(day)s: %(what)s") % words
        if self.why == AskBack.NEW_HIRES:
            return _("%(years)s on %(day)s since %(what)s; ask who is new there") % words
        return _("%(years)s on %(day)s since %(what)s") % words


def due(today: date, *, client: Client | None = None) -> list[Prompt]:
    """Whose day comes within sixty days, the next first; each client once, with the answer given for that year."""
    rows = _askable(today)
    if client is not None:
        rows = rows.filter(client=client)
    last = today + timedelta(days=WITHIN)
    occasions = rows.filter(_falls_on(today, last), occasion_on__isnull=False)
    yearly = rows.filter(_sat_on(today, last), kind__ask_back__in=(AskBack.YEARLY, AskBack.NEW_HIRES))
    found = [*_prompts(occasions, today, last), *_prompts(yearly, today, last)]
    first: dict[int, Prompt] = {}
    for prompt in sorted(found, key=lambda one: (one.on, -one.sitting.pk)):
        first.setdefault(prompt.client.pk, prompt)
    given = AskedBack.objects.filter(client__in=first).select_related("by")
    answers = {(row.client_id, row.year): row for row in given}
    return [replace(one, answer=answers.get((one.client.pk, one.on.year))) for one in first.values()]


def blanks_of(prompt: Prompt) -> dict[str, str]:
    """What a letter of asking back may say, by the names of its blanks."""
    says = {
        AskBack.OCCASION: _("On %(day)s it is your day again, and we thought of your sitting with us: %(what)s."),
        AskBack.YEARLY: _("A year has gone by since you sat for us: %(what)s. Faces change in a year."),
        AskBack.NEW_HIRES: _("A year has gone by since your sitting with us: %(what)s. Who is new since then?"),
    }[AskBack(prompt.why)]
    words = {"day": wording.date(prompt.on), "what": prompt.sitting.purpose or str(prompt.sitting.kind)}
    return {"back.why": says % words, "back.day": words["day"], "back.what": words["what"]}


def example(sitting: Sitting) -> Prompt:
    """As if its client were asked back when its day comes round next, for a preview."""
    sat_on = timezone.localtime(sitting.starts_at).date()
    day = sitting.occasion_on or sat_on
    on = in_year(day, sat_on.year + 1)
    why = sitting.kind.ask_back if sitting.occasion_on is None else AskBack.OCCASION
    why = AskBack.YEARLY if why == AskBack.NEVER else why
    return Prompt(sitting.client, sitting, why, on, on.year - day.year)


def in_year(day: date, year: int) -> date:
    """That day in another year; the last of February for its 29th where there is none."""
    try:
        return day.replace(year=year)
    except ValueError:
        return date(year, 2, 28)


def _askable(today: date) -> QuerySet[Sitting]:
    """Sittings that were photographed, of clients who may be asked and have not come back lately."""
    lately = midnight(today) - LATELY
    back = Sitting.objects.exclude(stage__in=OFF).filter(client=OuterRef("client"), starts_at__gte=lately)
    rows = Sitting.objects.filter(stage__in=AFTER, client__not_again=False).exclude(kind__ask_back=AskBack.NEVER)
    return rows.filter(~Exists(back)).select_related("client", "kind").order_by("-starts_at", "-pk")


def _falls_on(first: date, last: date) -> Q:
    """Days of any year that come round from `first` to `last`, both included."""
    meant, day = Q(pk__in=()), first
    while day <= last:
        end = min(last, _month_end(day))
        days = Q(occasion_on__month=day.month, occasion_on__day__range=(day.day, end.day))
        if day.month == 2 and end.day == 28 and end == _month_end(day):
            days |= Q(occasion_on__month=2, occasion_on__day=29)
        meant, day = meant | days, end + timedelta(days=1)
    return meant


def _sat_on(first: date, last: date) -> Q:
    """The same for the day somebody sat, in each of the last years, by the index on time."""
    meant = Q(pk__in=())
    for years in range(1, YEARS_BACK + 1):
        start, end = (in_year(day, day.year - years) for day in (first, last + timedelta(days=1)))
        meant |= Q(starts_at__gte=midnight(start), starts_at__lt=midnight(end) + timedelta(days=1))
    return meant


def _prompts(rows: Iterable[Sitting], today: date, last: date) -> Iterator[Prompt]:
    for row in rows:
        sat_on = timezone.localtime(row.starts_at).date()
        of_occasion = row.occasion_on is not None
        day = row.occasion_on or sat_on
        on = next((on for year in (today.year, last.year) if today <= (on := in_year(day, year)) <= last), None)
        if on is not None and on - sat_on >= LATELY and on.year > day.year:
            why = AskBack.OCCASION if of_occasion else row.kind.ask_back
            yield Prompt(row.client, row, why, on, on.year - day.year)


def _month_end(day: date) -> date:
    following = date(day.year + day.month // 12, day.month % 12 + 1, 1)
    return following - timedelta(days=1)
