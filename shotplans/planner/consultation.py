"""What each note on a sitter asks of light, camera, pose, gear, people and minutes: one table, a row a consequence.

Belongs here: notes on one person that need no more than the rule's own numbers, or a number of the plan beside it.
Sentences name nobody, so that people alike share one. Not here: the picture, the room, the group
(`consequences_of_pictures`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from shotplans.light import exposure, lenses
from shotplans.planner.brief import Sitter
from shotplans.planner.consequence import Asked, Consequence, wishes
from shotplans.planner.notes import DARK_GROUNDS, DEEP_SKIN, LIGHT_HAIR, TEXTURE_NOTES
from shotplans.planner.people import Seated, age_of
from shotplans.planner.plan import Solved
from shotplans.planner.words.consequences import SEATS
from studio.tongue import gettext as _

NOSE_TO_EARS_M = 0.12  # common practice, no source
Applies = Callable[[Sitter, Asked], bool]
Values = Callable[[Sitter, Asked, Solved | None], dict[str, Any] | None]


def _plain(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    return {}


@dataclass(frozen=True)
class Row:
    """One consequence of one note: the key of the sitter it comes from, when, and the number it stands by.

    `values` gives the blanks that are numbers of the plan, or None where the plan has nothing to say.
    """

    kind: str
    code: str
    rule: str
    key: str
    applies: Applies
    number: str | None = None
    values: Values = _plain


def _seated(solved: Solved | None, sitter: Sitter) -> Seated | None:
    found = solved.pose.seated if solved else ()
    return next((s for s in found if s.person.label == sitter.label), None)


def _turn(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    seated = _seated(solved, sitter)
    return {"turn": f"{abs(seated.nose_deg):.0f}"} if seated else None


def _above(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    if solved is None:
        return None
    return {"above": f"{100 * (solved.camera.height_m - solved.pose.eye_m):.0f}"}


def _larger(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    """How much larger the tip of a nose looks than the ears 12 cm behind it, per cent."""
    if solved is None:
        return None
    distance, least = solved.camera.distance_m, asked.number("nose_softer", "camera_least_m")
    larger, at_least = (100 * (float(lenses.perspective_gain(d, NOSE_TO_EARS_M)) - 1) for d in (distance, least))
    return {"distance": f"{distance:.2f}", "larger": f"{larger:.0f}", "least": f"{at_least:.0f}"}


def _ground(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    ground = solved.ground if solved else None
    return {"ground": f"{ground.distance_m:.2f}"} if ground else None


def _has_accent(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    return {} if solved is not None and solved.light("accent") is not None else None


def _on_dark(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    return {} if solved is not None and solved.setup.background_tone in DARK_GROUNDS else None


def _eyes(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    seated = _seated(solved, sitter)
    return {"eyes": f"{seated.face_m[1]:.2f}"} if seated else None


def _shutter(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    return {"shutter": exposure.shutter_label(solved.camera.shutter_s)} if solved else None


def _standing(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    longest = asked.number("short_standing", "standing_minutes")
    return {"standing": f"{min(longest, float(sitter.stand_minutes or 0.0)):g}"}


def _firm(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    return {"seats": _(SEATS[firm_seats(asked, "firm_chair") >= 1])}


def firm_seats(asked: Asked, rule: str) -> int:
    """How many seats with arms lie within a rule's heights."""
    band = asked.house.band(rule, "seat", "cm")
    heights = [100 * float(s.height_m or 0.0) for s in asked.request.kit.seats if s.arms]
    return sum(band.low - 1e-6 <= h <= band.high + 1e-6 for h in heights)


def _broad(sitter: Sitter, asked: Asked, solved: Solved | None) -> dict[str, Any] | None:
    least = asked.number("broad_seat", "rating_kg")
    return {"seats": _(SEATS[any(not s.arms and (s.rating_kg or 0.0) >= least for s in asked.request.kit.seats)])}


def _lens(*kinds: str) -> Applies:
    return lambda s, a: s.glasses is not None and s.glasses.lens in kinds


def _glasses(s: Sitter, a: Asked) -> bool:
    return s.glasses is not None


def _toddler(s: Sitter, a: Asked) -> bool:
    return a.number("toddler", "years_low") <= age_of(s) < a.number("toddler", "years_high")


def _newborn(s: Sitter, a: Asked) -> bool:
    return age_of(s) < a.number("newborn", "years")


def _pupil(s: Sitter, a: Asked) -> bool:
    return a.number("toddler", "years_high") <= age_of(s) < a.number("school_child", "years_high")


