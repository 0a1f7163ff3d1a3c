"""Wednesday: a hold that lapses, last year's light again, people who are late, and a ring that is nowhere. Belongs
here: what the house does of itself, and what each is told of it."""

from __future__ import annotations

from django.core.management import call_command

from tests.hands.hand import Hand
from tests.trips.week import enquiries
from tests.trips.week.house import Week

RING = "shaft-s-1"


def walk(week: Week) -> None:
    week.at(2, 8, 45)
    call_command("send_due_letters", verbosity=0)  # the house's own machine, every few minutes
    moves_up(week.maud)
    as_last_year(week.tobiah)
    enquiries.ring_on(week, 2)
    week.at(2, 9, 40)
    enquiries.arrives(week.maud, "Fenn")
    week.at(2, 13, 25)
    are_late(week.maud)
    week.at(2, 18, 30)
    a_ring_is_missing(week.ines)


def moves_up(maud: Hand) -> None:
    """Who was to pay by this morning did not; who waited behind is asked, and pays."""
    second = enquiries.TAKEN[1]
    maud.follow("Waiting")
    maud.follow("L-", beside="Brocklebanks")
    maud.says("Held, moved up from behind. Studio's move: offer it to the client")
    maud.press("The client was told")
    enquiries.pay_deposit(maud, second.kind)


def as_last_year(tobiah: Hand) -> None:
    enquiries.open_sitting(tobiah, "Barnaby Stroud")
    tobiah.follow("Same as last time")
    tobiah.says("A, key: dish55, 1.30 m away")
    tobiah.press("Make the plan so")
    tobiah.says("plan 1", "Otherwise than last time, as shot")
    tobiah.says_not("last time , now")  # a light that was not there is said to be new


def are_late(maud: Hand) -> None:
    maud.follow("Arrivals")
    maud.says("25 minutes late.")
    maud.follow("What can be done", beside="Merrin")
    maud.says("Begun now, 50 minutes are left: it ends when it was to end.")
    maud.press("Now arrived")
    maud.says("Studio's move: photograph until 14:15.", "25 minutes late")  # the second in the history, for good


def a_ring_is_missing(ines: Hand) -> None:
    ines.follow("Kit")
    ines.type("Code on a label", RING)
    ines.press("Open")
    ines.type("Why (may stay empty)", "not in its case")
    ines.press("Lost")
    ines.says("Lost", "not in its case")
