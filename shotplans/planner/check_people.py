"""Limits of the faces: catchlights, glasses, evenness, depth, rows and what one hides of another. Part of check.py."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.light import exposure, lenses
from shotplans.light.units import round_to
from shotplans.planner import cures, groups
from shotplans.planner.arrange import MOST_ROWS
from shotplans.planner.expect import Meter
from shotplans.planner.frame import CLOSED_MOST
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem, up
from shotplans.planner.rows import breadth_m
from shotplans.planner.words import people as words
from studio.tongue import noop


def eyes_and_glasses(solved: Solved, sitters: list[dict[str, Any]]) -> Iterator[Problem]:
    key = solved.lights[0].letter
    wanted = 2 if solved.targets.row.both_eyes and solved.setup.view != "profile" else 1
    for entry in sitters:
        lit = sum(1 for c in entry["catchlights"] if c["light"] == key and c["seen"])
        if lit < wanted:
            yield Problem(
                None,
                "catchlight",
                float(wanted - lit),
                "eyes",
                "catchlight",
                {"label": entry["label"], "seen": lit, "wanted": wanted},
            )
        for g in entry["glasses"]:
            if g["cure"]:
                yield Problem(
                    None,
                    "glare",
                    max(1.0, 1.0 - g["margin_deg"]),
                    "deg",
                    "glare",
                    {"label": entry["label"], "letter": g["light"], "cure": g["cure"]},
                )


def evenness(solved: Solved, meter: Meter, expected: dict[str, Any]) -> Iterator[Problem]:
    limit, spread = solved.targets.row.faces_stops, expected["evenness_stops"]
    if spread > float(round_to(limit, 0.1)) + 1e-9:
        bright, dim = expected["worst_pair"]
        found = words.cures([(c.code, c.gain) for c in cures.evenness(solved, meter)], noop("stops"))
        yield Problem(
            None,
            "evenness",
            max(0.1, round(spread - limit, 1)),
            "stops",
            "evenness",
            {"spread": spread, "limit": limit, "bright": bright, "dim": dim, "cures": found},
        )


def sharpness(solved: Solved) -> Iterator[Problem]:
    c = solved.camera
    near, far = lenses.depth_of_field_m(c.focal_mm, c.aperture, c.focus_m, c.blur_mm)
    short = max(c.distance_m - c.front_m, 0.05)
    missing = max(float(near) - short, c.distance_m + c.behind_m - float(far))
    if missing > 0.005:
        need = float(lenses.aperture_for_depth(c.focal_mm, c.focus_m, *c.zone_m, c.blur_mm))
        many = len(solved.pose.together) > 1
        found = words.cures([(x.code, x.gain) for x in cures.depth(solved)], noop("stops of aperture")) if many else ""
        most = min(CLOSED_MOST, float(c.lens.min_aperture or CLOSED_MOST))
        values = {"need": words.aperture(need, most), "shown": exposure.shown(c.aperture), "cures": found}
        code = "sharpness_of_group" if many else "sharpness"
        yield Problem(None, "sharpness", round(max(missing, 0.01), 2), "m", code, values)


def room(solved: Solved) -> Iterator[Problem]:
    """Whether the people, from the outermost elbow to the other, fit between the strips kept free along the walls."""
    box = solved.box
    widest = max(abs(s.face_m[0]) + breadth_m(s.person) / 2 for s in solved.pose.together)
    beside = widest - (box.across_m / 2 - box.keep_out_m + 0.1)
    if beside > 1e-6:
        found = words.cures([(c.code, c.gain) for c in cures.width(solved)], noop("m"))
        code = "group_too_wide" if groups.is_group(solved) else "no_room_for_people"
        yield Problem(None, "room", up(2 * beside), "m", code, {"cures": found})


def people(solved: Solved, meter: Meter) -> Iterator[Problem]:
    rows = {s.row for s in solved.pose.together}
    if len(rows) > MOST_ROWS:
        yield Problem(None, "people", float(len(rows) - MOST_ROWS), "rows", "too_many_rows", {"rows": len(rows)})
    if solved.targets.intent_offered:
        yield Problem(None, "people", float(len(solved.pose.together) - 3), "people", "character_for_many", {})
    yield from _chairs(solved)
    if len(rows) > 1:
        yield from _faces_hidden(solved)
        yield from _faces_shaded(solved, meter)


def _chairs(solved: Solved) -> Iterator[Problem]:
    """Who is to sit and has no chair; people in turn share one."""
    without = [s for s in solved.pose.together if s.person.posture == "seated" and s.person.seat is None]
    if without:
        who = words.listed([s.person.label for s in without])
        yield Problem(None, "kit", float(len(without)), "chairs", "chairs_short", {"who": who, "count": len(without)})


def _faces_hidden(solved: Solved) -> Iterator[Problem]:
    """One problem for all faces that are not clear: who is behind whom, and the smallest mend of the worst."""
    found = groups.hidden(solved)
    if not found:
        return
    worst, by, _ = found[0]
    values = {
        "count": len(found),
        "who": words.hidden([(w.person.label, b.person.label, share) for w, b, share in found]),
        "mend": words.clearing(
            worst.person.label,
            by.person.label,
            step_m=cures.step_under(solved, worst),
            camera_m=cures.camera_up(solved),
            fewer=cures.person_fewer_clears(solved, by),
        ),
    }
    yield Problem(None, "people", float(len(found)), "faces", "faces_hidden", values)


def _faces_shaded(solved: Solved, meter: Meter) -> Iterator[Problem]:
    for light in solved.by_role("key", "fill"):
        if light.emitter is None:
            continue
        worst = groups.shade(solved, meter, light)
        if worst is None or worst.stops <= groups.SHADED_MOST_STOPS:
            continue
        turns = cures.light_clear(solved, meter, light, groups.SHADED_MOST_STOPS)
        yield Problem(
            None,
            "evenness",
            max(0.1, round(worst.stops - groups.SHADED_MOST_STOPS, 1)),
            "stops",
            "face_shaded",
            {
                "letter": light.letter,
                "label": worst.label,
                "by": worst.by,
                "share": f"{100 * worst.share:.0f}",
                "stops": f"{worst.stops:.1f}",
                "mend": words.unshaded(light.letter, turns),
            },
        )
