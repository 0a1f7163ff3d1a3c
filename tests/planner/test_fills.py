"""Fills that share the work: a weak head with a second one or a white panel, dialled for the sum."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from shotplans.light import exposure
from shotplans.planner import readings
from shotplans.planner.plan import Light, Solved
from tests.planner import briefs, ruler
from tests.planner.sets import broken, meter, solved, told
from tests.planner.truths.grounds import MIRELA, SAID, weak_fills

TWO_HEADS, WITH_PANEL = SAID["two weak heads fill"], SAID["a weak head and a panel fill"]


def fills(one: Solved) -> list[Light]:
    return [x for x in one.lights if x.role == "fill"]


def below_key(one: Solved) -> float:
    """Stops of fill and bounce under the key, by the sum less the key's own light."""
    reads = meter(one)
    key = reads.direct(one.lights[0])
    return float(np.log2(key / (reads.setting() - key)))


@pytest.mark.parametrize("tree", [TWO_HEADS, WITH_PANEL])
def test_the_first_fill_gives_all_it_has_before_a_second_is_placed(tree: briefs.Tree) -> None:
    one = solved(tree)
    first, second = fills(one)
    assert first.power_stops == 0
    without = replace(one, lights=tuple(x for x in one.lights if x is not second))
    # The band asked for ends at 1.0 stop under the key (design.md section 6, soft): alone the first misses it
    assert below_key(without) > 1.0 + 0.25
    assert below_key(one) < below_key(without) - 0.3


@pytest.mark.parametrize("tree", [TWO_HEADS, WITH_PANEL])
def test_the_sum_of_all_three_is_the_working_aperture(tree: briefs.Tree) -> None:
    one = solved(tree)
    off = exposure.stops_between(one.camera.aperture, readings.f_number(meter(one).setting(), one.camera, False))
    assert abs(float(off)) <= 0.1  # recommend-io.md, laws of the output


def test_a_panel_makes_up_what_a_head_lacks_and_nothing_is_broken() -> None:
    one = solved(WITH_PANEL)
    assert [x.panel is not None for x in fills(one)] == [False, True]
    assert below_key(one) <= 1.0 + 0.05
    assert broken(one) == {}


def test_two_heads_of_one_kind_give_a_stop_more_than_one() -> None:
    one = solved(TWO_HEADS)
    first, second = fills(one)
    twin = replace(second, emitter=first.emitter, position=first.position, aim=first.aim, power_stops=0.0)
    alone = meter(replace(one, lights=(one.lights[0], first))).setting() - meter(one).direct(one.lights[0])
    both = meter(replace(one, lights=(one.lights[0], first, twin))).setting() - meter(one).direct(one.lights[0])
    even = readings.bounce_plane([one.lights[0]], one.box, one.blocks) * 1.5
    # F10: two flashes are one stop, the key's own bounce apart (a dome reads it 1.5 times: light.md section 4)
    assert np.log2((both - even) / (alone - even)) == pytest.approx(1.0, abs=1e-6)


def test_the_meter_round_reads_each_fill_alone_and_all_for_the_setting() -> None:
    setup = told(TWO_HEADS).document["setups"][0]
    alone = [s for s in setup["meter_round"] if len(s["on"]) == 1 and s["on"][0] in "ABC"]
    setting = next(s for s in setup["meter_round"] if s["sets_camera"])
    assert setting["on"] == ["A", "B", "C"]
    parts = sum(s["target"]["f_number"] ** 2 for s in alone)
    # Light adds as energy (F12); each reading is rounded to a tenth, and each holds its own bounce
    assert np.log2(parts) == pytest.approx(ruler.stops_of(setting["target"]["f_number"]), abs=0.15)


def test_a_strong_fill_needs_no_second() -> None:
    assert len(fills(solved(briefs.request(briefs.setup("soft", "half"), MIRELA)))) == 1


def test_where_the_iso_may_rise_it_rises_instead() -> None:
    free = briefs.request(briefs.setup("soft", "half"), MIRELA, kit=weak_fills(panels=[]))
    one = solved(free)
    assert len(fills(one)) == 1
    assert one.camera.iso > one.camera.body.base_iso
