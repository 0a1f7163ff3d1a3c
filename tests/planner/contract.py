"""An independent check of a plan document against recommend-io.md: `faults(request, document)`.

It was written from that page alone and shares no code with the planner. What belongs here: the entry and the laws of
book-keeping (set-ups, problems, reasons, shots, packing). Keys live in shape.py, geometry in laws_of_place.py, light
in laws_of_light.py. `request` is the raw JSON that went in, `document` the plan that came out.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any

from tests.planner import laws_of_light, laws_of_place
from tests.planner.laws_of_place import Faults
from tests.planner.shape import faults_of_shape


def faults(request: dict[str, Any], document: dict[str, Any]) -> list[str]:
    """Every law of the output the document breaks, one readable sentence each; [] when it keeps them all."""
    shape = faults_of_shape(document)
    if shape:
        return shape
    found = [f"plan: {f}" for f in _whole(request, document)]
    for setup in document["setups"]:
        named = _named(document, setup["name"])
        found += [f"{setup['name']}: {f}" for f in _setup(setup, request, document, named)]
    return found


def _named(document: dict[str, Any], name: str) -> Callable[[str], bool]:
    limits = {p["limit"] for p in document["problems"] if p["setup"] in (None, name)}
    return lambda limit: limit in limits


def _whole(request: dict[str, Any], document: dict[str, Any]) -> Faults:
    if not re.fullmatch(r"[0-9a-f]{64}", document["fingerprint"]):
        yield f"fingerprint {document['fingerprint']!r} is not a sha256 in hex"
    if document["candidates_scored"] < 0 or document["candidates_scored"] % 1 or document["planning_seconds"] < 0:
        yield "candidates_scored or planning_seconds is no count"
    wanted = {s["name"]: s for s in request["brief"]["setups"]}
    got = [s["name"] for s in document["setups"]]
    if sorted(got) != sorted(wanted):
        yield f"set-ups {got} for a brief with {list(wanted)}"
    for setup in document["setups"]:
        asked = wanted.get(setup["name"])
        if asked is None:
            continue
        if setup["intent"] != asked["intent"]:
            yield f"{setup['name']}: intent {setup['intent']} for {asked['intent']}"
        people = sorted(asked.get("people") or [s["label"] for s in request["sitters"]])
        placed = sorted(p["label"] for p in setup["sitters"])
        if placed != people and (setup["lights"] or placed):
            yield f"{setup['name']}: places {[p['label'] for p in setup['sitters']]}, the brief asks {people}"
    yield from (
        f"problem of an unknown set-up {p['setup']}" for p in document["problems"] if p["setup"] not in (None, *got)
    )
    yield from (
        f"problem {p['limit']}: says or mends nothing" for p in document["problems"] if not (p["says"] and p["mend"])
    )
    yield from (f"problem {p['limit']}: short by {p['short_by']} without a unit" for p in document["problems"]
                if p["short_by"] is not None and not p["unit"])  # fmt: skip
    yield from _shots(request, document, got)
    yield from _packing(request, document)


def _shots(request: dict[str, Any], document: dict[str, Any], names: list[str]) -> Faults:
    shots = document["shots"]
    if [s["n"] for s in shots] != list(range(1, len(shots) + 1)):
        yield f"shots count {[s['n'] for s in shots]}"
    labels = {s["label"] for s in request["sitters"]}
    for shot in shots:
        if shot["setup"] not in names:
            yield f"shot {shot['n']}: no set-up {shot['setup']}"
        if not shot["who"] or not set(shot["who"]) <= labels:
            yield f"shot {shot['n']}: of {shot['who']}"
        if not (shot["frames"] or 1) >= 1 or not (1 if shot["minutes"] is None else shot["minutes"]) > 0:
            yield f"shot {shot['n']}: {shot['frames']} frames in {shot['minutes']} minutes"
    booked = request["brief"].get("minutes")
    needed = sum(s["minutes"] or 0 for s in shots)
    if booked and needed > booked + 0.5 and not any(p["limit"] == "time" for p in document["problems"]):
        yield f"shots take {needed:.0f} of {booked} minutes, and no problem says so"


def _packing(request: dict[str, Any], document: dict[str, Any]) -> Faults:
    ids = {row["id"] for rows in request["kit"].values() for row in rows or []}
    packed = {row["item"] for row in document["packing"]}
    used: set[str | None] = set()
    for setup in document["setups"]:
        for light in setup["lights"]:
            used |= {light[key] for key in ("head", "modifier", "adapter", "stand", "panel")}
        used |= {block["id"] for block in setup["blocks"]} | {p["seat"] for p in setup["sitters"]}
        if setup["lights"] and setup["background"] and setup["camera"]:
            used |= {setup["background"]["id"], setup["camera"]["body"], setup["camera"]["lens"]}
    yield from (f"{item} is used and not packed" for item in sorted((used & ids) - packed))
    yield from (f"{row['item']}: packed {row['count']} times" for row in document["packing"] if row["count"] < 1)
    once = [row["item"] for row in document["packing"] if row["item"] in ids]
    yield from (f"{item}: packed in two rows" for item in sorted(set(once)) if once.count(item) > 1)


def _setup(
    setup: dict[str, Any], request: dict[str, Any], document: dict[str, Any], named: Callable[[str], bool]
) -> Faults:
    if not setup["lights"]:
        for key in ("meter_round", "reasons"):
            if setup[key]:
                yield f"no light, but {key}"
        for key in ("camera", "expected"):
            if setup[key] is not None:
                yield f"no light, but {key}"
        if not any(p["setup"] in (None, setup["name"]) for p in document["problems"]):
            yield "no light and no problem"
        return
    if any(setup[key] is None for key in ("camera", "expected", "room", "background")):
        yield "lights, but no camera, expected, room or background"
        return
    letters = [light["letter"] for light in setup["lights"]]
    if len(set(letters)) != len(letters) or not all(re.fullmatch(r"[A-Z]", x) for x in letters):
        yield f"letters {letters}"
    if not any(light["role"] == "key" for light in setup["lights"]):
        yield "no key"
    yield from _orders(setup, request, named)
    for light in setup["lights"]:
        yield from laws_of_place.of_light(light, setup, request, named)
    yield from laws_of_place.of_setup(setup, request, named)
    yield from laws_of_light.of_setup(setup, request, named)
    if len(setup["alternatives"]) > 2:
        yield f"{len(setup['alternatives'])} alternatives"
    labels = {p["label"] for p in setup["sitters"]}
    yield from (
        f"a change for {c['label']}, who is not here" for c in setup["changes_per_person"] if c["label"] not in labels
    )
    yield from _size(setup, request)
    for reason in setup["reasons"]:
        yield from _reason(reason, setup, request, document)


def _orders(setup: dict[str, Any], request: dict[str, Any], named: Callable[[str], bool]) -> Faults:
    """What the brief orders outright: the key's side, and no flash near a person who asked for none."""
    side = request["brief"].get("key_side") or "either"
    for light in setup["lights"]:
        bearing = light["bearing_deg"] if light["role"] == "key" else 0.0
        if (side == "camera_left" and bearing > 0) or (side == "camera_right" and bearing < 0):
            yield f"the key stands at {bearing}, the brief wants it at {side}"
    labels = {p["label"] for p in setup["sitters"]}
    unlit = [s["label"] for s in request["sitters"] if s.get("no_flash") and s["label"] in labels]
    flash = {h["id"] for h in request["kit"].get("heads") or [] if h["light"] == "flash"}
    fired = [light["head"] for light in setup["lights"] if light["head"] in flash]
    if unlit and fired:
        yield f"{', '.join(unlit)} asked for no flash; {', '.join(fired)} would fire"


