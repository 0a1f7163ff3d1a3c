"""Two photographers plan one sitting at once."""

from __future__ import annotations

import threading

import pytest
from django.db import connection

from bookings.models import Claim
from shotplans.actions import plans
from shotplans.models import Plan
from tests import lindenmere


@pytest.mark.django_db(transaction=True)
def test_of_two_plans_made_at_once_one_is_current_and_both_are_numbered() -> None:
    lindenmere.build()
    photographer, ends = lindenmere.member("photographer"), []
    start = threading.Barrier(2)

    def act() -> None:
        try:
            start.wait(timeout=30)
            ends.append(plans.make_plan(by=photographer, sitting=lindenmere.sitting("dorrow")).number)
        finally:
            connection.close()

    with lindenmere.reckoned_once():
        threads = [threading.Thread(target=act) for _ in range(2)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join(timeout=60)
    assert sorted(ends) == [2, 3]
    assert list(Plan.objects.of(lindenmere.sitting("dorrow")).current().values_list("number", flat=True)) == [3]
    packed = {row["item"] for row in lindenmere.plan("dorrow").document["packing"]}
    held = Claim.objects.filter(sitting=lindenmere.sitting("dorrow"), resource_kind="kit")
    owned = {piece["id"] for section in lindenmere.tree("dorrow")["kit"].values() for piece in section}
    assert held.count() == len(packed & owned)
