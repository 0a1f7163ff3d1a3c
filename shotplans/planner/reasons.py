"""Step 7: why. Every number of a set-up with the notes, wishes and rules that moved it and what it costs to change it.

Each reason is a code with values, worded in words.py, and points to paths that exist in the brief. Nothing is said that
the finished plan does not show.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from shotplans.light import exposure, shadows
from shotplans.light.units import direction, round_to
from shotplans.planner import pattern, words
from shotplans.planner.expect import NOSE_GAP_M, Meter, apparent, bearing_from_nose, levels_at_faces, main_sitter
from shotplans.planner.fill import Filled
from shotplans.planner.framings import FRAMINGS
from shotplans.planner.plan import Light, Solved
from shotplans.planner.poses import ROW_SPACING_M

TRADE = "common practice, no source"
RELIEF = "relief index, light.md section 3 [LIGHT-3]"
OPTICS = "geometry and photometry [HOWELL], [CIE-DISTANCE]"


@dataclass(frozen=True)
class Reason:
    """Why one number is what it is."""

    about: str
    code: str
    paths: tuple[str, ...]
    source: str
    values: dict[str, Any] = field(default_factory=dict)

    def printed(self) -> dict[str, Any]:
        return {
            "about": self.about,
            "because": words.reason(self.code, self.values),
            "from": list(self.paths),
            "source": self.source,
        }


def reasons(
    solved: Solved, meter: Meter, expected: dict[str, Any], sitters: list[dict[str, Any]], index: int, side_why: str
) -> list[dict[str, Any]]:
    """All reasons of a set-up, in the order of its numbers. `index` is the set-up's place in the brief."""
    at = f"brief.setups[{index}]"
    found = [
        *_key(solved, meter, expected, at, side_why),
        *_wishes(solved, expected, sitters),
        *_people(solved, at),
        *_fill(solved, expected, at),
        *_glasses(solved, sitters),
        *_accent(solved, meter, at),
        *_ground(solved, at),
        *_camera(solved, expected, at),
        *_house(solved, meter),
    ]
    return [r.printed() for r in found]


def _key(solved: Solved, meter: Meter, expected: dict[str, Any], at: str, side_why: str) -> Iterator[Reason]:
    key, row, sitter = solved.lights[0], solved.targets.row, main_sitter(solved)
    assert key.emitter is not None
    rel = bearing_from_nose(key, sitter)
    intent = (f"{at}.intent",)
    side = "right" if key.bearing_deg >= 0 else "left"
    values = {"bearing": f"{abs(key.bearing_deg):.0f}", "side": side}
    if len(solved.pose.together) == 1:
        yield Reason(
            "lights.A.bearing_deg",
            "bearing",
            intent,
            TRADE,
            {
                **values,
                "rel": f"{abs(rel):.0f}",
                "label": sitter.person.label,
                "sentence": row.sentence,
                "low": f"{row.nose.low:.0f}",
                "high": f"{row.nose.high:.0f}",
                "pattern": expected["pattern"],
            },
        )
    else:
        yield Reason(
            "lights.A.bearing_deg",
            "bearing_many",
            intent,
            OPTICS,
            {
                **values,
                "even": expected["evenness_stops"],
                "limit": row.faces_stops,
            },
        )
    if side_why != "ordered":
        yield Reason("lights.A.bearing_deg", "side", (), TRADE, {"side": side, "why": words.SIDE_WHY[side_why]})
    else:
        yield Reason(
            "lights.A.bearing_deg",
            "side",
            ("brief.key_side",),
            "the brief",
            {"side": side, "why": words.SIDE_WHY["ordered"]},
        )
    yield Reason(
        "lights.A.height_angle_deg",
        "height",
        intent,
        TRADE,
        {
            "height": f"{key.height_deg:.0f}",
            "sentence": row.sentence,
            "low": f"{row.height.low:.0f}",
            "high": f"{row.height.high:.0f}",
        },
    )
    yield Reason("lights.A.distance_m", "distance", intent, OPTICS, _closer(solved, meter, expected, key))
    kinds = int(solved.notes["kinds"])  # type: ignore[call-overload]
    yield Reason(
        "lights.A.modifier",
        "modifier" if kinds > 1 else "modifier_only",
        ("kit.modifiers",),
        TRADE,
        {
            "modifier": key.emitter.modifier.label or key.emitter.modifier.id,
            "head": key.emitter.head.label or key.emitter.head.id,
            "kinds": kinds,
        },
    )


def _closer(solved: Solved, meter: Meter, expected: dict[str, Any], key: Light) -> dict[str, Any]:
    """What moving the key nearer by 30 cm (20 cm under a metre and a half) would do, reckoned anew."""
    step = 0.3 if key.distance_m >= 1.5 else 0.2 if key.distance_m >= 0.8 else 0.1
    near = key.distance_m - step
    spot = solved.mark_eyes + near * direction(key.bearing_deg, key.height_deg)
    moved = replace(key, position=(float(spot[0]), float(spot[1]), float(spot[2])), distance_m=near)
    gain = float(np.log2(meter.direct(moved) / meter.direct(key)))
    edge = float(shadows.edge_disc_mm(key.disc_size_m, near, NOSE_GAP_M))
    now = float(shadows.edge_disc_mm(key.disc_size_m, key.distance_m, NOSE_GAP_M))
    uneven = ""
    if len(solved.pose.together) > 1:
        nearer = replace(meter, solved=replace(solved, lights=(moved, *solved.lights[1:])))
        after = levels_at_faces(nearer)
        more = float(round_to(max(after) - min(after) - expected["evenness_stops"], 0.1))
        uneven = f", faces {more:.1f} stop less even" if more > 0 else ", faces as even as before"
    return {
        "distance": f"{key.distance_m:.2f}",
        "size": f"{apparent(key):.0f}",
        "edge": f"{expected['shadow_edge_mm']:.0f}",
        "step": f"{step * 100:.0f}",
        "gain": float(round_to(gain, 0.1)),
        "softer": f"{(edge / now - 1) * 100:.0f}",
        "uneven": uneven,
    }