def _minor(s: Sitter, a: Asked) -> bool:
    return age_of(s) < a.number("school_child", "guardian_years")


def _wished(wish: str, *notes: str) -> Applies:
    return lambda s, a: wishes(s, wish, *notes)


def _sided(s: Sitter, a: Asked) -> bool:
    return any(w.side in ("own_left", "own_right") for w in s.wishes)


def _gleams(s: Sitter, a: Asked) -> bool:
    return wishes(s, "softer", "shine") or s.head == "bald" or s.surface == "shiny"


def _is(key: str, *values: object) -> Applies:
    return lambda s, a: getattr(s, key) in values


def _wears(key: str, *values: object) -> Applies:
    return lambda s, a: getattr(s.clothes, key) in values


def _hair(*tones: str) -> Applies:
    return lambda s, a: s.hair in tones and s.head not in ("bald", "covered")


TABLE: tuple[Row, ...] = (
    Row("pose", "chin_forward", "lines_softer", "wishes", _wished("softer", *TEXTURE_NOTES)),
    Row("people", "test_frame", "lines_shown", "wishes", _wished("shown", *TEXTURE_NOTES)),
    Row("people", "other_day", "blemish", "wishes", _wished("softer", "blemish")),
    Row("people", "side_chosen", "side_chosen", "wishes", _sided),
    Row("gear", "gloss_gear", "shine", "surface", _gleams),
    Row("camera", "gloss_camera", "shine", "head", _is("head", "bald"), "camera_down_cm"),
    Row("light", "tone_deep", "tone_deep", "skin", _is("skin", *DEEP_SKIN), "lift_stops"),
    Row("gear", "tone_deep_ground", "tone_deep", "skin", _is("skin", *DEEP_SKIN), None, _on_dark),
    Row("light", "tone_fair", "tone_fair", "skin", _is("skin", "very light"), "less_high_stops"),
    Row("pose", "turn_asked", "face_wide", "face_width", _is("face_width", "wide"), "turn_low_deg", _turn),
    Row("pose", "turn_asked", "face_wide", "wishes", _wished("softer", "width"), "turn_low_deg", _turn),
    Row("gear", "flag_cheek", "face_wide", "face_width", _is("face_width", "wide")),
    Row("gear", "flag_cheek", "face_wide", "wishes", _wished("softer", "width")),
    Row("pose", "near_full_face", "face_narrow", "face_width", _is("face_width", "narrow")),
    Row("gear", "white_card", "deep_set", "eyes", _is("eyes", "deep set")),
    Row("pose", "chin_level", "deep_set", "eyes", lambda s, a: s.eyes == "deep set" and s.glasses is None),
    Row("camera", "camera_above", "chin_softer", "wishes", _wished("softer", "chin"), "camera_up_cm", _above),
    Row("camera", "nose_distance", "nose_softer", "wishes", _wished("softer", "nose"), "camera_least_m", _larger),
    Row("gear", "glasses_gear", "glasses", "glasses", _glasses),
    Row("pose", "glasses_pose", "glasses", "glasses", _glasses, "chin_down_deg"),
    Row("minutes", "glasses_minutes", "glasses", "glasses", _glasses, "extra_minutes"),
    Row("people", "lenses_reactive", "lenses_reactive", "glasses", _lens("reactive"), "clear_high_minutes"),
    Row("pose", "lenses_strong", "lenses_strong", "glasses", _lens("strong"), "turn_most_deg", _turn),
    Row("gear", "hair_flag", "hair_light", "hair", _hair(*LIGHT_HAIR), None, _has_accent),
    Row("light", "hair_ground", "hair_big", "big_hair", _is("big_hair", True), "ground_least_m", _ground),
    Row("camera", "hair_room", "hair_big", "big_hair", _is("big_hair", True), "headroom_cm"),
    Row("gear", "hair_gear", "hair_big", "big_hair", _is("big_hair", True)),
    Row("people", "head_covered", "head_covered", "head", _is("head", "covered", "brim")),
    Row("light", "clothes_dark", "clothes_dark", "clothes", _wears("tone", "dark")),
    Row("light", "clothes_light", "clothes_light", "clothes", _wears("tone", "light"), "spread_stops"),
    Row("gear", "clothes_pattern", "clothes_pattern", "clothes", _wears("pattern", True), "outfits"),
    Row("pose", "arms_pose", "arms_bare", "clothes", _wears("bare_arms", True)),
    Row("gear", "arms_gear", "arms_bare", "clothes", _wears("bare_arms", True)),
    Row("gear", "gloss_cloth", "clothes_shiny", "clothes", _wears("shiny", True)),
    Row("light", "newborn_light", "newborn", "age_years", _newborn),
    Row("people", "newborn_room", "newborn", "age_years", _newborn, "room_low_c"),
    Row("minutes", "newborn_minutes", "newborn", "age_years", _newborn, "sitting_minutes"),
    Row("camera", "toddler_camera", "toddler", "age_years", _toddler, None, _eyes),
    Row("people", "toddler_people", "toddler", "age_years", _toddler),
    Row("minutes", "toddler_minutes", "toddler", "age_years", _toddler, "sitting_minutes"),
    Row("minutes", "child_turns", "school_child", "age_years", _pupil, "set_minutes"),
    Row("people", "guardian", "school_child", "age_years", _minor, "guardian_years"),
    Row("people", "quiet_slot", "sensory", "sensory", _is("sensory", True)),
    Row("minutes", "quiet_minutes", "sensory", "sensory", _is("sensory", True), "extra_low_minutes"),
    Row("light", "flash_off", "no_flash", "no_flash", _is("no_flash", True), "bursts_hz"),
    Row(
        "pose", "seated_first", "short_standing", "stand_minutes", lambda s, a: s.stand_minutes is not None,
        "standing_minutes", _standing,
    ),
    Row("people", "clear_way", "wheelchair", "posture", _is("posture", "wheelchair"), "path_m"),
    Row("camera", "eyes_level", "wheelchair", "posture", _is("posture", "wheelchair")),
    Row("gear", "firm_chair", "firm_chair", "hip_or_back", _is("hip_or_back", True), "seat_low_cm", _firm),
    Row("people", "signs", "hearing", "hearing", _is("hearing", True)),
    Row("minutes", "signs_minutes", "hearing", "hearing", _is("hearing", True), "extra_minutes"),
    Row("people", "house_lights", "low_vision", "low_vision", _is("low_vision", True), "path_m"),
    Row("gear", "broad_seat", "broad_seat", "broad_seat", _is("broad_seat", True), "rating_kg", _broad),
    Row("gear", "hands_rest", "hands_rest", "tremor", _is("tremor", True), "supports", _shutter),
    Row("people", "private_set", "shy", "shy", _is("shy", True), "place_least"),
    Row("minutes", "private_minutes", "shy", "shy", _is("shy", True), "extra_minutes"),
)  # fmt: skip


