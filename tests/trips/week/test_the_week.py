"""The week, walked without a browser, and what it came to. Belongs here: the outcomes, each by itself. Not here: the
steps, and what a page says to each (the days)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise
from typing import Any

import pytest

from bookings import accounts
from bookings.models import Claim, Complaint, Letter, Payment, Place, Sitting, Stage, StageChange, WantedTime
from shotplans.models import Plan, Record
from studio import clock
from studio.models import KitItem, Member
from tests import built_once, cast, lindenmere
from tests.hands.quick import QuickHand
from tests.trips.week import enquiries, house, story
from tests.trips.week.house import sitting

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module", autouse=True)
def walked(django_db_setup: None, django_db_blocker: Any) -> Iterator[None]:
    """Monday to Saturday, once for all that is asked of it."""
    with (
        django_db_blocker.unblock(), built_once.house("week", house.build), pytest.MonkeyPatch.context() as patch,
        lindenmere.reckoned_once(),
    ):  # fmt: skip
        week = house.Week(sign_in, lambda moment: patch.setattr(clock, "now", lambda: clock.stands() or moment))
        story.walk(week)
        yield


def sign_in(name: str) -> QuickHand:
    return QuickHand(cast.client_of(Member.objects.get(user__username=name)))


def of_the_week() -> list[Sitting]:
    rows = Sitting.objects.between(house.moment(0, 0), house.moment(6, 0)).taking_place()
    return list(rows.select_related("kind", "room").order_by("starts_at"))


def test_of_thirty_who_rang_eighteen_sit_in_the_week_in_five_kinds_and_two_rooms_and_a_mill() -> None:
    rang = [*enquiries.BOOKED, *enquiries.TAKEN, *(one for day in enquiries.LATER.values() for one in day)]
    assert len(rang) + WantedTime.objects.count() == 30
    assert all(Sitting.objects.filter(client__name=one.client).exists() for one in rang)
    rows = of_the_week()
    assert len(rows) == 18
    assert len({row.kind.name for row in rows}) == 5
    assert {row.room.name for row in rows} == {enquiries.LONG, enquiries.GARDEN, enquiries.MILL}


def test_nothing_is_held_twice_and_what_was_given_up_is_free() -> None:
    by_thing: dict[tuple[object, ...], list[Claim]] = {}
    for claim in Claim.objects.order_by("starts_at"):
        by_thing.setdefault((claim.resource_kind, claim.resource_id), []).append(claim)
    for claims in by_thing.values():
        assert all(one.ends_at <= later.starts_at for one, later in pairwise(claims))
    for client in ("Osbert Quill", "Blythe and Orrin Cade"):
        assert not Claim.objects.filter(sitting__client__name=client).exists()
    assert sitting("Orla Fenn").starts_at == sitting("Osbert Quill").starts_at


def test_money_adds_up_and_who_cancelled_pays_what_was_agreed() -> None:
    cancelled = accounts.of(sitting("Osbert Quill"))
    assert (cancelled.due, cancelled.balance) == (Decimal(40), 0)
    assert accounts.of(sitting("Hob Tansley")).balance == 0
    assert accounts.of(sitting("Blythe and Orrin Cade")).paid == 0
    receipts = Payment.objects.order_by("receipt").values_list("receipt", flat=True)
    assert list(receipts) == list(range(1, len(receipts) + 1))


def test_kit_is_where_the_assistant_said_and_the_owner_can_read_it() -> None:
    assert KitItem.objects.get(code="shaft-s-1").state == "lost"
    broken = KitItem.objects.get(state="repair")
    assert broken.section == "heads"


def test_a_plan_made_anew_leaves_out_what_broke_and_one_repeated_says_of_when() -> None:
    broken = KitItem.objects.get(state="repair").code
    before, after = Plan.objects.filter(sitting__client__name="Juno Tarrant").order_by("number")
    heads = [{light["head"] for light in plan.setups[0]["lights"]} for plan in (before, after)]
    assert broken in heads[0]
    assert broken not in heads[1]
    again = Plan.objects.get(sitting=sitting("Barnaby Stroud"))
    assert "as on" in again.why
    assert again.setups[0]["lights"][0]["distance_m"] == pytest.approx(1.3, abs=0.1)
    assert Plan.objects.filter(sitting=sitting("Gideon Marl")).count() == 1


def test_what_the_meter_said_is_kept_with_who_and_when_through_the_cut() -> None:
    signed = Record.objects.get(plan__sitting=sitting("Hob Tansley"))
    assert (signed.closed_by.name, signed.readings.count()) == ("Ines Calloway", 3)
    assert Record.objects.get(plan__sitting=sitting("Ottoline and Bertram Askew")).readings.count() == 2


def test_each_of_the_headshot_day_has_a_place_and_a_state() -> None:
    states = Counter(Place.objects.filter(rota__sitting=sitting("Quillbridge Weavers")).values_list("state", flat=True))
    assert sum(states.values()) == 21
    assert states["done"] == 5  # the first four without the one who came later, her, and the one not on the list
    assert states["absent"] == 0


def test_the_complaint_is_closed_with_its_remedy_by_the_owner() -> None:
    complaint = Complaint.objects.get()
    assert complaint.closed_at is not None
    assert "without the shine" in complaint.remedy
    assert complaint.changes.latest("pk").by.name == "Harriet Voss"


def test_letters_wait_once_each() -> None:
    kinds = Counter(Letter.objects.filter(client=sitting("Orla Fenn").client).values_list("kind", flat=True))
    assert (kinds["offer"], Letter.objects.filter(state="sent", client=sitting("Orla Fenn").client).count()) == (1, 0)
    for row in of_the_week():
        written = Counter(row.letters.values_list("kind", flat=True))
        assert written["confirmation"] == (row.stage != Stage.HELD), (row, written)
        assert max(written.values(), default=1) == 1, (row, written)


def test_the_history_says_who_moved_each_sitting_on_and_what_the_clock_did() -> None:
    told = [(one.by and one.by.name, one.stage_to) for one in StageChange.objects.order_by("pk")]
    assert (None, "enquiry") in told  # the hold that lapsed
    assert {name for name, stage in told if stage == "cancelled"} == {"Maud Ferriby"}
