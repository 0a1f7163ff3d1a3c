"""From a list of names to places: the read side of a rota before it is kept. Belongs here: putting the list, the people
of the sitting and what is known of them together, and wording what comes out. What is known moves the order and is
never said; sentences name what is done. Not here: the order (`rota`), writing it (`actions.rotas`)."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import hours, name_list, rota, rota_forecast
from bookings.models import Notes, Place, Rota, Sitter, Sitting
from bookings.models.sitters import Posture
from bookings.slots import Span

ENOUGH_TO_TELL = 3  # people photographed before their mean says anything
# What a word of the list says of somebody: the note it becomes, where it is one.
NOTES: dict[str, tuple[str, Any]] = {
    "glasses": ("glasses_lens", "usual"),
    "unhurried": ("shy", True),
    "steady": ("no_flash", True),
}


@dataclass(frozen=True)
class Entry:
    """One person who is to have a place; `sitter` where they are in the sitting already, `listed` false for those who
    are in it and not on the list."""

    name: str
    email: str = ""
    wishes: frozenset[str] = frozenset()
    wished: int | None = None
    sitter: Sitter | None = None
    listed: bool = True

    @property
    def part(self) -> str:
        return next((part for part in rota.PARTS if part in self.wishes), "")

    @property
    def notes(self) -> dict[str, Any]:
        """The comfort notes that the list's words are; what is known already is left as it is."""
        known = getattr(self.sitter, "notes", None) or Notes()
        found = dict(NOTES[wish] for wish in self.wishes if wish in NOTES)
        return {name: value for name, value in found.items() if getattr(known, name) in (None, "")}

    @property
    def posture(self) -> str:
        if "wheelchair" in self.wishes:
            return str(Posture.WHEELCHAIR)
        return self.sitter.posture if self.sitter else ""

    @property
    def person(self) -> rota.Person:
        """As far as the order asks, with what is known from elsewhere."""
        known = getattr(self.sitter, "notes", None) or Notes()
        return rota.Person(
            name=self.name,
            part=self.part,
            place=self.wished,
            steady="steady" in self.wishes or bool(known.no_flash),
            unhurried="unhurried" in self.wishes or bool(known.shy),
            floor=self.posture == Posture.WHEELCHAIR,
            together="glasses" in self.wishes or bool(known.glasses_lens),
        )


@dataclass(frozen=True)
class Seat:
    """One line of the places: a person with a number, or a gap or lunch with its word."""

    span: Span
    number: int = 0
    entry: Entry | None = None
    words: str = ""


@dataclass(frozen=True)
class Arranged:
    """The places as they would be kept. `spare` are sitters who stood for people not named yet and are not needed."""

    seats: Sequence[Seat]
    table: rota.Timetable
    deviations: Sequence[str]
    expected: rota_forecast.Expected
    unlisted: Sequence[Entry] = ()
    spare: Sequence[Sitter] = ()
    renamed: dict[int, str] = field(default_factory=dict)

    @property
    def places(self) -> list[Seat]:
        return [seat for seat in self.seats if seat.entry is not None]

    def minutes_from(self, start: datetime) -> int:
        return int((self.table.ends_at - start) / timedelta(minutes=1))


def times(settings: Rota, sitting: Sitting) -> rota.Times:
    lunch_at = None
    if settings.lunch_at is not None:
        day = timezone.localdate(sitting.starts_at)
        lunch_at = timezone.make_aware(datetime.combine(day, settings.lunch_at)).astimezone(sitting.starts_at.tzinfo)
    return rota.Times(
        starts_at=sitting.starts_at,
        place_minutes=settings.place_minutes,
        gap_minutes=settings.gap_minutes,
        gap_after=settings.gap_after,
        lunch_at=lunch_at,
        lunch_minutes=settings.lunch_minutes,
    )


def arrange(
    sitting: Sitting, lines: Iterable[name_list.Line], settings: Rota, *, only_listed: bool = False
) -> Arranged:
    """The places of everybody on the list and, unless `only_listed`, of everybody else in the sitting."""
    sitters = list(sitting.sitters.select_related("notes"))
    by_name = {sitter.label.casefold(): sitter for sitter in sitters}
    entries = [_entry(line, by_name.get(line.name.casefold())) for line in lines]
    there = {entry.sitter.pk for entry in entries if entry.sitter}
    others = [sitter for sitter in sitters if sitter.pk not in there]
    nameless = [sitter for sitter in others if _stands_for_somebody(sitter)]
    entries, renamed = _named(entries, nameless)
    spare = [sitter for sitter in nameless if sitter.pk not in renamed]
    unlisted = [Entry(one.label, sitter=one, listed=False) for one in others if one not in nameless]
    seated = entries if only_listed else [*entries, *unlisted]
    table = rota.timetable(len(seated), times(settings, sitting))
    people = {entry.person: entry for entry in seated}
    line = list(people) if settings.keeps_list_order else rota.order(list(people), table)
    return Arranged(
        seats=list(_seats([people[person] for person in line], table)),
        table=table,
        deviations=[_words(one) for one in rota.deviations(line, table)],
        expected=rota_forecast.expected(table, settings.real_minutes),
        unlisted=unlisted,
        spare=spare,
        renamed=renamed,
    )


