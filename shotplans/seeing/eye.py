"""Both eyes of a sitter as the camera sees them, each light's reflection where the mirror law puts it, cut by the lids.

Belongs here: the drawing, and whose eyes are worth one. Not here: the law (`light.eyes`), or the words beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import eyes
from shotplans.planner import anatomy, sitter_view
from shotplans.planner.judge import BRIDGE_MM, EYE_APART_M
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Solved
from shotplans.sheets.labels import Placer
from studio.paper.primitives import Box, Circle, Drawing, Mark, Point, Polyline, Text
from studio.tongue import gettext as _

F = NDArray[np.float64]
WIDE_MM, TALL_MM = 150.0, 40.0
SCALE = 2.2  # drawn over true
MIDDLES: tuple[Point, Point] = ((38.0, 19.0), (112.0, 19.0))
HALF_EYE_MM, CORNER_MM, LID_POWER = 14.5, -2.0, 3.0  # corner to corner and how low the corners lie: drawing, no source
IRIS_MM, PUPIL_MM = 5.85, 2.0
LID_LINE_MM, IRIS_LINE_MM, LIGHT_LINE_MM, LETTER_MM = 0.45, 0.2, 0.5, 4.2
MOST_EACH = 4  # more sitters: the first, and those whose eyes show otherwise


def worth_drawing(per_sitter: Sequence[dict[str, Any]]) -> list[int]:
    """Which of the sitters get a drawing: all of a few; of many the first, and whoever's eyes show other lights."""
    if len(per_sitter) <= MOST_EACH:
        return list(range(len(per_sitter)))

    def shown(entry: dict[str, Any]) -> set[tuple[str, str]]:
        return {(str(c["light"]), str(c["image_side"])) for c in entry["catchlights"] if c["seen"]}

    return [n for n, entry in enumerate(per_sitter) if n == 0 or shown(entry) != shown(per_sitter[0])]


def see(solved: Solved, sitter: Seated) -> Drawing:
    """The eyes of one sitter at the mark, the picture's left one on the left."""
    lights = solved.by_role("key", "fill")
    marks: list[Mark] = []
    for n in range(2):
        marks += _eye(MIDDLES[n])
    seen: list[tuple[int, Light, tuple[Point, ...]]] = []
    for n in range(2):
        marks.append(
            Text((MIDDLES[n][0], TALL_MM - 1.5), (_("eye on the left"), _("eye on the right"))[n], 3.4, part="name")
        )
        for light in lights:
            edge = _reflection(solved, sitter, light, n)
            if edge is not None:
                seen.append((n, light, _path(MIDDLES[n], edge[:, 0], edge[:, 1])))
    marks += [Polyline(path, LIGHT_LINE_MM, closed=True, part=f"light-{light.letter}") for _n, light, path in seen]
    placer = Placer(Box(1.0, 1.0, WIDE_MM - 1.0, TALL_MM - 5.0), marks)
    for n, light, path in seen:
        others = [p[0] for m, _light, other in seen if m == n for p in other]
        leftmost = min(p[0] for p in path) <= min(others)
        marks += placer.place(
            light.letter, LETTER_MM, (min if leftmost else max)(path), bold=True, clear=1.0, reach=30.0,
            toward_deg=180.0 if leftmost else 0.0,
        )  # fmt: skip
    said = _("Both eyes of {label}, larger than life, with the lights mirrored in them").format(
        label=sitter.person.label
    )
    return Drawing(WIDE_MM, TALL_MM, 1, _("The eyes of {label}").format(label=sitter.person.label), said, tuple(marks))


def _reflection(solved: Solved, sitter: Seated, light: Light, n: int) -> F | None:
    """The visible edge (k, 2) of a light in the nth eye, mm right and up of the pupil; None where nothing shows."""
    side = float(sitter_view.EYE_SIDES[n])
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    seat = np.array(sitter.face_m) + turn @ np.array([side * EYE_APART_M, 0.0, 0.0])
    camera, source = (solved.camera.at - seat) @ turn * 1000, (light.at - seat) @ turn * 1000
    gaze = anatomy.gaze_deg(camera)
    because = int(eyes.unseen_because(source, camera, side, sitter.person.brow_mm, BRIDGE_MM, *gaze))
    if because not in (eyes.CLEAR, eyes.LID):
        return None
    x, y = eyes.catchlight_edge(
        source, light.axis @ turn, sitter_view.size_mm(light), camera, sitter_view.roll_deg(light, turn), *gaze
    )
    return cut(x, y)


def cut(x: F, y: F) -> F | None:
    """An edge (k,) cut by the lids and the cornea's rim: (k, 2), or None where no more than a sliver is left."""
    far = np.hypot(x, y)
    inside = np.minimum(1.0, IRIS_MM / np.maximum(far, 1e-9))
    x, y = x * inside, y * inside
    y = np.clip(y, lower_lid(x), upper_lid(x))
    left: F = np.stack([x, y], axis=-1)
    return left if np.ptp(y) > 0.2 and np.ptp(x) > 0.1 else None


def upper_lid(x: F) -> F:
    """Height (mm over the pupil) of the upper lid's edge at a place across the eye; its middle is [LIGHT-5]."""
    return _lid(x, eyes.UPPER_LID_MM)


def lower_lid(x: F) -> F:
    """Height (mm, below zero) of the lower lid's edge; its middle is [LIGHT-5]."""
    return _lid(x, eyes.LOWER_LID_MM)


def _lid(x: F, middle: float) -> F:
    found: F = middle + (CORNER_MM - middle) * np.minimum(np.abs(x) / HALF_EYE_MM, 1.0) ** LID_POWER
    return found


def _eye(middle: Point) -> list[Mark]:
    x = np.linspace(-HALF_EYE_MM, HALF_EYE_MM, 41)
    lids = [Polyline(_path(middle, x, lid(x)), LID_LINE_MM, part="lid") for lid in (upper_lid, lower_lid)]
    turn = np.linspace(0.0, 2 * np.pi, 73)
    iris = cut(IRIS_MM * np.sin(turn), IRIS_MM * np.cos(turn))
    assert iris is not None
    ring = Polyline(_path(middle, iris[:, 0], iris[:, 1]), IRIS_LINE_MM, part="iris")
    return [*lids, ring, Circle(middle, PUPIL_MM * SCALE, IRIS_LINE_MM, part="pupil")]


def _path(middle: Point, x: F, y: F) -> tuple[Point, ...]:
    return tuple(_at(middle, float(a), float(b)) for a, b in zip(x, y, strict=True))


def _at(middle: Point, x: float, y: float) -> Point:
    return middle[0] + float(x) * SCALE, middle[1] - float(y) * SCALE
