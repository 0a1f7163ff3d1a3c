"""Flags: black screens that keep an accent or a ground light off lens and faces, or the key off what must stay dark.

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
from shotplans.planner.mounting import PANEL_KG, mount
from shotplans.planner.plan import Flag, Ground, Light, Point, Solved
from shotplans.planner.readings import direct, front
from shotplans.planner.scene import Scene, centimetres
from studio.tongue import gettext as _
from studio.tongue import noop

F = NDArray[np.float64]
FLAG_KG = 1.5  # a flag with its arm; value from memory
FROM_LIGHT_M = tuple(round(0.3 + 0.1 * n, 1) for n in range(13))
ENOUGH = 0.95  # hidden: no better place is looked for
MOST_ALONG = 0.7  # of the way to what is kept dark
ASIDE = (0.0, 0.4, 0.7, 0.9)  # of its half size that a flag moves away from what must stay lit
LOSS = {"faces": 0.05}  # share that what must stay lit may lose; else
LOSS_ELSE = 0.02  # a thirtieth of a stop
LENS_HIDDEN, FACES_HIDDEN, CLOTH_HIDDEN = 0.8, 0.6, 0.3
FACES_FROM = 0.05  # of the setting: ground lights that send more past their edges to the meter are worth screens
LENS_FROM_STOPS = 0.06  # a black lifted by more than this is worth a flag
LENS_M = 0.1  # across the front of a lens
GROUND_GAIN_STOPS = 0.1
CLOTH_REFLECTANCE = 0.85  # light cloth; value from memory
CHEST_M = np.array([0.0, -0.35, 0.10])  # from the bridge of the nose; common practice
SHOULDER_M = np.array([0.18, -0.25, 0.0])
WHY = {
    "faces": noop("keeps light {letter} off the faces"),
    "lens": noop("keeps light {letter} off the lens"),
    "ground": noop("keeps light {letter} off the ground, which is to stay dark"),
    "cloth": noop("keeps light {letter} off the light cloth"),
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
    for wish, least in _wishes(scene, lights, hung, spill):
        flag = _best(scene, wish, left, least)
        if flag is None:
            continue
        lit = replace(spill, flags=(*placed, flag))
        darker = ground.measure(scene, hung.item, hung.distance_m, lit, hung.wanted)
        if wish.keeps == "ground" and darker.reading_above_setting > hung.reading_above_setting - GROUND_GAIN_STOPS:
            continue
        placed.append(flag)
        left, hung = left.without(flag), darker
    return tuple(placed), hung


def _wishes(
    scene: Scene, lights: Sequence[Light], hung: Ground, spill: ground.Spill
) -> Iterator[tuple[Wish, float]]:
    """What is to be kept dark from which light, and the least share of it that a flag must hide to be worth it."""
    seen, key = ground.seen_points(scene, hung.item, hung.distance_m), scene.key
    stray = sum(_stray(scene, x, spill) for x in lights if x.role == "background")
    for light in lights:
        if light.role not in ("accent", "background") or light.emitter is None:
            continue
        lit = _faces(scene) if light.role == "accent" else seen
        if light.role == "background" and stray > FACES_FROM and _stray(scene, light, spill) > 0.2 * stray:
            yield Wish(light, "faces", np.concatenate([scene.mark[None], _faces(scene)]), lit), FACES_HIDDEN
        if behind.lens_lift_stops(light, scene.camera, spill.setting) > LENS_FROM_STOPS:
            yield Wish(light, "lens", _lens(scene), lit), LENS_HIDDEN
    if too_light(hung) and not any(x.role == "background" for x in lights):
        yield Wish(key, "ground", seen, _faces(scene)), 0.0
    elif cloth_over_white(scene, spill.setting) > 0:
        yield Wish(key, "cloth", cloth(scene), _faces(scene)), CLOTH_HIDDEN


def _stray(scene: Scene, light: Light, spill: ground.Spill) -> float:
    """What a ground light sends past its edge to the meter at the mark, as a share of the setting."""
    got = behind.on_meter(light, scene.mark, scene.axis, scene.recessed, scene.pose)
    return got / spill.setting


def too_light(hung: Ground) -> bool:
    """Whether a ground that is to be dark comes out lighter than the tone allows."""
    return hung.wanted[1] <= ground.DARK_MOST_L and hung.lightness > hung.wanted[1] + ground.GOOD_ENOUGH_L


def cloth(scene: Scene) -> F:
    """Where light cloth shows of those who wear it: the chest and the shoulder toward the key; (n, 3), maybe empty."""
    toward_key = 1.0 if scene.key.position[0] >= 0 else -1.0
    places = np.array([CHEST_M, SHOULDER_M * np.array([toward_key, 1.0, 1.0])])
    clothes = [(np.array(s.face_m), s.person.sitter.clothes) for s in scene.pose.together]
    light = [face + places for face, worn in clothes if worn is not None and worn.tone == "light"]
    return np.array(light).reshape(-1, 3)


def cloth_over_white(scene: Scene, setting: float) -> float:
    """Stops by which the key lights a fold of light cloth that faces it over a full white; -9.9 where none is worn."""
    points = cloth(scene)
    if not len(points):
        return -9.9
    got = float(np.linalg.norm(direct(scene.key, points), axis=-1).max())
    return float(np.log2(CLOTH_REFLECTANCE * max(got, 1e-6 * setting) / setting))


def _head(light: Light) -> str:
    return light.emitter.head.id if light.emitter else ""


def _faces(scene: Scene) -> F:
    """Faces, and the crown over each: what no flag may take light from."""
    faces = np.array([s.face_m for s in scene.pose.together])
    return np.concatenate([faces, faces + np.array([0.0, anatomy.CROWN_ABOVE_EYES_M, 0.0])])


def _lens(scene: Scene) -> F:
    """The middle of the lens's front and four points on its rim."""
    rim = np.array([[0, 0, 0], [1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0]])
    return np.asarray(scene.camera.at + LENS_M / 2 * rim)


