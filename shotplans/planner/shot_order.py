"""The order of a day, found by search: what comes when, so that changes are few, children first, musts early.

A `Case` is a day in numbers; `cost` is what an order of it costs in minutes; `found` the best order the search met: a
beam over beginnings (on a long day blocks of one set-up and rank first, then each block), then moves of single pictures
and of runs until none helps. No names, no chance, no clock: equal
cases give equal orders, and a case says nothing of what anybody is called.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt

F = npt.NDArray[np.float64]
I = npt.NDArray[np.intp]  # noqa: E741 - indices
BEAM, NARROW, LONGEST_RUN = 24, 2, 8
FEW = 20  # pictures up to which every move is tried; beyond, short runs over short ways, a few rounds
ROUNDS, ROUNDS_OF_MANY, WAY, AT_ONCE = 12, 8, 10, 24
LATE, SOON, EARLY = 5.0, 0.05, 50.0  # cost of a minute late; of a minute that a weight waits; of a place too early
NEVER = 1e9


@dataclass(frozen=True)
class Case:
    """`minutes` of each picture, `between` from one to another, `weight` what waits with it, `due` when it should be
    done (minutes) and `late` how much a minute beyond costs, `place` the first it may take (from 0), `before[i, j]`
    whether i must come before j, `prefer[i, j]` what it costs where i comes after j. Minutes are never negative."""

    minutes: F
    between: F
    weight: F
    due: F
    late: F
    place: F
    before: npt.NDArray[np.bool_]
    prefer: F
    block: I  # alike for pictures of one set-up and rank

    def __len__(self) -> int:
        return len(self.minutes)


def costs(case: Case, orders: I) -> F:
    """Cost of each row of orders in minutes: changes, waiting by weight, lateness; NEVER where one is out of turn."""
    between = case.between[orders[:, :-1], orders[:, 1:]]
    minutes = case.minutes[orders]
    ends = np.cumsum(minutes, axis=1)
    ends[:, 1:] += np.cumsum(between, axis=1)
    late = np.maximum(0.0, ends - case.due[orders]) * case.late[orders]
    early = np.maximum(0.0, case.place[orders] - np.arange(orders.shape[1])) * EARLY
    total = between.sum(axis=1) + (SOON * case.weight[orders] * ends + LATE * late + early).sum(axis=1)
    at = _places(orders)
    first, then = np.nonzero(case.prefer)
    if len(first):
        total = total + ((at[:, first] > at[:, then]) * case.prefer[first, then]).sum(axis=1)
    return np.asarray(np.where(_in_turn(case, at), total, NEVER + total))


def cost(case: Case, order: I) -> float:
    return float(costs(case, order[None, :])[0])


def _places(orders: I) -> I:
    """At which place of each order each picture comes."""
    at = np.empty_like(orders)
    np.put_along_axis(at, orders, np.broadcast_to(np.arange(orders.shape[1]), orders.shape), axis=1)
    return at


def _in_turn(case: Case, at: I) -> npt.NDArray[np.bool_]:
    first, second = _covering(case.before)
    return np.asarray(np.all(at[:, first] < at[:, second], axis=1))


def _covering(before: npt.NDArray[np.bool_]) -> tuple[I, I]:
    """The pairs that no chain through a third says already."""
    step = before.astype(np.float32)
    kept = before & ~((step @ step) > 0)
    first, second = np.nonzero(kept)
    return first, second


def found(case: Case) -> I:
    """The cheapest order the search meets; never dearer than the order given, where that is in turn."""
    count = len(case)
    if count < 2:
        return np.arange(count)
    if count > FEW:
        tries = [_by_blocks(case), _beam(case, 1.0, NARROW), np.arange(count)]
    else:
        tries = [_beam(case, 0.0), _beam(case, 1.0), np.arange(count)]
    tries.sort(key=lambda order: cost(case, order))
    polished = [_polished(case, order) for order in tries[: 2 if count <= FEW else 1]]
    return min(polished, key=lambda order: cost(case, order))


def _by_blocks(case: Case) -> I:
    """The blocks of a long day in the order of a small search, inside each the date, then what waits most a minute."""
    names, at = np.unique(case.block, return_inverse=True)
    inside = [np.nonzero(at == n)[0] for n in range(len(names))]
    share = np.stack([np.where(at == n, 1.0 / len(i), 0.0) for n, i in enumerate(inside)])
    sums = np.stack([np.where(at == n, 1.0, 0.0) for n in range(len(names))])
    apart = share @ case.between @ share.T
    np.fill_diagonal(apart, 0.0)
    before = (sums @ case.before @ sums.T) > 0
    np.fill_diagonal(before, False)
    prefer = sums @ case.prefer @ sums.T
    np.fill_diagonal(prefer, 0.0)
    blocks = Case(
        minutes=sums @ case.minutes, between=apart, weight=sums @ case.weight, late=sums @ case.late,
        due=np.array([np.average(case.due[i], weights=case.late[i] + 1e-9) for i in inside]),
        place=np.zeros(len(names)), before=_followed(before & ~before.T), prefer=prefer,
        block=np.arange(len(names)),
    )  # fmt: skip
    first = _beam(blocks, 1.0) if len(names) > 1 else np.arange(1)
    urgent = np.lexsort((-case.weight / np.maximum(case.minutes, 0.1), case.due))
    rank = np.empty(len(case), dtype=np.intp)
    rank[urgent] = np.arange(len(case))
    place = np.argsort(first)[at] * len(case) + rank
    return _allowed(case, place)


def _followed(before: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Chains followed to their end; what turns in a circle asks for nothing."""
    found = before.copy()
    for k in range(len(found)):
        found |= np.outer(found[:, k], found[k])
    return np.asarray(found & ~found.T)


