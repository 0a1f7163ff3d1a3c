"""What the meter round says. Belongs here: the words for causes, for the camera beside its reading, and which buttons a
cause has. Not here: deciding any of it (`records.remedies`, `records.against_set`)."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.utils.translation import gettext as _

from shotplans.light.exposure import shutter_label
from shotplans.models import Reading
from shotplans.records.against_set import Verdict
from shotplans.records.remedies import Cause
from shotplans.sheets.measures import Measures

Values = dict[str, Any]
Kinds = Reading.Cause
# Which kind of thing was put right, by the code of the question; questions on several lights teach no lamp anything.
PUT_RIGHT: dict[str, str] = {
    "cloth_missing": Kinds.CLOTH, "cloth_extra": Kinds.CLOTH, "distance": Kinds.DISTANCE, "dial": Kinds.DIAL,
    "fired": Kinds.DIAL, "others_off": Kinds.OTHERS, "dome": Kinds.METER, "meter_set": Kinds.METER,
}  # fmt: skip


def cause(found: Cause, ways: Measures) -> str:
    """A likely cause as the question an assistant can answer with a look, its lengths as the studio measures."""
    return ways.said(_CAUSES[found.code](dict(found.values)))


def _fired(v: Values) -> str:
    return _("Did %(letter)s fire? Look at its channel and trigger, and wait for ready.") % v


def _dial(v: Values) -> str:
    return _("Is the dial of %(letter)s at %(dial)s, on its own channel?") % v


def _distance(v: Values) -> str:
    said = {"letter": v["letter"], "planned": f"{v['planned_m']:.2f}", "like": f"{v['reads_like_m']:.2f}"}
    return _("Measure %(letter)s, front to face: planned %(planned)s m, it reads like %(like)s m.") % said


def _dome(v: Values) -> str:
    if v["dome"] == "recessed":
        return _("Is the dome in, and turned to the light?") if v["toward"] == "light" else _("Is the dome in?")
    if v["toward"] == "light":
        return _("Is the dome out, turned to the light?")
    return _("Is the dome out, turned to the camera?")


def _others_off(v: Values) -> str:
    return _("Is every light but %(on)s off, and every panel out?") % {"on": ", ".join(v["off"])}


def _cloth_missing(v: Values) -> str:
    return _("Are all cloths on %(letter)s?") % v


def _cloth_extra(v: Values) -> str:
    return _("Is a cloth or a grid too many on %(letter)s?") % v


def _meter_set(v: Values) -> str:
    return _("Is the meter at ISO %(iso)g? The reading is whole stops off.") % v


def _singles(v: Values) -> str:
    return _("Read %(on)s alone once more: one of them has changed.") % {"on": ", ".join(v["on"])}


def _panels(v: Values) -> str:
    return _("Are the panels in, where the sheet has them?") if v["panels"] == "in" else _("Are all panels out?")


def _fired_all(v: Values) -> str:
    return _("Did %(on)s all fire?") % {"on": ", ".join(v["on"])}


_CAUSES: dict[str, Callable[[Values], str]] = {
    "fired": _fired, "dial": _dial, "distance": _distance, "dome": _dome, "others_off": _others_off,
    "cloth_missing": _cloth_missing, "cloth_extra": _cloth_extra, "meter_set": _meter_set, "singles": _singles,
    "panels": _panels, "fired_all": _fired_all,
    "spill": lambda v: _("Does a light from behind shine on the dome? Flag it."),
    "mark": lambda v: _("Is everybody on the mark, and turned as planned?"),
    "shaded": lambda v: _("Does somebody stand in the light?"),
}  # fmt: skip


def verdict(found: Verdict) -> list[str]:
    """The camera beside its reading, a sentence for each thing that is wrong; one that all is well."""
    if not found.flagged:
        return [_("Set as metered: %(off)s stop.") % {"off": f"{found.off_stops:+}"}]
    return [_FLAGS[code](number) for code, number in found.flags]


_FLAGS: dict[str, Callable[[float], str]] = {
    "lighter": lambda n: (
        _("The frame will be %(n)s stop lighter than metered. Close the aperture or lower the ISO.") % {"n": f"{n:.1f}"}
    ),
    "darker": lambda n: (
        _("The frame will be %(n)s stop darker than metered. Open the aperture or raise the ISO.") % {"n": f"{n:.1f}"}
    ),
    "above_sync": lambda n: (
        _("The shutter is shorter than the sync time of %(n)s: part of the frame stays dark.") % {"n": shutter_label(n)}
    ),
    "room_light": lambda n: (
        _("Room light is only %(n)s stops under the flash: shorten the shutter or darken the room.") % {"n": f"{n:.1f}"}
    ),
}
