"""Houses nobody wants and everybody gets: one with nothing in it yet, and one where every list is two hundred rows long
and names are sixty characters without a space, or written from the right. Belongs here: filling a database with
them. Not here: what their pages must show (`tests/studio/test_extremes.py`, `tests/browser/looks.py`)."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from django.db import transaction
from django.utils import timezone

from bookings.models import Claim, Client, Kind, Notes, Place, Rota, Sitter, Sitting, Stage
from studio import clock
from studio.models import Consumable, Member, Profile, Room
from tests import cast

ROWS = 200
LONG = "Wilhelmenaquernbyhollisvarrickthistlewoodlindenmerepellington"[:60]  # no space to break at
SPACED = "Wilhelmena Odile Quernby Hollis-Varrick of Upper Thistlewood"
ARABIC = "ليلى بنت عبد الرحمن القيرواني"
HEBREW = "נעמי בת־שבע אלקלעי־מזרחי"
EMAIL = f"{'wilhelmena.quernby' * 3}@{'thistlewood' * 4}.example.org"
NAMES = (LONG, SPACED, ARABIC, HEBREW)


def name(number: int) -> str:
    """The names in turn, each with its number where there is room for it."""
    return f"{NAMES[number % 4][:55]} {number}"


def empty() -> dict[str, Member]:
    """A house as the first owner meets it, with one member of each role."""
    Profile(pk=1, studio_name="Lindenmere Portraits").save()
    return cast.make_cast()


def crowd(sitting: Sitting) -> Sitting:
    """Make the house of `sitting` full, today; a sitting of two hundred people in it."""
    profile = Profile.get()
    profile.studio_name = f"Lindenmere {SPACED}"[:60]
    profile.save()
    Member.objects.filter(pk=sitting.photographer_id).update(name=f"{LONG}")
    Member.objects.filter(pk=sitting.assistant_id).update(name=HEBREW)
    Client.objects.filter(pk=sitting.client_id).update(name=LONG)
    _kit()
    with transaction.atomic():
        return _people(_sittings(sitting))


def _kit() -> None:
    for section in ("heads", "modifiers", "stands", "lenses"):
        for number in range(ROWS // 4):
            cast.make_kit(section, code=f"{section}-x{number}", label=name(number)[:60])
    for number in range(ROWS // 10):
        Consumable.objects.create(name=name(number), unit="rolls")


def _sittings(like: Sitting) -> list[Sitting]:
    """Ten an hour apart in each of twenty rooms, today; they overlap in their people, so only rooms are
    claimed."""
    rooms = [cast.make_room(name(number), circuits=1) for number in range(ROWS // 10)]
    kinds = [Kind.objects.create(name=name(number), minutes=30, intent="even", framing="half") for number in range(4)]
    Client.objects.bulk_create(
        Client(name=name(number), email=EMAIL, phone="01632 960 123 extension 45678", note=f"{SPACED}. " * 8)
        for number in range(ROWS)
    )
    clients = Client.objects.order_by("-pk")[:ROWS]
    morning = timezone.localtime(clock.now()).replace(hour=9, minute=0, second=0, microsecond=0)
    rows = []
    for number, client in enumerate(clients):
        at, room = morning + timedelta(hours=number // len(rooms)), rooms[number % len(rooms)]
        rows.append(_sitting(like, number, client, kinds[number % 4], room, at))
    Sitting.objects.bulk_create(rows)
    Claim.objects.bulk_create(
        Claim(sitting=row, resource_kind="room", resource_id=row.room_id,
              starts_at=whole.starts_at, ends_at=whole.ends_at)
        for row in rows
        for whole in (row.spans.whole,)
    )  # fmt: skip
    return rows


def _sitting(like: Sitting, number: int, client: Client, kind: Kind, room: Room, at: datetime) -> Sitting:
    stages: tuple[Any, ...] = (Stage.CONFIRMED, Stage.HELD, Stage.ARRIVED, Stage.PHOTOGRAPHED)
    return Sitting(
        number=f"L-{5000 + number}", client=client, kind=kind, room=room, photographer=like.photographer,
        assistant=like.assistant, starts_at=at, minutes=30, setup_minutes=10, strike_minutes=10,
        purpose=f"{SPACED}, {LONG}, {ARABIC}", hangs=LONG, stage=stages[number % 4],
        promised=like.promised, terms=like.terms, currency=like.currency, fee=like.fee,
    )  # fmt: skip


def _people(sittings: list[Sitting]) -> Sitting:
    """One for each sitting, two hundred for the first."""
    first = sittings[0]
    Sitter.objects.bulk_create(Sitter(sitting=one, label=name(n), age_years=40) for n, one in enumerate(sittings[1:]))
    Sitter.objects.bulk_create(
        Sitter(sitting=first, position=n, label=name(n), age_years=40, household=LONG, relation=ARABIC)
        for n in range(ROWS)
    )
    Notes.objects.bulk_create(
        Notes(sitter=sitter, glasses_lens="strong", skin="brown", clothes_tone="dark", hip_or_back=True)
        for sitter in first.sitters.all()
    )
    rota = Rota.objects.create(sitting=first)
    Place.objects.bulk_create(
        Place(rota=rota, sitter=sitter, number=n, queue=n, after=10 * n, email=EMAIL)
        for n, sitter in enumerate(first.sitters.all(), start=1)
    )
    return first
