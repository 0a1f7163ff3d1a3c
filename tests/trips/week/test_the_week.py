"""The week, walked without a browser, and what it came to. Belongs here: walking it for the suite. Not here: the steps
(the days), the outcomes (`outcomes`)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from studio import clock
from studio.models import Member
from tests import built_once, cast, lindenmere
from tests.hands.quick import QuickHand
from tests.trips.week import house, outcomes, story

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module")
def walked(django_db_setup: None, django_db_blocker: Any) -> Iterator[house.Week]:
    """Monday to Saturday, once for all that is asked of it."""
    with (
        django_db_blocker.unblock(), built_once.house("week", house.build), pytest.MonkeyPatch.context() as patch,
        lindenmere.reckoned_once(),
    ):  # fmt: skip
        week = house.Week(sign_in, lambda moment: patch.setattr(clock, "now", lambda: clock.stands() or moment))
        assert len(list(story.walk(week))) == 6
        yield week


def sign_in(name: str) -> QuickHand:
    return QuickHand(cast.client_of(Member.objects.get(user__username=name)))


@pytest.mark.parametrize("asked", outcomes.OUTCOMES, ids=lambda asked: asked.__name__)
def test_the_week_came_to_what_it_must(walked: house.Week, asked: outcomes.Outcome) -> None:
    asked(walked)
