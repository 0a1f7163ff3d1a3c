"""Finding anything from every page. Belongs here: what is meant by a few words, in groups, best first, as far as
somebody may open it; the same answers on both databases, in as many queries however much there is. Comfort notes are
never looked through. Not here: clients by name (`find`), when a month is meant (`find_when`)."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from typing import Any

from django.conf import settings
from django.db.models import Case, F, Q, Value, When
from django.urls import resolve, reverse
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from bookings import find, find_when, once_more, stages
from bookings.find import LEAST_LETTERS, LONGEST, MOST
from bookings.folding import fold, is_number, phrases
from bookings.models import Client, Kind, Payment, Sitter, Sitting
from studio.models import KitItem, Member, Room

_READ = 2000  # of sittings that fit by words with a month or a kind among them, so many are put in order
_RECEIPT = re.compile(r"(?:r[- ]?)?0*([0-9]{1,9})", re.ASCII)


@dataclass(frozen=True)
class Hit:
    """One line: a link and what tells it from others; `times` leads to other free times of what may be moved."""

    name: str
    url: str
    told: str = ""
    times: str = ""


@dataclass(frozen=True)
class Group:
    """What is of one sort, best first; `more` when there are others."""

    title: str
    hits: Sequence[Hit]
    more: bool = False


def anything(text: str, *, member: Member, now: datetime) -> list[Group]:
    """Everything meant by the text that this member may open; no group is empty."""
    folded = fold(text[:LONGEST])
    if len(folded) < LEAST_LETTERS:
        return []
    groups = []
    if _may(member, "client", 1):
        answer = find.clients(text, most=MOST)
        groups.append(Group(_("Clients"), [_client(one) for one in answer.found], answer.more))
    groups.append(_sittings(folded, now, may_move=_may(member, "gaps")))
    groups.append(_people(folded))
    if _may(member, "take_money", "L-1"):
        groups.append(Group(_("Receipts"), _receipts(folded)))
    groups.append(Group(_("The house"), _house(folded, member)))
    groups.append(Group(_("Pages"), _pages(folded, member)))
    # A number of a sitting that was written out is what is looked for: it comes before everything else.
    number_first = bool(find.numbers(folded)) and not is_number(folded)
    groups.sort(key=lambda group: not (number_first and group.title == _("Sittings")))
    return [group for group in groups if group.hits]


@cache
def _roles(name: str, *arguments: object) -> tuple[str, ...]:
    """Who may open a page, as its view says itself."""
    roles: tuple[str, ...] = getattr(resolve(reverse(name, args=arguments)).func, "allowed_roles", ())
    return roles


def _may(member: Member, name: str, *arguments: object) -> bool:
    return member.has_role(*_roles(name, *arguments))


def _client(one: find.Found) -> Hit:
    words = [one.client.phone, one.client.email]
    if one.last:
        words.append(_("last here or expected %(day)s") % {"day": _day(one.last)})
    return Hit(one.client.name, reverse("client", args=[one.client.pk]), "; ".join(word for word in words if word))


def _sittings(folded: str, now: datetime, *, may_move: bool = False) -> Group:
    """By number, client, purpose, kind and month; a word may be several of these."""
    when, rest = find_when.read(folded, timezone.localtime(now).date())
    kinds = {row.pk: fold(row.name) for row in Kind.objects.only("name")}
    meant = {pk for pk, name in kinds.items() if rest and all(_is_in(word, name) for word in rest.split())}
    rows = _by_words(folded, rest, kinds, when, now)
    if when or meant:
        rows += _by_time(when, meant, bool(rest), now)
    exact = set(find.numbers(folded))
    best = sorted(dict.fromkeys(rows), key=lambda row: (row[1] not in exact, *_nearness(row[2], now), row[0]))
    shown = [row[0] for row in best[: MOST + 1]]
    known = Sitting.objects.select_related("client", "kind", "room").defer("terms").in_bulk(shown[:MOST])
    hits = [_sitting(known[pk], may_move) for pk in shown[:MOST] if pk in known]
    return Group(_("Sittings"), hits, len(shown) > MOST)


def _is_in(word: str, name: str) -> bool:
    return f" {word}" in f" {name}"


Row = tuple[int, str, datetime, int]
_FIELDS = ("pk", "number", "starts_at", "kind")


def _by_words(
    folded: str, rest: str, kinds: dict[int, str], when: find_when.When | None, now: datetime
) -> list[Row]:
    """Sittings whose number, client or purpose is meant, where other words name a kind or a month that is theirs."""
    rows = Sitting.objects.order_by()
    asked = [rows.filter(number__in=find.numbers(folded)).values("pk")] if find.numbers(folded) else []
    left, of_kind = _without_kinds(rest, kinds)
    for words in dict.fromkeys((folded, rest, left)):
        if parts := phrases(words):
            clients = Client.objects.filter(found_by__has=parts).order_by()
            asked += [rows.filter(client__in=clients).values("pk"), rows.filter(found_by__has=parts).values("pk")]
    if not asked:
        return []
    found, exact = Sitting.objects.filter(pk__in=asked[0].union(*asked[1:])), find.numbers(folded)
    if when is None and not of_kind:  # no word is a month or a kind: whatever was found has all of them
        return list(found.order_by(*_nearest_first(exact, now)).values_list(*_FIELDS)[: MOST + 1])
    texts = _texts(folded, rest, left)
    chosen = found.order_by("-starts_at", "-pk").values_list(*_FIELDS, "client__found_by", "found_by")[:_READ]
    return [row[:4] for row in chosen if row[1] in exact or _fits(row, texts, of_kind, when)]


def _nearest_first(exact: Sequence[str], now: datetime) -> list[Any]:
    """The order of `_sittings` for the database, so that few of many are read."""
    coming = Q(starts_at__gte=_this_morning(now))
    first = Case(When(number__in=exact, then=Value(0)), default=Value(1)) if exact else Value(0)
    return [first, Case(When(coming, then=Value(0)), default=Value(1)), Case(When(coming, then=F("starts_at"))),
            F("starts_at").desc(), "pk"]  # fmt: skip


Texts = tuple[list[str], list[str], list[str]]


def _texts(folded: str, rest: str, left: str) -> Texts:
    return phrases(folded), phrases(rest), phrases(left)


def _fits(
    row: tuple[int, str, datetime, int, str, str], texts: Texts, of_kind: set[int], when: find_when.When | None
) -> bool:
    """All words in the text of its client or purpose, but for those that name its month and its kind."""
    whole, rest, left = (
        bool(parts) and any(all(part in line for part in parts) for line in (row[4], row[5])) for parts in texts
    )
    in_time = when is None or when.holds(row[2])
    return whole or (rest and in_time) or (left and in_time and row[3] in of_kind)


def _without_kinds(rest: str, kinds: dict[int, str]) -> tuple[str, set[int]]:
    """The words that are in no kind's name, and the kinds that have all the others."""
    words = rest.split()
    named = [word for word in words if len(word) > 2 and any(_is_in(word, name) for name in kinds.values())]
    of_kind = {pk for pk, name in kinds.items() if named and all(_is_in(word, name) for word in named)}
    return (" ".join(word for word in words if word not in named), of_kind) if of_kind else ("", set())


