"""What tests of the light share. Belongs here: the demo's studio, built once a file and put back after each test."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests import lindenmere
from tests.bookings.making import House
from tests.pages import Visitor
from tests.shotplans import askews


@pytest.fixture(scope="module")
def house(django_db_setup: None, django_db_blocker: Any) -> Iterator[list[str]]:
    """Lindenmere Portraits with all five sittings planned; what building it said."""
    with django_db_blocker.unblock(), lindenmere.open_house() as said:
        yield said


@pytest.fixture
def studio(house: list[str], db: None) -> Iterator[None]:
    """The same, for one test: what the test writes is taken back, and equal plans are reckoned once."""
    with lindenmere.reckoned_once():
        yield


@pytest.fixture
def tobiah(studio: None) -> Visitor:
    return lindenmere.visitor("photographer")


@pytest.fixture(scope="module")
def askew_house(django_db_setup: None, django_db_blocker: Any) -> Iterator[House]:
    """A house with the Askews' sitting and its plan alone, for tests of one record."""
    with django_db_blocker.unblock(), askews.open_house() as found:
        yield found
