"""Where two notes, or a note and the geometry, pull apart: what each asked, what was chosen, what the other way costs.

Every number is the plan's or the house's. Belongs here: finding the pairs and their values; sentences are in
`words.notes`. Called by `reasons_of_notes`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from shotplans.planner import pattern
from shotplans.planner.expect import bearing_from_nose, main_sitter
from shotplans.planner.notes import DARK_GROUNDS, LIGHT_HAIR, TEXTURE_NOTES, sharpened, softened, wish_paths
from shotplans.planner.people import Person, Seated
from shotplans.planner.plan import Light, Solved
from shotplans.planner.poses_by_rule import strong_lenses, wishes_narrower
from shotplans.planner.reason import TRADE, Reason, light_path
from shotplans.planner.rules_of_intents import row_for
from shotplans.planner.words.notes import NOTES, WISHES
from studio.tongue import gettext as _
from studio.tongue import noop

Sitters = Sequence[dict[str, Any]]
LIGHT_6 = noop("trade form of our own study, checked by traced rays [LIGHT-6]")
HEIGHT = "lights[0].height_angle_deg"


def conflicts(solved: Solved, sitters: Sitters) -> Iterator[Reason]:
    """One reason for each pair that pulls apart, in the order height, bearing, people, accent."""
    yield from _glasses_and_deep_set(solved, sitters)
    yield from _brim_and_glasses(solved, sitters)
    yield from _chin_and_deep_set(solved)
    yield from _softer_and_shown(solved)
    yield from _turn_and_lenses(solved)
    yield from _wide_and_narrow(solved)
    yield from _sides(solved)
    yield from _hair_of_two(solved)
    yield from _bare_on_dark(solved)


def low_lights(solved: Solved, sitters: Sitters) -> Iterator[Reason]:
    """Each key or fill whose lower edge is under the trade's figure for somebody's glasses, with the first cure.

    The computed margin is the plan's own word; where the light shows, the problem `glare` says so beside this.
    """
    worn = [s for s in solved.pose.seated if s.person.wears_glasses]
    place = {entry["label"]: n for n, entry in enumerate(sitters)}
    for light in solved.by_role("key", "fill"):
        short = [(needed_edge_deg(solved, s) - lower_edge_deg(solved, light, s), -s.person.index, s) for s in worn]
        under = [row for row in short if row[0] > 0.5]
        if not under:
            continue
        seated = max(under, key=lambda row: row[:2])[2]
        seen = next(g for g in sitters[place[seated.person.label]]["glasses"] if g["light"] == light.letter)
        values = {
            "letter": light.letter, "label": seated.person.label, "margin": f"{seen['margin_deg']:.0f}",
            "edge": _of_eyes(lower_edge_deg(solved, light, seated)), "need": f"{needed_edge_deg(solved, seated):.0f}",
            "cure": seen["cure"] or _first_cure(seated, light),
        }  # fmt: skip
        path = (f"sitters[{seated.person.index}].glasses",)
        about = f"expected.per_sitter[{place[seated.person.label]}].glasses"
        yield Reason(about, "glasses_low", path, LIGHT_6, values)


def _of_eyes(height_deg: float) -> str:
    said = _("{by} degrees below the eyes") if height_deg < 0 else _("{by} degrees above the eyes")
    return said.format(by=f"{abs(height_deg):.0f}")


def _first_cure(seated: Seated, light: Light) -> str:
    """The first cure in the trade's order that is still open: chin, then the fill's place, then the frames."""
    if float(seated.person.sitter.chin_limit_deg) > abs(seated.chin_deg):
        return _("chin a little further down, temples up")
    return _("fill higher, or to the key's side") if light.role == "fill" else _("temples up, then a slight turn")


def _rise(solved: Solved, seated: Seated) -> float:
    """How much higher the lights go for one of several people in turn; key and camera follow the eyes."""
    return seated.face_m[1] - solved.pose.eye_m if solved.pose.in_turn else 0.0


def lower_edge_deg(solved: Solved, light: Light, seated: Seated) -> float:
    """Height angle of a front's lower edge above a sitter's eyes, degrees."""
    to = light.at + np.array([0.0, _rise(solved, seated), 0.0]) - np.array(seated.face_m)
    far = float(np.linalg.norm(to))
    return float(np.degrees(np.arcsin(to[1] / far) - np.arctan(light.glare_size_m / (2 * far))))


def needed_edge_deg(solved: Solved, seated: Seated) -> float:
    """The trade's figure for that edge: a level chin's angle, two degrees more for each the chin is up, and slack."""
    level, slack = (solved.targets.house.number("glasses", n) for n in ("edge_deg", "slack_deg"))
    return level + 2 * seated.chin_deg + slack


def _needed_middle_deg(solved: Solved, seated: Seated) -> float:
    """Where the middle of the key must be for its edge to be there."""
    key = solved.lights[0]
    far = float(np.linalg.norm(key.at + np.array([0.0, _rise(solved, seated), 0.0]) - np.array(seated.face_m)))
    return needed_edge_deg(solved, seated) + float(np.degrees(np.arctan(key.glare_size_m / (2 * far))))


def _wearer(solved: Solved) -> Seated | None:
    """Who with glasses asks most of the key's height."""
    worn = [s for s in solved.pose.seated if s.person.wears_glasses]
    return max(worn, key=lambda s: (_needed_middle_deg(solved, s), -s.person.index), default=None)


