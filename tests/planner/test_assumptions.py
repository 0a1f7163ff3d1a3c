"""Defaults: each is put in once, said once, and never over what was given."""

from __future__ import annotations

from typing import Any, get_args, get_type_hints

import pytest
from pydantic import BaseModel

from shotplans.planner import codec
from shotplans.planner.assumptions import fill
from shotplans.planner.fields import _MayBeOpen
from shotplans.planner.gaps import GAPS, NUMBERED, WHOLES
from shotplans.planner.request import Request
from tests.planner.smallest import everything, put, raw, smallest, spoilt


def filled(data: bytes) -> tuple[Request, list[str]]:
    return fill(codec.read_request(data))


def open_fields(model: type[BaseModel], path: str = "") -> set[tuple[str, str]]:
    """(path of the object, key) of every field typed Assumed, walked from the classes."""
    found: set[tuple[str, str]] = set()
    for key, hint in get_type_hints(model, include_extras=True).items():
        if key == "model_config":
            continue
        if any(isinstance(mark, _MayBeOpen) for mark in getattr(hint, "__metadata__", ())):
            found.add((path, key))
        for inner, many in inner_models(hint):
            found |= open_fields(inner, f"{path}.{key}{'[]' if many else ''}".lstrip("."))
    return found


def inner_models(hint: Any, many: bool = False) -> list[tuple[type[BaseModel], bool]]:
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        return [(hint, many)]
    many = many or getattr(hint, "__origin__", None) is tuple
    return [pair for part in get_args(hint) for pair in inner_models(part, many)]


def test_every_open_field_has_its_row_and_every_row_its_field() -> None:
    rows = {(gap.path, gap.key) for gap in GAPS} | set(WHOLES) | {(path, key) for path, key, _ in NUMBERED}
    rows |= {("kit.heads[]", "label"), ("kit.modifiers[]", "label")}  # named after the id
    rows.discard(("sitters[].wishes[]", "note"))
    open_ones = open_fields(Request) - {("sitters[].wishes[]", "note")}  # a wish about nothing is left out
    assert open_ones <= rows
    # Rows of fields that stay optional belong to some entries only: a flash's energy, a sitting's minutes, a flag's
    # sides.
    assert {key for _, key in rows - open_ones} == {
        "energy_ws",
        "duration_s",
        "duration_kind",
        "recycle_s",
        "flicker_free",
        "minutes",
        "width_m",
        "height_m",
    }


def none_left(model: BaseModel, path: str = "") -> set[tuple[str, str]]:
    found: set[tuple[str, str]] = set()
    for key in type(model).model_fields:
        value = getattr(model, key)
        if value is None:
            found.add((path, key))
        for item in value if isinstance(value, tuple) else (value,):
            if isinstance(item, BaseModel):
                found |= none_left(
                    item, f"{path}.{key}{'[]' if isinstance(value, tuple) else ''}".lstrip(".")
                )
    return found


def test_nothing_typed_as_assumed_is_open_after_filling() -> None:
    request, _ = filled(raw(smallest()))
    assert none_left(request) & open_fields(Request) == set()


def test_a_full_request_is_left_as_it_is() -> None:
    request = codec.read_request(raw(everything()))
    full, said = fill(request)
    assert full == request
    assert said == []


def test_filling_twice_changes_nothing_more() -> None:
    once, _ = filled(raw(smallest()))
    twice, said = fill(once)
    assert twice == once
    assert not [line for line in said if "skin" not in line and "minutes" not in line]


def test_identical_gaps_are_one_sentence_with_all_the_names() -> None:
    tree = everything()
    for sitter in tree["sitters"]:
        sitter["skin"] = "not noted"
    tree["kit"]["heads"][0]["kelvin"] = tree["kit"]["heads"][1]["kelvin"] = None
    _, said = filled(raw(tree))
    assert "skin not noted for Ottoline, Bertram: planned for a middle reflectance" in said
    assert "kit.heads[].kelvin not given for h400-1, steady-1: taken as 5600 K" in said


