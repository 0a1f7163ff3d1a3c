"""The set drawn like an architect's sheet: plan above, elevation below on the same ruler, lettered and dimensioned.

The elevation is what the camera sees, so left on the sheet is camera left in both views. Words are set last, each
where it covers least: letters and names first, then distances, bearings and heights.
"""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, degrees, radians, sin

from shotplans.planner.words import roles
from shotplans.sheets import room_marks, ruler, set_marks, wording
from shotplans.sheets.labels import Placer
from shotplans.sheets.ruler import Ruler
from shotplans.sheets.scene import Person, Scene, Source
from studio.paper import fonts
from studio.paper.primitives import Box, Circle, Drawing, Mark, Point, Polyline, Text
from studio.tongue import gettext as _

LETTER_MM, NAME_MM, NUMBER_MM = 5.0, 3.6, 3.5
SMALLEST_TEXT_MM = 3.2
EDGE_MM = 0.5
MOST_NAMED, MOST_NUMBERED = 3, 12
MOST_LIGHTS = 5
FIRST_ARC_M, NEXT_ARC_M = 0.45, 0.16


def draw(scene: Scene, width_mm: float, height_mm: float) -> Drawing:
    """The drawing of a scene on a sheet of this size."""
    laid = ruler.lay(scene, width_mm, height_mm)
    title = _("Plan and elevation of the set-up {name}").format(name=scene.name)
    marks = (*still(scene, laid), *standing(scene, laid))
    return Drawing(width_mm, height_mm, laid.scale, title, describe(scene, laid.scale), marks)


def still(scene: Scene, laid: Ruler) -> list[Mark]:
    """The grid and the room, under everything that stands in it."""
    room = [*room_marks.walls(laid), *room_marks.background(scene, laid)]
    return [*room_marks.grid(laid, scene.measures.grid_m), *room]


def standing(scene: Scene, laid: Ruler, *, settled: bool = True) -> list[Mark]:
    """What stands on the set, with its dimensions and words. While a hand still moves it (not `settled`) words keep
    clear of each other alone: to look for the place with the fewest lines under it takes as long as all the rest."""
    things: list[Mark] = set_marks.camera(scene.camera, scene, laid)
    for source in (*scene.panels, *scene.sources):
        things += set_marks.source_above(source, laid)
        things += set_marks.source_before(source, laid)
    things += set_marks.people(scene, laid)
    things += _arcs(scene, laid)
    chains, numbers = _chains(scene, laid)
    things += chains
    frame = Box(EDGE_MM, EDGE_MM, laid.width - EDGE_MM, laid.height - EDGE_MM)
    under = [*room_marks.walls(laid), *room_marks.background(scene, laid), *things] if settled else ()
    placer = Placer(frame, under)
    words = _titles(scene, laid, placer) + _letters(scene, laid, placer) + _names(scene, laid, placer)
    for text, anchor, toward in (*numbers, *_distances(scene, laid), *_bearings(scene, laid)):
        words += placer.place(text, NUMBER_MM, anchor, toward_deg=toward, part="number")
    return [*things, *words]


def is_dense(scene: Scene) -> bool:
    """Whether there is more on the set than a third of a page can show with all its numbers."""
    return len(scene.sources) > MOST_LIGHTS or len(scene.people) > MOST_NUMBERED


def numbered(scene: Scene) -> bool:
    """Whether sitters go by number in the drawing, because there are too many for names."""
    return len(scene.people) > MOST_NAMED


def describe(scene: Scene, scale: int) -> str:
    """The drawing in words, for who cannot see it."""
    length = scene.measures.length
    said = [
        _("Scale 1:{scale}. Plan above, elevation from the camera below; grid {grid_words}.").format(
            scale=scale, grid_words=scene.measures.grid_words
        )
    ]
    for s in scene.sources:
        said.append(
            _("Light {letter}, {role}: {distance} away, bearing {bearing}, centre {centre_height} high.").format(
                letter=s.letter,
                role=roles.said(s.role),
                distance=length(s.distance_m),
                bearing=wording.bearing(s.bearing_deg),
                centre_height=length(s.centre_height_m),
            )
        )
    who = ", ".join(p.label for p in scene.people)
    said.append(
        _("At the mark: {who}. Camera {distance} from the mark.").format(
            who=who, distance=length(scene.camera.distance_m)
        )
    )
    said.append(
        _("Background {label} {distance} behind the mark.").format(
            label=scene.ground.label, distance=length(scene.ground.distance_m)
        )
    )
    return " ".join(said)


def _titles(scene: Scene, laid: Ruler, placer: Placer) -> list[Mark]:
    """What each view is, under it."""
    words = _("plan above, elevation below, 1:{scale}, grid {grid_words}").format(
        scale=laid.scale, grid_words=scene.measures.grid_words
    )
    at = (laid.middle + (laid.part.left + laid.part.right) / 2 * laid.mm, laid.height - 1.6)
    title = Text(at, words, NUMBER_MM, part="title")
    placer.occupy(title.box)
    return [title]


def _letters(scene: Scene, laid: Ruler, placer: Placer) -> list[Mark]:
    """Each light's letter behind its head in the plan; in the elevation with the height of its middle."""
    words: list[Mark] = []
    for source in scene.sources:
        x, _y, z = source.axis
        words += placer.place(
            source.letter,
            LETTER_MM,
            laid.above(_behind(source)),
            toward_deg=degrees(atan2(-z, -x)),
            bold=True,
            reach=60.0,
            part=set_marks.part_of(source),
        )
    for source in scene.sources:
        height = f"{source.letter} {scene.measures.number(source.centre_height_m)}"
        words += placer.place(
            _("! {height} too high").format(height=height) if source.too_high else height,
            NAME_MM,
            laid.before(source.at),
            toward_deg=0.0 if source.at[0] > 0 else 180.0,
            bold=True,
            clear=1.0,
            reach=80.0,
            part=f"{set_marks.part_of(source)} broken" if source.too_high else set_marks.part_of(source),
        )
    return words


