"""The head picture: energy and edges against laws and our own closed forms, and what a photographer must see in it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from shotplans.light import screens, shadows
from shotplans.light.sources import panel_axes
from shotplans.planner import kit as owned
from shotplans.planner.expect import main_sitter
from shotplans.planner.plan import Flag, Light
from shotplans.seeing import head, plate, shades
from tests.seeing.test_drawings import metered

OPEN = -np.pi / 2  # a horizon that hides nothing


def facing(places: np.ndarray, normals: np.ndarray, horizon: np.ndarray, points: list, axis: np.ndarray) -> np.ndarray:
    return plate.irradiance(
        places.astype(np.float32), normals.astype(np.float32), normals.astype(np.float32),
        horizon.astype(np.float32), [np.asarray(p, dtype=np.float32) for p in points], axis.astype(np.float32),
    )  # fmt: skip


def test_a_flat_disc_under_a_small_source_follows_the_cosine() -> None:
    turn = np.radians([0, 20, 45, 60, 80])
    normals = np.stack([np.sin(turn), 0 * turn, np.cos(turn)], axis=-1)
    got = facing(np.zeros((5, 3)), normals, np.full((5, 64), OPEN), [(0, 0, 5000)], np.array([0, 0, -1.0]))
    assert got == pytest.approx(np.cos(turn), abs=1e-5)


def test_a_ball_under_a_far_small_source_is_dark_from_a_quarter_turn_on() -> None:
    turn = np.radians([85.0, 89.0, 91.0, 120.0])
    normals = np.stack([np.sin(turn), 0 * turn, np.cos(turn)], axis=-1)
    got = facing(100 * normals, normals, np.full((4, 64), 0.0), [(0, 0, 1e6)], np.array([0, 0, -1.0]))
    assert (got[:2] > 0).all()
    assert (got[2:] == 0).all()


def test_a_soft_edge_is_as_wide_as_the_closed_form_says() -> None:
    # a straight edge 40 mm over a plane, a disc of 600 mm another 1,000 mm above it
    above, gap, wide = 1000.0, 40.0, 600.0
    x = np.linspace(-14.0, 14.0, 57)
    # seen from x the half plane hides every height below its edge, which runs along y at x = 0
    azimuth = 2 * np.pi * np.arange(256) / 256
    reach = np.where(np.abs(np.cos(azimuth)) < 1e-6, 1e-6, np.cos(azimuth))
    at_edge = np.pi / 2 - np.arctan2(x[:, None] / -reach, gap)  # height angle of the edge that way
    horizon = np.where(reach < 0, at_edge, OPEN)
    n = np.arange(400)
    r, phi = wide / 2 * np.sqrt((n + 0.5) / 400), n * np.pi * (3 - np.sqrt(5))
    points = [(a, b, above + gap) for a, b in zip(r * np.cos(phi), r * np.sin(phi), strict=True)]
    places, normals = np.stack([x, 0 * x, 0 * x], axis=-1), np.tile([0.0, 0.0, 1.0], (57, 1))
    lit = x > 0.5
    got = facing(places, normals, horizon, points, np.array([0, 0, -1.0]))
    exact = shadows.edge_profile(x / 1000, (wide / 1000,), above / 1000, gap / 1000)
    assert got[lit] / got[-1] == pytest.approx(exact[lit], abs=0.04)  # 400 points and 256 azimuths


def test_of_an_even_room_a_black_skin_mirrors_the_share_that_the_equations_say() -> None:
    # an even room of radiance 1 gives pi; a front of index 1.4 that faces the camera mirrors ((n - 1)/(n + 1))^2 of it
    received = np.array([np.pi], dtype=np.float32)
    assert plate.of_the_room(received, 0.0) == pytest.approx((0.4 / 2.4) ** 2, rel=1e-4)
    assert plate.of_the_room(received, 0.18) == pytest.approx(0.18 + (0.4 / 2.4) ** 2, rel=1e-4)


def test_the_head_is_a_mirror_image_of_itself_and_its_nose_hides_the_cheek() -> None:
    made = head.the_head()
    assert made.radius == pytest.approx(made.radius[:, ::-1], abs=1e-3)
    assert np.linalg.norm(made.normals, axis=-1) == pytest.approx(1.0, abs=1e-4)
    # beside the nose, looking across it (azimuth of growing u from the left side), the horizon stands high
    direction = np.array([-24.0, -25.0, 90.0])
    u, v = head.to_plane((direction / np.linalg.norm(direction)).astype(np.float32))
    seen = head.between(made.horizons, np.array([u]), np.array([v]))[0]
    assert seen[0] > seen[head.AZIMUTHS // 2] + 0.3


def before(light: Light, place: np.ndarray) -> Flag:
    """A flag 0.2 m before a place, its lower edge across the light's way there: dark above, lit below."""
    way = (light.at - place) / np.linalg.norm(light.at - place)
    at = place + 0.2 * way + 0.3 * panel_axes(way)[1]
    assert light.emitter is not None
    item = owned.Flag(id="flag", width_m=2.0, height_m=0.6)
    return Flag(item, light.emitter.head.id, "faces", tuple(at), tuple(way), 2.0, 0.6, 1.0, None)


