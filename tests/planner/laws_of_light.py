"""The contract's laws of light: power, readings, sums, camera, ground, faces and eyes.

Written from recommend-io.md alone, with the contract's own brute photometry (ruler.py). Tolerances are wide enough
for any fair closed form and narrow enough to catch a lost stop; each says why.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from tests.planner import ruler
from tests.planner.laws_of_place import Faults, Named, by_id, in_turn

# Unevenness allowed: groups half a stop, couples by intent (design.md section 6, common practice, no source).
COUPLE_LIMIT = {"soft": 0.3, "even": 0.3, "natural": 0.35, "bright": 0.3, "bold": 0.6, "character": 0.6}
TWO_EYES = ("soft", "even", "natural", "bright")


def of_setup(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    """Every law of light for one set-up with lights."""
    kit = request["kit"]
    for light in setup["lights"]:
        if light["head"] is not None:
            yield from _power(light, kit, named)
    yield from _meter_round(setup, request)
    yield from _setting(setup, request, named)
    yield from _sums(setup)
    yield from _alone(setup, request)
    yield from _camera(setup, request, named)
    yield from _picture(setup, request, named)
    yield from _ground(setup, request, named)
    yield from _faces(setup, request, named)
    yield from _eyes(setup, request, named)
    yield from _circuits(setup, request, named)


def _power(light: dict[str, Any], kit: dict[str, Any], named: Named) -> Faults:
    me, head = f"light {light['letter']}", by_id(kit.get("heads"), light["head"])
    if head is None:
        return
    power = light["power_below_full_stops"]
    if power is None or light["dial"] is None:
        yield f"{me}: a head without a power or a dial"
        return
    if not -1e-6 <= power <= head["range_stops"] + 0.051 and not named("power"):
        yield f"{me}: {power} stops below full, but {head['id']} has {head['range_stops']}"
    said = ruler.stops_of_dial(head, light["dial"])
    if said is None:
        yield f"{me}: dial {light['dial']!r} cannot be read on its own scale"
    elif abs(said - power) > 0.06:
        yield f"{me}: dial {light['dial']!r} is {said:.2f} below full, printed {power}"
    dial = head.get("dial") or {"scale": "stops", "step": 0.1}
    step = dial.get("step") or 0.1
    if dial["scale"] == "watt_seconds":
        off = ruler.off_step(float(light["dial"].split()[0]), step)
    else:
        off = ruler.off_step(power % 1.0 if dial["scale"] == "fraction" else power, step)
        off = min(off, power % 1.0, 1 - power % 1.0) if dial["scale"] == "fraction" else off
    if off > 0.006:
        yield f"{me}: power {power} is not on the dial's steps of {step}"


def _spelled(target: dict[str, Any], what: str) -> Faults:
    said = ruler.stops_of_shown(target["shown"])
    if said is None:
        yield f"{what}: {target['shown']!r} is not spelled as a full stop and tenths"
    elif abs(said - ruler.stops_of(target["f_number"])) > 0.06:
        yield f"{what}: shown {target['shown']} against f/{target['f_number']}"


def _meter_round(setup: dict[str, Any], request: dict[str, Any]) -> Faults:
    steps, lights = setup["meter_round"], setup["lights"]
    letters = {light["letter"]: light for light in lights}
    for step in steps:
        yield from _spelled(step["target"], f"step {step['step']}")
        yield from (f"step {step['step']}: no light {on}" for on in step["on"] if on not in letters)
        if not step["uncertainty_stops"] > 0 or not step["tolerance_stops"] > 0:
            yield f"step {step['step']}: without an uncertainty or a tolerance"
    if [s["step"] for s in steps] != list(range(1, len(steps) + 1)):
        yield f"the meter round counts {[s['step'] for s in steps]}"
    for light in lights:
        alone = [s for s in steps if s["on"] == [light["letter"]] and s["panels"] == "out"]
        if light["head"] is not None and not alone:
            yield f"light {light['letter']}: no step with it alone and the panels out"
    setting = [s for s in steps if s["sets_camera"]]
    if len(setting) != 1:
        yield f"{len(setting)} steps set the camera"
        return
    counted = sorted(x["letter"] for x in lights if x["role"] in ("key", "fill") and x["head"] is not None)
    if sorted(setting[0]["on"]) != counted:
        yield f"the step that sets the camera has {setting[0]['on']} on, key and fill are {counted}"
    if any(x["panel"] is not None for x in lights) and setting[0]["panels"] != "in":
        yield "the step that sets the camera leaves the panels out"
    told = setup["expected"]["setting_reading"]["f_number"]
    if abs(ruler.stops_of(told) - ruler.stops_of(setting[0]["target"]["f_number"])) > 0.051:
        yield f"the setting reading is f/{told} and f/{setting[0]['target']['f_number']}"
    meter = (request["brief"].get("meter") or {}) if setting else {}
    toward = {"at_camera": "camera", "at_key": "light"}[meter.get("setting_reading") or "at_camera"]
    if setting[0]["toward"] != toward:
        yield f"the setting reading faces the {setting[0]['toward']}, the brief wants the {toward}"


def _setting(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    reading, camera = setup["expected"]["setting_reading"], setup["camera"]
    yield from _spelled(reading, "the setting reading")
    aperture = ruler.stops_of(ruler.exact(camera["aperture"]))
    apart = ruler.stops_of(reading["f_number"]) - aperture
    if abs(apart) > 0.105 and not named("power"):
        yield f"the setting reading is {apart:+.2f} stop from the aperture"
    shown = ruler.stops_of_shown(camera["shown"])
    if shown is None or abs(shown - aperture) > 0.11:
        yield f"the camera shows {camera['shown']} at aperture {camera['aperture']}"
    third = camera["nearest_third"].removeprefix("f/")
    if third not in ruler.THIRDS:
        yield f"nearest third {camera['nearest_third']} is on no camera"
    elif shown is not None:
        trim = ruler.stops_of(ruler.exact(float(third)))
        base = min((shown, ruler.stops_of(reading["f_number"])), key=lambda s: abs(trim - s - camera["trim_stops"]))
        if abs(trim - base) > 0.22 or abs(camera["trim_stops"] - (trim - base)) > 0.11:
            yield f"{camera['nearest_third']} with trim {camera['trim_stops']} beside {camera['shown']}"


def _sums(setup: dict[str, Any]) -> Faults:
    expected = setup["expected"]
    fill, bounce = expected["fill_below_key_stops"], expected["bounce_below_key_stops"]
    if bounce > 9.9 + 1e-9:
        yield f"bounce {bounce} below key is over 9.9"
    if fill > bounce + 0.051:
        yield f"fill and bounce together ({fill}) are less than the bounce ({bounce})"
    setting = next((s for s in setup["meter_round"] if s["sets_camera"]), None)
    if setting is None:
        return
    whole = ruler.stops_of(setting["target"]["f_number"])
    counted = {x["letter"]: x for x in setup["lights"] if x["role"] in ("key", "fill") and x["head"] is not None}
    # At the setting step's own place: a group's round goes on from face to face.
    alone = {
        s["on"][0]: s for s in setup["meter_round"]
        if len(s["on"]) == 1 and s["panels"] == "out" and s["on"][0] in counted and s["toward"] == setting["toward"]
        and s["dome"] == setting["dome"] and s["place"] == setting["place"]
    }  # fmt: skip
    # A black panel that stands only while the camera is set takes light away again: there is no upper law then.
    taken = bool(setup["blocks"]) and setting["panels"] == "in"
    for letter, step in alone.items():
        if not taken and ruler.stops_of(step["target"]["f_number"]) > whole + 0.06:
            yield f"light {letter} alone reads more than key and fill together"
    if len(alone) != len(counted):
        return
    parts = math.log2(sum(step["target"]["f_number"] ** 2 for step in alone.values()))
    # Every alone reading holds its own bounce, so without panels the parts are the whole; 0.15 for three roundings.
    panels = taken or any(x["panel"] is not None for x in setup["lights"])
    if (parts > whole + 0.15 and not taken) or (not panels and len(setup["sitters"]) == 1 and parts < whole - 0.25):
        yield f"the lights alone add up to {parts - whole:+.2f} stop of the setting reading"
    keys = [letter for letter, x in counted.items() if x["role"] == "key"]
    if len(keys) != 1:
        return
    gap = whole - ruler.stops_of(alone[keys[0]]["target"]["f_number"])
    at, eye = ruler.vec(counted[keys[0]]["position_m"]), ruler.camera_at(setup)
    face = ruler.vec(setup["sitters"][0]["face_m"])
    oblique = -math.log2(
        (1 + math.cos(math.radians(ruler.between_deg(ruler.minus(at, face), ruler.minus(eye, face))))) / 2
    )
    # The fill may be meant at normal incidence or as the dome at the camera sees it; 0.15 for three roundings.
    high = math.log2(1 + 2 ** (oblique - fill)) + 0.15
    low = math.log2((1 + 2**-fill) / (1 + 1.5 * 2**-bounce)) - 0.15
    if not (low - 9 * taken) <= gap <= high:
        yield f"the key reads {gap:.2f} under the sum; fill {fill}, bounce {bounce} allow {low:.2f}..{high:.2f}"


def _alone(setup: dict[str, Any], request: dict[str, Any]) -> Faults:
    """Each headed light's alone-reading against a brute sum over its front (0.4 stop: dome on a near source, grids)."""
    kit, bounce = request["kit"], setup["expected"]["bounce_below_key_stops"]
    faces = [ruler.vec(p["face_m"]) for p in setup["sitters"]]
    middle = tuple(sum(f[i] for f in faces) / len(faces) for i in range(3))
    for light in setup["lights"]:
        step = next((s for s in setup["meter_round"] if s["on"] == [light["letter"]] and s["panels"] == "out"), None)
        head, modifier = by_id(kit.get("heads"), light["head"]), by_id(kit.get("modifiers"), light["modifier"])
        if step is None or head is None or modifier is None or light["role"] not in ("key", "fill"):
            continue
        # One sitter is read at the face, several between them or at one of them.
        places = faces if len(faces) == 1 or in_turn(setup) else [*faces, ruler.vec(middle), ruler.vec(light["aim_m"])]
        learned = [abs(c["offset_stops"]) for c in request.get("corrections") or []
                   if (c["head"], c["modifier"]) == (light["head"], light["modifier"])]  # fmt: skip
        slack = 0.4 + sum(learned)
        room = math.log2(1 + 2 * 2**-bounce) if light["role"] == "key" else 1.5
        printed = ruler.stops_of(step["target"]["f_number"])
        apart = [printed - _direct(light, head, modifier, place, step, setup, kit) for place in places]
        if not any(-slack <= a <= room + slack for a in apart):
            nearest = min(apart, key=abs)
            yield f"light {light['letter']} alone: printed {nearest:+.2f} stop from a brute sum over its front"


