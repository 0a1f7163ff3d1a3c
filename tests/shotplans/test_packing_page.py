"""Packing by tapping: out, in with its condition, a lost ring and what mends it, what the owner must see to."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings.models import Claim
from shotplans.models import PackingTap, Plan, ToSeeTo
from studio.models import KIT, Adapter, Head, KitChange, KitItem, Member
from tests.bookings.making import House, visitor
from tests.conftest import HOUSE_TIME
from tests.pages import Visitor

DAY = "2026-12-03"
PAGE = f"/packing/?day={DAY}"


@pytest.fixture
def ines(askew_house: House, db: None) -> Visitor:
    return visitor(askew_house, "assistant")


def tap(ines: Visitor, what: str, item: str = "", **more: str) -> str:
    answer = ines.client.post("/packing/tap/", {"day": DAY, "what": what, "item": item, **more}, follow=True)
    assert answer.status_code == 200
    return str(answer.content.decode())


def ines_herself() -> Member:
    return Member.objects.get(name="Ines Calloway")


def lose(code: str, state: str = "lost") -> None:
    KitItem.objects.filter(code=code).update(state=state)


def everything() -> list[str]:
    plan = Plan.objects.current().get()
    return [row["item"] for row in plan.document["packing"]]


def test_a_thing_goes_out_and_comes_back_in_one_tap_each(ines: Visitor) -> None:
    tap(ines, "out", "h400-1")
    assert "out 09:" in ines.open(PAGE).words
    tap(ines, "back:whole", "h400-1")
    assert "whole" in ines.open(PAGE).words
    assert [t.what for t in PackingTap.objects.filter(item="h400-1")] == ["out", "back"]
    assert "did not go out" in tap(ines, "back:whole", "h400-2")


def test_feature_50_a_head_that_does_not_meet_its_modifier_blocks_packed(ines: Visitor) -> None:
    lose("shaft-s-1")
    page = ines.open(PAGE)
    assert "umb180 on h400-2: its ring shaft-s-1 is not to be had" in page.words
    by = ines_herself()
    PackingTap.objects.bulk_create(
        PackingTap(day=DAY, item=item, what="out", at=HOUSE_TIME, by=by) for item in [*everything(), "shaft-s-2"]
    )
    assert "shaft-s-1 is not to be had" in tap(ines, "packed")
    assert not PackingTap.objects.filter(what="packed").exists()
    assert "does not fit there" in tap(ines, "instead:ring-p-s-1", "shaft-s-1")
    tap(ines, "instead:shaft-s-2", "shaft-s-1")  # the one that is owned and fits, as the page offers it
    ring = Adapter.objects.get(code="shaft-s-2")
    assert Claim.objects.filter(resource_kind="kit", resource_id=ring.pk).exists()
    assert "not to be had" not in ines.open(PAGE).words
    assert "Packed 09:" in tap(ines, "packed")
    Head.objects.filter(code="h400-2").update(mount="bayonet Q")  # the owner found its mount to be another
    words = tap(ines, "packed")
    assert "does not go from bayonet Q to shaft 8" in words


def test_feature_51_a_missing_or_broken_thing_becomes_the_owner_s_to_see_to(
    askew_house: House, ines: Visitor
) -> None:
    items = ("shaft-s-1", "mains cable", "h400-1", "stand220-1")
    PackingTap.objects.bulk_create(
        PackingTap(day=DAY, item=item, what="out", at=HOUSE_TIME, by=ines_herself()) for item in items
    )
    tap(ines, "back:missing", "shaft-s-1", note="not in the bag")
    tap(ines, "back:repair", "mains cable", note="plug cracked")
    tap(ines, "back:charge", "h400-1")
    tap(ines, "back:clean", "stand220-1")
    states = dict(KitItem.objects.values_list("code", "state"))
    assert (states["shaft-s-1"], states["h400-1"], states["stand220-1"]) == ("lost", "charging", "ready")
    assert "shaft-s-1" not in set(KIT["adapters"].objects.free().values_list("code", flat=True))
    assert KitChange.objects.get(piece__code="shaft-s-1").why == "not in the bag"
    harriet = visitor(askew_house, "owner")
    page = harriet.open("/studio/")
    for words in ("In repair or lost", "shaft-s-1", "mains cable: needs repair, plug cracked", "needs cleaning"):
        assert words in page.words, words
    assert [t.item for t in ToSeeTo.objects.still_open()] == ["shaft-s-1", "mains cable", "stand220-1"]
    ring = ToSeeTo.objects.get(item="shaft-s-1")
    harriet.client.post(f"/packing/to-see-to/{ring.pk}/")
    assert KitItem.objects.get(code="shaft-s-1").state == "ready"
    assert "already" in harriet.client.post(f"/packing/to-see-to/{ring.pk}/", follow=True).content.decode()
    tap(ines, "back:whole", "mains cable")  # it was only the light
    assert [t.item for t in ToSeeTo.objects.still_open()] == ["stand220-1"]


def test_ticks_survive_a_new_version_of_the_plan_where_the_thing_is_the_same(ines: Visitor) -> None:
    tap(ines, "out", "octa150-1")
    former = Plan.objects.current().get()
    Plan.objects.all().supersede(former.made_at)
    document = former.document | {"packing": [r for r in former.document["packing"] if r["item"] != "umb180"]}
    Plan.objects.create(
        sitting=former.sitting, number=2, request=former.request, document=document, fingerprint="x",
        made_at=former.made_at, made_by=former.made_by,
    )  # fmt: skip
    assert "1 of" in ines.open(PAGE).words
    assert "need that any more" in tap(ines, "out", "umb180")


def test_what_is_in_repair_does_not_go_out_and_junk_is_answered_in_words(ines: Visitor) -> None:
    lose("h400-1", "repair")
    assert "h400-1 is in repair" in tap(ines, "out", "h400-1")
    assert "Not packed:" in tap(ines, "packed")
    assert "Say how it came back" in tap(ines, "sideways", "h400-2")
    assert "need that any more" in tap(ines, "out", "rope")
    assert ines.client.post("/packing/tap/", {"day": "soon"}).status_code == 404
    assert not PackingTap.objects.exists()


def test_a_place_away_from_the_studio_has_a_list_of_its_own_with_more_spares(
    askew_house: House, ines: Visitor
) -> None:
    here = ines.open(PAGE).words
    assert "second extension lead" not in here
    assert "shaft-s-2" in here  # the rule of one
    askew_house.room.away = True
    askew_house.room.save()
    there = ines.open(PAGE).words
    for words in ("Pack for L-0001, away from the studio", "cable mats", "second extension lead", "h400-4"):
        assert words in there


def test_cases_are_weighed_and_a_heavy_one_says_so(ines: Visitor) -> None:
    KitItem.objects.filter(code__startswith="sandbag").update(case="bags")
    words = ines.open(PAGE).words
    assert "21 kg" in words
    assert "! two people or the trolley" in words


def test_the_page_asks_as_few_questions_of_a_large_kit_as_of_a_small_one(ines: Visitor) -> None:
    def asked() -> int:
        with CaptureQueriesContext(connection) as found:
            assert ines.client.get(PAGE).status_code == 200
        return len(found)

    before = asked()
    for section in ("adapters", "stands"):
        row: Any = KIT[section].objects.first()
        for n in range(30):
            values = {f.name: getattr(row, f.name) for f in row._meta.fields if f.name not in ("id", "kititem_ptr")}
            KIT[section].objects.create(**(values | {"code": f"more-{section}-{n}"}))
    assert asked() == before <= 24