def _allowed(case: Case, place: I) -> I:
    """The order nearest to these places in which nothing is out of turn."""
    left, found = set(range(len(case))), []
    while left:
        open_ = np.array(sorted(left))
        free = open_[~case.before[np.ix_(open_, open_)].any(axis=0)]
        nxt = int(free[np.argmin(place[free])])
        found.append(nxt)
        left.remove(nxt)
    return np.array(found, dtype=np.intp)


def _beam(case: Case, by_due: float, width: int = BEAM) -> I:
    """Beginnings grown by one picture at a time, the cheapest of each length kept; what is not taken yet waits.

    `by_due` adds what will be late if everything due before it came next, so that a date ahead is seen.
    """
    count = len(case)
    needs = case.before.astype(np.float32)
    orders = np.zeros((1, 0), dtype=np.intp)
    open_ = np.ones((1, count), dtype=bool)
    time, spent = np.zeros(1), np.zeros(1)
    for n in range(count):
        last = orders[:, -1] if n else None
        step = case.between[last] if last is not None else np.zeros((1, count))
        ends = time[:, None] + step + case.minutes
        waiting = (open_ * case.weight).sum(axis=1)[:, None] * (step + case.minutes) * SOON
        late = np.maximum(0.0, ends - case.due) * case.late * LATE
        early = np.maximum(0.0, case.place - n) * EARLY
        total = spent[:, None] + step + waiting + late + early + open_ @ case.prefer
        blocked = ~open_ | ((open_.astype(np.float32) @ needs) > 0)
        guess = np.where(blocked, np.inf, total + by_due * _ahead(case, open_, ends))
        rows, picks = _cheapest(guess, open_, width)
        orders = np.concatenate((orders[rows], picks[:, None]), axis=1)
        open_ = open_[rows]
        open_[np.arange(len(picks)), picks] = False
        time, spent = ends[rows, picks], total[rows, picks]
    best: I = orders[int(np.argmin(spent))]
    return best


def _ahead(case: Case, open_: npt.NDArray[np.bool_], ends: F) -> F:
    """How late what is still open would be if it came straight after, each alone: a floor for what is to come."""
    costly = case.late * LATE
    over = np.maximum(0.0, ends[:, :, None] + case.minutes - case.due) * costly
    own = np.maximum(0.0, ends + case.minutes - case.due) * costly  # the picture taken now is open no more
    return np.asarray((over * open_[:, None, :]).sum(axis=2) - own)


def _cheapest(guess: F, open_: npt.NDArray[np.bool_], width: int) -> tuple[I, I]:
    """The best next steps; of those that leave the same open after the same picture only the first."""
    flat = guess.ravel()
    order = np.argsort(flat, kind="stable")[: 6 * width]
    kept: list[tuple[int, int]] = []
    seen = set()
    for index in order:
        if not np.isfinite(flat[index]):
            break
        row, pick = divmod(int(index), guess.shape[1])
        left = open_[row].copy()
        left[pick] = False
        name = (left.tobytes(), pick)
        if name not in seen:
            seen.add(name)
            kept.append((row, pick))
        if len(kept) == width:
            break
    rows, picks = np.array(kept, dtype=np.intp).T
    return rows, picks


def _polished(case: Case, order: I) -> I:
    """The order with single pictures and runs of them moved, or two exchanged, as long as that makes it cheaper."""
    best, at = order, cost(case, order)
    moves = _moves(len(case))
    for _ in range(ROUNDS if len(case) <= FEW else ROUNDS_OF_MANY):
        start = best
        tried = best[moves]
        tried = tried[_in_turn(case, _places(tried))]
        if not len(tried):
            break
        value = costs(case, tried)
        before = at
        for k in np.argsort(value, kind="stable")[:AT_ONCE]:
            if value[k] >= before - 1e-9:
                break
            # the best as it is; the others once more on top of what has been moved already
            one: I = tried[k] if at == before else best[_between(order=start, to=tried[k])]
            new = cost(case, one)
            if new < at - 1e-9:
                best, at = one, new
        if at >= before - 1e-9:
            break
    return best


def _between(*, order: I, to: I) -> I:
    """The permutation of places that led from one order to another."""
    place = np.empty_like(order)
    place[order] = np.arange(len(order))
    return np.asarray(place[to])


@cache
def _moves(count: int) -> I:
    """Ways of moving a run to another place, and of exchanging two, as permutations of the places."""
    few = count <= FEW
    longest, way = (LONGEST_RUN, count) if few else (2, WAY)
    base = list(range(count))
    rows = []
    for size in range(1, min(longest, count - 1) + 1):
        for start in range(count - size + 1):
            run, rest = base[start : start + size], base[:start] + base[start + size :]
            near = range(max(0, start - way), min(len(rest), start + way) + 1)
            rows += [rest[:to] + run + rest[to:] for to in near if to != start]
    if few:
        for a in range(count):
            for b in range(a + 2, count):
                row = base.copy()
                row[a], row[b] = row[b], row[a]
                rows.append(row)
    return np.array(rows, dtype=np.intp)
