"""What is on a sheet, compared as data."""

from __future__ import annotations

import dataclasses
import json

import pytest

from shotplans.planner import codec, solve
from shotplans.sheets import compose, wording
from shotplans.sheets.content import Flags
from tests.sheets import examples


@pytest.mark.parametrize("name", examples.NAMES)
def test_there_is_a_sheet_for_every_setup_of_the_plan(name: str) -> None:
    document, _ = examples.planned(name)
    sheets = examples.sheets(name)
    assert [s.setup for s in sheets] == [s["name"] for s in document["setups"]]
    assert [s.number for s in sheets] == list(range(1, len(sheets) + 1))


def test_a_light_is_written_as_the_plan_has_it() -> None:
    document, _ = examples.planned("askew")
    light = document["setups"][0]["lights"][0]
    row = examples.sheets("askew")[0].lights[0]
    assert (row.letter, row.role, row.power) == (light["letter"], light["role"], light["dial"])
    assert row.distance == f"{light['distance_m']:.2f} m"
    assert row.height == f"{light['centre_height_m']:.2f} m"
    assert row.bearing == f"{abs(light['bearing_deg']):.0f}° {'left' if light['bearing_deg'] < 0 else 'right'}"
    assert row.target == document["setups"][0]["meter_round"][0]["target"]["shown"]
    assert row.head == light["head"]


def test_power_stands_on_the_heads_own_dial_and_then_in_words() -> None:
    assert wording.power("1/4 -0.3", 2.3) == "1/4 -0.3: 2.3 stops below full"
    assert wording.power("1/1", 0.0) == "1/1: full power"
    assert wording.below_full(1.0) == "1.0 stop below full"


def test_a_panel_has_no_power_and_is_not_metered_alone() -> None:
    panels = [r for s in examples.sheets("tarrant") for r in s.lights if r.modifier.startswith("panel")]
    assert panels
    assert all(r.target == "" and r.head == "" and r.power_words == "no power" for r in panels)


@pytest.mark.parametrize(
    ("stops", "convention", "expected"),
    [
        (1.0, "total", "1.0 stop (3:1 on face)"),
        (2.0, "total", "2.0 stops (5:1 on face)"),  # both as job.md section 3 computes them
        (3.0, "total", "3.0 stops (9:1 on face)"),
        (1.0, "source", "1.0 stop (2:1 key to fill)"),
    ],
)
def test_feature_32_ratio_is_stops_with_its_convention_named(stops: float, convention: str, expected: str) -> None:
    assert wording.ratio(stops, convention) == expected
    document, given = examples.planned("askew")
    document["setups"][0]["expected"]["fill_below_key_stops"] = stops
    sheet = compose.setup_sheets(document, given, examples.heading(), ratio_convention=convention)[0]
    assert any(expected in note.says for note in sheet.notes)


def test_feature_33_tenths_suggest_the_cameras_third_and_the_trim() -> None:
    document, given = examples.planned("askew")
    document["setups"][0]["camera"] |= {"shown": "f/5.6 +0.6", "nearest_third": "f/7.1", "trim_stops": 0.1}
    aperture = compose.setup_sheets(document, given, examples.heading())[0].camera[0]
    assert aperture.value == "f/7.1"
    assert aperture.small == "reads f/5.6 +0.6, trim +0.1"


