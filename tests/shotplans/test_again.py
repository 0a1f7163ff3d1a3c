"""Same as last time, swaps for what is gone, and company standards that plans and records keep or say why not."""

from __future__ import annotations

import copy
from datetime import timedelta
from typing import Any, get_args

import pytest

from bookings.models import Sitter, Sitting
from shotplans import again as read
from shotplans.actions import again as actions
from shotplans.actions import as_shot, plans, records, standards
from shotplans.models import Brief, Change, CompanyStandard, Plan
from shotplans.planner import brief
from shotplans.records import again
from studio.models import Modifier
from tests.bookings import making
from tests.bookings.making import House

SETUP = "the pair"


@pytest.fixture
def house(askew_house: House, db: None) -> House:
    return askew_house


@pytest.fixture
def next_year(house: House) -> Sitting:
    """The Askews come again; last time the key stood closer than planned."""
    by, last = house.members["assistant"], Plan.objects.get()
    record = records.open_record(plan=last)
    kept = as_shot.copy_plan(by=by, record=record, setup_name=SETUP)
    typed = {("A", "distance_m"): 1.9}
    as_shot.change(by=by, built=kept, typed=typed, seen=1, failed=False, why_failed="", why="the beam")
    return house.book(starts_at=last.sitting.starts_at + timedelta(days=364))


def key_of(plan: Plan) -> dict[str, Any]:
    found: dict[str, Any] = next(x for x in plan.setups[0]["lights"] if x["role"] == "key")
    return found


def test_feature_41_last_years_as_shot_opens_as_a_new_plan_in_two_taps(house: House, next_year: Sitting) -> None:
    tobiah = making.visitor(house, "photographer")
    tobiah.open(f"/sittings/{next_year.number}/")
    page = tobiah.follow("Same as last time")  # the first tap
    assert "A, key: octa150-1, 1.90 m away" in page.words
    page = tobiah.press("Make the plan so")  # the second
    assert page.address == f"/sittings/{next_year.number}/plans/1/"
    made = Plan.objects.get(sitting=next_year)
    assert key_of(made)["modifier"] == "octa150-1"
    assert key_of(made)["distance_m"] == pytest.approx(1.9, abs=0.1)  # as shot, not as planned
    assert made.why == "as on 3 December 2026, L-0001"
    assert [s["people"] for s in made.request["brief"]["setups"]] == [["Ottoline", "Bertram"]]


def test_feature_43_an_absent_modifier_is_replaced_by_the_nearest_owned_with_changed_distance_and_power(
    house: House, next_year: Sitting
) -> None:
    Modifier.objects.filter(code__startswith="octa150").delete()
    tobiah = making.visitor(house, "photographer")
    page = tobiah.open(f"/sittings/{next_year.number}/again/")
    assert "150 cm octabox, two cloths is not to be had that day." in page.words
    page = tobiah.press("Make the plan so")
    made, last = Plan.objects.get(sitting=next_year), Plan.objects.get(sitting__number="L-0001")
    key = key_of(made)
    assert key["modifier"] != "octa150-1"
    assert key["distance_m"] != 1.9
    assert key["dial"] != key_of(last)["dial"]
    listed = page.words.split("Otherwise than last time, as shot")[1]
    for said in (
        f"A, modifier: last time octa150-1, now {key['modifier']}",
        "A, distance: last time 1.90 m",
        "A, power:",
    ):
        assert said in listed, said


def two_set_ups(plan: Plan) -> None:
    """Last time's plan with a second set-up like the first."""
    for path in (plan.document, plan.request["brief"]):
        path["setups"].append(copy.deepcopy(path["setups"][0]) | {"name": "standing"})
    Plan.objects.filter(pk=plan.pk).update(document=plan.document, request=plan.request)


def test_each_set_up_takes_its_own_light_of_last_time(house: House, next_year: Sitting) -> None:
    by, last = house.members["assistant"], Plan.objects.get()
    two_set_ups(last)
    kept = as_shot.copy_plan(by=by, record=records.open_record(plan=Plan.objects.get()), setup_name="standing")
    typed = {("A", "distance_m"): 2.4}
    as_shot.change(by=by, built=kept, typed=typed, seen=1, failed=False, why_failed="", why="both standing")
    page = making.visitor(house, "photographer").open(f"/sittings/{next_year.number}/again/")
    assert "1.90 m away" in page.words.split("standing")[0]
    assert "2.40 m away" in page.words.split("standing")[1]
    made = actions.plan_again(by=house.members["photographer"], sitting=next_year)
    looks = [setup["standard"]["key_m"] for setup in made.request["brief"]["setups"]]
    keys = [next(x for x in setup["lights"] if x["role"] == "key")["distance_m"] for setup in made.setups]
    assert (looks, made.request["brief"]["standard"]) == ([1.9, 2.4], None)
    assert keys == [pytest.approx(1.9, abs=0.1), pytest.approx(2.4, abs=0.1)]


