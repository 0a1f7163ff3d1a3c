"""Plans of the example briefs with a heading, and a harder one made from them: input for the tests of paper."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from shotplans.planner import codec
from shotplans.planner.request import Request
from shotplans.sheets import compose
from shotplans.sheets.content import Flags, Heading, SetupSheet
from tests import planned_once

BRIEFS = Path(__file__).parents[2] / "fixtures" / "briefs"
NAMES = ("askew", "marrowfield", "dorrow", "pellingham", "tarrant")
SITTINGS = {
    "askew": ("L-0042", "Askew", "09:00", "09:30", "10:45"),
    "marrowfield": ("L-0043", "Marrowfield Joinery", "11:00", "11:30", "14:10"),
    "dorrow": ("G-0017", "Dorrow", "14:30", "15:00", "16:00"),
    "pellingham": ("L-0044", "Pellingham", "16:15", "16:45", "18:00"),
    "tarrant": ("L-0045", "Tarrant", "09:00", "09:30", "10:45"),
}
URL = "http://127.0.0.1:8000/sittings/5c1f7a52-7d1e-4a3b-9a55-9f3e0c6b7d10/record/"


def brief(name: str) -> dict[str, Any]:
    return dict(json.loads((BRIEFS / f"{name}.json").read_text(encoding="utf-8")))


@cache
def _understood(name: str) -> Request:
    return codec.understand(brief(name))


def planned(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """The plan of an example with its input, free to be changed by a test."""
    return planned_once.plan(_understood(name)), brief(name)


def heading(name: str = "askew", **changed: Any) -> Heading:
    sitting, client, setup_at, sitter_at, finish_at = SITTINGS[name]
    values: dict[str, Any] = {
        "studio": "Lindenmere Portraits",
        "sitting": sitting,
        "client": client,
        "date": "Tue 4 May 2027",
        "room": "Garden Room" if sitting.startswith("G") else "Long Room",
        "setup_at": setup_at,
        "sitter_at": sitter_at,
        "finish_at": finish_at,
        "photographer": "Tobiah Renn",
        "assistant": "Ines Calloway",
        "plan_version": 1,
        "printed_at": "3 May 2027 17:20",
        "url": URL,
    }
    return Heading(**(values | changed))


@cache
def sheets(name: str, flags: Flags = Flags()) -> tuple[SetupSheet, ...]:  # noqa: B008 - frozen
    """The sheets of an example: frozen, and therefore composed once."""
    document, given = planned(name)
    return compose.setup_sheets(document, given, heading(name), flags)


EVERY_FLAG = {"guardian_in_room": True, "release_not_signed": True, "see_desk": True}


@cache
def crowded() -> SetupSheet:
    """Nine lights, one boomed, forty people in four rows with long names, every alert: paper must hold it all."""
    document, given = planned("pellingham")
    setup = document["setups"][0]
    labels = [f"Maximiliane-Theodora {n}" for n in range(40)]
    setup["sitters"] = [
        setup["sitters"][0]
        | {"label": label, "face_m": [round(-2.4 + 0.53 * (n % 10), 3), 1.1 + 0.2 * (n // 10), 0.5 - 0.6 * (n // 10)]}
        | {"row": n // 10 + 1, "side_of_picture": "middle", "seat": None}
        for n, label in enumerate(labels)
    ]
    first, second = setup["lights"]
    setup["lights"] = [
        (first if n % 2 else second)
        | {"letter": "ABCDEFGHI"[n], "position_m": [-2.4 + 0.6 * n, 2.4, 3.6 - 0.3 * (n % 4)]}
        | {"bearing_deg": -40.0 + 10 * n, "foot_m": [-2.5 + 0.62 * n, 4.0]}
        for n in range(9)
    ]
    setup["lights"][8] |= {"stand": "boom-1", "arm_m": 1.4, "counterweight_kg": 7.0, "foot_m": [2.9, 2.4]}
    alone = setup["meter_round"][0]
    setup["meter_round"] = [alone | {"on": [x["letter"]]} for x in setup["lights"]] + setup["meter_round"][2:]
    document["shots"] = [
        document["shots"][0] | {"n": n, "who": labels[: 3 + n], "cue": f"Sentence {n} of a long list. " * 4}
        for n in range(1, 15)
    ]
    everybody = frozenset(labels)
    flags = Flags(no_flash=everybody, chair_with_arms=everybody, glasses=everybody, **EVERY_FLAG)
    long = heading(
        client="Verwaltungsgesellschaft Marrowfield, Quillbridge and Lindenmere Joinery Holdings",
        photographer="Bartholomew Featherstonehaugh-Cholmondeley",
        assistant="Wilhelmina Throckmorton-Featherstonehaugh",
    )
    return compose.setup_sheets(document, given, long, flags)[0]