def _by_time(when: find_when.When | None, meant: set[int], rest: bool, now: datetime) -> list[Row]:
    """The nearest to come and the last that were, of those kinds in that month."""
    if rest and not meant:
        return []
    rows = Sitting.objects.filter(kind__in=meant) if meant else Sitting.objects.all()
    coming, past = rows.filter(starts_at__gte=now), rows.filter(starts_at__lt=now)
    if when:
        (a, b), (c, d) = when.coming, when.past
        coming, past = rows.between(a, b), rows.between(c, d)
    found: list[Row] = list(coming.order_by("starts_at", "pk").values_list(*_FIELDS)[: MOST + 1])
    return found + list(past.order_by("-starts_at", "-pk").values_list(*_FIELDS)[: MOST + 1])


def _this_morning(now: datetime) -> datetime:
    return now.replace(hour=0, minute=0, second=0, microsecond=0)


def _nearness(starts_at: datetime, now: datetime) -> tuple[bool, float]:
    """What is to come before what was, the nearest first."""
    return starts_at < _this_morning(now), abs((starts_at - now).total_seconds())


def _sitting(row: Sitting, may_move: bool) -> Hit:
    words = [_day(row.starts_at), str(row.kind), str(row.get_stage_display()), row.purpose]
    name = f"{row.number} {row.client.name}"
    moves = may_move and row.stage in stages.CHANGEABLE
    times = f"{reverse('gaps')}?{once_more.MOVE}={row.number}" if moves else ""
    return Hit(name, reverse("sitting", args=[row.number]), "; ".join(word for word in words if word), times)


