"""Step 8, a first list: what is photographed in which set-up, must-haves first, with a cue that gives it a base.

Cues are plain, inclusive and safe; common practice, no source. Order by search and combinations of a family come later.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Any

from shotplans.planner.brief import Brief, Sitter

OLDER_YEARS = 65.0
FEW = 3


def frames_for(heads: int) -> int:
    """Frames to take so that one has every eye open: half the heads, three at least (12 people: 6; 8: 4; 4: 3)."""
    return max(FEW, ceil(heads / 2))


def shots(
    brief: Brief, setups: Sequence[dict[str, Any]], people: dict[str, Sitter], in_turn: set[str]
) -> list[dict[str, Any]]:
    """The list in the order to shoot: each set-up's own picture, then the ordered sentences, then the wished ones."""
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
    order = {s["name"]: n for n, s in enumerate(setups)}
    found.sort(key=lambda s: (order[s["setup"]], not s["must"], _stands(s, people)))
    for setup in setups:
        # the base is said once, with a set-up's first picture
        first = next((s for s in found if s["setup"] == setup["name"]), None)
        base = cue([people[w] for w in first["who"]]) if first else ""
        if first and base not in first["cue"]:
            first["cue"] = f"{first['cue']} {base}"
    minutes = round(brief.minutes / len(found), 1) if brief.minutes and found else None
    return [{"n": n + 1, **s, "minutes": minutes} for n, s in enumerate(found)]


def _stands(shot: dict[str, Any], people: dict[str, Sitter]) -> bool:
    """Seated before standing."""
    return any(people[w].posture == "standing" for w in shot["who"])


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
        "frames": frames_for(len(who)),
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
