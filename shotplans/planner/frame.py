"""Step 1: the camera. Lens and distance for the framing, depth to hold sharp, aperture, ISO, shutter, edges.

A `Camera` stands on the z axis of the set (x = 0) and looks along -z, pitched; `clearance` says what it does not
see. Distances are set to 5 cm, pitch to a degree.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import exposure, lenses
from shotplans.light.units import round_to
from shotplans.planner import anatomy, sight
from shotplans.planner import kit as owned
from shotplans.planner.brief import Setup, Standard
from shotplans.planner.framings import BIG_PRINT_CM, EDGE_MARGIN, FRAMINGS
from shotplans.planner.people import Pose
from shotplans.planner.request import Request
from shotplans.planner.rules import House, house

F = NDArray[np.float64]
FLASH_APERTURE = 8.0
NEAREST_M = 0.3
COLUMN_HALF_M = 0.03
STEADY_APERTURE = 5.6
STEADY_SHUTTER_S = 1 / 125
CLOSED_MOST = 16.0  # beyond, diffraction costs more than depth gives: common practice
SHALLOW_M = 0.25  # faces in less depth than this are focused at the eyes
SIDES_M = 0.5  # beside the outermost elbows, both sides together
RAISE_M, MOST_RAISE_M = 0.10, 0.60  # the lens goes up in such steps, and so far, to see over the rows before
WORTH_RAISING = 0.02  # faces hidden, in all, that a step up must clear to be worth it
TRIPOD_M, UNDER_CEILING_M = 2.20, 0.30
THIRDS = tuple(2.0 ** (n / 6.0) for n in range(0, 31))


@dataclass(frozen=True)
class Camera:
    """The camera as placed: metres, degrees, millimetres, seconds; `field_*_m` at the sitter's plane."""

    body: owned.Camera
    lens: owned.Lens
    focal_mm: float
    distance_m: float
    height_m: float
    pitch_deg: float
    orientation: str
    field_width_m: float
    field_height_m: float
    aperture: float
    iso: int
    shutter_s: float
    blur_mm: float
    front_m: float
    behind_m: float
    floor_m: float

    @property
    def at(self) -> F:
        return np.array([0.0, self.height_m, self.distance_m])

    @property
    def focus_m(self) -> float:
        """Distance focused at: the eyes' plane; for people in depth the plane that asks the least closing, to 5 cm."""
        if self.front_m + self.behind_m < SHALLOW_M:
            return self.distance_m
        nearest = max(self.distance_m - self.front_m, 0.1 * self.distance_m)
        wanted = float(round_to(float(lenses.focus_for_depth_m(nearest, self.distance_m + self.behind_m)), 0.05))
        return max(wanted, min(float(self.lens.min_focus_m or 0.0), self.distance_m))

    @property
    def zone_m(self) -> tuple[float, float]:
        """Metres to hold sharp before and behind the focus."""
        before = self.focus_m - max(self.distance_m - self.front_m, 0.1 * self.distance_m)
        return max(before, 0.0), max(self.distance_m + self.behind_m - self.focus_m, 0.0)

    def screen(self, points: F) -> tuple[F, F, F]:
        """Image coordinates of points (..., 3) as shares of the half picture, and their depth in metres."""
        v = points - self.at
        p = np.radians(self.pitch_deg)
        depth = -v[..., 2] * np.cos(p) + v[..., 1] * np.sin(p)
        up = v[..., 1] * np.cos(p) + v[..., 2] * np.sin(p)
        safe = np.where(depth > 0.02, depth, 0.02)
        half_w, half_h = self.field_width_m / 2 / self.distance_m, self.field_height_m / 2 / self.distance_m
        return v[..., 0] / safe / half_w, up / safe / half_h, depth

    def clearance(self, outline: F) -> F:
        """How far a convex outline (..., k, 3) lies outside the frame, in half pictures past its nearest edge.

        The frame and the outline are convex, so the outline is out of the picture when all of it in front of the lens
        lies beyond one edge: 1 is on the edge, below 1 it may be seen; inf when all of it is behind the lens.
        """
        u, v, depth = self.screen(outline)
        ahead = depth > 0.02
        beyond = np.maximum.reduce(
            [
                np.where(ahead, u, np.inf).min(axis=-1),
                -np.where(ahead, u, -np.inf).max(axis=-1),
                np.where(ahead, v, np.inf).min(axis=-1),
                -np.where(ahead, v, -np.inf).max(axis=-1),
            ]
        )
        return np.asarray(np.where(ahead.any(axis=-1), beyond, np.inf), dtype=np.float64)

    def out_of_picture_m(self, outline: F, *, sideways: bool = False) -> float:
        """How far (m) a convex outline (k, 3) must move, level or straight up in the picture, to lie outside its frame.

        The least of left, right and up (`sideways`: of left and right), each point at its own depth and the outline not
        turned, so a front that keeps its aim needs less; 0 where all of it lies outside or behind the lens. Geometry
        of the pinhole.
        """
        u, v, depth = self.screen(outline)
        if float(self.clearance(outline)) >= 1.0:
            return 0.0
        ahead = depth > 0.02
        wide, high = (side / 2 / self.distance_m * depth for side in (self.field_width_m, self.field_height_m))
        ways = [(1 - u) * wide, (1 + u) * wide] + ([] if sideways else [(1 - v) * high])
        return min(float(way[ahead].max()) for way in ways)

    def column_seen(self, x: F, z: F, top_m: F) -> NDArray[np.bool_]:
        """Whether columns that stand on the floor at (x, z) and rise to just under `top_m` cross the picture."""
        depth = self.distance_m - z
        ahead = depth > 0.05
        margin = 1 + EDGE_MARGIN
        half = self.field_width_m / 2 / self.distance_m * np.where(ahead, depth, 0.0) * margin
        down = np.radians(self.pitch_deg) - np.arctan(self.field_height_m / 2 / self.distance_m * margin)
        # the pitch bends the sides of the frame by far less than its margin
        return np.asarray(
            ahead & (np.abs(x) < half + COLUMN_HALF_M) & (0.92 * top_m > self.height_m + depth * np.tan(down))
        )

    def field_at(self, behind_m: float) -> tuple[float, float, float]:
        """Width of the field, and heights of its lower and upper edge, on a plane `behind_m` behind the mark."""
        reach = self.distance_m + behind_m
        width = self.field_width_m * reach / self.distance_m
        half = np.arctan(self.field_height_m / 2 / self.distance_m)
        p = np.radians(self.pitch_deg)
        low = self.height_m + reach * float(np.tan(p - half))
        high = self.height_m + reach * float(np.tan(p + half))
        return width, low, high


