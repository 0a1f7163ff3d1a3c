"""The contract's laws of place: figures that agree, room, ceiling, picture, stands and mounts.

Written from recommend-io.md alone. Every check yields a sentence for a broken law; a limit that `problems` names for
the set-up is not a fault.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

from tests.planner import ruler

Named = Callable[[str], bool]  # has this set-up a problem of that limit
Faults = Iterator[str]
CM = 0.012  # a centimetre and the rounding of the printed figures


def by_id(rows: list[dict[str, Any]] | None, wanted: str | None) -> dict[str, Any] | None:
    return next((row for row in rows or [] if row["id"] == wanted), None)


def in_turn(setup: dict[str, Any]) -> bool:
    """People photographed one after the other stand on one mark."""
    marks = [(p["face_m"][0], p["face_m"][2]) for p in setup["sitters"]]
    return len(marks) > 1 and all(math.dist(marks[0], m) < 0.15 for m in marks)


def eye_heights(setup: dict[str, Any]) -> list[float]:
    """The heights a height angle may be measured from: the one sitter, a group's mean, anyone of those in turn."""
    heights = [p["face_m"][1] for p in setup["sitters"]]
    return heights if in_turn(setup) else [sum(heights) / len(heights)]


def of_light(light: dict[str, Any], setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    """Every law of place for one light of a set-up."""
    kit = request["kit"]
    yield from _figures(light, setup)
    yield from _directions(light, setup)
    yield from _top(light, kit, request["room"], named)
    if setup["room"]:
        yield from _inside(light, setup, request, named)
    if setup["camera"] and setup["room"]:
        yield from _out_of_picture(light, setup, kit, named)
    yield from _stand(light, kit, named)
    yield from _mount(light, kit, named)


def _figures(light: dict[str, Any], setup: dict[str, Any]) -> Faults:
    me = f"light {light['letter']}"
    at = ruler.vec(light["position_m"])
    if ruler.off_step(light["distance_m"], 0.05) > 1e-6:
        yield f"{me}: distance {light['distance_m']} m is not on the 5 cm step"
    for key in ("bearing_deg", "height_angle_deg"):
        if ruler.off_step(light[key], 5) > 1e-6:
            yield f"{me}: {key} {light[key]} is not on the 5 degree step"
    if any(ruler.off_step(c, 0.01) > 1e-6 for c in at):
        yield f"{me}: position {light['position_m']} is not printed to 1 cm"
    if abs(light["centre_height_m"] - at[1]) > 0.0051:
        yield f"{me}: centre height {light['centre_height_m']} is not the position's {at[1]}"
    places = [ruler.vec(light["aim_m"])] + [ruler.vec(p["face_m"]) for p in setup["sitters"]]
    found = [ruler.length(ruler.minus(at, place)) for place in places]
    if min(abs(d - light["distance_m"]) for d in found) > CM:
        yield f"{me}: distance {light['distance_m']} m is none of {[round(d, 3) for d in found]} (aim, faces)"
    flat = math.hypot(at[0], at[2])
    slack = 1.0 + math.degrees(math.atan2(0.007, max(flat, 0.01)))
    if flat > 0.05 and abs(ruler.turn_deg(math.degrees(math.atan2(at[0], at[2])), light["bearing_deg"])) > slack:
        yield f"{me}: bearing {light['bearing_deg']} does not fit position {light['position_m']}"
    heights = [math.degrees(math.atan2(at[1] - eye, flat)) for eye in eye_heights(setup)]
    if min(abs(h - light["height_angle_deg"]) for h in heights) > slack:
        yield f"{me}: height angle {light['height_angle_deg']} is none of {[round(h, 1) for h in heights]}"


def _directions(light: dict[str, Any], setup: dict[str, Any]) -> Faults:
    me = f"light {light['letter']}"
    at, aim = ruler.vec(light["position_m"]), ruler.vec(light["aim_m"])
    axis = ruler.minus(aim, at)
    tilt = math.degrees(math.atan2(axis[1], math.hypot(axis[0], axis[2])))
    if abs(abs(light["tilt_deg"]) - abs(tilt)) > 3.0:
        yield f"{me}: tilt {light['tilt_deg']} does not fit its aim ({tilt:.1f})"
    faces = [ruler.vec(p["face_m"]) for p in setup["sitters"]]
    middle = ruler.vec([sum(f[i] for f in faces) / len(faces) for i in range(3)])
    off = [ruler.between_deg(axis, ruler.minus(place, at)) for place in (*faces, middle)]
    if light["role"] in ("key", "fill") and min(abs(abs(light["feather_deg"]) - o) for o in off) > 3.0:
        yield f"{me}: feather {light['feather_deg']} is none of {[round(o, 1) for o in off]}"
    for person in setup["sitters"]:
        told = light["bearing_from_nose_deg"].get(person["label"])
        if told is None:
            if light["role"] == "key":
                yield f"{me}: no bearing from the nose of {person['label']}"
            continue
        ray = ruler.minus(at, ruler.vec(person["face_m"]))
        own = math.degrees(math.atan2(ray[0], ray[2])) - person["nose_bearing_deg"]
        seen = light["bearing_deg"] - person["nose_bearing_deg"]
        if min(abs(ruler.turn_deg(told, own)), abs(ruler.turn_deg(told, seen))) > 1.6:
            yield f"{me}: bearing from {person['label']}'s nose {told} is neither {own:.1f} nor {seen:.1f}"
    if light["role"] == "key" and len(setup["sitters"]) == 1:
        nose = setup["sitters"][0]["nose_bearing_deg"]
        past = ruler.turn_deg(light["bearing_deg"], nose)
        if abs(nose) >= 10 and abs(past) >= 10 and abs(past) <= 120:
            expected = "short" if past * nose > 0 else "broad"
            if light["side"] != expected:
                yield f"{me}: side is {light['side']}, but the nose at {nose} makes it {expected}"


def _top(light: dict[str, Any], kit: dict[str, Any], room: dict[str, Any], named: Named) -> Faults:
    me = f"light {light['letter']}"
    top = ruler.top_of_front_m(light, kit)
    if light["top_height_m"] < top - 0.03:
        yield f"{me}: top height {light['top_height_m']} lies under its own rim at {top:.2f}"
    if max(top, light["top_height_m"]) > room["ceiling_m"] + 0.005 and not named("ceiling"):
        yield f"{me}: reaches {max(top, light['top_height_m']):.2f} m under a ceiling of {room['ceiling_m']} m"
    bottom = 2 * light["centre_height_m"] - top
    if bottom < -0.02 and not (named("reach") or named("room")):
        yield f"{me}: its rim would be {-bottom:.2f} m under the floor"


def walls(setup: dict[str, Any], room: dict[str, Any]) -> tuple[float, float, float, float]:
    """x of the left and right wall, z of the wall behind the ground and of the one behind the camera."""
    place = setup["room"]
    long, wide = room["depth_m"], room["width_m"]
    if place["axis"] == "width":
        long, wide = wide, long
    back = -(place["mark_from_ground_m"] + place["ground_from_wall_m"])
    return -place["mark_from_side_wall_m"], wide - place["mark_from_side_wall_m"], back, back + long


def _inside(light: dict[str, Any], setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    if named("room"):
        return
    me = f"light {light['letter']}"
    left, right, back, front = walls(setup, request["room"])
    keep = request["room"].get("keep_out_m")
    keep = 0.4 if keep is None else keep
    for x, _, z in ruler.rim_points(light, request["kit"]):
        if not (left - 0.01 <= x <= right + 0.01 and back - 0.01 <= z <= front + 0.01):
            yield f"{me}: its rim at x {x:.2f}, z {z:.2f} is outside the walls"
            break
    foot_x, foot_z = light["foot_m"]
    if min(foot_x - left, right - foot_x, foot_z - back, front - foot_z) < keep - 0.011:
        yield f"{me}: its foot {light['foot_m']} stands in the {keep} m kept free along the walls"
    if light["position_m"][2] < -setup["background"]["distance_m"] - 0.01:
        yield f"{me}: stands behind the ground"


def _out_of_picture(light: dict[str, Any], setup: dict[str, Any], kit: dict[str, Any], named: Named) -> Faults:
    body = by_id(kit["cameras"], setup["camera"]["body"])
    if body is None or named("picture"):
        return
    tangents = ruler.picture_tangents(setup["camera"], body)
    for point in ruler.rim_points(light, kit):
        if ruler.in_picture(point, setup, tangents, 0.01):
            yield f"light {light['letter']}: its rim at {[round(c, 2) for c in point]} is in the picture"
            break
    x, z = light["foot_m"]
    for i in range(11):
        if ruler.in_picture((x, light["position_m"][1] * i / 10, z), setup, tangents, 0.01):
            yield f"light {light['letter']}: its stand at {light['foot_m']} is in the picture"
            break


def _stand(light: dict[str, Any], kit: dict[str, Any], named: Named) -> Faults:
    me = f"light {light['letter']}"
    stand = by_id(kit.get("stands"), light["stand"])
    if stand is None:
        yield f"{me}: stand {light['stand']} is not in the kit"
        return
    at, (foot_x, foot_z) = light["position_m"], light["foot_m"]
    if not named("reach"):
        if at[1] > stand["max_height_m"] + 0.355:
            yield f"{me}: centre at {at[1]} m is beyond {stand['id']} ({stand['max_height_m']} m + 0.35)"
        if light["panel"] is None and at[1] < stand["min_height_m"] - 0.355:
            yield f"{me}: centre at {at[1]} m is under the lowest of {stand['id']} ({stand['min_height_m']} m)"
        out = math.hypot(at[0] - foot_x, at[2] - foot_z)
        boom = stand.get("kind") == "boom"
        if out > (stand.get("reach_m") or 0.0) * boom + 1.0:
            yield f"{me}: its foot is {out:.2f} m from its front"
        if boom and (light["arm_m"] or 0.0) > (stand.get("reach_m") or 0.0) + 0.005:
            yield f"{me}: an arm of {light['arm_m']} m on a boom of {stand.get('reach_m')} m"
        if not boom and light["arm_m"]:
            yield f"{me}: a stand without an arm has arm_m {light['arm_m']}"
    head, modifier = by_id(kit.get("heads"), light["head"]), by_id(kit.get("modifiers"), light["modifier"])
    load = (head["mass_kg"] if head else 0.0) + (modifier["mass_kg"] if modifier else 0.0)
    if load > stand["max_load_kg"] + 1e-6 and not named("load"):
        yield f"{me}: {load:.1f} kg on {stand['id']}, which bears {stand['max_load_kg']} kg"


def _mount(light: dict[str, Any], kit: dict[str, Any], named: Named) -> Faults:
    me = f"light {light['letter']}"
    if light["panel"] is not None:
        if by_id(kit.get("panels"), light["panel"]) is None:
            yield f"{me}: panel {light['panel']} is not in the kit"
        empty = ("head", "modifier", "adapter", "dial", "power_below_full_stops")
        yield from (f"{me}: a panel with a {key}" for key in empty if light[key] is not None)
        return
    head = by_id(kit.get("heads"), light["head"])
    if head is None:
        yield f"{me}: head {light['head']} is not in the kit"
        return
    if light["modifier"] is None:
        return
    modifier = by_id(kit.get("modifiers"), light["modifier"])
    if modifier is None:
        yield f"{me}: modifier {light['modifier']} is not in the kit"
        return
    if light["adapter"] is None:
        fits = head["mount"] == modifier["mount"]
    else:
        ring = by_id(kit.get("adapters"), light["adapter"])
        fits = ring is not None and (ring["from"], ring["to"]) == (head["mount"], modifier["mount"])
    if not fits and not named("mount"):
        yield f"{me}: {head['id']} ({head['mount']}) does not take {modifier['id']} ({modifier['mount']})"
    nearest = modifier.get("min_distance_m")
    if nearest and light["distance_m"] < nearest - 0.005:
        yield f"{me}: {modifier['id']} is nearer than its {nearest} m"


def of_setup(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    """Laws of place of the whole set-up: nothing twice, camera, ground and faces inside the room."""
    used = [light[key] for light in setup["lights"] for key in ("head", "modifier", "adapter", "stand", "panel")]
    used += [block["id"] for block in setup["blocks"]]
    if not in_turn(setup):
        used += [p["seat"] for p in setup["sitters"] if by_id(request["kit"].get("seats"), p["seat"])]
    there = [u for u in used if u is not None]
    yield from sorted({f"{u}: used twice" for u in there if there.count(u) > 1})
    for person in setup["sitters"]:
        for key in ("nose_bearing_deg", "body_turn_deg"):
            if ruler.off_step(person[key], 5) > 1e-6:
                yield f"{person['label']}: {key} {person[key]} is not on the 5 degree step"
        x, side = person["face_m"][0], person["side_of_picture"]
        if (side == "left" and x > 0.05) or (side == "right" and x < -0.05):
            yield f"{person['label']}: sits at x {x}, called {side}"
    if not (setup["room"] and setup["camera"] and setup["background"]):
        return
    yield from _camera_and_ground(setup, request, named)


def _camera_and_ground(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    place, camera, ground = setup["room"], setup["camera"], setup["background"]
    if abs(place["mark_from_ground_m"] - ground["distance_m"]) > CM:
        yield f"ground {ground['distance_m']} m from the mark, but the room says {place['mark_from_ground_m']}"
    faces = [ruler.vec(p["face_m"]) for p in setup["sitters"]]
    apart = [ruler.length(ruler.minus(ruler.camera_at(setup), f)) for f in faces] + [place["camera_from_mark_m"]]
    if min(abs(d - camera["distance_m"]) for d in apart) > 0.05:
        yield f"camera at {camera['distance_m']} m is none of {[round(d, 2) for d in apart]}"
    for value, name in ((camera["distance_m"], "camera"), (ground["distance_m"], "ground")):
        if ruler.off_step(value, 0.05) > 1e-6:
            yield f"{name} distance {value} m is not on the 5 cm step"
    if named("room"):
        return
    left, right, back, front = walls(setup, request["room"])
    keep = request["room"].get("keep_out_m")
    keep = 0.4 if keep is None else keep
    if place["ground_from_wall_m"] < -0.001:
        yield "the ground stands outside the room"
    if front - place["camera_from_mark_m"] < keep - 0.011:
        yield f"the camera stands {front - place['camera_from_mark_m']:.2f} m from the wall behind it"
    for person in setup["sitters"]:
        x, _, z = person["face_m"]
        if not (left + 0.2 <= x <= right - 0.2 and back + 0.2 <= z <= front):
            yield f"{person['label']}: sits outside the room"
    for block in setup["blocks"]:
        x, z = block["at_m"][0], block["at_m"][-1]
        if not (left <= x <= right and back <= z <= front):
            yield f"block {block['id']}: stands outside the room"
