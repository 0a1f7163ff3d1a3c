"""How sure each expected reading is, what that is made of, and which reading would teach the most.

Parts, each a standard uncertainty in stops, taken as independent: the output of each head with its modifier (0.3
until readings correct it), its dial (a step over the square root of twelve), where each light stands (5 cm and 5
degrees, what a person can set), where the dome points (5 degrees), and the room's bounce (0.5 stop on its share). They
are carried through the reading by differences and added as squares (textbook, from memory). The meter's own error is
not in them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light.bounce import UNCERTAINTY_STOPS
from shotplans.light.metering import dome_reading, dome_uniform, recessed_reading
from shotplans.light.units import direction, unit
from shotplans.planner.dial import ladder
from shotplans.planner.plan import Light, Solved
from shotplans.planner.readings import blocked, bounce_plane, direct, panel_radiance, panel_vector
from shotplans.planner.steps import Step

F = NDArray[np.float64]
PLACED_M, PLACED_DEG, DOME_DEG = 0.05, 5.0, 5.0
EVEN_SPREAD = 12.0**-0.5  # standard deviation of a step's even spread, in steps (textbook)
LEAST_STOPS = 0.1  # nothing here is known better than the tenth it is shown to
PARTS = ("output", "placement", "bounce", "dial")


@dataclass(frozen=True)
class Spread:
    """What moves some readings: `by` (readings, causes) in stops for one standard deviation of each cause.

    `cause` names the part of each column, `whose` the letter of its light (empty for the room); `own` (readings) is
    what is new at every reading, the pointing of the dome.
    """

    by: F
    cause: tuple[str, ...]
    whose: tuple[str, ...]
    own: F

    def part(self, name: str) -> F:
        """One part of each reading's uncertainty, stops."""
        mine = [n for n, cause in enumerate(self.cause) if cause == name]
        squares = (self.by[:, mine] ** 2).sum(axis=1)
        return np.asarray(np.sqrt(squares + (self.own**2 if name == "placement" else 0.0)))

    def total(self) -> F:
        """Each reading's standard uncertainty, stops: the root of the sum of the squares of its parts (textbook)."""
        return np.asarray(np.sqrt((self.by**2).sum(axis=1) + self.own**2))


def printed(spread: Spread) -> list[dict[str, object]]:
    """`uncertainty_stops`, rounded up to a tenth, and its parts to a hundredth, for each reading."""
    total, parts = spread.total(), {name: spread.part(name) for name in PARTS}
    return [
        {
            "uncertainty_stops": shown(float(total[n])),
            "uncertainty_parts": {name: round(float(parts[name][n]), 2) + 0.0 for name in PARTS},
        }
        for n in range(len(total))
    ]


def shown(stops: float) -> float:
    """A standard uncertainty as printed: up to the next tenth."""
    return max(LEAST_STOPS, round(float(np.ceil(stops * 10 - 1e-6)) / 10, 1))


def spread(solved: Solved, taken: Sequence[Step]) -> Spread:
    """What every cause does to every reading of a set, each pushed by one standard deviation."""
    table = _Table(solved, taken)
    columns: list[tuple[str, str, F]] = []
    for light in (x for x in solved.lights if x.emitter):
        assert light.emitter is not None
        share = table.share(light)
        columns.append(("output", light.letter, share * light.emitter.uncertainty_stops))
        columns.append(("dial", light.letter, share * dial_step_stops(light) * EVEN_SPREAD))
        columns += [("placement", light.letter, table.moved(light, other)) for other in _displaced(solved, light)]
    for panel in table.panels:
        columns += [("placement", panel.letter, table.moved(panel, other)) for other in _displaced(solved, panel)]
    columns.append(("bounce", "", UNCERTAINTY_STOPS * table.bounce / table.value))
    return Spread(
        np.stack([c for _, _, c in columns], axis=1),
        tuple(cause for cause, _, _ in columns),
        tuple(whose for _, whose, _ in columns),
        table.pointed(),
    )