def orientation(setup: Setup, pose: Pose, wanted: str) -> str:
    """Upright or horizontal: by order, else by the shape of what is in the picture, else by the page it is for."""
    if wanted != "either":
        return wanted
    if len(pose.together) > 1:
        return "horizontal"
    return "horizontal" if setup.intent == "even" and setup.framing != "full" else "upright"


def field_height(setup: Setup, pose: Pose, upright: bool, head_share: float | None, aspect: float) -> float:
    """Height of the field at the sitters in metres that holds the framing; `aspect` = width over height."""
    framing = FRAMINGS[setup.framing]
    xs = [s.face_m[0] for s in pose.together]
    spread = max(xs) - min(xs)
    tallest = max(s.face_m[1] for s in pose.together) + anatomy.CROWN_ABOVE_EYES_M
    if setup.framing in ("group", "full"):
        # the camera stands before the group's middle, so the farther side decides
        side = max(abs(s.face_m[0]) + s.person.build.elbows_m / 2 for s in pose.together)
        height = max(tallest + 0.25, (2 * side + SIDES_M) / aspect)
        return max(height, 1.6)
    height = framing.upright_m if upright else framing.horizontal_m
    if head_share:
        height = anatomy.HEAD_HEIGHT_M / head_share
    elif len(pose.together) > 1:
        height = max(height, (spread + 0.6) / aspect)
    return height


