"""The only bridge from rows to the planner: a sitting's brief, people, room and free kit as the planner's own values.

Belongs here: turning rows into the tree that `recommend` would read from a file, and asking whether a plan is stale.
Not here: planning, or writing anything.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import date
from functools import lru_cache
from itertools import accumulate
from types import SimpleNamespace
from typing import Any, NamedTuple

from django.db.models import Q
from django.utils import timezone

from bookings.actions import claims
from bookings.models import Sitter, Sitting
from bookings.permissions import has_people
from shotplans import corrections, measured_beams, shot_page
from shotplans.models import CompanyStandard, OwnNumber, OwnPoseCard, Plan, in_force, kit_for
from shotplans.planner import assumptions, codec, rules
from shotplans.planner import kit as owned
from shotplans.planner.request import Request
from studio.models import KIT, KitItem, Profile, Room

SECTION_CLASSES: dict[str, type[Any]] = {
    "heads": owned.Head, "modifiers": owned.Modifier, "adapters": owned.Adapter, "stands": owned.Stand,
    "panels": owned.Panel, "weights": owned.Weight, "flags": owned.Flag, "triggers": owned.Trigger,
    "backgrounds": owned.Background, "cameras": owned.Camera, "lenses": owned.Lens, "seats": owned.Seat,
    "risers": owned.Riser,
}  # fmt: skip


def _columns(section: str) -> dict[str, str]:
    """The columns that only this kind of kit has, as they are asked of all kinds at once."""
    kind: Any = KIT[section]
    link = kind._meta.get_ancestor_link(KitItem).remote_field.get_accessor_name()
    return {field.name: f"{link}__{field.name}" for field in kind._meta.local_fields if not field.primary_key}


_COLUMNS = {section: _columns(section) for section in SECTION_CLASSES}
_STARTS = accumulate((len(columns) for columns in _COLUMNS.values()), initial=0)
_FROM = dict(zip(_COLUMNS, _STARTS, strict=False))  # where a section's columns begin in a row of all of them
ASK: Any = object()  # what was learned today, where nothing else is to stand instead
EVENT_ON = "event_on"  # in a kept brief: the day the pictures are for
SHAPES = {"disc": ("width_m", "height_m"), "rect": ("diameter_m",)}
NOTES = (
    "skin", "surface", "texture", "eyes", "beard", "hair", "head", "face_width", "better_side", "turn_limit_deg",
    "chin_limit_deg", "stand_minutes", "hip_or_back", "no_flash", "hearing", "low_vision", "tremor", "sensory",
    "shy", "broad_seat", "big_hair",
)  # fmt: skip


def request_for(sitting: Sitting) -> Request:
    """Today's input for a sitting: its confirmed brief, its people, its room, the kit free in its span, and what
    readings taught of that kit.

    Raises codec.Unreadable when something a plan needs is missing, naming every gap.
    """
    return codec.understand(tree_for(sitting))


def tree_for(
    sitting: Sitting, *, corrected: list[dict[str, Any]] | None = None, paced: Any = ASK
) -> dict[str, Any]:
    """The same as plain values, as they would stand in a file; `corrected` and `paced` stand instead of what was
    learned."""
    kit = free_kit(sitting)
    return {
        "brief": brief_tree(sitting),
        "sitters": [_sitter(s) for s in _people(sitting)],
        "room": _room(sitting.room),
        "kit": kit,
        "corrections": corrections.for_kit(kit) if corrected is None else corrected,
        "preferences": {"units": Profile.get().units},
        "rules": _rules(),
        "beams": measured_beams.for_kit(kit),
        "cards": [card.lines for card in OwnPoseCard.objects.filter(in_use=True)],
        "pace": _pace() if paced is ASK else paced,
    }


def brief_tree(sitting: Sitting) -> dict[str, Any]:
    """The confirmed brief. The page keeps the day of an event; the planner is told the days between, which a move of
    the sitting changes."""
    tree = dict(sitting.brief.data)
    if event_on := tree.pop(EVENT_ON, None):
        tree["event_in_days"] = (date.fromisoformat(event_on) - timezone.localdate(sitting.starts_at)).days
    if not tree.get("standard") and (standard := company_standard(sitting)) is not None:
        tree["standard"] = standard.tree
    return tree | shot_page.asked(sitting)


def company_standard(sitting: Sitting) -> CompanyStandard | None:
    """The look the sitting's company shares, if it has one."""
    return CompanyStandard.objects.filter(client=sitting.client_id).first()