def _size(setup: dict[str, Any], request: dict[str, Any]) -> Faults:
    """The apparent size is that of the key's front from the aimed face; a hot middle may count as smaller."""
    key = next((light for light in setup["lights"] if light["role"] == "key"), None)
    if key is None:
        return
    _, wide, high = laws_of_place.ruler.shape_of(key, request["kit"])
    told = setup["expected"]["apparent_size_deg"]
    largest = 2 * math.degrees(
        math.atan(math.hypot(wide, high) / 2 / key["distance_m"] if wide != high else wide / 2 / key["distance_m"])
    )
    smallest = 2 * math.degrees(math.atan(min(wide, high) / 2 / key["distance_m"]))
    if not 0.8 * smallest - 1 <= told <= largest + 1:
        yield f"the key looks {told} degrees wide, its front spans {smallest:.0f} to {largest:.0f}"


def _steps(path: str) -> list[str | int]:
    """setups[0].lights[1].dial -> ["setups", 0, "lights", 1, "dial"]; lights.A.dial -> ["lights", "A", "dial"]."""
    return [int(index) if index else name for name, index in re.findall(r"([^.\[\]]+)|\[(\d+)\]", path)]


NAMES = ("letter", "label", "name", "id")


def resolve(root: Any, path: str) -> tuple[bool, Any]:
    """Whether a path exists in a JSON value, and what is there. A row may be named by its letter or label."""
    here = root
    for step in _steps(path):
        if isinstance(here, list) and isinstance(step, str):
            rows = [row for row in here if isinstance(row, dict) and step in (row.get(name) for name in NAMES)]
            step = here.index(rows[0]) if len(rows) == 1 else step
        listed = isinstance(here, list) and isinstance(step, int) and step < len(here)
        if not listed and not (isinstance(here, dict) and step in here):
            return False, None
        here = here[step]
    return True, here


def _reason(reason: dict[str, Any], setup: dict[str, Any], request: dict[str, Any], document: dict[str, Any]) -> Faults:
    about = reason["about"]
    inside, value = resolve(setup, about)
    if not inside:
        inside, value = resolve(document, about)
    if not inside:
        yield f"a reason about {about}, which is not in the plan"
    for path in reason["from"]:
        parent = path.rpartition(".")[0]
        if not resolve(request, path)[0] and not (parent and isinstance(resolve(request, parent)[1], dict)):
            yield f"the reason for {about} comes from {path}, which is not in the brief"
    if not reason["because"].strip().endswith((".", "!")) or not reason["source"].strip():
        yield f"the reason for {about} is no sentence or has no source: {reason['because']!r}"
    if isinstance(value, int | float) and not isinstance(value, bool):
        yield from _numbers(about, float(value), reason["because"])


UNITS = {"_m": r"(?:m|metres?)", "_deg": r"(?:degrees?|°)", "_stops": r"stops?"}


def _numbers(about: str, value: float, sentence: str) -> Faults:
    """A sentence about a number that prints numbers in its unit must print that number somewhere."""
    tail = next((tail for tail in UNITS if about.endswith(tail)), None)
    plain = sentence.replace("\N{MINUS SIGN}", "-")
    if tail is None or not re.search(rf"\d ?{UNITS[tail]}\b", plain):
        return
    printed = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", plain)]
    step = {"_m": 0.051, "_deg": 1.01, "_stops": 0.051}[tail]
    if min(abs(abs(n) - abs(value)) for n in printed) > step:
        yield f"the reason for {about} prints {printed}, the plan {value}"
