"""Saturday: a portrait away from the studio, a complaint of last month, and the week's money counted. Belongs here:
what is packed and printed for another place, who settles what was promised, and what the till and the history say."""

from __future__ import annotations

from tests.hands.hand import Hand
from tests.trips.week import enquiries
from tests.trips.week.house import Week

MILLER, COUPLE = "Gideon Marl", "Linnet and Hobart Varley"
SAID = "in the frame we chose one lens of the glasses is white"


def walk(week: Week) -> None:
    week.at(4, 17)
    plan_for_the_mill(week.tobiah)
    week.at(5, 8, 30)
    enquiries.ring_on(week, 5)
    complain(week.maud)
    is_told(week.tobiah)
    settle(week.harriet)
    week.at(5, 13)
    pack_for_the_mill(week.ines)
    week.at(5, 18)
    say_what_became_of_them(week.maud)
    count_the_till(week.maud)
    who_changed_what(week.harriet)


def plan_for_the_mill(tobiah: Hand) -> None:
    tobiah.follow("Set-ups")
    tobiah.follow("Day after")
    tobiah.follow(MILLER)
    tobiah.press("Confirm the brief")
    tobiah.press("Make the plan")
    tobiah.says("plan 1")


def pack_for_the_mill(ines: Hand) -> None:
    """Packed apart, with what another house may not have; and where the sockets are, on paper."""
    ines.follow("Packing")
    ines.says("away from the studio", "cable mats", "The Brocklebanks")
    ines.says_not("Blythe and Orrin Cade")  # their hold lapsed on Wednesday
    ines.follow("Power and place", beside=MILLER)
    place = ines.paper("Power and place")
    assert "Weir Lane 2" in place


def complain(maud: Hand) -> None:
    maud.find(COUPLE)
    maud.follow(COUPLE)
    maud.follow("Take a complaint")
    maud.type("What was said", SAID)
    maud.pick("Sitting", "L-")
    maud.pick("Cause", "glare")
    maud.pick("Who answers for it", "Tobiah Renn")
    maud.press("Open the complaint")
    maud.says("The complaint is open.", SAID)


def is_told(tobiah: Hand) -> None:
    """Who answers for it finds it on his own first page."""
    tobiah.follow("Set-ups")
    tobiah.says("Complaints for you to settle")
    tobiah.follow(COUPLE)
    tobiah.says(SAID)


def settle(harriet: Hand) -> None:
    harriet.follow("Studio")
    harriet.says(SAID)
    harriet.follow(COUPLE)
    harriet.type("Remedy", "the same frame again without the shine, no charge")
    harriet.press("Close with this remedy")
    harriet.says("The complaint is closed.")


def say_what_became_of_them(maud: Hand) -> None:
    """In a week like this nobody had a hand free to say it: the list of what waits names each, and its money."""
    maud.follow("Waiting")
    maud.says("Tansley ✕ Due on Tuesday 1 December 2026: Arrived. Its time is over.",
              "Lowe ✕ Overdue: Held, but the hold lapsed", "Stroud")  # fmt: skip
    maud.follow("L-", beside="Tansley")
    maud.press("Now photographed")
    maud.follow("Money")
    maud.says("Hob Tansley, 1 December 2026: GBP 120.00")
    enquiries.open_sitting(maud, "Hob Tansley")
    maud.pick("For", "balance")
    maud.type("Amount", "120")
    maud.press("Enter money")
    maud.says("Nothing is left to pay.")


def count_the_till(maud: Hand) -> None:
    maud.follow("Money")
    maud.says("cash 1 GBP 120.00 GBP 0.00 GBP 120.00")
    maud.type("Cash counted", "120")
    maud.press("Save the count")
    maud.says("Counted: it is what the entries say.")


def who_changed_what(harriet: Hand) -> None:
    harriet.follow("Studio")
    harriet.follow("Who changed what, and when")
    harriet.says("Maud Ferriby", "shaft-s-1 (shaft-s-1) ready lost not in its case", "the clock")
