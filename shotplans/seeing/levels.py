"""The setting reading at many places at once, in stops: what `planner.readings.reading` says one place at a time.

Belongs here: the same sums over arrays of points. Not here: drawing, or where a meter is held on set.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shotplans.light import metering
from shotplans.light.vectors import dot, scaled_to_one
from shotplans.planner.expect import Meter
from shotplans.planner.plan import Light
from shotplans.planner.readings import bounce_plane, direct, panel_radiance, panel_vector

F = NDArray[np.float64]


def setting(meter: Meter, points: F) -> F:
    """Exposure (n,) of key, fill, panels and bounce on the dome at points (n, 3), metres of the set.

    The unit of the lights (lx s for flash, lx steady). Equal to `Meter.setting` at every point; the dome is turned to
    camera or key as the house holds it. Sources: [LIGHT-4] for the dome, [HOWELL] and [LAMBERT] for the fronts.
    """
    solved = meter.solved
    even = bounce_plane(meter.lights, solved.box, solved.blocks)
    total = np.full(len(points), even if meter.recessed else float(metering.dome_uniform(even)))
    toward = solved.lights[0].at if meter.at_key else solved.camera.at
    axes = scaled_to_one(toward - points)
    for light in meter.lights:
        total += _domed(direct(light, points), light, points, axes, meter.recessed)
    for panel in meter.panels:
        vector = panel_vector(panel, panel_radiance(panel, meter.lights, even), points)
        total += _domed(vector, panel, points, axes, meter.recessed)
    return total


def alone(meter: Meter, light: Light, points: F) -> F:
    """Exposure (n,) of one headed light on the dome at points (n, 3), without the room. As `Meter.direct`."""
    toward = meter.solved.lights[0].at if meter.at_key else meter.solved.camera.at
    return _domed(direct(light, points), light, points, scaled_to_one(toward - points), meter.recessed)


def _domed(vector: F, light: Light, points: F, axes: F, recessed: bool) -> F:
    strength = np.sqrt(dot(vector, vector))
    lit = strength > 0
    cos = np.clip(dot(vector, axes) / np.where(lit, strength, 1.0), -1.0, 1.0)
    away = light.at - points
    far = np.maximum(np.sqrt(dot(away, away)), 1e-6)
    alpha = np.arctan(light.disc_size_m / (2 * far))
    read = metering.recessed_reading if recessed else metering.dome_reading
    found: F = np.where(lit, read(cos, strength, alpha), 0.0)
    return found
