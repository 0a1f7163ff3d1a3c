"""What was really built and set, as a copy of the plan with the differences put in.

Belongs here: which values of a set-up are copied, how a value typed for one is read, and where a copy differs from its
plan. Not here: rows, words for people, or readings of the meter.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.light.exposure import exact_f_number
from studio.tongue import gettext as _
from studio.tongue import noop

Tree = dict[str, Any]
LIGHT = ("modifier", "distance_m", "centre_height_m", "bearing_deg", "dial")
CAMERA = ("lens", "distance_m", "height_m", "aperture", "shutter_s", "iso")
KEPT_OF_LIGHT = ("letter", "role", "head", "panel", "height_angle_deg", "power_below_full_stops", *LIGHT)
# As the list of differences and the form of a single change call them.
WHAT = {
    "modifier": "modifier", "distance_m": "distance", "centre_height_m": "height", "bearing_deg": "bearing",
    "dial": "power", "lens": "lens", "height_m": "height", "aperture": "aperture", "shutter_s": "shutter",
    "iso": "ISO", "order": "order",
}  # fmt: skip
# How people read those, and what they are of; a letter and a reading are their own words.
SAID = {
    code: code
    for code in (
        noop("modifier"), noop("distance"), noop("height"), noop("bearing"), noop("power"), noop("lens"),
        noop("aperture"), noop("shutter"), noop("ISO"), noop("order"), noop("ground"), noop("other"), noop("camera"),
        noop("set-up"),
    )
}  # fmt: skip
UNITS = {"distance_m": "m", "centre_height_m": "m", "height_m": "m", "bearing_deg": "degrees", "shutter_s": "s"}
TEXTS = ("modifier", "lens", "dial")
LEAST = {"distance_m": 0.3, "centre_height_m": 0.1, "height_m": 0.1, "bearing_deg": -180.0, "aperture": 0.7, "iso": 6.0,
         "shutter_s": 1e-5, "order": 1.0}  # fmt: skip
MOST = {"distance_m": 20.0, "centre_height_m": 6.0, "height_m": 4.0, "bearing_deg": 180.0, "aperture": 128.0,
        "iso": 1e6, "shutter_s": 60.0, "order": 99.0}  # fmt: skip


class Unusable(ValueError):
    """A typed value is no such value; `code` is number or range, `values` what was expected."""

    def __init__(self, code: str, **values: str) -> None:
        super().__init__(code)
        self.code, self.values = code, values


@dataclass(frozen=True)
class Difference:
    """One value that is not as planned: `about` a light's letter, `camera` or `set-up`."""

    about: str
    what: str
    planned: str
    actual: str

    @property
    def words(self) -> str:
        """Of what, and what."""
        return f"{said(self.about)}, {said(self.what)}"


def said(code: str) -> str:
    """What a difference is of, or what differs, in the reader's language."""
    return _(SAID[code]) if code in SAID else code


def copied(setup: Mapping[str, Any], order: int) -> Tree:
    """The values of a set-up that are built or set by hand; `order` is its place among the set-ups, from 1."""
    return {
        "order": order,
        "lights": [{key: light.get(key) for key in KEPT_OF_LIGHT} for light in setup["lights"]],
        "camera": {key: (setup["camera"] or {}).get(key) for key in CAMERA},
        "background": copy.deepcopy(setup.get("background")),
    }


def read_value(key: str, text: str) -> Any:
    """A value as typed: words for kit and dial, else a number as a studio writes it (2.1, 2,1, f/8, 1/125). Raises
    Unusable."""
    text = text.strip()
    if key in TEXTS:
        return text
    whole, _slash, part = text.lower().removeprefix("f/").removesuffix("m").strip().replace(",", ".").partition("/")
    try:
        value = float(whole) / float(part) if part else float(whole)
    except (ValueError, ZeroDivisionError):
        raise Unusable("number") from None
    if not math.isfinite(value) or not LEAST[key] <= value <= MOST[key]:
        raise Unusable("range", low=f"{LEAST[key]:g}", high=f"{MOST[key]:g}")
    return round(value) if key in ("order", "iso") else round(value, 6)


def shown(key: str, value: Any) -> str:
    """A value as the form and the list show it, without its unit."""
    if value is None:
        return ""
    if key in TEXTS:
        return str(value)
    if key == "shutter_s":
        return f"1/{1 / value:.0f}" if value < 0.3 else f"{value:g}"
    return f"{value:.2f}" if UNITS.get(key) == "m" else f"{value:g}"


def worded(key: str, value: Any) -> str:
    """The same with its unit."""
    said = shown(key, value)
    if not said or key == "shutter_s":
        return said
    return f"f/{said}" if key == "aperture" else f"{said} {UNITS.get(key, '')}".strip()


def same(key: str, one: Any, other: Any) -> bool:
    """Whether two values are one and the same setting: apertures by their label, numbers as they are shown."""
    if key == "aperture" and one and other:
        return abs(math.log2(exact_f_number(float(one)) / exact_f_number(float(other)))) < 0.02
    return shown(key, one) == shown(key, other)


def paths(tree: Mapping[str, Any]) -> Iterator[tuple[str, str, Any]]:
    """Every value of a copy that may be typed: whose it is, its key, and what it is."""
    yield "set-up", "order", tree["order"]
    for light in tree["lights"]:
        for key in LIGHT:
            if not (light["head"] is None and key in ("dial", "modifier")):
                yield light["letter"], key, light[key]
    for key in CAMERA:
        yield "camera", key, tree["camera"][key]


def put(tree: Tree, about: str, key: str, value: Any) -> None:
    """Set one value of a copy."""
    if about == "set-up":
        tree[key] = value
    elif about == "camera":
        tree["camera"][key] = value
    else:
        next(x for x in tree["lights"] if x["letter"] == about)[key] = value


def differences(planned: Mapping[str, Any], built: Mapping[str, Any]) -> list[Difference]:
    """Where a copy is not as planned, in the order of the sheet."""
    was = {(about, key): value for about, key, value in paths(planned)}
    return [
        Difference(about, WHAT[key], worded(key, was.get((about, key))), worded(key, value))
        for about, key, value in paths(built)
        if not same(key, was.get((about, key)), value)
    ]


def put_noted(tree: Tree, about: str, what: str, actual: str) -> None:
    """Put one difference noted in words into a copy, where it can be read; else it stays as it was."""
    for whose, key, _value in list(paths(tree)):
        if whose == about and WHAT[key] == what:
            try:
                put(tree, about, key, read_value(key, actual))
            except Unusable:
                return
