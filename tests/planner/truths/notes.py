"""Claims about the sentences of `words.notes`: what notes asked for, and where two of them pull apart."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from tests.planner import briefs, ruler
from tests.planner.briefs import ada, bo

Tree = dict[str, Any]

SOFT, HALF = briefs.setup("soft"), briefs.setup("natural", "half")
DARK = briefs.setup("natural", "half", "dark")
GLASSES = {"lens": "usual", "may_remove": True}


def key(s: Tree) -> Tree:
    return next(x for x in s["lights"] if x["role"] == "key")


def from_face(s: Tree, light: Tree, label: str) -> tuple[float, float, float]:
    """Metres, bearing off the nose and height angle of a light from a sitter's face, by the printed places."""
    sitter = next(p for p in s["sitters"] if p["label"] == label)
    x, y, z = ruler.minus(ruler.vec(light["position_m"]), ruler.vec(sitter["face_m"]))
    far = math.sqrt(x * x + y * y + z * z)
    off = ruler.turn_deg(math.degrees(math.atan2(x, z)), sitter["nose_bearing_deg"])
    return far, off, math.degrees(math.asin(y / far))


def chin(s: Tree, label: str) -> float:
    return float(next(p for p in s["sitters"] if p["label"] == label)["chin_deg"])


def margin(s: Tree, label: str, letter: str) -> float:
    sitter = next(p for p in s["expected"]["per_sitter"] if p["label"] == label)
    return float(next(g for g in sitter["glasses"] if g["light"] == letter)["margin_deg"])


def height(v: Tree, s: Tree) -> bool:
    return float(v["height"]) == key(s)["height_angle_deg"]


def margins(s: Tree) -> set[float]:
    letter = key(s)["letter"]
    return {g["margin_deg"] for p in s["expected"]["per_sitter"] for g in p["glasses"] if g["light"] == letter}


def both(v: Tree, s: Tree) -> bool:
    return height(v, s) and float(v["need"]) - 1 <= float(v["height"]) <= float(v["high"]) + 1


def traded(v: Tree, s: Tree) -> bool:
    out = not float(v["need"]) <= float(v["height"]) <= float(v["high"])
    # Two degrees of the mirror for each of tilt: the law of reflection
    tilt = max(0.0, (float(v["need"]) - float(v["low"])) / 2)
    return height(v, s) and out and abs(float(v["tilt"]) - tilt) <= 0.8 and float(v["margin"]) in margins(s)


def low_edge(v: Tree, s: Tree) -> bool:
    """3 + 2 x chin-up + 5 for the edge: job.md row 19. The front's half angle is at most what a panel's side gives."""
    light = next(x for x in s["lights"] if x["letter"] == v["letter"])
    *_, middle = from_face(s, light, v["label"])
    need = 3 + 2 * chin(s, v["label"]) + 5
    in_turn = bool(s["changes_per_person"])  # then the lights go up and down with the eyes
    amount, _, side, *_ = str(v["edge"]).split()
    edge = float(amount) * (1 if side == "above" else -1)
    under = edge <= middle + 0.6 or in_turn
    same = float(v["margin"]) == margin(s, v["label"], v["letter"])
    return same and under and abs(float(v["need"]) - need) <= 0.6 and edge < need and bool(v["cure"])


def face_side(s: Tree, label: str) -> str:
    """On which cheek the key falls, from the printed places: the far one where it stands to the side the nose turns."""
    nose = next(p for p in s["sitters"] if p["label"] == label)["nose_bearing_deg"]
    _, off, _ = from_face(s, key(s), label)
    if abs(nose) < 5 or abs(off) < 3:
        return "on both cheeks alike"
    return "on the far cheek" if (nose > 0) == (off > 0) else "on the near cheek"


def off_nose(v: Tree, s: Tree) -> bool:
    return abs(abs(from_face(s, key(s), v["label"])[1]) - float(v["rel"])) <= 1


