"""From one set-up to the next: what goes, what stays and moves, what comes. Belongs here: the differences as lines to
do, in that order; nothing that stays as it stands is said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.planner.request import Request
from shotplans.sheets import change_walks, pack, wording
from shotplans.sheets.measures import METRIC, Measures

Entry = Mapping[str, Any]
NOTHING = "Nothing changes."
MARK = (0.0, 0.0)


@dataclass(frozen=True)
class Standing:
    """A set-up as it stands, with the frozen input that knows what its things are called."""

    setup: Entry
    request: Request


def lines(before: Standing, after: Standing, measures: Measures = METRIC) -> tuple[str, ...]:
    """What there is to do between two set-ups in one room."""
    if after.setup["camera"] is None or before.setup["camera"] is None:
        return ()
    found = [*_lights(before, after, measures), *_ground(before, after, measures), *_camera(before, after, measures)]
    return tuple(found) or (NOTHING,)


def _lights(before: Standing, after: Standing, measures: Measures) -> Iterator[str]:
    old = {_front(light): light for light in before.setup["lights"]}
    new = {_front(light): light for light in after.setup["lights"]}
    for front, light in old.items():
        if front not in new:
            yield f"Take down {light['letter']}: {pack.name(front, before.request)}."
    for front, light in new.items():
        if front in old:
            yield from _moved(old[front], light, pack.name(front, after.request), measures)
        else:
            yield f"Bring {light['letter']}: {_built(light, front, after.request)}, {_place(light, measures)}."


def _front(light: Entry) -> str:
    """What a light is known by when it is moved: its modifier or panel."""
    return str(light["modifier"] or light["panel"])


def _built(light: Entry, front: str, request: Request) -> str:
    name = pack.name(front, request)
    return f"{name} on {light['head']}" if light["head"] else name


def _place(light: Entry, measures: Measures) -> str:
    power = f"; {light['dial']}" if light["dial"] else ""
    return (
        f"{measures.length(light['distance_m'])}, {wording.bearing(light['bearing_deg'])}, middle "
        f"{measures.length(light['centre_height_m'])} high{power}"
    )


def _moved(old: Entry, new: Entry, name: str, measures: Measures) -> Iterator[str]:
    said = []
    if any(old[key] != new[key] for key in ("distance_m", "bearing_deg", "centre_height_m", "dial")):
        said.append(f"to {_place(new, measures)}")
    if old["head"] != new["head"]:
        said.append(f"on {new['head']} instead of {old['head']}")
    if old["stand"] != new["stand"]:
        said.append(f"{new['stand'] or 'no stand'} instead of {old['stand'] or 'no stand'}")
    if old["letter"] != new["letter"]:
        said.insert(0, f"is {new['letter']} now")
    if said:
        yield f"{old['letter']}, {name}: {'; '.join(said)}."


def _ground(before: Standing, after: Standing, measures: Measures) -> Iterator[str]:
    old, new = before.setup["background"], after.setup["background"]
    place = f"{measures.length(new['distance_m'])} behind the mark"
    if old["id"] != new["id"]:
        yield f"Ground: {new['id']} instead of {old['id']}, {place}."
    elif old["distance_m"] != new["distance_m"]:
        yield f"Ground: {new['id']} {place}, was {measures.length(old['distance_m'])}."


def _camera(before: Standing, after: Standing, measures: Measures) -> Iterator[str]:
    old, new = before.setup["camera"], after.setup["camera"]
    said = []
    for key, words in (
        ("lens", f"{new['focal_mm']:g} mm ({new['lens']})"),
        ("distance_m", f"{measures.length(new['distance_m'])} from the mark"),
        ("height_m", f"{measures.length(new['height_m'])} high"),
        ("orientation", str(new["orientation"])),
        ("nearest_third", str(new["nearest_third"])),
        ("iso", f"ISO {new['iso']:g}"),
    ):
        if old[key] != new[key]:
            said.append(words)
    if said:
        yield f"Camera: {', '.join(said)}."

def in_walks(before: Standing, after: Standing, measures: Measures = METRIC) -> tuple[change_walks.Walk, ...]:
    """The same as walks, each thing at its place on the floor."""
    if after.setup["camera"] is None or before.setup["camera"] is None:
        return ()
    spots = _spots(before.setup) | _spots(after.setup)
    found = [
        change_walks.Move(line, spots.get(_letter(line), MARK), _kind(line))
        for line in _lights(before, after, measures)
    ]
    ground = -float(after.setup["background"]["distance_m"])
    found += [change_walks.Move(line, (0.0, ground)) for line in _ground(before, after, measures)]
    camera = (0.0, float(after.setup["camera"]["distance_m"]))
    found += [change_walks.Move(line, camera) for line in _camera(before, after, measures)]
    return change_walks.walks(found, camera)


def _spots(setup: Entry) -> dict[str, change_walks.Spot]:
    """Where each letter's stand has its foot; a light without one, where its front is."""
    found = {}
    for light in setup["lights"]:
        foot = light["foot_m"]
        at = foot if foot is not None else (light["position_m"][0], light["position_m"][2])
        found[str(light["letter"])] = (float(at[0]), float(at[1]))
    return found


def _letter(line: str) -> str:
    return line.removeprefix("Take down ").removeprefix("Bring ")[:1]


def _kind(line: str) -> str:
    if line.startswith("Take down "):
        return change_walks.GO
    return change_walks.COME if line.startswith("Bring ") else change_walks.STAY
