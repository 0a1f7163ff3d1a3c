"""Claims about the sentences of `words.sources`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from tests.planner import briefs, ruler

Tree = dict[str, Any]


def key(setup: Tree) -> Tree:
    found: Tree = next(x for x in setup["lights"] if x["role"] == "key")
    return found


def eyes_m(setup: Tree) -> float:
    """Height of the mark's eyes: the key's distance is to them, and its height angle from them."""
    k = key(setup)
    return float(k["centre_height_m"] - k["distance_m"] * math.sin(math.radians(k["height_angle_deg"])))


def off_axis(setup: Tree, place: ruler.Vector) -> float:
    k = key(setup)
    at = ruler.vec(k["position_m"])
    return ruler.between_deg(ruler.minus(ruler.vec(k["aim_m"]), at), ruler.minus(place, at))


def to_ground(v: Tree, s: Tree) -> bool:
    """The grid's half angle and the way to the middle of the ground, from the printed places."""
    off = off_axis(s, (0.0, eyes_m(s), -s["background"]["distance_m"]))
    return abs(float(v["cut"]) - key(s)["grid"] / 2) <= 0.5 and abs(float(v["off"]) - off) <= 1.5


def less(v: Tree, s: Tree) -> bool:
    """A grid falls in a line to nothing at half its angle: a stated estimate."""
    left = 1 - off_axis(s, (0.0, eyes_m(s), -s["background"]["distance_m"])) / (key(s)["grid"] / 2)
    return left > 0 and abs(float(v["less"]) + math.log2(left)) <= 0.15


def core(v: Tree, s: Tree) -> bool:
    """Second moment of a disc that fades as 2^(-core r^2), by summing rings, against an even one's half."""
    rings = [(i + 0.5) / 2000 for i in range(2000)]
    weight = [2 ** (-float(v["core"]) * r * r) * r for r in rings]
    even = math.sqrt(2 * sum(w * r * r for w, r in zip(weight, rings, strict=True)) / sum(weight))
    return abs(float(v["even"]) - even * float(v["size"])) <= 0.011


def way(v: Tree, s: Tree) -> bool:
    """Sizes from the printed distance: their ratio of tangents is the ratio of the sides, upright ones the taller."""
    row = next(p for p in s["expected"]["per_sitter"] if p["label"] == v["label"])
    wide, tall = float(v["wide"]), float(v["tall"])
    near = abs(float(v["relief"]) - float(v["other"]))
    same = float(v["relief"]) == row["relief_stops"] and (v["way"] == "Upright") == (tall > wide)
    return same and (near >= 0.01 or "alike" in v["why"])


def feathered(v: Tree, s: Tree) -> bool:
    """Turned from the mark's eyes by so much, and the faces no farther apart than aimed between them."""
    off = off_axis(s, (0.0, eyes_m(s), 0.0))
    even, straight = float(v["even"]), float(v["straight"])
    # each face's reading is printed to a tenth, so two of them may differ by one more or less
    printed = abs(even - s["expected"]["evenness_stops"]) <= 0.1 + 1e-9
    turned = float(v["turn"]) == key(s)["feather_deg"] and abs(off - float(v["turn"])) <= 1
    return printed and turned and even < straight and by_beam(v, s)


def by_beam(v: Tree, s: Tree) -> bool:
    """cos^n off the axis, n from the beam, for the aim as printed against one between the faces."""
    at, n = ruler.vec(key(s)["position_m"]), ruler.beam_power(float(v["beam"]))
    middle = ruler.minus((0.0, eyes_m(s), 0.0), at)
    rays = sorted((ruler.minus(ruler.vec(p["face_m"]), at) for p in s["sitters"]), key=ruler.length)
    for said, ray in ((v["near"], rays[0]), (v["far"], rays[-1])):
        before = math.cos(math.radians(ruler.between_deg(middle, ray)))
        after = math.cos(math.radians(off_axis(s, ruler.plus(at, ray))))
        if abs(float(said) - n * math.log2(after / before)) > 0.03:  # places are printed to a centimetre
            return False
    return True


TRUE: dict[str, Callable[[Tree, Tree], bool]] = {
    "grid_clear": lambda v, s: to_ground(v, s) and float(v["off"]) >= float(v["cut"]) - 0.5,
    "grid_partly": lambda v, s: to_ground(v, s) and float(v["off"]) <= float(v["cut"]) + 0.5 and less(v, s),
    "core": core,
    "spill": lambda v, s: v["bounce"] == s["expected"]["bounce_below_key_stops"] and 0 < float(v["share"]) < 100,
    "way": way,
    "feathered": feathered,
    "feathered_cut": lambda v, s: float(v["turn"]) == key(s)["feather_deg"],
    # An overcast sky through some square metres of glass: tens to some thousands of lux (values.md has no row; memory)
    "windows": lambda v, s: 5 < float(v["lux"]) < 5000 and float(v["doubt"]) == 1.5 and float(v["below"]) > 0,
}
OF_NOTES: set[str] = set()


def only(*modifiers: str, **changed: Any) -> Tree:
    """The studio's kit with these modifiers alone, changed alike."""
    kit = briefs.kit_of(modifiers=modifiers)
    return kit | {"modifiers": [m | changed for m in kit["modifiers"]]}


TINY = briefs.room(3, 3, 2.2, keep_out_m=0, surfaces={"walls": "white", "ceiling": "white", "floor": "grey"})
THREE = [
    briefs.sitter("Tall", age_years=89, height_cm=190, posture="standing", skin="very light"),
    *(briefs.sitter(name, age_years=5, height_cm=120, posture="standing", eyes="deep set") for name in ("One", "Two")),
]
LIT = [{"wall": "north", "width_m": 1.5, "height_m": 1.4}, {"wall": "north"}]
SAID: dict[str, Tree] = {
    "a strip alone": briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=only("strip30x120-1")),
    "a narrow grid": briefs.request(
        briefs.setup("character", "half", "dark"), briefs.sitter("Mirela"), kit=only("dish55", grid_deg=30)
    ),
    "a hot dish": briefs.request(briefs.setup("bold"), briefs.sitter("Mirela"), kit=only("dish55", core_stops=2)),
    "an umbrella alone": briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=only("umb180")),
    "four before a narrow beam": briefs.request(
        briefs.setup("natural", "group"), briefs.family(4), kit=only("octa150-1", beam_deg=80)
    ),
    "three nearer than a grid is wide": briefs.request(
        briefs.setup("soft", "head", view="seven_eighths", face_side="broad"), THREE, TINY, key_side="camera_left"
    ),
    "windows without blinds": briefs.request(
        briefs.setup("even"), briefs.sitter("Mirela"), briefs.room(windows=LIT, black_out=False)
    ),
}
STEADY = [briefs.studio_kit()["heads"][-1] | {"flicker_free": False}]
CAUTIOUS: dict[str, Tree] = {
    "a lamp on 60 Hz mains": briefs.request(
        briefs.setup("even"), briefs.sitter("Mirela"),
        briefs.room(circuits=[{"label": "circuit 1", "volts": 120, "breaker_amps": 20}]),
        briefs.studio_kit() | {"heads": STEADY},
    ),
}  # fmt: skip