def _behind(source: Source) -> tuple[float, float, float]:
    x, y, z = (p - a * source.depth_m for p, a in zip(source.at, source.axis, strict=True))
    return x, y, z


def _names(scene: Scene, laid: Ruler, placer: Placer) -> list[Mark]:
    """Short names beside the heads; of more than a few their numbers in the order of `places`, and of a crowd only the
    numbers at both ends of each row, between which everybody can be counted."""
    words: list[Mark] = []
    many = numbered(scene)
    for n, person in enumerate(places(scene), start=1):
        x, _, z = person.face
        side = 0.0 if x >= 0 else 180.0
        if len(scene.people) > MOST_NUMBERED:
            ends = _ends(scene, person.row)
            if person not in ends:
                continue
            side = 180.0 if person is ends[0] else 0.0
        elif many:
            side = -90.0
        text, size = (str(n), SMALLEST_TEXT_MM) if many else (_short(person.label), NAME_MM)
        words += placer.place(text, size, laid.plan(x, z - 0.1), toward_deg=side, clear=1.3, reach=80.0, part="name")
    return words


def _ends(scene: Scene, row: int) -> tuple[Person, Person]:
    there = [p for p in places(scene) if p.row == row]
    return there[0], there[-1]


def places(scene: Scene) -> list[Person]:
    """Everybody by row from the front, in each row from camera left."""
    return sorted(scene.people, key=lambda p: (p.row, p.face[0], p.label))


def _short(label: str) -> str:
    return label if len(label) <= 18 else label[:17].rstrip() + "."


def _distances(scene: Scene, laid: Ruler) -> list[tuple[str, Point, float]]:
    """The distance of each light at the middle of its aim line."""
    found = []
    for source in scene.sources:
        a, b = laid.above(source.at), laid.above(source.aim)
        across = degrees(atan2(b[1] - a[1], b[0] - a[0])) + 90.0
        found.append((scene.measures.number(source.distance_m), ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), across))
    return found


def _arcs(scene: Scene, laid: Ruler) -> list[Mark]:
    """From the camera's line to each light, seen from the mark: the bearing as an arc."""
    found: list[Mark] = []
    for source, radius in _arc_radii(scene):
        turns = [source.bearing_deg * n / 16 for n in range(17)]
        points = tuple(laid.plan(radius * sin(radians(t)), radius * cos(radians(t))) for t in turns)
        found.append(Polyline(points, set_marks.FINE, part=f"{set_marks.part_of(source)} bearing"))
    return [*found, Circle(laid.plan(0.0, 0.0), 0.5, set_marks.FINE, part="mark")]


def _arc_radii(scene: Scene) -> list[tuple[Source, float]]:
    turned = [s for s in scene.sources if abs(round(s.bearing_deg)) >= 1]
    return [(s, FIRST_ARC_M + NEXT_ARC_M * n) for n, s in enumerate(turned)]


def _bearings(scene: Scene, laid: Ruler) -> list[tuple[str, Point, float]]:
    found = []
    for source, radius in _arc_radii(scene):
        at = radians(source.bearing_deg * (0.5 if abs(source.bearing_deg) < 90 else 0.72))
        point = laid.plan(radius * sin(at), radius * cos(at))
        found.append((f"{abs(round(source.bearing_deg))}°", point, degrees(atan2(cos(at), sin(at)))))
    return found


def _chains(scene: Scene, laid: Ruler) -> tuple[list[Mark], list[tuple[str, Point, float]]]:
    """Dimension chains outside the walls: wall, background, mark, camera; wall to mark; floor to ceiling."""
    part, camera, say = laid.part, scene.camera, scene.measures.number
    left = laid.plan_box.left - (ruler.WALL_M * laid.mm if part.wall_left else 0) - 2.2
    stops = [scene.walls.back, -scene.ground.distance_m, 0.0, camera.distance_m]
    marks: list[Mark] = []
    numbers: list[tuple[str, Point, float]] = []
    for a, b in pairwise(stops):
        if b - a < 0.02:
            continue
        start, end = (left, laid.plan(0, a)[1]), (left, laid.plan(0, b)[1])
        marks += room_marks.dimension(start, end)
        numbers.append((say(b - a), ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), 180.0))
    if part.wall_left:
        top = laid.plan_box.top - ruler.WALL_M * laid.mm - 2.0
        start, end = (laid.plan(part.left, 0)[0], top), (laid.plan(0.0, 0)[0], top)
        marks += room_marks.dimension(start, end)
        numbers.append((say(-part.left), ((start[0] + end[0]) / 2, top), -90.0))
    if part.ceiling:
        start, end = (left, laid.floor), (left, laid.elevation(0, part.top)[1])
        marks += room_marks.dimension(start, end)
        numbers.append((say(part.top), (left, (start[1] + end[1]) / 2), 180.0))
    right = laid.plan_box.right + (ruler.WALL_M * laid.mm if part.wall_right else 0) + 2.2
    start, end = (right, laid.floor), (right, laid.elevation(0, camera.height_m)[1])
    marks += room_marks.dimension(start, end)
    words = _("camera {height}").format(height=say(camera.height_m))
    if fonts.width_mm(words, NUMBER_MM) > 0.9 * (laid.width - right):
        words = say(camera.height_m)  # a narrow sheet: the tick stands level with the camera
    numbers.append((words, (right, (start[1] + end[1]) / 2), 0.0))
    return marks, numbers
