"""What is taken down after a sitting, in the reverse of the order it was built, and what stays up for the next one in
the same room. Belongs here: those lines as data, with what each asks for. Not here: who ticks them, layout."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.sheets import pack, wording
from shotplans.sheets.changeover import Standing
from shotplans.sheets.measures import Measures
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
SWEEP = "sweep"
COOL_MIN = 20  # minutes until a lamp that burnt is packed: common practice, no source
CAUTIONS = (
    noop("Heads off at the switch and fired once or discharged as their maker says, before a plug is drawn."),
    noop("A lamp that burnt cools about {minutes} minutes before it is packed; gloves until then."),
    noop("A boom comes down before its counterweight comes off; bags come off last."),
    noop("Lift together or use the trolley. Makers' instructions and local rules come first."),
)


@dataclass(frozen=True)
class Line:
    """One thing to take down; `stays` says for whom it stays up, empty where it goes."""

    code: str
    says: str
    stays: str = ""


def build_order(standing: Standing, measures: Measures) -> list[Line]:
    """A set-up in the order it is built: ground, lights by letter each from the floor up, panels, camera, seats."""
    setup = standing.setup
    if setup["camera"] is None:  # no light was found: nothing was built
        return []
    found = [Line("ground", _("Ground: {name}, with its crossbar and stands").format(name=setup["background"]["id"]))]
    found += [Line(f"light-{light['letter']}", _light(light, standing, measures)) for light in setup["lights"]]
    found += [
        Line(f"panel-{n}", _("Black panel: {name}").format(name=block["id"]) + _on(block.get("stand")))
        for n, block in enumerate(setup["blocks"], 1)
    ]
    found.append(
        Line(
            "camera",
            _("Camera: {body} with {lens}, trigger").format(body=setup["camera"]["body"], lens=setup["camera"]["lens"]),
        )
    )
    seats = list(dict.fromkeys(s[key] for key in ("seat", "step") for s in setup["sitters"] if s.get(key)))
    if seats:
        found.append(Line("seats", _("Seats: {seats}").format(seats=", ".join(map(str, seats)))))
    found.append(Line("cables", _("Cables, covers and tape")))
    return found


def lines(standing: Standing, measures: Measures, after: Standing | None = None, sitting: str = "") -> list[Line]:
    """What there is to do, last built first, ended by the last sweep. `after` is the set-up that follows in the same
    room, of the sitting of that number."""
    kept = staying(standing, after) if after else set()
    built = build_order(standing, measures)
    found = [Line(one.code, one.says, sitting if one.code in kept else "") for one in reversed(built)]
    return [*found, Line(SWEEP, _("Last sweep: floor, sills, sockets, behind the ground; nothing left, nothing hot"))]


def staying(before: Standing, after: Standing) -> set[str]:
    """The codes of what stays up: the same ground, and each light whose parts are all the same. It may move."""
    old, new = before.setup, after.setup
    if old["camera"] is None or new["camera"] is None:
        return set()
    found = {"ground"} if old["background"]["id"] == new["background"]["id"] else set()
    parts = [_parts(light) for light in new["lights"]]
    found |= {f"light-{light['letter']}" for light in old["lights"] if _parts(light) in parts}
    if old["camera"]["body"] == new["camera"]["body"]:
        found.add("camera")
    seats = {s["seat"] for s in old["sitters"] if s["seat"]}
    if seats and seats <= {s["seat"] for s in new["sitters"]}:
        found.add("seats")
    return found


def stays_up(before: Standing, after: Standing, measures: Measures) -> tuple[str, ...]:
    """The same as sentences, each with how far it moves; for the board between two sittings in one room."""
    kept = staying(before, after)
    return tuple(_stays(one, before, after, measures) for one in build_order(before, measures) if one.code in kept)


def _stays(one: Line, before: Standing, after: Standing, measures: Measures) -> str:
    if not one.code.startswith("light-"):
        return f"{one.says}."
    old = next(x for x in before.setup["lights"] if f"light-{x['letter']}" == one.code)
    new = next(x for x in after.setup["lights"] if _parts(x) == _parts(old))
    same = all(old[key] == new[key] for key in ("distance_m", "bearing_deg", "centre_height_m"))
    moved = (
        _("as it stands")
        if same
        else _("to {distance}, {bearing}").format(
            distance=measures.length(new["distance_m"]), bearing=wording.bearing(new["bearing_deg"])
        )
    )
    if new["letter"] != old["letter"]:
        return _("{thing}: {moved}; {letter} then.").format(thing=one.says, moved=moved, letter=new["letter"])
    return f"{one.says}: {moved}."


def _parts(light: Entry) -> tuple[Any, ...]:
    return tuple(light[key] for key in ("head", "modifier", "adapter", "stand", "panel"))


def _light(light: Entry, standing: Standing, measures: Measures) -> str:
    """A light named from the top down, as it is taken down."""
    front = light["modifier"] or light["panel"]
    parts = [pack.name(front, standing.request), light["adapter"], light["head"]]
    if light.get("arm_m"):
        parts += [_("arm"), _("counterweight {mass}").format(mass=measures.mass(light["counterweight_kg"]))]
    built = ", ".join(str(p) for p in parts if p)
    return _("{letter}: {parts}, bag last").format(letter=light["letter"], parts=built + _on(light["stand"]))


def _on(stand: str | None) -> str:
    return f", {stand}" if stand else ""


def cautions(setup: Entry) -> Iterator[str]:
    """The cautions that hold for what stands there."""
    has_heads = any(x["head"] for x in setup["lights"])
    has_boom = any(x.get("arm_m") for x in setup["lights"])
    for words, holds in zip(CAUTIONS, (has_heads, has_heads, has_boom, True), strict=True):
        if holds:
            yield _(words).format(minutes=COOL_MIN)
