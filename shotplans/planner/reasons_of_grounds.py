"""Why ground, accents and flags are as they are, and how far the colours lie apart. Called by reasons.py."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from shotplans.light import colour
from shotplans.light.units import round_to
from shotplans.planner import behind, colours, flags, glow
from shotplans.planner.accent import on_hair
from shotplans.planner.expect import MOST_BELOW_STOPS, Meter
from shotplans.planner.kit import Panel
from shotplans.planner.plan import Light, Solved
from shotplans.planner.reason import OPTICS, TRADE, Reason, light_path
from studio.tongue import gettext as _
from studio.tongue import noop

BRIGHT_STOPS = -0.3  # a ground that reads less under the setting throws back enough to speak of
GLOSS = noop("gloss of skin at a glancing angle [SKIN-GLOSS]")
VEIL = noop("veiling glare, 2 % of a lens's light [GLARE], value from memory")
COLOUR = noop("mired [MIRED]; what cloth and power do is a value from memory [COLOUR-DRIFT]")


def ground(solved: Solved, at: str) -> Iterator[Reason]:
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
            "way": _("over") if reading > 0 else _("under"),
            "lightness": f"{g.lightness:.0f}",
            "low": f"{g.wanted[0]:.0f}",
            "high": f"{g.wanted[1]:.0f}",
        },
    )


def behind_it_all(solved: Solved, meter: Meter, at: str) -> Iterator[Reason]:
    """Why of all that stands behind the sitter, in the order it is built, and of the flags and colours."""
    yield from _shared_fill(solved, meter, at)
    yield from accent(solved, meter, at)
    yield from ground(solved, at)
    yield from _glow(solved, meter, at)
    yield from _flags(solved, meter)
    yield from _colours(solved)


def _shared_fill(solved: Solved, meter: Meter, at: str) -> Iterator[Reason]:
    """Why there is a second fill: what the first would leave alone, and what both make."""
    fills = solved.by_role("fill")
    if len(fills) < 2:
        return
    alone = replace(meter, solved=replace(solved, lights=(solved.lights[0], fills[0])))
    key = meter.direct(solved.lights[0])
    left, both = (
        min(MOST_BELOW_STOPS, float(np.log2(key / max(m.setting() - key, 1e-9 * key)))) for m in (alone, meter)
    )
    values = {"letter": fills[1].letter, "first": fills[0].letter, "alone": f"{left:.1f}", "level": f"{both:.1f}"}
    yield Reason(light_path(fills[1]), "fill_shared", (f"{at}.intent", "kit.heads"), OPTICS, values)


def _level(solved: Solved, meter: Meter, light: Light) -> str:
    """Stops that an accent reads under the key at its own place, without bounce."""
    assert light.emitter is not None
    aim = np.array(light.aim)
    strength = float(np.linalg.norm(light.emitter.vector(aim, light.at, light.axis))) * 2.0**-light.power_stops
    level = float(np.log2(meter.direct(solved.lights[0]) / strength))
    return f"{float(round_to(level, 0.1)):.1f}"


def accent(solved: Solved, meter: Meter, at: str) -> Iterator[Reason]:
    lights, targets = solved.by_role("accent"), solved.targets
    for number, light in enumerate(lights):
        hair = on_hair(light, solved.mark_eyes)
        what = _("the hair") if hair else _("the shadow side") if number == 0 else _("the lit side")
        values = {"level": _level(solved, meter, light), "what": what}
        code = "accent_second" if number else "accent"
        values |= {"letter": light.letter} if number else {}
        yield Reason(light_path(light), code, (f"{at}.intent",), TRADE, values)
        gloss = {"letter": light.letter, "gloss": f"{behind.gloss_stops(light, solved):.1f}"}
        yield Reason(light_path(light), "accent_gloss", (f"{at}.intent",), GLOSS, gloss)
        lift = behind.lens_lift_stops(light, solved.camera, meter.setting(), solved.flags)
        if not any(behind.on_nose(light, s) > 0 for s in solved.pose.together):
            clear = {"letter": light.letter, "lift": _about(lift)}
            yield Reason(light_path(light), "accent_clear", (f"{at}.intent",), VEIL, clear)
    if lights:
        return
    if targets.no_accent in ("bald", "white_hair", "shine", "infant"):
        yield Reason("lights", f"no_accent_{targets.no_accent}", (), TRADE)
    elif targets.accent_band is not None and solved.notes.get("accent_left_out"):
        yield Reason("lights", "no_accent_spill", (), OPTICS)
    elif targets.accent_band is not None:
        yield Reason("lights", "no_accent_kit", (), TRADE)


def _about(stops: float) -> str:
    return _("about {stops}").format(stops=f"{stops:.1f}") if stops >= 0.1 else _("less than 0.1")


def _glow(solved: Solved, meter: Meter, at: str) -> Iterator[Reason]:
    hung, path = solved.ground, (f"{at}.background_tone",)
    assert hung is not None
    if len(solved.by_role("background")) > 1:
        spread = float(round_to(hung.spread_stops, 0.1))
        yield Reason("background", "ground_pair", path, OPTICS, {"spread": f"{spread:.1f}"})
    if hung.reading_above_setting > BRIGHT_STOPS:
        found = glow.printed(meter)
        if found["back_below_face_stops"] > 0:
            values = {
                "back": f"{found['back_below_face_stops']:.1f}",
                "wrap": f"{found['wrap_below_key_stops']:.1f}",
                "lift": f"{found['black_lift_stops']:.1f}",
            }
            yield Reason("expected.ground", "ground_glow", path, VEIL, values)


def _flags(solved: Solved, meter: Meter) -> Iterator[Reason]:
    hung, setting = solved.ground, meter.setting()
    assert hung is not None
    for number, flag in enumerate(solved.flags, start=len(solved.blocks)):
        light = next(x for x in solved.lights if x.letter == flags.letter(flag, solved.lights))
        before = behind.lens_lift_stops(light, solved.camera, setting)
        after = behind.lens_lift_stops(light, solved.camera, setting, solved.flags)
        values = {
            "item": flag.item.id,
            "distance": f"{flag.distance_m:.1f}",
            "letter": light.letter,
            "before": f"{before:.1f}",
            "after": f"{after:.1f}",
            "lightness": f"{hung.lightness:.0f}",
        }
        path = "kit.panels" if isinstance(flag.item, Panel) else "kit.flags"
        yield Reason(f"blocks[{number}]", f"flag_{flag.keeps}", (path,), OPTICS, values)


def _colours(solved: Solved) -> Iterator[Reason]:
    key = solved.lights[0]
    for light in solved.lights[1:]:
        off, drift = colours.warmer_mired(light, key), colours.drift_mired(light, key)
        if abs(off) > colour.SEEN_MIRED + 0.5:
            values = {
                "letter": light.letter,
                "mired": f"{abs(off):.0f}",
                "way": _("warmer") if off > 0 else _("bluer"),
                "shift": f"{colours.shift_k(light, key):+.0f}",
                "seen": f"{colour.SEEN_MIRED:.0f}",
            }
            yield Reason(light_path(light), "colour_differs", ("kit.heads",), COLOUR, values)
        elif light.role == "fill" and light.emitter and drift >= 1 and abs(off) + drift > colour.SEEN_MIRED + 0.5:
            apart = abs(light.power_stops - key.power_stops)
            values = {"mired": f"{abs(off):.0f}", "apart": f"{apart:.1f}", "drift": f"{drift:.0f}"}
            values["letter"] = light.letter
            yield Reason(light_path(light), "colour_drift", ("kit.heads",), COLOUR, values)