def _entry(line: name_list.Line, sitter: Sitter | None) -> Entry:
    return Entry(line.name, line.email, line.wishes, line.place, sitter)


def _stands_for_somebody(sitter: Sitter) -> bool:
    """“Person 7” of a booking without names, of whom nothing is known."""
    counted = "|".join(re.escape(word) for word in (_("Person"), _("Adult"), _("Child")))
    is_noted = getattr(sitter, "notes", None) is not None
    return bool(re.fullmatch(rf"(?:{counted}) \d+", sitter.label)) and not is_noted


def _named(entries: Sequence[Entry], nameless: Sequence[Sitter]) -> tuple[list[Entry], dict[int, str]]:
    """Those who stood for somebody take the new names, so that a brief that counts on them keeps them."""
    free = iter(nameless)
    found, renamed = [], {}
    for entry in entries:
        sitter = entry.sitter or next(free, None)
        if sitter is not None and entry.sitter is None:
            renamed[sitter.pk] = entry.name
        found.append(Entry(entry.name, entry.email, entry.wishes, entry.wished, sitter))
    return found, renamed


def _seats(line: Sequence[Entry], table: rota.Timetable) -> Iterator[Seat]:
    """Places with the gaps and lunch between them."""
    between = [*((gap, _("gap to catch up")) for gap in table.gaps)]
    if table.lunch is not None:
        between.append((table.lunch, _("lunch")))
    rows = [Seat(span, words=words) for span, words in between]
    rows += [Seat(span, n, entry) for n, (span, entry) in enumerate(zip(table.places, line, strict=True), 1)]
    yield from sorted(rows, key=lambda seat: seat.span)


def _words(one: rota.Deviation) -> str:
    return _(rota.SENTENCES[one.code]).format(**one.values)


def as_last_time(sitting: Sitting) -> Rota:
    """A rota to begin with: as the client's last one was, with the minutes that one person really took then."""
    last = Rota.objects.filter(sitting__client=sitting.client_id, sitting__starts_at__lt=sitting.starts_at)
    row = last.exclude(sitting=sitting).order_by("-sitting__starts_at").first()
    if row is None:
        return Rota(sitting=sitting)
    took = [place.real_minutes for place in row.places.all() if place.real_minutes]
    real = min(max(round(sum(took) / len(took)), 1), 120) if len(took) >= ENOUGH_TO_TELL else row.real_minutes
    same = {name: getattr(row, name) for name in ("place_minutes", "gap_after", "gap_minutes", "lunch_minutes", "wear")}
    return Rota(sitting=sitting, real_minutes=real, **same)


def takes_turns(sitting: Sitting, people: int) -> bool:
    """Whether its people want places: several of whom the kind wants heads, or a company's, however many are named."""
    is_company = sitting.client.is_company and hours.in_turn(sitting.kind, rota.MOST_PEOPLE)
    return is_company or hours.in_turn(sitting.kind, people)


def known_lines(sitting: Sitting) -> str:
    """The list to begin with: whom the sitting has already, one a line, with what may be shown again: the address and
    the part. What the list said of their comfort is not read here."""
    places = {place.sitter_id: place for place in Place.objects.filter(rota__sitting=sitting)}
    found = []
    for sitter in sorted(sitting.sitters.select_related("notes"), key=lambda one: _place_of(places, one)):
        if _stands_for_somebody(sitter):
            continue
        place = places.get(sitter.pk)
        part = place.part if place else rota.LEADER if _is_leader(sitter) else ""
        said = [_quoted(sitter.label), place.email if place else "", part]
        wished = str(place.wished) if place and place.wished else ""
        found.append(", ".join(filter(None, [*said, wished])))
    return "\n".join(found)


def _quoted(name: str) -> str:
    """A name with a separator in it is one field all the same."""
    return '"' + name.replace('"', '""') + '"' if set(name) & set(',;\t"') else name


def _place_of(places: dict[int, Place], sitter: Sitter) -> tuple[int, int]:
    place = places.get(sitter.pk)
    return (place.number if place else 10_000, sitter.position)


def _is_leader(sitter: Sitter) -> bool:
    return sitter.relation.casefold() in name_list.WISHES["leader"]
