"""The people, rooms and kit that tests are played with. Belongs here: makers with sensible defaults for the
rows of the house. Not here: what a test expects of them."""

from __future__ import annotations

from typing import Any

from django.contrib.auth import get_user_model
from django.test import Client

from studio.models import KIT, Circuit, KitItem, Member, MemberRole, Room

PASSWORD = "quill and bridge"
CAST = {
    "front_desk": ("Maud Ferriby", "MF"),
    "photographer": ("Tobiah Renn", "TR"),
    "assistant": ("Ines Calloway", "IC"),
    "owner": ("Harriet Voss", "HV"),
}
# The least each kind of kit must be told; everything else may stay unknown.
LEAST: dict[str, dict[str, Any]] = {
    "heads": {
        "label": "400 Ws head",
        "range_stops": 8,
        "f_number_1m_iso100": 64,
        "mount": "bayonet S",
        "mass_kg": 2.6,
    },
    "modifiers": {
        "label": "150 cm octabox",
        "kind": "octabox",
        "shape": "disc",
        "diameter_m": 1.5,
        "loss_stops": 2.6,
        "mount": "bayonet S",
        "mass_kg": 2.2,
    },
    "adapters": {"label": "ring P to S", "from_mount": "bayonet P", "to_mount": "bayonet S"},
    "stands": {"label": "3 m stand", "max_height_m": 3, "min_height_m": 1.1, "max_load_kg": 9},
    "panels": {"label": "panel 100 x 200", "width_m": 1, "height_m": 2},
    "weights": {"label": "sandbag", "kg": 7},
    "flags": {"label": "flag 60 x 90"},
    "triggers": {"label": "trigger"},
    "backgrounds": {"label": "grey paper", "width_m": 2.7, "reflectance": 0.25},
    "cameras": {
        "label": "camera",
        "sensor_width_mm": 36,
        "sensor_height_mm": 24,
        "base_iso": 100,
        "max_iso": 6400,
        "sync_s": 0.005,
    },
    "lenses": {"label": "85 mm lens", "min_focal_mm": 85, "max_focal_mm": 85, "max_aperture": 1.8},
    "seats": {"label": "chair with arms", "height_m": 0.46, "arms": True},
    "risers": {"label": "20 cm step", "height_m": 0.2},
}


def make_member(*roles: str, name: str = "", short: str = "", active: bool = True) -> Member:
    """A member with these roles; without a name, the one of the cast who does the first of them."""
    cast_name, cast_short = CAST.get(roles[0], CAST["owner"]) if roles else ("Nell Orrin", "NO")
    name = name or cast_name
    sign_in_name = name.split()[0].lower()
    user = get_user_model().objects.create_user(sign_in_name, password=PASSWORD, is_active=active)
    member = Member.objects.create(user=user, name=name, short=short or cast_short, active=active)
    MemberRole.objects.bulk_create(MemberRole(member=member, role=role) for role in roles)
    return member


def make_cast() -> dict[str, Member]:
    """All four of Lindenmere Portraits, by role."""
    return {role: make_member(role) for role in CAST}


def client_of(member: Member) -> Client:
    """A browser somebody has signed in at."""
    client = Client()
    client.force_login(member.user)
    return client


def make_room(name: str = "Long Room", *, circuits: int = 3, **values: Any) -> Room:
    """The Long Room, or one like it."""
    size = {"width_m": 9.0, "depth_m": 6.0, "ceiling_m": 3.2, "surface_walls": "grey"}
    room = Room.objects.create(name=name, **(size | values))
    for number in range(1, circuits + 1):
        Circuit.objects.create(room=room, label=f"circuit {number}", volts=230, breaker_amps=16)
    return room


def make_kit(section: str, code: str = "", **values: Any) -> KitItem:
    """One piece of a section of the kit, saved as the owner's form would: with the least it must be told."""
    code = code or f"{section}-{KitItem.objects.filter(section=section).count() + 1}"
    piece = KIT[section](code=code, **(LEAST[section] | values))
    piece.full_clean()
    piece.save()
    return piece
