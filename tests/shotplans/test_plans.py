"""Plans: numbered, frozen, superseded, never half kept; and their page."""

from __future__ import annotations

from typing import Any

import pytest

from bookings.actions import claims, sittings
from bookings.models import Claim
from bookings.refusals import Taken
from shotplans import snapshot
from shotplans.actions import plans
from shotplans.models import Frozen, Plan
from shotplans.planner import codec, solve
from studio.models import KitItem
from tests import lindenmere
from tests.pages import Visitor

MAKE = "Make a new version of the plan"


@pytest.fixture
def tobiah(studio: None) -> Visitor:
    return lindenmere.visitor("photographer")


def at_plan(visitor: Visitor, name: str = "askew") -> str:
    return visitor.open(f"/sittings/{lindenmere.NUMBERS[name]}/plans/{lindenmere.plan(name).number}/").words


def at_brief(visitor: Visitor, name: str = "askew") -> None:
    visitor.open(f"/sittings/{lindenmere.NUMBERS[name]}/brief/")


def kit_of(name: str) -> set[int]:
    held = Claim.objects.filter(sitting=lindenmere.sitting(name), resource_kind="kit")
    return set(held.values_list("resource_id", flat=True))


def test_a_plan_is_frozen_once_it_is_made(studio: None) -> None:
    plan = lindenmere.plan("askew")
    plan.why = "a slip"
    with pytest.raises(Frozen, match="make a new version"):
        plan.save()
    with pytest.raises(Frozen):
        Plan.objects.get(pk=plan.pk).save(update_fields=["document"])
    assert lindenmere.plan("askew").why == ""


def test_a_plan_keeps_its_input_defaults_and_all_and_the_fingerprint_of_it(studio: None) -> None:
    plan = lindenmere.plan("dorrow")
    today = snapshot.request_for(lindenmere.sitting("dorrow"))
    assert plan.fingerprint == plan.document["fingerprint"] == codec.fingerprint(today)
    assert plan.request == snapshot.frozen_input(today)
    assert plan.request["brief"]["setups"][0]["people"] == ["Ignace"]


def test_planning_again_supersedes_the_former_and_says_why(tobiah: Visitor) -> None:
    at_brief(tobiah)
    tobiah.press(MAKE, {"Why a new version": "he comes without his glasses"})
    former, new = Plan.objects.of(lindenmere.sitting("askew")).order_by("number")
    assert (former.number, new.number) == (1, 2)
    assert former.superseded_at is not None
    assert new.superseded_at is None
    assert new.made_by == lindenmere.member("photographer")
    assert tobiah.page.address.endswith("/plans/2/")
    assert "he comes without his glasses" in tobiah.page.words
    words = tobiah.open("/sittings/L-0001/plans/1/").words
    assert "Superseded: another version has taken its place." in words
    tobiah.follow("Open plan 2")
    assert tobiah.page.address.endswith("/plans/2/")


def test_kit_moves_with_the_plan(tobiah: Visitor) -> None:
    before = kit_of("tarrant")
    KitItem.objects.filter(code="boom-1").update(state="repair")
    octabox = KitItem.objects.get(code="octa150-1")
    assert octabox.pk in before
    KitItem.objects.filter(pk=octabox.pk).update(state="repair")
    at_brief(tobiah, "tarrant")
    tobiah.press(MAKE)
    packed = {row["item"] for row in lindenmere.plan("tarrant").document["packing"]}
    after = kit_of("tarrant")
    assert octabox.pk not in after
    assert {k.code for k in KitItem.objects.filter(pk__in=after)} == packed & set(
        KitItem.objects.values_list("code", flat=True)
    )


def test_without_a_brief_nothing_is_planned_and_the_page_says_what_to_do(tobiah: Visitor) -> None:
    sitting = lindenmere.sitting("askew")
    sitting.brief.delete()
    with pytest.raises(plans.Refused, match="Confirm the brief first"):
        plans.make_plan(by=lindenmere.member("photographer"), sitting=lindenmere.sitting("askew"))
    answer = tobiah.client.post("/sittings/L-0001/plans/", follow=True)
    assert "Confirm the brief first." in answer.content.decode()
    assert Plan.objects.of(sitting).count() == 1


def test_what_a_plan_still_misses_is_said_in_words_and_nothing_is_kept(tobiah: Visitor) -> None:
    KitItem.objects.filter(section="cameras").update(state="repair")
    at_brief(tobiah)
    words = tobiah.press(MAKE).words
    assert "The plan still misses something." in words
    assert "kit.cameras" in words
    assert Plan.objects.of(lindenmere.sitting("askew")).count() == 1
    assert lindenmere.plan("askew").superseded_at is None