def moved(name: str, bearing: float, share: float = 1.0, flagged: bool = False) -> np.ndarray:
    """The picture's linear light with the key alone, elsewhere on its circle, its front that much of its size.

    `flagged`: with a flag that keeps it off the forehead.
    """
    meter = metered(name)
    key = meter.solved.lights[0]
    sitter = replace(main_sitter(meter.solved), nose_deg=0.0, chin_deg=0.0)
    face = np.array(sitter.face_m)
    turn, far = np.radians(bearing), key.distance_m
    at = face + far * np.array([0.85 * np.sin(turn), 0.53, 0.85 * np.cos(turn)])
    emitter = key.emitter
    assert emitter is not None
    assert emitter.disc
    front = {"diameter_m": share * emitter.width_m}
    small = replace(emitter, modifier=emitter.modifier.model_copy(update=front))
    lit = replace(key, position=tuple(at), aim=tuple(face), emitter=small)
    flags = (before(lit, face + np.array([0.0, 0.04, 0.0])),) if flagged else ()
    alone = replace(meter.solved, lights=(lit,), blocks=(), flags=flags)
    image = plate.render(replace(meter, solved=alone), sitter)
    assert np.isfinite(image).all()
    return image


FACE = np.s_[90:180, 84:172]  # the face in the picture, without the crown and the neck
SHADOW = np.s_[146:162, 96:126]  # where a key from the right throws the nose's shadow


def test_the_key_from_the_right_leaves_the_left_dark_and_soft_is_softer_than_hard() -> None:
    right, hard = moved("tarrant", 50.0), moved("tarrant", 50.0, share=0.12)
    left = moved("tarrant", -50.0)
    assert right[FACE][:, 60:].mean() > 1.5 * right[FACE][:, :28].mean()
    assert left[FACE] == pytest.approx(right[FACE][:, ::-1], abs=0.08)
    # the steepest step of light at the edge of the nose's shadow: a front an eighth as large would draw it an eighth as
    # wide, but horizons four millimetres apart keep it from being so sharp
    steep = [np.abs(np.diff(i[SHADOW], axis=1)).max() / i[SHADOW].mean() for i in (right, hard)]
    assert steep[1] > 1.5 * steep[0]


def test_from_the_side_the_face_is_rougher_than_from_the_front() -> None:
    front, side = moved("tarrant", 5.0), moved("tarrant", 65.0)
    assert np.std(side[FACE]) / side[FACE].mean() > 1.5 * np.std(front[FACE]) / front[FACE].mean()


def test_a_flag_between_key_and_forehead_darkens_the_forehead_and_nothing_else() -> None:
    free, flagged = (moved("tarrant", 20.0, 0.12, flagged=f) for f in (False, True))
    lost = (free - flagged) / free.max()
    forehead, below = np.s_[52:72, 104:154], np.s_[134:256]
    assert (flagged[forehead] < 0.25 * free[forehead]).all()  # the room's even light is left
    assert lost[below] == pytest.approx(0.0, abs=1e-6)
    assert lost.min() >= -1e-6


def test_a_flag_hides_the_share_of_a_front_that_the_engine_says() -> None:
    fine, coarse = (
        [np.array([a, b, 1500.0]) for a in side for b in side]
        for side in ((np.arange(n) + 0.5) / n * 600 - 300 for n in (20, 5))
    )
    places = np.stack([np.linspace(-700, 700, 41), np.linspace(40, -60, 41), np.zeros(41)], axis=-1)
    axes = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])
    screen = shades.Screen(np.array([30.0, 20.0, 900.0]), *axes, 125.0, 90.0)
    seen = np.mean([shades.past((screen,), places, point, 120.0) for point in coarse], axis=0)
    exact = screens.hidden_share(places, np.array(fine), screen.middle, axes, 250.0, 180.0)
    assert exact.max() > 0.3
    assert exact.min() == 0.0
    assert 1 - seen == pytest.approx(exact, abs=0.04)  # one row of the 20 is 0.05 of the front
