"""Reads for the head pictures: a set-up of a frozen plan, or one of its other ways, as a grey plate with its words.

Belongs here: placing the lights of a way again, the file, keeping it in memory. Not here: the picture (`seeing.plate`),
or who may see it. Nothing of a plate is written to a row or a file.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from django.core.cache import cache
from django.utils.translation import gettext as _
from PIL import Image

from shotplans.light import shadows
from shotplans.models import Plan
from shotplans.planner import hand_plan
from shotplans.planner.expect import Meter, bearing_from_nose, main_sitter
from shotplans.planner.outcome import meter_of
from shotplans.planner.placed import NothingPlaced, placed, standing
from shotplans.planner.plan import Solved
from shotplans.planner.request import Request
from shotplans.seeing import plate, told

KEPT_S = 24 * 3600
DRAWN = 4  # raised when the head or its light changes
LEAST_CORE = 0.005
FACES_LENS_DEG = 8.0  # a nose nearer to the lens shows no shorter side
Entry = dict[str, Any]
CANNOT_STAND = (NothingPlaced, KeyError, StopIteration)  # nothing lit, or a document too old to say where


def named(request: Request, meter: Meter, entry: Entry) -> tuple[tuple[int, str, str], ...]:
    """The plates of a set-up: number, name, and what each shows in words; none of a way that cannot be placed again."""
    names = (_("This plan"), _("First alternative"), _("Second alternative"))
    ways = [entry["expected"], *(a["expected"] for a in entry["alternatives"])]
    found = []
    for n, (name, expected) in enumerate(zip(names, ways, strict=False)):
        try:
            solved = meter.solved if n == 0 else _turned(standing(request, _entry(entry, n)), entry, n)
        except CANNOT_STAND:
            continue
        found.append((n, name, _in_words(solved, expected)))
    return tuple(found)


def png(plan: Plan, setup: int, way: int, *, may_read: bool) -> bytes | None:
    """One plate as PNG; None where there is none. The skin of the notes is for those who may read notes."""
    key = f"plate-{DRAWN}-{plan.pk}-{plan.fingerprint}-{bool(plan.blanked_at)}-{setup}-{way}-{may_read}"
    body: bytes | None = cache.get(key)
    if body is None:
        body = _made(plan, setup, way, may_read)
        if body is not None:
            cache.set(key, body, KEPT_S)
    return body


def _made(plan: Plan, setup: int, way: int, may_read: bool) -> bytes | None:
    if not 1 <= setup <= len(plan.setups) or not 0 <= way <= len(plan.setups[setup - 1]["alternatives"]):
        return None
    entry = plan.setups[setup - 1]
    if way:  # weighed on the set as suggested, wherever a hand has since put camera and people
        entry = (hand_plan.suggested(plan.document, entry["name"]) or entry) | {"alternatives": entry["alternatives"]}
    meter = meter_at(plan.filled_request, entry if way == 0 else _entry(entry, way))
    if meter is None:
        return None
    meter = replace(meter, solved=_turned(meter.solved, entry, way))
    sitter = main_sitter(meter.solved)
    person = sitter.person
    skin = {"reflectance": person.reflectance, "roughness": person.roughness} if may_read else {}
    file = io.BytesIO()
    Image.fromarray(plate.greys(plate.render(meter, sitter, **skin))).save(file, "PNG", optimize=True)
    return file.getvalue()


def meter_at(request: Request, entry: Entry) -> Meter | None:
    """What a meter would read in a set-up of a document; None where nothing stands, or it is too old to say where."""
    try:
        return meter_of(request, placed(request, entry))
    except CANNOT_STAND:
        return None


def _entry(entry: Entry, way: int) -> Entry:
    """The set-up with another way's lights and what takes light off them, which plans say from 2026-11-29 on."""
    other = entry["alternatives"][way - 1]
    taken = other.get("blocks", [row for row in entry["blocks"] if row["keeps"] == "bounce"])
    return entry | {"lights": other["lights"], "blocks": taken}


def _turned(solved: Solved, entry: Entry, way: int) -> Solved:
    """The set with its people the other way round, where a way is the mirrored plan: the document has them once."""
    if way and entry["alternatives"][way - 1]["kind"] == "side":
        return replace(solved, pose=solved.pose.mirrored())
    return solved


def _in_words(solved: Solved, expected: Entry) -> str:
    """Pattern, short or broad side, edges and middle of the nose's shadow, relief."""
    key, sitter = solved.lights[0], main_sitter(solved)
    off_nose, nose = bearing_from_nose(key, sitter), sitter.nose_deg
    side = ""
    if abs(nose) >= FACES_LENS_DEG:
        side = _("short side lit") if off_nose * nose > 0 else _("broad side lit")
    relief = expected["per_sitter"][0]["relief_stops"] if expected["per_sitter"] else 0.0
    edge = _("edge of the nose shadow %(word)s, %(mm).0f mm") % {
        "word": shadows.softness_word(key.disc_size_m / key.distance_m), "mm": expected["shadow_edge_mm"],
    }  # fmt: skip
    shadow = _shadow(told.nose_shadow(key))
    parts = [str(expected["pattern"]), side, edge, *shadow, _("relief %(n).2f stops") % {"n": relief}]
    return ", ".join(part for part in parts if part)


def _shadow(nose: told.NoseShadow) -> Iterator[str]:
    if nose.edges_mm is not None:
        upright, level = nose.edges_mm
        yield _("the strip draws upright edges %(upright).0f mm, level ones %(level).0f mm wide") % {
            "upright": upright, "level": level,
        }  # fmt: skip
    if nose.core < LEAST_CORE:
        yield _("no key light in its middle")
    else:
        yield _("%(n).0f %% of the key in its middle") % {"n": 100 * nose.core}
