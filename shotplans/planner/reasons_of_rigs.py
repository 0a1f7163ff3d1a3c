"""Why the lights are carried, fed and fired as they are: arms, weights, circuits, batteries, movement, shutter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.light import exposure
from shotplans.planner import ballast, batteries, movement
from shotplans.planner.mounting import counter_arm_m
from shotplans.planner.plan import Solved
from shotplans.planner.reason import Reason, light_path
from studio.tongue import noop

KINEMATICS = noop("kinematics [FLASH-T]; speeds are common practice, no source")
LEVER = noop("lever law [LEVER]; the push is common practice, no source")
ENERGY = noop("conservation of energy; 0.7 of the charge reaches the tube: value from memory")
AMBIENT_KNOWN_STOPS = 90.0  # beyond, the room is dark


def rigs(solved: Solved, expected: dict[str, Any]) -> Iterator[Reason]:
    """All of them, from what holds the lights to what the shutter lets in."""
    yield from _arms(solved)
    yield from _steadiness(solved)
    yield from _feeds(solved, expected)
    yield from moving(solved)
    yield from _shutter(solved)


def _arms(solved: Solved) -> Iterator[Reason]:
    stands = {s.id: s for s in solved.notes["stands"]}  # type: ignore[attr-defined]
    for light in solved.lights:
        held = light.mounting
        boom = stands.get(held.stand) if held and held.boom else None
        if held is None or boom is None:
            continue
        mass = float(boom.arm_kg or 0.0)
        values = {
            "letter": light.letter, "boom": boom.id, "load": f"{ballast.load_kg(light):.1f}",
            "arm": f"{held.arm_m:.2f}", "weight": f"{held.counterweight_kg:.1f}",
            "counter_arm": f"{counter_arm_m(boom):.2f}",
        }  # fmt: skip
        code = "boom_with_arm" if mass else "boom"
        yield Reason(f"{light_path(light)}.counterweight_kg", code, ("kit.stands",), noop("lever law [LEVER]"),
                     values | ({"arm_kg": f"{mass:g}"} if mass else {}))  # fmt: skip


def _steadiness(solved: Solved) -> Iterator[Reason]:
    """The least steady of the lights, with the bag it wants and the push it then stands."""
    held = [r for r in ballast.rigs(solved) if r.letter]
    if not held:
        return
    least = min(held, key=lambda r: (round(r.tips_at_n, 6), r.letter))
    at = next(n for n, x in enumerate(solved.lights) if x.letter == least.letter)
    values = {
        "letter": least.letter, "load": f"{least.load_kg:.1f}", "height": f"{least.height_m:.2f}",
        "legs": f"{least.footprint_m:.2f}", "own": f"{least.own_kg:.1f}",
        "bag": f"{least.wanted_kg:.1f}", "have": f"{least.bag_kg:g}",
        "push": f"{ballast.PUSH_N:.0f}", "tips": f"{least.tips_at_n:.0f}",
    }  # fmt: skip
    yield Reason(f"lights[{at}].sandbag_kg", "steadiness", ("kit.stands",), LEVER, values)


def _feeds(solved: Solved, expected: dict[str, Any]) -> Iterator[Reason]:
    rows = [r for r in expected["load"] if r["watts"] > 0]
    if rows:
        fullest = max(rows, key=lambda r: r["watts"] / r["limit_watts"])
        values = {
            "circuit": fullest["circuit"], "letters": ", ".join(fullest["letters"]), "watts": f"{fullest['watts']:.0f}",
            "limit": f"{fullest['limit_watts']:.0f}", "peak": f"{fullest['peak_amps']:.1f}",
            "staggered": f"{fullest['staggered_amps']:.1f}",
        }  # fmt: skip
        yield Reason("expected.load", "load", ("room.circuits",), noop("continuous load [NEC]"), values)
    for light in solved.lights:
        frames = batteries.frames(light)
        if light.emitter and frames is not None:
            ready = batteries.ready_s(light)
            values = {"letter": light.letter, "frames": frames, "below": f"{light.power_stops:.1f}",
                      "ready": f"{ready:.1f}"}  # fmt: skip
            yield Reason(f"{light_path(light)}.power_below_full_stops", "charge", ("kit.heads",), ENERGY, values)


def moving(solved: Solved) -> Iterator[Reason]:
    """What the light freezes of the liveliest; under steady light, of any hand."""
    found = movement.smear(solved)
    if found is None:
        return
    values = {
        "speed": f"{found.speed_m_s:g}", "blur": f"{found.blur_mm:.1f}", "on_print": f"{found.print_mm:.2f}",
        "print_cm": f"{found.print_cm:g}", "circle": f"{found.circle_mm:.2f}",
    }  # fmt: skip
    path = (f"sitters[{found.index}].{found.field}",) if found.field else ("kit.heads",)
    if solved.steady:
        values["shutter"] = exposure.shutter_label(solved.camera.shutter_s)
        yield Reason("camera.shutter_s", "steady_blur", path, KINEMATICS, values)
    else:
        values |= {"head": str(found.head), "part": f"{1 / found.lasting_s:.0f}"}
        yield Reason("lights[0].head", "freeze", path, KINEMATICS, values)


def _shutter(solved: Solved) -> Iterator[Reason]:
    """How far the room's own light stays under a flash, where the room is not dark."""
    below = float(solved.notes["ambient_below_stops"])  # type: ignore[arg-type]
    if solved.steady or below > AMBIENT_KNOWN_STOPS:
        return
    c = solved.camera
    lux = float(exposure.illuminance_lx(c.aperture, c.shutter_s, c.iso)) * 2.0**-below
    values = {"shutter": exposure.shutter_label(c.shutter_s), "sync": exposure.shutter_label(c.body.sync_s),
              "below": f"{below:.1f}", "lux": f"{lux:.3g}"}  # fmt: skip
    yield Reason("camera.shutter_s", "ambient_under", ("room.ambient_lux",), "[ISO2720]", values)


