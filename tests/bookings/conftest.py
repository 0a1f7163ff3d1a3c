"""What tests of bookings share. Belongs here: the house as a fixture, without what upper apps add to its pages."""

from __future__ import annotations

from typing import Any

import pytest

from tests.bookings.making import House, make_house


@pytest.fixture
def house(db: None) -> House:
    return make_house()


@pytest.fixture(autouse=True)
def no_panels(settings: Any) -> None:
    settings.SITTING_PANELS = []
