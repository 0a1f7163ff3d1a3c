"""From notes and wishes to targets: which bands move, who minds most, what must not happen, and why.

The same note asks for opposite light for opposite wishes, so nothing here assumes that age must be hidden: a note
without a wish to change moves nothing. Rules of taste, common practice, no source; each carries its code for a reason.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from shotplans.light.sources import apparent_deg
from shotplans.planner.brief import Setup, Standard
from shotplans.planner.intents import SINGLE, Band, IntentRow, blended, row_for
from shotplans.planner.people import SWAP_SIDE, Person

TEXTURE_NOTES = ("lines", "bags", "neck", "scar", "blemish")
PULL = 0.6  # how far one wish moves an intent's row toward soft or character
OLDER_YEARS = 65.0
INFANT_YEARS = 3.0


@dataclass(frozen=True)
class Moved:
    """One thing a note, wish or rule did: a code for the words, values, and the paths it came from."""

    about: str
    code: str
    paths: tuple[str, ...]
    values: dict[str, object] = field(default_factory=dict)


@dataclass(frozen=True)
class Targets:
    """What the light of one set-up should be. `minds` weighs the people, in their order, summing to one."""

    row: IntentRow
    minds: tuple[float, ...]
    short_side: float
    better: str
    no_accent: str | None
    accent_band: Band | None
    fairer_far: bool
    moved: tuple[Moved, ...]
    intent_offered: str | None = None


def targets(
    setup: Setup, people: list[Person], together: int, standard: Standard | None, standard_size_m: float | None = None
) -> Targets:
    """The intent's row moved by the notes of the people in the picture (together = at once).

    `standard_size_m` is the effective size of a company standard's key modifier, where the kit holds it.
    """
    intent, offered = str(setup.intent), None
    if intent == "character" and together > 3:
        intent, offered = "bold", "bold"
    row = row_for(intent, together)
    moved: list[Moved] = []
    row = _texture(row, people, moved)
    row = _eyes_and_hats(row, people, moved)
    row = _chins(row, people, moved)
    row = _standard(row, standard, standard_size_m, moved)
    no_accent, accent = _accent(row, people, moved)
    minds = _minds(people)
    tones = [p.reflectance for p in people]
    uneven_skin = together == 2 and max(tones) / min(tones) >= 1.5
    if uneven_skin:
        moved.append(Moved("sitters", "fairer_far", tuple(f"sitters[{p.index}].skin" for p in people)))
    return Targets(
        row=row,
        minds=minds,
        short_side=_side(row, people),
        better=_better(people),
        no_accent=no_accent,
        accent_band=accent,
        fairer_far=uneven_skin,
        moved=tuple(moved),
        intent_offered=offered,
    )


def _paths(people: list[Person], wish: str, notes: tuple[str, ...]) -> tuple[str, ...]:
    found = []
    for p in people:
        for k, w in enumerate(p.wishes):
            if w.note in notes and w.wish == wish:
                found.append(f"sitters[{p.index}].wishes[{k}]")
    return tuple(found)


def _texture(row: IntentRow, people: list[Person], moved: list[Moved]) -> IntentRow:
    softer, shown = _paths(people, "softer", TEXTURE_NOTES), _paths(people, "shown", TEXTURE_NOTES)
    if softer and shown:
        moved.append(Moved("sitters", "wishes_opposed", softer + shown))
        return row
    if softer:
        calmer = replace(SINGLE["soft"], camera=row.camera, source=row.source) if len(people) > 1 else SINGLE["soft"]
        row = blended(row, calmer, PULL)
        moved.append(Moved("lights[0]", "lines_softer", softer))
        # On top of the intent's own row: nearer the nose.
        return replace(
            row,
            nose=Band(max(5.0, row.nose.low - 3), row.nose.high - 5),
            relief=Band(0.0, row.relief.high * 0.9),
        )
    if shown:
        row = blended(row, SINGLE["character"], PULL)
        moved.append(Moved("lights[0]", "lines_shown", shown))
    return row


def _eyes_and_hats(row: IntentRow, people: list[Person], moved: list[Moved]) -> IntentRow:
    brims = tuple(f"sitters[{p.index}].head" for p in people if p.sitter.head == "brim")
    deep = tuple(f"sitters[{p.index}].eyes" for p in people if p.sitter.eyes == "deep set")
    if brims:
        moved.append(Moved("lights[0].height_angle_deg", "brim", brims))
        return replace(row, height=Band(0.0, 12.0))
    if deep:
        moved.append(Moved("lights[0].height_angle_deg", "deep_set", deep))
        return replace(row, height=Band(min(row.height.low, 20.0), min(row.height.high, 30.0)))
    return row


def _chins(row: IntentRow, people: list[Person], moved: list[Moved]) -> IntentRow:
    paths = _paths(people, "softer", ("chin",))
    if paths:
        moved.append(Moved("lights[0].height_angle_deg", "chin_softer", paths))
        row = replace(row, height=Band(row.height.low + 3, row.height.high + 3))
    narrow = tuple(f"sitters[{p.index}].face_width" for p in people if p.sitter.face_width == "narrow")
    if narrow and len(people) == 1:
        moved.append(Moved("lights[0].bearing_deg", "narrow_face", narrow))
        row = replace(row, nose=row.nose.toward(Band(15, 25), 0.5))
    return row


def _standard(row: IntentRow, standard: Standard | None, size_m: float | None, moved: list[Moved]) -> IntentRow:
    """A company's standard narrows the bands to what was done before."""
    if standard is None:
        return row
    if standard.key_m is not None and size_m is not None:
        seen = float(apparent_deg(size_m, standard.key_m))
        row = replace(row, source=Band(seen - 1.5, seen + 1.5))
    if standard.key_height_deg is not None:
        h = float(standard.key_height_deg)
        row = replace(row, height=Band(h - 3, h + 7))
    if standard.key_bearing_deg is not None:
        b = abs(float(standard.key_bearing_deg))
        row = replace(row, camera=Band(b - 3, b + 3))
    if standard.fill_below_key_stops is not None:
        f = float(standard.fill_below_key_stops)
        row = replace(row, fill=Band(f - 0.15, f + 0.15))
    if standard.background_lightness is not None:
        ground = float(standard.background_lightness)
        row = replace(row, ground=Band(ground - 3, ground + 3))
    moved.append(Moved("lights[0]", "standard", ("brief.standard",)))
    return row


