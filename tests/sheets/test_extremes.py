"""Papers at their limits: one light and twelve, a small room, long names in other scripts, letters the font lacks."""

from __future__ import annotations

from typing import Any

import pytest

from shotplans.sheets import compose, diagram, setup_sheet
from shotplans.sheets.content import SetupSheet
from studio.paper import blocks, fonts
from studio.paper.page import A4, LETTER, Document, write
from studio.paper.primitives import Box
from tests.sheets import examples
from tests.sheets.reading import faults, pages_of, words_of

LONG = {
    "Greek": "Αλεξάνδρα-Θεοδώρα Παπαδοπούλου-Χατζηγιάννη της Κουίλμπριτζ",
    "Cyrillic": "Владислава-Екатерина Преображенская-Рождественская из Квилл",
    "Polish": "Świętosława Brzęczyszczykiewicz-Gżegżółczyńska z Łękołodów",
}


def changed(name: str, change: Any, **heading: Any) -> SetupSheet:
    document, given = examples.planned(name)
    change(document["setups"][0])
    return compose.setup_sheets(document, given, examples.heading(name, **heading))[0]


def twelve(setup: dict[str, Any]) -> None:
    first, alone = setup["lights"][0], setup["meter_round"][0]
    setup["lights"] = [
        first
        | {"letter": "ABCDEFGHIJKL"[n], "position_m": [-2.6 + 0.47 * n, 2.0 + 0.1 * (n % 3), 2.2 + 0.5 * (n % 4)]}
        | {"bearing_deg": -55.0 + 10 * n, "foot_m": [-2.6 + 0.47 * n, 2.5 + 0.5 * (n % 4)]}
        for n in range(12)
    ]
    setup["meter_round"] = [alone | {"on": [x["letter"]]} for x in setup["lights"]] + setup["meter_round"][1:]


def one(setup: dict[str, Any]) -> None:
    setup["lights"] = setup["lights"][:1]
    setup["meter_round"] = [s | {"on": ["A"]} for s in setup["meter_round"] if s["sets_camera"] or s["on"] == ["A"]]


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
@pytest.mark.parametrize("change", [one, twelve])
def test_one_light_and_twelve_are_drawn_whole(change: Any, paper: Any) -> None:
    sheet = changed("askew", change)
    data = setup_sheet.render(sheet, paper)
    assert list(faults(data)) == []
    assert all(row.power in words_of(data) for row in sheet.lights)


def test_a_dense_set_is_drawn_once_more_on_a_page_of_its_own() -> None:
    crowded = setup_sheet.render(examples.crowded())
    assert "The set, drawn large" in words_of(crowded)
    assert "The set, drawn large" not in words_of(setup_sheet.render(examples.sheets("askew")[0]))
    scene = examples.crowded().scene
    assert scene is not None
    small, large = diagram.draw(scene, 121.0, 93.0), diagram.draw(scene, 190.0, 250.0)
    assert large.scale < small.scale / 2
    frame = Box(0, 0, large.width, large.height)
    assert [t.text for t in large.texts if not frame.holds(t.box)] == []
    letters = {t.text for t in large.texts}
    assert {source.letter for source in scene.sources} <= letters


def test_a_room_of_three_by_three_metres_is_drawn_with_all_its_walls() -> None:
    document, given = examples.planned("dorrow")
    given["room"] |= {"width_m": 3.0, "depth_m": 3.0}
    room = document["setups"][0]["room"]
    room |= {"mark_from_side_wall_m": 1.5, "mark_from_ground_m": 0.9, "ground_from_wall_m": 0.2}
    document["setups"][0]["background"] |= {"distance_m": 0.9}
    for light in document["setups"][0]["lights"]:
        light["position_m"] = [max(-1.3, min(1.3, v)) if n != 1 else v for n, v in enumerate(light["position_m"])]
        light["foot_m"] = [max(-1.2, min(1.2, v)) for v in light["foot_m"]]
    document["setups"][0]["camera"]["distance_m"] = 1.6
    sheet = compose.setup_sheets(document, given, examples.heading("dorrow"))[0]
    assert list(faults(setup_sheet.render(sheet))) == []


@pytest.mark.parametrize("script", LONG)
def test_names_of_sixty_characters_in_other_alphabets_are_printed_whole(script: str) -> None:
    name = LONG[script]
    assert len(name) >= 57
    sheet = changed("askew", lambda setup: None, client=name, photographer=name, assistant=name)
    data = setup_sheet.render(sheet)
    assert list(faults(data)) == []
    assert fonts.missing(name) == ()
    printed = words_of(data).replace(" ", "").replace("-", "")
    assert printed.count(name.replace(" ", "").replace("-", "")) >= 3


def test_a_letter_the_font_lacks_shows_a_stand_in_and_the_foot_says_which() -> None:
    assert fonts.printable("Ana \u6f22\u202b B") == f"Ana {fonts.MISSING} B"
    gone: set[str] = set()
    sheet = changed("askew", lambda setup: None, client="Ana \u6f22")
    words = words_of(write(setup_sheet.document(sheet), A4, gone))
    assert gone == {"\u6f22"}
    assert f"Ana {fonts.MISSING}" in words
    assert f"{fonts.MISSING} stands for U+6F22" in words
    assert "stands for" not in words_of(setup_sheet.render(examples.sheets("askew")[0]))


def test_a_mark_without_its_own_letter_is_joined_to_it() -> None:
    assert fonts.printable("Zoe\u0308") == "Zo\N{LATIN SMALL LETTER E WITH DIAERESIS}"


def test_nothing_but_white_gives_no_page_of_its_own() -> None:

    full = [*blocks.paragraph("\n".join(["line"] * 49)), blocks.space(40.0)]
    assert pages_of(write(Document("t", "a", tuple(full), "r", "f"))) == 1
