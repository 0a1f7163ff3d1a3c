"""Step 7: why. Every number of a set-up with the notes, wishes and rules that moved it and what it costs to change it.

Each reason is a code with values, worded in words.py, and points to paths that exist in the brief. Nothing is said that
the finished plan does not show.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from shotplans.light import exposure, heads
from shotplans.light.units import round_to
from shotplans.planner import anatomy, pattern, reasons_of_light
from shotplans.planner.expect import Meter, bearing_from_nose
from shotplans.planner.framings import FRAMINGS
from shotplans.planner.notes import TEXTURE_NOTES
from shotplans.planner.people import Seated
from shotplans.planner.plan import Solved
from shotplans.planner.poses import ROW_SPACING_M
from shotplans.planner.reason import OPTICS, RELIEF, TRADE, Reason, light_path

MOST_SPOKEN_OF = 3  # with more people the numbers stand in the plan, without a sentence each


def reasons(
    solved: Solved, meter: Meter, expected: dict[str, Any], sitters: list[dict[str, Any]], index: int, side_why: str
) -> list[dict[str, Any]]:
    """All reasons of a set-up, in the order of its numbers. `index` is the set-up's place in the brief."""
    at = f"brief.setups[{index}]"
    found = [
        *reasons_of_light.key(solved, meter, expected, at, side_why),
        *_wishes(solved, expected, sitters),
        *_people(solved, at),
        *reasons_of_light.fill(solved, expected, at),
        *reasons_of_light.glasses(solved, sitters),
        *reasons_of_light.accent(solved, meter, at),
        *_ground(solved, at),
        *_camera(solved, expected, at),
        *_house(solved, meter),
        *_print_and_motion(solved),
    ]
    return [r.printed() for r in found]


def _wishes(solved: Solved, expected: dict[str, Any], sitters: list[dict[str, Any]]) -> Iterator[Reason]:
    by_label = {s["label"]: s for s in sitters}
    place = {s["label"]: n for n, s in enumerate(sitters)}
    texture = ("lines_softer", "lines_shown")
    for moved in solved.targets.moved:
        if moved.code in texture:
            wish = "softer" if moved.code == "lines_softer" else "shown"
            for s in solved.pose.seated:
                paths = tuple(p for p in moved.paths if p.startswith(f"sitters[{s.person.index}]."))
                if paths and s.person.wish(*TEXTURE_NOTES) == wish:
                    seen = by_label[s.person.label]
                    yield Reason(
                        moved.about,
                        moved.code,
                        paths,
                        RELIEF,
                        {
                            "label": s.person.label,
                            "notes": _notes(s, wish),
                            "rel": f"{abs(bearing_from_nose(solved.lights[0], s)):.0f}",
                            "fill": expected["fill_below_key_stops"],
                            "relief": seen["relief_stops"],
                            "shadow": seen["relief_shadow_stops"],
                            "highlight": seen["relief_highlight_stops"],
                        },
                    )
        elif moved.code == "light_hair":
            band = solved.targets.accent_band
            if solved.light("accent") is not None and band is not None:
                yield Reason(_about_accent(solved), moved.code, moved.paths, TRADE, {"level": f"{band.mid:g}"})
        else:
            yield Reason(moved.about, moved.code, moved.paths, TRADE)
    for s in solved.pose.seated:
        if s.person.sitter.skin != "not noted" and len(solved.pose.seated) <= MOST_SPOKEN_OF:
            seen = by_label[s.person.label]
            yield Reason(
                f"expected.per_sitter[{place[s.person.label]}]",
                "skin",
                (f"sitters[{s.person.index}].skin",),
                RELIEF,
                {
                    "label": s.person.label,
                    "shadow": seen["relief_shadow_stops"],
                    "highlight": seen["relief_highlight_stops"],
                },
            )


def _notes(seated: Seated, wish: str) -> str:
    """What of their face a sitter wishes softer or shown, in the order of the brief."""
    named = dict.fromkeys(w.note for w in seated.person.wishes if w.note in TEXTURE_NOTES and w.wish == wish)
    return " and ".join(named)


def _about_accent(solved: Solved) -> str:
    light = solved.light("accent")
    return light_path(light) if light else "lights"


def _people(solved: Solved, at: str) -> Iterator[Reason]:
    together, key = solved.pose.together, solved.lights[0]
    framing = (f"{at}.framing",)
    if solved.pose.in_turn:
        yield Reason("changes_per_person", "in_turn", framing, TRADE, {"people": len(solved.pose.seated)})
    if len(together) == 1 and together[0].nose_deg:
        s = together[0]
        rel = bearing_from_nose(key, s)
        which = pattern.side(s.nose_deg, rel)
        yield Reason(
            "sitters[0].nose_bearing_deg",
            "turn",
            framing,
            TRADE,
            {
                "label": s.person.label if not solved.pose.in_turn else "Each sitter",
                "turn": f"{abs(s.nose_deg):.0f}",
                "side": "right" if s.nose_deg > 0 else "left",
                "rel": f"{abs(rel):.0f}",
                "which": "" if which == "none" else f": {which} light",
            },
        )
    if len(together) == 2 and solved.setup.framing != "group":
        far, near = sorted(together, key=lambda s: -float(np.linalg.norm(key.at - np.array(s.face_m))))
        yield Reason(
            "sitters",
            "pair",
            framing,
            TRADE,
            {
                "far": far.person.label,
                "near": near.person.label,
                "turn": f"{abs(far.nose_deg):.0f}",
            },
        )
    if len(together) > 3:
        zs = [s.face_m[2] for s in together]
        rows = len({s.row for s in together})
        yield Reason(
            "sitters",
            "rows" if rows > 1 else "one_row",
            framing,
            TRADE,
            {
                "rows": rows,
                "spacing": ROW_SPACING_M,
                "depth": f"{max(zs) - min(zs):.2f}",
            },
        )


