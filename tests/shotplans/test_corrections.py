"""Corrections from rows: which readings count, how plans use them and say so, and taking one out of use."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest

from shotplans import corrections, snapshot
from shotplans.actions import corrections as actions
from shotplans.actions import plans, records
from shotplans.models import Plan, Reading, Record, Retired
from tests.bookings import making
from tests.bookings.making import House

PAIR = ("h400-1", "octa150-1")
SETUP = "the pair"


@pytest.fixture
def house(askew_house: House, db: None) -> House:
    return askew_house


def plan() -> Plan:
    return Plan.objects.current().get()


def read(house: House, text: str = "5.6 +0.1", step: int = 1) -> Reading:
    by = house.members["assistant"]
    return records.type_reading(
        by=by, record=records.open_record(plan=plan()), setup_name=SETUP, step=step, text=text
    )  # fmt: skip


def read_before(house: House, *offs: float, heads: tuple[str, ...] = PAIR[:1]) -> None:
    """Readings of the octabox on days before, each so many stops off its target of 5.40, as of other steps."""
    first = read(house, "5.6 +0.4")
    Reading.objects.all().delete()
    for n, off in enumerate(offs):
        for head in heads:
            Reading.objects.create(
                record=first.record, setup_name=SETUP, step=50 + n, stops=5.4 + off, expected=first.expected,
                by=first.by, at=first.at - timedelta(days=40 + n), head=head, modifier=PAIR[1], as_typed="",
            )  # fmt: skip


def offsets() -> list[float]:
    return [o.offset_stops for o in corrections.observations()]


def test_only_the_first_reading_of_a_light_as_planned_teaches(house: House) -> None:
    read(house)
    read(house, "5.6 +0.4")  # turned up in between, noted or not
    read(house, "8 +0.0", step=4)  # several lights: cannot say which
    assert offsets() == [-0.3]


def test_a_reading_that_was_put_right_teaches_nothing_and_the_next_does(house: House) -> None:
    read(house, "4 +0.1")
    by, record = house.members["assistant"], Record.objects.get()
    records.put_right(by=by, record=record, setup_name=SETUP, step=1, cause="cloth")
    assert offsets() == []
    read(house, "5.6 +0.2")
    assert offsets() == [-0.2]


def test_a_light_that_was_moved_teaches_nothing(house: House) -> None:
    by, record = house.members["assistant"], records.open_record(plan=plan())
    records.note_change(
        by=by, record=record, setup_name=SETUP, about="A", what="distance", planned="", actual="1.9 m", why=""
    )
    read(house)
    assert offsets() == []


def test_the_next_plan_uses_what_was_read_and_says_so_and_the_rated_values_stay(house: House) -> None:
    before = plan()
    alike = tuple(h["id"] for h in before.request["kit"]["heads"] if h["id"].startswith("h400"))
    read_before(house, -0.6, -0.6, -0.5, -0.6, heads=alike)
    rated = next(m["loss_stops"] for m in before.request["kit"]["modifiers"] if m["id"] == PAIR[1])
    assert not before.request["corrections"]
    made = plans.make_plan(by=house.members["photographer"], sitting=before.sitting)
    used = {(c["head"], c["modifier"]): c for c in made.request["corrections"]}[PAIR]
    assert used["offset_stops"] == pytest.approx(-0.55, abs=0.06)
    assert used["readings"] == 4
    assert rated == next(m["loss_stops"] for m in made.request["kit"]["modifiers"] if m["id"] == PAIR[1])
    # this house's own lights differ: the first plan, as if made with the same input, says what it stands on
    Plan.objects.filter(pk=before.pk).update(request=before.request | {"corrections": made.request["corrections"]})
    page = making.visitor(house, "photographer").open("/sittings/L-0001/plans/1/")
    assert re.search(r"A: reckoned -0.6 stop from its rated output, sure to ±0\.\d\d, of 4 readings\.", page.words)


def test_readings_make_no_plan_stale_and_the_page_says_where_they_have_gone(house: House) -> None:
    made = plans.make_plan(by=house.members["photographer"], sitting=plan().sitting)
    assert not snapshot.is_stale(made)
    read_before(house, -0.6, -0.6, -0.5, -0.6)
    assert not snapshot.is_stale(plan())
    (used,) = [u for u in corrections.used_in(plan()) if u.letter == "A"]
    assert used.moved.startswith("-0.")


def test_readings_further_off_than_any_lamp_are_held_and_whoever_reads_the_plan_is_told(house: House) -> None:
    before = plan()
    heads = tuple(h["id"] for h in before.request["kit"]["heads"] if h["id"].startswith("h400"))
    read_before(house, -13, -13, -13, -13, heads=heads)
    made = snapshot.tree_for(before.sitting)["corrections"]
    assert {c["offset_stops"] for c in made if (c["head"], c["modifier"]) == PAIR} == {-10.0}
    tobiah = making.visitor(house, "photographer")
    assert "No lamp is so far off: plans hold it at 10 stops." in tobiah.open("/corrections/").words
    Plan.objects.filter(pk=before.pk).update(request=before.request | {"corrections": made})
    page = tobiah.open("/sittings/L-0001/plans/1/").words
    assert "A: reckoned -10.0 stop from its rated output" in page
    assert "Held at 10 stops, the most a plan takes" in page
    assert "a new version would use that" not in page  # it would be held there again


def test_a_correction_within_what_a_lamp_may_be_off_is_held_nowhere(house: House) -> None:
    read_before(house, -6, -6, -6, -6)
    tobiah = making.visitor(house, "photographer")
    assert "plans hold it" not in tobiah.open("/corrections/").words
    (used,) = [u for u in corrections.used_in(plan()) if u.letter == "A"]
    assert float(used.moved) < -5
    assert not used.is_held


def test_a_retired_correction_is_out_of_use_until_read_again_or_taken_back(house: House) -> None:
    read_before(house, -0.6, -0.6)
    tobiah = making.visitor(house, "photographer")
    tobiah.open("/corrections/")
    page = tobiah.press("Retire", {"what": "h400-1|octa150-1", "why": "a new lamp"})
    assert "by Tobiah Renn: a new lamp" in page.words
    assert offsets() == []
    read(house, "5.6 +0.3")
    assert offsets() == [-0.1]
    tobiah.open("/corrections/")
    page = tobiah.press("Take back")
    assert "by Tobiah Renn." in page.words
    assert len(offsets()) == 3


def test_retiring_and_taking_back_stand_in_the_audit(house: House) -> None:
    read(house)
    kept = actions.retire(by=house.members["photographer"], head=PAIR[0], modifier=PAIR[1], why="a new cloth")
    actions.take_back(by=house.members["owner"], retired=kept)
    day = f"{kept.at:%Y-%m-%d}"
    page = making.visitor(house, "owner").open(f"/audit/?what=rules&first={day}&last={day}")
    said = " ".join(page.words.split())
    assert "Tobiah RennCorrection of h400-1, octa150-1in useretireda new cloth" in said
    assert "Harriet VossCorrection of h400-1, octa150-1retiredin use" in said


def test_a_whole_head_is_retired_with_all_that_was_on_it(house: House) -> None:
    read_before(house, -0.6)
    actions.retire(by=house.members["owner"], head=PAIR[0], why="a new tube")
    assert offsets() == []


@pytest.mark.parametrize(
    "sent", [{"what": "h400-1|octa150-1", "why": " "}, {"what": "none|none", "why": "x"}, {"why": "x" * 300}, {}]
)
def test_retiring_without_a_reason_or_what_was_never_read_is_refused(house: House, sent: dict[str, str]) -> None:
    read_before(house, -0.6)
    answer = making.visitor(house, "owner").client.post("/corrections/retire/", sent)
    assert answer.status_code == 422
    assert 'class="invalid-feedback"' in answer.content.decode()
    assert not Retired.objects.exists()


def test_the_page_shows_what_was_set_aside_the_months_and_costs_few_queries(
    house: House, django_assert_max_num_queries: Any
) -> None:
    read_before(house, 0.2, 0.3, 0.2, -1.5, 0.2)
    owner = making.visitor(house, "owner")
    with django_assert_max_num_queries(16):
        answer = owner.client.get("/corrections/")
    page = answer.content.decode()
    for said in ("400 Ws head (h400-1)", "-1.5", "<polyline", "stroke-dasharray"):
        assert said in page, said
