"""The smallest mend of a broken limit, found by trying: the least change of one number after which the limit is kept.

A mend moves one thing by the steps a person can set and asks the same functions that found the limit broken. Where no
step mends it, or where the mend is no number, the catalogue's own words stay.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from shotplans.light import background, exposure
from shotplans.planner import check, moves, sitter_view, words
from shotplans.planner.candidates import FARTHEST_M, HIGHEST_DEG, NEAREST_M, STEP_DEG, STEP_M
from shotplans.planner.expect import Meter
from shotplans.planner.frame import CLOSED_MOST, THIRDS
from shotplans.planner.placed import ground_at
from shotplans.planner.plan import Ground, Light, Solved
from shotplans.planner.problem import Problem
from shotplans.planner.readings import f_number, reading

OF_A_KIND = 2  # more of one kind are mended by the same change, or by none
LEAST_GROUND_M, MOST_GROUND_M = 0.8, 4.0
Mended = tuple[str, dict[str, Any]]


def mended(solved: Solved, meter: Meter, found: list[Problem]) -> list[Problem]:
    """The problems with their smallest mends in numbers where trying found one, for the first few of each kind."""
    tried: Counter[str] = Counter()
    done = []
    for problem in found:
        tried[problem.code] += 1
        done.append(_mended(solved, meter, problem) if tried[problem.code] <= OF_A_KIND else problem)
    return done


def _mended(solved: Solved, meter: Meter, problem: Problem) -> Problem:
    parts = list(MENDS[problem.code](solved, meter, problem)) if problem.code in MENDS else []
    if not parts:
        return problem
    return replace(problem, mend=words.mends(parts))


def _light(solved: Solved, problem: Problem) -> tuple[int, Light]:
    letter = problem.values.get("letter") or solved.lights[0].letter
    return next((n, x) for n, x in enumerate(solved.lights) if x.letter == letter)


def _with(solved: Solved, number: int, light: Light) -> Solved:
    return replace(solved, lights=(*solved.lights[:number], light, *solved.lights[number + 1 :]))


def fits(solved: Solved, light: Light) -> bool:
    """Whether a light stands inside the room, under the ceiling, out of the picture."""
    points = check.rim(light)
    box = solved.box
    inside = bool((points >= box.low - 1e-6).all() and (points <= box.high + 1e-6).all())
    inside = inside and check.top_m(light) <= box.ceiling_m + 1e-6
    return inside and float(solved.camera.clearance(points)) >= 1.0


def _steps(start: float, low: float, high: float, step: float) -> Iterator[float]:
    """Values on steps from a start, the nearest first, upward before downward."""
    for n in range(1, int((high - low) / step) + 2):
        for value in (round(start + n * step, 2), round(start - n * step, 2)):
            if low - 1e-9 <= value <= high + 1e-9:
                yield value


RANGES = {
    "distance_m": (NEAREST_M, FARTHEST_M, STEP_M),
    "height_angle_deg": (0.0, HIGHEST_DEG, STEP_DEG),
    "bearing_deg": (-90.0, 90.0, STEP_DEG),
}
VALUE_OF: dict[str, Callable[[Light], float]] = {
    "distance_m": lambda x: x.distance_m,
    "height_angle_deg": lambda x: x.height_deg,
    "bearing_deg": lambda x: x.bearing_deg,
}


def _least(
    solved: Solved, light: Light, key: str, kept: Callable[[Light], bool], *, downward_only: bool = False
) -> float | None:
    """The value of a light nearest to the one it has for which it fits the room and something is kept."""
    low, high, step = RANGES[key]
    start = VALUE_OF[key](light)
    for value in _steps(start, low, high, step):
        if downward_only and value > start:
            continue
        made = moves.elsewhere(solved, light, key, value)
        if made is not None and fits(solved, made) and kept(made):
            return value
    return None


def _in_the_way(solved: Solved, meter: Meter, problem: Problem) -> Iterator[Mended]:
    """A light through the ceiling or a wall, or in the picture: where it would be clear, and how small it would be."""
    _, light = _light(solved, problem)
    for key in ("height_angle_deg", "distance_m"):
        value = _least(solved, light, key, lambda made: True)
        if value is not None:
            yield key, {"letter": light.letter, "value": value}
    if problem.code == "ceiling":
        yield "higher_room", {"short": f"{problem.short_by:g}"}
        points = check.rim(light)
        half = float(points[:, 1].max()) - light.position[1]
        spare = solved.box.ceiling_m - light.position[1]
        behind = check.back_top_m(light) - solved.box.ceiling_m  # a smaller front does not lower the head behind it
        if 0 < spare < half and behind <= 0:
            size = np.floor(light.height_m * spare / half * 20) / 20
            yield "smaller_front", {"letter": light.letter, "size": f"{size:.2f}"}


def _reach(solved: Solved, meter: Meter, problem: Problem) -> Iterator[Mended]:
    """A light above its stand's reach: a taller stand, or the highest place that the stand reaches."""
    _, light = _light(solved, problem)
    yield "taller_stand", {"short": f"{problem.short_by:g}"}
    top = light.position[1] - problem.short_by
    value = _least(solved, light, "height_angle_deg", lambda made: made.position[1] <= top + 0.011, downward_only=True)
    if value is not None:
        yield "height_angle_deg", {"letter": light.letter, "value": value}


