"""Letter beside A4, feet beside metres, everywhere: nothing cut, nothing of the other units left over."""

from __future__ import annotations

import copy
import itertools
import re
from functools import cache
from math import dist

import pytest

from shotplans.sheets import (
    compose,
    diagram,
    measures,
    meter_card,
    meter_round,
    packing_sheet,
    ruler,
    setup_sheet,
    strike,
)
from shotplans.sheets.changeover import Standing
from shotplans.sheets.measures import IMPERIAL, METRIC, Measures
from studio.paper.page import A4, LETTER, Paper
from studio.paper.primitives import Line, Text
from tests.sheets import examples
from tests.sheets.reading import codes_of, faults, pages_of, words_of

MANY_SHOTS = 12
SIZES = {"A4": A4, "Letter": LETTER}


@cache
def printed(name: str, paper: Paper, ways: Measures) -> list[bytes]:
    document, given = examples.planned(name)
    heading = examples.heading(name)
    sheets = compose.setup_sheets(document, given, heading, measures=ways)
    cards = meter_round.cards(document, heading)
    packed = compose.packing_sheet([(heading, document, given)], examples.URL)
    return [
        *(setup_sheet.render(sheet, paper) for sheet in sheets),
        *(meter_card.render(card, paper) for card in cards),
        packing_sheet.render(packed, paper),
    ]


@pytest.mark.parametrize("name", examples.NAMES)
@pytest.mark.parametrize(("size", "ways"), [("A4", IMPERIAL), ("Letter", IMPERIAL), ("Letter", METRIC)])
def test_feature_45_every_paper_of_a_plan_is_whole_in_both_sizes_and_units(
    name: str, size: str, ways: Measures
) -> None:
    for data in printed(name, SIZES[size], ways):
        assert list(faults(data)) == []


@pytest.mark.parametrize("name", examples.NAMES)
def test_a_setup_sheet_is_a_front_and_a_back(name: str) -> None:
    # Feature 45: one sheet of paper for a set-up, and what is built from on its front. Where thirteen people come in
    # turn for seventeen shots, the walk and the signature go whole to a second sheet.
    for size, ways in (("A4", IMPERIAL), ("Letter", METRIC), ("Letter", IMPERIAL)):
        document, given = examples.planned(name)
        sheets = compose.setup_sheets(document, given, examples.heading(name), measures=ways)
        for sheet, data in zip(sheets, printed(name, SIZES[size], ways), strict=False):
            assert pages_of(data) <= (3 if len(sheet.shots) > MANY_SHOTS else 2)
            front, back = words_of(data).split("page 1 of", 1)
            assert all(value.value in front for value in sheet.camera)
            assert f"{sheet.heading.sitting} {sheet.heading.client}" in back


def test_no_metre_stands_on_an_imperial_sheet_and_no_foot_on_a_metric_one() -> None:
    for name in examples.NAMES:
        tape = words_of(printed(name, LETTER, IMPERIAL)[0])
        assert re.findall(r"\d m\b|\d kg\b|grid 50 cm", tape) == []
        assert re.search(r"\d'\d{1,2}\"", tape)
        metric = words_of(printed(name, LETTER, METRIC)[0])
        assert re.findall(r"\d ft\b|\d lb\b|\d'\d", metric) == []


