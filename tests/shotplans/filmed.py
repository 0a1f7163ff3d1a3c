"""A sitting that is being photographed, without reckoning a plan: only what frames are held against. Belongs here:
making it, and bringing files in."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from typing import Any

from django.test import Client

from bookings.models import Sitting
from shotplans.actions import frames
from shotplans.models import Plan
from shotplans.records.files import Kind, read_piece
from studio.models import Member
from tests import cast
from tests.bookings.making import House, make_house
from tests.pages import Visitor


def setup(name: str, *, head: str, third: str, iso: int, shutter_s: float, people: list[str]) -> dict[str, Any]:
    camera = {
        "body": "camera-1", "nearest_third": third, "iso": iso, "shutter_s": shutter_s, "focal_mm": 85.0,
        "white_balance_k": 5600.0,
    }  # fmt: skip
    light = {"letter": "A", "role": "key", "head": head}
    return {
        "name": name, "camera": camera, "lights": [light], "sitters": [{"label": who} for who in people],
        "meter_round": [], "blocks": [], "reasons": [], "alternatives": [], "expected": None,
    }  # fmt: skip


@dataclass
class Set:
    """The sitting with its plan of two set-ups: flash at f/11, and steady light at f/5.6."""

    house: House
    sitting: Sitting
    plan: Plan
    members: dict[str, Member] = field(default_factory=dict)

    def client_of(self, role: str) -> Client:
        return cast.client_of(self.house.members[role])

    def visitor(self, role: str) -> Visitor:
        return Visitor(self.client_of(role))

    def bring(self, name: str, body: bytes, **how: str) -> frames.Outcome:
        piece = read_piece(io.BytesIO(body))
        whole = io.BytesIO(body) if piece.kind is Kind.JPEG else None
        file = frames.Incoming(name=name, piece=piece, whole=whole)
        return frames.take_in(by=self.house.members["assistant"], sitting=self.sitting, file=file, **how)


def make_set(*, one_setup: bool = False) -> Set:
    house = make_house()
    sitting = house.book()
    people = ["Ottoline", "Bertram"]
    pair = setup("the pair", head="flash-1", third="f/11", iso=100, shutter_s=0.005, people=people)
    steady = setup("steady", head="steady-1", third="f/5.6", iso=1600, shutter_s=0.008, people=people[:1])
    shots = [
        {"n": 1, "setup": "the pair", "who": people, "frames": 3, "must": True, "cue": ""},
        {"n": 2, "setup": "the pair", "who": people, "frames": 3, "must": False, "cue": ""},
        {"n": 3, "setup": "steady", "who": people[:1], "frames": 3, "must": True, "cue": ""},
    ]
    document = {"setups": [pair] if one_setup else [pair, steady], "shots": shots, "problems": [], "packing": []}
    heads = [{"id": "flash-1", "light": "flash"}, {"id": "steady-1", "light": "steady"}]
    request = {"kit": {"heads": heads, "cameras": [{"id": "camera-1", "sync_s": 0.005}]}, "sitters": [], "brief": {}}
    plan = Plan.objects.create(
        sitting=sitting, number=1, request=request, document=document, fingerprint="0" * 64,
        made_at=sitting.starts_at, made_by=house.members["photographer"],
    )  # fmt: skip
    return Set(house, sitting, plan)