def _best(scene: Scene, wish: Wish, left: Free, least: float) -> Flag | None:
    """The first flag and place that hide nearly all of the light from what is kept dark, else those that hide most."""
    best: tuple[float, Flag] | None = None
    for flag in _tries(scene, wish, left):
        if best is not None and best[0] >= ENOUGH:
            break
        hidden = float(_hidden(flag, wish.light, wish.points).mean())
        if hidden <= (best[0] if best else least) + 1e-9:
            continue
        held = _held(scene, flag, left)
        if held is not None:
            best = (hidden, held)
    return best[1] if best else None


def _tries(scene: Scene, wish: Wish, left: Free) -> Iterator[Flag]:
    """Flags across the line to what is kept dark: small ones first, near the light first, moved off what stays lit."""
    start = wish.light.at
    reach, way = float(np.linalg.norm(wish.middle - start)), np.asarray(unit(wish.middle - start))
    lit = np.asarray(unit(wish.lit.mean(axis=0) - start))
    aside = way - lit * float(way @ lit)
    aside = np.asarray(unit(aside - way * float(aside @ way))) if np.linalg.norm(aside) > 1e-6 else np.zeros(3)
    across, up = sources.panel_axes(way)
    axis = (float(way[0]), float(way[1]), float(way[2]))
    steps = [(d, share) for d in FROM_LIGHT_M if d <= MOST_ALONG * reach for share in ASIDE]
    for item, width, height in _items(wish, left):
        half = abs(float(across @ aside)) * width / 2 + abs(float(up @ aside)) * height / 2
        places = [centimetres(start + distance * way + share * half * aside) for distance, share in steps]
        for n in np.flatnonzero(_clear(scene, np.array(places).reshape(-1, 3), way, width, height)):
            flag = Flag(item, _head(wish.light), wish.keeps, places[n], axis, width, height, steps[n][0], None)
            if _lets_by(scene, flag, wish):
                yield flag


def _items(wish: Wish, left: Free) -> list[tuple[owned.Flag | owned.Panel, float, float]]:
    """What may screen, small things first, each way it can hang and each size once; panels only for people."""
    free: list[owned.Flag | owned.Panel] = list(left.flags)
    if wish.keeps == "faces":
        free += left.panels
    found: dict[tuple[float, float], owned.Flag | owned.Panel] = {}
    for item in sorted(free, key=lambda x: float(x.width_m or 0.0) * float(x.height_m or 0.0)):
        sides = (float(item.width_m or 0.0), float(item.height_m or 0.0))
        for way in (sides, sides[::-1]):
            if min(sides) > 0:
                found.setdefault(way, item)
    return [(item, width, height) for (width, height), item in found.items()]


def _hidden(flag: Flag, light: Light, points: F) -> F:
    axes = sources.panel_axes(np.array(flag.axis))
    return screens.hidden_share(points, front(light), np.array(flag.at_m), axes, flag.width_m, flag.height_m)


def _clear(scene: Scene, at: F, axis: F, width_m: float, height_m: float) -> NDArray[np.bool_]:
    """Which of some places (n, 3) keep a flag that faces that way out of the picture, inside the room, off the floor.

    All places of one flag at once: most of them fall here, and one call for each took a third of a group's plan.
    """
    corners = sources.rect_corners(at, axis, width_m, height_m)
    clear = scene.camera.clearance(corners) >= 1 + CLOTH_MARGIN
    clear &= scene.box.over(corners).max(axis=-1) <= 0
    return np.asarray(clear & (corners[..., 1].min(axis=-1) >= 0.02))


def _lets_by(scene: Scene, flag: Flag, wish: Wish) -> bool:
    """Whether it is in nobody's light."""
    in_the_way = float(_hidden(flag, wish.light, wish.lit).mean())
    if in_the_way > LOSS.get(wish.keeps, LOSS_ELSE):
        return False
    return float(_hidden(flag, scene.key, _faces(scene)).mean()) <= LOSS_ELSE


def _held(scene: Scene, flag: Flag, left: Free) -> Flag | None:
    """The flag on the least free stand that reaches."""
    mass = PANEL_KG if isinstance(flag.item, owned.Panel) else FLAG_KG
    held = mount(np.array(flag.at_m), np.array(flag.axis), 0.0, mass, left.stands, scene.site())
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
        aim = np.array(flag.at_m) + np.array(flag.axis)  # the way it faces, a metre on
        rows.append(
            {
                "id": str(flag.item.id),
                "at_m": [round(v, 2) + 0.0 for v in flag.at_m],
                "why": _(WHY[flag.keeps]).format(letter=shades),
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
    items: dict[str, owned.Flag | owned.Panel] = {x.id: x for x in kit.panels}
    items |= {str(x.id): x for x in kit.flags}
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
        yield noop("panel clamp"), shades, 1