def test_different_defaults_of_one_key_are_different_sentences() -> None:
    tree = everything()
    for sitter, age in zip(tree["sitters"], (40, 6), strict=True):
        sitter |= {"age_years": age, "height_cm": None}
    request, said = filled(raw(tree))
    # ANSUR II medians 175.5 and 162.6 cm; CDC 2000 medians at six 115.7 and 115.0 cm (values.md A01, A29).
    assert [sitter.height_cm for sitter in request.sitters] == pytest.approx([169, 115], abs=1)
    assert len([line for line in said if line.startswith("height not noted")]) == 2


@pytest.mark.parametrize(
    ("path", "value", "line"),
    [
        ("sitters[0].glasses", {}, "taking off the glasses not noted for Ottoline: planned to stay on"),
        ("sitters[0].wishes", [{"note": "lines"}], "wish not noted for Ottoline: left as it is"),
        ("sitters[0].wishes", [{}], "a wish of Ottoline names no feature and is left aside"),
        ("room.surfaces", None, "room.surfaces.walls not given: taken as light grey"),
        (
            "brief.setups[0].people",
            None,
            "brief.setups[].people not given for portrait: planned for everybody",
        ),
        ("brief.setups[0].people", [], "brief.setups[].people not given for portrait: planned for everybody"),
        ("brief.minutes", None, "brief.minutes not given: the shot list is not held against a time"),
        ("kit.heads[0].energy_ws", None, "kit.heads[].energy_ws not given for h400-1: taken as about 400 Ws"),
        ("kit.modifiers[0].depth_m", None, "kit.modifiers[].depth_m not given for octa150-1: taken as 0.6 m"),
        ("room.ambient_lux", None, "room.ambient_lux not given: taken as 10 lux"),
    ],
)
def test_a_gap_is_said_in_a_sentence(path: str, value: object, line: str) -> None:
    _, said = filled(spoilt(put(path, value)))
    assert [sentence for sentence in said if sentence.startswith(line)]


@pytest.mark.parametrize(
    "path", ["sitters[0].glasses", "sitters[0].household", "brief.standard", "kit.weights"]
)
def test_absence_that_means_none_needs_no_sentence(path: str) -> None:
    _, said = filled(spoilt(put(path, None)))
    _, before = filled(raw(everything()))
    assert set(said) <= set(before)


def test_unnamed_pieces_are_numbered_round_the_names_that_are_taken() -> None:
    request, _ = filled(spoilt(put("kit.weights", [{}, {"id": "weight 1"}, {"kg": 5}])))
    assert [weight.id for weight in request.kit.weights] == ["weight 2", "weight 1", "weight 3"]


def test_extreme_sizes_still_get_defaults_inside_the_bounds() -> None:
    tree = smallest()
    tree["kit"]["modifiers"][0] |= {"kind": "snoot", "diameter_m": 100}
    tree["kit"]["heads"][0] |= {"f_number_1m_iso100": 1000, "recycle_s": 0}
    tree["kit"]["lenses"][0] |= {"max_focal_mm": 10_000, "max_aperture": 128}
    assert filled(raw(tree))


def test_the_fingerprint_does_not_mind_how_a_thing_is_said() -> None:
    print_of = codec.fingerprint(codec.read_request(raw(smallest())))
    tree = smallest()
    tree["room"] = {"ceiling_m": 3.0, "depth_m": 5.0, "width_m": 6.0, "keep_out_m": 0.4, "ambient_lux": None}
    tree["kit"]["seats"] = None
    assert codec.fingerprint(codec.read_request(raw(tree))) == print_of
    assert codec.fingerprint(fill(codec.read_request(raw(tree)))[0]) == print_of
    assert len(bytes.fromhex(print_of)) == 32


@pytest.mark.parametrize("path", ["room.width_m", "sitters[0].age_years", "kit.heads[0].range_stops"])
def test_the_fingerprint_minds_every_value(path: str) -> None:
    changed = codec.read_request(spoilt(put(path, 7)))
    assert codec.fingerprint(changed) != codec.fingerprint(codec.read_request(raw(everything())))
