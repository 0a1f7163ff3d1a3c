"""What the demo's studio agrees with its clients: terms, prices, and a time that two clients want. Belongs here: the
invented house's own numbers, by way of the actions the pages use. Not here: its sittings and plans (`scenario`)."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

from django.utils import timezone

from bookings.actions import sittings, terms
from bookings.models import Client, Item, ItemPrice, Kind, Price, Sitting, TaxRule, Terms
from studio.models import Member, Room

SAYS: dict[str, Any] = {
    "hold_hours": 48, "deposit_percent": Decimal(25), "move": [[72, "10"], [24, "50"]],
    "cancel": [[72, "25"], [24, "100"]], "late_minutes": 20, "no_show_minutes": 30, "no_show_percent": Decimal(100),
    "words": "Whoever is late keeps the end that was agreed. Ring us: we would rather move you than charge you.",
}  # fmt: skip
ITEMS = {
    "Wall print, 75 cm wide": ("print", 90), "Prints for the family, set of five": ("print", 60),
    "Files, chosen frames": ("file", 85), "Oak frame, 75 cm": ("frame", 64), "Travel, each half hour": ("service", 25),
}  # fmt: skip
TAXED = ("sitting", "print", "file", "frame", "service")  # an invented rate; a studio asks its accountant
FEES = {
    "Anniversary couple": 180, "Company headshots": 840, "Character portrait": 160, "Family group": 260,
    "Music school portrait": 120,
}  # fmt: skip


def agree(day: date) -> None:
    """Terms and fees for bookings of the last two years and from now on."""
    since = date(day.year - 2, 1, 1)
    lindenmere = Terms(name="Lindenmere terms")
    terms.write(lindenmere, seen=None, valid_from=since, says=SAYS)
    for kind in Kind.objects.filter(name__in=FEES):
        kind.terms = lindenmere
        kind.save(update_fields=["terms"])
        Price.objects.create(kind=kind, from_day=since, amount=Decimal(FEES[kind.name]))
    for name, (kind, amount) in ITEMS.items():
        item = Item.objects.create(name=name, kind=kind)
        ItemPrice.objects.create(item=item, from_day=since, amount=Decimal(amount))
    for item_kind in TAXED:
        TaxRule.objects.create(
            item_kind=item_kind, from_day=since, percent=Decimal(20), included=True, words="Sales tax"
        )


def want_twice(day: date) -> str:
    """The afternoon after the demo's day, wanted by two."""
    people = {member.user.username: member for member in Member.objects.select_related("user")}
    first = _enquire("Nora and Piet Hallam", day, people)
    second = _enquire("Ysolde Marr", day, people, behind=first)
    return f"{first.number} {first.client}: held, and {second.number} {second.client} waits behind it"


def _enquire(name: str, day: date, people: Mapping[str, Member], behind: Sitting | None = None) -> Sitting:
    starts_at = timezone.make_aware(datetime.combine(day + timedelta(days=1), time(14, 30)))
    return sittings.book(
        by=people["maud"], client=Client(name=name), kind=Kind.objects.get(name="Anniversary couple"),
        room=Room.objects.get(name="Long Room"), photographer=people["tobiah"], assistant=people["ines"],
        starts_at=starts_at, minutes=75, setup_minutes=30, strike_minutes=15, purpose="", print_width_cm=None,
        sitters=[sittings.SitterInput(word) for word in name.split() if word in ("Nora", "Piet", "Ysolde")],
        behind=behind, acknowledged=("closed",),
    )  # fmt: skip
