"""Lindenmere Portraits as the demo builds it, for tests. Belongs here: building it quickly and finding its people,
sittings and plans. Not here: what is expected of them."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from django.test import Client

from bookings.models import Sitting
from shotplans import scenario
from shotplans.models import Plan
from studio.models import Member
from tests import built_once, cast
from tests.pages import Visitor
from tests.planned_once import reckoned_once

BRIEFS = Path(__file__).parents[1] / "fixtures" / "briefs"
DAY = date(2026, 12, 3)  # a Thursday
NUMBERS = {booking.brief: f"L-{n:04d}" for n, booking in enumerate(scenario.BOOKINGS, 1)}
WHO = {"front_desk": "Maud Ferriby", "photographer": "Tobiah Renn", "assistant": "Ines Calloway"}
WHO |= {"owner": "Harriet Voss"}


def build(day: date = DAY) -> list[str]:
    """The whole scenario in the database at hand; what building it said."""
    with reckoned_once():
        return list(scenario.build(BRIEFS, day))


@contextmanager
def open_house() -> Iterator[list[str]]:
    """The scenario, taken away again at the end: built once for many tests."""
    with built_once.house("lindenmere", build) as said:
        yield said


@cache
def brief_file(name: str) -> bytes:
    return (BRIEFS / f"{name}.json").read_bytes()


def tree(name: str) -> dict[str, Any]:
    """One of the example briefs as it stands in its file."""
    found: dict[str, Any] = json.loads(brief_file(name))
    return found


def member(role: str) -> Member:
    return Member.objects.get(name=WHO[role])


def client_of(role: str) -> Client:
    return cast.client_of(member(role))


def visitor(role: str) -> Visitor:
    return Visitor(client_of(role))


def sitting(name: str) -> Sitting:
    """Fresh from the database, nothing remembered."""
    return Sitting.objects.get(number=NUMBERS[name])


def plan(name: str) -> Plan:
    """The current plan of a sitting, its document a copy: a test may write in it, and what the house reads of a plan
    is read once for all."""
    found = Plan.objects.current().select_related("sitting").get(sitting__number=NUMBERS[name])
    found.document = copy.deepcopy(found.document)
    return found
