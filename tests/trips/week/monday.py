"""Monday: the telephone. Belongs here: what came in, what was taken, who has to wait, and who lets a time go."""

from __future__ import annotations

from tests.hands.hand import Hand
from tests.trips.week import enquiries
from tests.trips.week.house import Week, day

ON_TRUST = ("Blythe and Orrin Cade",)  # said that they would pay, and did not


def walk(week: Week) -> None:
    week.at(0, 8, 30)
    a_room_away(week.harriet)
    maud = week.maud
    for enquiry in enquiries.BOOKED:
        if enquiry.client in enquiries.ALIKE:
            enquiries.take_down(week, enquiry, paid=True)
        else:
            enquiries.book(maud, enquiry, paid=enquiry.client not in ON_TRUST)
    taken(maud)
    waits_for_a_time(maud, "Orla Fenn")
    week.at(0, 16)
    lets_a_time_go(maud)


def a_room_away(harriet: Hand) -> None:
    """Where the miller is to be photographed."""
    harriet.follow("Rooms")
    harriet.follow("New room")
    harriet.type("Name", enquiries.MILL)
    for label, size in (("Width (m)", "8"), ("Depth (m)", "6"), ("Height of the ceiling (m)", "3.4")):
        harriet.type(label, size, beside="To the lowest thing")
    harriet.tick("Away from the studio")
    harriet.type("Address", "Weir Lane 2")
    harriet.type("Name", "by the door", beside="As written at the socket")
    harriet.type("Voltage (V)", "230")
    harriet.type("Breaker (A)", "16")
    harriet.press("Save")
    harriet.says("Weir Mill")


def taken(maud: Hand) -> None:
    """Two ask for an hour that is gone: one takes the next, the other waits behind."""
    first, second = enquiries.TAKEN
    enquiries.ask(maud, first)
    maud.says("is held by")
    maud.press("Book it for Friday 4 December, 14:15 instead")
    maud.says(first.client, "Sitting 14:15 to 15:30")
    enquiries.pay_deposit(maud, first.kind)
    enquiries.ask(maud, second)
    maud.press("Place a second hold behind")
    maud.says(second.client, "behind")


def waits_for_a_time(maud: Hand, name: str) -> None:
    """She would come on Wednesday morning, if somebody else did not."""
    maud.follow("Clients")
    maud.follow("New client")
    maud.type("Name", name)
    maud.type("E-mail", "orla@fenn.example")
    maud.press("Save")
    maud.find(name)
    maud.follow(name)
    maud.follow("Enter what time they would take")
    maud.pick("Kind of sitting", enquiries.CHARACTER)
    maud.type("From", day(2))
    maud.type("To", day(2))
    maud.press("Save")
    maud.says("Waits")


def lets_a_time_go(maud: Hand) -> None:
    enquiries.open_sitting(maud, "Osbert Quill")
    maud.type("Note", "his daughter comes that day", beside="step back or cancelling")
    maud.press("Now cancelled")
    maud.says("Cancelled", "The time that came free", "Orla Fenn")
    maud.press("Offer it to")
    maud.says("Offered")
    maud.follow("Book it for")
    maud.type("All of them in one line", "Orla 59")
    maud.pick("Assistant", "Ines Calloway")
    maud.press("Book it", beside="Leave it")
    maud.says("Orla Fenn", "Sitting 09:45 to 10:45")
    enquiries.pay_deposit(maud, enquiries.CHARACTER)
