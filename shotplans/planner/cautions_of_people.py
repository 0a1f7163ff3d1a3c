"""What the notes on people ask of everybody on set, as consequences, naming nobody."""

from __future__ import annotations

from shotplans.planner import words
from shotplans.planner.request import Request
from shotplans.planner.rules import house


def of_people(request: Request) -> list[str]:
    """What the notes on people ask of everybody on set, as consequences, naming nobody."""
    found = []
    people = request.sitters
    for code in ("hearing", "low_vision", "tremor", "sensory"):
        if any(getattr(s, code) for s in people):
            found.append(words.caution(code))
    standing = [float(s.stand_minutes) for s in people if s.stand_minutes is not None]
    if standing:
        longest = min(house(request.rules).number("short_standing", "standing_minutes"), *standing)
        found.append(words.caution("standing", {"minutes": f"{longest:g}"}))
    clothes = [s.clothes for s in people if s.clothes is not None]
    worn = {
        "light_clothes": any(c.tone == "light" for c in clothes), "shiny_clothes": any(c.shiny for c in clothes),
        "pattern": any(c.pattern for c in clothes), "bare_arms": any(c.bare_arms for c in clothes),
    }  # fmt: skip
    return found + [words.caution(code) for code, there in worn.items() if there]
