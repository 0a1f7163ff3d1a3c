"""The better cure: when a group is too uneven, too deep, too wide or hides a face, each single change is tried.

A change is tried on the plan as it stands, with the functions that judge the plan; nothing is searched anew. Gains are
what the trial printed less what the plan has, so they hold for one change alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import lenses
from shotplans.light.units import direction
from shotplans.planner import groups, sight
from shotplans.planner.arrange import arranged
from shotplans.planner.expect import Meter
from shotplans.planner.frame import depth_zone
from shotplans.planner.people import Pose, Seated
from shotplans.planner.plan import Light, Solved

F = NDArray[np.float64]
STEP_M = 0.5  # how much further a light or a camera is tried
TURN_DEG = 5.0
STEP_UP_M = tuple(n / 100 for n in range(5, 65, 5))
CAMERA_UP_M = tuple(n / 100 for n in range(5, 105, 5))
TURNS_DEG = tuple(5.0 * n for n in range(1, 10))


@dataclass(frozen=True)
class Cure:
    """One change and what it gains, in the unit of the limit it is tried on (0 or less: it does not help)."""

    code: str
    gain: float


def _best_first(found: list[Cure]) -> list[Cure]:
    return sorted(found, key=lambda c: (-round(c.gain, 3), c.code))


def evenness(solved: Solved, meter: Meter) -> list[Cure]:
    """Stops of evenness that one change gains, the best first."""
    faces = [np.array(s.face_m) for s in solved.pose.together]
    have = groups.spread_raw(meter, faces)
    found = []
    for code, light in _key_moved(solved):
        moved = replace(meter, solved=replace(solved, lights=(light, *solved.lights[1:])))
        found.append(Cure(code, have - groups.spread_raw(moved, faces)))
    if len(faces) > 2:
        fewer = [groups.spread_raw(meter, faces[:n] + faces[n + 1 :]) for n in range(len(faces))]
        found.append(Cure("person_fewer", have - min(fewer)))
    other = _rearranged(solved, 1)
    if other is not None:
        stood = replace(meter, solved=replace(solved, pose=other))
        found.append(Cure("row_more", have - groups.spread_raw(stood, [np.array(s.face_m) for s in other.seated])))
    return _best_first(found)


def _key_moved(solved: Solved) -> Iterator[tuple[str, Light]]:
    """The key a step further off, and a step nearer the lens, where the room lets it stand; as bright at the mark."""
    key, mark, box = solved.lights[0], solved.mark_eyes, solved.box
    way = -TURN_DEG if key.bearing_deg > 0 else TURN_DEG
    tries = [("light_further", key.distance_m + STEP_M, key.bearing_deg)]
    if abs(key.bearing_deg) >= TURN_DEG:
        tries.append(("light_nearer_lens", key.distance_m, key.bearing_deg + way))
    for code, distance, bearing in tries:
        at = mark + distance * direction(bearing, key.height_deg)
        if float(box.over(at[None])[0]) > 0:
            continue
        louder = 2 * float(np.log2(distance / key.distance_m))
        yield code, replace(key, position=(float(at[0]), float(at[1]), float(at[2])), distance_m=distance,
                            power_stops=key.power_stops - louder)  # fmt: skip


def _rearranged(solved: Solved, rows_more: int, without: Seated | None = None) -> Pose | None:
    """The group stood anew with so many rows more or somebody fewer; None where there are no rows or no such way."""
    stage = solved.pose.stage
    if stage is None:
        return None
    people = [s.person for s in solved.pose.seated if without is None or s.person is not without.person]
    rows = max(s.row for s in solved.pose.seated) + rows_more
    placed = arranged(people, stage, rows)
    if max(s.row for s in placed) != rows:
        return None
    stood = Pose(placed, False, stage)
    return stood.mirrored() if solved.lights[0].bearing_deg < 0 else stood


def depth(solved: Solved) -> list[Cure]:
    """Stops of aperture that one change spares the depth, the best first."""
    c = solved.camera

    def asks(pose: Pose, further_m: float = 0.0) -> float:
        front, behind = depth_zone(pose)
        moved = replace(c, distance_m=c.distance_m + further_m, front_m=front, behind_m=behind)
        return float(lenses.aperture_for_depth(moved.focal_mm, moved.focus_m, *moved.zone_m, moved.blur_mm))

    have = asks(solved.pose)
    found = [Cure("camera_further", 2 * float(np.log2(have / asks(solved.pose, STEP_M))))]
    if len(solved.pose.together) > 2:
        fewer = [asks(replace(solved.pose, seated=_without(solved, s))) for s in solved.pose.together]
        found.append(Cure("person_fewer", 2 * float(np.log2(have / min(fewer)))))
    other = _rearranged(solved, -1)
    if other is not None:
        found.append(Cure("row_fewer", 2 * float(np.log2(have / asks(other)))))
    return _best_first(found)


def _without(solved: Solved, one: Seated) -> tuple[Seated, ...]:
    return tuple(s for s in solved.pose.seated if s is not one)


def width(solved: Solved) -> list[Cure]:
    """Metres of width that one change gains, the best first."""
    have = groups.width_m(solved.pose.together)
    found = []
    if len(solved.pose.together) > 2:
        fewer = [groups.width_m(_without(solved, s)) for s in solved.pose.together]
        found.append(Cure("person_fewer", have - min(fewer)))
    other = _rearranged(solved, 1)
    if other is not None:
        found.append(Cure("row_more", have - groups.width_m(other.seated)))
    return _best_first(found)


def step_under(solved: Solved, who: Seated) -> float | None:
    """The lowest step in metres that clears a face and hides nobody more; None where none does or none may be."""
    if not who.person.may_step or who.step:
        return None
    before = _lost(solved.pose.together, solved.camera.at)
    for up in STEP_UP_M:
        raised = tuple(
            replace(s, face_m=(s.face_m[0], s.face_m[1] + up, s.face_m[2])) if s is who else s
            for s in solved.pose.together
        )
        after = _lost(raised, solved.camera.at)
        mine = solved.pose.together.index(who)
        if after[mine] == 0 and (after <= before + 1e-9).all():
            return up
    return None


def camera_up(solved: Solved) -> float | None:
    """How much higher, in metres, a lens clears every face; None where no height under the ceiling does."""
    for up in CAMERA_UP_M:
        lens = solved.camera.at + np.array([0.0, up, 0.0])
        if lens[1] > solved.box.ceiling_m - 0.3:
            return None
        if not _lost(solved.pose.together, lens).any():
            return up
    return None


def person_fewer_clears(solved: Solved, who: Seated) -> bool:
    """Whether the group without one person could be stood with every face clear."""
    other = _rearranged(solved, 0, who)
    return other is not None and not _lost(other.seated, solved.camera.at).any()


def _lost(seated: tuple[Seated, ...], lens: F) -> F:
    share = sight.hidden(sight.bodies(seated), lens).share
    return np.where(share > sight.CLEAR_SHARE, share, 0.0)


def light_clear(solved: Solved, meter: Meter, light: Light, limit_stops: float) -> dict[str, float]:
    """The least degrees higher, and to the side, at which a light is shaded within the limit, where there are any."""
    found: dict[str, float] = {}
    side = 1.0 if light.bearing_deg >= 0 else -1.0
    for name, up, out in (("higher", 1.0, 0.0), ("aside", 0.0, side)):
        for turn in TURNS_DEG:
            at = solved.mark_eyes + light.distance_m * direction(
                light.bearing_deg + out * turn, light.height_deg + up * turn
            )
            moved = replace(light, position=(float(at[0]), float(at[1]), float(at[2])))
            worst = groups.shade(solved, meter, moved)
            if worst is None or worst.stops <= limit_stops:
                found[name] = turn
                break
    return found
