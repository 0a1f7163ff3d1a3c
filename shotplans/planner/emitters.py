"""Heads with the modifiers they can carry, as sources of light: output, size, beam, mass; and panels as mirrors of it.

An `Emitter` knows its light at any point of the set; it does not know where it stands (a `Light` in plan.py does).
Exposures are lx s for flash and lx for steady light, per full power.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import heads as heads_light
from shotplans.light import sources
from shotplans.light.units import unit
from shotplans.planner import kit as owned

F = NDArray[np.float64]
HEAD_LENGTH_M = 0.30  # a head behind its modifier; value from memory


@dataclass(frozen=True)
class Emitter:
    """One head with one modifier. Sizes in metres, mass in kg, `exposure_1m` on the axis at full power."""

    head: owned.Head
    modifier: owned.Modifier
    adapter: str | None
    exposure_1m: float
    uncertainty_stops: float

    @property
    def steady(self) -> bool:
        return self.head.light == "steady"

    @property
    def mass_kg(self) -> float:
        return float(self.head.mass_kg + self.modifier.mass_kg)

    @property
    def disc(self) -> bool:
        return self.modifier.shape == "disc"

    @property
    def width_m(self) -> float:
        return float((self.modifier.diameter_m if self.disc else self.modifier.width_m) or 0.0)

    @property
    def height_m(self) -> float:
        return float((self.modifier.diameter_m if self.disc else self.modifier.height_m) or 0.0)

    @property
    def core_share(self) -> float:
        """Size of the uniform source of equal second moment, as a share of the front's size."""
        core = float(self.modifier.core_stops or 0.0)
        return float(sources.hot_core_diameter(1.0, core))

    @property
    def disc_size_m(self) -> float:
        """Diameter of the disc of equal second moment: what the face sees as the size of the source."""
        if self.disc:
            return self.width_m * self.core_share
        # a rectangle's second moment along a mean direction is (w^2 + h^2)/24, a disc's D^2/16
        return float(np.sqrt((self.width_m**2 + self.height_m**2) * 2.0 / 3.0)) * self.core_share

    @property
    def area_m2(self) -> float:
        return float(np.pi / 4 * self.width_m**2 if self.disc else self.width_m * self.height_m)

    @property
    def factor_1m(self) -> float:
        if self.disc:
            return float(sources.disc_factor(1.0, self.width_m))
        return float(sources.rect_factor(1.0, self.width_m, self.height_m))

    @property
    def radiance(self) -> float:
        """Exposure per steradian at full power: the source as a uniform Lambertian front."""
        return self.exposure_1m / (np.pi * self.factor_1m)

    @property
    def beam_deg(self) -> float:
        return min(175.0, max(2.0, float(self.modifier.beam_deg or 120.0)))

    @property
    def depth_m(self) -> float:
        """From the front of the modifier to the back of the head."""
        return float(self.modifier.depth_m or 0.1) + HEAD_LENGTH_M

    @property
    def flux(self) -> float:
        """Light leaving the front at full power, in exposure x m2 (for the room's bounce)."""
        flux = self.radiance * self.area_m2 * float(heads_flux(self.beam_deg))
        grid = self.modifier.grid_deg
        if grid is None:
            return flux
        # A grid cuts the flux to the cone it leaves: share of a Lambertian flux inside half the cut-off angle, halved
        # because the grid's own transmission falls in a straight line to the edge.
        return flux * float(np.sin(np.radians(min(90.0, grid / 2))) ** 2) * 0.5

    def vector(self, points: F, centre: F, axis: F) -> F:
        """Vector exposure (..., 3) at points from this emitter at full power; points against centres broadcast."""
        seen = self._seen(points, centre, axis)
        toward = unit(points - centre)
        off = np.clip(np.sum(toward * axis, axis=-1), 0.0, 1.0)
        gain = sources.beam_gain(off, self.beam_deg, self.modifier.grid_deg)
        lip = float(self.modifier.lip_m or 0.0)
        if lip:
            # A recessed front hides behind its lip: the part seen shrinks with the tangent of the angle off axis.
            tan = np.sqrt(np.clip(1 - off**2, 0, 1)) / np.maximum(off, 1e-6)
            gain = gain * np.clip(1 - lip * tan / max(self.width_m, 1e-6), 0.0, 1.0)
        return np.asarray(self.radiance * gain[..., None] * seen, dtype=np.float64)

    def _seen(self, points: F, centre: F, axis: F) -> F:
        if self.disc:
            return np.asarray(sources.disc_vector(points, centre, axis, self.width_m), dtype=np.float64)
        return np.asarray(sources.rect_vector(points, centre, axis, self.width_m, self.height_m), dtype=np.float64)

    def plane(self, point: F, normal: F, centre: F, axis: F) -> float:
        """Exposure of one facet at full power, the front cut by the facet's own horizon."""
        if self.disc:
            seen = float(sources.disc_irradiance(point, normal, centre, axis, self.width_m))
        else:
            seen = float(sources.rect_irradiance(point, normal, centre, axis, self.width_m, self.height_m))
        whole = float(np.linalg.norm(self.vector(point, centre, axis)))
        bare = float(np.linalg.norm(self._seen(point, centre, axis)))
        return self.radiance * seen * (whole / (self.radiance * bare) if bare > 0 else 0.0)

    def alpha(self, distance_m: F | float) -> F:
        """Angular radius in radians seen from a distance in metres."""
        return np.asarray(np.arctan(self.disc_size_m / (2 * np.asarray(distance_m, dtype=np.float64))))