class Asked(NamedTuple):
    """An input as understood, defaults and all, and its fingerprint."""

    filled: Request
    fingerprint: str


@lru_cache(maxsize=64)
def _asked(text: str) -> Asked:
    """The same for the same text, so that a page which is opened again reads its rows alone. Raises Unreadable."""
    filled, _ = assumptions.fill(codec.understand(json.loads(text)))
    return Asked(filled, codec.fingerprint(filled))


def today_of(plan: Plan) -> Asked | None:
    """What the plan would be asked today; None where something a plan needs is missing. What readings taught since
    stands as it stood: it makes no plan stale, else each reading of its own round would, and the page says beside the
    plan where they have gone. Nothing is asked of a blanked plan: its sitting is over, and the brief may be gone."""
    if plan.blanked_at is not None:
        return None
    given = plan.request
    try:
        tree = tree_for(plan.sitting, corrected=given.get("corrections") or [], paced=given.get("pace"))
        return _asked(json.dumps(tree))
    except codec.Unreadable:
        return None


def is_stale(plan: Plan, today: Asked | None = ASK) -> bool:
    """Whether the plan's input differs from today's (as `today_of` gave it, where it was asked already); asked on
    reading, never told. A blanked plan is of a sitting that is over: nothing is left to hold it against."""
    if plan.blanked_at is not None:
        return False
    if today is ASK:
        today = today_of(plan)
    return today is None or today.fingerprint != plan.fingerprint


def frozen_input(request: Request) -> dict[str, Any]:
    """The input as understood, defaults and all, to be kept with the plan."""
    filled, _ = assumptions.fill(request)
    found: dict[str, Any] = filled.model_dump(mode="json", by_alias=True)
    return found


def _pace() -> dict[str, float] | None:
    """Minutes of pictures and changes as ticks told, drawn towards the house's rules; None before there are any."""
    within, across = shot_page.gaps()
    if not within and not across:
        return None
    kept = rules.House(in_force(OwnNumber.objects.all()))
    names = (("shot_minutes", within), ("change_minutes", across))
    return {name: shot_page.shrunk(kept.number("pace", name), told) for name, told in names}


def _present(values: dict[str, Any]) -> dict[str, Any]:
    """Only what is known: blanks and unknowns are left to the planner's stated defaults."""
    return {k: v for k, v in values.items() if v not in (None, "")}


def _people(sitting: Sitting) -> Iterable[Sitter]:
    if has_people(sitting):
        return sitting.sitters.all()
    return sitting.sitters.select_related("notes").prefetch_related("wishes")


def _sitter(sitter: Sitter) -> dict[str, Any]:
    notes = getattr(sitter, "notes", None)
    tree = _present(
        {
            "label": sitter.label, "age_years": sitter.age_years, "height_cm": sitter.height_cm,
            "posture": sitter.posture, "household": sitter.household, "relation": sitter.relation,
            "central": sitter.central, "keep_with": sitter.keep_with,
        }
    )  # fmt: skip
    if notes is not None:
        tree |= _present({name: getattr(notes, name) for name in NOTES})
        if notes.glasses_lens:
            tree["glasses"] = _present({"lens": notes.glasses_lens, "may_remove": notes.may_remove})
        clothes = _present(
            {
                "tone": notes.clothes_tone, "bare_arms": notes.bare_arms, "shiny": notes.clothes_shiny,
                "pattern": notes.clothes_pattern,
            }
        )  # fmt: skip
        if clothes:
            tree["clothes"] = clothes
    tree["wishes"] = [_present({"note": w.note, "side": w.side, "wish": w.wish}) for w in sitter.wishes.all() if w.note]
    return tree


