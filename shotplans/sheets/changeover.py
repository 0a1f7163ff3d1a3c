"""From one set-up to the next: what goes, what stays and moves, what comes. Belongs here: the differences as lines to
do, in that order; nothing that stays as it stands is said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.planner.request import Request
from shotplans.sheets import change_walks, pack, wording
from shotplans.sheets.measures import METRIC, Measures
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
NOTHING = noop("Nothing changes.")
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
    found = [
        *(said for _kind, _letter, said in _lights(before, after, measures)),
        *_ground(before, after, measures),
        *_camera(before, after, measures),
    ]
    return tuple(found) or (_(NOTHING),)


def _lights(before: Standing, after: Standing, measures: Measures) -> Iterator[tuple[str, str, str]]:
    """Of each light that changes: whether it goes, stays or comes, its letter, and what is done with it."""
    old = {_front(light): light for light in before.setup["lights"]}
    new = {_front(light): light for light in after.setup["lights"]}
    for front, light in old.items():
        if front not in new:
            name = pack.name(front, before.request)
            said = _("Take down {letter}: {name}.").format(letter=light["letter"], name=name)
            yield change_walks.GO, str(light["letter"]), said
    for front, light in new.items():
        if front in old:
            for said in _moved(old[front], light, pack.name(front, after.request), measures):
                yield change_walks.STAY, str(old[front]["letter"]), said
        else:
            built = _built(light, front, after.request)
            said = _("Bring {letter}: {built}, {place}.").format(
                letter=light["letter"], built=built, place=_place(light, measures)
            )
            yield change_walks.COME, str(light["letter"]), said


def _front(light: Entry) -> str:
    """What a light is known by when it is moved: its modifier or panel."""
    return str(light["modifier"] or light["panel"])


def _built(light: Entry, front: str, request: Request) -> str:
    name = pack.name(front, request)
    return _("{name} on {head}").format(name=name, head=light["head"]) if light["head"] else name


def _place(light: Entry, measures: Measures) -> str:
    place = _("{distance}, {bearing}, middle {height} high").format(
        distance=measures.length(light["distance_m"]),
        bearing=wording.bearing(light["bearing_deg"]),
        height=measures.length(light["centre_height_m"]),
    )
    return f"{place}; {light['dial']}" if light["dial"] else place


def _moved(old: Entry, new: Entry, name: str, measures: Measures) -> Iterator[str]:
    said = []
    if any(old[key] != new[key] for key in ("distance_m", "bearing_deg", "centre_height_m", "dial")):
        said.append(_("to {place}").format(place=_place(new, measures)))
    if old["head"] != new["head"]:
        said.append(_("on {now} instead of {before}").format(now=new["head"], before=old["head"]))
    if old["stand"] != new["stand"]:
        said.append(
            _("{now} instead of {before}").format(
                now=new["stand"] or _("no stand"), before=old["stand"] or _("no stand")
            )
        )
    if old["letter"] != new["letter"]:
        said.insert(0, _("is {letter} now").format(letter=new["letter"]))
    if said:
        yield f"{old['letter']}, {name}: {'; '.join(said)}."


def _ground(before: Standing, after: Standing, measures: Measures) -> Iterator[str]:
    old, new = before.setup["background"], after.setup["background"]
    place = _("{distance} behind the mark").format(distance=measures.length(new["distance_m"]))
    if old["id"] != new["id"]:
        yield _("Ground: {now} instead of {before}, {place}.").format(now=new["id"], before=old["id"], place=place)
    elif old["distance_m"] != new["distance_m"]:
        yield _("Ground: {name} {place}, was {distance}.").format(
            name=new["id"], place=place, distance=measures.length(old["distance_m"])
        )


def _camera(before: Standing, after: Standing, measures: Measures) -> Iterator[str]:
    old, new = before.setup["camera"], after.setup["camera"]
    said = []
    for key, words in (
        ("lens", f"{new['focal_mm']:g} mm ({new['lens']})"),
        ("distance_m", _("{distance} from the mark").format(distance=measures.length(new["distance_m"]))),
        ("height_m", _("{height} high").format(height=measures.length(new["height_m"]))),
        ("orientation", wording.orientation(new["orientation"])),
        ("nearest_third", str(new["nearest_third"])),
        ("iso", f"ISO {new['iso']:g}"),
    ):
        if old[key] != new[key]:
            said.append(words)
    if said:
        yield _("Camera: {said}.").format(said=", ".join(said))


def in_walks(before: Standing, after: Standing, measures: Measures = METRIC) -> tuple[change_walks.Walk, ...]:
    """The same as walks, each thing at its place on the floor."""
    if after.setup["camera"] is None or before.setup["camera"] is None:
        return ()
    spots = _spots(before.setup) | _spots(after.setup)
    found = [
        change_walks.Move(said, spots.get(letter, MARK), kind)
        for kind, letter, said in _lights(before, after, measures)
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
