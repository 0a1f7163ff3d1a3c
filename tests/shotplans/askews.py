"""The Askews' sitting with its plan and nothing else of the house, for tests of one record. Belongs here: building it
in a second. Not here: what is expected of it."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any

from django.db import transaction

from bookings.models import Sitting
from shotplans import scenario
from shotplans.models import Brief, Plan
from shotplans.planner import assumptions, codec
from tests import lindenmere, planned_once
from tests.bookings.making import House, make_house


@cache
def _planned() -> tuple[dict[str, Any], dict[str, Any], dict[str, Any]]:
    given = codec.read_request(lindenmere.brief_file("askew"))
    filled = assumptions.fill(given)[0].model_dump(mode="json", by_alias=True)
    return lindenmere.tree("askew"), filled, json.loads(json.dumps(planned_once.plan(given)))


def build() -> tuple[House, Sitting, Plan]:
    """The house, the sitting L-0001 of the Askews, and its first plan with the demo's kit."""
    tree, filled, document = copy.deepcopy(_planned())
    house = make_house()
    scenario._kit(tree["kit"])
    sitting = house.book()
    photographer = house.members["photographer"]
    Brief.objects.create(sitting=sitting, data=tree["brief"], confirmed_at=sitting.starts_at, confirmed_by=photographer)
    plan = Plan.objects.create(
        sitting=sitting, number=1, request=filled, document=document, fingerprint=document["fingerprint"],
        made_at=sitting.starts_at, made_by=photographer,
    )  # fmt: skip
    return house, sitting, plan


@contextmanager
def open_house() -> Iterator[House]:
    """The same inside one transaction that is taken back at the end: built once for the tests of a file."""
    with transaction.atomic():
        yield build()[0]
        transaction.set_rollback(True)
