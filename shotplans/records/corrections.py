"""What readings taught about heads and modifiers: offsets in stops from the rated output, each with how sure it is.

A reading is a pair's offset plus noise; a pair's offset is what its head has in common with all its modifiers plus its
own rest. Both are drawn toward zero by their own error (empirical Bayes: the spreads are fitted to all pairs at once).
Belongs here: fitting. Not here: which readings count, rows, or words. Rated values are never touched.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations, pairwise

import numpy as np
from numpy.typing import NDArray

F = NDArray[np.float64]
Pair = tuple[str, str]
# What is taken for true before there are readings, and how many readings (pairs) that is worth. Common practice.
NOISE_STOPS, NOISE_WORTH = 0.15, 4.0
BETWEEN_STOPS, BETWEEN_WORTH = 0.3, 4.0  # the planner's own doubt of an uncorrected pair
LEAST_NOISE_STOPS = 0.05  # a meter that shows tenths tells no less: 0.1 over the root of twelve, and its own error
CUT = 3.5  # this many noises off the median of its pair, a reading is set aside (common practice)
LEAST_CUT_STOPS = 0.35
NORMAL_MAD = 0.6745  # median of |z| of a standard normal
MEDIAN_LOSS = 1.2533  # a median's standard error over a mean's, normal noise: root of pi/2
DRIFT_CUT, DRIFT_LEAST_STOPS, DRIFT_READINGS = 4.0, 0.2, 3


@dataclass(frozen=True)
class Observation:
    """One reading of one light alone: stops over (+) or under (-) what the rated output would have read."""

    head: str
    modifier: str
    offset_stops: float
    day: float  # any count of days
    key: int = 0

    @property
    def pair(self) -> Pair:
        return self.head, self.modifier


@dataclass(frozen=True)
class Correction:
    """One pair: add `offset_stops` to its rated output. `mean_stops` is what the readings say before shrinking."""

    head: str
    modifier: str
    offset_stops: float
    standard_error_stops: float
    readings: int
    mean_stops: float
    spread_stops: float | None  # of the readings that count; None of one
    set_aside: tuple[Observation, ...] = ()


@dataclass(frozen=True)
class Drift:
    """A head that changed: by so many stops, from this day on."""

    stops: float
    day: float
    before: int
    after: int


@dataclass(frozen=True)
class OfHead:
    """What a head has in common with whatever is on it."""

    head: str
    offset_stops: float
    standard_error_stops: float
    readings: int
    modifiers: int
    drift: Drift | None = None


@dataclass(frozen=True)
class Fit:
    """All that the readings taught; `of` answers for a pair never read, from its head."""

    noise_stops: float
    pairs: Mapping[Pair, Correction]
    heads: Mapping[str, OfHead]
    _unread: Mapping[str, tuple[float, float]] = field(default_factory=dict)

    def of(self, head: str, modifier: str) -> Correction | None:
        """The correction of a pair: its own; else its head's, once that was read with two modifiers; else None."""
        if (head, modifier) in self.pairs:
            return self.pairs[head, modifier]
        known = self.heads.get(head)
        if known is None or known.modifiers < 2:
            return None
        offset, error = self._unread[head]
        return Correction(head, modifier, offset, error, known.readings, offset, None)


def fit_corrections(readings: Iterable[Observation]) -> Fit:
    """Offsets of all pairs and heads from their readings, in stops; any number of readings, none gives an empty fit.

    Source: normal hierarchy with variances by moments, posterior means and errors by linear algebra (textbook, from
    memory); outliers by distance from the median in units of a scale from absolute differences (textbook).
    """
    cells = _cells(readings)
    noise = _first_noise(cells)
    drifts = {head: found for head in sorted({h for h, _m in cells}) if (found := _drift(cells, head, noise))}
    cells = {
        pair: [o for o in cell if pair[0] not in drifts or o.day >= drifts[pair[0]].day] for pair, cell in cells.items()
    }
    cells = {pair: cell for pair, cell in cells.items() if cell}
    split = {pair: _aside(cell, noise) for pair, cell in cells.items()}
    noise = _noise([[o.offset_stops for o in kept] for kept, _out in split.values()])
    means = {pair: _mean(kept, noise) for pair, (kept, _out) in split.items()}
    common, rest = _between(means)
    return _posterior(split, means, noise, common, rest, drifts)


def _cells(readings: Iterable[Observation]) -> dict[Pair, list[Observation]]:
    found: dict[Pair, list[Observation]] = defaultdict(list)
    for one in sorted(readings, key=lambda o: (o.day, o.key)):
        found[one.pair].append(one)
    return dict(sorted(found.items()))


def _first_noise(cells: Mapping[Pair, Sequence[Observation]]) -> float:
    """The noise of one reading from absolute differences, whose median is 0.6745 root two noises (textbook): of each
    reading and the next of its pair, deaf to a lamp that changed once, or of all of a pair, deaf to one gross error in
    few readings; the smaller, since either fault only widens."""
    ways = (pairwise, lambda cell: combinations(cell[-12:], 2))
    found = []
    for way in ways:
        gaps = [abs(b.offset_stops - a.offset_stops) for cell in cells.values() for a, b in way(cell)]
        if gaps:
            found.append(float(np.median(gaps)) / (NORMAL_MAD * 2**0.5))
    worth = sum(len(cell) - 1 for cell in cells.values())
    return _mixed(min(found), worth, NOISE_STOPS, NOISE_WORTH) if found else NOISE_STOPS