def _direct(
    light: dict[str, Any], head: dict[str, Any], modifier: dict[str, Any], place: ruler.Vector, step: dict[str, Any],
    setup: dict[str, Any], kit: dict[str, Any],
) -> float:  # fmt: skip
    """Stops over f/1 that a light reads at a place without any bounce."""
    camera, at = setup["camera"], ruler.vec(light["position_m"])
    direct = math.log2(full_power_lxs(head, camera["shutter_s"]) * camera["iso"] / 250)
    direct += math.log2(max(1e-12, ruler.light_at(light, kit, modifier, place)))
    toward = ruler.camera_at(setup) if step["toward"] == "camera" else at
    turned = math.radians(ruler.between_deg(ruler.minus(at, place), ruler.minus(toward, place)))
    seen = (1 + math.cos(turned)) / 2 if step["dome"] == "out" else max(math.cos(turned), 1e-3)
    return direct + math.log2(seen) - modifier["loss_stops"] - light["power_below_full_stops"]


def full_power_lxs(head: dict[str, Any], shutter_s: float) -> float:
    """lx s at one metre on the axis at full power, as rated."""
    if head["light"] == "steady":
        return float(head["lux_1m"] * shutter_s)
    return float(head["f_number_1m_iso100"] ** 2 * 2.5)