def test_a_length_is_said_to_two_inches_and_a_mass_in_whole_pounds() -> None:
    assert IMPERIAL.length(2.1) == "6 ft 10 in"  # 82.7 in, the nearest even inch is 82 (0.0254 m each, exact by law)
    assert IMPERIAL.number(2.1) == "6'10\""
    assert IMPERIAL.length(3.0) == "9 ft 10 in"  # 118.1 in
    assert IMPERIAL.mass(7.0) == "15 lb"  # 15.43 by 0.45359237 kg
    assert (METRIC.length(2.1), METRIC.number(2.1), METRIC.mass(7.0)) == ("2.10 m", "2.10", "7 kg")
    assert IMPERIAL.signed(-0.9144) == "-3.0 ft"
    assert measures.of("imperial") is IMPERIAL
    said = "150 cm octabox 2.10 m off, 0.35 m more height, 2 x 3 m free, 7 kg, f/8, 90 mm"
    assert IMPERIAL.said(said) == (
        "150 cm octabox 6 ft 10 in off, 14 in more height, 6 ft 6 in x 9 ft 10 in free, 15 lb, f/8, 90 mm"
    )
    assert METRIC.said(said) == said
    focus = "f/8 holds -0.18 to +0.21 m about the focus sharp; the faces need -0.03 to +0.10."
    assert IMPERIAL.said(focus) == "f/8 holds -7 in to +8 in about the focus sharp; the faces need -1 in to +4 in."
    assert IMPERIAL.said("eyes lie 1.02 to 1.74 m up") == "eyes lie 3 ft 4 in to 5 ft 8 in up"


@pytest.mark.parametrize("ways", [METRIC, IMPERIAL])
def test_the_grid_is_half_a_metre_or_two_feet(ways: Measures) -> None:
    document, given = examples.planned("dorrow")
    scene = compose.setup_sheets(document, given, examples.heading(), measures=ways)[0].scene
    assert scene is not None
    drawing = diagram.draw(scene, 121.0, 118.0)
    upright = sorted({m.start[0] for m in drawing.marks if isinstance(m, Line) and m.part == "grid"
                      and abs(m.start[0] - m.end[0]) < 1e-9})  # fmt: skip
    steps = [b - a for a, b in itertools.pairwise(upright)]
    assert steps == pytest.approx([ways.grid_m * 1000 / drawing.scale] * len(steps), abs=0.01)
    assert any(ways.grid_words in t.text for t in drawing.texts)


@pytest.mark.parametrize("name", examples.NAMES)
@pytest.mark.parametrize("ways", [METRIC, IMPERIAL])
def test_a_dimension_says_the_plan_s_number_and_is_drawn_that_long(name: str, ways: Measures) -> None:
    document, given = examples.planned(name)
    scene = compose.setup_sheets(document, given, examples.heading(name), measures=ways)[0].scene
    assert scene is not None
    laid, drawing = ruler.lay(scene, 121.0, 118.0), diagram.draw(scene, 121.0, 118.0)
    drawn = [dist(m.start, m.end) for m in drawing.marks if isinstance(m, Line) and m.part == "dimension"]
    said = {t.text for t in drawing.texts if isinstance(t, Text)}
    camera = document["setups"][0]["camera"]["distance_m"]
    assert ways.number(camera) in said
    # half a millimetre on the sheet: nothing is rounded in drawing
    assert any(length == pytest.approx(camera * 1000 / laid.scale, abs=0.5) for length in drawn)


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_code_on_a_printed_page_leads_to_its_address(size: str) -> None:
    for data in (
        setup_sheet.render(examples.sheets("askew")[0], SIZES[size]),
        meter_card.render(meter_round.cards(examples.planned("askew")[0], examples.heading())[0], SIZES[size]),
    ):
        assert codes_of(data) == [examples.URL]


def test_what_comes_down_is_weighed_and_what_stays_up_turned_as_everywhere() -> None:
    document, given = examples.planned("pellingham")
    setup, request = document["setups"][0], compose.filled(given)
    moved = copy.deepcopy(setup)
    setup["lights"][0] |= {"stand": "boom-1", "arm_m": 1.4, "counterweight_kg": 7.0}
    moved["lights"][1] |= {"bearing_deg": -35.0}
    here, there = Standing(setup, request), Standing(moved, request)
    said = {ways.units: " ".join(one.says for one in strike.lines(here, ways)) for ways in (METRIC, IMPERIAL)}
    assert "counterweight 7 kg" in said["metric"]
    assert "counterweight 15 lb" in said["imperial"]
    assert any("35° left" in words for words in strike.stays_up(here, there, METRIC))
