"""The sheets read back as PDFs: pages, words, sizes, boxes, fonts, and nothing over the edge or over another word."""

from __future__ import annotations

import time
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber
import pytest
from pypdf import PdfReader

from shotplans.sheets import compose, packing_sheet, setup_sheet
from shotplans.sheets.content import Flags, PackingSheet, SetupSheet
from tests.sheets import examples
from tests.sheets.reading import boxes, faults, words_of

MM = 72 / 25.4
FLAGS = Flags(chair_with_arms=frozenset({"Bertram"}), glasses=frozenset({"Bertram"}), **examples.EVERY_FLAG)


@cache
def day() -> PackingSheet:
    parts = [(examples.heading(n), *examples.planned(n)) for n in examples.NAMES]
    return compose.packing_sheet(parts, examples.URL)


@cache
def printed(name: str) -> tuple[bytes, ...]:
    if name == "packing":
        return (packing_sheet.render(day()),)
    if name == "crowded":
        return (setup_sheet.render(examples.crowded()),)
    return tuple(setup_sheet.render(sheet) for sheet in examples.sheets(name, FLAGS))


EVERYTHING = (*examples.NAMES, "packing", "crowded")


def pages(name: str) -> Iterator[Any]:
    for data in printed(name):
        with pdfplumber.open(BytesIO(data)) as pdf:
            yield from pdf.pages


def sheet(name: str = "askew") -> SetupSheet:
    return examples.sheets(name, FLAGS)[0]


def test_a_setup_of_three_lights_takes_two_pages() -> None:
    assert len(PdfReader(BytesIO(printed("askew")[0])).pages) == 2
    assert [len(PdfReader(BytesIO(data)).pages) for data in printed("tarrant")] == [2, 2]


def test_page_one_holds_everything_to_build_from() -> None:
    page = " ".join(PdfReader(BytesIO(printed("askew")[0])).pages[0].extract_text().split())
    content = sheet()
    for row in content.lights:
        for words in (row.power, row.distance, row.bearing, row.height, row.target, row.modifier, row.stand):
            assert words in page
    for value in content.camera:
        assert value.value in page
    for alert in content.alerts:
        assert alert in page
    for word in ("L-0042", "Askew", "09:00", "09:30", "10:45", "Tobiah Renn", "METERED", "SET", "ACTUAL"):
        assert word in page


@pytest.mark.parametrize("name", EVERYTHING)
def test_every_page_says_which_it_is(name: str) -> None:
    for data in printed(name):
        found = PdfReader(BytesIO(data)).pages
        for number, page in enumerate(found, start=1):
            words = " ".join(page.extract_text().split())
            assert f"page {number} of {len(found)}" in words
            assert "printed 3 May 2027 17:20" in words
            if name != "packing":
                assert "plan 1" in words
                assert "Sitting " in words


@pytest.mark.parametrize("name", EVERYTHING)
def test_paper_is_whole_and_legible_in_one_embedded_font(name: str) -> None:
    for data in printed(name):
        assert list(faults(data)) == []


def sizes(page: Any, word: str) -> set[float]:
    found = page.extract_words(extra_attrs=["size"], x_tolerance=1.5)
    return {round(w["size"], 1) for w in found if w["text"] == word}


def test_words_have_the_size_of_their_reading_distance() -> None:
    page = next(pages("askew"))
    content = sheet()
    assert sizes(page, "09:30") == {24.0}
    assert sizes(page, "GLASSES") == {18.0}
    assert 14.0 in sizes(page, content.intent.split()[-1])
    assert sizes(page, "1/200") == {30.0}
    assert 14.0 in sizes(page, content.lights[0].power.split()[0])
    assert 12.0 in sizes(page, "octabox,")
    assert min(char["size"] for char in page.chars) >= 3.2 * MM - 0.01


