"""Every reference case through the front door, and what is said of cases that cannot be answered."""

from __future__ import annotations

import copy
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from shotplans.light.__main__ import main
from shotplans.light.cases import TOPICS, answer, answer_all

FILE = Path(__file__).resolve().parents[2] / "fixtures" / "light_cases.json"
CASES: list[dict[str, Any]] = json.loads(FILE.read_text(encoding="utf-8"))["cases"]
ONE_EACH = {case["topic"]: case for case in reversed(CASES)}


def meets(found: float | bool, expected: float | bool, tolerance: dict[str, Any]) -> bool:
    """As the file's tolerance_rule says: absolute, relative, or an absolute floor that also counts."""
    if tolerance.get("exact") or isinstance(expected, bool):
        return found is expected
    room = max(tolerance.get("abs", 0.0), tolerance.get("rel", 0.0) * abs(expected), tolerance.get("abs_floor", 0.0))
    return abs(found - expected) <= room


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_every_reference_case_is_met(case: dict[str, Any]) -> None:
    # LIGHT-1 to LIGHT-6: closed forms confirmed by ray tracing with Mitsuba 3.9.1, or its own values
    # (relief, spectacles); each case names its method and its tolerance, none of them ours.
    tolerances = case.get("tolerance_for_closed_form_index", case["tolerance"])
    found = answer(case)
    for quantity, expected in case["expected"].items():
        tolerance = tolerances if tolerances.get("exact") else tolerances.get(quantity, {})
        assert meets(found[quantity], expected, tolerance), (quantity, found[quantity], expected)


def test_the_file_has_a_case_of_every_topic() -> None:
    assert set(ONE_EACH) == set(TOPICS)


def changed(topic: str, **inputs: Any) -> dict[str, Any]:
    case = copy.deepcopy(ONE_EACH[topic])
    case["inputs"] |= inputs
    return case


@pytest.mark.parametrize(
    ("topic", "inputs", "says"),
    [
        ("irradiance", {"shape": "hexagon"}, "shape: expected one of disc, rect"),
        ("irradiance", {"size_m": [1.0, 2.0, 3.0]}, "size_m: expected a list of 1 number"),
        ("irradiance", {"size_m": [-1.0]}, "size_m[0]: lies outside"),
        ("irradiance", {"distance_m": "far"}, "distance_m: expected a number"),
        ("irradiance", {"distance_m": True}, "distance_m: expected a number"),
        ("irradiance", {"az_deg": float("nan")}, "az_deg: lies outside"),
        ("irradiance", {"normal": [0, 0, 0]}, "normal: expected a direction"),
        ("irradiance", {"az_deg": 0, "el_deg": 0, "distance_m": 1, "aim_m": [0, 0, 1]}, "aim_m: the light cannot"),
        ("irradiance", {"point_m": None}, "point_m: expected a list of 3 numbers"),
        ("penumbra", {"surface_tilt_deg": 95}, "surface_tilt_deg: lies outside"),
        ("penumbra", {"a_m": 0}, "a_m: lies outside"),
        ("penumbra", {"size_m": [3.6], "a_m": 1, "b_m": 9.5, "surface_tilt_deg": 75}, "the surface is turned so far"),
        ("relief", {"fill_kind": "dome", "fill_stops": None}, "fill_stops: expected a number"),
        ("relief", {"fill_kind": "side", "fill_stops": 1}, "fill_kind: expected one of dome, front"),
        ("relief", {"rho": 10**400}, "rho: lies outside"),
        ("relief_change", {"after": 3}, "after.inputs: expected an object"),
        ("meter", {"lights": []}, "lights: expected a list with at least one light"),
        ("meter", {"lights": [{"t_deg": 0}]}, "lights[0].alpha_deg: is missing"),
        ("catchlight", {"distance_mm": 10}, "distance_mm: a light lies at least 50 mm"),
        ("eye_occlusion", {"eye": "third"}, "eye: expected one of image right, image left"),
        ("glasses", {"side": 0}, "side: expected 1"),
        ("glasses", {"base_dioptre": -4}, "base_dioptre: lies outside"),
    ],
)
def test_a_broken_input_is_named_in_a_sentence(topic: str, inputs: dict[str, Any], says: str) -> None:
    answers, sound = answer_all([changed(topic, **inputs)])
    assert not sound
    (only,) = answers.values()
    assert str(only["error"]).startswith(says)


