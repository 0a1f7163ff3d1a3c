"""The usual cautions where a plan raises them, each once, with its number: what stands, hangs, draws, warms and falls.

What the notes on people ask for is in cautions_of_people.py. Advice only: local rules, makers' instructions and
licensed people come first.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from shotplans.light.heat import CLEAR_OF_HOT_LAMP_M
from shotplans.planner import ballast, batteries, cautions_of_people, circuits, heat, steady, words
from shotplans.planner.check import rim
from shotplans.planner.mounting import INFANT_YEARS, OLDER_YEARS
from shotplans.planner.people import age_of
from shotplans.planner.plan import Light, Solved
from shotplans.planner.request import Request

HOT_SHARE = 0.8  # of what a modifier bears
HEAVY_KG = 10.0
CHILD_YEARS = 12.0
TIGHT_M = 0.2
SLOW_S = 2.0
PROPS_WITH_CARE = {"haze", "fog", "smoke", "flame", "candle", "candles", "blade", "knife", "sword"}


def cautions(request: Request, solved: list[Solved]) -> list[str]:
    """The usual cautions where the plan raises them, each once."""
    said = [
        *_stands(solved),
        *_space(solved),
        *_flash(request, solved),
        *_power(request, solved),
        *_heat(solved),
        *_people(solved),
        *_props(request),
        *cautions_of_people.of_people(request),
    ]
    return list(dict.fromkeys(said))


def _lights(solved: list[Solved]) -> list[Light]:
    return [x for s in solved for x in s.lights]


def _stands(solved: list[Solved]) -> Iterator[str]:
    rigs = [r for s in solved for r in ballast.rigs(s) if r.letter]
    if rigs:
        worst = max(rigs, key=lambda r: (r.wanted_kg, r.load_kg))
        yield words.caution("stands", {"bag": f"{worst.wanted_kg:g}", "letter": worst.letter})
        yield words.caution("falling", {"kg": f"{max(map(ballast.load_kg, _lights(solved))):.1f}"})
    arms = [x.mounting for x in _lights(solved) if x.mounting and x.mounting.boom]
    if arms:
        weight = max(a.counterweight_kg for a in arms)
        yield words.caution("boom", {"weight": f"{weight:g}"})
    heaviest = max([*map(ballast.load_kg, _lights(solved)), *(a.counterweight_kg for a in arms)], default=0.0)
    if heaviest >= HEAVY_KG:
        yield words.caution("lifting", {"kg": f"{heaviest:.1f}"})
    if any(x.emitter is None for x in _lights(solved)) or any(s.blocks for s in solved):
        yield words.caution("panel")


def _space(solved: list[Solved]) -> Iterator[str]:
    if solved:
        yield words.caution("dark")
    if any(x.emitter and not batteries.on_battery(x.emitter.head) for x in _lights(solved)):
        yield words.caution("cables")
    gaps = [(s.box.ceiling_m - float(rim(x)[:, 1].max()), x.letter) for s in solved for x in s.lights]
    gap, letter = min(gaps, default=(TIGHT_M, ""))
    if 0 <= gap < TIGHT_M:
        yield words.caution("low_ceiling", {"gap": f"{100 * gap:.0f}", "letter": letter})


def _flash(request: Request, solved: list[Solved]) -> Iterator[str]:
    if any(not s.steady for s in solved):
        yield words.caution("flash")
    if any(s.no_flash for s in request.sitters):
        yield words.caution("no_flash")
    for one in solved:
        for head in (x.emitter.head for x in one.lights if x.emitter and x.emitter.steady):
            if not head.flicker_free:
                yield words.caution("flicker", {"head": head.label or head.id, **steady.in_frames(one)})


def _power(request: Request, solved: list[Solved]) -> Iterator[str]:
    """What the heads draw, set-up by set-up the worst, and what lives on batteries."""
    fed = [[x.emitter.head for x in s.lights if x.emitter and not batteries.on_battery(x.emitter.head)] for s in solved]
    rows = [r for s in solved for r in circuits.loads(s.lights, request.room.circuits)]
    breakers = {c.label: float(c.breaker_amps) for c in request.room.circuits}
    if rows and any(h.light == "flash" for heads in fed for h in heads):
        most = max(rows, key=lambda r: float(r["peak_amps"]))
        yield words.caution("load", {"peak": f"{most['peak_amps']:g}", "circuit": most["circuit"]})
    for row in rows:
        breaker = breakers[row["circuit"]]
        if row["peak_amps"] > breaker >= row["staggered_amps"]:
            values = {"circuit": row["circuit"], "peak": f"{row['peak_amps']:g}", "breaker": f"{breaker:g}",
                      "staggered": f"{row['staggered_amps']:g}"}  # fmt: skip
            yield words.caution("stagger", values)
    if any(fed) and not request.room.circuits:
        watts = max(sum(circuits.drawn(h.watts, h.modelling_watts, h.light) for h in heads) for heads in fed)
        peak = max(sum(float(h.peak_amps or 0.0) for h in heads) for heads in fed)
        yield words.caution("load_unknown", {"watts": f"{watts:.0f}", "peak": f"{peak:.1f}"})
    for light in _lights(solved):
        frames = batteries.frames(light)
        if frames is not None:
            yield words.caution("battery", {"letter": light.letter, "frames": frames})
    slowest = max(_lights(solved), key=batteries.ready_s, default=None)
    if slowest and batteries.ready_s(slowest) > SLOW_S:
        yield words.caution("recycle", {"letter": slowest.letter, "ready": f"{batteries.ready_s(slowest):.1f}"})


def _heat(solved: list[Solved]) -> Iterator[str]:
    for light in _lights(solved):
        found = heat.over_limit_watts(light)
        if found is not None and light.emitter is not None and found[0] > HOT_SHARE * found[1]:
            e = light.emitter
            values = {"modifier": e.modifier.label or e.modifier.id, "watts": f"{found[1]:g}",
                      "head": e.head.label or e.head.id, "lamp": f"{found[0]:g}"}  # fmt: skip
            yield words.caution("hot", values)
    for one in solved:
        for thing in heat.near(one):
            away = f"{floor(100 * thing.distance_m) / 100:.2f}"
            values = {"letter": thing.letter, "what": thing.what, "distance": away,
                      "clear": f"{CLEAR_OF_HOT_LAMP_M:.2f}"}  # fmt: skip
            yield words.caution("hot_near", values)


def _people(solved: list[Solved]) -> Iterator[str]:
    """What the people in the pictures ask of everybody on set."""
    sitters = [s.person.sitter for one in solved for s in one.pose.seated]
    ages = [age_of(s) for s in sitters]
    if max(ages, default=0.0) >= OLDER_YEARS:
        yield words.caution("older")
    if min(ages, default=99.0) < INFANT_YEARS:
        yield words.caution("infant")
    if any(INFANT_YEARS <= age < CHILD_YEARS for age in ages):
        yield words.caution("children", {"clear": f"{CLEAR_OF_HOT_LAMP_M:.2f}"})
    if any(s.posture == "wheelchair" for s in sitters):
        yield words.caution("wheelchair")
    if any(s.step for one in solved for s in one.pose.seated):
        yield words.caution("steps")


def _props(request: Request) -> Iterator[str]:
    named = {word for p in request.brief.props for word in str(p.label or "").casefold().split()}
    if request.brief.haze or named & PROPS_WITH_CARE:
        yield words.caution("haze")
