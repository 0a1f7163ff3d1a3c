"""Step 3, third part: accents from behind, where hair or shoulders would melt into the ground: one, for a few two.

Hair light aims at the crown, rim and kicker at the head's side. It stands out of the picture, before the ground, and
is read at its own place with the dome toward it. The first stands on the shadow side; places that strike a nose, shine
into the lens or reach the meter between two heads cost. Canonical set: the shadow side is camera left.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import flare
from shotplans.light.units import unit
from shotplans.light.vectors import dot
from shotplans.planner import anatomy, behind
from shotplans.planner import kit as owned
from shotplans.planner.candidates import Grid, grid, limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.ground import along
from shotplans.planner.intents import Band
from shotplans.planner.mounting import mount
from shotplans.planner.plan import Light
from shotplans.planner.scene import Scene
from shotplans.planner.score import fit
from studio.tongue import gettext as _
from studio.tongue import noop

F = NDArray[np.float64]
# bearing and height angle wanted by kind of accent, degrees: common practice, no source
PLACES = {
    "hair": (Band(-160, -140), Band(35, 50)),
    "rim": (Band(-155, -135), Band(15, 40)),
    "kicker": (Band(-140, -120), Band(10, 30)),
}
DISTANCE_M = Band(1.2, 2.0)
LOOKED, TRIES = 200, 40  # places whose spill is looked at, and those that are tried on a stand
LARGEST_M = 1.2  # a bigger source from behind flares the lens
NOSE_COST, NOSE_FREE_STOPS = 0.6, 1.5  # a light this far under the key draws nothing on a nose that is seen
LENS_COST, LENS_FREE_STOPS = 2.0, 0.05
METER_COST, METER_FREE_STOPS = 3.0, 0.1
CM = 0.01  # an aim is kept to one
AT_FACE = noop("at the face")  # of a light that a hand aimed at somebody
AIM_WORDS = {
    "hair": noop("at the crown"),
    "rim": noop("at the side of the head"),
    "kicker": noop("at the shadow cheek from behind"),
}


@dataclass(frozen=True)
class Want:
    """One accent asked for: its kind, the side (-1 shadow, 1 key) and how far under the key it reads, in stops."""

    kind: str
    side: float
    level: Band


def on_hair(light: Light, mark: F) -> bool:
    """Whether an accent is for the hair: by its words, or, of a plan frozen in another language, by the place it is
    aimed at, over the `mark`'s eyes."""
    if light.aim_words in (AIM_WORDS["hair"], _(AIM_WORDS["hair"])):
        return True
    others = (AIM_WORDS["rim"], AIM_WORDS["kicker"], AT_FACE)
    if light.aim_words in {*others, *map(_, others)}:
        return False
    crown = mark + np.array([0.0, anatomy.CROWN_ABOVE_EYES_M, 0.0])
    return bool(np.linalg.norm(np.array(light.aim) - crown) < 2 * CM)


def second(intent: str, tone: str, hair: str, head: str) -> Want | None:
    """The second accent an intent takes before a dark ground: common practice, no source.

    Bold draws both edges of the head; a character light lifts dark hair that the kicker does not reach.
    """
    if tone not in ("black", "dark"):
        return None
    if intent == "bold":
        return Want("rim", 1.0, Band(0.5, 1.5))
    if intent == "character" and hair == "dark" and head == "usual":
        return Want("hair", -1.0, Band(0.5, 1.5))
    return None


def solve(
    scene: Scene,
    want: Want,
    *,
    emitters: Sequence[Emitter],
    stands: Sequence[owned.Stand],
    needed: float,
    others: Sequence[Light] = (),
) -> Light | None:
    """The accent at its ideal power (unrounded), or None when nothing free can stand there.

    `needed` is the key's own exposure; the accent reads `level` under it with the dome facing it. It keeps clear of
    the key and of the `others`.
    """
    aim = scene.mark + np.array([0.0, anatomy.CROWN_ABOVE_EYES_M if want.kind == "hair" else 0.0, 0.0])
    aim[1] = round(float(aim[1]), 2)
    small = [e for e in emitters if e.disc_size_m <= LARGEST_M]
    wanted = needed * 2.0**-want.level.mid
    found = sorted(_places(scene, aim, want, small, stands))
    for _cost, number, distance, bearing, height in found[: 2 * TRIES]:
        steps = (distance, bearing, height)
        made = _light(scene, aim, want.kind, small[number], steps, stands, (scene.key, *others))
        if made is None:
            continue
        power = _power(made, aim, wanted)
        if -0.5 <= power <= small[number].head.range_stops:
            return replace(made, power_stops=max(0.0, power))
    return None


