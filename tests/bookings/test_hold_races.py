"""Many at once around one hold: it goes to one, queues stay in order, receipts run on, and nobody meets a deadlock."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from bookings.actions import holds, money, sittings
from bookings.models import Claim, Client, Hold, Payment, Sitting
from studio import clock
from tests.bookings.making import House, at
from tests.bookings.test_races import THREADS, race, shared_house  # noqa: F401  (a fixture)


def second(house: House, first: Sitting, number: int) -> Sitting:
    return house.book(client=Client(name=f"Client {number}"), behind=first)


def test_of_32_who_meet_a_lapsed_hold_none_gets_past_who_waited(shared_house: House) -> None:  # noqa: F811
    first = shared_house.book()
    waiting = second(shared_house, first, 0)
    Hold.objects.filter(sitting=first).update(expires_at=clock.now() - timedelta(minutes=1))
    assert race(lambda thread: shared_house.book()) == {"Taken": THREADS}
    assert set(Claim.objects.values_list("sitting", flat=True)) == {waiting.pk}
    assert Sitting.objects.get(pk=first.pk).stage == "enquiry"
    assert Sitting.objects.count() == 2


def test_who_queues_while_the_first_is_given_up_is_held_or_stands_in_the_queue(
    shared_house: House,  # noqa: F811
) -> None:
    house, first = shared_house, shared_house.book()
    others = [house.book(starts_at=at(9, 30, days=number)) for number in range(1, THREADS // 8 + 1)]

    def act(thread: int) -> None:
        if thread == 7:
            sittings.change_stage(by=house.desk, sitting=first, to="cancelled", note="moved away")
        elif thread % 8 == 1:
            sittings.change_stage(by=house.desk, sitting=others[thread // 8], to="cancelled", note="n")
        elif thread % 8 == 3:
            holds.release_lapsed(clock.now())
        else:
            second(house, first, thread)

    ends = race(act)
    assert set(ends) <= {"done", "Taken"}, ends
    leading = Claim.objects.order_by().values_list("sitting", flat=True).distinct().get()
    places = list(Hold.objects.order_by("place").values_list("place", "behind"))
    assert places == [(1, None), *((number, leading) for number in range(2, len(places) + 1))]


def test_of_many_payments_each_has_a_receipt_and_one_confirms(shared_house: House) -> None:  # noqa: F811
    sitting = shared_house.book()

    def pay(thread: int) -> None:
        money.take(by=shared_house.desk, sitting=sitting, kind="deposit", amount=Decimal(5), method="cash")

    assert race(pay) == {"done": THREADS}
    assert list(Payment.objects.values_list("receipt", flat=True)) == list(range(1, THREADS + 1))
