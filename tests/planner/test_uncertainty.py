"""How sure a reading is: each part against arithmetic done by hand, and the whole against drawn errors.

What belongs here: uncertainty.py, the parts printed in the meter round, and which reading is taken first.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from shotplans.light.units import direction
from shotplans.planner import uncertainty
from shotplans.planner.expect import Meter
from shotplans.planner.outcome import outcome
from shotplans.planner.plan import Light, Solved
from shotplans.planner.readings import reading
from shotplans.planner.steps import Step, steps
from shotplans.planner.uncertainty import Spread
from tests.planner import briefs
from tests.planner.sets import Tree, filled, meter, solved, told

BLACK = {"walls": 0.0, "ceiling": 0.0, "floor": 0.0}
PAIR = briefs.demo("askew")
PANEL = briefs.demo("tarrant")


def alone_in_the_dark(**brief: Any) -> Tree:
    """One head, no panel, no bounce: the key by itself."""
    kit = briefs.one_light_kit() | {"panels": []}
    return briefs.request(
        briefs.setup("natural"), briefs.sitter("Mirela"), briefs.room(9, 9, 4, surfaces=BLACK), kit, **brief
    )


def spread_of(one: Solved) -> tuple[list[Step], Spread]:
    taken = steps(one, meter(one))
    return taken, uncertainty.spread(one, taken)


def kind(taken: list[Step], name: str) -> int:
    return next(n for n, s in enumerate(taken) if s.kind == name)


def test_an_uncorrected_head_alone_is_good_to_its_rating() -> None:
    taken, found = spread_of(solved(alone_in_the_dark()))
    # One light and no bounce: all of the reading hangs on its head, 0.3 stop (common practice, no source)
    assert found.part("output")[kind(taken, "key")] == pytest.approx(0.3)
    assert found.part("bounce")[kind(taken, "key")] == 0


def test_a_correction_takes_the_place_of_the_rating() -> None:
    learned = briefs.LEARNED | {"modifier": "octa95-1"}
    taken, found = spread_of(solved(alone_in_the_dark(corrections=[learned])))
    # Its standard error, and a tenth for setting the same light up again: root of squares
    assert found.part("output")[kind(taken, "key")] == pytest.approx(math.hypot(0.1, 0.1))


def test_the_dials_part_is_a_step_over_the_root_of_twelve() -> None:
    one = solved(alone_in_the_dark())
    light = one.lights[0]
    assert light.emitter is not None
    coarse = light.emitter.head.model_copy(
        update={"dial": light.emitter.head.dial.model_copy(update={"scale": "fraction", "step": 1.0})}
    )
    turned = replace(light, emitter=replace(light.emitter, head=coarse), power_stops=2.0)
    taken, found = spread_of(replace(one, lights=(turned,)))
    # An even spread of one stop has the standard deviation 1/sqrt(12) (textbook)
    assert found.part("dial")[kind(taken, "key")] == pytest.approx(1 / math.sqrt(12))


def small(one: Solved, distance_m: float) -> Solved:
    """The key as a point on the lens's line, so far off that every formula has its limiting form."""
    light = one.lights[0]
    assert light.emitter is not None
    dot = light.emitter.modifier.model_copy(update={"diameter_m": 0.02})
    at = one.mark_eyes + distance_m * direction(0.0, 0.0)
    placed = replace(
        light, emitter=replace(light.emitter, modifier=dot), position=(float(at[0]), float(at[1]), float(at[2])),
        aim=(0.0, one.pose.eye_m, 0.0), distance_to=(0.0, one.pose.eye_m, 0.0), distance_m=distance_m,
    )  # fmt: skip
    camera = replace(one.camera, height_m=one.pose.eye_m)
    return replace(one, lights=(placed,), blocks=(), camera=camera)