def _room(room: Room) -> dict[str, Any]:
    tree = _present(
        {
            name: getattr(room, name)
            for name in ("width_m", "depth_m", "ceiling_m", "keep_out_m", "set_axis", "ambient_lux", "black_out")
        }
    )
    tree["surfaces"] = {
        "walls": room.surface_walls, "ceiling": room.surface_ceiling, "floor": room.surface_floor,
    }  # fmt: skip
    tree["windows"] = [
        _present({name: getattr(w, name) for name in ("wall", "width_m", "height_m", "sill_m")})
        for w in room.windows.all()
    ]
    tree["circuits"] = [
        {"label": c.label, "volts": c.volts, "breaker_amps": c.breaker_amps} for c in room.circuits.all()
    ]
    return tree


def free_kit(sitting: Sitting) -> dict[str, Any]:
    """What is ready and not claimed by another sitting while this one has the room."""
    taken = claims.kit_held_by_others(sitting)
    found: dict[str, Any] = {section: [] for section in SECTION_CLASSES}
    for pk, section, row in _ready(kit_for(sitting)):
        if pk not in taken:
            found[section].append(piece(section, row))
    return found


def ready_kit(sections: Iterable[str]) -> dict[str, list[tuple[int, dict[str, Any]]]]:
    """What is ready of these sections, each piece with its key, whoever claims it: one question."""
    found: dict[str, list[tuple[int, dict[str, Any]]]] = {}
    for pk, section, row in _ready(Q(section__in=sections)):
        found.setdefault(section, []).append((pk, piece(section, row)))
    return found


def _ready(of: Q) -> Iterator[tuple[int, str, SimpleNamespace]]:
    """Each ready piece that a plan knows: its key, its section, and its values by the names of its own table."""
    for pk, section, code, label, mass_kg, *values in _ready_kit().filter(of):
        if section in _COLUMNS:
            own = dict(zip(_COLUMNS[section], values[_FROM[section] :], strict=False))
            yield pk, section, SimpleNamespace(code=code, label=label, mass_kg=mass_kg, kg=mass_kg, **own)


@lru_cache(maxsize=1)
def _ready_kit() -> Any:
    """Ready kit of all kinds in one question, no row of it whole, and put together once: thirteen questions cost more
    than all else on a plan's page, and so did the joins of this one."""
    asked = ("pk", "section", "code", "label", "mass_kg", *(path for of in _COLUMNS.values() for path in of.values()))
    return KitItem.objects.free().order_by("code").values_list(*asked)


def _rules() -> list[dict[str, Any]]:
    """The numbers the studio set itself, in one order, so that equal rules make equal plans."""
    own = in_force(OwnNumber.objects.all())
    return [{"rule": rule, "number": number, "value": value} for (rule, number), value in sorted(own.items())]


def piece(section: str, row: Any) -> dict[str, Any]:
    """One piece by the field names of the planner's class for its section."""
    values: dict[str, Any] = {"id": row.code}
    for name, field in SECTION_CLASSES[section].model_fields.items():
        if name == "id":
            continue
        if name == "dial":
            values["dial"] = _present({"scale": row.dial_scale, "step": row.dial_step})
        elif name == "from_":
            values["from"] = row.from_mount
        elif name == "to":
            values["to"] = row.to_mount
        elif hasattr(row, name):
            values[field.alias or name] = getattr(row, name)
    for unused in SHAPES.get(str(values.get("shape")), ()):
        values.pop(unused, None)
    return _present(values)
