"""What the week must have come to, asked of the rows: by the suite after it was walked without a browser, and by
`tests.browser.week` after it was walked in one. Belongs here: each outcome by itself, and what must hold of any
evening. Not here: the steps, and what a page says to each (the days)."""

from __future__ import annotations

import traceback
from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal
from itertools import pairwise

import pytest
from django.db import connection
from django.db.models import F

from bookings import accounts
from bookings.models import Claim, Complaint, Letter, Payment, Place, Sitting, Stage, StageChange, WantedTime
from shotplans.models import Plan, Reading, Record
from studio.models import Entry, KitChange, KitItem
from tests.trips.week import enquiries, house, monday
from tests.trips.week.house import Week, sitting

Outcome = Callable[[Week], None]
OUTCOMES: list[Outcome] = []
HERE = ("Quillbridge Weavers", "Orla Fenn", "Tansy and Roake Merrin", "Juno Tarrant")
PHOTOGRAPHED = ("Hob Tansley", "Ottoline and Bertram Askew")
BALANCES = (Decimal(135), Decimal(120))  # the Askews' on Thursday, his on Saturday


def outcome(asked: Outcome) -> Outcome:
    OUTCOMES.append(asked)
    return asked


def ask_all(week: Week) -> list[str]:
    """The outcomes that were not come to, each by its name and what it met instead."""
    missed = []
    for asked in OUTCOMES:
        try:
            asked(week)
        except Exception as error:  # a row that is not there misses its outcome like one that is wrong
            at = traceback.extract_tb(error.__traceback__)[1]  # the line that asked
            missed.append(f"{asked.__name__}, line {at.lineno}: {at.line} ({error!r})")
    return missed


def in_the_evening() -> None:
    """What must hold at the end of any day: nothing is half saved, held twice, or refused behind somebody's back."""
    connection.check_constraints()  # no row names one that is not there
    for row in Sitting.objects.all():
        assert row.sitters.exists(), row
        assert row.stage_changes.latest("pk").stage_to == row.stage, row
    told = {change.piece_id: change.after for change in KitChange.objects.order_by("pk")}
    assert told == dict(KitItem.objects.filter(pk__in=told).values_list("pk", "state"))
    currents = Counter(Plan.objects.current().values_list("sitting", flat=True))
    assert set(currents.values()) <= {1}
    receipts = Payment.objects.order_by("receipt").values_list("receipt", flat=True)
    assert list(receipts) == list(range(1, len(receipts) + 1))
    refused = Entry.objects.exclude(outcome=Entry.Outcome.KEPT).values_list("says", flat=True)
    assert [says for says in refused if "24 things are not out yet" not in says] == []  # that she was told on Tuesday
    by_thing: dict[tuple[object, ...], list[Claim]] = {}
    for claim in Claim.objects.order_by("starts_at"):
        by_thing.setdefault((claim.resource_kind, claim.resource_id), []).append(claim)
    for claims in by_thing.values():
        assert all(one.ends_at <= later.starts_at for one, later in pairwise(claims))


def of_the_week() -> list[Sitting]:
    rows = Sitting.objects.between(house.moment(0, 0), house.moment(6, 0)).taking_place()
    return list(rows.select_related("kind", "room").order_by("starts_at"))


@outcome
def of_thirty_who_rang_eighteen_sit_in_the_week_in_five_kinds_and_two_rooms_and_a_mill(week: Week) -> None:
    rang = [*enquiries.BOOKED, *enquiries.TAKEN, *(one for day in enquiries.LATER.values() for one in day)]
    assert len(rang) + WantedTime.objects.count() == 30
    assert all(Sitting.objects.filter(client__name=one.client).exists() for one in rang)
    rows = of_the_week()
    assert len(rows) == 18
    assert len({row.kind.name for row in rows}) == 5
    assert {row.room.name for row in rows} == {enquiries.LONG, enquiries.GARDEN, enquiries.MILL}


@outcome
def what_was_given_up_is_free(week: Week) -> None:
    for client in ("Osbert Quill", "Blythe and Orrin Cade"):
        assert not Claim.objects.filter(sitting__client__name=client).exists()
    assert sitting("Orla Fenn").starts_at == sitting("Osbert Quill").starts_at


@outcome
def money_adds_up_and_who_cancelled_pays_what_was_agreed(week: Week) -> None:
    cancelled = accounts.of(sitting("Osbert Quill"))
    assert (cancelled.due, cancelled.balance) == (Decimal(40), 0)
    assert accounts.of(sitting("Hob Tansley")).balance == 0
    assert accounts.of(sitting("Blythe and Orrin Cade")).paid == 0


@outcome
def each_sitting_stands_where_the_story_left_it(week: Week) -> None:
    stages = {row.client.name: row.stage for row in of_the_week()}
    assert {who for who, stage in stages.items() if stage == Stage.ARRIVED} == set(HERE)
    assert {who for who, stage in stages.items() if stage == Stage.PHOTOGRAPHED} == set(PHOTOGRAPHED)
    assert set(stages.values()) == {Stage.ARRIVED, Stage.PHOTOGRAPHED, Stage.CONFIRMED}
    later = {one.client for day in enquiries.LATER.values() for one in day if not one.known}
    assert set(Sitting.objects.filter(stage=Stage.HELD).values_list("client__name", flat=True)) == later
    assert (sitting("Osbert Quill").stage, sitting("Blythe and Orrin Cade").stage) == (Stage.CANCELLED, Stage.ENQUIRY)


