"""Tuesday: a headshot day of twenty, and a portrait made with a plan of its own. Belongs here: the list, the board, and
one sitting from its brief to its signed record."""

from __future__ import annotations

from tests.hands.hand import Hand
from tests.trips.week import enquiries
from tests.trips.week.house import Week

COMPANY, PORTRAIT = "Quillbridge Weavers", "Hob Tansley"
NAMES = ("Annis", "Bram", "Cass", "Dorrit", "Edwy", "Fern", "Garnet", "Hale", "Isolde", "Jory",
         "Keziah", "Linus", "Maeve", "Nye", "Olwen", "Peregrine", "Quenna", "Rook", "Sorcha", "Tegan")  # fmt: skip
AWAY, STRANGER = "Dorrit", "Ulf"


def walk(week: Week) -> None:
    week.at(0, 16, 30)
    give_places(week.maud)
    plan_the_portrait(week.tobiah)
    week.at(1, 8, 30)
    enquiries.ring_on(week, 1)
    pack(week.ines)
    week.at(1, 9, 20)
    enquiries.arrives(week.maud, COMPANY)
    on_the_board(week)
    meter_and_record(week)


def give_places(maud: Hand) -> None:
    enquiries.open_sitting(maud, COMPANY)
    maud.follow("Give them places")
    maud.type("Names, one a line", "\n".join(NAMES))
    maud.press("Show the places")
    maud.says("20 places, not saved yet")
    maud.press("Save these places")
    maud.says("20 places are saved.", "13:10 20 Tegan")


def plan_the_portrait(tobiah: Hand) -> None:
    """From his first page: tomorrow, the sitting that wants its brief confirmed."""
    tobiah.follow("Set-ups")
    tobiah.follow("Day after")
    tobiah.follow(PORTRAIT)
    tobiah.type("Must have, one a line", "With his bees' smoker.")
    tobiah.press("Confirm the brief")
    tobiah.press("Make the plan")
    tobiah.says("plan 1", "No limit is broken")


def pack(ines: Hand) -> None:
    """On her first page: taps as the things go into the cases; the house says what is not out yet."""
    for thing in ("h400-1", "dish55", "dark300"):
        ines.press("Out", beside=thing)
    ines.press("All packed")
    ines.says("Not packed: 24 things are not out yet")


def on_the_board(week: Week) -> None:
    """One tap as somebody comes on set and one when they are done; one is away, one had not been on the list."""
    ines = week.ines
    ines.follow("Packing")
    ines.follow("Board", beside=COMPANY)
    ines.press(f"Absent: {AWAY}")
    minutes, walked = 0, NAMES if week.whole else NAMES[:4]
    for name in walked:
        if name != AWAY:
            ines.press(f"On set: {name}")
            minutes += 9
            week.at(1, 9 + (30 + minutes) // 60, (30 + minutes) % 60)
            ines.press(f"Done: {name}")
    ines.type("Walk-in", STRANGER)
    ines.press("Add")
    if not week.whole:  # the others still wait
        ines.press(f"Take next: {STRANGER}")
    ines.press(f"On set: {STRANGER}")
    ines.press(f"Done: {STRANGER}")
    ines.press(f"Here after all: {AWAY}")
    ines.press(f"On set: {AWAY}")
    ines.press(f"Done: {AWAY}")
    ines.says(f"Done: {len(walked) + 1}")


def meter_and_record(week: Week) -> None:
    """What the meter said beside what the plan expected; built as planned, and signed."""
    week.at(1, 14, 50)
    enquiries.arrives(week.maud, "Tansley")
    hand_a_letter_over(week.maud)
    ines = week.ines
    ines.follow("Packing")
    ines.follow("Meter and record", beside=PORTRAIT)
    for number, reading in (("1", "8 +0.2"), ("2", "5.6"), ("3", "8 +0.2")):
        ines.type(f"Reading {number}", reading)
        ines.press("Save", beside=f"Reading {number}")
    ines.press("Built as planned")
    ines.says("first", "Saved as shot")
    ines.press("Sign the record")
    ines.says("Signed by Ines Calloway", "done f/8 +0.2 (+0.2 stop, over: within tolerance)")


def hand_a_letter_over(maud: Hand) -> None:
    """He has no e-mail: what confirms his sitting is printed, and he takes it along."""
    enquiries.open_sitting(maud, PORTRAIT)
    maud.follow("Your sitting on Tuesday 1 December 2026")
    maud.says("Balance due: Tuesday 1 December 2026")  # not a week before, for he rang on Monday
    printed = maud.paper("Print it (PDF)")
    assert PORTRAIT in printed
    assert "Tuesday 1 December 2026" in printed
    maud.press("It was handed over")
    maud.says("handed over")
