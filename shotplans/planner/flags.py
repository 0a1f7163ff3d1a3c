"""Flags: small black screens that keep an accent or a ground light off the lens, or the key off what must stay dark.

A flag stands on the line from the light to the place it keeps dark, as near to the light as it clears the faces; it is
taken only where it hides nearly all (lens) or helps enough (ground, cloth). Nothing is used twice. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import screens, sources
from shotplans.light.units import unit
from shotplans.planner import anatomy, behind, ground
from shotplans.planner import kit as owned
from shotplans.planner.candidates import CLOTH_MARGIN
from shotplans.planner.free import Free
from shotplans.planner.mounting import mount
from shotplans.planner.plan import Flag, Ground, Light, Point, Solved
from shotplans.planner.readings import direct, front
from shotplans.planner.scene import Scene, centimetres

F = NDArray[np.float64]
FLAG_KG = 1.5  # a flag with its arm; value from memory
FROM_LIGHT_M = tuple(round(0.3 + 0.1 * n, 1) for n in range(13))
FACE_LOSS = 0.02  # of a light the faces may lose behind a flag: a thirtieth of a stop
LENS_HIDDEN = 0.95
LENS_FROM_STOPS = 0.1  # a black lifted by more than this is worth a flag
LENS_M = 0.1  # across the front of a lens
GROUND_GAIN_STOPS = 0.1
CLOTH_REFLECTANCE = 0.85  # light cloth; value from memory
CHEST_BELOW_FACE_M, CHEST_BEFORE_M = 0.35, 0.10
WHY = {
    "lens": "keeps light {letter} off the lens",
    "ground": "keeps light {letter} off the ground, which is to stay dark",
    "cloth": "keeps light {letter} off the light cloth",
}


@dataclass(frozen=True)
class Wish:
    """One flag wished for: the light, what is kept dark (points and their middle), and what must stay lit."""

    light: Light
    keeps: str
    points: F
    lit: F

    @property
    def middle(self) -> F:
        return np.asarray(self.points.mean(axis=0))


def solve(
    scene: Scene, lights: Sequence[Light], hung: Ground, spill: ground.Spill, left: Free
) -> tuple[tuple[Flag, ...], Ground]:
    """The flags that the free kit can set, and the ground as it reads with them."""
    placed: list[Flag] = []
    for light in lights:
        if light.role not in ("accent", "background") or light.emitter is None:
            continue
        if behind.lens_lift_stops(light, scene.camera, spill.setting) > LENS_FROM_STOPS:
            flag = _best(scene, _lens_wish(scene, light, hung), left, LENS_HIDDEN)
            placed += [flag] if flag else []
            left = left.without(*placed)
    key = scene.key
    if too_light(hung) and not any(x.role == "background" for x in lights):
        seen = ground.seen_points(scene, hung.item, hung.distance_m)
        flag = _best(scene, Wish(key, "ground", seen, _faces(scene)), left, 0.0)
        if flag is not None:
            lit = replace(spill, flags=(*spill.flags, flag))
            darker = ground.measure(scene, hung.item, hung.distance_m, lit, hung.wanted)
            if darker.reading_above_setting <= hung.reading_above_setting - GROUND_GAIN_STOPS:
                placed.append(flag)
                left, hung = left.without(flag), darker
    if clipped_cloth(scene, spill.setting) and not any(f.head == _head(key) for f in placed):
        flag = _best(scene, Wish(key, "cloth", chests(scene), _faces(scene)), left, 0.3)
        placed += [flag] if flag else []
    return tuple(placed), hung


def too_light(hung: Ground) -> bool:
    """Whether a ground that is to be dark comes out lighter than the tone allows."""
    return hung.wanted[1] <= ground.DARK_MOST_L and hung.lightness > hung.wanted[1] + ground.GOOD_ENOUGH_L


def chests(scene: Scene) -> F:
    """Where light cloth shows, before the chest of everybody who wears it; (n, 3), empty where nobody does."""
    before = np.array([0.0, -CHEST_BELOW_FACE_M, CHEST_BEFORE_M])
    clothes = [(np.array(s.face_m), s.person.sitter.clothes) for s in scene.pose.together]
    return np.array([face + before for face, worn in clothes if worn is not None and worn.tone == "light"]).reshape(-1, 3)


def cloth_over_white(scene: Scene, setting: float) -> float:
    """Stops by which the key alone lights light cloth over white (100 %) at the setting; -9.9 where none is worn."""
    points = chests(scene)
    if not len(points):
        return -9.9
    facing = np.asarray(unit(np.array([0.0, 0.2, 1.0])))  # a chest leans back a little
    got = float(np.clip(direct(scene.key, points) @ facing, 1e-12, None).max())
    return float(np.log2(CLOTH_REFLECTANCE * got / setting))


def clipped_cloth(scene: Scene, setting: float) -> bool:
    return cloth_over_white(scene, setting) > 0


def _head(light: Light) -> str:
    return light.emitter.head.id if light.emitter else ""


def _faces(scene: Scene) -> F:
    """Faces, and the crown over each: what no flag may take light from."""
    faces = np.array([s.face_m for s in scene.pose.together])
    return np.concatenate([faces, faces + np.array([0.0, anatomy.CROWN_ABOVE_EYES_M, 0.0])])


def _lens_wish(scene: Scene, light: Light, hung: Ground) -> Wish:
    """The lens from a light; an accent must go on lighting the heads, a ground light the ground."""
    lens = scene.camera.at + LENS_M / 2 * np.array([[0, 0, 0], [1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0]])
    lit = _faces(scene) if light.role == "accent" else ground.seen_points(scene, hung.item, hung.distance_m)
    return Wish(light, "lens", lens, lit)


def _best(scene: Scene, wish: Wish, left: Free, least: float) -> Flag | None:
    """The flag and place that hide most of the light from what is kept dark, nearest to the light of equals."""
    best: tuple[float, Flag] | None = None
    for flag in _tries(scene, wish, left):
        if best is not None and best[0] >= 1 - 1e-9:
            break
        hidden = float(_hidden(flag, wish.light, wish.points).mean())
        if hidden <= (best[0] if best else least) + 1e-9:
            continue
        held = _held(scene, flag, left)
        if held is not None:
            best = (hidden, held)
    return best[1] if best else None


def _tries(scene: Scene, wish: Wish, left: Free) -> Iterator[Flag]:
    """Flags upright and turned on the line to the place kept dark, nearest first, where they hide nothing else."""
    reach = float(np.linalg.norm(wish.middle - wish.light.at))
    way = np.asarray(unit(wish.middle - wish.light.at))
    for distance in FROM_LIGHT_M:
        if distance > 0.7 * reach:
            return
        at = centimetres(wish.light.at + distance * way)
        axis = np.asarray(unit(np.array(centimetres(wish.middle)) - np.array(at)))
        for item in left.flags:
            for width, height in dict.fromkeys(_ways(item)):
                flag = Flag(
                    item, _head(wish.light), wish.keeps, at, (float(axis[0]), float(axis[1]), float(axis[2])),
                    width, height, distance, None,
                )  # fmt: skip
                if _allowed(scene, flag, wish):
                    yield flag


def _ways(item: owned.Flag) -> list[tuple[float, float]]:
    sides = (float(item.width_m or 0.0), float(item.height_m or 0.0))
    return [sides, sides[::-1]] if min(sides) > 0 else []


def _hidden(flag: Flag, light: Light, points: F) -> F:
    axes = sources.panel_axes(np.array(flag.axis))
    return screens.hidden_share(points, front(light), np.array(flag.at_m), axes, flag.width_m, flag.height_m)


def _allowed(scene: Scene, flag: Flag, wish: Wish) -> bool:
    """Out of the picture, inside the room, and in nobody's light."""
    corners = sources.rect_corners(np.array(flag.at_m), np.array(flag.axis), flag.width_m, flag.height_m)
    if float(scene.camera.clearance(corners)) < 1 + CLOTH_MARGIN or float(scene.box.over(corners).max()) > 0:
        return False
    if float(corners[:, 1].min()) < 0.02:
        return False
    in_the_way = float(_hidden(flag, wish.light, wish.lit).mean())
    return in_the_way <= FACE_LOSS and float(_hidden(flag, scene.key, _faces(scene)).mean()) <= FACE_LOSS


