"""The printed schema and the classes are one: what the schema refuses, we refuse, whatever the tree."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import jsonschema
from hypothesis import given, settings
from hypothesis import strategies as st

from shotplans.planner import codec
from tests.planner.smallest import everything, raw, smallest

VALIDATOR = jsonschema.Draft202012Validator(codec.schema())
SCALARS = (
    st.none()
    | st.booleans()
    | st.integers(-3, 200_000)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.sampled_from(["soft", "either", "white", "t0.5", "4:5", "", " ", "a\nb", "none", "Ottoline"])
    | st.text(max_size=4)
)
VALUES = (
    SCALARS | st.lists(SCALARS, max_size=2) | st.dictionaries(st.sampled_from(["id", "label", "kg"]), SCALARS)
)


def spots(node: Any) -> Iterator[tuple[Any, Any]]:
    """Every (container, key) of a tree."""
    for key, value in list(node.items()) if isinstance(node, dict) else list(enumerate(node)):
        yield node, key
        if isinstance(value, dict | list):
            yield from spots(value)


@st.composite
def spoilt_trees(draw: st.DrawFn) -> Any:
    tree = copy.deepcopy(draw(st.sampled_from([everything(), smallest()])))
    for _ in range(draw(st.integers(1, 3))):
        found = list(spots(tree))
        container, key = found[draw(st.integers(0, len(found) - 1))]
        deed = draw(st.sampled_from(["set", "set", "set", "drop", "add"]))
        if deed == "drop":
            del container[key]
        elif deed == "add" and isinstance(container, dict):
            container[draw(st.text(max_size=5))] = draw(SCALARS)
        else:
            container[key] = draw(VALUES)
    return tree


def refused(data: bytes) -> list[str]:
    """The faults of unreadable bytes; none where they are read."""
    try:
        codec.read_request(data)
    except codec.Unreadable as error:
        return error.faults
    return []


@settings(max_examples=400, deadline=None)
@given(spoilt_trees())
def test_what_the_schema_refuses_we_refuse(tree: Any) -> None:
    faults = refused(raw(tree))
    assert faults or VALIDATOR.is_valid(tree)
    assert all(": " in line and "expected" in line and "\n" not in line for line in faults)


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=60) | st.text(max_size=60).map(lambda text: text.encode("utf-8", "surrogatepass")))
def test_no_bytes_at_all_bring_the_reader_down(data: bytes) -> None:
    assert refused(data)


def test_the_schema_is_a_schema_and_accepts_the_two_examples() -> None:
    jsonschema.Draft202012Validator.check_schema(codec.schema())
    assert VALIDATOR.is_valid(everything())
    assert VALIDATOR.is_valid(smallest())


def test_the_schema_lists_every_key_with_the_names_of_the_file() -> None:
    kit = codec.schema()["$defs"]["Adapter"]
    assert kit["additionalProperties"] is False
    assert kit["required"] == ["id", "from", "to"]
    assert "NaN" not in json.dumps(codec.schema())
