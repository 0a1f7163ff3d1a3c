"""What tests of bookings share. Belongs here: the house as a fixture."""

from __future__ import annotations

import pytest

from tests.bookings.making import House, make_house


@pytest.fixture
def house(db: None) -> House:
    return make_house()