def _held(scene: Scene, flag: Flag, left: Free) -> Flag | None:
    """The flag on the least free stand that reaches, its foot beside the line of light."""
    beside = np.cross(np.array(flag.axis), [0.0, 1.0, 0.0])
    held = mount(np.array(flag.at_m), np.asarray(unit(beside)), 0.0, FLAG_KG, left.stands, scene.site())
    return replace(flag, stand=held.stand) if held is not None else None


def size_for_lens_m(light: Light, scene_camera_at: F, distance_m: float) -> tuple[float, float]:
    """Width and height of a flag that would keep the whole light off the whole lens, so far before the light."""
    way = scene_camera_at - light.at
    share = min(1.0, distance_m / float(np.linalg.norm(way)))
    across, up = sources.panel_axes(np.asarray(unit(way)))
    spots = front(light) - light.at
    sides = [float(np.ptp(spots @ axis)) * 7 / 6 for axis in (across, up)]  # the spots lie half a step inside the rim
    width, height = (float(screens.size_needed_m(side, LENS_M, share)) for side in sides)
    return width, height


def letter(flag: Flag, lights: Sequence[Light]) -> str:
    """The letter of the light a flag shades."""
    return next((x.letter for x in lights if x.emitter and x.emitter.head.id == flag.head), "")


