"""What trips share: the demo's studio, as the tests of the plans have it; who is at a page of a house of their own."""

from __future__ import annotations

import pytest

from tests.bookings.making import House, visitor
from tests.pages import Visitor
from tests.shotplans.conftest import house, studio

__all__ = ["house", "studio"]
pytest.register_assert_rewrite("tests.trips.week.outcomes")


@pytest.fixture
def maud(house: House) -> Visitor:
    return visitor(house, "front_desk")


@pytest.fixture
def harriet(house: House) -> Visitor:
    return visitor(house, "owner")