def test_a_piece_claimed_while_the_plan_was_reckoned_refuses_it_and_keeps_nothing(
    tobiah: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    askew, dorrow = lindenmere.sitting("askew"), lindenmere.sitting("dorrow")
    key = lindenmere.plan("askew").document["setups"][0]["lights"][0]["modifier"]
    piece = KitItem.objects.get(code=key)
    reckon, before = solve.plan, kit_of("askew")

    def meanwhile(request: Any) -> dict[str, Any]:
        document = reckon(request)
        Claim.objects.filter(sitting=askew, resource_id=piece.pk, resource_kind="kit").delete()
        claims.hold(sitting=dorrow, wanted=[claims.Wanted("kit", piece.pk, askew.spans.whole)])
        return document

    monkeypatch.setattr(solve, "plan", meanwhile)
    at_brief(tobiah)
    words = tobiah.press(MAKE).words
    assert f"The {piece.label} is held by L-0003, Dorrow" in words
    assert "Next free:" in words
    assert lindenmere.plan("askew").number == 1
    assert Plan.objects.of(askew).count() == 1
    assert kit_of("askew") == before - {piece.pk}
    monkeypatch.setattr(solve, "plan", reckon)
    monkeypatch.setattr(snapshot, "request_for", lambda _s: codec.read_request(lindenmere.brief_file("askew")))
    with pytest.raises(Taken):
        plans.make_plan(by=lindenmere.member("photographer"), sitting=lindenmere.sitting("askew"))


@pytest.mark.parametrize("why", ["x" * 5000, "a\0b", "<b>why</b>"])
def test_any_reason_for_a_new_version_is_kept_as_text(tobiah: Visitor, why: str) -> None:
    at_brief(tobiah)
    page = tobiah.press(MAKE, {"why": why})
    assert page.status == 200
    assert "<b>" not in page.html
    assert len(lindenmere.plan("askew").why) <= 200
    assert "\0" not in lindenmere.plan("askew").why


def test_a_cancelled_sitting_is_not_planned_and_the_page_says_so(tobiah: Visitor) -> None:
    sittings.change_stage(
        by=lindenmere.member("front_desk"), sitting=lindenmere.sitting("askew"), to="cancelled", note="unwell"
    )
    at_brief(tobiah)
    page = tobiah.press(MAKE)
    assert page.status == 200
    assert Plan.objects.of(lindenmere.sitting("askew")).count() == 1
    assert kit_of("askew") == set()


def test_a_change_of_room_is_shown_on_the_plan_until_it_is_made_anew(tobiah: Visitor) -> None:
    told = "Something this plan was made from has changed since."
    assert told not in at_plan(tobiah)
    room = lindenmere.sitting("askew").room
    room.surface_walls = "white"
    room.save()
    assert told in at_plan(tobiah)
    at_brief(tobiah)
    tobiah.press(MAKE)
    assert told not in tobiah.page.words


def test_a_change_of_notes_is_shown_on_the_plan(tobiah: Visitor) -> None:
    notes = lindenmere.sitting("askew").sitters.get(label="Ottoline").notes
    notes.texture = "smooth"
    notes.save()
    assert "has changed since" in at_plan(tobiah)


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_the_page_has_the_drawing_the_table_and_the_numbers_of_the_plan(tobiah: Visitor, name: str) -> None:
    words = at_plan(tobiah, name)
    page, document = tobiah.page, lindenmere.plan(name).document
    assert page.html.count("<svg") == len(document["setups"])
    for setup in document["setups"]:
        for light in setup["lights"]:
            assert f"{light['distance_m']:.2f} m" in words
            assert f"{light['centre_height_m']:.2f} m" in words
        assert setup["expected"]["setting_reading"]["shown"] in words
        assert f"f/{setup['camera']['aperture']:g}" in words or setup["camera"]["nearest_third"] in words
    assert "No limit is broken." in words


def test_every_reason_is_on_the_page_of_photographer_and_assistant(studio: None) -> None:
    reasons = [r["because"] for s in lindenmere.plan("askew").document["setups"] for r in s["reasons"]]
    assert reasons
    for role in ("photographer", "assistant"):
        words = at_plan(lindenmere.visitor(role))
        assert [r for r in reasons if " ".join(r.split()) not in words] == []


@pytest.mark.parametrize("role", ["front_desk", "owner"])
def test_desk_and_owner_see_no_plan_sheet_or_record(studio: None, role: str) -> None:
    client, start = lindenmere.client_of(role), "/sittings/L-0001/"
    for address in ("brief/", "plans/1/", "plans/1/setups/1.pdf", "plans/1/packing.pdf", "plans/1/record/", "record/"):
        assert client.get(start + address).status_code == 403, address


def test_the_desk_reads_on_the_sittings_page_that_there_is_a_plan_and_no_more(studio: None) -> None:
    page = lindenmere.visitor("front_desk").open("/sittings/L-0001/")
    assert "Plan 1 was made on" in page.words
    assert not [href for _, href in page.links if "/plans/" in href or "/brief/" in href]
    for reason in (r["because"] for r in lindenmere.plan("askew").document["setups"][0]["reasons"]):
        assert reason not in page.words


@pytest.mark.parametrize("version", ["2", "0", "99999999999999999999"])
def test_a_version_that_was_never_made_is_not_found(tobiah: Visitor, version: str) -> None:
    for address in ("", "setups/1.pdf", "packing.pdf", "record/"):
        assert tobiah.client.get(f"/sittings/L-0001/plans/{version}/{address}").status_code == 404
