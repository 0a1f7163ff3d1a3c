"""What the demo's desk keeps besides: the boom that one kind always needs, and clients who wait for a time. Belongs
here: the invented house's own wishes, by way of the rows the pages use. Not here: its sittings (`scenario`)."""

from __future__ import annotations

from datetime import date, time

from bookings.models import Client, Kind, WantedTime
from studio import clock
from studio.models import Member, Room, Stand


def fill(day: date) -> str:
    """Two wait for a time; a character portrait always needs the boom."""
    boom = Stand.objects.filter(kind="boom").first()
    Kind.objects.filter(name="Character portrait").update(kit=boom)
    maud = Member.objects.get(user__username="maud")
    orla = Client.objects.create(name="Orla Penhallow", email="orla@penhallow.example", phone="01632 960171")
    wren = Client.objects.create(name="Wren Hollis", phone="01632 960172")
    couple, kept = Kind.objects.get(name="Anniversary couple"), {"by": maud, "written_at": clock.now()}
    WantedTime.objects.create(
        client=orla, kind=couple, minutes=couple.minutes, room=Room.objects.get(name="Long Room"), first_on=day, **kept
    )
    WantedTime.objects.create(client=wren, minutes=60, latest=time(15), note="lives around the corner", **kept)
    return f"{orla}, {wren}: each waits for a time; {boom} goes with every character portrait"