def _places(
    scene: Scene, aim: F, want: Want, emitters: Sequence[Emitter], stands: Sequence[owned.Stand]
) -> Iterator[tuple[float, int, float, float, float]]:
    """Places that break no limit, as (cost, emitter, distance, bearing, height angle)."""
    bearings, heights = PLACES[want.kind]
    reach = (-165.0, -110.0) if want.side < 0 else (110.0, 165.0)
    g = _about(scene, aim, grid(scene.mark[1], (1.0, 2.6), reach, (0.0, 55.0), 0.1))
    taste = fit(-np.abs(g.bearing_deg), bearings, 12.0) + fit(g.height_deg, heights, 10.0)
    taste = taste + 0.5 * fit(g.distance_m, DISTANCE_M, 0.5)
    for number, emitter in enumerate(emitters):
        lim = limits(g, emitter, camera=scene.camera, box=scene.box, stands=stands, needed=0.0, iso_room_stops=0.0)
        # The dome faces this light, so the power limit of `limits` (dome at the camera) is not the one that counts.
        kept = lim.room + lim.ceiling + lim.picture + lim.reach + lim.near == 0
        value = taste - 0.1 * lim.boom + 0.3 * (emitter.modifier.grid_deg is not None)
        value = value + 0.2 * (emitter.modifier.kind == "strip")
        likely = np.argsort(-np.where(kept, value, -np.inf), kind="stable")[:LOOKED]
        likely = likely[kept[likely]]
        value = value[likely] - _spill_cost(scene, aim, want, emitter, g.position[likely])
        for n in np.argsort(-value, kind="stable")[:TRIES]:
            i = likely[n]
            steps = (float(g.distance_m[i]), float(g.bearing_deg[i]), float(g.height_deg[i]))
            yield (round(-float(value[n]), 9), number, *steps)


def _spill_cost(scene: Scene, aim: F, want: Want, emitter: Emitter, at: F) -> F:
    """What each place (n, 3) costs for noses it strikes and for light into the lens and onto the meter."""
    cost = _stray_cost(scene, aim, emitter, at, 2.0**-want.level.mid)
    if want.level.mid < NOSE_FREE_STOPS:
        cost = cost + NOSE_COST * _nose_struck(scene, at)
    return np.asarray(cost, dtype=np.float64)


def _nose_struck(scene: Scene, at: F) -> F:
    """Share (n,) of the noses in the picture that a light at each place would strike."""
    seated = scene.pose.together
    struck = [~behind.hidden(behind.nose_tip(s), at, s) for s in seated]
    return np.asarray(np.mean(struck, axis=0), dtype=np.float64)


def _stray_cost(scene: Scene, aim: F, emitter: Emitter, at: F, share: float) -> F:
    """What each place costs for light into the lens, and past the heads onto the meter, at `share` of the key."""
    axis = np.asarray(unit(aim - at))
    strength = np.linalg.norm(emitter.vector(aim, at, axis), axis=-1)
    scale = share / np.maximum(strength, 1e-12)
    on_lens = np.linalg.norm(emitter.vector(scene.camera.at, at, axis), axis=-1) * scale
    lift = flare.black_lift_stops(behind.BLACK, flare.veil_of_lamp(on_lens, 1.0))
    seen = np.ones(len(at), dtype=bool)
    for s in scene.pose.together:
        seen &= ~behind.hidden(scene.mark, at, s)
    turned = 0.5 * (1 + dot(np.asarray(unit(at - scene.mark)), scene.axis))
    on_meter = np.linalg.norm(emitter.vector(scene.mark, at, axis), axis=-1) * scale * turned * seen
    cost = LENS_COST * np.maximum(0.0, lift - LENS_FREE_STOPS)
    return np.asarray(cost + METER_COST * np.maximum(0.0, np.log2(1 + on_meter) - METER_FREE_STOPS))


def _about(scene: Scene, aim: F, g: Grid) -> Grid:
    """The grid with each placement moved along its ray so that the distance is to the aim."""
    offset = aim - scene.mark
    along_ray = g.toward @ offset
    reach = along_ray + np.sqrt(np.maximum(g.distance_m**2 - float(offset @ offset) + along_ray**2, 0.0))
    return replace(g, position=scene.mark + reach[:, None] * g.toward)


def _light(
    scene: Scene,
    aim: F,
    kind: str,
    emitter: Emitter,
    steps: tuple[float, float, float],
    stands: Sequence[owned.Stand],
    others: Sequence[Light],
) -> Light | None:
    distance, bearing, height = steps
    at = along(scene.mark, bearing, height, aim, distance)
    if at is None or any(np.linalg.norm(at - x.at) < (emitter.width_m + x.width_m) / 2 for x in others):
        return None
    held = mount(at, unit(at - aim), emitter.depth_m - 0.2, emitter.mass_kg, stands, scene.site())
    if held is None:
        return None
    place = (round(float(at[0]), 2), round(float(at[1]), 2), round(float(at[2]), 2))
    target = (round(float(aim[0]), 2), round(float(aim[1]), 2), round(float(aim[2]), 2))
    return Light(
        role="accent",
        position=place,
        aim=target,
        aim_words=_(AIM_WORDS[kind]),
        distance_m=distance,
        bearing_deg=bearing,
        height_deg=height,
        emitter=emitter,
        mounting=held,
        distance_to=target,
    )


def _power(light: Light, aim: F, wanted: float) -> float:
    assert light.emitter is not None
    got = float(np.linalg.norm(light.emitter.vector(aim, light.at, light.axis)))
    return float(-np.log2(wanted / max(got, 1e-12)))
