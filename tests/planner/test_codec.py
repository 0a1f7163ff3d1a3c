"""Reading a brief: what is accepted, and every way to be refused with a sentence."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

from shotplans.planner import codec
from shotplans.planner.json_text import LARGEST_BYTES
from tests.planner.smallest import everything, faults, put, raw, smallest, spoilt

BRIEFS = sorted((Path(__file__).parents[2] / "fixtures" / "briefs").glob("*.json"))


@pytest.mark.parametrize("brief", BRIEFS, ids=lambda path: path.stem)
def test_every_example_brief_is_readable(brief: Path) -> None:
    assert codec.read_request(brief.read_bytes()).sitters


def test_only_the_required_keys_are_required() -> None:
    assert codec.read_request(raw(smallest())).kit.heads[0].energy_ws is None


def test_every_key_of_the_format_is_read() -> None:
    request = codec.read_request(raw(everything()))
    assert request.kit.adapters[0].from_ == "bayonet P"
    assert request.kit.modifiers[0].size_m == (1.5, 1.5)


def test_a_rectangle_has_width_and_height() -> None:
    tree = smallest()
    tree["kit"]["modifiers"][0] |= {"shape": "rect", "diameter_m": None, "width_m": 0.6, "height_m": 0.9}
    assert codec.read_request(raw(tree)).kit.modifiers[0].size_m == (0.6, 0.9)


def _optional(node: Any, optional: Any, path: str = "") -> list[str]:
    """Paths of all keys that `everything` has and `smallest` has not."""
    found: list[str] = []
    for key, value in node.items() if isinstance(node, dict) else enumerate(node):
        here = f"{path}[{key}]" if isinstance(key, int) else f"{path}.{key}".lstrip(".")
        known = optional is not None and (
            key in optional if isinstance(optional, dict) else key < len(optional)
        )
        if not known and isinstance(key, str):
            found.append(here)
        elif isinstance(value, dict | list):
            found += _optional(value, optional[key] if known else None, here)
    return found


@pytest.mark.parametrize("path", [p for p in _optional(everything(), smallest()) if "heads[1]" not in p])
def test_null_is_read_as_an_absent_key(path: str) -> None:
    if path.startswith("sitters[1]") or path.endswith(("].from", "].to")):
        return  # a second entry has its own required keys
    assert codec.read_request(spoilt(put(path, None)))


def test_a_byte_order_mark_is_passed_over() -> None:
    assert codec.read_request(b"\xef\xbb\xbf" + raw(smallest()))


@pytest.mark.parametrize(
    ("path", "value", "line"),
    [
        (
            "brief.setups[0].intent",
            "softt",
            'brief.setups[0].intent: "softt", expected one of soft, even, natural, bold, character, bright',
        ),
        ("room.width_m", -6, "room.width_m: -6, expected a number from 0.01 to 100"),
        ("room.width_m", 0, "room.width_m: 0, expected a number from 0.01 to 100"),
        ("room.width_m", "6", 'room.width_m: "6", expected a number from 0.01 to 100'),
        ("room.width_m", True, "room.width_m: true, expected a number from 0.01 to 100"),
        ("room.width_m", None, "room.width_m: null, expected a number from 0.01 to 100"),
        ("room.width_m", [6], "room.width_m: a list of 1, expected a number from 0.01 to 100"),
        ("room.width_m", 10**30, "room.width_m: 1e+30, expected a number from 0.01 to 100"),
        (
            "room.surfaces.walls",
            1.2,
            "room.surfaces.walls: 1.2, expected a number from 0 to 1 or one of white, light grey, grey, "
            "dark, black",
        ),
        ("room.black_out", "yes", 'room.black_out: "yes", expected true or false'),
        ("room.circuits", {}, "room.circuits: an object, expected a list of up to 1000 entries"),
        ("sitters", [], "sitters: an empty list, expected a list of 1 to 60 entries"),
        ("brief.setups", [], "brief.setups: an empty list, expected a list of 1 to 50 entries"),
        ("kit.cameras", [], "kit.cameras: an empty list, expected a list of 1 to 1000 entries"),
        ("kit.lenses", [], "kit.lenses: an empty list, expected a list of 1 to 1000 entries"),
        ("kit.backgrounds", [], "kit.backgrounds: an empty list, expected a list of 1 to 1000 entries"),
        (
            "sitters[0].glasses.colour",
            "red",
            "sitters[0].glasses.colour: unknown key, expected one of lens, may_remove",
        ),
        (
            "corrections[0].readings",
            1.5,
            "corrections[0].readings: 1.5, expected a whole number from 1 to 100,000",
        ),
        (
            "brief.crops[0]",
            "wide",
            'brief.crops[0]: "wide", expected a number from 0.01 to 100 or two numbers as in 4:5',
        ),
    ],
)
def test_a_wrong_value_is_named_with_what_is_expected(path: str, value: object, line: str) -> None:
    assert line in faults(spoilt(put(path, value)))


def test_a_missing_key_is_named() -> None:
    tree = everything()
    del tree["kit"]["heads"][0]["mount"]
    assert faults(raw(tree)) == [
        "kit.heads[0].mount: missing, expected a text of 1 to 120 characters, without control characters"
    ]


def test_an_odd_key_is_quoted_so_that_it_cannot_disturb_the_terminal() -> None:
    assert faults(spoilt(put("room", smallest()["room"] | {"a\x1b[2Jb": 1})))[0].startswith(
        'room."a\\u001b[2Jb": unknown'
    )


@pytest.mark.parametrize("label", ["", "  ", "a\nb", "\x1b[2J", "x" * 121])
def test_a_label_is_one_line_of_visible_text(label: str) -> None:
    assert faults(spoilt(put("kit.panels[0].id", label)))[0].startswith("kit.panels[0].id: ")


def test_more_than_sixty_sitters_are_refused() -> None:
    tree = smallest()
    tree["sitters"] = [{"label": f"sitter {n}"} for n in range(61)]
    assert faults(raw(tree)) == ["sitters: a list of 61, expected a list of 1 to 60 entries"]
    tree["sitters"].pop()
    assert len(codec.read_request(raw(tree)).sitters) == 60


@pytest.mark.parametrize(
    "data", [b"", b"nonsense", b"[1", b"{}{}", b"\x00", b"{'a': 1}", b'{"a": "\x01"}', b'{"a": "\\x"}']
)
def test_what_is_no_json_is_refused_with_its_place(data: bytes) -> None:
    (line,) = faults(data)
    assert line.startswith("the file: line 1, column ")
    assert line.endswith(", expected one JSON object")


@pytest.mark.parametrize("data", [b"[]", b"3", b"null", b'"text"'])
def test_json_that_is_no_object_is_refused(data: bytes) -> None:
    (line,) = faults(data)
    keys = "brief, sitters, room, kit, corrections, preferences, rules, cards, pace, beams"
    assert line.endswith(f"expected an object with {keys}")


def test_bytes_that_are_not_utf8_are_refused() -> None:
    assert faults(b'{"a": "\xff"}') == ["the file: byte 7 is not UTF-8, expected JSON in UTF-8"]


def test_more_than_five_megabytes_are_refused() -> None:
    padded = raw(smallest()).ljust(LARGEST_BYTES)
    assert codec.read_request(padded)
    assert faults(padded + b" ") == ["the file: larger than 5 MB, expected at most 5,000,000 bytes"]


@pytest.mark.parametrize("depth", [40, 900, 100_000])
@pytest.mark.parametrize("pair", [("[", "]"), ('{"a":', "}")], ids=["lists", "objects"])
def test_deep_nesting_is_refused_without_falling_over(depth: int, pair: Any) -> None:
    opening, closing = pair
    data = opening * depth + "1" + closing * depth
    assert faults(data.encode()) == ["the file: nested too deeply, expected at most 32 levels"]


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e400", "-1e999", "9" * 400])
def test_numbers_that_are_not_finite_are_refused_by_place(number: str) -> None:
    data = json.dumps(smallest()).replace('"width_m": 6', f'"width_m": {number}').encode()
    assert faults(data) == [f"room.width_m: {number[:40]} is not a finite number, expected a finite number"]


def test_a_number_too_small_to_tell_from_nothing_is_nothing() -> None:
    tree = json.dumps(everything()).replace('"ambient_lux": 15', '"ambient_lux": 1e-400').encode()
    assert codec.read_request(tree).room.ambient_lux == 0.0


def test_a_number_of_a_million_digits_is_refused_quickly() -> None:
    data = json.dumps(smallest()).replace('"width_m": 6', '"width_m": ' + "1" * 1_000_000).encode()
    assert len(faults(data)) == 1


def test_a_key_given_twice_is_refused() -> None:
    data = json.dumps(smallest()).replace('"width_m": 6', '"width_m": 6, "width_m": 60').encode()
    assert faults(data) == ["room.width_m: given more than once, expected once"]


def test_half_a_character_is_refused() -> None:
    assert faults(spoilt(put("sitters[0].household", "\ud800")))[0] == (
        'sitters[0].household: "\\ud800" holds half a character, expected whole Unicode text'
    )
    assert any("key holds half a character" in line for line in faults(b'{"\\udfff": 1}'))


def test_every_fault_is_listed_once() -> None:
    tree = everything()
    for path, value in (
        ("room.width_m", -1),
        ("kit.hats", 1),
        ("sitters[1].label", "Ottoline"),
        ("kit.heads[1].lux_1m", None),
    ):
        put(path, value)(tree)
    data = json.dumps(tree).replace('"depth_m": 5', '"depth_m": NaN').encode()
    paths = [line.split(": ")[0] for line in faults(data)]
    assert {"room.depth_m", "room.width_m", "kit.hats", "sitters[1].label", "kit.heads[1].lux_1m"} <= set(
        paths
    )
    assert len(paths) == len(set(paths))


def test_a_flood_of_faults_is_cut_off_and_counted() -> None:
    found = faults(spoilt(put("room", dict.fromkeys(map(str, range(5000)), 1))))
    assert len(found) == codec.MOST_FAULTS + 1
    assert found[-1].endswith("more faults like these")


def test_rows_turned_into_values_are_read_like_a_file() -> None:
    assert codec.understand(everything()) == codec.read_request(raw(everything()))


def test_a_plan_is_written_alike_each_time_and_never_with_nan() -> None:
    assert json.loads(codec.dump({"b": 1, "a": [1.5, "é"]})) == {"b": 1, "a": [1.5, "é"]}
    with pytest.raises(ValueError, match="Out of range"):
        codec.dump({"a": math.nan})
