"""`python -m tests.bench NAME`: time a part of the engine, as a ratio to plain NumPy work of the same run.

A ratio travels from machine to machine where seconds do not. The reference is one million exponentials of
float64 on one core, the kind of work the formulas are made of. Those of `REPORTS` print figures
against the limits they must keep and end with status 1 where one is broken.
"""

from __future__ import annotations

import sys
from collections.abc import Callable

import numpy as np

from shotplans.light.glasses import glare
from shotplans.light.relief import relief
from shotplans.light.sources import disc_irradiance, rect_irradiance
from tests.bench import (
    asking,
    backups,
    corrected,
    crowds,
    desk,
    drag,
    frames,
    heads,
    live,
    optimum,
    pages,
    paint,
    papers,
    races,
    shots,
)
from tests.bench.planning import planning, setups_of
from tests.bench.printing import printing
from tests.bench.timing import best_seconds

PATCHES = 40_000
POINTS = 20_000
ROUNDS = 7


def _units(rng: np.random.Generator, *shape: int) -> np.ndarray:
    vectors = rng.normal(size=(*shape, 3))
    return vectors / np.linalg.norm(vectors, axis=-1, keepdims=True)


def _relief() -> dict[str, Callable[[], object]]:
    rng = np.random.default_rng(1)
    normals, lights = _units(rng, PATCHES), _units(rng, PATCHES, 2)
    alpha = rng.uniform(0.05, 0.7, (PATCHES, 2))
    skin = {"dome": 0.1, "reflectance": 0.3, "roughness": 0.3, "aspect": 0.15}
    camera = (0.0, 0.0, 1.0)
    return {
        f"relief of {PATCHES} patches, two lights": lambda: relief(normals, camera, lights, alpha, [1.0, 0.3], **skin)
    }


def _irradiance() -> dict[str, Callable[[], object]]:
    rng = np.random.default_rng(2)
    points, normals = rng.normal(size=(POINTS, 3)), _units(rng, POINTS)
    centre, axis = np.array([0.0, 1.0, 2.0]), np.array([0.0, -1.0, -2.0]) / np.sqrt(5)
    return {
        f"disc on {POINTS} points, some cut": lambda: disc_irradiance(points, normals, centre, axis, 1.5),
        f"panel on {POINTS} points, some cut": lambda: rect_irradiance(points, normals, centre, axis, 1.5, 0.6),
    }


def _glare() -> dict[str, Callable[[], object]]:
    lights = 1500 * _units(np.random.default_rng(3), POINTS)
    head = {"side": 1, "yaw_deg": 10.0, "pitch_deg": 0.0, "base_dioptre": 4.0}
    return {f"glare of {POINTS} lights": lambda: glare(lights, 600.0, (0.0, 0.0, 1800.0), **head)}


BENCHES = {"relief": _relief, "irradiance": _irradiance, "glare": _glare, "planning": planning, "printing": printing}

REPORTS: dict[str, Callable[[], bool]] = {
    "backup": backups.report,
    "corrections": corrected.report,
    "crowds": crowds.report,
    "optimum": optimum.report,
    "frames": frames.report,
    "heads": heads.report,
    "shots": shots.report,
    "whatif": asking.report,
    "drag": drag.report,
    "live": live.report,
    "pages": pages.report,
    "paint": paint.report,
    "papers": papers.report,
    "desk": desk.report,
    "desk-postgresql": lambda: desk.report("postgresql"),
    "race": races.report,
    "race-postgresql": lambda: races.report("postgresql"),
}


def main(arguments: list[str]) -> int:
    if len(arguments) != 1 or arguments[0] not in BENCHES | REPORTS:
        print(f"usage: python -m tests.bench {'|'.join(BENCHES | REPORTS)}", file=sys.stderr)
        return 2
    if arguments[0] in REPORTS:
        return 0 if REPORTS[arguments[0]]() else 1
    million = np.linspace(-5.0, 0.0, 1_000_000)
    reference = best_seconds(lambda: np.exp(million), ROUNDS)
    print(f"reference: a million exponentials in {1000 * reference:.1f} ms = 1.0")
    for name, work in BENCHES[arguments[0]]().items():
        seconds = best_seconds(work, ROUNDS)
        shared = seconds / setups_of(name) if arguments[0] == "planning" else seconds
        each = " a set-up" if arguments[0] == "planning" else ""
        print(f"{name}: {shared / reference:.1f}{each} ({1000 * shared:.1f} ms here)")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
