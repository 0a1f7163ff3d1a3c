"""Friday: a head breaks on the set, and the plan is made anew without it. Belongs here: who says so, who sees it, and
what the new sheet tells the assistant to build."""

from __future__ import annotations

from tests.hands.hand import Hand
from tests.trips.week import enquiries
from tests.trips.week.house import Week, sitting

SITTER = "Juno Tarrant"


def walk(week: Week) -> None:
    week.at(4, 8, 30)
    enquiries.ring_on(week, 4)
    broken = key_head()
    week.at(4, 9, 40)
    breaks(week.ines, broken)
    plan_anew(week.tobiah, broken)
    build_by_the_new_sheet(week.ines, broken)
    week.at(4, 9, 55)
    with_her_mother(week.maud)


def key_head() -> str:
    """Which head the assistant holds in her hands: the key of the plan that stands."""
    lights = sitting(SITTER).plans.latest("number").setups[0]["lights"]
    found: str = next(light["head"] for light in lights if light["role"] == "key")
    return found


def breaks(ines: Hand, code: str) -> None:
    """She types what stands on its label, or lets the telephone read it."""
    ines.follow("Packing")
    ines.type("Code on a label", code)
    ines.press("Open")
    ines.type("Why (may stay empty)", "fires once, then no more")
    ines.press("In repair")
    ines.says("In repair", "fires once, then no more")


def plan_anew(tobiah: Hand, code: str) -> None:
    tobiah.follow("Set-ups")
    tobiah.says(f"{code} is in repair")
    tobiah.press("Plan anew without it", beside=code)
    tobiah.says("plan 2")


def build_by_the_new_sheet(ines: Hand, code: str) -> None:
    ines.follow("Packing")
    ines.follow("Plan 2", beside=SITTER)
    sheet = ines.paper("Sheet: ")
    assert "Juno" in sheet
    assert code not in sheet


def with_her_mother(maud: Hand) -> None:
    """She is sixteen: nobody is ready before her guardian has signed."""
    maud.follow("Arrivals")
    maud.says("missing: guardian's signature: Juno (16)")
    maud.follow("Release and consents: Tarrant")
    maud.type("Signed by", "Clemence Tarrant")
    maud.type("Relation to them", "mother")
    maud.type("Guardian's telephone", "01632 960177")
    maud.press("Save the release")
    maud.says("release signed by the guardian: Juno (16)")
    maud.press("Arrived: Tarrant")
    maud.says("Here, or gone again 10:00 Tarrant")
