"""Plans: numbered, frozen, superseded, never half kept; and their page."""

from __future__ import annotations

from typing import Any

import pytest

from bookings.actions import claims, sittings
from bookings.models import Claim
from bookings.refusals import Taken
from shotplans import paper, plan_page, snapshot
from shotplans.actions import plans
from shotplans.models import Frozen, Plan
from shotplans.planner import codec, solve
from shotplans.planner.rules import RULES
from studio.models import KitItem, Profile
from tests import cast, lindenmere
from tests.pages import Visitor

MAKE = "Make a new version of the plan"


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
    assert page.html.count('<svg class="drawing live"') == len(document["setups"])
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


@pytest.fixture
def stranger(studio: None) -> Visitor:
    """An assistant of the house who is not on that sitting, and so does not read its notes."""
    return Visitor(cast.client_of(cast.make_member("assistant", name="Wren Halloway")))


def test_what_follows_is_for_all_and_what_it_follows_from_for_those_who_may_read_notes(stranger: Visitor) -> None:
    rows = lindenmere.plan("askew").document["consequences"]
    says = [" ".join(row["says"].split()) for row in rows]
    assert says
    occasions = {RULES[row["rule"]].when for row in rows}
    for role in ("photographer", "assistant"):
        words = at_plan(lindenmere.visitor(role))
        assert [s for s in says if s not in words] == []
        assert [o for o in occasions if o not in words] == []
        assert "Bertram: glasses" in words
    words = at_plan(stranger)
    assert [s for s in says if s not in words] == []
    assert [o for o in occasions if o in words] == []
    assert "Bertram: glasses" not in words
    assert not [row["rule"] for row in rows if "_" in row["rule"] and row["rule"] in stranger.page.html]


def test_a_reason_that_cites_a_person_is_for_those_who_may_read_notes(stranger: Visitor) -> None:
    reasons = [r for s in lindenmere.plan("askew").document["setups"] for r in s["reasons"]]
    cites = [r for r in reasons if any(path.startswith("sitters") for path in r["from"])]
    assert 0 < len(cites) < len(reasons)
    words = at_plan(stranger)
    for reason in reasons:
        assert (" ".join(reason["because"].split()) in words) == (reason not in cites)


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_the_meter_round_says_what_to_read_first_and_how_sure_each_reading_is(tobiah: Visitor, name: str) -> None:
    words = at_plan(tobiah, name)
    for setup in lindenmere.plan(name).setups:
        assert setup["teaches_most"]["because"] in words
        for step in setup["meter_round"]:
            assert f"{step['target']['shown']}, ± {step['uncertainty_stops']} stop" in words
            parts = [f"{step['uncertainty_parts'][p]:.2f}" for p in ("output", "placement", "bounce", "dial")]
            assert " ".join([str(step["step"]), str(step["uncertainty_stops"]), *parts]) in words


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_other_ways_stand_there_with_lights_costs_and_numbers_of_their_own(tobiah: Visitor, name: str) -> None:
    words = at_plan(tobiah, name)
    others = [a for s in lindenmere.plan(name).setups for a in s["alternatives"]]
    assert others
    for other in others:
        own = words.partition(f"Instead: {other['differs']}")[2]
        assert " ".join(other["costs"].split()) in own
        for light in other["lights"]:
            assert f"{light['distance_m']:.2f} m" in own
            assert f"{light['centre_height_m']:.2f} m" in own
        assert other["expected"]["setting_reading"]["shown"] in own


def test_a_group_says_its_measures_and_a_pair_has_none(tobiah: Visitor) -> None:
    group = lindenmere.plan("pellingham").setups[0]["expected"]["group"]
    words = at_plan(tobiah, "pellingham")
    assert f"Group, wide and deep {group['width_m']:.2f} m, {group['depth_m']:.2f} m" in words
    assert f"Focus at {group['focus_m']:.2f} m from the lens" in words
    assert "Group, wide" not in at_plan(tobiah)


def shown(change: Any = None, name: str = "askew") -> plan_page.Page:
    """The first set-up's page of a plan, after a change to its document in memory."""
    plan = lindenmere.plan(name)
    if change:
        change(plan.setups[0])
    return plan_page.pages(plan, paper.sheets(plan, Profile.get()), "total", may_read_notes=True)[0]