@pytest.mark.parametrize("distance_m", [1.0, 2.0, 4.0])
def test_of_a_small_far_light_straight_ahead_the_place_counts_by_inverse_square(distance_m: float) -> None:
    taken, found = spread_of(small(solved(alone_in_the_dark()), distance_m))
    # 5 cm further: 2 log2((d + 0.05)/d) stops (inverse square, [CIE-DISTANCE]). Round the mark by 5 degrees, upward or
    # aside, the light keeps its distance, and a dome turned t off a point loses log2((1 + cos t)/2) (LIGHT-4): for the
    # bearing, the height, and the dome's own pointing in two ways
    further = 2 * math.log2((distance_m + 0.05) / distance_m)
    turned = math.log2((1 + math.cos(math.radians(5))) / 2)
    wanted = math.sqrt(further**2 + 4 * turned**2)
    assert found.part("placement")[kind(taken, "key")] == pytest.approx(wanted, abs=0.001)


def test_two_equal_lights_share_their_doubt() -> None:
    one = small(solved(alone_in_the_dark()), 2.0)
    first = one.lights[0]
    both = replace(one, lights=(first, replace(first, letter="B", role="fill")))
    taken, found = spread_of(both)
    # Half the reading each: sqrt(2 (0.3/2)^2) = 0.3/sqrt(2) (errors of two heads are independent, textbook)
    assert found.part("output")[kind(taken, "setting")] == pytest.approx(0.3 / math.sqrt(2), abs=1e-6)


def test_the_bounce_counts_by_its_share() -> None:
    white = {"walls": 0.85, "ceiling": 0.85, "floor": 0.85}
    tree = alone_in_the_dark() | {"room": briefs.room(5, 5, 3, surfaces=white)}
    one = solved(tree)
    taken, found = spread_of(one)
    read = meter(one)
    key = one.lights[0]
    share = 1 - read.direct(key) / read.alone(key)
    assert share > 0.2
    # Half a stop on that share: 0.5 x share, d(log2(a + b)) = b/(a + b) d(log2 b) (textbook)
    assert found.part("bounce")[kind(taken, "key")] == pytest.approx(0.5 * share, abs=1e-9)


@pytest.mark.parametrize("tree", [PAIR, PANEL, briefs.demo("dorrow")])
def test_errors_that_are_drawn_scatter_the_readings_as_much_as_said(tree: Tree) -> None:
    one = solved(tree)
    taken, found = spread_of(one)
    rng = np.random.default_rng(7)
    read = meter(one)
    drawn = np.array([_stops(_disturbed(one, rng), taken, read) for _ in range(400)])
    scattered = drawn.std(axis=0)
    # 400 draws know a standard deviation to 1/sqrt(800) = 3.5 %; four of those, and the bend of the logarithm
    assert scattered == pytest.approx(np.sqrt(found.total() ** 2 - found.own**2), rel=0.15)


def _disturbed(one: Solved, rng: np.random.Generator) -> Solved:
    """The set with every light a little elsewhere and a little stronger or weaker than said; the domes true."""
    lights = []
    for light in one.lights:
        mark, place = one.mark_eyes, np.array(light.distance_to or light.aim)
        at = light.at + 0.05 * rng.normal() * (light.at - place) / np.linalg.norm(light.at - place)
        x, y, z = at - mark
        far = float(np.linalg.norm(at - mark))
        bearing = math.degrees(math.atan2(x, z)) + 5 * rng.normal()
        height = math.degrees(math.asin(y / far)) + 5 * rng.normal()
        at = mark + far * direction(bearing, height)
        power = light.power_stops
        if light.emitter is not None:
            power += light.emitter.uncertainty_stops * rng.normal() + 0.1 / math.sqrt(12) * rng.normal()
        lights.append(replace(light, position=(float(at[0]), float(at[1]), float(at[2])), power_stops=power))
    # the bounce is no more sure than half a stop of its own
    rho = one.box.reflectance
    box = replace(one.box, reflectance=_other_bounce(rho, 0.5 * rng.normal()))
    return replace(one, lights=tuple(lights), box=box)


def _other_bounce(rho: float, stops: float) -> float:
    """The reflectance whose rho/(1 - rho) is so many stops more: the integrating sphere's own law [SPHERE]."""
    gain = rho / (1 - rho) * 2.0**stops
    return gain / (1 + gain)


def _stops(one: Solved, taken: list[Step], read: Meter) -> list[float]:
    by_letter: dict[str, Light] = {x.letter: x for x in one.lights}
    panels = [x for x in one.lights if x.emitter is None]
    return [
        math.log2(
            reading(
                s.point, s.axis, [by_letter[x.letter] for x in s.on], one.box, panels=panels if s.panels_in else (),
                blocks=one.blocks if s.panels_in else (), recessed=s.recessed,
            )
        )
        for s in taken
    ]  # fmt: skip


