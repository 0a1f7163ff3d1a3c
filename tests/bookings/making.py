"""The day that tests of bookings are played on. Belongs here: makers of clients, kinds and sittings."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from bookings.actions import sittings
from bookings.actions.sittings import SitterInput
from bookings.models import Client, Kind, Sitting
from studio.models import Member, Profile, Room
from tests import cast
from tests.pages import Visitor

DAY = datetime(2026, 12, 3, tzinfo=UTC)  # a Thursday


def at(hour: int, minute: int = 0, *, days: int = 0) -> datetime:
    """A moment of the day."""
    return DAY + timedelta(days=days, hours=hour, minutes=minute)


class _Every(frozenset[str]):
    """Whatever speaks against a time of the tests is acknowledged."""

    def __contains__(self, code: object) -> bool:
        return True


EVERY_OBJECTION = _Every()


@dataclass(frozen=True)
class House:
    """A studio ready to be booked."""

    members: dict[str, Member]
    room: Room
    other_room: Room
    kind: Kind
    client: Client

    @property
    def desk(self) -> Member:
        return self.members["front_desk"]

    def book(self, **changes: Any) -> Sitting:
        """The Askews in the Long Room from 09:30 to 10:45 with 30 and 15 minutes around, but for `changes`."""
        wanted = {
            "by": self.desk,
            "client": self.client,
            "kind": self.kind,
            "room": self.room,
            "photographer": self.members["photographer"],
            "assistant": self.members["assistant"],
            "starts_at": at(9, 30),
            "minutes": 75,
            "setup_minutes": 30,
            "strike_minutes": 15,
            "purpose": "ruby wedding",
            "print_width_cm": 75.0,
            "sitters": [SitterInput("Ottoline", age_years=66), SitterInput("Bertram", age_years=70)],
            "acknowledged": EVERY_OBJECTION,
        }
        return sittings.book(**(wanted | changes))


def make_house() -> House:
    Profile(pk=1, studio_name="Lindenmere Portraits").save()
    return House(
        members=cast.make_cast(),
        room=cast.make_room(),
        other_room=cast.make_room("Garden Room", width_m=5.0, depth_m=4.0, ceiling_m=2.6),
        kind=Kind.objects.create(name="Anniversary couple", minutes=75, intent="soft", framing="half"),
        client=Client.objects.create(name="Ottoline and Bertram Askew", phone="01632 960123"),
    )


def visitor(house: House, role: str) -> Visitor:
    """Somebody of the house at a page."""
    return Visitor(cast.client_of(house.members[role]))