@pytest.mark.parametrize("name", [*examples.NAMES, "crowded"])
def test_every_metered_light_has_an_actual_box_of_twelve_millimetres(name: str) -> None:
    contents = [examples.crowded()] if name == "crowded" else examples.sheets(name, FLAGS)
    for content, data in zip(contents, printed(name), strict=True):
        big = boxes(data, 12.0)
        at_right = [b for b in big if b["width"] < 30 * MM and b["x1"] > (210 - 10.5) * MM]
        assert len(at_right) >= sum(1 for row in content.lights if row.target)
        assert len(big) >= sum(1 for row in content.lights if row.target) + 5  # METERED once, SET four times


@pytest.mark.parametrize("name", [*examples.NAMES, "crowded"])
def test_every_shot_thing_and_hazard_has_a_tick_box_of_six_millimetres(name: str) -> None:
    contents = [examples.crowded()] if name == "crowded" else examples.sheets(name, FLAGS)
    for content, data in zip(contents, printed(name), strict=True):
        ticks = [b for b in boxes(data, 6.0) if b["height"] < 8 * MM and b["width"] < 8 * MM]
        wanted = len(content.shots) + len(content.packing) + len(content.hazards) + 2 * len(content.foot.questions)
        assert len(ticks) == wanted


@pytest.mark.parametrize("name", [*examples.NAMES, "crowded"])
def test_nothing_of_the_content_is_cut(name: str) -> None:
    contents = [examples.crowded()] if name == "crowded" else examples.sheets(name, FLAGS)
    for content, data in zip(contents, printed(name), strict=True):
        text = words_of(data).replace(" ", "")
        said = [content.intent, *(shot.cue for shot in content.shots), *content.hazards, *content.foot.questions]
        said += [note.says for note in content.notes] + [row.item for row in content.packing]
        said += [row.stand for row in content.lights] + [content.heading.client, content.heading.assistant]
        said += [person for row in content.rows for person in row.people]
        assert [words for words in said if words.replace(" ", "") not in text] == []


def test_the_packing_list_has_two_ticks_a_row_and_names_every_sitting() -> None:
    text = words_of(printed("packing")[0])
    rows = [row for group in day().groups for row in group.rows]
    ticks = boxes(printed("packing")[0], 6.0)
    assert len(ticks) == 2 * len(rows) + 2
    for row in rows:
        assert row.item in text
    for sitting in day().sittings:
        assert sitting.sitting in text


def test_what_many_in_turn_are_told_is_said_once_with_a_tick_for_each() -> None:
    words = words_of(printed("marrowfield")[1])
    assert words.count("Each in turn: Pose as before.") == 1
    in_turn = [shot for shot in examples.sheets("marrowfield", FLAGS)[1].shots if shot.cue == "Pose as before."]
    assert len(in_turn) >= 8
    assert [shot.number for shot in in_turn if f"{shot.number} {shot.who}" not in words] == []


def test_equal_content_gives_equal_bytes_and_another_print_time_others() -> None:
    assert setup_sheet.render(sheet()) == setup_sheet.render(sheet())
    assert packing_sheet.render(day()) == packing_sheet.render(day())
    document, given = examples.planned("askew")
    later = compose.setup_sheets(document, given, examples.heading(printed_at="4 May 2027 08:00"), FLAGS)[0]
    assert setup_sheet.render(later) != setup_sheet.render(sheet())


def test_a_setup_without_light_still_gives_a_sheet_that_says_so() -> None:
    document, given = examples.planned("askew")
    bare = {"sitters": [], "lights": [], "blocks": [], "camera": None, "background": None, "room": None}
    document["setups"][0] |= bare | {"meter_round": [], "expected": None, "changes_per_person": []}
    document["problems"] = [{"setup": "the pair", "limit": "kit"}]
    document["shots"] = []
    content = compose.setup_sheets(document, given, examples.heading(), FLAGS)[0]
    text = words_of(setup_sheet.render(content))
    assert "no usable light" in text
    assert "Limit broken" in text


def test_five_setup_sheets_and_the_packing_list_take_under_three_seconds() -> None:
    parts = [(examples.heading(n), *examples.planned(n)) for n in examples.NAMES]
    start = time.process_time()
    for one, document, given in parts:
        for content in compose.setup_sheets(document, given, one):
            setup_sheet.render(content)
    packing_sheet.render(compose.packing_sheet(parts, examples.URL))
    assert time.process_time() - start < 3.0
