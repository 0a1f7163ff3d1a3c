"""What lies between values: labels, order, ratings that go together, and light that is possible."""

from __future__ import annotations

import math
from typing import Any

import pytest

from shotplans.planner import codec
from tests.planner.smallest import everything, faults, put, raw, smallest, spoilt


@pytest.mark.parametrize(
    ("part", "key", "path"),
    [
        ("sitters", "label", "sitters[2].label"),
        ("brief.setups", "name", "brief.setups[1].name"),
        ("room.circuits", "label", "room.circuits[1].label"),
        ("kit.heads", "id", "kit.heads[2].id"),
        ("kit.lenses", "id", "kit.lenses[1].id"),
        ("kit.triggers", "id", "kit.triggers[1].id"),
    ],
)
def test_a_repeated_label_is_refused(part: str, key: str, path: str) -> None:
    tree: Any = everything()
    entries = tree
    for step in part.split("."):
        entries = entries[step]
    entries.append(dict(entries[0]))
    (line,) = [line for line in faults(raw(tree)) if line.startswith(path)]
    assert "already given, expected a different one for each" in line


def test_one_id_names_one_piece_in_the_whole_kit() -> None:
    (line,) = faults(spoilt(put("kit.weights[0].id", "h400-1")))
    assert line.startswith('kit.weights[0].id: "h400-1" is an id that is already given')


@pytest.mark.parametrize(
    ("path", "value", "known"),
    [
        ("brief.setups[0].people", ["Nobody"], "Ottoline, Bertram"),
        ("sitters[0].keep_with", "Nobody", "Bertram"),
        ("sitters[0].keep_with", "Ottoline", "Bertram"),
        ("corrections[0].head", "Nobody", "h400-1, steady-1"),
        ("corrections[0].modifier", "Nobody", "octa150-1"),
    ],
)
def test_a_label_that_names_nothing_is_refused_with_those_that_do(
    path: str, value: object, known: str
) -> None:
    (line,) = faults(spoilt(put(path, value)))
    assert line.startswith(path)
    assert line.endswith(f"expected one of {known}")


def test_a_person_named_twice_in_a_set_up_is_refused() -> None:
    (line,) = faults(spoilt(put("brief.setups[0].people", ["Ottoline", "Ottoline"])))
    assert line.startswith("brief.setups[0].people[1]: ")


def test_two_corrections_of_one_pair_are_refused() -> None:
    tree = everything()
    tree["corrections"] *= 2
    (line,) = faults(raw(tree))
    assert line.startswith("corrections[1]: a second correction")


@pytest.mark.parametrize(
    ("path", "value", "line"),
    [
        ("kit.lenses[0].min_focal_mm", 90, "kit.lenses[0].min_focal_mm: 90 is more than max_focal_mm 85"),
        ("kit.lenses[0].max_aperture", 22, "kit.lenses[0].max_aperture: 22 is more than min_aperture 16"),
        ("kit.cameras[0].base_iso", 8000, "kit.cameras[0].base_iso: 8000 is more than max_iso 6400"),
        ("kit.stands[0].min_height_m", 3.1, "kit.stands[0].min_height_m: 3.1 is more than max_height_m 3"),
    ],
)
def test_a_minimum_above_its_maximum_is_refused(path: str, value: float, line: str) -> None:
    assert faults(spoilt(put(path, value)))[0].startswith(line)


@pytest.mark.parametrize(
    ("path", "what"),
    [
        ("kit.heads[0].f_number_1m_iso100", "a flash head is rated by it"),
        ("kit.heads[1].lux_1m", "a steady head is rated by it"),
        ("kit.modifiers[0].diameter_m", "a disc is sized by it"),
    ],
)
def test_a_rating_that_must_be_there_is_asked_for(path: str, what: str) -> None:
    assert faults(spoilt(put(path, None))) == [f"{path}: missing, expected a number: {what}"]