def test_feature_49_a_boomed_hair_light_adds_boom_counterweight_cord_sandbag_and_ring() -> None:
    given = examples.brief("askew")
    given["kit"]["stands"] = [s for s in given["kit"]["stands"] if s["id"] in ("stand300-1", "stand300-2", "boom-1")]
    given["kit"]["heads"] = [h for h in given["kit"]["heads"] if h["id"] in ("h400-1", "h400-2", "h200-1")]
    without = examples.brief("askew")
    without["kit"] |= {"heads": given["kit"]["heads"], "stands": given["kit"]["stands"][:2]}
    rows = {}
    for name, tree in (("with", given), ("without", without)):
        document = solve.plan(codec.understand(tree))
        sheet = compose.setup_sheets(document, tree, examples.heading())[0]
        rows[name] = {row.item: row for row in sheet.packing}, document["setups"][0]["lights"]
    (packed, lights), (fewer, _) = rows["with"], rows["without"]
    boomed = next(x for x in lights if x["arm_m"])
    added = {item for item, row in packed.items() if boomed["letter"] in row.used_for.split(", ")}
    assert {"boom-1", boomed["head"], boomed["modifier"], "safety cord"} <= added
    assert f"counterweight {boomed['counterweight_kg']:g} kg" in added
    assert any(item.startswith("sandbag") for item in added)
    assert boomed["adapter"] is None or boomed["adapter"] in added
    assert not {"boom-1", "safety cord"} & set(fewer)


def test_alerts_are_consequence_words_in_their_order_and_only_for_who_is_there() -> None:
    flags = Flags(no_flash=frozenset({"Nell"}), glasses=frozenset({"Corin"}), see_desk=True)
    document, given = examples.planned("marrowfield")
    sheets = compose.setup_sheets(document, given, examples.heading(), flags)
    assert {s.setup: s.alerts for s in sheets} == {
        "steady": ("NO FLASH", "SEE DESK"),
        "house standard": ("GLASSES", "SEE DESK"),
    }
    assert set(wording.ALERTS) >= {word for sheet in sheets for word in sheet.alerts}


@pytest.mark.parametrize("name", examples.NAMES)
def test_no_reason_and_no_condition_reaches_paper(name: str) -> None:
    document, _ = examples.planned(name)
    printed = json.dumps([dataclasses.asdict(s) for s in examples.sheets(name)]).casefold()
    for setup in document["setups"]:
        assert not [r["because"] for r in setup["reasons"] if r["because"].casefold() in printed]
    assert not [c for c in document["cautions"] if c.casefold() in printed]
    for word in ("wrinkle", "deep lines", "hip", "tremor", "hearing", "epilep", "bald", "years"):
        assert word not in printed


def test_a_pose_that_goes_on_is_not_said_again() -> None:
    document, given = examples.planned("askew")
    first = document["shots"][0]
    cues = ("The close pair. Heads close. Hands joined.", "Their hands. Heads close. Hands joined.", "Heads close.")
    document["shots"] = [first | {"n": n, "cue": cue} for n, cue in enumerate((*cues, cues[2]), start=1)]
    shots = compose.setup_sheets(document, given, examples.heading())[0].shots
    assert [s.cue for s in shots] == [cues[0], "Their hands.", cues[2], "Pose as before."]


def test_a_broken_limit_is_named_beside_the_drawing() -> None:
    document, given = examples.planned("askew")
    document["problems"] = [{"setup": None, "limit": "ceiling"}, {"setup": "another", "limit": "glare"}]
    notes = compose.setup_sheets(document, given, examples.heading())[0].notes
    assert notes[0].about == "Limit broken"
    assert notes[0].says == "ceiling: see the plan first."


def test_a_days_packing_list_names_everything_once_with_its_sittings_and_its_mount() -> None:
    parts = [(examples.heading(n), *examples.planned(n)) for n in examples.NAMES]
    sheet = compose.packing_sheet(parts, examples.URL)
    items = [row.item for group in sheet.groups for row in group.rows]
    wanted = {row["item"] for _, document, _ in parts for row in document["packing"]}
    assert len(items) == len(set(items))
    assert set(items) == wanted | {"shaft-s-2"}  # the spare of the one ring that is used
    assert [row.used_for for group in sheet.groups for row in group.rows if row.item == "shaft-s-2"] == ["spare"]
    rows = {row.item: row for group in sheet.groups for row in group.rows}
    assert "on h400-1: bayonet S" in rows["octa150-1"].fits
    assert rows["camera-1"].used_for == "all"
    assert "L-0042 A" in rows["octa150-1"].used_for