def _noise(kept: Sequence[Sequence[float]]) -> float:
    """The noise of one reading from the readings that count: root of the mean square about their own means."""
    worth = sum(len(cell) - 1 for cell in kept)
    squares = sum(float(np.var(cell)) * len(cell) for cell in kept if len(cell) > 1)
    found = (squares / worth) ** 0.5 if worth else 0.0
    return _mixed(found, worth, NOISE_STOPS, NOISE_WORTH)


def _mixed(found: float, worth: float, prior: float, prior_worth: float) -> float:
    mixed = (found**2 * worth + prior**2 * prior_worth) / (worth + prior_worth)
    return max(LEAST_NOISE_STOPS, mixed**0.5)


def _aside(cell: Sequence[Observation], noise: float) -> tuple[list[Observation], list[Observation]]:
    """The readings that count and those set aside: too far from the median of at least three."""
    if len(cell) < 3:
        return list(cell), []
    middle = float(np.median([o.offset_stops for o in cell]))
    cut = max(CUT * noise, LEAST_CUT_STOPS)
    far = [o for o in cell if abs(o.offset_stops - middle) > cut]
    if 2 * len(far) >= len(cell):
        return list(cell), []  # no side has the say
    return [o for o in cell if o not in far], far


def _mean(kept: Sequence[Observation], noise: float) -> tuple[float, float]:
    """A pair's mean and its variance; readings that disagree more than the noise allows widen it."""
    offsets = [o.offset_stops for o in kept]
    variance = noise**2 / len(offsets)
    if len(offsets) > 1 and float(np.std(offsets)) > CUT * noise:
        variance = max(variance, float(np.var(offsets, ddof=1)) / len(offsets))
    return float(np.mean(offsets)), variance


def _between(means: Mapping[Pair, tuple[float, float]]) -> tuple[float, float]:
    """Variances of what heads have in common and of the rest, by moments, with the first guess mixed in: products of
    two pairs of one head average to the first, squares less their own error to the sum of both."""
    squares = [mean**2 - variance for mean, variance in means.values()]
    products = [
        a[0] * b[0]
        for head in {h for h, _m in means}
        for a, b in combinations([v for (h, _m), v in means.items() if h == head], 2)
    ]
    heads = len({h for h, _m in means})
    total = _weighted(squares, len(squares), BETWEEN_STOPS**2)
    common = _weighted(products, min(heads, len(products)), BETWEEN_STOPS**2 / 2)
    common = min(max(common, 0.0), 0.9 * total)
    return common, total - common


def _weighted(found: Sequence[float], worth: float, prior: float) -> float:
    mean = float(np.mean(found)) if found else 0.0
    return max((mean * worth + prior * BETWEEN_WORTH) / (worth + BETWEEN_WORTH), 0.01)


def _drift(cells: Mapping[Pair, Sequence[Observation]], head: str, noise: float) -> Drift | None:
    """Whether a head changed: the split in time, at least three readings on either side, about whose two medians its
    readings lie closest, each taken from its pair's first ones; None where the step may be chance."""
    rows: list[tuple[float, float]] = []
    for pair, cell in cells.items():
        if pair[0] == head:
            first = float(np.median([o.offset_stops for o in cell[:DRIFT_READINGS]]))
            rows += [(o.day, o.offset_stops - first) for o in cell]
    rows.sort()
    best: tuple[float, Drift, float] | None = None
    for n in range(DRIFT_READINGS, len(rows) - DRIFT_READINGS + 1):
        if rows[n][0] == rows[n - 1][0]:
            continue
        before, after = (np.array([off for _day, off in part]) for part in (rows[:n], rows[n:]))
        middles = float(np.median(before)), float(np.median(after))
        left = float(np.abs(before - middles[0]).sum() + np.abs(after - middles[1]).sum())
        error = MEDIAN_LOSS * noise * (1 / len(before) + 1 / len(after)) ** 0.5
        if best is None or left < best[0] - 1e-9:
            best = (left, Drift(round(middles[1] - middles[0], 2), rows[n][0], len(before), len(after)), error)
    if best is None or abs(best[1].stops) < max(DRIFT_CUT * best[2], DRIFT_LEAST_STOPS):
        return None
    return best[1]


def _posterior(
    split: Mapping[Pair, tuple[list[Observation], list[Observation]]],
    means: Mapping[Pair, tuple[float, float]],
    noise: float,
    common: float,
    rest: float,
    drifts: Mapping[str, Drift],
) -> Fit:
    """Posterior means and errors, head by head, of pairs, of the head, and of a pair of it never read."""
    pairs: dict[Pair, Correction] = {}
    heads: dict[str, OfHead] = {}
    unread: dict[str, tuple[float, float]] = {}
    for head in sorted({h for h, _m in means}):
        mine = [pair for pair in means if pair[0] == head]
        seen = np.array([means[p][0] for p in mine])
        prior = common * np.ones((len(mine), len(mine))) + rest * np.eye(len(mine))
        gain = np.linalg.inv(prior + np.diag([means[p][1] for p in mine]))
        offset: F = prior @ gain @ seen
        error: F = np.sqrt(np.maximum(np.diag(prior - prior @ gain @ prior), 0.0))
        for n, pair in enumerate(mine):
            kept, out = split[pair]
            spread = float(np.std([o.offset_stops for o in kept], ddof=1)) if len(kept) > 1 else None
            pairs[pair] = Correction(
                *pair, float(offset[n]), float(error[n]), len(kept), means[pair][0], spread, tuple(out)
            )
        of_head = common * float(gain.sum(axis=0) @ seen)
        left = max(common - common**2 * float(gain.sum()), 0.0)
        count = sum(len(split[p][0]) for p in mine)
        heads[head] = OfHead(head, of_head, left**0.5, count, len(mine), drifts.get(head))
        unread[head] = (of_head, (left + rest) ** 0.5)
    return Fit(noise, pairs, heads, unread)
