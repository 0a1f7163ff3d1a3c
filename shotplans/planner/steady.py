"""Steady heads that may flicker: what the mains would do to frames at the shutter used, and which times are safe."""

from __future__ import annotations

from collections.abc import Sequence

from shotplans.light import exposure, flicker
from shotplans.planner.plan import Solved
from shotplans.planner.room import Circuit
from shotplans.planner.words import joined

# Of a lamp not known to be steady: a tube on a simple ballast. Glow lamps have 0.1, poor drivers 1; values from memory.
DEPTH = 0.35
LOW_VOLTS = 150.0  # mains under this run at 60 Hz nearly everywhere, above it at 50: value from memory
LONGEST_S = 1 / 20
SHOWN = 3


def mains_hz(circuits: Sequence[Circuit]) -> float:
    """50 or 60, by the volts of the room's circuits; 50 where none is known."""
    return 60.0 if circuits and max(c.volts for c in circuits) < LOW_VOLTS else 50.0


def in_frames(solved: Solved) -> dict[str, str]:
    """The most that frames may differ at the set-up's shutter if a lamp flickers, and times at which they do not."""
    circuits: Sequence[Circuit] = solved.notes["circuits"]  # type: ignore[assignment]
    hz = mains_hz(circuits)
    swing = float(flicker.swing_stops(solved.camera.shutter_s, DEPTH, 2 * hz))
    safe = [f"1/{1 / t:.0f}" for t in flicker.safe_shutters_s(2 * hz, LONGEST_S)[:SHOWN]]
    return {
        "depth": f"{100 * DEPTH:.0f}",
        "mains": f"{hz:.0f}",
        "shutter": exposure.shutter_label(solved.camera.shutter_s),
        "swing": f"{swing:.1f}",
        "safe": joined.one_of(safe),
    }