@dataclass(frozen=True)
class LensWish:
    """What the choice of lens weighs: the field's height, the nearest and the liked distance, the room, a standard."""

    tall_mm: float
    height_m: float
    floor_m: float
    wanted_m: float
    room_m: float
    locked_mm: float | None
    locked_m: float | None

    def cost(self, lens: owned.Lens, focal_mm: float, distance_m: float) -> float:
        """A distance under the floor, under the nearest focus or beyond the room costs more than any preference."""
        cost = abs(distance_m - self.wanted_m)
        cost += 20.0 * max(0.0, self.floor_m - distance_m) + 30.0 * max(0.0, distance_m - self.room_m)
        cost += 40.0 * max(0.0, float(lens.min_focus_m or 0.0) - distance_m)
        if self.locked_mm is not None:
            cost += 5.0 * abs(focal_mm - self.locked_mm) / self.locked_mm
        if self.locked_m is not None:
            cost += 2.0 * abs(distance_m - self.locked_m)
        return cost


def choose_lens(lens_list: Sequence[owned.Lens], wish: LensWish) -> tuple[owned.Lens, float, float]:
    """Lens, focal length in mm and camera distance in m for a field height; the checker says what it breaks."""
    tried = []
    for number, lens in enumerate(lens_list):
        for focal in _focals(lens):
            exact = float(lenses.distance_for_field_m(wish.tall_mm, focal, wish.height_m))
            distance = max(NEAREST_M, float(round_to(exact, 0.05)))
            tried.append((wish.cost(lens, focal, distance), number, focal, distance))
    _, number, focal, distance = min(tried)
    return lens_list[number], focal, distance


def _focals(lens: owned.Lens) -> list[float]:
    steps = np.arange(np.ceil(lens.min_focal_mm / 5) * 5, lens.max_focal_mm + 1e-9, 5.0)
    return sorted({float(lens.min_focal_mm), float(lens.max_focal_mm), *(float(s) for s in steps)})


def depth_zone(pose: Pose) -> tuple[float, float]:
    """Metres to hold sharp before and behind the mark: noses before the nearest eyes, ears behind the furthest."""
    zs = [s.face_m[2] for s in pose.together]
    turned = max(abs(np.sin(np.radians(s.nose_deg))) for s in pose.together)
    return max(zs) + anatomy.FACE_FRONT_M, -min(zs) + anatomy.FACE_BEHIND_M * (1 - 0.3 * float(turned))


def stop_for_depth(camera: Camera, start: float, lens: owned.Lens) -> float:
    """The first third stop from `start` upward that holds the depth; at most f/16 or the lens's smallest."""
    widest = exposure.exact_f_number(lens.max_aperture)
    smallest = min(CLOSED_MOST, exposure.exact_f_number(lens.min_aperture or CLOSED_MOST))
    need = float(lenses.aperture_for_depth(camera.focal_mm, camera.focus_m, *camera.zone_m, camera.blur_mm))
    first = max(exposure.exact_f_number(start), widest)
    for n in THIRDS:
        if n >= first - 1e-9 and n >= need * 0.999 and n <= smallest * 1.001:
            return float(n)
    return float(min(max(first, smallest), max(smallest, widest)))