def _people(folded: str) -> Group:
    """Who sits, by the name said on set."""
    found = Sitter.objects.filter(found_by__has=phrases(folded)).order_by("-pk")
    rows = list(found.select_related("sitting__client").defer("sitting__terms")[: MOST + 1])
    hits = [
        Hit(
            row.label,
            reverse("sitting", args=[row.sitting.number]),
            f"{row.sitting.number} {row.sitting.client.name}; {_day(row.sitting.starts_at)}",
        )
        for row in rows[:MOST]
    ]
    return Group(_("People who sit"), hits, len(rows) > MOST)


def _receipts(folded: str) -> list[Hit]:
    written = _RECEIPT.fullmatch(folded)
    if written is None or int(written[1]) > 2**31 - 1:
        return []
    return [
        Hit(
            row.receipt_number,
            reverse("sitting", args=[row.sitting.number]),
            f"{row.sitting.number} {row.sitting.client.name}; {row.amount} {row.sitting.currency}; {_day(row.at)}",
        )
        for row in Payment.objects.filter(receipt=int(written[1])).select_related("sitting__client")
    ]


def _house(folded: str, member: Member) -> list[Hit]:
    """Rooms, people, kinds and kit: few enough to be read through."""
    found: list[tuple[str, str, str, str]] = []
    if _may(member, "room", 1):
        found += [(row.name, "room", str(row.pk), _("room")) for row in Room.objects.only("name")]
    if _may(member, "member", 1):
        found += [(row.name, "member", str(row.pk), _("works here")) for row in Member.objects.only("name")]
    if _may(member, "kind", 1):
        found += [(row.name, "kind", str(row.pk), _("kind of sitting")) for row in Kind.objects.only("name")]
    if _may(member, "piece", "a"):
        kit = KitItem.objects.values_list("label", "code")
        found += [(f"{label}, {code}", "piece", code, _("kit")) for label, code in kit]
    meant = [one for one in found if _all_in(folded, fold(one[0]))]
    meant.sort(key=lambda one: not fold(one[0]).startswith(folded))  # else as read: rooms, people, kinds, kit
    return [Hit(name, reverse(page, args=[key]), told) for name, page, key, told in meant[:MOST]]


def _pages(folded: str, member: Member) -> list[Hit]:
    """The words of the top row, for every role the member has."""
    words = ((str(label), page) for roles, label, page in settings.NAV if member.has_role(*roles))
    return [Hit(label, reverse(page)) for label, page in words if _all_in(folded, fold(label))][:MOST]


def _all_in(folded: str, name: str) -> bool:
    return all(_is_in(word, name) or (len(word) > 2 and word in name) for word in folded.split())


def _day(moment: datetime) -> str:
    return date_format(timezone.localtime(moment), "D j M Y")


def count(groups: Iterable[Group]) -> int:
    return sum(len(group.hits) for group in groups)