def printed(solved: Solved) -> list[dict[str, Any]]:
    """Rows for the document's `blocks`."""
    rows = []
    for flag in solved.flags:
        shades = letter(flag, solved.lights)
        aim = np.array(flag.at_m) + np.array(flag.axis)
        rows.append(
            {
                "id": str(flag.item.id),
                "at_m": [round(v, 2) + 0.0 for v in flag.at_m],
                "why": WHY[flag.keeps].format(letter=shades),
                "stand": flag.stand,
                "distance_m": round(flag.distance_m, 2),
                "bearing_deg": float(np.round(np.degrees(np.arctan2(flag.at_m[0], flag.at_m[2])))) + 0.0,
                "shades": shades,
                "keeps": flag.keeps,
                "size_m": [flag.width_m, flag.height_m],
                "aim_m": [round(float(v), 3) + 0.0 for v in aim],
            }
        )
    return rows


def read(rows: Sequence[dict[str, Any]], kit: owned.Kit, lights: Sequence[Light]) -> tuple[Flag, ...]:
    """The flags among a document's `blocks`, as `printed` wrote them."""
    heads = {x.letter: _head(x) for x in lights}
    items = {str(f.id): f for f in kit.flags}
    return tuple(
        Flag(
            items[row["id"]], heads[row["shades"]], row["keeps"], _point(row["at_m"]),
            _point(np.asarray(unit(np.array(row["aim_m"]) - np.array(row["at_m"])))), row["size_m"][0],
            row["size_m"][1], row["distance_m"], row["stand"],
        )
        for row in rows
        if row["keeps"] != "bounce"
    )  # fmt: skip


def _point(values: Any) -> Point:
    return (float(values[0]), float(values[1]), float(values[2]))


def packed(solved: Solved) -> Iterator[tuple[str, str, int]]:
    """What the flags ask for in the packing list: each with its stand and a clamp, for the light it shades."""
    for flag in solved.flags:
        shades = letter(flag, solved.lights)
        yield str(flag.item.id), shades, 1
        if flag.stand:
            yield flag.stand, shades, 1
        yield "flag clamp", shades, 1