def test_each_face_says_relief_nose_shadow_catchlights_and_the_glasses_clear_angle(studio: None) -> None:
    def change(setup: dict[str, Any]) -> None:
        her, him = setup["expected"]["per_sitter"]
        her["catchlights"] = [
            {"light": "A", "image_side": "left", "clock": 0.3, "size_mm": 2.7, "seen": True, "why_not": None},
            {"light": "A", "image_side": "right", "clock": None, "size_mm": None, "seen": False, "why_not": "a lid"},
        ]
        her["nose_shadow"] = {
            "light": "A", "length_mm": 21.0, "slant_deg": -25.0, "touches_lip": True, "joins_cheek": False,
        }  # fmt: skip
        him["nose_shadow"]["length_mm"] = None
        him["glasses"] = [
            {"light": "A", "margin_deg": 13.0, "clear_above_deg": -4.0, "cure": None},
            {"light": "B", "margin_deg": -2.0, "clear_above_deg": None, "cure": "temples up"},
        ]

    her, him = shown(change).faces
    assert her.label == "Ottoline"
    assert her.catchlights == ("A left: 12 o'clock, 2.7 mm; right: a lid",)
    assert (her.nose_shadow, him.nose_shadow) == ("21 mm, 25° to the left, on the lip", "")
    assert her.glasses == ()
    assert him.glasses == ("A clear by 13°, its lower edge from -4° up", "B glare, 2° short: temples up")


def test_what_a_plan_counts_no_further_is_said_without_a_figure_it_has_not(studio: None) -> None:
    def change(setup: dict[str, Any]) -> None:
        setup["expected"] |= {
            "fill_below_key_stops": 9.9, "bounce_below_key_stops": 9.9, "shadow_below_lit_stops": 4.0,
            "sharp_to_m": 998.1,
        }  # fmt: skip

    said = dict(shown(change).expected)
    assert said["Fill and bounce under the key"] == "9.9 stops or more (956:1 on face)"
    assert said["Bounce alone under the key"] == "9.9 stops or more"
    assert said["Shadow cheek under the lit one"] == "4.0 stops"
    assert said["Sharp about the focus"].endswith(" m to the horizon")


def test_a_flag_says_where_it_hangs_and_what_it_keeps_off(studio: None) -> None:
    def change(setup: dict[str, Any]) -> None:
        setup["blocks"] = [{"id": "panel-2", "at_m": [-0.4, 1.9, -0.25], "why": "keeps light C off the lens",
                            "stand": "stand90-1", "shades": "C"}]  # fmt: skip

    (flag,) = shown(change).blocks
    assert flag.why == "keeps light C off the lens"
    assert flag.place == "0.40 m left of the mark, 0.25 m behind it, middle 1.90 m high, stand90-1"


def test_sandbags_stand_beside_their_stands(tobiah: Visitor) -> None:
    words = at_plan(tobiah)
    for light in lindenmere.plan("askew").setups[0]["lights"]:
        assert light["sandbag_kg"] > 0
        assert f"{light['stand']}, sandbag {light['sandbag_kg']:g} kg" in words


def test_a_plan_made_before_these_were_printed_still_opens(studio: None) -> None:
    def older(setup: dict[str, Any]) -> None:
        for alternative in (setup, *setup["alternatives"]):
            for key in ("group", "setting_uncertainty_stops", "setting_uncertainty_parts"):
                alternative["expected"].pop(key)
            for sitter in alternative["expected"]["per_sitter"]:
                sitter.pop("nose_shadow")
            for light in alternative["lights"]:
                light.pop("sandbag_kg")
        for step in setup["meter_round"]:
            step.pop("uncertainty_parts")

    page = shown(older)
    assert page.doubts == ()
    assert dict(page.expected)["Setting reading"] == "f/8 +0.0"
    plan = lindenmere.plan("askew")
    plan.document.pop("consequences")
    plan.document.pop("retouch")
    assert plan_page.follows(plan, may_read_notes=True) == []
    assert plan_page.retouching(plan) == []


def test_retouching_is_said_once_a_level(studio: None) -> None:
    plan = lindenmere.plan("askew")
    assert plan_page.retouching(plan) == [("light, all shots", "Agreed with the client.")]
    plan.document["retouch"][1]["level"] = "full"
    found = plan_page.retouching(plan)
    assert found[1] == ("full, shots 2", "Agreed with the client.")
    assert found[0][0].startswith("light, shots 1, 3")


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
