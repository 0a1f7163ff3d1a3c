"""The usual cautions where a plan raises them, each once."""

from __future__ import annotations

from shotplans.planner import cautions_of_people, words
from shotplans.planner.plan import Solved
from shotplans.planner.request import Request


def cautions(request: Request, solved: list[Solved]) -> list[str]:
    """The usual cautions where the plan raises them, each once."""
    codes: list[str] = []
    lights = [x for s in solved for x in s.lights]
    if lights:
        codes += ["stands", "cables", "dark"]
    if any(x.mounting and x.mounting.boom for x in lights):
        codes.append("boom")
    if any(not s.steady for s in solved):
        codes += ["flash", "load"]
    if any(s.no_flash for s in request.sitters):
        codes.append("no_flash")
    if any(x.emitter is None for x in lights) or any(s.blocks for s in solved):
        codes.append("panel")
    ages = [float(s.age_years if s.age_years is not None else 40.0) for s in request.sitters]
    if max(ages) >= 65:
        codes.append("older")
    if min(ages) < 4:
        codes.append("infant")
    said = [words.caution(c) for c in codes]
    said += cautions_of_people.of_people(request)
    for x in lights:
        if x.emitter and x.emitter.modifier.max_modelling_watts is not None:
            lamp = float(x.emitter.head.modelling_watts or x.emitter.head.watts or 0.0)
            limit = float(x.emitter.modifier.max_modelling_watts)
            if lamp > 0.8 * limit:
                said.append(words.caution("hot", {"modifier": x.emitter.modifier.label, "watts": f"{limit:g}"}))
        if x.emitter and x.emitter.steady and not x.emitter.head.flicker_free:
            said.append(words.caution("flicker", {"head": x.emitter.head.label or x.emitter.head.id}))
    return list(dict.fromkeys(said))
