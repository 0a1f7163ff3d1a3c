"""Finding clients. Belongs here: who is meant by a part of a name, a telephone number, an e-mail or a sitting number,
and who may be the same as somebody about to be named; the same answers on both databases, in two queries. Not here:
how texts are compared (`folding`)."""

from __future__ import annotations

import re
import string
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Case, Count, IntegerField, Max, QuerySet, Value, When

from bookings.folding import SAME_DIGITS, digits, email_line, fold, name_line, number_key, phrases
from bookings.models import Client, Sitting
from bookings.models.numbers import written

MOST = 8  # a list to choose from at a glance
LEAST_LETTERS = 2  # one letter would find nearly everybody
LONGEST = 200  # no name and no address is longer
_SITTING = re.compile(r"([a-z])?[- ]?0*([0-9]{1,8})", re.ASCII)


@dataclass(frozen=True)
class Found:
    """A client with what tells them from another of the same name."""

    client: Client
    sittings: int
    last: datetime | None


@dataclass(frozen=True)
class Answer:
    """The first few, best first; `more` when there are others, who want more letters."""

    found: list[Found]
    more: bool = False


def clients(text: str, *, most: int = MOST) -> Answer:
    """Who is meant by what somebody typed."""
    folded = fold(text[:LONGEST])
    if len(folded) < LEAST_LETTERS:
        return Answer([])
    meant = Client.objects.filter(found_by__has=phrases(folded))
    if numbers(folded):
        booked = Sitting.objects.filter(number__in=numbers(folded)).order_by().values("client")
        meant = Client.objects.filter(pk__in=meant.order_by().values("pk").union(booked))
    # The last named come first: the order of letters is not the same in all databases.
    rows = meant.annotate(rank=_rank(folded)).order_by("rank", "-pk")[: most + 1]
    chosen = list(rows)
    return Answer(told(chosen[:most]), len(chosen) > most)


def alike(*, name: str, email: str = "", phone: str = "", most: int = MOST) -> list[Found]:
    """Clients who may be the one about to be named: the same name, e-mail or telephone number."""
    rows, lines = Client.objects.order_by(), []
    if fold(name):
        line = name_line(name[:LONGEST])
        lines.append(rows.filter(found_by__has=[line], found_by__startswith=line))
    if fold(email):
        lines.append(rows.filter(found_by__has=[f"\n{email_line(email[:LONGEST])}"]))
    if len(digits(phone)) >= SAME_DIGITS:
        key = number_key(phone)
        lines.append(rows.filter(found_by__has=[key], found_by__endswith=key))
    if not lines:
        return []
    same = lines[0].values("pk").union(*[line.values("pk") for line in lines[1:]])
    return told(rows.filter(pk__in=same).order_by("-pk")[:most])


def chosen(pk: str) -> list[Found]:
    """One client by key, as a list of one; empty where there is none."""
    if not (pk.isascii() and pk.isdecimal() and len(pk) < 16):
        return []
    return told(Client.objects.filter(pk=int(pk)))


def numbers(folded: str) -> list[str]:
    """The sittings that `L-0042`, `l42` or `42` may name."""
    named = _SITTING.fullmatch(folded)
    if named is None:
        return []
    letters = named[1].upper() if named[1] else string.ascii_uppercase
    return [written(letter, int(named[2])) for letter in letters]


def _rank(folded: str) -> Case:
    """Whoever is called so, then those with a name that begins so, then the others."""
    return Case(
        When(found_by__startswith=f" {folded}", then=Value(0)),
        When(found_by__contains=f" {folded}", then=Value(1)),
        default=Value(2),
        output_field=IntegerField(),
    )


def told(rows: Iterable[Client] | QuerySet[Client]) -> list[Found]:
    """Each with its sittings counted, these few alone."""
    known = list(rows)
    if not known:
        return []
    booked = Sitting.objects.filter(client__in=known).order_by().values("client")
    counted = {row["client"]: row for row in booked.annotate(n=Count("pk"), last=Max("starts_at"))}
    nothing = {"n": 0, "last": None}
    return [Found(row, counted.get(row.pk, nothing)["n"], counted.get(row.pk, nothing)["last"]) for row in known]
