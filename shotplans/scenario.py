"""The invented studio of the demo, put into an empty database: Lindenmere Portraits, its house, and its two days.

Belongs here: turning the example briefs of `fixtures/briefs` into rows by way of the same actions the pages use. Not
here: where the demo's files lie, or serving it (the command).
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

from django.contrib.auth import get_user_model
from django.db import transaction
from django.utils import timezone

from bookings import permissions
from bookings.actions import arrivals, claims, money, sittings
from bookings.actions.arrivals import Signature
from bookings.models import Client, Kind, Payment, Sitting
from bookings.refusals import Taken
from shotplans import scenario_letters, scenario_money, scenario_past, scenario_people, scenario_rooms
from shotplans.actions import plans
from shotplans.models import Plan
from studio import clock
from studio.models import KIT, KitItem, Member, MemberRole, Profile, Room

ZONE = "Europe/London"
PASSWORD = "quill and bridge"
CAST = (
    ("maud", "Maud Ferriby", "MF", ("front_desk",)),
    ("tobiah", "Tobiah Renn", "TR", ("photographer",)),
    ("ines", "Ines Calloway", "IC", ("assistant",)),
    ("harriet", "Harriet Voss", "HV", ("owner",)),
)
ROOMS = {
    "Long Room": "askew",
    "Garden Room": "dorrow",
}

# By household; telephone numbers are of those kept for invented people.
GUARDIANS = {
    "Mill Lane": Signature("Anouk Pellingham", "mother", "01632 960144"),
    "Weir Cottage": Signature("Hester Pellingham", "mother", "01632 960145"),
}


@dataclass(frozen=True)
class Booking:
    """One sitting of the demo: whose, of which brief, in which room and when."""

    brief: str
    client: str
    is_company: bool
    kind: str
    room: str
    at: time
    minutes: int
    day: int = 0


BOOKINGS = (
    Booking("askew", "Ottoline and Bertram Askew", False, "Anniversary couple", "Long Room", time(9, 30), 75),
    Booking("marrowfield", "Marrowfield Joinery", True, "Company headshots", "Long Room", time(11, 30), 160),
    Booking("dorrow", "Ignace Dorrow", False, "Character portrait", "Garden Room", time(15, 0), 60),
    Booking("pellingham", "The Pellinghams", False, "Family group", "Long Room", time(16, 45), 75),
    Booking("tarrant", "Juno Tarrant", False, "Music school portrait", "Long Room", time(10, 0), 75, day=1),
)


def build(briefs: Path, day: date, *, agreed: bool = False, past: bool = False) -> Iterator[str]:
    """Fill an empty database with the scenario of `day` and the day after; yields a line for each thing done. `agreed`
    has terms, fees and promises before the first is booked, so that all of it is in the confirmations; `past` has the
    year before in the house, so that the day is planned with what it taught."""
    Profile(
        pk=1,
        studio_name="Lindenmere Portraits",
        address="3 Tannery Row\nQuillbridge",
        telephone="01632 960 214",  # of the numbers set aside for stories
        email="desk@lindenmere.example",
        time_zone=ZONE,
    ).save()
    trees = {b.brief: json.loads((briefs / f"{b.brief}.json").read_text(encoding="utf-8")) for b in BOOKINGS}
    _kit(trees["askew"]["kit"])
    for name, brief in ROOMS.items():
        scenario_rooms.room(name, trees[brief]["room"])
    people = {sign_in: _member(sign_in, name, short, roles) for sign_in, name, short, roles in CAST}
    for booking in BOOKINGS:
        _kind(booking, trees[booking.brief]["brief"])
    if agreed:
        scenario_money.agree(day)
        scenario_letters.promise()
    with timezone.override(ZONE):
        booked = [(booking, _book(booking, trees[booking.brief], day, people)) for booking in BOOKINGS]
        if past:
            yield scenario_past.tell(day, trees)
        for booking, sitting in booked:
            plan = _plan(sitting, trees[booking.brief], people["tobiah"])
            broken = len(plan.document["problems"])
            yield f"{sitting.number} {booking.client}: planned, limits broken: {broken or 'none'}"
        yield _clash(people)


def _kit(kit: Mapping[str, Any]) -> None:
    for section, pieces in kit.items():
        for piece in pieces:
            values = {k: v for k, v in piece.items() if k not in ("id", "dial", "from", "to") and v is not None}
            if "dial" in piece:
                values |= {"dial_scale": piece["dial"]["scale"], "dial_step": piece["dial"]["step"]}
            if "from" in piece:
                values |= {"from_mount": piece["from"], "to_mount": piece["to"]}
            values.setdefault("label", piece["id"])
            row: KitItem = KIT[section](code=piece["id"], **values)
            row.full_clean()
            row.save()


def _member(sign_in: str, name: str, short: str, roles: tuple[str, ...]) -> Member:
    user = get_user_model().objects.create_user(sign_in, password=PASSWORD)
    member = Member.objects.create(user=user, name=name, short=short)
    MemberRole.objects.bulk_create(MemberRole(member=member, role=role) for role in roles)
    return member


def _kind(booking: Booking, brief: Mapping[str, Any]) -> None:
    setup = brief["setups"][0]
    Kind.objects.get_or_create(
        name=booking.kind,
        defaults={
            "minutes": booking.minutes, "intent": setup["intent"], "framing": setup["framing"],
            "background_tone": setup["background_tone"], "view": setup.get("view") or "either",
            "orientation": brief.get("orientation") or "either",
        },
    )  # fmt: skip


def _book(booking: Booking, tree: Mapping[str, Any], day: date, people: Mapping[str, Member]) -> Sitting:
    kind = Kind.objects.get(name=booking.kind)
    address = scenario_letters.ADDRESSES.get(booking.client, "") if kind.included else ""
    sitting = sittings.book(
        by=people["maud"], client=Client(name=booking.client, is_company=booking.is_company, email=address), kind=kind,
        room=Room.objects.get(name=booking.room), photographer=people["tobiah"], assistant=people["ines"],
        starts_at=timezone.make_aware(datetime.combine(day + timedelta(days=booking.day), booking.at)),
        minutes=booking.minutes, setup_minutes=30, strike_minutes=15, purpose=tree["brief"].get("purpose") or "",
        print_width_cm=tree["brief"].get("print_width_cm"),
        sitters=[scenario_people.sitter(s) for s in tree["sitters"]],
        acknowledged=("closed", "small_child_late"),  # the demo may be built on a Sunday; the Pellinghams come late
    )  # fmt: skip
    _permit(sitting, people["maud"])
    if sitting.deposit:  # paid, it makes the hold firm
        said = {"kind": Payment.Kind.DEPOSIT, "amount": sitting.deposit, "method": Payment.Method.CARD}
        money.take(by=people["maud"], sitting=sitting, **said)
        return Sitting.objects.get(pk=sitting.pk)
    return sittings.change_stage(by=people["maud"], sitting=sitting, to="confirmed")


def _permit(sitting: Sitting, by: Member) -> None:
    """Releases came back on paper; Juno's guardian is known and signs when they come."""
    today = clock.today()
    for row in permissions.of_sitting(sitting):
        said: dict[str, Any] = {"by": by, "sitting": sitting, "people": [row.sitter.pk], "how": "paper"}
        if not row.is_minor:
            arrivals.sign(**said, signature=Signature(), signed_on=today)
        elif row.sitter.household in GUARDIANS:
            arrivals.sign(**said, signature=GUARDIANS[row.sitter.household], signed_on=today)
        else:
            arrivals.name_guardian(**said, signature=Signature("Clemence Tarrant", "mother", "01632 960177"))


def _plan(sitting: Sitting, tree: Mapping[str, Any], photographer: Member) -> Plan:
    plans.confirm_brief(by=photographer, sitting=sitting, data=tree["brief"])
    return plans.make_plan(by=photographer, sitting=Sitting.objects.get(pk=sitting.pk))


def _clash(people: Mapping[str, Member]) -> str:
    """An enquiry that wants the one octabox in Juno's hour: the room is free, the light is not."""
    juno = Sitting.objects.get(client__name="Juno Tarrant")
    octabox = KitItem.objects.get(code="octa150-1")
    rival = Sitting(
        number="enquiry", client=juno.client, kind=juno.kind, room=Room.objects.get(name="Garden Room"),
        photographer=people["tobiah"], starts_at=juno.starts_at, minutes=60, setup_minutes=30, strike_minutes=15,
    )  # fmt: skip
    try:
        with transaction.atomic():
            rival.save()
            claims.hold(sitting=rival, wanted=[claims.Wanted("kit", octabox.pk, rival.spans.whole)])
    except Taken as refusal:
        return f"An enquiry for the same hour is refused: {refusal}"
    raise RuntimeError("the octabox was given twice")
