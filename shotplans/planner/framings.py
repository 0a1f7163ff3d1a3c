"""How much of a person each framing holds, and from how far: rules of taste as data.

Field heights are at the sitter, in metres, for an upright and a horizontal picture. `floor_m` is the nearest camera
that keeps a face in proportion (a nose tip 12 cm before the ears looks 6 % larger at 2 m, 12 % at 1 m), `wanted_m`
the distance a studio likes. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio.tongue import noop


@dataclass(frozen=True)
class Framing:
    """One framing: field heights, camera distances and where the eyes sit in the picture."""

    name: str
    words: str
    upright_m: float
    horizontal_m: float
    floor_m: float
    wanted_m: float
    couple_wanted_m: float
    eyes_from_top: float


FRAMINGS: dict[str, Framing] = {
    "head": Framing("head", noop("head"), 0.50, 0.38, 1.5, 1.7, 2.2, 0.42),
    "head_and_shoulders": Framing("head_and_shoulders", noop("head and shoulders"), 0.85, 0.49, 1.7, 2.0, 2.4, 0.37),
    "half": Framing("half", noop("half length"), 0.94, 0.82, 1.8, 2.3, 3.0, 0.33),
    "three_quarter": Framing("three_quarter", noop("three-quarter length"), 1.32, 1.20, 2.2, 3.2, 3.6, 0.27),
    "full": Framing("full", noop("full length"), 2.10, 2.10, 3.0, 4.2, 4.5, 0.16),
    "group": Framing("group", noop("group"), 2.10, 2.10, 3.0, 5.0, 4.0, 0.20),
}

# L* ranges of the ground a client can ask for by name.
TONES: dict[str, tuple[float, float]] = {
    "black": (0.0, 8.0),
    "dark": (5.0, 25.0),
    "mid": (28.0, 52.0),
    "light": (55.0, 82.0),
    "white": (95.0, 100.0),
}

# Distance from sitter to ground tried first, and its range.
GROUND_DISTANCE_M: dict[str, tuple[float, float, float]] = {
    "black": (2.0, 1.5, 3.5),
    "dark": (1.8, 1.4, 3.0),
    "mid": (2.0, 1.4, 2.6),
    "light": (1.6, 1.2, 2.4),
    "white": (2.0, 1.6, 3.0),
}

PHOTOGRAPHER_M = 0.6  # room behind the camera
BIG_PRINT_CM = 50.0  # from here the smaller blur circle is used
EDGE_MARGIN = 0.04  # share of the half picture kept clear of stands and cloth
