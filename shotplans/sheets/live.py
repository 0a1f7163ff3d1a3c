"""The drawing while a hand is on it: the sheet's own marks in layers on one ruler, where each thing is taken hold of,
and what a place on the sheet is in the room.

Belongs here: layers, grips, the outline that stays where a thing was suggested. The marks are the paper's own
(`diagram`, `set_marks`), so that what is dragged is what is printed. Not here: what a gesture does (`planner.by_hand`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from math import isfinite

from shotplans.sheets import bodies, diagram, ruler, svg
from shotplans.sheets.ruler import Ruler
from shotplans.sheets.scene import Scene, Source
from studio.paper.primitives import Line, Mark, Polyline, span_across

SIZE_MM = (190.0, 150.0)
MARGIN_MM = 4.0
PLAN, SIDE = "plan", "side"
THIN, SHORT_DASH = 0.2, (0.9, 0.7)
GROUND_GRIP_SHARE = 0.85  # of the way from the axis to the background's right end, where no name stands


@dataclass(frozen=True)
class Grip:
    """Where a thing is taken hold of: in the plan or in the elevation, millimetres on the sheet."""

    thing: str
    name: str
    view: str
    x: float
    y: float

    @property
    def key(self) -> str:
        return f"{self.thing}|{self.name}|{self.view}"


@dataclass(frozen=True)
class Layers:
    """What a page shows: the room, the suggestion's outlines, the set, and the grips over it; each as marks of SVG."""

    laid: Ruler
    room: str
    ghost: str
    set: str
    grips: tuple[Grip, ...]
    says: str
    across: tuple[float, float]  # from where to where the sheet is drawn on, millimetres: a telephone shows no margin


@dataclass(frozen=True)
class Sheet:
    """One set-up's sheet, kept on the ruler it was opened with while things on it move; `in_turn`: who sits at the
    mark changes, so nobody is moved there."""

    suggested: Scene
    in_turn: bool = False

    @cached_property
    def laid(self) -> Ruler:
        return ruler.lay(self.suggested, *SIZE_MM)

    @cached_property
    def room(self) -> str:
        return svg.layer(self._still)

    @cached_property
    def _still(self) -> list[Mark]:
        return diagram.still(self.suggested, self.laid)

    @cached_property
    def _standing(self) -> list[Mark]:
        return diagram.standing(self.suggested, self.laid)

    def layers(self, scene: Scene, *, settled: bool = True) -> Layers:
        """The layers of the set as it now stands. A set that has left the sheet is laid on a new ruler."""
        laid = self.laid if self._holds(scene) else ruler.lay(scene, *SIZE_MM)
        same = laid is self.laid and (scene.walls, scene.ground) == (self.suggested.walls, self.suggested.ground)
        as_suggested = settled and scene == self.suggested
        standing = self._standing if as_suggested else diagram.standing(scene, laid, settled=settled)
        return Layers(
            laid=laid,
            room=self.room if same else svg.layer(diagram.still(scene, laid)),
            ghost=svg.layer(_outlines(self.suggested, scene, laid)),
            set=svg.layer(standing),
            grips=tuple(_grips(scene, laid, self.in_turn)),
            says=diagram.describe(scene, laid.scale),
            across=self._shown(scene, laid, standing if settled else [], same),
        )

    def _shown(self, scene: Scene, laid: Ruler, standing: list[Mark], same: bool) -> tuple[float, float]:
        """As it was opened, wider where a word has come to stand outside: not while a hand moves, for it would jump."""
        if not same:
            return reach(diagram.still(scene, laid), standing)
        left, right = reach(standing) if standing else self.across
        return min(left, self.across[0]), max(right, self.across[1])

    @cached_property
    def across(self) -> tuple[float, float]:
        return reach(self._still, self._standing)

    def _holds(self, scene: Scene) -> bool:
        if scene == self.suggested:
            return True
        part = self.laid.part
        places = [s.at for s in scene.sources] + [p.face for p in scene.people]
        places.append((0.0, scene.camera.height_m, scene.camera.distance_m))
        inside = all(
            part.left <= x <= part.right and part.back <= z <= part.front and y <= part.top for x, y, z in places
        )
        return inside and -scene.ground.distance_m >= part.back