def _side(row: IntentRow, people: list[Person]) -> float:
    """Preference for the short side, -1 (broad) to 1 (short)."""
    if any(p.sitter.face_width == "wide" or p.wish("width") == "softer" for p in people):
        return 1.0
    if any(p.sitter.face_width == "narrow" for p in people):
        return -0.6
    return 0.5


def _better(people: list[Person]) -> str:
    """The side of one sitter to show the camera: their own better side, or the one a sided wish asks for."""
    if len(people) != 1:
        return "none"
    person = people[0]
    if person.better_side != "none":
        return person.better_side
    for wish in person.wishes:
        if wish.side in ("own_left", "own_right") and wish.wish in ("softer", "shown"):
            turned_away = SWAP_SIDE[str(wish.side)]
            return str(wish.side) if wish.wish == "shown" else turned_away
    return "none"


def _minds(people: list[Person]) -> tuple[float, ...]:
    """Who minds most how lines are drawn: a wish weighs four times a sitter without one."""
    raw = [4.0 if p.wish(*TEXTURE_NOTES) else 1.0 for p in people]
    return tuple(float(w) for w in np.asarray(raw) / sum(raw))


def _light_haired(people: list[Person]) -> tuple[str, ...]:
    return tuple(f"sitters[{p.index}].hair" for p in people if p.sitter.hair in ("fair", "white", "grey"))


def _accent(row: IntentRow, people: list[Person], moved: list[Moved]) -> tuple[str | None, Band | None]:
    """Whether an accent is wanted, and how far under the key."""
    if row.accent is None:
        return "not_wanted", None
    first = people[0].sitter
    everybody = [p.sitter for p in people]
    if any((s.age_years or 40.0) < INFANT_YEARS for s in everybody):
        return "infant", None
    if any(p.wish("shine") == "softer" for p in people):
        return "shine", None
    if row.accent_kind == "hair":
        if any(s.head == "bald" for s in everybody):
            return "bald", None
        if all(s.hair == "white" for s in everybody) and row.name == "soft":
            return "white_hair", None
        if _light_haired(people):
            moved.append(Moved("lights.accent", "light_hair", _light_haired(people)))
            return None, Band(max(row.accent.low, 1.5), max(row.accent.high, 2.5))
        if first.hair == "dark" and row.name == "natural":
            return None, Band(0.5, 1.0)
    return None, row.accent