def _wishes(solved: Solved, expected: dict[str, Any], sitters: list[dict[str, Any]]) -> Iterator[Reason]:
    by_label = {s["label"]: s for s in sitters}
    texture = ("lines_softer", "lines_shown")
    for moved in solved.targets.moved:
        if moved.code in texture:
            wish = "softer" if moved.code == "lines_softer" else "shown"
            for s in solved.pose.seated:
                paths = tuple(p for p in moved.paths if p.startswith(f"sitters[{s.person.index}]."))
                if paths and s.person.wish("lines", "bags", "neck", "scar", "blemish") == wish:
                    seen = by_label[s.person.label]
                    yield Reason(
                        moved.about,
                        moved.code,
                        paths,
                        RELIEF,
                        {
                            "label": s.person.label,
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
        if s.person.sitter.skin != "not noted":
            seen = by_label[s.person.label]
            yield Reason(
                f"expected.per_sitter.{s.person.label}",
                "skin",
                (f"sitters[{s.person.index}].skin",),
                RELIEF,
                {
                    "label": s.person.label,
                    "shadow": seen["relief_shadow_stops"],
                    "highlight": seen["relief_highlight_stops"],
                },
            )


def _about_accent(solved: Solved) -> str:
    light = solved.light("accent")
    return f"lights.{light.letter}.power_below_full_stops" if light else "lights"


def _people(solved: Solved, at: str) -> Iterator[Reason]:
    together, key = solved.pose.together, solved.lights[0]
    framing = (f"{at}.framing",)
    if solved.pose.in_turn:
        yield Reason("changes_per_person", "in_turn", framing, TRADE, {"people": len(solved.pose.seated)})
    if len(together) == 1 and together[0].nose_deg:
        s = together[0]
        rel = bearing_from_nose(key, s)
        yield Reason(
            f"sitters.{s.person.label}.nose_bearing_deg",
            "turn",
            framing,
            TRADE,
            {
                "label": s.person.label if not solved.pose.in_turn else "Each sitter",
                "turn": f"{abs(s.nose_deg):.0f}",
                "side": "right" if s.nose_deg > 0 else "left",
                "rel": f"{abs(rel):.0f}",
                "which": pattern.side(s.nose_deg, rel),
            },
        )
    if len(together) == 2:
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
        yield Reason(
            "sitters",
            "rows",
            framing,
            TRADE,
            {
                "rows": len({s.row for s in together}),
                "spacing": ROW_SPACING_M,
                "depth": f"{max(zs) - min(zs):.2f}",
            },
        )


def _fill(solved: Solved, expected: dict[str, Any], at: str) -> Iterator[Reason]:
    filled = solved.notes["fill"]
    assert isinstance(filled, Filled)
    light = solved.light("fill")
    about = f"lights.{light.letter}" if light else "expected.fill_below_key_stops"
    yield Reason(
        about,
        f"fill_{filled.how}",
        (f"{at}.intent",),
        OPTICS,
        {
            "level": expected["fill_below_key_stops"],
            "low": f"{filled.wanted.low:.1f}",
            "high": f"{filled.wanted.high:.1f}",
            "bounce": f"{min(9.9, filled.bounce_stops):.1f}",
            "panels": len(solved.blocks),
            "distance": f"{light.distance_m:.2f}" if light else "",
        },
    )


def _glasses(solved: Solved, sitters: list[dict[str, Any]]) -> Iterator[Reason]:
    index = {s.person.label: s.person.index for s in solved.pose.seated}
    for entry in sitters:
        for g in entry["glasses"]:
            code = "glasses_shows" if g["cure"] else "glasses_clear"
            yield Reason(
                f"expected.per_sitter.{entry['label']}.glasses",
                code,
                (f"sitters[{index[entry['label']]}].glasses",),
                "light.md section 6 [LIGHT-6]",
                {"label": entry["label"], "letter": g["light"], "margin": g["margin_deg"], "cure": g["cure"]},
            )


def _accent(solved: Solved, meter: Meter, at: str) -> Iterator[Reason]:
    light, targets = solved.light("accent"), solved.targets
    if light is not None and light.emitter is not None:
        aim = np.array(light.aim)
        strength = float(np.linalg.norm(light.emitter.vector(aim, light.at, light.axis))) * 2.0**-light.power_stops
        level = float(np.log2(meter.direct(solved.lights[0]) / strength))
        what = "the hair" if targets.row.accent_kind == "hair" else "the shadow side"
        yield Reason(
            f"lights.{light.letter}",
            "accent",
            (f"{at}.intent",),
            TRADE,
            {
                "level": f"{float(round_to(level, 0.1)):.1f}",
                "what": what,
            },
        )
    elif targets.no_accent in ("bald", "white_hair", "shine", "infant"):
        yield Reason("lights", f"no_accent_{targets.no_accent}", (), TRADE)
    elif targets.accent_band is not None:
        yield Reason("lights", "no_accent_kit", (), TRADE)


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
