"""Step 8, a first list: what is photographed in which set-up, must-haves first, with a cue that gives it a base.

Cues are plain, inclusive and safe; common practice, no source. Frames, order and longest standing follow the house's
rules. Order by search and combinations of a family come later.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Any

from shotplans.planner.brief import Brief, Sitter
from shotplans.planner.rules import UNCHANGED, House

OLDER_YEARS = 65.0
FEW = 3


def frames_for(heads: int, house: House = UNCHANGED) -> int:
    """Frames to take so that one has every eye open: half the heads, three at least (12 people: 6; 8: 4; 4: 3)."""
    return ceil(max(house.number("blink", "frames_least"), heads / house.number("blink", "heads_per_frame")))


def shots(
    brief: Brief,
    setups: Sequence[dict[str, Any]],
    people: dict[str, Sitter],
    in_turn: set[str],
    house: House = UNCHANGED,
) -> list[dict[str, Any]]:
    """The list in the order to shoot: each set-up's own picture, then the ordered sentences, then the wished ones."""
    found = _listed(brief, setups, people, in_turn)
    order = {s["name"]: n for n, s in enumerate(setups)}
    found.sort(key=lambda s: (order[s["setup"]], not s["must"], _stands(s, people)))
    _not_first(found, people, ceil(house.number("shy", "place_least")))
    more = house.number("space_for_words", "more_frames") if brief.copy_space in ("left", "right") else 0
    for shot in found:
        shot["frames"] = frames_for(len(shot["who"]), house) + ceil(more)
    for setup in setups:
        # the base is said once, with a set-up's first picture
        first = next((s for s in found if s["setup"] == setup["name"]), None)
        base = cue([people[w] for w in first["who"]]) if first else ""
        if first and base not in first["cue"]:
            first["cue"] = f"{first['cue']} {base}"
    minutes = _minutes(brief, found, people, house)
    return [{"n": n + 1, **s, "minutes": minutes[n]} for n, s in enumerate(found)]


def _listed(
    brief: Brief, setups: Sequence[dict[str, Any]], people: dict[str, Sitter], in_turn: set[str]
) -> list[dict[str, Any]]:
    """Every picture, set-up by set-up and then the sentences, not yet in order."""
    found: list[dict[str, Any]] = []
    main = max(setups, key=lambda s: len(s["sitters"]), default=None)
    for setup in setups:
        everybody = [p["label"] for p in setup["sitters"]]
        framing = next(s.framing for s in brief.setups if s.name == setup["name"])
        if setup["name"] in in_turn:
            found += [_shot(setup, [label], framing, None, True, people) for label in everybody]
        elif everybody and not (setup is main and brief.must):  # else the ordered sentences say what it is for
            found.append(_shot(setup, everybody, framing, None, True, people))
    for sentence, must in [(s, True) for s in brief.must] + [(s, False) for s in brief.wished]:
        if main is not None and main["sitters"]:
            framing = next(s.framing for s in brief.setups if s.name == main["name"])
            everybody = [p["label"] for p in main["sitters"]]
            who = [label for label in everybody if label.casefold() in sentence.casefold()]
            found.append(_shot(main, who or everybody, framing, sentence, must, people))
    return found


def _not_first(found: list[dict[str, Any]], people: dict[str, Sitter], place: int) -> None:
    """Moves a picture of somebody shy alone back to its least place, among the others of its set-up and rank."""
    for shot in [s for s in found if len(s["who"]) == 1 and people[s["who"][0]].shy]:
        alike = [n for n, s in enumerate(found) if (s["setup"], s["must"]) == (shot["setup"], shot["must"])]
        now = found.index(shot)
        if now < place - 1:
            found.insert(min(place - 1, alike[-1]), found.pop(now))


def _minutes(
    brief: Brief, found: Sequence[dict[str, Any]], people: dict[str, Sitter], house: House
) -> list[float | None]:
    """The booked time in equal shares, standing no longer than it may be; the rest goes to the other pictures."""
    if not brief.minutes or not found:
        return [None] * len(found)
    share = brief.minutes / len(found)
    longest = [_longest(s, people, house) for s in found]
    short = [x for x in longest if x is not None and x < share]
    others = len(found) - len(short)
    rest = (brief.minutes - sum(short)) / others if others else 0.0
    return [round(x if x is not None and x < share else rest, 1) for x in longest]


def _longest(shot: dict[str, Any], people: dict[str, Sitter], house: House) -> float | None:
    """Minutes a picture may take in which somebody stands who noted for how long."""
    said = "standing" in shot["cue"].casefold()
    stand = [people[w] for w in shot["who"] if said or people[w].posture == "standing"]
    noted = [float(s.stand_minutes) for s in stand if s.stand_minutes]
    if not noted:
        return None
    return min(*noted, house.number("short_standing", "standing_minutes"))


def _stands(shot: dict[str, Any], people: dict[str, Sitter]) -> bool:
    """Whether somebody stands in it, by posture or because the sentence says so: seated comes before standing."""
    return any(people[w].posture == "standing" for w in shot["who"]) or "standing" in shot["cue"].casefold()


def _shot(
    setup: dict[str, Any], who: list[str], framing: str, sentence: str | None, must: bool, people: dict[str, Sitter]
) -> dict[str, Any]:
    seat = next((p["seat"] for p in setup["sitters"] if p["label"] in who and p["seat"]), None)
    return {
        "setup": setup["name"],
        "who": who,
        "framing": framing,
        "cue": sentence if sentence else cue([people[w] for w in who]),
        "seat": seat,
        "frames": 0,
        "must": must,
    }


def cue(who: Sequence[Sitter]) -> str:
    """The base of the picture in plain words, with one caution where safety asks."""
    if len(who) > FEW:
        return "Principals seated, others in the gaps, one plane a row; small children placed last; look at every face."
    if len(who) > 1:
        return "One shape: heads close, one a little higher, hands joined as the base."
    sitter = who[0]
    if sitter.posture == "wheelchair":
        return "Speak to the sitter, brakes on, footplates straight, camera at their eyes; nobody leans on the chair."
    if (sitter.age_years or 40.0) < 6:
        return "A mark on the floor as a game, one thing at a time, an adult within reach."
    if sitter.posture == "seated":
        if sitter.hip_or_back or (sitter.age_years or 40.0) >= OLDER_YEARS:
            return "Well back in the chair, feet flat, hands on the arms as the base; time to rise."
        return "Front half of the seat, feet flat, weight a little forward; hands loose, edge to the camera."
    return "Weight on the back foot, front knee soft, shoulders turned; something for each hand."
