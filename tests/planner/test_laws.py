"""The properties of properties.py, a few draws of each; the long run is a command of its own (DEVELOPERS.md)."""

from __future__ import annotations

import pytest

from tests.planner.properties import PROPERTIES, run

DRAWS = 4  # plans of each property in the suite: every plan takes about a third of a second


@pytest.mark.parametrize("name", PROPERTIES)
def test_a_property_holds_for_some_drawn_requests(name: str) -> None:
    each = PROPERTIES[name][2]
    assert [found for found, _ in run(name, DRAWS // each)] == []


def test_a_broken_property_is_found() -> None:
    """A property that nothing keeps is told with its request: the harness itself can fail."""
    try:
        drawn = PROPERTIES["printed on steps"][1]
        PROPERTIES["never kept"] = (lambda tree: [tree["brief"]["setups"][0]["intent"]], drawn, 1)
        assert len(run("never kept", 3)) == 3
    finally:
        del PROPERTIES["never kept"]