def place(request: Request, setup: Setup, pose: Pose, room_m: float, steady: bool) -> Camera:
    """The camera for a set-up and a pose; `room_m` is the longest camera distance the room allows."""
    body, brief = request.kit.cameras[0], request.brief
    standard = brief.standard_of(setup) or Standard()
    way = orientation(setup, pose, str(brief.orientation))
    sides = sorted((body.sensor_width_mm, body.sensor_height_mm))
    wide_mm, tall_mm = sides if way == "upright" else sides[::-1]
    height = field_height(setup, pose, way == "upright", standard.head_share, wide_mm / tall_mm)
    framing = FRAMINGS[setup.framing]
    wanted = framing.wanted_m if len(pose.together) == 1 else framing.couple_wanted_m
    if any(s.person.wish("nose") == "softer" for s in pose.together):
        wanted = max(wanted, house(request.rules).number("nose_softer", "camera_least_m"))
    lens, focal, distance = choose_lens(
        request.kit.lenses,
        LensWish(
            tall_mm,
            height,
            framing.floor_m,
            2.5 * height if setup.framing == "group" else wanted,
            room_m,
            standard.lens_mm,
            standard.camera_m,
        ),
    )
    field_h = float(lenses.field_m(tall_mm, focal, distance))
    kept = house(request.rules)
    camera_height = float(round_to(pose.eye_m + _above_eyes(setup, pose, standard.camera_above_eyes_m, kept), 0.05))
    if standard.camera_above_eyes_m is None:
        camera_height = over_the_rows_m(pose, camera_height, distance, float(request.room.ceiling_m))
    front, behind = depth_zone(pose)
    order = request.preferences
    shell = Camera(
        body=body, lens=lens, focal_mm=focal, distance_m=distance, height_m=camera_height,
        pitch_deg=_pitch(setup, pose, camera_height, field_h, distance), orientation=way,
        field_width_m=float(lenses.field_m(wide_mm, focal, distance)), field_height_m=field_h,
        aperture=FLASH_APERTURE, iso=int(order.iso or body.base_iso),
        shutter_s=float(order.shutter_s or (STEADY_SHUTTER_S if steady else body.sync_s)),
        blur_mm=blur_mm(body, brief.print_width_cm), front_m=front, behind_m=behind, floor_m=framing.floor_m,
    )  # fmt: skip
    if order.aperture:
        return replace(shell, aperture=exposure.exact_f_number(order.aperture))
    return replace(shell, aperture=stop_for_depth(shell, STEADY_APERTURE if steady else FLASH_APERTURE, lens))


def over_the_rows_m(pose: Pose, height_m: float, distance_m: float, ceiling_m: float) -> float:
    """The lens as high as it stood, or raised by steps of 10 cm as long as that clears more of the faces behind."""
    if len({s.face_m[2] for s in pose.together}) < 2:
        return height_m
    who = sight.bodies(pose.together)
    highest = min(TRIPOD_M, ceiling_m - UNDER_CEILING_M, height_m + MOST_RAISE_M)
    best, chosen, up = np.inf, height_m, height_m
    while up <= max(highest, height_m) + 1e-9:
        lost = sight.hidden(who, np.array([0.0, up, distance_m])).share
        hides = float(np.where(lost > sight.CLEAR_SHARE, lost, 0.0).sum())
        if hides < best - WORTH_RAISING:
            best, chosen = hides, up
        if not hides:
            break
        up = float(round_to(up + RAISE_M, 0.05))
    return chosen


def blur_mm(body: owned.Camera, print_width_cm: float | None) -> float:
    big = (print_width_cm or 0.0) >= BIG_PRINT_CM
    return float(lenses.blur_mm(body.sensor_width_mm, body.sensor_height_mm, big))


def _pitch(setup: Setup, pose: Pose, camera_height_m: float, field_m: float, distance_m: float) -> float:
    """The tilt, to a degree, that puts the eyes (or a standing figure) where the framing wants them."""
    if setup.framing in ("group", "full"):
        top = max(s.face_m[1] for s in pose.together) + anatomy.CROWN_ABOVE_EYES_M + 0.15
        middle = top - field_m / 2
    else:
        middle = pose.eye_m - (0.5 - FRAMINGS[setup.framing].eyes_from_top) * field_m
    return float(round_to(float(np.degrees(np.arctan2(middle - camera_height_m, distance_m))), 1.0))


def _above_eyes(setup: Setup, pose: Pose, locked: float | None, kept: House) -> float:
    if locked is not None:
        return locked
    if any(s.person.wish("chin", "neck") == "softer" for s in pose.together):
        return kept.number("chin_softer", "camera_up_cm") / 100
    if setup.intent == "character" and len(pose.together) == 1:
        return -0.05
    if setup.framing in ("full", "three_quarter"):
        return -0.15
    return 0.10 if setup.framing == "group" else 0.0
