"""Daylight in a plan: what windows without blinds add to the room, and what one would give instead of a flash.

The overcast sky and the glass are assumptions of `light.windows`; where a window's size is not known, one 1.2 m wide
and 1.2 m high is taken. What hangs before a window in the street is not known and not reckoned with.
"""

from __future__ import annotations

from shotplans.light import bounce, exposure, windows
from shotplans.light.units import round_to
from shotplans.planner.room import Room, Window
from shotplans.planner.space import reflectances

USUAL_M = 1.2  # a side of a window whose size is not known: common practice, no source
BEFORE_M = 1.5  # a face before the window: near enough for light, far enough that the sky is what it sees
SHUTTER_S, ISO = 1 / 125, 800.0  # a shutter that holds a seated sitter still, an ISO that prints well: common practice


def windows_lux(room: Room) -> float:
    """Mean light that the windows add to the room's surfaces, in lux; none behind blinds."""
    if room.black_out or not room.windows:
        return 0.0
    area, rho = _surface(room)
    glass = sum(width * height for width, height in map(_size_m, room.windows))
    return float(windows.room_lx(glass, area, min(rho, 0.95)))


def ambient_lux(room: Room) -> float:
    """The room's own light: its lamps and its windows; none where it is blacked out."""
    return 0.0 if room.black_out else float(room.ambient_lux or 0.0) + windows_lux(room)


def by_a_window(room: Room) -> dict[str, object]:
    """What a face before the room's largest window gets, blinds up, as an aperture at a shutter and an ISO."""
    width, height = max(map(_size_m, room.windows), key=lambda s: s[0] * s[1], default=(USUAL_M, USUAL_M))
    lux = float(windows.illuminance_lx(BEFORE_M, width, height))
    number = float(exposure.f_number_for(lux * SHUTTER_S, ISO))
    return {
        "window": f"{width:g} x {height:g} m",
        "distance": f"{BEFORE_M:g}",
        "lux": f"{round_to(lux, 50):.0f}",
        "aperture": exposure.nearest_third(number)[0],
        "shutter": exposure.shutter_label(SHUTTER_S),
        "at_iso": f"{ISO:g}",
        "doubt": f"{windows.UNCERTAINTY_STOPS:g}",
    }


def _size_m(window: Window) -> tuple[float, float]:
    return float(window.width_m or USUAL_M), float(window.height_m or USUAL_M)


def _surface(room: Room) -> tuple[float, float]:
    return bounce.surface(room.width_m, room.depth_m, room.ceiling_m, *reflectances(room))
