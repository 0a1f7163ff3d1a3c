"""What the rules ask of a pose beyond the intent's turns: how far a head may turn, and how far down a chin goes.

Belongs here: choosing among the poses `poses` made, and the chin behind glasses. Not here: places and rows.
"""

from __future__ import annotations

from dataclasses import replace

from shotplans.planner.brief import Setup
from shotplans.planner.people import Person, Pose, Seated
from shotplans.planner.rules import House


def by_rule(tries: list[Pose], setup: Setup, house: House) -> list[Pose]:
    """The poses the rules leave, never none: where no pose keeps a rule, all stay and the plan says so."""
    if setup.view == "either":
        tries = _narrowing(_square(tries, house), house)
    down = house.number("glasses", "chin_down_deg")
    if not any(s.person.wears_glasses for s in tries[0].seated):
        return tries
    return [replace(pose, seated=tuple(_chin(s, down) for s in pose.seated)) for pose in tries]


def _chin(seated: Seated, down_deg: float) -> Seated:
    if not seated.person.wears_glasses:
        return seated
    return replace(seated, chin_deg=0.0 - min(down_deg, float(seated.person.sitter.chin_limit_deg)))


def strong_lenses(person: Person) -> bool:
    """Whether a sitter's lenses break the line of the cheek when turned."""
    return person.sitter.glasses is not None and person.sitter.glasses.lens == "strong"


def wishes_narrower(person: Person) -> bool:
    """Whether a face is to look narrower: noted wide, or wished so."""
    return person.sitter.face_width == "wide" or person.wish("width") == "softer"


def _square(tries: list[Pose], house: House) -> list[Pose]:
    most = house.number("lenses_strong", "turn_most_deg")
    kept = [p for p in tries if all(abs(s.nose_deg) <= most for s in p.seated if strong_lenses(s.person))]
    return kept or tries


def _narrowing(tries: list[Pose], house: House) -> list[Pose]:
    """Of one sitter's turns those the rule names, else the farthest there are; the side stays open."""
    first = tries[0].seated
    if len(first) != 1 or not wishes_narrower(first[0].person):
        return tries
    wanted = house.band("face_wide", "turn", "deg")
    turns = [abs(p.seated[0].nose_deg) for p in tries]
    inside = [p for p, turn in zip(tries, turns, strict=True) if wanted.low <= turn <= wanted.high]
    return inside or [p for p, turn in zip(tries, turns, strict=True) if turn == max(turns)]