def heads_flux(beam_deg: float) -> float:
    """Flux over axial intensity of a beam, steradian (sources.flux_over_axis)."""
    return float(sources.flux_over_axis(beam_deg))


def emitters(
    kit: owned.Kit,
    corrections: Iterable[owned.Correction],
    *,
    steady: bool,
    heads: Iterable[owned.Head] | None = None,
    modifiers: Iterable[owned.Modifier] | None = None,
    adapters: Iterable[owned.Adapter] | None = None,
    any_heat: bool = False,
) -> list[Emitter]:
    """Every head and modifier that mount together, by the same mount or an owned ring; equal pairs appear once.

    `heads`, `modifiers`, `adapters` narrow the kit to what is still free; the first of equal things is taken.
    """
    known = {(c.head, c.modifier): c for c in corrections}
    rings = list(kit.adapters if adapters is None else adapters)
    found: list[Emitter] = []
    seen: set[tuple[object, ...]] = set()
    for head in kit.heads if heads is None else heads:
        if (head.light == "steady") != steady:
            continue
        for modifier in kit.modifiers if modifiers is None else modifiers:
            ring = None
            if not any_heat and too_hot(head, modifier):
                continue
            if head.mount != modifier.mount:
                ring = next((r.id for r in rings if r.from_ == head.mount and r.to == modifier.mount), None)
                if ring is None:
                    continue
            correction = known.get((head.id, modifier.id))
            same = (
                _spec(head),
                _spec(modifier),
                ring is None,
                (correction.offset_stops, correction.standard_error_stops) if correction else None,
            )
            if same not in seen:
                seen.add(same)
                found.append(_emitter(head, modifier, ring, correction))
    return found


def too_hot(head: owned.Head, modifier: owned.Modifier) -> bool:
    """Whether a steady lamp gives more watts than the modifier bears; a flash's modelling lamp is turned down."""
    limit = modifier.max_modelling_watts
    return head.light == "steady" and limit is not None and float(head.watts or 0.0) > limit


def _spec(thing: owned.Head | owned.Modifier) -> str:
    return thing.model_dump_json(exclude={"id", "label"})


def _emitter(
    head: owned.Head, modifier: owned.Modifier, ring: str | None, correction: owned.Correction | None
) -> Emitter:
    if head.light == "steady":
        rated = float(head.lux_1m or 0.0) * 2.0 ** -float(modifier.loss_stops)
    else:
        rated = float(heads_light.flash_exposure_1m_lxs(float(head.f_number_1m_iso100 or 0.0), modifier.loss_stops))
    offset, error = 0.0, 0.3  # an uncorrected pair is good to about a third of a stop: common practice
    if correction is not None:
        offset = float(correction.offset_stops)
        # What the readings leave open, with a floor for setting the same light up again.
        error = float(np.hypot(correction.standard_error_stops, 0.1))
    return Emitter(head, modifier, ring, rated * 2.0**offset, error)