def _power(solved: Solved, meter: Meter, problem: Problem) -> Iterator[Mended]:
    """Key and fill at the end of their dials: the ISO, the aperture, or the key's distance that would do."""
    short = problem.code == "power_short"
    camera, missing = solved.camera, problem.short_by
    ways = [i for i in _isos(camera.body.base_iso, camera.body.max_iso) if (i > camera.iso) == short]
    enough = [i for i in ways if abs(float(np.log2(i / camera.iso))) >= missing - 0.05]
    if enough:
        yield "iso", {"iso": min(enough) if short else max(enough)}
    widest = exposure.exact_f_number(camera.lens.max_aperture)
    closed = min(CLOSED_MOST, exposure.exact_f_number(camera.lens.min_aperture or CLOSED_MOST))
    stops = [n for n in THIRDS if widest * 0.999 <= n <= closed * 1.001 and (n < camera.aperture) == short]
    far = [n for n in stops if abs(2 * float(np.log2(n / camera.aperture))) >= missing - 0.05]
    if far:
        yield "aperture", {"shown": exposure.nearest_third(max(far) if short else min(far))[0]}
    value = _least(solved, solved.lights[0], "distance_m", lambda made: _reaches(solved, meter, made, short))
    if value is not None:
        yield "distance_m", {"letter": solved.lights[0].letter, "value": value}


def _isos(base: float, most: float) -> list[int]:
    """ISO in whole stops from the base up."""
    return [round(base * 2**n) for n in range(30) if base * 2**n <= most]


def _reaches(solved: Solved, meter: Meter, key: Light, short: bool) -> bool:
    """Whether key and fill, as far up (or down) as they go, reach the aperture with the key at another place."""
    heads = [key, *(x for x in solved.by_role("fill") if x.emitter)]
    ends = [replace(x, power_stops=0.0 if short else float(x.emitter.head.range_stops)) for x in heads if x.emitter]
    mark = solved.mark_eyes
    got = reading(
        mark, meter.axis(mark), ends, solved.box, panels=meter.panels, blocks=solved.blocks, recessed=meter.recessed
    )
    at = f_number(got, solved.camera, solved.steady)
    error = float(exposure.stops_between(solved.camera.aperture, at))
    return error >= -0.1 if short else error <= 0.1