def _camera(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    kit, camera = request["kit"], setup["camera"]
    body, lens = by_id(kit["cameras"], camera["body"]), by_id(kit["lenses"], camera["lens"])
    if body is None or lens is None:
        yield f"camera {camera['body']} or lens {camera['lens']} is not in the kit"
        return
    heads = [by_id(kit.get("heads"), x["head"]) for x in setup["lights"] if x["head"]]
    flash = any(h and h["light"] == "flash" for h in heads)
    if flash and camera["shutter_s"] < body["sync_s"] - 1e-9 and not named("sync"):
        yield f"shutter {camera['shutter_s']} s is shorter than sync {body['sync_s']} s"
    if not body["base_iso"] <= camera["iso"] <= body["max_iso"] and not named("power"):
        yield f"ISO {camera['iso']} is outside {body['base_iso']}..{body['max_iso']}"
    if not lens["min_focal_mm"] - 1e-6 <= camera["focal_mm"] <= lens["max_focal_mm"] + 1e-6:
        yield f"{camera['focal_mm']} mm is outside lens {lens['id']}"
    widest, narrowest = lens["max_aperture"], lens.get("min_aperture") or 99
    if not widest - 0.01 <= camera["aperture"] <= narrowest * 1.03 and not named("lens"):
        yield f"f/{camera['aperture']} is outside lens {lens['id']}"
    if camera["distance_m"] < (lens.get("min_focus_m") or 0.0) - 1e-6 and not named("lens"):
        yield f"{lens['id']} does not focus at {camera['distance_m']} m"
    wanted = request.get("preferences") or {}
    for key, got in (("iso", camera["iso"]), ("shutter_s", camera["shutter_s"]), ("aperture", camera["aperture"])):
        order = wanted.get(key)
        if order is not None and abs(math.log2(order / got)) > 0.06 and not any(map(named, ("power", "sync", "lens"))):
            yield f"{key} was ordered as {order} and is {got}, with no problem that says so"


def _picture(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    camera, expected = setup["camera"], setup["expected"]
    body = by_id(request["kit"]["cameras"], camera["body"])
    if body is None:
        return
    wide, _ = ruler.picture_tangents(camera, body)
    field = 2 * wide * camera["distance_m"]
    if abs(expected["field_width_m"] / field - 1) > 0.04:
        yield f"field {expected['field_width_m']} m wide, the lens gives {field:.2f}"
    near, far = expected["sharp_from_m"], expected["sharp_to_m"]
    if not near <= 0 <= far:
        yield f"sharp from {near} to {far} does not hold the focus point"
    scale = math.hypot(body["sensor_width_mm"], body["sensor_height_mm"]) / 43.27
    # a group in depth is focused at a plane of its own
    focal, focus = camera["focal_mm"] / 1000, (expected["group"] or {}).get("focus_m", camera["distance_m"])
    for blur, bound in ((0.016, "least"), (0.036, "most")):
        hyper = focal**2 / (ruler.exact(camera["aperture"]) * blur * scale / 1000)
        front = focus - focus * hyper / (hyper + focus - focal)
        if (bound == "least" and -near < front * 0.85 - 0.01) or (bound == "most" and -near > front * 1.15 + 0.01):
            yield f"sharp {-near} m before the focus; a blur of {blur} mm gives {front:.2f}"
    if not in_turn(setup):
        depths = [p["face_m"][2] for p in setup["sitters"]]
        if max(depths) - min(depths) > far - near + 0.02 and not named("sharpness"):
            yield f"faces {max(depths) - min(depths):.2f} m deep in a sharp zone of {far - near:.2f} m"


def _ground(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    ground, camera = setup["background"], setup["camera"]
    kit = request["kit"]
    row, body = by_id(kit["backgrounds"], ground["id"]), by_id(kit["cameras"], camera["body"])
    if row is None or body is None:
        yield f"background {ground['id']} is not in the kit"
        return
    luminance = min(1.0, row["reflectance"] * 2 ** -ground["reading_below_setting_stops"])
    cube = 116 * luminance ** (1 / 3) - 16 if luminance > 216 / 24389 else luminance * 24389 / 27
    if abs(cube - ground["lightness"]) > 1.5:
        yield f"the ground is printed L* {ground['lightness']}, its reading gives {cube:.1f}"
    wide, _ = ruler.picture_tangents(camera, body)
    needed = 2 * wide * (setup["room"]["camera_from_mark_m"] + ground["distance_m"])
    if ground["covers"] and needed > row["width_m"] + 0.03:
        yield f"{row['id']} is {row['width_m']} m wide and is said to cover {needed:.2f} m"
    if not ground["covers"] and not named("background"):
        yield f"{row['id']} does not cover the picture and no problem says so"


UNLIT = -20.0  # stops of a sum that holds nothing but its own least


def _faces(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    expected, people = setup["expected"], setup["sitters"]
    labels = [p["label"] for p in people]
    if sorted(row["label"] for row in expected["per_sitter"]) != sorted(labels):
        yield f"per_sitter holds {[row['label'] for row in expected['per_sitter']]}, the set-up {labels}"
    for row in expected["per_sitter"]:
        parts = row["relief_shadow_stops"] + row["relief_highlight_stops"]
        if abs(parts - row["relief_stops"]) > 0.051:
            yield f"{row['label']}: relief {row['relief_stops']} is not the sum of its parts {parts:.2f}"
        if row["lines"] and row["worst_place"] not in [line["place"] for line in row["lines"]]:
            yield f"{row['label']}: worst place {row['worst_place']} is not among the lines"
    yield from (f"worst pair names {who}" for who in expected["worst_pair"] if who not in labels)
    if len(people) < 2 or in_turn(setup):
        return
    limit = (
        COUPLE_LIMIT[setup["intent"]]
        if len(people) == 2
        else (0.6 if setup["intent"] in ("bold", "character") else 0.5)
    )
    if expected["evenness_stops"] > limit + 0.051 and not named("evenness"):
        yield f"faces {expected['evenness_stops']} stop apart, {limit} is the limit, and no problem says so"
    direct = list(_readings(setup, request))
    if max(direct) < UNLIT and named("room"):  # far too small a room: the light stands among the people
        return
    spread = max(direct) - min(direct)
    # The room's bounce adds alike to the brightest and the dimmest face, so it takes most from a wide spread.
    bounce = sum(2**d for d in direct) / len(direct) * 2 ** -expected["bounce_below_key_stops"]
    flat = math.log2((2 ** max(direct) + bounce) / (2 ** min(direct) + bounce))
    # Panels and the dome's own geometry move the spread by up to a quarter of a stop.
    if not flat - 0.3 <= expected["evenness_stops"] <= spread + 0.3:
        yield f"evenness {expected['evenness_stops']}, a brute sum over the fronts says {spread:.2f}"


def _readings(setup: dict[str, Any], request: dict[str, Any]) -> Iterator[float]:
    """Stops of key and fill heads together at each face, dome at the camera."""
    kit = request["kit"]
    for person in setup["sitters"]:
        face, total = ruler.vec(person["face_m"]), 1e-12
        for light in setup["lights"]:
            head, modifier = by_id(kit.get("heads"), light["head"]), by_id(kit.get("modifiers"), light["modifier"])
            if light["role"] not in ("key", "fill") or head is None or modifier is None:
                continue
            at = ruler.vec(light["position_m"])
            turned = ruler.between_deg(ruler.minus(at, face), ruler.minus(ruler.camera_at(setup), face))
            full = full_power_lxs(head, setup["camera"]["shutter_s"])
            share = 2 ** -(light["power_below_full_stops"] + modifier["loss_stops"])
            seen = (1 + math.cos(math.radians(turned))) / 2
            total += full * share * ruler.light_at(light, kit, modifier, face) * seen
        yield math.log2(total)


def _eyes(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    letters = {x["letter"]: x for x in setup["lights"]}
    views = {s["name"]: s.get("view") for s in request["brief"]["setups"]}
    at_lens = views.get(setup["name"]) != "profile"
    faces = {p["label"]: ruler.vec(p["face_m"]) for p in setup["sitters"]}
    for row in setup["expected"]["per_sitter"]:
        lit = {spot["image_side"] for spot in row["catchlights"] if spot["seen"]}
        wanted = 2 if setup["intent"] in TWO_EYES and at_lens else 1
        if len(lit) < wanted and not named("catchlight"):
            yield f"{row['label']}: a catchlight in {len(lit)} eyes of {wanted}, and no problem says so"
        for spot in row["catchlights"]:
            me = f"{row['label']}, catchlight of {spot['light']}"
            if spot["light"] not in letters:
                yield f"{me}: no such light"
                continue
            if not spot["seen"]:
                if not spot["why_not"]:
                    yield f"{me}: not seen, without a why"
                continue
            if spot["clock"] is None or not 0 <= spot["clock"] <= 12 or not (spot["size_mm"] or 0) > 0:
                yield f"{me}: seen at {spot['clock']} with {spot['size_mm']} mm"
            elif at_lens and row["label"] in faces:
                yield from _clock(spot, letters[spot["light"]], faces[row["label"]], setup, me)
        for glass in row["glasses"]:
            if glass["light"] in letters and glass["margin_deg"] < -0.05 and not named("glare"):
                yield f"{row['label']}: light {glass['light']} in the glasses by {glass['margin_deg']}, no problem"


def _clock(spot: dict[str, Any], light: dict[str, Any], face: ruler.Vector, setup: dict[str, Any], me: str) -> Faults:
    """Half-angle law of the mirror: the place lies along the source's direction seen across the line to the lens."""
    to_lens = ruler.unit(ruler.minus(ruler.camera_at(setup), face))
    to_light = ruler.unit(ruler.minus(ruler.vec(light["position_m"]), face))
    normal = ruler.unit(ruler.plus(to_light, to_lens))
    right = ruler.unit(ruler.cross((0.0, 1.0, 0.0), to_lens))
    dx, dy = ruler.dot(normal, right), ruler.dot(normal, ruler.cross(to_lens, right))
    hours = math.degrees(math.atan2(dx, dy)) / 30
    # Half an hour: the eyes lie 32 mm off the bridge, and a light over the lens swings fast, the more the nearer it is.
    apart = 0.0315 / (2 * math.dist(ruler.vec(light["position_m"]), face))
    if apart > math.hypot(dx, dy):
        return  # so near and so central that the two eyes see it on opposite sides of the pupil
    slack = 0.5 + max(0.03, 0.02 + apart) / max(0.01, math.hypot(dx, dy))
    if abs((hours - spot["clock"] + 6) % 12 - 6) > slack:
        yield f"{me}: printed at {spot['clock']}, the mirror says {hours % 12:.1f}"


def _circuits(setup: dict[str, Any], request: dict[str, Any], named: Named) -> Faults:
    circuits = {c["label"]: c for c in request["room"].get("circuits") or []}
    for load in setup["expected"]["load"]:
        circuit = circuits.get(load["circuit"])
        if circuit is None:
            yield f"no circuit {load['circuit']} in the room"
            continue
        limit = 0.8 * circuit["volts"] * circuit["breaker_amps"]
        if abs(load["limit_watts"] - limit) > 1:
            yield f"{load['circuit']}: limit {load['limit_watts']} W, 80 % of it is {limit:.0f} W"
        if load["watts"] > load["limit_watts"] + 0.5 and not named("circuit"):
            yield f"{load['circuit']}: {load['watts']} W over {load['limit_watts']} W, and no problem says so"
    heads = [by_id(request["kit"].get("heads"), x["head"]) for x in setup["lights"] if x["head"]]
    drawn = sum((h or {}).get("watts") or 0.0 for h in heads)
    if circuits and drawn > sum(load["watts"] for load in setup["expected"]["load"]) + 1:
        yield f"the heads draw {drawn:.0f} W, the circuits carry less"
