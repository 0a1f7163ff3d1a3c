"""What stands in the way of a plan before its day: said early, with an owned stand-in, mended by one tap."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from bookings.models import Claim
from shotplans import clashes
from shotplans.models import Plan, ToSeeTo
from shotplans.planner import charging
from shotplans.records.stand_in import stand_in
from studio.models import KitItem, Room
from tests import lindenmere

DAY = lindenmere.DAY
AT = datetime(2026, 12, 3, 9, tzinfo=UTC)


def test_a_piece_in_repair_is_said_on_every_first_page_and_one_tap_plans_anew(studio: None) -> None:
    KitItem.objects.filter(code="umb180").update(state="repair")
    says = "umb180 is in repair"
    tobiah, ines = lindenmere.visitor("photographer"), lindenmere.visitor("assistant")
    assert says in ines.open(f"/packing/?day={DAY - timedelta(days=6)}").words  # the week before
    assert "Plan anew" not in ines.open(f"/packing/?day={DAY}").words
    assert says in lindenmere.visitor("front_desk").open("/sittings/L-0001/").words
    assert says in tobiah.open(f"/setups/?day={DAY}").words
    page = tobiah.open("/sittings/L-0001/plans/1/")
    for words in (says, "octa95-1 for B", "in place of 3.2", "less power"):
        assert words in page.words, words
    tobiah.press("Plan anew without it")
    plan = lindenmere.plan("askew")
    assert (plan.number, plan.why) == (2, says)
    assert "umb180" not in {row["item"] for row in plan.document["packing"]}
    assert clashes.of_plan(plan) == []


def test_a_piece_another_sitting_holds_then_is_said_with_room_and_time(studio: None) -> None:
    plan = lindenmere.plan("askew")
    other, piece = lindenmere.sitting("dorrow"), KitItem.objects.get(code="octa150-1")
    Claim.objects.filter(resource_kind="kit", resource_id=piece.pk).delete()
    span = plan.sitting.spans.whole
    Claim.objects.create(
        sitting=other, resource_kind="kit", resource_id=piece.pk, starts_at=span.starts_at, ends_at=span.ends_at
    )
    found = clashes.of_plan(plan)
    assert [one.says for one in found] == ["octa150-1 is held by L-0003 in Garden Room from 09:00 to 11:00."]


def test_a_plan_says_which_of_a_kind_another_sitting_left_it_without(studio: None) -> None:
    plan, other = lindenmere.plan("askew"), lindenmere.sitting("dorrow")
    boom = KitItem.objects.get(code="boom-1")
    assert clashes.beside(plan)[1] == []
    request = plan.request | {"kit": plan.request["kit"] | {
        "stands": [s for s in plan.request["kit"]["stands"] if s["kind"] != "boom"]
    }}  # fmt: skip
    Plan.objects.filter(pk=plan.pk).update(request=request)
    span = plan.sitting.spans.whole
    Claim.objects.filter(resource_kind="kit", resource_id=boom.pk).delete()
    Claim.objects.create(
        sitting=other, resource_kind="kit", resource_id=boom.pk, starts_at=span.starts_at, ends_at=span.ends_at
    )
    says = "boom-1 is held by L-0003 in Garden Room from 09:00 to 11:00."
    assert clashes.beside(lindenmere.plan("askew"))[1] == [says]
    assert says in lindenmere.visitor("assistant").open("/sittings/L-0001/plans/1/").words


def test_a_ring_lost_on_one_day_is_in_no_plan_after_it(studio: None) -> None:
    """The trip: packed out, missed on return, told to the owner, planned anew with the other ring, found again."""
    ines, harriet = lindenmere.visitor("assistant"), lindenmere.visitor("owner")
    plan, tobiah = lindenmere.plan("askew"), lindenmere.visitor("photographer")
    ring = next(x["adapter"] for x in plan.setups[0]["lights"] if x["adapter"])
    for what in ("out", "back:missing"):
        sent = {"day": f"{DAY:%Y-%m-%d}", "item": ring, "what": what, "note": "not in its bag"}
        assert ines.client.post("/packing/tap/", sent).status_code == 302
    assert KitItem.objects.get(code=ring).state == "lost"
    owner = harriet.open("/studio/").words
    assert "In repair or lost" in owner
    assert ring in owner
    assert f"{ring} is lost" in tobiah.open(f"/setups/?day={DAY}").words
    tobiah.open("/sittings/L-0001/plans/1/")
    tobiah.press("Plan anew without it")
    after = lindenmere.plan("askew")
    assert (after.number, after.why) == (2, f"{ring} is lost")
    assert ring not in {row["item"] for row in after.document["packing"]}
    assert [x["adapter"] for x in after.setups[0]["lights"] if x["adapter"]] == ["shaft-s-2"]  # the spare, proved
    harriet.client.post(reverse("change_state", args=[ring]), {"to": "ready"})
    assert KitItem.objects.get(code=ring).state == "ready"
    assert list(ToSeeTo.objects.still_open()) == []


def test_clashes_of_a_week_ask_as_few_questions_of_many_plans_as_of_one(studio: None) -> None:
    with CaptureQueriesContext(connection) as one:
        clashes.from_day(DAY + timedelta(days=1))
    with CaptureQueriesContext(connection) as all_:
        assert clashes.from_day(DAY) == []
    assert len(all_) == len(one) <= 3
    KitItem.objects.filter(section="stands").update(state="lost")
    with CaptureQueriesContext(connection) as lost:
        assert len(clashes.from_day(DAY)) > 10
    assert len(lost) == len(one) + 1
    KitItem.objects.update(state="lost")
    with CaptureQueriesContext(connection) as all_lost:
        assert {one.item for one in clashes.from_day(DAY)} >= {"octa150-1", "h400-1"}
    assert len(all_lost) == len(one) + 2  # what is ready, whatever its section; what packing took instead of a ring


def test_the_packing_page_asks_as_little_where_every_piece_clashes_and_each_sitting_is_away(studio: None) -> None:
    ines, page = lindenmere.client_of("assistant"), f"/packing/?day={DAY}"
    ines.get(page)
    with CaptureQueriesContext(connection) as calm:
        assert b"octa150-1 is lost" not in ines.get(page).content
    KitItem.objects.update(state="lost")
    Room.objects.update(away=True)
    with CaptureQueriesContext(connection) as worst:
        answer = ines.get(page).content
    assert answer.count(b"is lost") > 50
    assert answer.count(b"away from the studio") >= 4
    assert len(worst) == len(calm) + 2 <= 17


def use(sitting: str, share: float, hours: float) -> charging.Use:
    start = AT + timedelta(hours=hours)
    return charging.Use(sitting, "h200", share, start, start + timedelta(hours=1))


@pytest.mark.parametrize(
    ("second", "hours", "short"), [(0.5, 1.5, True), (0.5, 2.0, False), (0.25, 1.25, False), (1.2, 1.5, False)]
)
def test_a_battery_recharges_as_long_as_the_pause_lasts(second: float, hours: float, short: bool) -> None:
    # 0.8 used leaves 0.2; each hour of pause puts back a third: 0.5 wants 54 minutes, and begins `hours` after it began
    found = charging.short([use("L-2", second, hours), use("L-1", 0.8, 0.0)])
    assert [one.use.sitting for one in found] == (["L-2"] if short else [])


def test_what_a_plan_takes_of_a_battery_are_its_frames_over_those_of_a_charge() -> None:
    head = {"id": "h", "light": "flash", "battery_full_power_shots": 100}
    light = {"head": "h", "power_below_full_stops": 1.0}
    document = {"setups": [{"name": "a", "lights": [light]}], "shots": [{"setup": "a", "frames": 80}]}
    found = charging.uses("L-1", document, {"kit": {"heads": [head]}}, AT, AT)
    assert found[0].share == pytest.approx(80 / (200 * 0.8))
    mains = {"kit": {"heads": [head | {"battery_full_power_shots": None}]}}
    assert charging.uses("L-1", document, mains, AT, AT) == []


OCTA = {"id": "octa", "kind": "octabox", "diameter_m": 1.5, "loss_stops": 2.6}


@pytest.mark.parametrize(
    ("section", "wanted", "free", "expected"),
    [
        ("modifiers", OCTA, [OCTA | {"id": "small", "diameter_m": 0.75, "loss_stops": 2.0}], ("small", 1.0, -2.6)),
        ("heads", {"id": "a", "mount": "S", "f_number_1m_iso100": 64},
         [{"id": "b", "mount": "S", "f_number_1m_iso100": 45}, {"id": "c", "mount": "P", "f_number_1m_iso100": 64}],
         ("b", 2.0, 1.0)),
        ("adapters", {"id": "r1", "from": "P", "to": "S"}, [{"id": "r2", "from": "S", "to": "P"}], None),
        ("stands", {"id": "boom", "kind": "boom", "max_height_m": 3, "max_load_kg": 6, "reach_m": 1.9},
         [{"id": "s", "kind": "stand", "max_height_m": 3, "max_load_kg": 9, "reach_m": 0}], None),
    ],
)  # fmt: skip
def test_the_owned_piece_most_like_one_that_is_gone(
    section: str, wanted: Any, free: Any, expected: tuple[str, float, float] | None
) -> None:
    found = stand_in(section, wanted, free, {"letter": "A", "distance_m": 2.0})
    got = (found.instead, found.distance_m, found.stops) if found else None
    assert got == (pytest.approx(expected) if expected is None else expected)


def test_a_plan_that_is_over_or_superseded_has_nothing_in_its_way(studio: None) -> None:
    KitItem.objects.filter(code="umb180").update(state="lost")
    plan = lindenmere.plan("askew")
    Plan.objects.filter(pk=plan.pk).update(superseded_at=plan.made_at)
    plan.refresh_from_db()
    assert clashes.of_plan(plan) == []
