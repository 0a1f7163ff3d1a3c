"""Thursday: four sittings, one ring fewer, and no power for an hour. Belongs here: what each is told of the ring, and
what is written down while the house cannot be reached."""

from __future__ import annotations

from tests.hands.hand import Hand
from tests.trips.week import enquiries
from tests.trips.week.house import Week
from tests.trips.week.wednesday import RING

INSTEAD = "shaft-s-2"


def walk(week: Week) -> None:
    week.at(3, 8)
    without_the_ring(week)
    enquiries.ring_on(week, 3)
    week.at(3, 9, 20)
    enquiries.arrives(week.maud, "Askew")
    the_power_is_cut(week)
    pays_the_rest(week.maud)


def without_the_ring(week: Week) -> None:
    week.harriet.follow("Studio")
    week.harriet.says(RING)
    week.tobiah.follow("Set-ups")
    week.tobiah.says(f"{RING} is lost. Instead, of what is free then: {INSTEAD} for B.")
    ines = week.ines
    ines.follow("Packing")
    ines.press(f"Take {INSTEAD} instead")
    ines.says(INSTEAD)
    week.tobiah.follow("Set-ups")
    week.tobiah.says_not("3 Dec, 09:30 Askew, plan 1")
    week.tobiah.says("4 Dec, 10:00 Tarrant, plan 1")  # another day's packing


def the_power_is_cut(week: Week) -> None:
    """The meter card was printed; what stands on it is typed when the house answers again."""
    ines = week.ines
    ines.follow("Packing")
    ines.follow("Plan 1", beside="Ottoline and Bertram Askew")
    card = ines.paper("Meter card: the pair")
    assert "Ottoline" in card
    ines.follow("Meter and record")
    ines.cut_off()
    for number, reading in (("1", "5.6 +0.5"), ("2", "4 +0.3")):
        ines.type(f"Reading {number}", reading)
        ines.press("Save", beside=f"Reading {number}")
    week.at(3, 11)
    ines.back_on()
    ines.says("planned f/5.6 +0.4, done f/5.6 +0.5")


def pays_the_rest(maud: Hand) -> None:
    enquiries.open_sitting(maud, "Ottoline and Bertram Askew")
    maud.press("Now photographed")
    maud.pick("For", "balance")
    maud.type("Amount", "135")
    maud.press("Enter money")
    maud.says("Nothing is left to pay.")
