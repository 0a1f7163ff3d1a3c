"""Camera, room and places by geometry worked out by hand; what stands, what is seen, what a dial can give.

Covers frame, space, candidates, mounting, dial, ground, fill and score.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from shotplans.light import lenses
from shotplans.planner import candidates, dial, ground, key, mounting, score, space
from shotplans.planner.build import LETTERS
from shotplans.planner.frame import Camera
from shotplans.planner.framings import FRAMINGS, TONES
from shotplans.planner.intents import Band
from shotplans.planner.plan import Block, Light
from shotplans.planner.readings import blocked
from tests.light.published import Published, params
from tests.planner import briefs
from tests.planner.sets import Tree, filled, key_of, solved

NATURAL = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), key_side="camera_right")


def camera(**changed: float) -> Camera:
    """A level 85 mm camera at 2 m with a field of 0.8 x 1.2 m at the sitter."""
    plain = replace(solved(NATURAL).camera, distance_m=2.0, height_m=1.2, pitch_deg=0.0, field_width_m=0.8,
                    field_height_m=1.2)  # fmt: skip
    return replace(plain, **changed)


def at(x: float, y: float, z: float) -> np.ndarray:
    return np.array([[x, y, z]])


def test_the_edge_of_the_field_is_the_edge_of_the_picture() -> None:
    u, v, depth = camera().screen(np.array([0.4, 1.8, 0.0]))
    assert (u, v, depth) == (pytest.approx(1), pytest.approx(1), pytest.approx(2))  # similar triangles
    u, v, _ = camera().screen(np.array([0.8, 1.2, -2.0]))
    assert (u, v) == (pytest.approx(1), pytest.approx(0))  # twice as far, twice as wide


def test_a_pitched_camera_sees_its_own_axis_in_the_middle() -> None:
    tilted = camera(pitch_deg=-10.0)
    ahead = tilted.at + np.array([0.0, -np.sin(np.radians(10)), -np.cos(np.radians(10))]) * 3
    assert tilted.screen(ahead) == (pytest.approx(0), pytest.approx(0), pytest.approx(3))


def test_what_stands_behind_the_lens_is_out_of_the_picture() -> None:
    assert np.isinf(camera().clearance(at(0, 1.2, 3.0)))
    assert camera().clearance(at(0, 1.2, 0.0)) < 1
    assert camera().clearance(at(0.9, 1.2, 0.0)) > 2


def test_a_column_is_seen_where_it_rises_into_the_frame() -> None:
    seen = camera().column_seen(np.array([0.0, 0.0, 2.0]), np.array([-1.0, -1.0, -1.0]), np.array([2.0, 0.2, 2.0]))
    # Straight behind and high: seen; too low to reach the frame, or far to the side: not
    assert seen.tolist() == [True, False, False]


def test_the_ground_needs_more_width_the_further_behind_it_hangs() -> None:
    width, low, high = camera().field_at(2.0)
    assert width == pytest.approx(1.6)  # similar triangles: 0.8 m at 2 m is 1.6 m at 4 m
    assert high - low == pytest.approx(2.4)


def test_the_closer_the_framing_the_nearer_the_camera() -> None:
    order = ("head", "head_and_shoulders", "half", "three_quarter", "full")
    floors = [FRAMINGS[name].floor_m for name in order]
    assert floors == sorted(floors)
    where = [solved(briefs.request(briefs.setup("natural", f), briefs.sitter("A", posture="standing"))) for f in order]
    assert all(s.camera.distance_m >= s.camera.floor_m - 0.05 for s in where)
    assert [s.camera.field_height_m for s in where] == sorted(s.camera.field_height_m for s in where)


def test_orders_for_the_camera_are_kept() -> None:
    tree = briefs.request(briefs.setup("even"), briefs.sitter("A"),
                          preferences={"aperture": 5.6, "iso": 200, "shutter_s": 0.008})  # fmt: skip
    one = solved(tree).camera
    # f/5.6 is 2^(5/2) = 5.657 exactly (values.md E33)
    assert (one.aperture, one.iso, one.shutter_s) == (pytest.approx(2**2.5), 200, 0.008)


def test_the_focus_is_the_plane_where_both_ends_ask_for_one_aperture() -> None:
    deep = camera(front_m=0.5, behind_m=0.8, distance_m=4.0)
    exact = 2 * 3.5 * 4.8 / (3.5 + 4.8)
    # Harmonic mean of near and far: both limits of the thin lens (values.md D02) solved for N are then equal
    assert deep.focus_m == pytest.approx(exact, abs=0.026)  # focus is set to 5 cm
    need = [lenses.aperture_for_depth(85, f, f - 3.5, 4.8 - f, 0.03) for f in (deep.focus_m, exact - 0.3, exact + 0.3)]
    assert need[0] < min(need[1:])
    before, behind = deep.zone_m
    assert (deep.focus_m - before, deep.focus_m + behind) == (pytest.approx(3.5), pytest.approx(4.8))
    flat = camera(front_m=0.03, behind_m=0.10)
    assert flat.focus_m == flat.distance_m  # one plane of faces is focused at the eyes
    assert flat.zone_m == (pytest.approx(0.03), pytest.approx(0.10))


@pytest.mark.parametrize("row", params("lenses", "focus for a depth"))
def test_the_focus_for_a_depth_is_the_published_harmonic_mean(row: Published) -> None:
    found = lenses.focus_for_depth_m(row.inputs["near"], row.inputs["far"])
    assert 1000 * found == pytest.approx(row.value, rel=2e-4)  # limits of D06 to D13, printed to 0.1 mm


def test_focusing_past_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="depth_m"):
        lenses.focus_for_depth_m(3.0, 2.0)
    with pytest.raises(ValueError, match="field_width_m"):
        lenses.size_on_print(0.23, 61, 0.0)


def box(**room: object) -> space.Box:
    given = filled(briefs.request(briefs.setup("even"), briefs.sitter("A"), briefs.room(**room))).room  # type: ignore[arg-type]
    return space.box(given, "width", 2.0, False)


def test_the_room_is_a_box_about_the_mark() -> None:
    found = box()
    # 9 m along, 6 m across, ground 0.4 m off the wall and 2 m behind the mark: sums
    np.testing.assert_allclose(found.low, [-3.0, 0.0, -2.4])
    np.testing.assert_allclose(found.high, [3.0, 3.2, 6.6])
    assert found.camera_reach_m == pytest.approx(6.0)  # the photographer's 0.6 m


def test_feet_stay_off_walls_and_before_the_ground() -> None:
    found = box()
    x, z = np.array([0.0, 2.7, 0.0, 0.0]), np.array([0.0, 0.0, -1.95, 6.5])
    np.testing.assert_allclose(found.foot_over(x, z), [0.0, 0.1, 0.1, 0.3])  # differences, by hand


def test_what_is_past_a_wall_is_past_it_by_so_much() -> None:
    found = box()
    np.testing.assert_allclose(
        found.over(np.array([[0, 1, 0], [3.0, 1, 0], [0, 3.25, 0]]), 0.0), [0, 0, 0.05], atol=1e-12
    )


@pytest.mark.parametrize(("width", "depth", "first"), [(9, 6, "width"), (4, 6, "depth")])
def test_the_set_looks_along_the_longer_side_first(width: float, depth: float, first: str) -> None:
    given = filled(briefs.request(briefs.setup("even"), briefs.sitter("A"), briefs.room(width, depth))).room
    assert space.axes(given)[0] == first
    ordered = filled(
        briefs.request(briefs.setup("even"), briefs.sitter("A"), briefs.room(width, depth, set_axis="depth"))
    )
    assert space.axes(ordered.room) == ["depth"]


def test_the_grid_is_on_the_steps_a_person_can_set() -> None:
    g = candidates.grid(1.2, (0.5, 2.0), (0.0, 30.0))
    np.testing.assert_allclose(g.distance_m / 0.05, np.round(g.distance_m / 0.05), atol=1e-9)
    assert set(np.unique(g.bearing_deg)) == {0, 5, 10, 15, 20, 25, 30}
    off = g.position - np.array([0.0, 1.2, 0.0])
    np.testing.assert_allclose(np.linalg.norm(off, axis=1), g.distance_m, atol=1e-12)
    np.testing.assert_allclose(np.degrees(np.arctan2(off[:, 0], off[:, 2])), g.bearing_deg, atol=1e-9)


def test_a_front_that_faces_level_reaches_its_radius_up_and_across() -> None:
    level = np.array([0.0, 0.0, 1.0])
    np.testing.assert_allclose(candidates.extent(level, 1.5, 1.5, True), [0.75, 0.75, 0.0])
    np.testing.assert_allclose(candidates.extent(level, 0.3, 1.2, False), [0.15, 0.6, 0.0], atol=1e-12)
    rim = candidates.rim(np.zeros(3), level, 1.5, 1.5, True)
    np.testing.assert_allclose(np.linalg.norm(rim, axis=-1), 0.75)
    corners = candidates.rim(np.zeros(3), level, 0.3, 1.2, False)
    assert np.abs(corners).max(axis=0) == pytest.approx([0.15, 0.6, 0.0])


def test_a_front_straight_overhead_has_axes_too() -> None:
    across, up = candidates.tangents(np.array([0.0, 1.0, 0.0]))
    assert np.linalg.norm(across) == pytest.approx(1)
    assert across @ up == pytest.approx(0)


def held(height: float, mass: float, stands: list[Tree]) -> mounting.Mounting | None:
    kit = briefs.one_light_kit() | {"stands": stands}
    request = filled(briefs.request(briefs.setup("even"), briefs.sitter("A"), kit=kit))
    one = solved(NATURAL)
    site = mounting.Site(one.camera, one.box, np.array([[0.0, 1.2, 0.0]]))
    back = np.array([0.5, 0.0, 0.8])
    return mounting.mount(np.array([1.2, height, 1.2]), back, 0.3, mass, request.kit.stands, site)


LOW = {"id": "low", "kind": "stand", "max_height_m": 2.0, "min_height_m": 0.9, "max_load_kg": 3}
TALL = {"id": "tall", "kind": "stand", "max_height_m": 3.0, "min_height_m": 1.2, "max_load_kg": 6}
BOOM = {"id": "boom", "kind": "boom", "max_height_m": 3.0, "min_height_m": 1.2, "max_load_kg": 9, "reach_m": 1.8}


@pytest.mark.parametrize(
    ("height", "mass", "stand"),
    [
        (1.8, 2, "low"),
        (2.3, 2, "low"),
        (2.5, 2, "tall"),
        (1.8, 5, "tall"),
        (1.8, 8, "boom"),
        (4.0, 2, None),
        (1.8, 20, None),
    ],
)
def test_the_least_stand_that_carries_it_is_taken(height: float, mass: float, stand: str | None) -> None:
    found = held(height, mass, [BOOM, TALL, LOW])
    assert (found.stand if found else None) == stand  # a centre stands at most 0.35 m over the spigot: recommend-io.md


def test_a_boom_is_balanced() -> None:
    found = held(1.8, 5, [BOOM])
    assert found is not None
    assert found.boom
    # Lever: mass x arm on one side, weight x a third of the reach on the other; never less, rounded up to 100 g
    exact = 5 * found.arm_m / (1.8 / 3)
    assert exact <= found.counterweight_kg <= exact + 0.11


def test_a_dial_gives_the_step_nearest_to_what_is_asked() -> None:
    emitter = key_of(solved(NATURAL)).emitter
    assert emitter is not None
    steps = dial.ladder(emitter)
    assert (np.diff(steps) > 0).all()
    assert dial.nearest(emitter, -1.0) == steps[0] == 0
    assert dial.nearest(emitter, 99.0) == steps[-1] == pytest.approx(float(emitter.head.range_stops))
    assert abs(dial.nearest(emitter, 3.33) - 3.33) <= 0.05


def test_a_point_on_a_ray_lies_at_its_distance_from_the_aim() -> None:
    mark, aim = np.array([0.0, 1.2, 0.0]), np.array([0.0, 1.4, -2.0])
    spot = ground.along(mark, 120.0, -10.0, aim, 2.5)
    assert spot is not None
    assert np.linalg.norm(spot - aim) == pytest.approx(2.5)
    assert np.degrees(np.arctan2(spot[0], spot[2])) == pytest.approx(120.0)
    assert ground.along(mark, 0.0, 0.0, aim, 0.5) is None  # the ray passes the aim two metres off


@pytest.mark.parametrize("tone", TONES)
def test_the_tone_wanted_is_the_one_the_brief_names(tone: str) -> None:
    found = ground.wanted_lightness(tone, Band(30, 50))
    low, high = TONES[tone]
    assert low <= found.low < found.high <= high


def test_black_panels_take_bounce_by_the_part_of_the_sky_they_cover() -> None:
    panel = filled(NATURAL).kit.panels[0]
    block = Block(panel, (0.0, 1.2, 0.8), 0.0, 0.8, None)
    one, two = blocked([block]), blocked([block, block])
    assert 0 < one < two < 0.9
    clear = 1 - panel.black_reflectance if panel.black_reflectance else 1.0
    # A near panel of 1 x 2 m covers half of the plane's sky: light.md section 1, Lambert; two take a share each
    assert two == pytest.approx(1 - (1 - one) ** 2)
    assert one < clear
    assert blocked([]) == 0


def test_the_middle_of_a_band_is_liked_best_and_far_off_not_at_all() -> None:
    band = Band(20, 40)
    values = score.fit(np.array([30.0, 20.0, 45.0, 200.0]), band, 10.0)
    assert values[0] == 1
    assert values[0] > values[1] > values[2] > values[3]
    assert values[3] == pytest.approx(0, abs=1e-6)


def test_the_weights_of_the_score_are_one_whole() -> None:
    assert sum(score.WEIGHTS.values()) == pytest.approx(1)


def test_every_choice_kept_breaks_nothing_the_best_does_not() -> None:
    one = solved(NATURAL)
    assert one.notes["broken"] == 0
    assert 0 < one.score <= 1
    assert key.SHORTLIST


def test_lights_are_lettered_in_the_order_they_are_read() -> None:
    roles = [x.role for x in solved(briefs.demo("askew")).lights]
    assert [x.letter for x in solved(briefs.demo("askew")).lights] == list(LETTERS[: len(roles)])
    assert roles == sorted(roles, key=("key", "fill", "accent", "background").index)


def test_two_ground_lights_are_two_of_a_kind() -> None:
    tree = briefs.request(briefs.setup("bright", tone="white"), briefs.sitter("A"))
    reflector = next(m for m in tree["kit"]["modifiers"] if m["id"] == "reflector18-2")
    tree["kit"]["modifiers"].append(reflector | {"id": "reflector18-3"})
    found: list[Light] = list(solved(tree).by_role("background"))
    assert len(found) == 2
    emitters = [x.emitter for x in found if x.emitter]
    assert len({(e.beam_deg, e.modifier.grid_deg, e.modifier.kind) for e in emitters}) == 1
    assert len({e.modifier.id for e in emitters}) == 2
    assert found[0].position[0] == -found[1].position[0]
    # A white ground reads a third to a whole stop over the setting: common practice, no source
    hung = solved(tree).ground
    assert hung is not None
    assert 0.25 <= hung.reading_above_setting <= 1.05