def of_sitters(asked: Asked) -> Iterator[Consequence]:
    """Every consequence of a note on one person; people alike share one sentence with both their paths."""
    found: dict[tuple[str, tuple[tuple[str, Any], ...]], Consequence] = {}
    for row in TABLE:
        for index, sitter in enumerate(asked.request.sitters):
            if not row.applies(sitter, asked):
                continue
            values = row.values(sitter, asked, asked.placed(sitter.label))
            if values is None:
                continue
            path = f"sitters[{index}].{row.key}"
            same = (row.code, tuple(sorted(values.items())))
            before = found[same].paths if same in found else ()
            paths = before if path in before else (*before, path)
            found[same] = asked.of(row.kind, row.code, row.rule, paths, row.number, **values)
    yield from found.values()


EXTRA = {"glasses": "extra_minutes", "sensory": "extra_low_minutes", "hearing": "extra_minutes", "shy": "extra_minutes"}
AT_LEAST = {"newborn": _newborn, "toddler": _toddler}


def extra_minutes(asked: Asked) -> float:
    """Minutes that the notes add up to, each person's own."""
    by_note: dict[str, Applies] = {
        "glasses": _glasses, "sensory": _is("sensory", True), "hearing": _is("hearing", True), "shy": _is("shy", True),
    }  # fmt: skip
    total = 0.0
    for sitter in asked.request.sitters:
        total += sum(asked.number(rule, EXTRA[rule]) for rule, applies in by_note.items() if applies(sitter, asked))
    return total


def least_minutes(asked: Asked) -> float:
    """The longest time any of the smallest asks for a sitting."""
    wanted = [
        asked.number(rule, "sitting_minutes")
        for rule, applies in AT_LEAST.items()
        if any(applies(s, asked) for s in asked.request.sitters)
    ]
    return max(wanted, default=0.0)


def stops_apart(solved: Solved) -> float | None:
    """Stops by which distance alone makes the nearer of two faces brighter, by inverse square; None but for a pair."""
    together = solved.pose.together
    if len(together) != 2:
        return None
    far = [float(np.linalg.norm(solved.lights[0].at - np.array(s.face_m))) for s in together]
    return float(2 * np.log2(max(far) / min(far)))
