"""A day's pictures as numbers for the search: minutes, changes, who waits for what, and what must come before what.

Belongs here: turning pictures and rules into a `Case`. Not here: searching (`shot_order`), words (`shotlist`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np
import numpy.typing as npt

from shotplans.planner.brief import Sitter
from shotplans.planner.people import OLDER_YEARS, posture_of
from shotplans.planner.pictures import Cast, Picture
from shotplans.planner.relations import ADULT_YEARS, is_small, leads
from shotplans.planner.request import Pace
from shotplans.planner.rules import House
from shotplans.planner.shot_order import Case

CHILD_YEARS = 13.0
ALL = 3  # from here a picture of everybody comes before its parts
# What waits with a picture, per minute; and what a minute past a date costs. Common practice, no source.
WAITS = {"small": 6.0, "child": 1.5, "must": 2.0, "young": 6.0, "head": 0.2, "seated": 0.1}
PROPOSED = 0.1
SITS_FIRST = 4.0  # minutes that it costs to stand somebody who is to be spared before they have sat; no source
LATE = {"small": 4.0, "child": 1.5, "must": 2.0, "spared": 1.0, "others": 0.3}


def least(cast: Cast, picture: Picture, house: House, pace: Pace | None) -> float:
    """Minutes a picture takes at least: the house's pace, or what it learned, and more for heads and small ones."""
    who = [cast.people[w] for w in picture.who]
    start = pace.shot_minutes if pace else house.number("pace", "shot_minutes")
    heads = max(0, len(who) - 2) * house.number("shot_time", "head_minutes")
    small = sum(is_small(s) for s in who) * house.number("shot_time", "child_minutes")
    return min(start + heads + small, most(cast, picture, house))


def most(cast: Cast, picture: Picture, house: House) -> float:
    """Minutes a picture may take: small ones, children of school age, short stands and people in turn end it."""
    who = [cast.people[w] for w in picture.who]
    ends = [float("inf")]
    if any(is_small(s) for s in who):
        ends.append(house.number("shot_time", "child_most_minutes"))
    if all(_is_child(s) for s in who):
        ends.append(house.number("school_child", "set_minutes"))
    standing = [float(s.stand_minutes) for s in who if s.stand_minutes and stands(picture, s)]
    if standing:
        ends.append(min(*standing, house.number("short_standing", "standing_minutes")))
    if picture.setup in cast.in_turn and len(who) == 1:
        ends.append(house.number("shot_time", "turn_most_minutes"))
    return min(ends)


def stands(picture: Picture, sitter: Sitter) -> bool:
    """Whether somebody stands in a picture: by posture, or because the sentence says so."""
    return posture_of(sitter) == "standing" or "standing" in picture.words.casefold()


def case(
    cast: Cast, listed: Sequence[Picture], minutes: Sequence[float], changes: Mapping[tuple[str, str], float],
    house: House, booked: float | None,
) -> Case:  # fmt: skip
    """The numbers of a day. Nothing in them hangs on what anybody is called."""
    span = booked if booked else sum(minutes)
    rows = [_waits(cast, p, house, span) for p in listed]
    come = house.number("shot_order", "come_minutes")
    names = list(dict.fromkeys(p.setup for p in listed))
    between = [[changes[a.setup, b.setup] + come * len(set(a.who) ^ set(b.who)) for b in listed] for a in listed]
    return Case(
        minutes=np.array(minutes, dtype=float),
        between=np.array(between, dtype=float).reshape(len(listed), len(listed)),
        weight=np.array([r[0] for r in rows]),
        due=np.array([r[1] for r in rows]),
        late=np.array([r[2] for r in rows]),
        place=_places(cast, listed, house),
        before=(before := _before(cast, listed)),
        prefer=_prefer(cast, listed, before),
        block=np.array([2 * names.index(p.setup) + (not p.must) for p in listed], dtype=np.intp),
    )


def limit(cast: Cast, who: Sequence[str], house: House) -> float:
    """Minutes by which the last picture of these people should be done: the shortest patience among them."""
    return min(_patience(cast.people[w], house)[0] for w in who)


def _patience(sitter: Sitter, house: House) -> tuple[float, str]:
    kind = "small" if is_small(sitter) else "child" if _is_child(sitter) else "spared" if _spared(sitter) else "others"
    return house.number("patience", f"{kind}_minutes"), kind


def _is_child(sitter: Sitter) -> bool:
    return sitter.age_years is not None and sitter.age_years < CHILD_YEARS


def _is_young(sitter: Sitter) -> bool:
    return sitter.age_years is not None and sitter.age_years < ADULT_YEARS


