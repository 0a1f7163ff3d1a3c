"""A set moved by hand: the changes between two sets, a set made from changes, and what a hand's gesture makes of one.

Belongs here: gestures (dragged over the floor, raised, one step by a key, typed) and the list of changes that stands
for all of them together. The list is the whole state: the same list on the same set gives the same set, in whatever
order a hand got there. Not here: one value's own change (`moves`), what follows from it (`forecast`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from shotplans.light.units import bearing_deg, direction, round_to
from shotplans.planner import moves
from shotplans.planner.candidates import STEP_DEG, STEP_M
from shotplans.planner.moves import Change, Refused
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Point, Solved, cm
from shotplans.planner.request import Request

ORDER = ("background", "camera", "sitter", "light")  # a stand is looked for last, where everything else stands
FLOOR, ARROW, LIFT = "floor_m", "arrow", "lift"
GESTURES = (FLOOR, ARROW, LIFT)
WAYS = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}  # on the sheet: right, toward the camera
FINE_M, FINE_DEG = 0.01, 1.0


def moved(request: Request, solved: Solved, changes: Iterable[Change]) -> Solved:
    """The set with all these values changed. Raises Refused for the first that cannot be set."""
    for change in sorted(changes, key=lambda c: ORDER.index(c.thing) if c.thing in ORDER else len(ORDER)):
        solved, _ = moves.changed(request, solved, change)
    return solved


def between(before: Solved, after: Solved) -> tuple[Change, ...]:
    """What makes the second set of the first, as changes to the centimetre; empty where nothing stands otherwise."""
    assert before.ground is not None
    assert after.ground is not None
    found = []
    if after.ground.distance_m != before.ground.distance_m:
        found.append(("background", "", "distance_m", f"{after.ground.distance_m:.2f}"))
    for key in ("distance_m", "height_m"):
        value = getattr(after.camera, key)
        if value != getattr(before.camera, key):
            found.append(("camera", "", key, f"{value:.2f}"))
    for a, b in zip(before.pose.seated, after.pose.seated, strict=True):
        found += [("sitter", a.person.label, key, value) for key, value in _of_sitter(a, b)]
    for x, y in zip(before.lights, after.lights, strict=True):
        found += [("light", x.letter, key, value) for key, value in _of_light(x, y)]
    return tuple(Change(*one, free=True) for one in found)


def _of_sitter(before: Seated, after: Seated) -> Iterator[tuple[str, str]]:
    places = zip(("right_m", "toward_camera_m"), before.face_m[::2], after.face_m[::2], strict=True)
    yield from ((key, f"{b:.2f}") for key, a, b in places if a != b)
    if before.nose_deg != after.nose_deg:
        yield "nose_bearing_deg", f"{after.nose_deg:.0f}"
    if before.chin_deg != after.chin_deg:
        yield "chin_deg", f"{after.chin_deg:.0f}"


def _of_light(before: Light, after: Light) -> Iterator[tuple[str, str]]:
    if before.aim != after.aim:
        yield "aim_m", _words(after.aim)
    if before.position != after.position:
        yield "place_m", _words(after.position)
    if before.power_stops != after.power_stops:
        yield "power_below_full_stops", f"{after.power_stops:.3f}"


def taken(request: Request, base: Solved, changes: Sequence[Change], gesture: Change | None) -> tuple[Change, ...]:
    """The changes that stand for the set once a hand has done one thing more. Raises Refused, and nothing is moved."""
    stands = moved(request, base, changes)
    if gesture is not None:
        stands = _done(request, stands, gesture)
    return between(base, stands)


def _done(request: Request, stands: Solved, gesture: Change) -> Solved:
    if gesture.key not in GESTURES:
        return moves.changed(request, stands, gesture)[0]
    thing, name = gesture.thing, gesture.name
    if gesture.key == LIFT:
        changes: Sequence[Change] = [_lifted(stands, gesture)]
    elif gesture.key == ARROW:
        changes = _stepped(stands, gesture)
    elif thing == "light":
        x, z = _two(gesture)
        changes = [Change("light", name, "place_m", _words(rolled(stands, _light(stands, name), x, z, gesture.free)))]
    elif thing == "sitter":
        x, z = _two(gesture)
        changes = [
            Change("sitter", name, "right_m", f"{x:.3f}", gesture.free),
            Change("sitter", name, "toward_camera_m", f"{z:.3f}", gesture.free),
        ]
    else:
        z = _two(gesture)[1]
        away = z if thing == "camera" else -z
        changes = [Change(thing, name, "distance_m", f"{away:.3f}", gesture.free)]
    for change in changes:
        stands = moves.changed(request, stands, change)[0]
    return stands


def rolled(solved: Solved, light: Light, x: float, z: float, free: bool) -> Point:
    """Where a light rolled over the floor to about (x, z) comes to stand, its height and its aim kept.

    On the steps of bearing and distance a person sets, to the centimetre; free, or where no step lies there, as it was
    dragged. Geometry: the circle about what its distance is measured to, cut by the bearing's line.
    """
    mark, place, y = solved.mark_eyes, np.array(light.distance_to or light.aim), light.position[1]
    here = np.array([x, y, z])
    if free:
        return cm(here)
    way = direction(float(round_to(float(bearing_deg(here - mark)), STEP_DEG)), 0.0)
    distance = float(round_to(float(np.linalg.norm(here - place)), STEP_M))
    offset = place - mark
    along = float(offset @ way)
    aside2 = float(offset[0] ** 2 + offset[2] ** 2) - along**2 + (y - float(place[1])) ** 2
    reach = float(np.hypot(x - mark[0], z - mark[2]))
    if distance**2 >= aside2:
        root = float(np.sqrt(distance**2 - aside2))
        reach = min((along - root, along + root), key=lambda r: abs(r - reach))
    return cm(np.array([mark[0], y, mark[2]]) + reach * way)


def _stepped(solved: Solved, gesture: Change) -> list[Change]:
    """One step by an arrow key in the plan: of a light bearing and distance, of the rest their place."""
    right, toward = _way(gesture)
    step, turn = (FINE_M, FINE_DEG) if gesture.free else (STEP_M, STEP_DEG)
    if gesture.thing == "light":
        light = _light(solved, gesture.name)
        ahead = 1 if abs(light.bearing_deg) <= 90 else -1  # behind the mark the same arrow goes round the other way
        if right:
            angle = float(round_to(light.bearing_deg, turn)) + right * ahead * turn
            angle = (angle + 180.0) % 360.0 - 180.0 or 0.0
            return [Change("light", light.letter, "bearing_deg", f"{angle:.0f}", gesture.free)]
        away = float(round_to(light.distance_m, step)) + toward * ahead * step
        return [Change("light", light.letter, "distance_m", f"{away:.2f}", gesture.free)]
    if gesture.thing == "sitter":
        x, _y, z = _sitter(solved, gesture.name).face_m
        key, value, by = ("right_m", x, right) if right else ("toward_camera_m", z, toward)
        return [Change("sitter", gesture.name, key, f"{float(round_to(value, step)) + by * step:.2f}", gesture.free)]
    if gesture.thing == "camera":
        return _along(gesture, solved.camera.distance_m, toward, step)
    assert solved.ground is not None
    return _along(gesture, solved.ground.distance_m, -toward, step)


def _along(gesture: Change, now_m: float, by: int, step: float) -> list[Change]:
    if not by:
        return []
    return [Change(gesture.thing, "", "distance_m", f"{float(round_to(now_m, step)) + by * step:.2f}", gesture.free)]


def _lifted(solved: Solved, gesture: Change) -> Change:
    """One step up or down of a light or the camera, the floor under it kept."""
    _, down = _way(gesture)
    step = FINE_M if gesture.free else STEP_M
    now = solved.camera.height_m if gesture.thing == "camera" else _light(solved, gesture.name).position[1]
    return Change(
        gesture.thing, gesture.name, "height_m", f"{float(round_to(now, step)) - down * step:.2f}", gesture.free
    )


def _way(gesture: Change) -> tuple[int, int]:
    if gesture.value not in WAYS:
        raise Refused("no_number", {"given": gesture.value[:40]})
    return WAYS[gesture.value]


def _two(gesture: Change) -> tuple[float, float]:
    try:
        x, z = (float(part) for part in gesture.value.split())
    except ValueError:
        raise Refused("no_number", {"given": gesture.value[:40]}) from None
    if not (abs(x) <= moves.FARTHEST_M and abs(z) <= moves.FARTHEST_M):
        raise Refused("no_number", {"given": gesture.value[:40]})
    return x, z


def _words(place: Point) -> str:
    return " ".join(f"{v:.2f}" for v in place)


def _light(solved: Solved, name: str) -> Light:
    found = next((x for x in solved.lights if x.letter == name), None)
    if found is None:
        raise Refused("no_such_light", {"name": name[:40]})
    return found


def _sitter(solved: Solved, name: str) -> Seated:
    found = next((s for s in solved.pose.seated if s.person.label == name), None)
    if found is None:
        raise Refused("no_such_sitter", {"name": name[:40]})
    return found
