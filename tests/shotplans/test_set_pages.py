"""Around a sitting: the hazard walk, the strike list, power and place, on screen and on paper."""

from __future__ import annotations

from datetime import timedelta

import pytest

from shotplans import overruns, set_papers
from shotplans.models import BufferChange, Plan, SetTap
from shotplans.records.overruns import times
from shotplans.sheets import location_sheet, measures, place, strike_sheet
from studio.models import Profile
from studio.paper.page import PAPERS
from tests.bookings.making import House, visitor
from tests.pages import Visitor
from tests.sheets.reading import words_of

PLAN = "/sittings/L-0001/plans/1/"
WALK, STRIKE = PLAN + "walk/", PLAN + "strike/"


@pytest.fixture
def ines(askew_house: House, db: None) -> Visitor:
    return visitor(askew_house, "assistant")


@pytest.fixture
def plan(ines: Visitor) -> Plan:
    return Plan.objects.current().select_related("sitting__room", "sitting__kind").get()


def tap(ines: Visitor, page: str, code: str, **more: str) -> str:
    answer = ines.client.post(f"{page}tap/", {"code": code, "setup": "the pair", **more}, follow=True)
    assert answer.status_code == 200
    return str(answer.content.decode())


def test_feature_52_sitters_in_waits_for_cables_weights_exits_and_seats(ines: Visitor) -> None:
    page = ines.open(WALK).words
    for words in ("A 5.5 kg at least", "chair46-1 46 cm high", "with arms", "A on circuit 1", "extinguisher"):
        assert words in page, words
    for n, code in enumerate(("cables", "weights", "exits", "seats")):
        says = tap(ines, WALK, "sitters-in")
        assert "Sitters in waits for:" in says
        assert not SetTap.objects.filter(code="sitters-in").exists(), n
        tap(ines, WALK, code)
    tap(ines, WALK, "seats", done="no")
    assert "waits for: seats" in tap(ines, WALK, "sitters-in")
    tap(ines, WALK, "seats")
    assert "Sitters in since" in tap(ines, WALK, "sitters-in")
    assert "no such tick" in tap(ines, WALK, "windows")
    assert "no such tick" in tap(ines, WALK, "cables", setup="another")


def test_feature_57_strike_reverses_the_order_of_building_and_waits_for_the_last_sweep(ines: Visitor) -> None:
    page = ines.open(STRIKE).words
    order = ("Cables, covers", "Seats:", "Camera:", "C: 30 x 120", "B: 180 cm", "A: 150 cm", "Ground:", "Last sweep")
    found = [page.index(words) for words in order]
    assert found == sorted(found)
    assert "Still standing" in tap(ines, STRIKE, "sweep")
    for code in ("cables", "seats", "camera", "light-C", "light-B", "light-A", "ground"):
        tap(ines, STRIKE, code)
    assert "waits for the last sweep" in tap(ines, STRIKE, "struck")
    tap(ines, STRIKE, "sweep")
    assert "Struck 09:" in tap(ines, STRIKE, "struck")
    assert "no such line" in tap(ines, STRIKE, "roof")


def test_what_the_next_sitting_in_the_room_needs_stays_up_and_the_list_says_what_moves(
    askew_house: House, ines: Visitor, plan: Plan
) -> None:
    first = plan.sitting
    later = askew_house.book(starts_at=first.starts_at + timedelta(hours=3))
    document = plan.document | {"setups": [plan.setups[0] | {"lights": [
        light | ({"distance_m": 1.6} if light["letter"] == "A" else {}) for light in plan.setups[0]["lights"][:2]
    ]}]}  # fmt: skip
    Plan.objects.create(
        sitting=later, number=1, request=plan.request, document=document, fingerprint="x", made_at=plan.made_at,
        made_by=plan.made_by,
    )  # fmt: skip
    page = ines.open(STRIKE).words
    down, stays = page.split(f"Stays up for {later.number}")
    assert "C: 30 x 120" in down
    assert "A: 150 cm" not in down
    assert "to 1.60 m" in stays
    assert "Take down C" in stays
    for code in ("cables", "light-C", "sweep"):
        tap(ines, STRIKE, code)
    assert "Struck 09:" in tap(ines, STRIKE, "struck")


def test_power_and_place_says_load_leads_ceiling_and_whom_to_call(ines: Visitor, plan: Plan) -> None:
    room = plan.sitting.room
    room.emergency, room.way_in = "Quillbridge cottage hospital, 2 miles", "By the yard"
    room.save()
    page = ines.open(PLAN + "place/").words
    for words in ("A, 390 of 2944 W", "m lead for", "over light", "cottage hospital", "licensed electrician"):
        assert words in page, words
    assert place.leads(plan.document, plan.filled_request)[0].needs_m < 10


@pytest.mark.parametrize(("size", "units"), [("a4", "metric"), ("letter", "imperial")])
def test_strike_list_and_place_are_on_paper_in_both_sizes_and_measures(plan: Plan, size: str, units: str) -> None:
    profile = Profile.get()
    profile.units = units
    paper = PAPERS[next(name for name in PAPERS if name.lower() == size)]
    content = set_papers.strike(plan, profile)
    assert content is not None
    words = words_of(strike_sheet.render(content, paper))
    assert "Last sweep" in words
    assert words.index("Seats:") < words.index("A: 150 cm") < words.index("Ground:")
    words = words_of(location_sheet.render(set_papers.location(plan, profile), paper))
    assert measures.of(units).length(plan.sitting.room.ceiling_m) in words
    assert "first-aid kit" in words


def test_feature_63_planned_and_real_set_up_times_suggest_a_buffer_taken_in_one_tap(
    askew_house: House, ines: Visitor, plan: Plan
) -> None:
    kind, start = plan.sitting.kind, plan.sitting.starts_at - timedelta(days=20)
    for n, minutes in enumerate((38, 44, 52)):
        sitting = askew_house.book(starts_at=start + timedelta(days=n))
        made = Plan.objects.create(
            sitting=sitting, number=1, request=plan.request, document=plan.document, fingerprint="x",
            made_at=plan.made_at, made_by=plan.made_by,
        )  # fmt: skip
        for code, after in (("begun", 0), ("sitters-in", minutes)):
            at = sitting.setup_starts_at + timedelta(minutes=after)
            SetTap.objects.create(plan=made, setup_name="the pair", on="walk", code=code, at=at, by=plan.made_by)
    harriet = visitor(askew_house, "owner")
    page = harriet.open(f"/kinds/{kind.pk}/").words
    assert "3 sittings, in the middle 30 minutes planned, 44 real; over: 3." in page
    harriet.press("Take 55 minutes")
    kind.refresh_from_db()
    assert kind.setup_minutes == 55
    assert BufferChange.objects.get().before == 30
    assert "from 30 to 55 minutes, learned from 3 sittings" in harriet.open(f"/kinds/{kind.pk}/").words
    again = harriet.client.post(f"/kinds/{kind.pk}/buffer/", {"field": "setup_minutes", "seen": "1"}, follow=True)
    assert "Nothing else is suggested" in again.content.decode()
    assert overruns.of_kind(kind)[0].times.planned == 30
    assert "set-up" in harriet.open("/audit/?kind=rules").words


def test_a_buffer_holds_four_sittings_in_five_and_two_sittings_suggest_none() -> None:
    assert times([]) is None
    few = times([(30, 50), (30, 60)])
    assert few is not None
    assert few.suggested is None
    many = times([(30, m) for m in (20, 25, 31, 32, 90)])
    assert many is not None
    assert (many.suggested, many.over, many.real) == (35, 3, 31)