def accents(s: Tree) -> list[Tree]:
    return [x for x in s["lights"] if x["role"] == "accent"]


def nose(s: Tree, label: str) -> float:
    return float(next(p for p in s["sitters"] if p["label"] == label)["nose_bearing_deg"])


FORWARD = {True: "to camera left", False: "to camera right"}
TRUE: dict[str, Callable[[Tree, Tree], bool]] = {
    "source_larger": lambda v, s: abs(float(v["size"]) - s["expected"]["apparent_size_deg"]) <= 0.5,
    "accent_on_dark": lambda v, s: bool(accents(s)) and v["range"].endswith(("over", "under")),
    "glasses_low": low_edge,
    "glasses_deep_both": both,
    "glasses_deep_traded": traded,
    "brim_glasses": lambda v, s: height(v, s) and float(v["need"]) > float(v["high"])
    and float(v["margin"]) in margins(s),
    "chin_deep": lambda v, s: height(v, s)
    and abs(float(v["camera"]) / 100 - (s["camera"]["height_m"] - s["sitters"][0]["face_m"][1])) <= 0.03,
    "wishes_in_numbers": lambda v, s: off_nose(v, s)
    and float(v["soft_low"]) + float(v["soft_high"]) < float(v["low"]) + float(v["high"])
    <= float(v["shown_low"]) + float(v["shown_high"]) + 1,
    "turn_lenses": lambda v, s: abs(nose(s, v["label"])) == float(v["turn"]) and float(v["low"]) > float(v["most"]),
    "wide_narrow": lambda v, s: v["slim_side"] == face_side(s, v["slim"]) and v["full_side"] == face_side(s, v["full"]),
    "sides_opposed": lambda v, s: v["forward"] == (FORWARD[nose(s, v["label"]) < 0] if nose(s, v["label"]) else
                                                   "at the lens"),
    "hair_of_two": lambda v, s: bool(accents(s)) and float(v["level"]) >= float(v["dark_high"]),
    "bare_on_dark": lambda v, s: not accents(s) and float(v["lightness"]) == s["background"]["lightness"],
}  # fmt: skip
OF_NOTES: set[str] = set()


def asks(*wanted: tuple[str, str]) -> list[Tree]:
    return [briefs.wish(note, wish) for note, wish in wanted]


def alone(setup: Tree, **notes: Any) -> Tree:
    return briefs.request(setup, ada(**notes))


SAID: dict[str, Tree] = {
    "glasses and deep-set eyes, soft": alone(SOFT, glasses=GLASSES, eyes="deep set"),
    "glasses and deep-set eyes, chin up by its limit": alone(SOFT, glasses=GLASSES, eyes="deep set", chin_limit_deg=0),
    "a brim over glasses": alone(HALF, glasses=GLASSES, head="brim"),
    "a chin below deep-set eyes": alone(HALF, eyes="deep set", wishes=asks(("chin", "softer"))),
    "lines softer, a scar shown": alone(HALF, wishes=asks(("lines", "softer"), ("scar", "shown"))),
    "thick lenses in a wide face": alone(HALF, face_width="wide", glasses={"lens": "strong"}),
    "a wide face beside a narrow one": briefs.request(HALF, [ada(face_width="wide"), bo(face_width="narrow")]),
    "the better side not shown": alone(
        HALF, better_side="own_left", wishes=[briefs.wish("scar", "shown", "own_right")]
    ),
    "fair hair beside dark hair": briefs.request(HALF, [ada(hair="fair"), bo(hair="dark")]),
    "a bald head before a dark ground": alone(DARK, head="bald"),
    "dark hair, even light, dark ground": alone(briefs.setup("even", tone="dark"), hair="dark"),
    "dark clothes, even light, dark ground": alone(briefs.setup("even", tone="dark"), clothes={"tone": "dark"}),
    "sequins": alone(HALF, clothes={"shiny": True}),
}
CAUTIOUS: dict[str, Tree] = {}
