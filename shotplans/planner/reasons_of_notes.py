"""Why notes and wishes moved the light, one sitter at a time. Called by reasons.py."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.planner.conflicts import conflicts, low_lights
from shotplans.planner.expect import bearing_from_nose
from shotplans.planner.intents import Band
from shotplans.planner.notes import TEXTURE_NOTES, Moved
from shotplans.planner.people import Seated
from shotplans.planner.plan import Solved
from shotplans.planner.reason import RELIEF, TRADE, Reason, light_path
from shotplans.planner.words import joined
from shotplans.planner.words.notes import NOTES
from studio.tongue import gettext as _

MOST_SPOKEN_OF = 3  # with more people the numbers stand in the plan, without a sentence each


def wishes(solved: Solved, expected: dict[str, Any], sitters: list[dict[str, Any]]) -> Iterator[Reason]:
    """What each note moved, what two of them ask against each other, and how lines read on each skin."""
    for moved in solved.targets.moved:
        if moved.code in ("lines_softer", "lines_shown"):
            yield from _texture(solved, expected, sitters, moved)
        elif moved.code in ("light_hair", "accent_on_dark"):
            yield from _accent(solved, moved)
        elif moved.code == "source_larger":
            size = {"size": f"{expected['apparent_size_deg']:.0f}"}
            yield Reason(moved.about, moved.code, moved.paths, TRADE, {**moved.values, **size})
        else:
            yield Reason(moved.about, moved.code, moved.paths, TRADE)
    yield from conflicts(solved, sitters)
    yield from low_lights(solved, sitters)
    yield from _skins(solved, sitters)


def _texture(
    solved: Solved, expected: dict[str, Any], sitters: list[dict[str, Any]], moved: Moved
) -> Iterator[Reason]:
    by_label = {s["label"]: s for s in sitters}
    wish = "softer" if moved.code == "lines_softer" else "shown"
    for s in solved.pose.seated:
        paths = tuple(p for p in moved.paths if p.startswith(f"sitters[{s.person.index}]."))
        if paths and s.person.wish(*TEXTURE_NOTES) == wish:
            seen = by_label[s.person.label]
            values = {
                "label": s.person.label,
                "notes": _notes(s, wish),
                "rel": f"{abs(bearing_from_nose(solved.lights[0], s)):.0f}",
                "fill": expected["fill_below_key_stops"],
                "relief": seen["relief_stops"],
                "shadow": seen["relief_shadow_stops"],
                "highlight": seen["relief_highlight_stops"],
            }
            yield Reason(moved.about, moved.code, paths, RELIEF, values)


def _accent(solved: Solved, moved: Moved) -> Iterator[Reason]:
    """What the accent was wanted for, where there is one."""
    band = solved.targets.accent_band
    if solved.light("accent") is None or band is None:
        return
    values = {"level": f"{band.mid:g}"} if moved.code == "light_hair" else {"range": _range(band)}
    yield Reason(_about_accent(solved), moved.code, moved.paths, TRADE, values)


def _skins(solved: Solved, sitters: list[dict[str, Any]]) -> Iterator[Reason]:
    place = {s["label"]: n for n, s in enumerate(sitters)}
    for s in solved.pose.seated:
        if s.person.sitter.skin != "not noted" and len(solved.pose.seated) <= MOST_SPOKEN_OF:
            number = place[s.person.label]
            seen = sitters[number]
            values = {
                "label": s.person.label,
                "shadow": seen["relief_shadow_stops"],
                "highlight": seen["relief_highlight_stops"],
            }
            path = (f"sitters[{s.person.index}].skin",)
            yield Reason(f"expected.per_sitter[{number}]", "skin", path, RELIEF, values)


def _notes(seated: Seated, wish: str) -> str:
    """What of their face a sitter wishes softer or shown, in the order of the brief."""
    named = dict.fromkeys(w.note for w in seated.person.wishes if w.note in TEXTURE_NOTES and w.wish == wish)
    return joined.both([_(NOTES[note]) for note in named])


def _range(band: Band) -> str:
    """A band of stops against the key, read upward: a light brighter than the key lies over it."""
    if band.high <= 0:
        return _("{low} to {high} stops over").format(low=f"{abs(band.high):g}", high=f"{abs(band.low):g}")
    return _("{low} to {high} stops under").format(low=f"{band.low:g}", high=f"{band.high:g}")


def _about_accent(solved: Solved) -> str:
    light = solved.light("accent")
    return light_path(light) if light else "lights"