def _waits(cast: Cast, picture: Picture, house: House, span: float) -> tuple[float, float, float]:
    """Weight, date and cost of being late of one picture; people in turn have a time of their own."""
    who = [cast.people[w] for w in picture.who]
    turn = picture.setup in cast.in_turn and len(who) == 1
    dates = [(0.0 if turn else LATE[kind], minutes) for minutes, kind in (_patience(s, house) for s in who)]
    if picture.must and not turn:
        dates.append((LATE["must"], span * house.number("shot_order", "must_share") / 100))
    weight = WAITS["must"] * picture.must + WAITS["head"] * len(who)
    weight += max(WAITS["small"] * is_small(s) or WAITS["child"] * _is_child(s) for s in who)
    weight += WAITS["young"] * all(_is_young(s) for s in who)
    weight *= PROPOSED if picture.code == "proposed" else 1.0
    weight += 0.0 if any(stands(picture, s) for s in who) else WAITS["seated"]
    if picture.code == "proposed":
        dates = [(PROPOSED * cost, minutes) for cost, minutes in dates]  # what nobody asked for turns nothing over
    due = min(minutes for _, minutes in dates)
    return float(weight), due, max(cost for cost, minutes in dates if minutes == due)


def _places(cast: Cast, listed: Sequence[Picture], house: House) -> npt.NDArray[Any]:
    """Somebody shy alone is not the first, as long as the set-up has others of that rank to go before."""
    wanted = float(np.ceil(house.number("shy", "place_least"))) - 1
    found = []
    for one in listed:
        alike = sum((p.setup, p.must) == (one.setup, one.must) for p in listed)
        shy = len(one.who) == 1 and cast.people[one.who[0]].shy
        found.append(min(wanted, alike - 1.0) if shy else 0.0)
    return np.array(found)


def _before(cast: Cast, listed: Sequence[Picture]) -> npt.NDArray[Any]:
    """Whether one comes before another, chains followed to their end; what would turn in a circle is left out."""
    count = len(listed)
    found = np.zeros((count, count), dtype=bool)
    for i, j in _asked(cast, listed):
        if i == j or found[i, j] or found[j, i]:
            continue
        first, then = found[:, i].copy(), found[j].copy()
        first[i], then[j] = True, True
        found |= np.outer(first, then)
    return found


def _prefer(cast: Cast, listed: Sequence[Picture], before: npt.NDArray[Any]) -> npt.NDArray[Any]:
    """Minutes lost where one comes after another: over set-ups and ranks, too, whoever is to be spared sits first. Each
    picture stood too early costs the same, however many are sat before it."""
    found = np.zeros((len(listed), len(listed)))
    for i, a in enumerate(listed):
        for j, b in enumerate(listed):
            if i != j and not before[i, j] and not before[j, i] and _sits_first(cast, a, b):
                found[i, j] = SITS_FIRST
    return np.asarray(found / np.maximum(1, np.count_nonzero(found, axis=0)))


def _asked(cast: Cast, listed: Sequence[Picture]) -> Iterator[tuple[int, int]]:
    """Pairs in the order of their weight: steady light, musts, a company's reference and then its leaders, everybody
    before parts, seated before standing where it is noted, and what is of the same people as it was written."""
    pairs = [(i, j) for i in range(len(listed)) for j in range(len(listed)) if i != j]
    steady = {s["name"] for s in cast.setups if any(cast.people[w].no_flash for w in cast.members(s))}
    yield from ((i, j) for i, j in pairs if listed[i].setup in steady and listed[j].setup not in steady)
    inside = [(i, j) for i, j in pairs if listed[i].setup == listed[j].setup]
    yield from ((i, j) for i, j in inside if listed[i].must and not listed[j].must)
    alike = [(i, j) for i, j in inside if listed[i].must == listed[j].must]
    yield from ((i, j) for i, j in alike if _leads_first(cast, listed[i], listed[j]))
    all_of = {s["name"]: len(s["sitters"]) for s in cast.setups}
    whole = [len(p.who) == all_of[p.setup] >= ALL for p in listed]
    yield from ((i, j) for i, j in alike if whole[i] and not whole[j])
    yield from ((i, j) for i, j in alike if _sits_first(cast, listed[i], listed[j]))
    yield from ((i, j) for i, j in alike if i < j and set(listed[i].who) == set(listed[j].who))


def _leads_first(cast: Cast, a: Picture, b: Picture) -> bool:
    """Whether people come in turn and the one goes before the other: who has something said to be taken (a reference
    frame), then who leads."""
    if a.setup not in cast.in_turn or len(a.who) != 1 or len(b.who) != 1:
        return False
    ranks = [(p.code != "set" or not p.words, not leads(cast.people[p.who[0]])) for p in (a, b)]
    return ranks[0] < ranks[1]


def _sits_first(cast: Cast, a: Picture, b: Picture) -> bool:
    """Whether somebody who is to be spared standing sits in the one and stands in the other."""
    both = [cast.people[w] for w in a.who if w in b.who]
    return any(_spared(s) and stands(b, s) and not stands(a, s) for s in both)


def _spared(sitter: Sitter) -> bool:
    older = sitter.age_years is not None and sitter.age_years >= OLDER_YEARS
    return sitter.stand_minutes is not None or bool(sitter.hip_or_back) or older