@pytest.mark.parametrize("topic", sorted(TOPICS))
def test_a_case_without_an_input_is_an_error_or_has_a_stated_default(topic: str) -> None:
    for name in ONE_EACH[topic]["inputs"]:
        case = changed(topic)
        del case["inputs"][name]
        answers, _ = answer_all([case])
        (only,) = answers.values()
        assert "error" not in only or isinstance(only["error"], str)


@pytest.mark.parametrize("case", [3, None, {}, {"id": 4}, {"id": "x", "topic": ["meter"]}, {"id": "x"}])
def test_a_case_that_is_no_case_is_an_error(case: Any) -> None:
    answers, sound = answer_all([case])
    assert not sound
    assert all(set(found) == {"error"} for found in answers.values())


def test_an_unknown_topic_fails_alone() -> None:
    answers, sound = answer_all([{**CASES[0], "topic": "colour"}, CASES[1]])
    assert not sound
    assert str(answers[CASES[0]["id"]]["error"]).startswith("topic: expected one of")
    assert "E_over_L_sr" in answers[CASES[1]["id"]]


def test_a_second_case_of_the_same_id_is_an_error() -> None:
    answers, sound = answer_all([CASES[0], CASES[0]])
    assert not sound
    assert "E_over_L_sr" in answers[CASES[0]["id"]]
    assert "taken" in str(answers["cases[1]"]["error"])


@pytest.mark.parametrize(
    "more",
    [
        {"topic": "irradiance", "inputs": {"az_deg": 180.0, "el_deg": 10.0}},  # a light behind
        {"topic": "penumbra", "inputs": {"surface_tilt_deg": -70.0}},
        {"topic": "relief", "inputs": {"theta_deg": -60.0}},
        {"topic": "relief", "inputs": {"theta_deg": 90.0, "alpha_deg": 1.0, "fill_kind": None, "fill_stops": None}},
        {"topic": "meter", "inputs": {"lights": [{"t_deg": -170.0, "alpha_deg": 40.0, "E_perp": 2.0}]}},
        {"topic": "catchlight", "inputs": {"gaze_el_deg": -20.0, "az_deg": 150.0}},
        {"topic": "catchlight", "inputs": {"az_deg": 0.0, "el_deg": 0.0}},  # a light on the camera
        {"topic": "eye_occlusion", "inputs": {"eye": "image left", "az_deg": 80.0}},
        {"topic": "glasses", "inputs": {"base_dioptre": 0, "light_az_deg": 180.0}},
    ],
)
def test_unusual_cases_are_answered(more: dict[str, Any]) -> None:
    found = answer(changed(more["topic"], **more["inputs"]))
    assert set(found) <= {*ONE_EACH[more["topic"]]["expected"], "full_width_mm", "spot_centre_x_mm", "spot_centre_y_mm"}


def test_the_command_prints_answers_by_id(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(FILE)]) == 0
    printed = json.loads(capsys.readouterr().out)
    assert list(printed) == [case["id"] for case in CASES]


def test_the_command_says_one_when_a_case_fails(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "cases.json"
    file.write_text(json.dumps([{"id": "a", "topic": "colour", "inputs": {}}, CASES[0]]), encoding="utf-8")
    assert main([str(file)]) == 1
    assert list(json.loads(capsys.readouterr().out)) == ["a", CASES[0]["id"]]


@pytest.mark.parametrize("content", [b"\xff\xfe", b"{", b"3", b'{"cases": 3}', b"[" * 100_000])
def test_an_unreadable_file_is_one_line_and_status_two(
    content: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "cases.json"
    file.write_bytes(content)
    for arguments in ([str(file)], [str(tmp_path / "absent.json")], []):
        assert main(arguments) == 2
        printed = capsys.readouterr()
        assert printed.out == ""
        assert printed.err.count("\n") == 1


def test_the_engine_runs_without_django() -> None:
    code = "import sys, shotplans.light.__main__; sys.exit('django' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], cwd=FILE.parents[1], check=False).returncode == 0