@pytest.mark.parametrize("there_was_one", [False, True])
def test_a_plan_that_cannot_be_made_leaves_the_brief_as_it_was(
    house: House, next_year: Sitting, monkeypatch: pytest.MonkeyPatch, there_was_one: bool
) -> None:
    by = house.members["photographer"]
    if there_was_one:
        plans.confirm_brief(by=by, sitting=next_year, data=Plan.objects.get().request["brief"])
    before = list(Brief.objects.filter(sitting=next_year).values())

    def refuse(**said: Any) -> Plan:
        raise plans.Refused("The plan still misses something.")

    monkeypatch.setattr(plans, "make_plan", refuse)
    with pytest.raises(plans.Refused):
        actions.plan_again(by=by, sitting=next_year)
    assert list(Brief.objects.filter(sitting=next_year).values()) == before


def test_whoever_comes_besides_is_in_and_the_picture_is_for_what_it_is_for_today(
    house: House, next_year: Sitting
) -> None:
    Sitter.objects.create(sitting=next_year, label="Tess", position=9)
    Sitting.objects.filter(pk=next_year.pk).update(purpose="For the landing")
    wanted = read.wanted(Sitting.objects.get(pk=next_year.pk))
    assert wanted is not None
    assert wanted.brief["purpose"] == "For the landing"
    assert [setup["people"] for setup in wanted.brief["setups"]] == [["Ottoline", "Bertram", "Tess"]]


def test_another_number_of_set_ups_is_said_and_so_is_one_that_did_not_work(house: House, next_year: Sitting) -> None:
    by, last = house.members["assistant"], Plan.objects.get()
    two_set_ups(last)
    kept = as_shot.copy_plan(by=by, record=records.open_record(plan=Plan.objects.get()), setup_name="standing")
    as_shot.change(by=by, built=kept, typed={}, seen=1, failed=True, why_failed="the fill burnt the wall", why="")
    asked = copy.deepcopy(last.request["brief"])
    plans.confirm_brief(by=house.members["photographer"], sitting=next_year, data=asked)
    page = making.visitor(house, "photographer").open(f"/sittings/{next_year.number}/again/")
    assert "standing is left out: the fill burnt the wall." in page.words
    assert "Set-ups differ: this sitting's brief asks for 2, last time 1 was shot." in page.words


def test_without_a_last_time_nothing_is_offered(house: House) -> None:
    tobiah = making.visitor(house, "photographer")
    assert "Same as last time" not in tobiah.open("/sittings/L-0001/").words
    assert tobiah.client.get("/sittings/L-0001/again/").status_code == 404
    tobiah.client.post("/sittings/L-0001/again/")
    assert Plan.objects.count() == 1


def test_the_nearest_modifier_is_the_one_of_like_size_then_of_like_kind() -> None:
    disc = {"id": "a", "kind": "octabox", "diameter_m": 1.5}
    owned = [
        {"id": "b", "kind": "octabox", "diameter_m": 0.9}, {"id": "c", "kind": "umbrella_through", "diameter_m": 1.5},
        {"id": "d", "kind": "octabox", "diameter_m": 1.35},
        {"id": "e", "kind": "strip", "width_m": 0.3, "height_m": 1.2},
    ]  # fmt: skip
    found = again.nearest(disc, owned)
    assert found is not None
    assert found["id"] == "d"
    assert again.nearest(disc, []) is None


LOOK = {"lens_mm": 85.0, "key_modifier": "octa150-1", "key_height_deg": 35.0, "tolerance_stops": 0.15}
LOCKED = ["lens_mm", "key_modifier", "key_height_deg"]


def standard_of(house: House, **values: Any) -> CompanyStandard:
    client = Sitting.objects.get(number="L-0001").client
    by = house.members["photographer"]
    return standards.keep(by=by, client=client, values=LOOK | values, locked=LOCKED, seen=0)


def test_feature_40_a_plan_under_a_standard_cannot_change_what_is_locked_without_a_reason(house: House) -> None:
    standard_of(house, lens_mm=135.0)  # no such lens in the kit: the plan has to leave it
    sitting, by = Sitting.objects.get(number="L-0001"), house.members["photographer"]
    with pytest.raises(plans.Refused, match="leave the company's standard") as refused:
        plans.make_plan(by=by, sitting=sitting)
    assert "Focal length, mm" in str(refused.value)
    assert "locked at 135" in str(refused.value)
    made = plans.make_plan(by=by, sitting=Sitting.objects.get(pk=sitting.pk), why="the 135 is away for repair")
    assert made.why == "the 135 is away for repair"
    assert made.request["brief"]["standard"]["locked"] == LOCKED