def teaches_most(taken: Sequence[Step], found: Spread) -> tuple[int, float, float] | None:
    """The reading of one light alone that teaches most: its place in the round, the setting's doubt before and after.

    Taught is how far the variances of the setting reading and of all other readings fall once this one is known: for
    jointly normal errors, cov squared over the variance read. Readings of several lights are left out: they cannot say
    which of their lights is off. None where no reading of one light is taken.
    """
    covariance = found.by @ found.by.T
    variance = np.diag(covariance) + found.own**2
    set_at = next(n for n, s in enumerate(taken) if s.kind == "setting")
    taught = covariance**2 / np.maximum(variance, 1e-12)[:, None]
    np.fill_diagonal(taught, 0.0)
    alone = [n for n, s in enumerate(taken) if s.alone is not None]
    if not alone:
        return None
    faces = sum(s.kind == "faces" for s in taken)
    # each face is lit as the setting is: together they count once
    weight = np.array([1.0 / faces if s.kind == "faces" else 1.0 for s in taken])
    best = max(alone, key=lambda n: (round(float(taught[n] @ weight), 9), -n))
    after = float(variance[set_at] - taught[best, set_at])
    return best, float(np.sqrt(variance[set_at])), float(np.sqrt(max(after, 0.0)))


def dial_step_stops(light: Light) -> float:
    """A step of the head's dial about where it stands, in stops; 0 for a panel."""
    if light.emitter is None:
        return 0.0
    steps = ladder(light.emitter)
    at = int(np.argmin(np.abs(steps - light.power_stops)))
    near = steps[max(0, at - 1) : at + 2]
    return float(near[-1] - near[0]) / max(1, len(near) - 1)


def _displaced(solved: Solved, light: Light) -> list[Light]:
    """The light 5 cm further off, 5 degrees further round and 5 degrees up about the mark, its aim kept."""
    place = np.array(light.distance_to or light.aim)
    mark = solved.mark_eyes
    further = light.at + PLACED_M * unit(light.at - place)
    from_mark = light.at - mark
    far = float(np.linalg.norm(from_mark))
    bearing = float(np.degrees(np.arctan2(from_mark[0], from_mark[2])))
    height = float(np.degrees(np.arcsin(np.clip(from_mark[1] / far, -1.0, 1.0))))
    around = mark + far * direction(bearing + (PLACED_DEG if bearing >= 0 else -PLACED_DEG), height)
    above = mark + far * direction(bearing, height + PLACED_DEG)
    return [replace(light, position=(float(p[0]), float(p[1]), float(p[2]))) for p in (further, around, above)]