def _ground(solved: Solved, at: str) -> Iterator[Reason]:
    g = solved.ground
    assert g is not None
    lit = solved.light("background") is not None
    reading = float(round_to(g.reading_above_setting, 0.1))
    yield Reason(
        "background",
        "ground_lit" if lit else "ground_spill",
        (f"{at}.background_tone",),
        OPTICS,
        {
            "item": g.item.id,
            "distance": f"{g.distance_m:.2f}",
            "reading": f"{abs(reading):.1f}",
            "way": "over" if reading > 0 else "under",
            "lightness": f"{g.lightness:.0f}",
            "low": f"{g.wanted[0]:.0f}",
            "high": f"{g.wanted[1]:.0f}",
        },
    )


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
            "framing": FRAMINGS[solved.setup.framing].words,
            "width": f"{c.field_width_m:.2f}",
            "height": f"{c.field_height_m:.2f}",
            "floor": f"{c.floor_m:.1f}",
        },
    )
    yield Reason(
        "camera.aperture",
        "aperture",
        (f"{at}.framing",),
        "thin lens [DOF]",
        {
            "shown": exposure.shown(c.aperture),
            "front": f"{expected['sharp_from_m']:.2f}",
            "behind": f"{expected['sharp_to_m']:+.2f}",
            "need_front": f"{-c.front_m:.2f}",
            "need_behind": f"{c.behind_m:+.2f}",
        },
    )
    if c.iso > c.body.base_iso and not solved.notes["iso_ordered"] and not solved.steady:
        yield Reason("camera.iso", "iso", ("kit.heads",), OPTICS, {"iso": c.iso, "base": c.body.base_iso})


def _house(solved: Solved, meter: Meter) -> Iterator[Reason]:
    key = solved.lights[0]
    if not meter.at_key and not meter.recessed and abs(key.bearing_deg) > 45:
        mark = solved.mark_eyes
        cos_t = float((key.at - mark) @ (solved.camera.at - mark)) / float(
            np.linalg.norm(key.at - mark) * np.linalg.norm(solved.camera.at - mark)
        )
        error = float(round_to(-float(np.log2((1 + cos_t) / 2)), 0.1))
        yield Reason("meter_round", "dome", (), "light.md section 4 [LIGHT-4]", {"error": f"{error:.1f}"})
    no_flash = tuple(f"sitters[{s.person.index}].no_flash" for s in solved.pose.seated if s.person.sitter.no_flash)
    if no_flash:
        yield Reason(
            "lights",
            "steady",
            no_flash,
            "the brief",
            {
                "shutter": exposure.shutter_label(solved.camera.shutter_s),
                "iso": solved.camera.iso,
            },
        )


def _print_and_motion(solved: Solved) -> Iterator[Reason]:
    """How large a face comes out on the widest print, and what a flash freezes of those who move."""
    brief = solved.notes["brief"]
    if brief.print_width_cm:  # type: ignore[attr-defined]
        face_cm = float(brief.print_width_cm) * anatomy.HEAD_HEIGHT_M / solved.camera.field_width_m  # type: ignore[attr-defined]
        values = {
            "print_cm": f"{brief.print_width_cm:g}", "face_cm": f"{face_cm:.0f}", "viewing": f"{brief.viewing_m:g}",  # type: ignore[attr-defined]
        }  # fmt: skip
        yield Reason("camera", "print_face", ("brief.print_width_cm",), OPTICS, values)
    key = solved.lights[0].emitter
    restless = [s for s in solved.pose.seated if s.person.sitter.tremor or (s.person.sitter.age_years or 40.0) < 6]
    if key is not None and key.head.duration_s and restless and not solved.steady:
        lasting = float(key.head.duration_s)
        if key.head.duration_kind == "t0.5":
            lasting = float(heads.t01_from_t05(lasting))
        index = restless[0].person.index
        path = f"sitters[{index}].tremor" if restless[0].person.sitter.tremor else f"sitters[{index}].age_years"
        values = {
            "head": key.head.label or key.head.id, "part": f"{1 / lasting:.0f}",
            "blur": f"{float(exposure.motion_blur_mm(1.0, lasting)):.1f}",
        }  # fmt: skip
        yield Reason("lights[0].head", "freeze", (path,), "kinematics [values.md F18, F21]", values)