def _margin(solved: Solved, sitters: Sitters, seated: Seated) -> float:
    entry = next(e for e in sitters if e["label"] == seated.person.label)
    return float(next(g["margin_deg"] for g in entry["glasses"] if g["light"] == solved.lights[0].letter))


def _people(solved: Solved) -> list[Person]:
    return [s.person for s in sorted(solved.pose.seated, key=lambda s: s.person.index)]


def _paths(people: list[Person], key: str) -> tuple[str, ...]:
    return tuple(f"sitters[{p.index}].{key}" for p in people)


def _glasses_and_deep_set(solved: Solved, sitters: Sitters) -> Iterator[Reason]:
    deep = [p for p in _people(solved) if p.sitter.eyes == "deep set"]
    wearer, height = _wearer(solved), solved.lights[0].height_deg
    if wearer is None or not deep or any(p.sitter.head == "brim" for p in _people(solved)):
        return
    band = solved.targets.house.band("deep_set", "height", "deg")
    need = _needed_middle_deg(solved, wearer)
    kept = need - 0.5 <= height <= band.high + 0.5
    neither = band.high + 0.5 < height < need - 0.5
    only = _("neither") if neither else _("the eyes") if height < need else _("the glasses")
    values = {
        "need": f"{need:.0f}", "high": f"{band.high:.0f}", "low": f"{band.low:.0f}", "height": f"{height:.0f}",
        "kept": only, "chin": f"{wearer.chin_deg:+.0f}", "margin": f"{_margin(solved, sitters, wearer):.0f}",
        # each degree the frames tilt turns what they mirror by two
        "tilt": f"{max(0.0, (need - band.low) / 2):.0f}",
    }  # fmt: skip
    paths = (f"sitters[{wearer.person.index}].glasses", *_paths(deep, "eyes"))
    yield Reason(HEIGHT, "glasses_deep_both" if kept else "glasses_deep_traded", paths, LIGHT_6, values)


def _brim_and_glasses(solved: Solved, sitters: Sitters) -> Iterator[Reason]:
    brims = [p for p in _people(solved) if p.sitter.head == "brim"]
    wearer = _wearer(solved)
    if wearer is None or not brims:
        return
    band = solved.targets.house.band("brim", "height", "deg")
    need = _needed_middle_deg(solved, wearer)
    if need <= band.high:
        return
    values = {
        "need": f"{need:.0f}", "high": f"{band.high:.0f}", "height": f"{solved.lights[0].height_deg:.0f}",
        "margin": f"{_margin(solved, sitters, wearer):.0f}", "more": f"{need - band.high:.0f}",
    }  # fmt: skip
    paths = (f"sitters[{wearer.person.index}].glasses", *_paths(brims, "head"))
    yield Reason(HEIGHT, "brim_glasses", paths, LIGHT_6, values)


def _chin_and_deep_set(solved: Solved) -> Iterator[Reason]:
    people, house = _people(solved), solved.targets.house
    chins = wish_paths(people, "softer", ("chin",))
    deep = [p for p in people if p.sitter.eyes == "deep set"]
    if not chins or not deep or any(p.sitter.head == "brim" for p in people):
        return
    row, high = solved.targets.row, house.number("deep_set", "height_high_deg")
    values = {
        "up": f"{house.number('chin_softer', 'key_up_deg'):g}", "high": f"{high:.0f}", "low": f"{row.height.low:.0f}",
        "most": f"{row.height.high:.0f}", "height": f"{solved.lights[0].height_deg:.0f}",
        "camera": f"{100 * (solved.camera.height_m - solved.pose.eye_m):.0f}",
    }  # fmt: skip
    yield Reason(HEIGHT, "chin_deep", (*chins, *_paths(deep, "eyes")), TRADE, values)


def _softer_and_shown(solved: Solved) -> Iterator[Reason]:
    people, house = _people(solved), solved.targets.house
    softer, shown = wish_paths(people, "softer", TEXTURE_NOTES), wish_paths(people, "shown", TEXTURE_NOTES)
    if not softer or not shown:
        return
    intent = solved.targets.intent_offered or str(solved.setup.intent)
    row = row_for(intent, len(solved.pose.together), house)
    calm, drawn, kept = softened(row, len(people) > 1, house).nose, sharpened(row, house).nose, solved.targets.row.nose
    values = {
        "soft_low": f"{calm.low:.0f}", "soft_high": f"{calm.high:.0f}", "shown_low": f"{drawn.low:.0f}",
        "shown_high": f"{drawn.high:.0f}", "low": f"{kept.low:.0f}", "high": f"{kept.high:.0f}",
        "rel": f"{abs(bearing_from_nose(solved.lights[0], main_sitter(solved))):.0f}",
        "label": main_sitter(solved).person.label,
    }  # fmt: skip
    yield Reason("lights[0].bearing_from_nose_deg", "wishes_in_numbers", softer + shown, TRADE, values)


