"""Claims about the sentences of `words.grounds`, worked out again from the document; and briefs that raise them."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from tests.planner import briefs, ruler

Tree = dict[str, Any]


def _light(s: Tree, letter: str) -> Tree:
    found: Tree = next(x for x in s["lights"] if x["letter"] == letter)
    return found


def _alone(s: Tree, letter: str) -> float:
    step = next(x for x in s["meter_round"] if x["on"] == [letter] and x["panels"] == "out")
    return ruler.stops_of(step["target"]["f_number"])


def _behind(s: Tree, letter: str) -> bool:
    light = _light(s, letter)
    return bool(light["role"] == "accent" and abs(light["bearing_deg"]) > 90)


def gloss(v: Tree, s: Tree) -> bool:
    """Between what dark and light skin would show at this angle, by a ball of skin walked round degree by degree."""
    face = ruler.vec(s["sitters"][0]["face_m"])
    to_light = ruler.minus(ruler.vec(_light(s, v["letter"])["position_m"]), face)
    between = math.radians(min(170.0, ruler.between_deg(to_light, ruler.minus(ruler.camera_at(s), face))))
    low, high = (max(_line(t, between, rho) for t in range(-80, 81)) for rho in (0.33, 0.05))
    # Roughness 0.25 to 0.38 and the size of the source move it by up to half a stop
    return _behind(s, v["letter"]) and low - 0.5 <= float(v["gloss"]) <= high + 0.5


def _line(turn_deg: float, between: float, rho: float) -> float:
    """Stops of pi L/(rho E) where the skin turns so far from the lens: matt part and Beckmann gloss, m 0.3, n 1.4."""
    turn = math.radians(turn_deg)
    co, ci = math.cos(turn), math.cos(turn - between)
    if ci <= 0.02:
        return -9.0
    t = between / 2
    inside = math.asin(math.sin(t) / 1.4)
    across, along = math.sin(t - inside) / math.sin(t + inside), math.tan(t - inside) / math.tan(t + inside)
    half = math.cos(turn - t) ** 2
    density = math.exp((1 - 1 / half) / 0.09) / (math.pi * 0.09 * half**2)
    mirrored = (across**2 + along**2) / 2 * density * _smith(ci) * _smith(co) / (4 * ci * co)
    return math.log2(ci * (1 + math.pi * mirrored / rho))


def _smith(cos: float) -> float:
    a = cos / (0.3 * math.sqrt(max(1 - cos**2, 1e-12)))
    return (3.535 * a + 2.181 * a**2) / (1 + 2.276 * a + 2.577 * a**2) if a < 1.6 else 1.0


def second(v: Tree, s: Tree) -> bool:
    """Not the first accent, behind the head, on the side it names, as far under the key as the readings lie apart."""
    light, key = _light(s, v["letter"]), s["lights"][0]
    first = next(x for x in s["lights"] if x["role"] == "accent")
    under = _alone(s, key["letter"]) - _alone(s, v["letter"])
    bounce = math.log2(1 + 2 ** -s["expected"]["bounce_below_key_stops"])
    lit_side = light["bearing_deg"] * key["bearing_deg"] > 0
    sided = lit_side if v["what"] == "the lit side" else light["aim_words"] == "at the crown"
    near = abs(under - float(v["level"])) <= 0.15 + 2 * bounce
    return _behind(s, v["letter"]) and light is not first and sided and near


def clear(v: Tree, s: Tree) -> bool:
    """A ray walked from each nose tip to the middle of the light meets the head, an ellipsoid of 150 x 230 x 195 mm."""
    at = ruler.vec(_light(s, v["letter"])["position_m"])
    return _behind(s, v["letter"]) and all(_head_between(p, at) for p in s["sitters"])


def _head_between(p: Tree, at: ruler.Vector) -> bool:
    yaw, pitch = math.radians(p["nose_bearing_deg"]), math.radians(p["chin_deg"])
    right = (math.cos(yaw), 0.0, -math.sin(yaw))
    nose = (math.sin(yaw) * math.cos(pitch), math.sin(pitch), math.cos(yaw) * math.cos(pitch))
    up = ruler.cross(nose, right)
    face = ruler.vec(p["face_m"])
    tip = ruler.plus(ruler.plus(face, nose, 0.03), up, -0.045)
    middle, way = ruler.plus(face, nose, -0.0975), ruler.unit(ruler.minus(at, tip))
    for n in range(400):
        off = ruler.minus(ruler.plus(tip, way, n * 0.001), middle)
        axes = ((right, 0.075), (up, 0.115), (nose, 0.0975))
        if sum((ruler.dot(off, axis) / half) ** 2 for axis, half in axes) < 1:
            return True
    return False


def flag(keeps: str) -> Callable[[Tree, Tree], bool]:
    """It hangs among the blocks, of this light, no farther from it than it says and half its own size."""

    def holds(v: Tree, s: Tree) -> bool:
        row = next(b for b in s["blocks"] if b["id"] == v["item"] and b["keeps"] == keeps)
        at = ruler.vec(_light(s, v["letter"])["position_m"])
        away = ruler.length(ruler.minus(ruler.vec(row["at_m"]), at))
        near = float(v["distance"]) - 0.06 <= away <= math.hypot(float(v["distance"]) + 0.06, max(row["size_m"]))
        return row["shades"] == v["letter"] and near and float(v["after"]) <= float(v["before"])

    return holds


def glow(v: Tree, s: Tree) -> bool:
    """The printed numbers; a back gets at most what an endless ground of this light would send it."""
    printed, reads = s["expected"]["ground"], -s["background"]["reading_below_setting_stops"]
    same = [float(v["back"]), float(v["wrap"]), float(v["lift"])] == [
        printed["back_below_face_stops"], printed["wrap_below_key_stops"], printed["black_lift_stops"],
    ]  # fmt: skip
    return same and reads > -0.35 and -float(v["back"]) <= max(reads, -s["expected"]["bounce_below_key_stops"]) + 0.3


def pair_of_ground_lights(v: Tree, s: Tree) -> bool:
    sides = [x["position_m"][0] for x in s["lights"] if x["role"] == "background"]
    spread = s["expected"]["ground"]["evenness_stops"]
    return len(sides) == 2 and sides[0] * sides[1] < 0 and float(v["spread"]) == spread


def colour(v: Tree, s: Tree) -> bool:
    """Mired from the kelvin that the camera is balanced for, give or take its cloths (10 mired, 6 %)."""
    shift = _light(s, v["letter"])["colour_shift_k"]
    base = s["camera"]["white_balance_k"]
    mired = 1e6 / (base + shift) - 1e6 / base
    same = float(v["shift"]) == shift and (v["way"] == "warmer") == (shift < 0)
    return same and abs(abs(mired) - float(v["mired"])) <= 0.15 * abs(mired) + 1 and abs(mired) > float(v["seen"])


def drift(v: Tree, s: Tree) -> bool:
    fill, key = _light(s, v["letter"]), s["lights"][0]
    apart = abs(fill["power_below_full_stops"] - key["power_below_full_stops"])
    # 400 K over the whole range are 13 mired at 5600 K: the trade's figure, S127 of job.md (weak)
    return abs(apart - float(v["apart"])) <= 0.051 and 0 < float(v["drift"]) <= 14 and float(v["mired"]) <= 10.5


def shared(v: Tree, s: Tree) -> bool:
    """Two fill; the first gives all it has, and the sum is what the printed fill says."""
    fills = [x for x in s["lights"] if x["role"] == "fill"]
    named = [x["letter"] for x in fills] == [v["first"], v["letter"]]
    full = fills[0]["power_below_full_stops"] <= 0.1
    level = s["expected"]["fill_below_key_stops"]
    return named and full and abs(float(v["level"]) - level) <= 0.051 and float(v["alone"]) >= level + 0.2


TRUE: dict[str, Callable[[Tree, Tree], bool]] = {
    "accent_gloss": gloss,
    "accent_second": second,
    "accent_clear": clear,
    "flag_lens": flag("lens"),
    "flag_faces": flag("faces"),
    "flag_cloth": flag("cloth"),
    "flag_ground": lambda v, s: flag("ground")(v, s) and float(v["lightness"]) == s["background"]["lightness"],
    "fill_shared": shared,
    "ground_glow": glow,
    "ground_pair": pair_of_ground_lights,
    "colour_differs": colour,
    "colour_drift": drift,
}
OF_NOTES: set[str] = set()


def kit(*modifiers: str, **more: Any) -> Tree:
    """The studio's kit with some of its modifiers."""
    return briefs.kit_of(modifiers=modifiers) | more


