"""The same number the same everywhere: each light's place and power, each reading and the camera, written here from the
plan's JSON alone, stand so on the screen of every role, on every paper of the set and in the fields that move it."""

from __future__ import annotations

import json
from functools import cache
from math import floor, log2
from typing import Any

import pytest

from shotplans import paper
from shotplans.planner import codec
from studio.models import Profile
from tests import lindenmere
from tests.sheets.reading import words_of

WHOLE_STOPS = ("1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45", "64")  # ISO 517, marked values


def f_stop(f_number: float) -> str:
    """An aperture as a whole stop and tenths above it; stops by ISO 517: 2 log2 N."""
    tenths = round(20 * log2(f_number))
    whole = floor(tenths / 10)
    return f"f/{WHOLE_STOPS[whole]} +{(tenths - 10 * whole) / 10:.1f}"


def metres(value: float) -> str:
    return f"{value:.2f} m"


def side(bearing_deg: float) -> str:
    """A bearing from the line of mark and camera, to the side seen from the camera."""
    at = round(abs(bearing_deg))
    return f"{at}°" if at in (0, 180) else f"{at}° {'left' if bearing_deg < 0 else 'right'}"


def written(name: str) -> list[dict[str, Any]]:
    """The set-ups as a program reads them: the plan written as JSON text and read back."""
    found: list[dict[str, Any]] = json.loads(codec.dump(lindenmere.plan(name).document))["setups"]
    return found


@cache
def words(name: str, role: str, page: str) -> str:
    plan = lindenmere.plan(name)
    address = f"/sittings/{plan.sitting.number}/plans/{plan.number}/{page}"
    if page.endswith(".pdf"):
        return words_of(lindenmere.client_of(role).get(address).content)
    return lindenmere.visitor(role).open(address).words


@pytest.fixture(autouse=True)
def read_anew() -> None:
    words.cache_clear()


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_every_number_of_a_set_is_the_same_on_screen_on_paper_and_in_json(studio: None, name: str) -> None:
    for number, setup in enumerate(written(name), start=1):
        sheet, card = f"setups/{number}.pdf", f"setups/{number}/meter.pdf"
        record = words(name, "assistant", "record/")
        screens = [words(name, "photographer", ""), words(name, "assistant", "")]
        for light in (one for one in setup["lights"] if one["head"]):
            place = (metres(light["distance_m"]), side(light["bearing_deg"]), metres(light["centre_height_m"]))
            for said in (*place, light["dial"], light["stand"]):
                for page in (*screens, words(name, "assistant", sheet)):
                    assert said in page, (setup["name"], light["letter"], said)
        for step in setup["meter_round"]:
            target = step["target"]
            if target is None:
                continue
            assert f_stop(target["f_number"]) == target["shown"]
            for page in (words(name, "assistant", card), record, screens[0]):
                assert target["shown"] in page, (setup["name"], step["step"], target["shown"])
        camera = setup["camera"]
        shutter = f"1/{round(1 / camera['shutter_s'])}"
        for said in (camera["nearest_third"], shutter, str(camera["iso"])):
            for page in (*screens, words(name, "assistant", sheet), words(name, "assistant", card), record):
                assert said in page, (setup["name"], said)


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_the_fields_that_move_a_set_hold_the_plans_own_numbers(studio: None, name: str) -> None:
    plan = lindenmere.plan(name)
    address = f"/sittings/{plan.sitting.number}/plans/{plan.number}/"
    live = lindenmere.client_of("photographer").get(address).context["live"]
    for number, setup in enumerate(written(name), start=1):
        cells = live[number].answer.cells
        for light in (one for one in setup["lights"] if one["head"]):
            of = f"light|{light['letter']}|"
            for field in ("distance_m", "bearing_deg", "power_below_full_stops"):
                assert float(cells[f"{of}{field}"].value) == light[field], (setup["name"], light["letter"], field)
            assert float(cells[f"{of}height_m"].value) == light["centre_height_m"]
        assert float(cells["camera||distance_m"].value) == setup["camera"]["distance_m"]
        assert float(cells["camera||height_m"].value) == setup["camera"]["height_m"]


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_every_thing_of_the_packing_list_is_the_same_on_screen_on_paper_and_in_json(studio: None, name: str) -> None:
    plan = lindenmere.plan(name)
    day = plan.sitting.starts_at.date()
    screen = lindenmere.visitor("assistant").open(f"/packing/?day={day.isoformat()}").words
    on_paper = words_of(paper.packing_pdf([plan], Profile.get()))
    for row in plan.document["packing"]:
        for page in (screen, on_paper):
            assert row["item"] in page, row["item"]
        if row["count"] > 1:
            assert f"{row['count']} x " in on_paper, row["item"]