def _turn_and_lenses(solved: Solved) -> Iterator[Reason]:
    seated, house = solved.pose.together[0], solved.targets.house
    person = seated.person
    if len(solved.pose.seated) != 1 or not (strong_lenses(person) and wishes_narrower(person)):
        return
    wanted, most = house.band("face_wide", "turn", "deg"), house.number("lenses_strong", "turn_most_deg")
    if wanted.low <= most:
        return
    values = {
        "low": f"{wanted.low:g}", "high": f"{wanted.high:g}", "most": f"{most:g}", "label": person.label,
        "turn": f"{abs(seated.nose_deg):.0f}",
    }  # fmt: skip
    paths = (f"sitters[{person.index}].glasses", f"sitters[{person.index}].face_width")
    yield Reason("sitters[0].nose_bearing_deg", "turn_lenses", paths, TRADE, values)


def _face_side(solved: Solved, seated: Seated) -> str:
    return pattern.side(seated.nose_deg, bearing_from_nose(solved.lights[0], seated))


SIDE_WORDS = {
    "short": noop("on the far cheek"),
    "broad": noop("on the near cheek"),
    "none": noop("on both cheeks alike"),
}


def _wide_and_narrow(solved: Solved) -> Iterator[Reason]:
    wide = next((s for s in solved.pose.together if wishes_narrower(s.person)), None)
    narrow = next((s for s in solved.pose.together if s.person.sitter.face_width == "narrow"), None)
    if wide is None or narrow is None or wide is narrow:
        return
    values = {
        "slim": wide.person.label, "full": narrow.person.label,
        "slim_side": _(SIDE_WORDS[_face_side(solved, wide)]), "full_side": _(SIDE_WORDS[_face_side(solved, narrow)]),
    }  # fmt: skip
    paths = (f"sitters[{wide.person.index}].face_width", f"sitters[{narrow.person.index}].face_width")
    yield Reason("lights[0].side", "wide_narrow", paths, TRADE, values)


def _sides(solved: Solved) -> Iterator[Reason]:
    """One sitter whose better side and whose wish about one side name different sides."""
    seated = solved.pose.seated[0]
    person = seated.person
    if len(solved.pose.seated) != 1 or person.better_side == "none":
        return
    for k, wish in enumerate(person.wishes):
        if wish.side not in ("own_left", "own_right") or wish.wish == "as it is":
            continue
        if (wish.side == person.better_side) == (wish.wish == "shown"):
            continue
        turned = _("to camera left") if seated.nose_deg < 0 else _("to camera right")
        forward = turned if seated.nose_deg else _("at the lens")
        note, asked = _(NOTES[str(wish.note)]), _(WISHES[str(wish.wish)])
        values = {"label": person.label, "forward": forward, "note": note, "asked": asked}
        paths = (f"sitters[{person.index}].better_side", f"sitters[{person.index}].wishes[{k}]")
        yield Reason("sitters[0].nose_bearing_deg", "sides_opposed", paths, TRADE, values)
        return


def _hair_of_two(solved: Solved) -> Iterator[Reason]:
    people, house = _people(solved), solved.targets.house
    fair = [p for p in people if p.sitter.hair in LIGHT_HAIR and p.sitter.head == "usual"]
    dark = [p for p in people if p.sitter.hair == "dark" and p.sitter.head == "usual"]
    light, band = solved.light("accent"), solved.targets.accent_band
    hair = solved.targets.row.accent_kind == "hair"
    if light is None or band is None or not hair or not fair or not dark:
        return
    calm, bright = house.band("hair_light", "", "stops"), house.band("hair_on_dark", "", "stops")
    values = {
        "low": f"{calm.low:g}", "high": f"{calm.high:g}", "level": f"{band.mid:g}",
        "dark_low": f"{bright.low:g}", "dark_high": f"{bright.high:g}", "less": f"{band.mid - bright.mid:.1f}",
    }  # fmt: skip
    yield Reason(light_path(light), "hair_of_two", _paths(fair + dark, "hair"), TRADE, values)


WHY_BARE = {
    "bald": noop("bare skin from behind gleams"), "shine": noop("gloss is to be calmed"),
    "infant": noop("nothing stands behind a small child"),
}  # fmt: skip


def _bare_on_dark(solved: Solved) -> Iterator[Reason]:
    why, house, ground = solved.targets.no_accent, solved.targets.house, solved.ground
    if why not in WHY_BARE or solved.setup.background_tone not in DARK_GROUNDS or ground is None:
        return
    band = house.band("shine", "hair", "stops")
    values = {"why": _(WHY_BARE[why]), "lightness": f"{ground.lightness:.0f}", "low": f"{band.low:g}",
              "high": f"{band.high:g}"}  # fmt: skip
    key = {"bald": "head", "shine": "wishes", "infant": "age_years"}[why]
    yield Reason("background", "bare_on_dark", _paths(_people(solved), key), TRADE, values)
