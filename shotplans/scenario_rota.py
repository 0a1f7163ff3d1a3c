"""The rota of the demo's headshot day: fourteen people of Marrowfield Joinery, ten minutes each. Belongs here: their
addresses and parts, by way of the action the pages use. Not here: the sitting itself (`scenario`)."""

from __future__ import annotations

from bookings import name_list
from bookings.actions import rotas
from bookings.models import Rota, Sitting
from studio.models import Member

PARTS = {"Willem": ("reference",), "Corin": ("leader",), "Delphine": ("leader",)}
WEAR = "Dark and plain, a second top to change into; glasses in a case if they darken."


def give_places() -> str:
    """Everybody but one has an address; the list goes in as the desk would paste it."""
    sitting = Sitting.objects.filter(client__name="Marrowfield Joinery").latest("starts_at")
    lines = [
        name_list.Line(
            n, sitter.label, "" if sitter.label == "Lotta" else f"{sitter.label.lower()}@marrowfield.example",
            frozenset(PARTS.get(sitter.label, ())),
        )
        for n, sitter in enumerate(sitting.sitters.all(), 1)
    ]  # fmt: skip
    maud = Member.objects.get(user__username="maud")
    rota = rotas.keep(by=maud, sitting=sitting, seen=0, lines=lines, settings=Rota(wear=WEAR))
    return f"{sitting.number} {sitting.client}: {rota.places.count()} places of ten minutes"
