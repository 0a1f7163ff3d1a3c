"""Why people are placed as they are: turns, pairs, rows, focus, steps and seats. Called by reasons.py."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from shotplans.planner import groups, pattern
from shotplans.planner.expect import Meter, bearing_from_nose
from shotplans.planner.people import OLDER_YEARS, SMALL_YEARS, Seated
from shotplans.planner.plan import Solved
from shotplans.planner.reason import OPTICS, TRADE, Reason, light_path
from shotplans.planner.rows import STEP_PERSON_KG
from shotplans.planner.words import sides
from shotplans.planner.words.people import listed
from studio.tongue import gettext as _
from studio.tongue import noop

BODIES = noop("bodies [values.md A01-A24] and geometry")
WHICH = {"short": noop(": short light"), "broad": noop(": broad light")}


def people(solved: Solved, meter: Meter, at: str) -> Iterator[Reason]:
    together = solved.pose.together
    framing = (f"{at}.framing",)
    if solved.pose.in_turn:
        yield Reason("changes_per_person", "in_turn", framing, TRADE, {"people": len(solved.pose.seated)})
    if len(together) == 1 and together[0].nose_deg:
        yield _turn(solved, framing)
    if len(together) == 2 and solved.setup.framing != "group":
        yield from _pair(solved, framing)
    if len(together) > 3 and groups.is_group(solved):
        yield _rows(together, framing)
    if groups.is_group(solved):
        yield from _group(solved, framing)
        yield from _rows_lit(solved, meter)
        yield from _steps(solved)
        yield from _seats(together)


def _turn(solved: Solved, framing: tuple[str, ...]) -> Reason:
    s = solved.pose.together[0]
    rel = bearing_from_nose(solved.lights[0], s)
    which = pattern.side(s.nose_deg, rel)
    return Reason(
        "sitters[0].nose_bearing_deg",
        "turn",
        framing,
        TRADE,
        {
            "label": s.person.label if not solved.pose.in_turn else _("Each sitter"),
            "turn": f"{abs(s.nose_deg):.0f}",
            "side": sides.said("right" if s.nose_deg > 0 else "left"),
            "rel": f"{abs(rel):.0f}",
            "which": "" if which == "none" else _(WHICH[which]),
        },
    )


def _pair(solved: Solved, framing: tuple[str, ...]) -> Iterator[Reason]:
    key = solved.lights[0]
    far, near = sorted(solved.pose.together, key=lambda s: -float(np.linalg.norm(key.at - np.array(s.face_m))))
    values = {"far": far.person.label, "near": near.person.label, "turn": f"{abs(far.nose_deg):.0f}"}
    yield Reason("sitters", "pair", framing, TRADE, values)
    older = [s.person.index for s in (far, near) if s.person.age >= OLDER_YEARS]
    if older:
        apart = abs(far.face_m[0] - near.face_m[0])
        yield Reason(
            "sitters", "pair_apart", (f"sitters[{min(older)}].age_years",), TRADE, {"apart": f"{apart:.2f}"}
        )


def _rows(together: tuple[Seated, ...], framing: tuple[str, ...]) -> Reason:
    steps = [
        b - a
        for row in {s.row for s in together}
        for a, b in _neighbours([s.face_m[0] for s in together if s.row == row and s.person.posture != "lap"])
    ]
    values = {
        "rows": len({s.row for s in together}),
        "spacing": f"{float(np.mean(steps)) if steps else 0.0:.2f}",
        "depth": f"{groups.depth_m(together):.2f}",
    }
    return Reason("sitters", "rows" if values["rows"] != 1 else "one_row", framing, BODIES, values)


def _neighbours(xs: list[float]) -> Iterator[tuple[float, float]]:
    yield from pairwise(sorted(xs))


def _group(solved: Solved, framing: tuple[str, ...]) -> Iterator[Reason]:
    together, camera = solved.pose.together, solved.camera
    eyes = [s.face_m[1] for s in together]
    size = {
        "width": f"{groups.width_m(together):.2f}",
        "depth": f"{groups.depth_m(together):.2f}",
        "low": f"{min(eyes):.2f}",
        "high": f"{max(eyes):.2f}",
    }
    yield Reason("expected.group", "group_size", framing, BODIES, size)
    if len({s.row for s in together}) > 1 and not groups.hidden(solved):
        over = 100 * (camera.height_m - sum(eyes) / len(eyes))
        values = {"camera": f"{camera.height_m:.2f}", "over": f"{over:.0f}"}
        yield Reason("camera.height_m", "faces_clear", framing, BODIES, values)
    found = groups.focus(solved)
    off = camera.distance_m - found.distance_m
    if camera.focus_m != camera.distance_m:
        focus = {
            "focus": f"{found.distance_m:.2f}",
            "off": f"{100 * abs(off):.0f}",
            "way": _("before") if off > 0 else _("behind"),
            "need": f"{found.need:.1f}",
            "third": f"{found.need_a_third_in:.1f}",
            "label": found.nearest.person.label,
            "near": f"{100 * abs(found.off_m):.0f}",
        }
        yield Reason("expected.group", "group_focus", framing, noop("thin lens [DOF]"), focus)


def _rows_lit(solved: Solved, meter: Meter) -> Iterator[Reason]:
    if len({s.row for s in solved.pose.together}) < 2:
        return
    for light in solved.by_role("key", "fill"):
        worst = groups.shade(solved, meter, light) if light.emitter else None
        if worst is None or worst.stops > groups.SHADED_MOST_STOPS or worst.share < 0.005:
            continue
        values = {
            "letter": light.letter,
            "height": f"{worst.height_deg:.0f}",
            "label": worst.label,
            "by": worst.by,
            "share": f"{100 * worst.share:.0f}",
            "clear": f"{np.ceil(worst.clear_height_deg):.0f}",
        }
        yield Reason(light_path(light), "rows_lit", (), OPTICS, values)


def _steps(solved: Solved) -> Iterator[Reason]:
    together, stage = solved.pose.together, solved.pose.stage
    risers = {r.id: r for r in stage.risers} if stage else {}
    for step in dict.fromkeys(s.step for s in together if s.step):
        up = [s for s in together if s.step == step]
        lifted = up[0].face_m[1] - up[0].person.eye_m
        values = {
            "who": listed([s.person.label for s in up]),
            "step": step,
            "up": f"{100 * lifted:.0f}",
            "rating": f"{float(risers[step].rating_kg or 0.0):g}",
            "each": f"{STEP_PERSON_KG:.0f}",
        }
        yield Reason("sitters", "on_steps", ("kit.risers",), TRADE, values)


def _seats(together: tuple[Seated, ...]) -> Iterator[Reason]:
    wheels = [s for s in together if s.person.posture == "wheelchair" and _inside(s, together)]
    for code, chosen, key in (
        (_chair_code(wheels, together), wheels, "posture"),
        ("chair_for_floor", _moved(together, "floor"), "posture"),
        ("chair_for_standing", _moved(together, "standing"), "stand_minutes"),
        ("small_last", [s for s in together if s.person.age < SMALL_YEARS], "age_years"),
    ):
        if chosen:
            paths = tuple(f"sitters[{s.person.index}].{key}" for s in chosen)
            yield Reason("sitters", code, paths, TRADE, {"who": listed([s.person.label for s in chosen])})


def _moved(together: tuple[Seated, ...], asked: str) -> list[Seated]:
    """Who asked for one posture and is planned in another."""
    return [s for s in together if s.person.sitter.posture == asked != s.person.posture]


def _inside(one: Seated, together: tuple[Seated, ...]) -> bool:
    """Whether somebody is on either side in the row."""
    xs = [s.face_m[0] for s in together if s.row == one.row]
    return min(xs) < one.face_m[0] < max(xs)


def _chair_code(wheels: list[Seated], together: tuple[Seated, ...]) -> str:
    """How a person's own chair stands: inside a row of seats, or among people who stand."""
    rows = {s.row for s in wheels}
    return "own_chair" if any(s.person.posture == "seated" for s in together if s.row in rows) else (
        "own_chair_among_standing"
    )