class _Table:
    """Every reading of a set taken apart: what each light, each panel and the bounce give to it.

    What a panel gives is linear in its radiance, so it is reckoned once for a radiance of one and scaled.
    """

    def __init__(self, solved: Solved, taken: Sequence[Step]) -> None:
        self.solved, self.taken = solved, taken
        self.panels = [x for x in solved.lights if x.emitter is None]
        self.points = np.stack([s.point for s in taken])
        self.axes = np.stack([s.axis for s in taken])
        self.recessed = np.array([s.recessed for s in taken])
        self.panelled = np.array([s.panels_in for s in taken], dtype=float)
        self.lit = {
            x.letter: np.array([any(o.letter == x.letter for o in s.on) for s in taken], dtype=float)
            for x in solved.lights
        }
        self.heads = [x for x in solved.lights if x.emitter]
        self.vectors = {x.letter: direct(x, self.points) for x in self.heads}
        self.terms = {x.letter: self._term(self.vectors[x.letter], x) for x in self.heads}
        self.evens = {x.letter: bounce_plane([x], solved.box, ()) for x in self.heads}
        self.bounces = {x.letter: self._bounce(x) for x in self.heads}
        self.bounce = np.asarray(sum(self.lit[x.letter] * self.bounces[x.letter] for x in self.heads))
        self.seen = {p.letter: panel_vector(p, 1.0, self.points) for p in self.panels}
        self.unit_terms = {p.letter: self.panelled * self._term(self.seen[p.letter], p) for p in self.panels}
        self.radiances = {(p.letter, x.letter): self._radiance(p, x) for p in self.panels for x in self.heads}
        self.value = np.maximum(self._total(self.terms, self.unit_terms), 1e-12)

    def share(self, light: Light) -> F:
        """The share of each reading that comes from a light: by itself, off the room and off the panels."""
        own = self.terms[light.letter] + self.bounces[light.letter]
        own = own + sum(self.unit_terms[p.letter] * self.radiances[p.letter, light.letter] for p in self.panels)
        return np.asarray(self.lit[light.letter] * own / self.value)

    def moved(self, light: Light, other: Light) -> F:
        """Stops by which each reading changes when a light or panel stands as `other`."""
        if light.emitter is None:
            seen = self.panelled * self._term(panel_vector(other, 1.0, self.points), other)
            change = np.zeros(len(self.taken))
            for x in self.heads:
                before = self.unit_terms[light.letter] * self.radiances[light.letter, x.letter]
                change = change + self.lit[x.letter] * (seen * self._radiance(other, x) - before)
        else:
            change = self._term(direct(other, self.points), other) - self.terms[light.letter]
            for p in self.panels:
                more = self._radiance(p, other) - self.radiances[p.letter, light.letter]
                change = change + self.unit_terms[p.letter] * more
            change = self.lit[light.letter] * change
        return np.asarray(np.log2(np.maximum((self.value + change) / self.value, 1e-6)))

    def pointed(self) -> F:
        """Stops by which each reading changes when its dome points 5 degrees to the key's side, and 5 up, as one."""
        nearly_up = np.array([1e-9, 1.0, 0.0])
        aside = unit(np.cross(self.axes, nearly_up)) * (-1.0 if self.solved.lights[0].bearing_deg < 0 else 1.0)
        upward = unit(nearly_up - np.sum(nearly_up * self.axes, axis=-1)[:, None] * self.axes)
        lean = np.tan(np.radians(DOME_DEG))
        squares = np.zeros(len(self.taken))
        for way in (aside, upward):
            axes = unit(self.axes + lean * way)
            terms = {x.letter: self._term(self.vectors[x.letter], x, axes) for x in self.heads}
            panels = {p.letter: self.panelled * self._term(self.seen[p.letter], p, axes) for p in self.panels}
            turned = self._total(terms, panels)
            squares = squares + np.log2(np.maximum(turned / self.value, 1e-6)) ** 2
        return np.asarray(np.sqrt(squares))

    def _total(self, terms: dict[str, F], unit_terms: dict[str, F]) -> F:
        total = self.bounce
        for x in self.heads:
            panels = sum(unit_terms[p.letter] * self.radiances[p.letter, x.letter] for p in self.panels)
            total = total + self.lit[x.letter] * (terms[x.letter] + panels)
        return np.asarray(total)

    def _term(self, vectors: F, light: Light, axes: F | None = None) -> F:
        """What the meter reads of one light's vector exposures (readings, 3), each with its own dome."""
        strength = np.linalg.norm(vectors, axis=-1)
        facing = self.axes if axes is None else axes
        cos_t = np.clip(np.sum(vectors * facing, axis=-1) / np.maximum(strength, 1e-12), -1.0, 1.0)
        distance = np.maximum(np.linalg.norm(light.at - self.points, axis=-1), 1e-6)
        alpha = np.arctan(light.disc_size_m / (2 * distance))
        out = dome_reading(cos_t, strength, alpha)
        if not self.recessed.any():
            return np.asarray(out)
        return np.asarray(np.where(self.recessed, recessed_reading(cos_t, strength, alpha), out))

    def _bounce(self, light: Light) -> F:
        """One light's bounce; black panels stand only while the panels are in."""
        even = self.evens[light.letter]
        level = np.where(self.recessed, even, float(dome_uniform(even)))
        return np.asarray(level * (1 - self.panelled * blocked(self.solved.blocks)))

    def _radiance(self, panel: Light, light: Light) -> float:
        """What a panel throws back of one light and of its bounce; a light's bounce is the same wherever it stands."""
        even = self.evens[light.letter] * (1 - blocked(self.solved.blocks))
        return panel_radiance(panel, [light], even)
