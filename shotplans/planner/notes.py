"""From notes and wishes to targets: which bands move, who minds most, what must not happen, and why.

The same note asks for opposite light for opposite wishes, so nothing here assumes that age must be hidden: a note
without a wish to change moves nothing. The numbers are the studio's rules (`rules.RULES`); each move carries its code
for a reason. What two notes ask against each other is told in `conflicts`.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from shotplans.light.sources import apparent_deg
from shotplans.planner.brief import Setup, Standard
from shotplans.planner.intents import Band, IntentRow, blended
from shotplans.planner.people import OLDER_YEARS, SWAP_SIDE, Person, age_of
from shotplans.planner.rules import UNCHANGED, House
from shotplans.planner.rules_of_intents import row_for, single

TEXTURE_NOTES = ("lines", "bags", "neck", "scar", "blemish")
DARK_GROUNDS = ("black", "dark")
DEEP_SKIN = ("brown", "dark")
LIGHT_HAIR = ("fair", "white", "grey")


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
    house: House = UNCHANGED
    ground_least_m: float = 0.0


def targets(
    setup: Setup,
    people: list[Person],
    together: int,
    standard: Standard | None,
    standard_size_m: float | None = None,
    house: House = UNCHANGED,
) -> Targets:
    """The intent's row moved by the notes of the people in the picture (together = at once), by the house's rules.

    `standard_size_m` is the effective size of a company standard's key modifier, where the kit holds it.
    """
    intent, offered = str(setup.intent), None
    if intent == "character" and together > 3:
        intent, offered = "bold", "bold"
    row = row_for(intent, together, house)
    moved: list[Moved] = []
    if older_pair(people, together) and intent not in ("bold", "character"):
        row = replace(row, faces_stops=min(row.faces_stops, house.number("older_pair", "faces_stops")))
    row = _texture(row, people, house, moved)
    row = _gloss(row, people, together, house, moved)
    row = _eyes_and_hats(row, people, house, moved)
    row = _chins(row, people, house, moved)
    row = _standard(row, standard, standard_size_m, moved)
    no_accent, accent, row = _accent(row, people, setup, house, moved)
    tones = [p.reflectance for p in people]
    uneven_skin = together == 2 and max(tones) / min(tones) >= house.number("tones_apart", "ratio")
    if uneven_skin:
        moved.append(Moved("sitters", "fairer_far", tuple(f"sitters[{p.index}].skin" for p in people)))
    return Targets(
        row=row,
        minds=_minds(people, house),
        short_side=_side(people),
        better=_better(people),
        no_accent=no_accent,
        accent_band=accent,
        fairer_far=uneven_skin,
        moved=tuple(moved),
        intent_offered=offered,
        house=house,
        ground_least_m=house.number("hair_big", "ground_least_m") if any(p.sitter.big_hair for p in people) else 0.0,
    )


def older_pair(people: list[Person], together: int) -> bool:
    """Whether two are in one picture, one of them of an age that is spared."""
    return together == 2 and any(float(p.sitter.age_years or 0.0) >= OLDER_YEARS for p in people)


def wish_paths(people: list[Person], wish: str, notes: tuple[str, ...]) -> tuple[str, ...]:
    """Paths of the wishes of one kind about any of these notes."""
    found = []
    for p in people:
        for k, w in enumerate(p.wishes):
            if w.note in notes and w.wish == wish:
                found.append(f"sitters[{p.index}].wishes[{k}]")
    return tuple(found)


def _texture(row: IntentRow, people: list[Person], house: House, moved: list[Moved]) -> IntentRow:
    softer, shown = wish_paths(people, "softer", TEXTURE_NOTES), wish_paths(people, "shown", TEXTURE_NOTES)
    if softer and shown:
        moved.append(Moved("sitters", "wishes_opposed", softer + shown))
        return row
    if softer:
        moved.append(Moved("lights[0]", "lines_softer", softer))
        return softened(row, len(people) > 1, house)
    if shown:
        moved.append(Moved("lights[0]", "lines_shown", shown))
        return sharpened(row, house)
    return row


def softened(row: IntentRow, many: bool, house: House) -> IntentRow:
    """The row for a wish that lines be softer: toward soft, and nearer the nose on top of it."""
    soft = single("soft", house)
    calmer = replace(soft, camera=row.camera, source=row.source) if many else soft
    row = blended(row, calmer, house.number("lines_softer", "pull_share") / 100)
    near, far, least = (
        house.number("lines_softer", n) for n in ("near_end_less_deg", "far_end_less_deg", "nose_least_deg")
    )
    low = max(least, row.nose.low - near)
    return replace(
        row,
        nose=Band(low, max(low, row.nose.high - far)),
        relief=Band(0.0, row.relief.high * house.number("lines_softer", "relief_share") / 100),
    )


def sharpened(row: IntentRow, house: House) -> IntentRow:
    """The row for a wish that lines be shown: toward character."""
    return blended(row, single("character", house), house.number("lines_shown", "pull_share") / 100)


def _gloss(row: IntentRow, people: list[Person], together: int, house: House, moved: list[Moved]) -> IntentRow:
    """A larger source where gloss is to be spread; people in turn keep the light they share."""
    if len(people) != together or together > 2:
        return row
    asked: dict[str, tuple[str, ...]] = {
        "shine": wish_paths(people, "softer", ("shine",)),
        "tone_deep": tuple(f"sitters[{p.index}].skin" for p in people if p.sitter.skin in DEEP_SKIN),
        "clothes_shiny": tuple(f"sitters[{p.index}].clothes" for p in people if p.sitter.clothes.shiny),
    }
    paths = tuple(path for found in asked.values() for path in found)
    if not paths:
        return row
    more = max(house.number(rule, "source_more_deg") for rule, found in asked.items() if found)
    source = Band(row.source.low + more, row.source.high + more)
    values: dict[str, object] = {"more": f"{more:g}", "low": f"{source.low:.0f}", "high": f"{source.high:.0f}"}
    moved.append(Moved("lights[0].distance_m", "source_larger", paths, values))
    return replace(row, source=source)


def _eyes_and_hats(row: IntentRow, people: list[Person], house: House, moved: list[Moved]) -> IntentRow:
    brims = tuple(f"sitters[{p.index}].head" for p in people if p.sitter.head == "brim")
    deep = tuple(f"sitters[{p.index}].eyes" for p in people if p.sitter.eyes == "deep set")
    if brims:
        moved.append(Moved("lights[0].height_angle_deg", "brim", brims))
        return replace(row, height=house.band("brim", "height", "deg"))
    if deep:
        moved.append(Moved("lights[0].height_angle_deg", "deep_set", deep))
        wanted = house.band("deep_set", "height", "deg")
        low, high = min(row.height.low, wanted.low), min(row.height.high, wanted.high)
        return replace(row, height=Band(min(low, high), high))
    return row


def _chins(row: IntentRow, people: list[Person], house: House, moved: list[Moved]) -> IntentRow:
    paths = wish_paths(people, "softer", ("chin",))
    if paths:
        moved.append(Moved("lights[0].height_angle_deg", "chin_softer", paths))
        up = house.number("chin_softer", "key_up_deg")
        row = replace(row, height=Band(row.height.low + up, row.height.high + up))
    narrow = tuple(f"sitters[{p.index}].face_width" for p in people if p.sitter.face_width == "narrow")
    if narrow and len(people) == 1:
        moved.append(Moved("lights[0].bearing_deg", "narrow_face", narrow))
        flatter, share = house.band("face_narrow", "nose", "deg"), house.number("face_narrow", "share") / 100
        row = replace(row, nose=row.nose.toward(flatter, share))
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


def _side(people: list[Person]) -> float:
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


def _minds(people: list[Person], house: House) -> tuple[float, ...]:
    """Who minds most how lines are drawn, summing to one."""
    weight = house.number("who_minds", "weight")
    raw = [weight if p.wish(*TEXTURE_NOTES) else 1.0 for p in people]
    return tuple(float(w) for w in np.asarray(raw) / sum(raw))


def _with_hair(people: list[Person], *tones: str) -> tuple[str, ...]:
    bare = ("bald", "covered")
    return tuple(f"sitters[{p.index}].hair" for p in people if p.sitter.hair in tones and p.sitter.head not in bare)


Accent = tuple[str | None, Band | None, IntentRow]


def _accent(row: IntentRow, people: list[Person], setup: Setup, house: House, moved: list[Moved]) -> Accent:
    """Whether an accent is wanted, how far under the key, and the row with its kind."""
    everybody = [p.sitter for p in people]
    dark = str(setup.background_tone) in DARK_GROUNDS
    asked = _parting(people, house) if dark and len(people) <= 2 else None
    if row.accent is None and asked is None:
        return "not_wanted", None, row
    if any(age_of(s) < house.number("infant", "years") for s in everybody):
        return "infant", None, row
    if any(p.wish("shine") == "softer" for p in people):
        return "shine", None, row
    bald = any(s.head == "bald" for s in everybody)
    if bald and (row.accent_kind == "hair" or row.accent is None):
        return "bald", None, row
    if row.accent is None and asked is not None:
        rule, paths, band = asked
        moved.append(Moved("lights.accent", "accent_on_dark", paths))
        return None, band, replace(row, accent=band, accent_kind="hair" if rule == "hair_on_dark" else "rim")
    assert row.accent is not None
    if row.accent_kind == "hair":
        if all(s.hair == "white" for s in everybody) and row.name == "soft":
            return "white_hair", None, row
        light = _with_hair(people, *LIGHT_HAIR)
        if light:
            moved.append(Moved("lights.accent", "light_hair", light))
            least = house.band("hair_light", "", "stops")
            return None, Band(max(row.accent.low, least.low), max(row.accent.high, least.high)), row
        if dark and _with_hair(people, "dark"):
            moved.append(Moved("lights.accent", "accent_on_dark", _with_hair(people, "dark")))
            return None, house.band("hair_on_dark", "", "stops"), row
        if everybody[0].hair == "dark" and row.name == "natural":
            return None, house.band("hair_dark", "", "stops"), row
    return None, row.accent, row


def _parting(people: list[Person], house: House) -> tuple[str, tuple[str, ...], Band] | None:
    """What would melt into a dark ground in a light without an accent: rule, notes, how far under the key."""
    dark_hair = _with_hair(people, "dark")
    if dark_hair:
        return "hair_on_dark", dark_hair, house.band("hair_on_dark", "", "stops")
    clothes = tuple(f"sitters[{p.index}].clothes.tone" for p in people if p.sitter.clothes.tone == "dark")
    if clothes:
        return "clothes_dark", clothes, house.band("clothes_dark", "", "stops")
    skin = tuple(f"sitters[{p.index}].skin" for p in people if p.sitter.skin in DEEP_SKIN)
    return ("tone_deep", skin, house.band("tone_deep", "rim", "stops")) if skin else None