def written(laid: Ruler) -> str:
    """A ruler as the page keeps it, to say with each place on the sheet what that place means."""
    part = laid.part
    values = (laid.mm, laid.middle, laid.plan_top, laid.floor, part.left, part.right, part.back, part.front, part.top)
    return " ".join(f"{v:.3f}" for v in values)


def place(ruler_words: str, view: str, x_mm: float, y_mm: float) -> tuple[float, float]:
    """What of the room lies at a point of the sheet, kept inside the part that is shown: (right, toward the camera) of
    the plan, (right, up) of the elevation; metres. Raises ValueError for a ruler that is none."""
    mm, middle, plan_top, floor, left, right, back, front, top = (float(part) for part in ruler_words.split())
    if not (mm > 0 and all(isfinite(v) for v in (mm, middle, plan_top, floor, x_mm, y_mm))):
        raise ValueError("not a ruler")
    across = min(max((x_mm - middle) / mm, left), right)
    if view == SIDE:
        return across, min(max((floor - y_mm) / mm, 0.0), top)
    return across, min(max((y_mm - plan_top) / mm + back, back), front)


def _grips(scene: Scene, laid: Ruler, in_turn: bool) -> Iterator[Grip]:
    for source in scene.sources:
        yield Grip("light", source.letter, PLAN, *laid.above(source.at))
        yield Grip("light", source.letter, SIDE, *laid.before(source.at))
    camera = scene.camera
    yield Grip("camera", "", PLAN, *laid.plan(0.0, camera.distance_m))
    yield Grip("camera", "", SIDE, *laid.elevation(0.0, camera.height_m))
    right = min(scene.ground.width_m / 2, laid.part.right) * GROUND_GRIP_SHARE
    yield Grip("background", "", PLAN, *laid.plan(right, -scene.ground.distance_m))
    if not in_turn:
        for person in scene.people:
            yield Grip("sitter", person.label, PLAN, *laid.above(person.face))


def _outlines(suggested: Scene, scene: Scene, laid: Ruler) -> Iterator[Mark]:
    """A thin dashed outline where each thing that has moved was suggested."""
    for was, now in zip(suggested.sources, scene.sources, strict=True):
        if was.at != now.at:
            yield from _front(was, laid)
    if suggested.camera.distance_m != scene.camera.distance_m:
        z = suggested.camera.distance_m
        yield _dashed([laid.plan(x, z + y) for x, y in ((-0.08, 0.0), (0.08, 0.0), (0.08, 0.23), (-0.08, 0.23))])
    if suggested.camera.height_m != scene.camera.height_m:
        y = suggested.camera.height_m
        box = ((-0.08, -0.05), (0.08, -0.05), (0.08, 0.05), (-0.08, 0.05))
        yield _dashed([laid.elevation(a, y + b) for a, b in box])
    if suggested.ground.distance_m != scene.ground.distance_m:
        half = min(suggested.ground.width_m / 2, laid.part.right, -laid.part.left)
        a, b = (laid.plan(x, -suggested.ground.distance_m) for x in (-half, half))
        yield Line(a, b, THIN, SHORT_DASH, part="suggested")
    for before, after in zip(suggested.people, scene.people, strict=True):
        if before.face != after.face:
            yield _dashed([laid.above(p) for p in bodies.crown(before)])


def _front(source: Source, laid: Ruler) -> Iterator[Mark]:
    yield _dashed([laid.above(p) for p in bodies.front(source)])
    yield _dashed([laid.before(p) for p in bodies.front(source)])


def _dashed(points: list[tuple[float, float]]) -> Mark:
    return Polyline(tuple(points), THIN, closed=True, dash=SHORT_DASH, part="suggested")


def reach(*layers: Iterable[Mark]) -> tuple[float, float]:
    """From where to where a sheet of `SIZE_MM` is drawn on, with a little room."""
    left, right = span_across(mark for layer in layers for mark in layer)
    return max(0.0, left - MARGIN_MM), min(SIZE_MM[0], right + MARGIN_MM)
