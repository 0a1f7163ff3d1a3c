"""Contours, evenness, light by distance and eyes: against the engine one place at a time, laws and geometry."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from shotplans.light import eyes, falloff
from shotplans.planner import assumptions
from shotplans.planner.expect import Meter, levels_at_faces
from shotplans.planner.outcome import meter_of
from shotplans.planner.placed import placed
from shotplans.planner.request import Request
from shotplans.seeing import contours, evenness, eye, levels, sway
from shotplans.sheets import svg
from studio.paper.primitives import Circle, Polyline
from tests.sheets import examples


@cache
def metered(name: str) -> Meter:
    document, given = examples.planned(name)
    request, _ = assumptions.fill(Request.model_validate(given))
    return meter_of(request, placed(request, document["setups"][0]))


def test_a_line_lies_where_the_field_has_its_level() -> None:
    x, y = np.linspace(-2, 2, 81), np.linspace(-1.5, 1.5, 61)
    field = np.hypot(*np.meshgrid(x, y))
    (ring,) = contours.trace(x, y, field, 1.0)
    assert ring[0] == ring[-1]  # closed
    assert np.hypot(*np.array(ring).T) == pytest.approx(1.0, abs=2e-3)  # linear between neighbours: h^2/8r
    assert contours.length(ring) == pytest.approx(2 * np.pi, rel=2e-3)
    cut = contours.trace(x, y, field, 1.8)  # cut by the upper and lower edge
    assert len(cut) == 2
    assert all(abs(line[n][1]) == pytest.approx(1.5) for line in cut for n in (0, -1))


def test_a_saddle_is_joined_by_its_mean() -> None:
    x = y = np.array([0.0, 1.0])
    high = np.array([[1.0, 0.2], [0.2, 1.0]])
    assert len(contours.trace(x, y, high, 0.5)) == 2
    assert len(contours.trace(x, y, 1.2 - high, 0.5)) == 2


@pytest.mark.parametrize("name", ["marrowfield", "pellingham", "tarrant"])
def test_many_places_at_once_read_what_one_place_reads(name: str) -> None:
    meter = metered(name)
    spots = meter.solved.mark_eyes + np.array([[0.0, 0.0, 0.0], [0.7, -0.2, 0.4], [-1.1, 0.1, -0.5]])
    assert levels.setting(meter, spots) == pytest.approx([meter.setting(p) for p in spots], rel=1e-9)
    key = meter.solved.lights[0]
    assert levels.alone(meter, key, spots) == pytest.approx([meter.direct(key, p) for p in spots], rel=1e-9)


def test_feature_28_evenness_is_seen_over_the_group() -> None:
    # job.md feature row 28: the faces' own values and lines of equal reading, as the plan reckons them
    meter = metered("pellingham")
    found = evenness.see(meter)
    assert found is not None
    together = meter.solved.pose.together
    printed = levels_at_faces(meter)
    assert found.spread_stops == pytest.approx(max(printed) - min(printed), abs=0.11)  # those are to a tenth
    assert len(found.faces) == len(together)
    said = " ".join(t.text for t in found.drawing.texts)
    assert "+0.1" in said
    lines = [m for m in found.drawing.marks if isinstance(m, Polyline) and m.part == "level"]
    assert len(lines) >= 3
    heads = [m for m in found.drawing.marks if isinstance(m, Circle)]
    assert len(heads) == len(together)


def test_nobody_is_compared_with_oneself() -> None:
    assert evenness.see(metered("dorrow")) is None


def test_swaying_costs_what_the_engine_says_and_a_large_front_less_than_a_small_one() -> None:
    meter = metered("tarrant")
    found = sway.see(meter)
    key, mark = meter.solved.lights[0], meter.solved.mark_eyes
    nearer = mark + (key.at - mark) / found.distance_m * found.sway_m
    assert found.nearer_stops == pytest.approx(np.log2(meter.direct(key, nearer) / meter.direct(key)), abs=1e-9)
    law = float(falloff.inverse_square_stops(found.distance_m - found.sway_m, found.distance_m))
    assert 0 < found.nearer_stops < law
    assert found.farther_stops < 0
    assert found.law_off_stops > 0.1
    assert sum(m.part == "curve" for m in found.drawing.marks) == 2
    assert found.tenth_m == pytest.approx(0.035 * found.distance_m, rel=0.02)  # 2^(0.05) - 1


@pytest.mark.parametrize(("name", "shape"), [("marrowfield", "rect"), ("dorrow", "disc")])
def test_a_reflection_is_drawn_at_its_hour_and_cut_by_the_lid(name: str, shape: str) -> None:
    meter = metered(name)
    sitter = meter.solved.pose.together[0]
    drawing = eye.see(meter.solved, sitter)
    key = next(m for m in drawing.marks if isinstance(m, Polyline) and m.part == "light-A")
    middle = np.mean(key.points, axis=0) - np.array(eye.MIDDLES[0])
    hour = np.degrees(np.arctan2(middle[0], -middle[1])) / 30 % 12
    document, _ = examples.planned(name)
    entry = document["setups"][0]["expected"]["per_sitter"][0]["catchlights"][0]
    assert (hour - entry["clock"] + 6) % 12 - 6 == pytest.approx(0.0, abs=0.7)  # the lid cuts some of it
    highest = min(p[1] for p in key.points)
    assert highest >= eye.MIDDLES[0][1] - eyes.UPPER_LID_MM * eye.SCALE - 1e-9
    assert svg.render(drawing, "eyes").count("<svg") == 1


def test_the_edge_is_as_large_as_the_printed_outline() -> None:
    source, camera = np.array([300.0, 500.0, 1200.0]), 2500.0
    axis = -source / np.linalg.norm(source)
    for size in ((600.0,), (300.0, 900.0)):
        x, y = eyes.catchlight_edge(source, axis, size, camera)
        outline = eyes.catchlight_outline(source, axis, size, camera)
        turn = np.array([x.mean(), y.mean()]) / np.hypot(x.mean(), y.mean())
        assert np.ptp(x * turn[0] + y * turn[1]) == pytest.approx(float(outline.radial_mm), rel=0.02)
        steps = np.hypot(np.diff(x), np.diff(y))
        assert steps.max() < 0.15 * max(np.ptp(x), np.ptp(y))  # in order round the edge, no jump across


def test_of_many_only_the_first_and_those_who_differ_are_drawn() -> None:
    def entry(*seen: str) -> dict[str, object]:
        return {"catchlights": [{"light": "A", "image_side": s, "seen": s in seen} for s in ("left", "right")]}

    alike = [entry("left", "right")] * 6
    assert eye.worth_drawing(alike) == [0]
    assert eye.worth_drawing([*alike, entry("left")]) == [0, 6]
    assert eye.worth_drawing(alike[:3]) == [0, 1, 2]
