"""Why the ground and the accents are as they are. Called by reasons.py."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from shotplans.light.units import round_to
from shotplans.planner.expect import Meter
from shotplans.planner.plan import Solved
from shotplans.planner.reason import OPTICS, TRADE, Reason, light_path


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
            "way": "over" if reading > 0 else "under",
            "lightness": f"{g.lightness:.0f}",
            "low": f"{g.wanted[0]:.0f}",
            "high": f"{g.wanted[1]:.0f}",
        },
    )


def accent(solved: Solved, meter: Meter, at: str) -> Iterator[Reason]:
    light, targets = solved.light("accent"), solved.targets
    if light is not None and light.emitter is not None:
        aim = np.array(light.aim)
        strength = float(np.linalg.norm(light.emitter.vector(aim, light.at, light.axis))) * 2.0**-light.power_stops
        level = float(np.log2(meter.direct(solved.lights[0]) / strength))
        what = "the hair" if targets.row.accent_kind == "hair" else "the shadow side"
        yield Reason(
            light_path(light),
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
