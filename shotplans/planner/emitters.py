"""One head with one modifier as a source of light: output, size, beam, mass.

An `Emitter` knows its light at any point of the set; it does not know where it stands (a `Light` in plan.py does),
nor what else it could be mounted with (pairs.py).
Exposures are lx s for flash and lx for steady light, per full power.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shotplans.light import beams, photometry, sources
from shotplans.light.units import unit
from shotplans.light.vectors import dot
from shotplans.planner import kit as owned

F = NDArray[np.float64]
KEPT, KEPT_POINTS = 64, 30  # answers an emitter keeps, and to how many points at most
HEAD_LENGTH_M = 0.30  # a head behind its modifier; value from memory
# Light that leaves backwards, as a share of what leaves forwards: a thin white cloth sends back about as much as it
# lets through, a lined umbrella leaks at its rim, a ball of cloth shines all round. Common practice, no source, and
# sure to a factor of two; the room's bounce is no surer.
SPILL = {"umbrella_through": 0.6, "umbrella_back": 0.15, "lantern": 0.8}
CLOSED_SPILL = 0.05  # an umbrella turned away, closed with a front cloth: common practice, no source


@dataclass(frozen=True)
class Emitter:
    """One head with one modifier. Sizes in metres, mass in kg, `exposure_1m` on the axis at full power.

    `roll_deg` is 0 as the modifier is owned, 90 turned about its axis; width lies level and height upright as it hangs.
    """

    head: owned.Head
    modifier: owned.Modifier
    adapter: str | None
    exposure_1m: float
    uncertainty_stops: float
    roll_deg: float = 0.0
    measured: tuple[float, ...] | None = None  # its beam from a laboratory's file, in place of width, grid and lip

    @property
    def steady(self) -> bool:
        return self.head.light == "steady"

    @property
    def mass_kg(self) -> float:
        return float(self.head.mass_kg + self.modifier.mass_kg)

    @cached_property
    def disc(self) -> bool:
        return self.modifier.shape == "disc"

    @cached_property
    def _sides(self) -> tuple[float, float]:
        width, height = self.modifier.size_m
        return (height, width) if self.roll_deg else (width, height)

    @property
    def width_m(self) -> float:
        return float(self._sides[0])

    @property
    def height_m(self) -> float:
        return float(self._sides[1])

    @property
    def core_stops(self) -> float:
        return float(self.modifier.core_stops or 0.0)

    @cached_property
    def even_sides(self) -> tuple[float, float]:
        """Width and height of the evenly bright front of equal second moment: what a hot middle leaves of the size."""
        if self.disc:
            across = float(sources.hot_core_diameter(self.width_m, self.core_stops))
            return across, across
        width, height = self._sides
        return beams.hot_core_side(width, self.core_stops), beams.hot_core_side(height, self.core_stops)

    @cached_property
    def disc_size_m(self) -> float:
        """Diameter of the disc of equal second moment: what the face sees as the size of the source."""
        width, height = self.even_sides
        return width if self.disc else sources.disc_like_rect_m(width, height)

    @property
    def glare_size_m(self) -> float:
        """The disc a front is taken for when looking for its reflection in a lens."""
        return glare_size_m(self.width_m, self.height_m, disc=self.disc)

    @cached_property
    def area_m2(self) -> float:
        """Area of the even front that stands for this one."""
        width, height = self.even_sides
        return float(np.pi / 4 * width**2 if self.disc else width * height)

    @cached_property
    def factor_1m(self) -> float:
        return float(self.factor(np.asarray(1.0)))

    def factor(self, distance_m: F) -> F:
        """Configuration factor of the front on its axis."""
        width, height = self.even_sides
        if self.disc:
            return sources.disc_factor(distance_m, width)
        return sources.rect_factor(distance_m, width, height)

    @cached_property
    def radiance(self) -> float:
        """Exposure per steradian at full power: the source as a uniform Lambertian front."""
        return self.exposure_1m / (np.pi * self.factor_1m)

    @property
    def beam_deg(self) -> float:
        if self.measured is not None:
            return photometry.measured_width_deg(self.measured)
        return min(175.0, max(2.0, float(self.modifier.beam_deg or 120.0)))

    @property
    def grid_deg(self) -> float | None:
        """The cut-off of a grid that is reckoned with; a measured beam has its grid in it."""
        return None if self.measured is not None else self.modifier.grid_deg

    @property
    def depth_m(self) -> float:
        """From the front of the modifier to the back of the head."""
        return float(self.modifier.depth_m or 0.1) + HEAD_LENGTH_M

    @cached_property
    def flux_ahead(self) -> float:
        """Light that leaves the front at full power, in exposure x m2."""
        if self.measured is not None:
            return self.radiance * self.area_m2 * photometry.measured_flux_over_axis(self.measured)
        return self.radiance * self.area_m2 * beams.flux_over_axis(self.beam_deg, self.grid_deg)

    @property
    def spill(self) -> float:
        """Light that leaves backwards, as a share of what leaves the front."""
        if self.modifier.kind == "umbrella_back" and self.modifier.outer_cloth:
            return CLOSED_SPILL
        return SPILL.get(self.modifier.kind, 0.0)

    @property
    def flux(self) -> float:
        """All the light this puts into the room at full power, in exposure x m2 (for the room's bounce)."""
        return self.flux_ahead * (1 + self.spill)

    def on_axis(self, distance_m: F) -> F:
        """Exposure square to the axis at distances from the front: where it is aimed."""
        return np.asarray(np.pi * self.radiance * self.factor(distance_m), dtype=np.float64)

    def vector(self, points: F, centre: F, axis: F) -> F:
        """Vector exposure (..., 3) at points from this emitter at full power; points against centres broadcast.

        Of one place and few points it is kept, not to be written to: every number of a set asks for the same ones, and
        a light that stays where it is while another is dragged lights them as before.
        """
        if centre.ndim > 1 or points.size > 3 * KEPT_POINTS:
            return self._vector(points, centre, axis)
        key = (points.shape, points.tobytes(), centre.tobytes(), axis.tobytes())
        found = self._kept.get(key)
        if found is None:
            found = self._vector(points, centre, axis)
            found.flags.writeable = False
            if len(self._kept) >= KEPT:
                self._kept.clear()
            self._kept[key] = found
        return found

    @cached_property
    def _kept(self) -> dict[tuple[object, ...], F]:
        return {}

    def _vector(self, points: F, centre: F, axis: F) -> F:
        seen = self._seen(points, centre, axis)
        toward = unit(points - centre)
        off = np.clip(dot(toward, axis), 0.0, 1.0)
        gain = self._gain(toward, axis, off)
        ahead = np.asarray(self.radiance * gain[..., None] * seen, dtype=np.float64)
        if not self.spill or bool((dot(points - centre, axis) >= 0).all()):
            return ahead
        # The spill as an even front that looks the other way: how it is spread is not known.
        back = self.spill * self.flux_ahead / (np.pi * self.area_m2)
        return np.asarray(ahead + back * self._seen(points, centre, -axis), dtype=np.float64)

    def _gain(self, toward: F, axis: F, off: F) -> F:
        """Factor on an even front in a direction `off` (a cosine) from the axis."""
        if self.measured is not None:
            return photometry.measured_gain(off, self.measured)
        gain = beams.beam_gain(off, self.beam_deg, self.grid_deg)
        lip = float(self.modifier.lip_m or 0.0)
        return gain * self._past_lip(lip, toward, axis, off) if lip else gain

    def turned_stops(self, before_deg: float, after_deg: float) -> float:
        """Stops a place gains or loses when the front is turned, so that it lies so far off the axis instead."""
        if self.measured is not None:
            before, after = photometry.measured_share([before_deg, after_deg], self.measured)
            with np.errstate(divide="ignore", invalid="ignore"):  # minus infinity where it leaves nothing
                return float(np.log2(after / before))
        return float(beams.feather_stops(before_deg, after_deg, self.beam_deg, self.grid_deg))

    def _past_lip(self, lip: float, toward: F, axis: F, off: F) -> F:
        """Share of the front seen past its lip in a direction `off` (a cosine) from the axis."""
        safe = np.maximum(off, 1e-6)
        if self.disc:
            return beams.lip_share_disc(np.sqrt(np.clip(1 - off**2, 0.0, 1.0)) / safe, lip, self.width_m)
        across, up = sources.panel_axes(axis)
        level, upright = dot(toward, across) / safe, dot(toward, up) / safe
        return beams.lip_share_rect(level, upright, lip, self.width_m, self.height_m)

    def _seen(self, points: F, centre: F, axis: F) -> F:
        width, height = self.even_sides
        if self.disc:
            return np.asarray(sources.disc_vector(points, centre, axis, width), dtype=np.float64)
        return np.asarray(sources.rect_vector(points, centre, axis, width, height), dtype=np.float64)

    def plane(self, point: F, normal: F, centre: F, axis: F) -> float:
        """Exposure of one facet at full power, the front cut by the facet's own horizon."""
        width, height = self.even_sides
        if self.disc:
            seen = float(sources.disc_irradiance(point, normal, centre, axis, width))
        else:
            seen = float(sources.rect_irradiance(point, normal, centre, axis, width, height))
        whole = float(np.linalg.norm(self.vector(point, centre, axis)))
        bare = float(np.linalg.norm(self._seen(point, centre, axis)))
        return self.radiance * seen * (whole / (self.radiance * bare) if bare > 0 else 0.0)

    def alpha(self, distance_m: F | float) -> F:
        """Angular radius in radians seen from a distance in metres."""
        return np.asarray(np.arctan(self.disc_size_m / (2 * np.asarray(distance_m, dtype=np.float64))))

    def alpha_on(self, normal: F, toward: F, distance_m: F, axis: F) -> F:
        """Angular radius in radians that relief on skin with unit `normal` goes by, seen along `toward` (to the light).

        A round front has one radius; one with sides has that of its extent in the plane of incidence [LIGHT-3].
        """
        return self.alpha(distance_m) if self.disc else alpha_of_rect(self.even_sides, axis, normal, toward, distance_m)


def glare_size_m(width_m: float, height_m: float, *, disc: bool) -> float:
    """The disc (m) a front is taken for when looking for its reflection: the larger side of a rectangle, nearly."""
    return width_m if disc else 0.9 * max(width_m, height_m)


def alpha_of_rect(sides: tuple[float, float], axis: F, normal: F, toward: F, distance_m: F) -> F:
    """Angular radius in radians of an even front of width and height `sides`, in the plane of incidence on a normal."""
    across, up = sources.panel_axes(axis)
    radius = beams.radius_in_plane(across * sides[0] / 2, up * sides[1] / 2, toward, normal)
    return np.asarray(np.arctan(radius / distance_m), dtype=np.float64)
