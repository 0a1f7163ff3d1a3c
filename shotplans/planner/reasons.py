"""Step 7: why. Every number of a set-up with the notes, wishes and rules that moved it and what it costs to change it.

Each reason is a code with values, worded in `words`, and points to paths that exist in the brief. Nothing is said that
the finished plan does not show.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from shotplans.light import exposure, lenses, metering
from shotplans.light.units import round_to, unit
from shotplans.planner import (
    anatomy,
    reasons_of_grounds,
    reasons_of_light,
    reasons_of_notes,
    reasons_of_people,
    reasons_of_rigs,
    reasons_of_sources,
)
from shotplans.planner.expect import Meter, sharp_without_end
from shotplans.planner.framings import FRAMINGS
from shotplans.planner.plan import Solved
from shotplans.planner.reason import OPTICS, Reason
from studio.tongue import gettext as _
from studio.tongue import noop


def reasons(
    solved: Solved, meter: Meter, expected: dict[str, Any], sitters: list[dict[str, Any]], index: int, side_why: str
) -> list[dict[str, Any]]:
    """All reasons of a set-up, in the order of its numbers. `index` is the set-up's place in the brief."""
    at = f"brief.setups[{index}]"
    found = [
        *reasons_of_light.key(solved, meter, expected, at, side_why),
        *reasons_of_sources.sources(solved, meter, expected),
        *reasons_of_notes.wishes(solved, expected, sitters),
        *reasons_of_people.people(solved, meter, at),
        *reasons_of_light.fill(solved, expected, at),
        *reasons_of_light.glasses(solved, sitters),
        *reasons_of_grounds.behind_it_all(solved, meter, at),
        *_camera(solved, expected, at),
        *_house(solved, meter),
        *_on_the_print(solved),
        *reasons_of_rigs.rigs(solved, expected),
    ]
    return [r.printed() for r in found]


def _camera(solved: Solved, expected: dict[str, Any], at: str) -> Iterator[Reason]:
    c = solved.camera
    yield Reason(
        "camera.distance_m",
        "camera",
        (f"{at}.framing",),
        OPTICS,
        {
            "focal": f"{c.focal_mm:g}",
            "distance": f"{c.distance_m:.2f}",
            "framing": _(FRAMINGS[solved.setup.framing].words),
            "width": f"{c.field_width_m:.2f}",
            "height": f"{c.field_height_m:.2f}",
            "floor": f"{c.floor_m:.1f}",
        },
    )
    yield Reason(
        "camera.aperture",
        "aperture_horizon" if sharp_without_end(expected["sharp_to_m"]) else "aperture",
        (f"{at}.framing",),
        noop("thin lens [DOF]"),
        {
            "shown": exposure.shown(c.aperture),
            "front": f"{expected['sharp_from_m']:.2f}",
            "behind": f"{expected['sharp_to_m']:+.2f}",
            "need_front": f"{-c.zone_m[0]:.2f}",
            "need_behind": f"{c.zone_m[1]:+.2f}",
        },
    )
    if c.iso > c.body.base_iso and not solved.notes["iso_ordered"] and not solved.steady:
        yield Reason("camera.iso", "iso", ("kit.heads",), OPTICS, {"iso": c.iso, "base": c.body.base_iso})


def _house(solved: Solved, meter: Meter) -> Iterator[Reason]:
    key = solved.lights[0]
    if not meter.at_key and not meter.recessed and abs(key.bearing_deg) > 45:
        mark = solved.mark_eyes
        cos_t = float(unit(key.at - mark) @ unit(solved.camera.at - mark))
        error = -float(metering.dome_error_stops(np.degrees(np.arccos(np.clip(cos_t, -1.0, 1.0)))))
        values = {"error": f"{round_to(error, 0.1):.1f}"}
        yield Reason("meter_round", "dome", (), noop("our own study, checked by traced rays [LIGHT-4]"), values)
    no_flash = tuple(f"sitters[{s.person.index}].no_flash" for s in solved.pose.seated if s.person.sitter.no_flash)
    if no_flash:
        yield Reason(
            "lights",
            "steady",
            no_flash,
            noop("the brief"),
            {
                "shutter": exposure.shutter_label(solved.camera.shutter_s),
                "iso": solved.camera.iso,
            },
        )


def _on_the_print(solved: Solved) -> Iterator[Reason]:
    """How large a face comes out on the widest print."""
    brief = solved.notes["brief"]
    if brief.print_width_cm:  # type: ignore[attr-defined]
        wide_cm, field_m = float(brief.print_width_cm), solved.camera.field_width_m  # type: ignore[attr-defined]
        face_cm = float(lenses.size_on_print(anatomy.HEAD_HEIGHT_M, wide_cm, field_m))
        values = {
            "print_cm": f"{brief.print_width_cm:g}", "face_cm": f"{face_cm:.0f}", "viewing": f"{brief.viewing_m:g}",  # type: ignore[attr-defined]
        }  # fmt: skip
        yield Reason("camera", "print_face", ("brief.print_width_cm",), OPTICS, values)