def octaboxes() -> Tree:
    """Three boxes of 95 cm and nothing else: large, without a grid."""
    (one,) = kit("octa95-1")["modifiers"]
    return kit(modifiers=[one | {"id": f"octa95-{n}"} for n in (1, 2, 3)])


def warm_but_one() -> Tree:
    """All heads but the first are of 4300 K."""
    heads = briefs.studio_kit()["heads"]
    return briefs.studio_kit() | {"heads": [heads[0], *(h | {"kelvin": 4300} for h in heads[1:])]}


MIRELA = briefs.sitter("Mirela")
GREY = {"id": "grey270", "kind": "paper", "width_m": 2.7, "height_m": 2.5, "reflectance": 0.25}
def weak_fills(**more: Any) -> Tree:
    """One strong head and four that reach f/5 at a metre."""
    kit = briefs.studio_kit()
    strong = kit["heads"][0]
    weak = [strong | {"id": f"h5-{n}", "energy_ws": 5, "f_number_1m_iso100": 5} for n in range(4)]
    return kit | {"heads": [strong, *weak]} | more


YOUNG = briefs.sitter("Young", age_years=5, height_cm=122, eyes="deep set", head="bald",
                      glasses={"lens": "usual"}, wishes=[briefs.wish("lines", "softer", "own_left")])  # fmt: skip