def test_every_value_that_can_be_locked_is_held_against_the_plan(house: House) -> None:
    plan = Plan.objects.get()
    setup, cameras = plan.setups[0], plan.request["kit"]["cameras"]
    got = again.planned_values(setup, cameras)
    assert set(got) == set(get_args(brief.Lockable))
    assert None not in got.values()
    for name, value in got.items():
        other = "dish55" if name == "key_modifier" else value + 1.5 * again.ALLOWED[name]
        assert not list(again.departures(plan.document, {name: value}, cameras)), name
        assert [d.name for d in again.departures(plan.document, {name: other}, cameras)] == [name]


def test_last_time_again_keeps_what_the_company_locks_or_asks_why(house: House, next_year: Sitting) -> None:
    standard_of(house, lens_mm=135.0)
    tobiah = making.visitor(house, "photographer")
    tobiah.open(f"/sittings/{next_year.number}/again/")
    page = tobiah.press("Make the plan so")
    assert page.status == 422
    assert "Focal length, mm" in page.words
    page = tobiah.press("Make the plan so", {"Why the plan may leave a locked value": "the 135 is away"})
    assert Plan.objects.get(sitting=next_year).why == "as on 3 December 2026, L-0001: the 135 is away"


def test_what_a_standard_locks_is_planned_and_its_tolerance_holds_on_set(house: House) -> None:
    standard_of(house)
    made = plans.make_plan(by=house.members["photographer"], sitting=Sitting.objects.get(number="L-0001"), why="")
    assert (key_of(made)["modifier"], made.setups[0]["camera"]["focal_mm"]) == ("octa150-1", 85.0)
    steps = made.setups[0]["meter_round"]
    assert {s["tolerance_stops"] for s in steps if s["sets_camera"] or s["on"] == ["A"]} == {0.15}
    answer = note(house, made, "modifier", "strip30x120-1", "")
    assert "locks this: say why" in answer
    assert not Change.objects.exists()
    note(house, made, "modifier", "strip30x120-1", "the cloth tore")
    assert Change.objects.get().why == "the cloth tore"


def note(house: House, plan: Plan, what: str, actual: str, why: str) -> str:
    sent = {"setup_name": SETUP, "about": "A", "what": what, "actual": actual, "why": why}
    where = f"/sittings/L-0001/plans/{plan.number}/record/changes/"
    return making.visitor(house, "assistant").client.post(where, sent, follow=True).content.decode()


def test_a_standard_is_kept_from_its_page_and_the_first_save_wins(house: House) -> None:
    client = Sitting.objects.get(number="L-0001").client
    client.is_company = True
    client.save()
    owner = making.visitor(house, "owner")
    owner.open(f"/clients/{client.pk}/standard/")
    page = owner.press("Save the standard", {"key_m": "1.4", "lock_key_m": "on", "tolerance_stops": "0.1"})
    assert "Saved: plans made from now on follow it." in page.words
    held = CompanyStandard.objects.get()
    assert (held.values, held.locked) == ({"key_m": 1.4, "tolerance_stops": 0.1}, ["key_m"])
    answer = owner.client.post(f"/clients/{client.pk}/standard/", {"version": "0", "key_m": "2"})
    assert answer.status_code == 422
    assert "Somebody else saved this" in answer.content.decode()


def test_a_locked_value_changes_with_a_reason_and_both_stand_in_the_history(house: House) -> None:
    client = standard_of(house).client
    client.is_company = True
    client.save()
    owner = making.visitor(house, "owner")
    owner.open(f"/clients/{client.pk}/standard/")
    typed = {"lens_mm": "105", "lock_lens_mm": "on", "key_m": "1.4"}
    page = owner.press("Save the standard", typed)
    assert page.status == 422
    assert "This was locked: Focal length, mm. Say why it is changed." in page.words
    assert page.forms[-1].values["lens_mm"] == ["105"]
    page = owner.press("Save the standard", {"why": "their new web page"})
    listed = page.words.split("What was changed")[1]
    for said in (
        "Harriet Voss: their new web page", "Focal length, mm: from 85, locked to 105, locked", "Key distance, m: 1.4",
    ):  # fmt: skip
        assert said in listed, listed
    assert "Key modifier: octa150-1, locked" in listed  # the first keeping, without a reason
    audit = owner.open("/audit/?what=rules")
    assert f"Standard of {client.name}: Focal length, mm85, locked105, locked" in audit.words


@pytest.mark.parametrize("sent", [{"key_m": "far"}, {"lock_key_m": "on"}, {"key_m": "nan"}, {"tolerance_stops": "9"},
                                  {"key_modifier": "cloud"}, {"version": "x"}])  # fmt: skip
def test_a_standard_nobody_can_plan_is_refused_beside_its_field(house: House, sent: dict[str, str]) -> None:
    client = Sitting.objects.get(number="L-0001").client
    client.is_company = True
    client.save()
    answer = making.visitor(house, "owner").client.post(f"/clients/{client.pk}/standard/", {"version": "0"} | sent)
    assert answer.status_code == 422
    assert not CompanyStandard.objects.exists()
    assert Brief.objects.count() == 1