def _glare(solved: Solved, meter: Meter, problem: Problem) -> Iterator[Mended]:
    """A light in somebody's glasses: the nearest height and bearing at which nobody's lenses show it."""
    number, light = _light(solved, problem)

    def clear(made: Light) -> bool:
        other = replace(meter, solved=_with(solved, number, made))
        entries = [sitter_view.view(other.solved, other, s) for s in solved.pose.seated if s.person.wears_glasses]
        shown = [g for entry in entries for g in entry["glasses"] if g["light"] == light.letter]
        return all(g["cure"] is None for g in shown)

    for key in ("height_angle_deg", "bearing_deg"):
        value = _least(solved, light, key, clear)
        if value is not None:
            yield key, {"letter": light.letter, "value": value}
    if problem.values.get("cure"):
        yield "as_said", {"cure": problem.values["cure"]}


def _catchlight(solved: Solved, meter: Meter, problem: Problem) -> Iterator[Mended]:
    """A key that is missed in an eye: the nearest height and bearing at which this sitter has what is wanted."""
    number, key = 0, solved.lights[0]
    sitter = next(s for s in solved.pose.seated if s.person.label == problem.values["label"])

    def caught(made: Light) -> bool:
        other = replace(meter, solved=_with(solved, number, made))
        rows = sitter_view.view(other.solved, other, sitter)["catchlights"]
        seen = sum(1 for c in rows if c["light"] == key.letter and c["seen"])
        return seen >= int(problem.values["wanted"])

    for name in ("height_angle_deg", "bearing_deg"):
        value = _least(solved, key, name, caught)
        if value is not None:
            yield name, {"letter": key.letter, "value": value}


def _tone(solved: Solved, meter: Meter, problem: Problem) -> Iterator[Mended]:
    """A ground too dark or too light: where it would do, what it would have to reflect, what light it would take."""
    hung = solved.ground
    assert hung is not None
    low, high = hung.wanted
    bound = low if problem.code == "ground_dark" else high
    for distance in _steps(hung.distance_m, LEAST_GROUND_M, MOST_GROUND_M, STEP_M):
        lightness = _hung_at(solved, meter, distance).lightness
        if low <= lightness <= high:
            yield "ground_m", {"value": f"{distance:.2f}"}
            break
    shares = [n / 100 for n in range(1, 96)]
    fitting = [r for r in shares if low <= float(background.ground_lightness(r, hung.reading_above_setting)) <= high]
    if fitting:
        nearest = min(fitting, key=lambda r: abs(r - hung.item.reflectance))
        yield "reflects", {"share": f"{100 * nearest:.0f}"}
    stops = float(background.stops_for_lightness(hung.item.reflectance, max(bound, 1.0))) - hung.reading_above_setting
    if stops > 0:
        yield "ground_light", {"stops": f"{np.ceil(stops * 10 - 1e-6) / 10:.1f}"}


def _narrow(solved: Solved, meter: Meter, problem: Problem) -> Iterator[Mended]:
    """A ground that does not fill the picture: how much wider, or where it would fill it."""
    yield "wider_ground", {"short": f"{problem.short_by:g}"}
    hung = solved.ground
    assert hung is not None
    for distance in _steps(hung.distance_m, LEAST_GROUND_M, hung.distance_m, STEP_M):
        if _hung_at(solved, meter, distance).covers:
            yield "ground_m", {"value": f"{distance:.2f}"}
            return


def _hung_at(solved: Solved, meter: Meter, distance_m: float) -> Ground:
    """The ground measured at another distance, the lights as they stand."""
    return ground_at(solved, distance_m, meter.recessed, meter.at_key)


MENDS: dict[str, Callable[[Solved, Meter, Problem], Iterator[Mended]]] = {
    "ceiling": _in_the_way, "light_in_wall": _in_the_way, "in_picture": _in_the_way, "too_high": _reach,
    "power_short": _power, "power_over": _power, "glare": _glare, "catchlight": _catchlight, "ground_dark": _tone,
    "ground_light": _tone, "ground_narrow": _narrow,
}  # fmt: skip
