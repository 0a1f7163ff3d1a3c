"""Colour temperature of each light against the key: its head, and the cloths of its modifier.

A white panel sends back the colour it gets. What a head drifts with its power is not known until it is read, so it is
no part of the shift. Limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from shotplans.light import colour
from shotplans.light.units import round_to
from shotplans.planner.plan import Light, Solved
from shotplans.planner.problem import Problem
from studio.tongue import gettext as _

DEFAULT_K = 5600.0  # stands where a kit does not say; the same as in gaps.py
STEP_K = 10.0


def kelvin(light: Light) -> float | None:
    """Colour temperature at the sitter, or None for a panel, which has none of its own."""
    if light.emitter is None:
        return None
    modifier = light.emitter.modifier
    cloths = int(bool(modifier.inner_cloth)) + int(bool(modifier.outer_cloth))
    head = float(light.emitter.head.kelvin or DEFAULT_K)
    return float(colour.shifted_kelvin(head, colour.cloth_mired(cloths)))


def warmer_mired(light: Light, key: Light) -> float:
    """Mired by which a light is warmer (+) or bluer (-) than the key; 0 for a white panel."""
    own, keys = kelvin(light), kelvin(key)
    return 0.0 if own is None or keys is None else float(colour.warmer_mired(own, keys))


def shift_k(light: Light, key: Light) -> float:
    """Kelvin over (+, bluer) or under (-, warmer) the key, to 10 K; 0 for a white panel."""
    own, keys = kelvin(light), kelvin(key)
    return 0.0 if own is None or keys is None else float(round_to(own - keys, STEP_K)) + 0.0


def drift_mired(light: Light, key: Light) -> float:
    """Width of what the powers may add to the difference, for lights of one make of head; 0 for steady ones."""
    if light.emitter is None or key.emitter is None or light.emitter.steady:
        return 0.0
    head = light.emitter.head
    apart = light.power_stops - key.power_stops
    return float(colour.power_spread_mired(float(head.kelvin or DEFAULT_K), apart, head.range_stops))


def problems(solved: Solved) -> Iterator[Problem]:
    """A fill whose colour differs plainly from the key's, on the same face."""
    key = solved.lights[0]
    for light in solved.by_role("fill"):
        off = warmer_mired(light, key)
        if abs(off) > colour.PLAIN_MIRED:
            yield Problem(
                None,
                "colour",
                round(abs(off) - colour.SEEN_MIRED, 0),
                "mired",
                "fill_colour",
                {
                    "letter": light.letter,
                    "mired": f"{abs(off):.0f}",
                    "way": _("warmer") if off > 0 else _("bluer"),
                    "cure": _("bluer") if off > 0 else _("warmer"),
                    "limit": f"{colour.PLAIN_MIRED:.0f}",
                },
            )