def deposits() -> list[Decimal]:
    """Of all who said that they would come this week, and of who took a time that came free."""
    paid = [one for one in enquiries.BOOKED if one.client not in monday.ON_TRUST]
    paid += [*enquiries.TAKEN, *(one for day in enquiries.LATER.values() for one in day if one.known)]
    return [Decimal(enquiries.DEPOSITS[kind]) for kind in (*(one.kind for one in paid), enquiries.CHARACTER)]


@outcome
def each_deposit_and_balance_of_the_week_was_entered_once(week: Week) -> None:
    entered = Payment.objects.filter(at__gte=house.moment(0, 0))
    for kind, amounts in (("deposit", deposits()), ("balance", BALANCES)):
        assert sorted(entered.filter(kind=kind).values_list("amount", flat=True)) == sorted(amounts)
    assert entered.count() == len(deposits()) + len(BALANCES)


@outcome
def kit_is_where_the_assistant_said_and_the_owner_can_read_it(week: Week) -> None:
    assert KitItem.objects.get(code="shaft-s-1").state == "lost"
    broken = KitItem.objects.get(state="repair")
    assert broken.section == "heads"


@outcome
def a_plan_made_anew_leaves_out_what_broke_and_one_repeated_says_of_when(week: Week) -> None:
    broken = KitItem.objects.get(state="repair").code
    before, after = Plan.objects.filter(sitting__client__name="Juno Tarrant").order_by("number")
    heads = [{light["head"] for light in plan.setups[0]["lights"]} for plan in (before, after)]
    assert broken in heads[0]
    assert broken not in heads[1]
    again = Plan.objects.get(sitting=sitting("Barnaby Stroud"))
    assert "as on" in again.why
    assert again.setups[0]["lights"][0]["distance_m"] == pytest.approx(1.3, abs=0.1)
    assert Plan.objects.filter(sitting=sitting("Gideon Marl")).count() == 1


@outcome
def what_the_meter_said_is_kept_with_who_and_when_through_the_cut(week: Week) -> None:
    signed = Record.objects.get(plan__sitting=sitting("Hob Tansley"))
    assert (signed.closed_by.name, signed.readings.count()) == ("Ines Calloway", 3)
    assert Record.objects.get(plan__sitting=sitting("Ottoline and Bertram Askew")).readings.count() == 2
    typed = Reading.objects.order_by("pk").values_list("as_typed", flat=True)
    assert list(typed) == ["8 +0.2", "5.6", "8 +0.2", "5.6 +0.5", "4 +0.3"]


@outcome
def what_was_typed_through_the_cut_came_in_afterwards_with_its_own_time(week: Week) -> None:
    """Only a browser has a device that keeps it; without one it comes in at once."""
    late = Entry.objects.filter(received_at__gt=F("made_at") + timedelta(hours=1))
    assert late.count() == (2 if week.whole else 0)
    for reading in Record.objects.get(plan__sitting=sitting(PHOTOGRAPHED[1])).readings.all():
        assert reading.at < house.moment(3, 10), reading.at


@outcome
def each_of_the_headshot_day_has_a_place_and_a_state(week: Week) -> None:
    states = Counter(Place.objects.filter(rota__sitting=sitting("Quillbridge Weavers")).values_list("state", flat=True))
    assert sum(states.values()) == 21
    # The first four, or all, without the one who came later; her; and the one not on the list.
    assert states["done"] == (21 if week.whole else 5)
    assert states["absent"] == 0


@outcome
def the_complaint_is_closed_with_its_remedy_by_the_owner(week: Week) -> None:
    complaint = Complaint.objects.get()
    assert complaint.closed_at is not None
    assert "without the shine" in complaint.remedy
    assert complaint.changes.latest("pk").by.name == "Harriet Voss"


@outcome
def letters_wait_once_each(week: Week) -> None:
    kinds = Counter(Letter.objects.filter(client=sitting("Orla Fenn").client).values_list("kind", flat=True))
    assert (kinds["offer"], Letter.objects.filter(state="sent", client=sitting("Orla Fenn").client).count()) == (1, 0)
    confirmed = Counter(
        Letter.objects.filter(kind="confirmation", written_at__gte=house.moment(0, 0)).values_list("state", flat=True)
    )
    # One for each deposit: his who took it along, his who cancelled, and the others wait.
    assert confirmed == {"sent": 1, "withdrawn": 1, "waiting": len(deposits()) - 2}
    for row in of_the_week():
        written = Counter(row.letters.values_list("kind", flat=True))
        assert written["confirmation"] == (row.stage != Stage.HELD), (row, written)
        assert max(written.values(), default=1) == 1, (row, written)


@outcome
def the_history_says_who_moved_each_sitting_on_and_what_the_clock_did(week: Week) -> None:
    told = [(one.by and one.by.name, one.stage_to) for one in StageChange.objects.order_by("pk")]
    assert (None, "enquiry") in told  # the hold that lapsed
    assert {name for name, stage in told if stage == "cancelled"} == {"Maud Ferriby"}