def test_a_rectangle_without_sides_is_refused() -> None:
    found = faults(spoilt(put("kit.modifiers[0].shape", "rect")))
    assert [line.split(":")[0] for line in found] == ["kit.modifiers[0].width_m", "kit.modifiers[0].height_m"]


def test_a_dial_in_watt_seconds_needs_the_energy() -> None:
    tree = smallest()
    tree["kit"]["heads"][0]["dial"] = {"scale": "watt_seconds"}
    assert faults(raw(tree)) == [
        "kit.heads[0].energy_ws: missing, expected a number: the dial counts watt-seconds"
    ]


def test_a_dial_finer_than_any_head_is_refused() -> None:
    tree = everything()
    tree["kit"]["heads"][0] |= {"energy_ws": 100_000, "dial": {"scale": "watt_seconds", "step": 0.001}}
    assert faults(raw(tree))[0].startswith("kit.heads[0].dial.step: 0.001 makes 100,000,000 settings")


def front(shape: str, **sizes: float) -> dict[str, Any]:
    return {"kind": "octabox" if shape == "disc" else "box", "shape": shape, **sizes}


# H A / F against energy x 60 lm/W, worked by hand from recommend-io.md: H = N^2 2.5 2^-loss at 1 m.
# Disc of 1.5 m: A / F = pi (R^2 + 1) = 4.909; f/64, 400 Ws: 10,240 x 4.909 / 24,000 = 2.0945, 1.0666 stops.
# Square of 1 m: F = (4 / pi) y atan y at y = x / sqrt(1 + x^2), x = 0.5, is 0.2395: A / F = 4.176, 0.8333.
@pytest.mark.parametrize(
    ("sizes", "least"),
    [
        (front("disc", diameter_m=1.5), math.log2(10240 * math.pi * (0.75**2 + 1) / 24000)),
        (front("rect", width_m=1.0, height_m=1.0), math.log2(10240 / 0.239481 / 24000)),
    ],
    ids=["disc", "rect"],
)
def test_light_beyond_the_stored_energy_is_refused_with_the_arithmetic(
    sizes: dict[str, Any], least: float
) -> None:
    tree = everything()
    tree["kit"]["modifiers"][0] |= sizes | {"loss_stops": least + 0.001}
    assert codec.read_request(raw(tree))
    tree["kit"]["modifiers"][0]["loss_stops"] = least - 0.001
    (line,) = faults(raw(tree))
    assert line.startswith(
        'kit.modifiers[0].loss_stops: with head "h400-1" that light is impossible: f/64 less'
    )
    assert "400 Ws x 60 lm/W = 24,000 lm s; expected a loss of at least" in line


def impossible() -> Any:
    tree = everything()
    tree["kit"]["modifiers"][0]["loss_stops"] = 0
    return tree


@pytest.mark.parametrize("kind", ["dish", "reflector", "snoot"])
def test_a_polished_shape_may_throw_its_light_forward(kind: str) -> None:
    tree = impossible()
    tree["kit"]["modifiers"][0]["kind"] = kind
    assert codec.read_request(raw(tree))


def test_light_is_judged_only_on_heads_that_fit() -> None:
    tree = impossible()
    tree["kit"]["modifiers"][0]["mount"] = "shaft 8"
    assert codec.read_request(raw(tree))
    tree["kit"]["adapters"] = [{"id": "ring", "from": "bayonet S", "to": "shaft 8"}]
    assert faults(raw(tree))


def test_light_of_a_head_whose_energy_is_not_known_is_not_judged() -> None:
    tree = impossible()
    tree["kit"]["heads"][0]["energy_ws"] = None
    assert codec.read_request(raw(tree))


def test_four_heads_of_one_make_are_one_fault() -> None:
    tree = impossible()
    tree["kit"]["heads"] += [dict(tree["kit"]["heads"][0], id=f"h400-{n}") for n in (2, 3, 4)]
    assert len(faults(raw(tree))) == 1