def step(kind: str, letters: str) -> Step:
    """A reading for a table worked by hand; only its kind and what is on matter."""
    nowhere = np.zeros(3)
    lights = tuple(Light("key", (0, 0, 1), (0, 0, 0), "", 1.0, 0, 0, letter=x) for x in letters)
    return Step(kind, "", nowhere, nowhere, lights, False, False, False, 1.0)


ROUND = [step("key", "A"), step("fill", "B"), step("setting", "AB")]


def table(key: float, fill: float) -> Spread:
    """Key and fill with these standard errors; the key gives two thirds of the setting, the fill one."""
    by = np.array([[key, 0.0], [0.0, fill], [key * 2 / 3, fill / 3]])
    return Spread(by, ("output", "output"), ("A", "B"), np.zeros(3))


def test_the_reading_that_teaches_most_is_the_key_when_both_are_as_unsure() -> None:
    best = uncertainty.teaches_most(ROUND, table(0.3, 0.3))
    assert best is not None
    number, before, after = best
    # Setting variance (0.2^2 + 0.1^2) = 0.05. Key read: cov^2/var = (0.3 x 0.2)^2/0.09 = 0.04 goes; fill read: 0.01.
    assert number == 0
    assert before == pytest.approx(math.sqrt(0.05))
    assert after == pytest.approx(0.1)


def test_with_the_key_corrected_the_fill_teaches_more() -> None:
    best = uncertainty.teaches_most(ROUND, table(0.1, 0.3))
    assert best is not None
    # Key read: (0.1 x 0.0667)^2/0.01 = 0.0044 of the setting's variance goes; fill read: (0.3 x 0.1)^2/0.09 = 0.01.
    assert best[0] == 1
    assert best[2] == pytest.approx(0.1 * 2 / 3)


def test_a_reading_that_shares_nothing_teaches_nothing() -> None:
    apart = Spread(np.diag([0.3, 0.9, 0.3]), ("output",) * 3, ("A", "B", ""), np.zeros(3))
    best = uncertainty.teaches_most(ROUND, apart)
    assert best is not None
    assert best[1] == best[2]  # the setting is as unsure as before: no covariance, nothing learnt


def test_the_plan_says_it_in_a_sentence() -> None:
    entry = told(PAIR).document["setups"][0]
    first = entry["teaches_most"]
    named = next(s for s in entry["meter_round"] if s["step"] == first["step"])
    assert len(named["on"]) == 1
    assert f"light {named['on'][0]}" in first["because"]
    assert first["because"].endswith(".")


@pytest.mark.parametrize("name", briefs.DEMO)
def test_what_is_printed_is_the_root_of_its_parts_rounded_up(name: str) -> None:
    for entry in told(briefs.demo(name)).document["setups"]:
        for row in entry["meter_round"]:
            parts = math.sqrt(sum(v**2 for v in row["uncertainty_parts"].values()))
            # Parts are printed to a hundredth, so their root is known to about 0.01
            assert parts - 0.02 <= row["uncertainty_stops"] <= parts + 0.12
        block = entry["expected"]
        sets = next(s for s in entry["meter_round"] if s["sets_camera"])
        assert block["setting_uncertainty_stops"] == sets["uncertainty_stops"]
        assert block["setting_uncertainty_parts"] == sets["uncertainty_parts"]


def test_readings_that_correct_a_head_make_the_setting_surer() -> None:
    pairs = [("h400-1", "octa150-1"), ("h400-2", "umb180"), ("h200-1", "umb180"), ("h400-1", "umb180")]
    learned = [
        {"head": h, "modifier": m, "offset_stops": 0.0, "standard_error_stops": 0.05, "readings": 9} for h, m in pairs
    ]
    request = filled(PAIR)
    before = outcome(request, solved(PAIR)).expected["setting_uncertainty_parts"]["output"]
    known = PAIR | {"corrections": learned}
    after = outcome(filled(known), solved(known)).expected["setting_uncertainty_parts"]["output"]
    assert after < before
