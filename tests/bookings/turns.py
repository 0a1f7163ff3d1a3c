"""A headshot day that tests of rotas are played on. Belongs here: makers alone."""

from __future__ import annotations

from typing import Any

from bookings import name_list
from bookings.actions import rotas
from bookings.actions.sittings import SitterInput
from bookings.models import Client, Kind, Place, Rota, Sitting
from tests.bookings.making import House, at

NAMES = (
    "Corin Vale", "Delphine Orr", "Ambrose Tull", "Nell Quayle", "Osric Penhale", "Thandie Rusk", "Willem Ost",
    "Sunniva Brand", "Rafe Colley", "Imogen Starr", "Jabari Lode", "Lotta Grieg", "Piran Tregear", "Mirela Novik",
    "Anselm Hythe", "Bettina Crake", "Caspian Moor", "Dagny Weld", "Emeric Snow", "Fenella Yarrow",
)  # fmt: skip


def day_of(house: House, people: int = 1, **changes: Any) -> Sitting:
    """Marrowfield Joinery in the Long Room at nine, so many people in turn, without names yet."""
    kind, _made = Kind.objects.get_or_create(
        name="Company headshots", defaults={"minutes": 60, "intent": "even", "framing": "head_and_shoulders"}
    )
    client = Client(name="Marrowfield Joinery", is_company=True)
    sitters = [SitterInput(f"Person {n}") for n in range(1, people + 1)]
    wanted = {"client": client, "kind": kind, "starts_at": at(9), "minutes": 60, "sitters": sitters} | changes
    return house.book(**wanted)


def keep(house: House, sitting: Sitting, text: str, *, seen: int = 0, **settings: Any) -> Rota:
    more = {name: settings.pop(name) for name in ("only_listed", "lengthen") if name in settings}
    lines = name_list.read(text, most=60).lines
    return rotas.keep(
        by=house.desk, sitting=sitting, seen=seen, lines=lines, settings=Rota(**settings),
        acknowledged=("too_short", "no_gap"), **more,
    )  # fmt: skip


def begun(house: House, count: int = 4) -> Rota:
    """So many people with places at nine, ten past, and so on, in the order of the list."""
    text = "\n".join(NAMES[:count])
    return keep(house, day_of(house, count), text, lengthen=True, gap_minutes=0, keeps_list_order=True)


def place(rota: Rota, name: str) -> Place:
    """Fresh from the database."""
    return Place.objects.get(rota=rota, sitter__label__startswith=name)


def lines_of(rota: Rota) -> list[str]:
    """Time, number and name of every place in turn."""
    rows = Place.objects.in_turn().filter(rota=rota).select_related("rota__sitting")
    return [f"{row.starts_at:%H:%M} {row.number} {row.sitter.label}" for row in rows]
