"""Light from behind the sitter: what heads keep off the face, what strikes a nose, what shines into the lens.

Reckoned on placed lights; which of it is a problem is check_grounds.py's, what is done about it accent.py's and
flags.py's. A head is an ellipsoid of average size (values.md A09, A10); hair, shoulders and hands are left out.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shotplans.light import accents, flare, metering
from shotplans.light.units import unit
from shotplans.planner import anatomy
from shotplans.planner.expect import Meter
from shotplans.planner.frame import Camera
from shotplans.planner.people import Pose, Seated
from shotplans.planner.plan import Flag, Light, Solved
from shotplans.planner.readings import bounce_plane, direct, flagged, front, straight, toward

F = NDArray[np.float64]
HALF_AXES_M = np.array([0.075, anatomy.HEAD_HEIGHT_M / 2, 0.0975])  # half of breadth 150, height, length 195 mm
NOSE_TIP_M = np.array([0.0, -0.045, anatomy.FACE_FRONT_M])  # before and under the bridge; value from memory
NOSE_TURN_DEG = 50.0  # the side of a nose that a light from behind strikes, off the way it points: value from memory
ALL_ON_STOPS = 0.1  # what lights behind the sitter may add to the face: common practice
ALL_ON_MOST_STOPS = 0.15  # that, and what rounding to a tenth can add
WORTH_STOPS = 0.05  # another way must take at least so much off
BLACK = 0.04  # black cloth or hair: what a veil is seen on first (values.md L28)


def hidden(point: F, lights: F, sitter: Seated) -> NDArray[np.bool_]:
    """Whether a sitter's head stands between a point and lights (n, 3), all in the set's frame."""
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    centre = np.array(sitter.face_m) - turn @ np.array([0.0, 0.0, HALF_AXES_M[2]])
    return accents.head_hides((point - centre) @ turn, (lights - centre) @ turn, HALF_AXES_M)


def seen_share(point: F, light: Light, pose: Pose) -> float:
    """Share of a light's front that the heads in the picture leave in sight of a point."""
    heads = tuple((s.face_m, s.nose_deg, s.chin_deg) for s in pose.together)

    def share() -> float:
        spots = front(light, 3)
        dark = np.zeros(len(spots), dtype=bool)
        for sitter in pose.together:
            dark |= hidden(point, spots, sitter)
        return float(1 - dark.mean())

    return light.once(("in sight", point.tobytes(), heads), share)


def on_meter(light: Light, mark: F, axis: F, recessed: bool, pose: Pose) -> float:
    """What of a light behind a meter at the mark reads straight, past the heads in the picture; no bounce."""
    return straight(light, mark, axis, recessed) * seen_share(mark, light, pose)


def bounced(meter: Meter) -> float:
    """What the lights behind the sitter add to the reading at the face by way of the room."""
    solved = meter.solved
    even = bounce_plane(solved.by_role("accent", "background"), solved.box, solved.blocks)
    return even if meter.recessed else float(metering.dome_uniform(even))


def all_on(meter: Meter) -> float:
    """The reading at the face with every light on: what stands behind counts as far as the heads let it through."""
    solved, mark = meter.solved, meter.solved.mark_eyes
    total = meter.setting() + bounced(meter)
    for light in solved.by_role("accent", "background"):
        straight = on_meter(light, mark, meter.axis(mark), meter.recessed, solved.pose)
        total += straight * float(flagged(light, mark[None], solved.flags)[0])
    return total


def over_stops(solved: Solved, recessed: bool, at_key: bool) -> float:
    """Stops by which the face reads over the setting with every light on."""
    meter = Meter(solved, recessed, at_key)
    return float(np.log2(all_on(meter) / meter.setting()))


def nose_tip(sitter: Seated) -> F:
    """Where the tip of the nose is."""
    return np.asarray(np.array(sitter.face_m) + anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg) @ NOSE_TIP_M)


def on_nose(light: Light, sitter: Seated) -> float:
    """Exposure that a light from behind puts on the side of a sitter's nose tip; 0 where the head is in between."""
    tip = nose_tip(sitter)
    open_share = float(1 - hidden(tip, front(light, 3), sitter).mean())
    if open_share == 0:
        return 0.0
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    side = np.sign(float((light.at - tip) @ turn[:, 0])) or 1.0
    angle = np.radians(NOSE_TURN_DEG)
    normal = turn @ np.array([side * np.sin(angle), 0.0, np.cos(angle)])
    return max(0.0, float(direct(light, tip) @ normal)) * open_share


def on_lens(light: Light, camera: Camera, flags: tuple[Flag, ...] = ()) -> float:
    """Exposure that a light puts on the front of the lens, less what its flags hide."""
    pitch = np.radians(camera.pitch_deg)
    looking = np.array([0.0, np.sin(pitch), -np.cos(pitch)])
    got = max(0.0, float(direct(light, camera.at) @ looking))
    return got * float(flagged(light, camera.at[None], flags)[0])


def lens_lift_stops(light: Light, camera: Camera, setting: float, flags: tuple[Flag, ...] = ()) -> float:
    """Stops by which a light that shines into the lens lifts a black; good to a factor of two."""
    veil = flare.veil_of_lamp(on_lens(light, camera, flags), setting)
    return float(flare.black_lift_stops(BLACK, veil))


def gloss_stops(light: Light, solved: Solved) -> float:
    """Stops by which the line an accent draws on the first sitter's skin looks brighter than its reading."""
    sitter = solved.pose.together[0]
    face = np.array(sitter.face_m)
    cos = float(np.clip(toward(face, light.at) @ unit(solved.camera.at - face), -1.0, 1.0))
    between = min(170.0, float(np.degrees(np.arccos(cos))))
    person = sitter.person
    return accents.glancing_stops(between, light.alpha(face), person.reflectance, person.roughness)