OLD = briefs.sitter("Old", age_years=83, height_cm=143, posture="wheelchair", skin="dark", eyes="deep set")
SAID: dict[str, Tree] = {
    "an accent that a white room throws on the faces": briefs.request(
        briefs.setup("bold", "three_quarter", "light"), [YOUNG, OLD],
        briefs.room(4.5, 7.25, 3.7, keep_out_m=0.8,
                    surfaces={"walls": "white", "ceiling": "white", "floor": "grey"}),
        briefs.small_flash_kit(), key_side="camera_right",
    ),
    "two weak heads fill": briefs.request(
        briefs.setup("soft", "half"), MIRELA, kit=weak_fills(panels=[]), preferences={"iso": 100, "aperture": 8}
    ),
    "a weak head and a panel fill": briefs.request(
        briefs.setup("soft", "half"), MIRELA, kit=weak_fills(), preferences={"iso": 100, "aperture": 8}
    ),
    "both edges drawn": briefs.request(briefs.setup("bold", "half", "dark"), MIRELA),
    "dark hair before a dark ground, character": briefs.request(
        briefs.setup("character", "half", "dark"), briefs.sitter("Mirela", hair="dark")
    ),
    "a large rim without a grid": briefs.request(briefs.setup("bold", "head", "mid"), MIRELA, kit=octaboxes()),
    "a grey ground that is to be black": briefs.request(
        briefs.setup("bold", "half", "black"), MIRELA, briefs.room(5, 4, 2.6),
        briefs.studio_kit() | {"backgrounds": [GREY]},
    ),
    "light cloth under a side light": briefs.request(
        briefs.setup("bold", "half", "mid"), briefs.sitter("Mirela", clothes={"tone": "light"}),
        kit=kit("dish55", "reflector18-2"),
    ),
    "heads of two colours": briefs.request(briefs.setup("soft", "half"), MIRELA, kit=warm_but_one()),
    "a box filled by an umbrella far down": briefs.request(
        briefs.setup("bold", "half", "mid"), MIRELA, kit=kit("octa95-1", "umb180", panels=[])
    ),
}  # fmt: skip
CAUTIOUS: dict[str, Tree] = {}
