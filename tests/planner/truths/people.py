"""Claims about the sentences of `words.people`, worked out anew from the printed places; briefs that raise them."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise
from typing import Any

from tests.planner import briefs

Tree = dict[str, Any]


def _rows(s: Tree) -> dict[int, list[Tree]]:
    found: dict[int, list[Tree]] = {}
    for p in s["sitters"]:
        found.setdefault(p["row"], []).append(p)
    return found


def _depth(s: Tree) -> float:
    zs = [p["face_m"][2] for p in s["sitters"]]
    return max(zs) - min(zs)


def _of(s: Tree, label: str) -> Tree:
    found: Tree = next(p for p in s["sitters"] if p["label"] == label)
    return found


def _names(v: Tree) -> list[str]:
    return [name.strip() for part in v["who"].split(" and ") for name in part.split(",")]


def rows(v: Tree, s: Tree) -> bool:
    """So many rows, each deeper than the one before; the spacing is the mean of what stands in a row."""
    found = _rows(s)
    middles = [sum(p["face_m"][2] for p in found[n]) / len(found[n]) for n in sorted(found)]
    steps = [b - a for r in found.values() for a, b in _beside(r)]
    mean = sum(steps) / len(steps) if steps else 0.0
    # 0.15 m: a child on a knee stands in the row of the one who holds it and is no place of it
    return (
        len(found) == v["rows"]
        and middles == sorted(middles, reverse=True)
        and abs(float(v["depth"]) - _depth(s)) <= 0.006
        and abs(float(v["spacing"]) - mean) <= 0.15
    )


def _beside(row: list[Tree]) -> list[tuple[float, float]]:
    xs = sorted(p["face_m"][0] for p in row)
    return list(pairwise(xs))


def group_size(v: Tree, s: Tree) -> bool:
    """Wider than the faces by about an elbow on either side, as deep and as high as the printed faces."""
    xs, ys = [p["face_m"][0] for p in s["sitters"]], [p["face_m"][1] for p in s["sitters"]]
    elbows = float(v["width"]) - (max(xs) - min(xs))
    low, high = float(v["low"]), float(v["high"])
    return (
        0.2 <= elbows <= 0.9 and abs(float(v["depth"]) - _depth(s)) <= 0.006
        and abs(low - min(ys)) <= 0.006 and abs(high - max(ys)) <= 0.006
    )  # fmt: skip


def group_focus(v: Tree, s: Tree) -> bool:
    """2 n r/(n + r) of noses and ears, to 5 cm; there a zone asks for less closing than a third of the way in."""
    zs, away = [p["face_m"][2] for p in s["sitters"]], s["camera"]["distance_m"]
    near, far = away - max(zs) - 0.03, away - min(zs) + 0.10
    exact = 2 * near * far / (near + far)
    off = away - float(v["focus"])
    label = _of(s, v["label"])["face_m"][2]
    return (
        abs(float(v["focus"]) - exact) <= 0.05
        and v["way"] == ("before" if off > 0 else "behind")
        and abs(float(v["off"]) - 100 * abs(off)) <= 0.6
        and float(v["need"]) <= float(v["third"]) + 0.051
        and abs(abs(label - off) - min(abs(z - off) for z in zs)) <= 0.006
    )


def faces_clear(v: Tree, s: Tree) -> bool:
    """By hand: no crown stands in the line from the lens to the eyes of somebody behind it."""
    lens = (0.0, s["camera"]["height_m"], s["camera"]["distance_m"])
    mean = sum(p["face_m"][1] for p in s["sitters"]) / len(s["sitters"])
    if s["expected"]["group"]["faces_hidden"] or abs(float(v["over"]) - 100 * (lens[1] - mean)) > 1:
        return False
    return not any(_blocked(lens, q["face_m"], p["face_m"]) for p in s["sitters"] for q in s["sitters"])


def _blocked(lens: tuple[float, ...], face: list[float], before: list[float]) -> bool:
    """Whether a head 14 cm wide, 11 cm up and down from its eyes, hides the eyes behind it: smaller than most heads."""
    if before[2] <= face[2] + 0.05:
        return False
    share = (lens[2] - before[2]) / (lens[2] - face[2])
    x, y = (lens[i] + share * (face[i] - lens[i]) for i in (0, 1))
    return ((x - before[0]) / 0.07) ** 2 + ((y - before[1]) / 0.11) ** 2 < 1


def rows_lit(v: Tree, s: Tree) -> bool:
    """The head stands between the face and the light, and over the height named a ray clears it by its radius."""
    light = next(x for x in s["lights"] if x["letter"] == v["letter"])
    face, head, at = _of(s, v["label"])["face_m"], _of(s, v["by"])["face_m"], light["position_m"]
    to_head = [h - f for h, f in zip(head, face, strict=True)]
    to_light = [h - f for h, f in zip(at, face, strict=True)]
    nearer = sum(a * b for a, b in zip(to_head, to_light, strict=True)) > 0
    # Between 8 and 13 cm under the eyes the chin: the light's height seen from there, by hand
    flat = math.hypot(to_light[0], to_light[2])
    seen = [math.degrees(math.atan2(to_light[1] + under, flat)) for under in (0.07, 0.13)]
    low, high = min(seen) - 0.6, max(seen) + 0.6
    # what is taken is taken because the light does not stand over the clearing height
    return nearer and low <= float(v["height"]) <= high and float(v["height"]) <= float(v["clear"]) + 1


def on_steps(v: Tree, s: Tree) -> bool:
    chosen = [_of(s, name) for name in _names(v)]
    return (
        all(p["step"] == v["step"] for p in chosen)
        and len(chosen) == sum(p["step"] == v["step"] for p in s["sitters"])
        and float(v["rating"]) >= len(chosen) * float(v["each"])
    )


def inside(v: Tree, s: Tree) -> bool:
    """Each of them has somebody to either side in the row, and stands on no step."""
    chosen = [_of(s, name) for name in _names(v)]
    rows_of = _rows(s)
    return all(
        p["step"] is None
        and min(q["face_m"][0] for q in rows_of[p["row"]]) < p["face_m"][0] < max(
            q["face_m"][0] for q in rows_of[p["row"]]
        )
        for p in chosen
    )  # fmt: skip


def pair_apart(v: Tree, s: Tree) -> bool:
    xs = [p["face_m"][0] for p in s["sitters"]]
    return len(xs) == 2 and abs(abs(xs[0] - xs[1]) - float(v["apart"])) <= 0.006


def small_last(v: Tree, s: Tree) -> bool:
    """Nobody small stands behind the first standing row: before, among or on a knee of those who sit, or in row one."""
    low = [p["row"] for p in s["sitters"] if p["seat"]]
    return all(_of(s, name)["row"] <= max(low, default=1) for name in _names(v))


TRUE: dict[str, Callable[[Tree, Tree], bool]] = {
    "rows": rows,
    "one_row": lambda v, s: {p["row"] for p in s["sitters"]} == {1},
    "group_size": group_size,
    "group_focus": group_focus,
    "faces_clear": faces_clear,
    "rows_lit": rows_lit,
    "on_steps": on_steps,
    "own_chair": inside,
    "own_chair_among_standing": inside,
    "chair_for_floor": lambda v, s: all(_of(s, name)["face_m"][1] > 1.0 for name in _names(v)),
    "chair_for_standing": lambda v, s: all(_of(s, name)["face_m"][1] < 1.4 for name in _names(v)),
    "small_last": small_last,
    "pair_apart": pair_apart,
}
OF_NOTES: set[str] = set()

GROUP = briefs.setup("natural", "group")


def _standing(count: int, **notes: Any) -> list[Tree]:
    """Grown-ups of one height, so that a second row needs its gaps or a step."""
    return [briefs.sitter(f"Guest {n + 1}", posture="standing", **notes) for n in range(count)]


STEPPED = briefs.request(
    GROUP,
    [*_standing(4, height_cm=190, age_years=70), *_standing(5, height_cm=176)[4:],
     *(p | {"label": f"Tall {n}", "height_cm": 192} for n, p in enumerate(_standing(3)))],
    briefs.room(9, 2.9, 3.2),
)  # fmt: skip
CHAIRS = [briefs.sitter("Osric", posture="wheelchair"), briefs.sitter("Edda"), briefs.sitter("Ruan"),
          briefs.sitter("Tilda", posture="standing"), briefs.sitter("Wim", posture="standing")]  # fmt: skip
SAID: dict[str, Tree] = {
    "a chair among seats": briefs.request(GROUP, CHAIRS),
    "a chair among those who stand": briefs.request(GROUP, [CHAIRS[0], *_standing(4)]),
    "an elder asked onto the floor": briefs.request(
        GROUP, [briefs.sitter("Old", age_years=80, posture="floor"), *_standing(3)]
    ),
    "one who does not stand": briefs.request(
        GROUP, [briefs.sitter("Sore", posture="standing", stand_minutes=0.5), *_standing(3)]
    ),
    "an older pair": briefs.request(
        briefs.setup("soft", "half"), [briefs.sitter("Edda", age_years=71), briefs.sitter("Ruan", age_years=66)]
    ),
    "tall people in a narrow room": STEPPED,
    "twelve in three rows": briefs.request(GROUP, briefs.family(12), kit=briefs.kit_of(
        heads=("h400-1", "h400-2"), modifiers=("octa150-1", "umb180"), lenses=("lens50-70",))),
}
CAUTIOUS: dict[str, Tree] = {"a step": STEPPED}
