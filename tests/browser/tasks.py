"""`python -m tests.browser.tasks`: the ten commonest things done at a studio, each by its own role in a real browser
from its first page, with the clicks and keys they cost. Belongs here: how each is done today, and the table."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from typing import NamedTuple

from playwright.sync_api import sync_playwright

from tests.browser.hand import BrowserHand
from tests.browser.served import served

WIDTHS = {"maud": 1440, "tobiah": 820, "ines": 390}


def book_a_known_client(maud: BrowserHand) -> None:
    maud.find("askew")
    maud.follow("Ottoline and Bertram Askew")
    maud.follow("Once more: Anniversary couple")
    maud.follow("day ")  # the first time that is free
    maud.press("Book it")
    maud.says("is booked and held.")


def move_a_sitting(maud: BrowserHand) -> None:
    maud.find("tarrant")
    maud.follow("Other free times", beside="L-0005")
    maud.follow("day ")
    maud.press("Save")
    maud.says("Changed.")


def note_glasses(maud: BrowserHand) -> None:
    maud.find("tarrant")
    maud.follow("L-0005")
    maud.follow("Add notes about Juno")
    maud.pick("Glasses", "usual lenses")
    maud.press("Save")
    maud.says("comfort notes exist")


def take_a_payment(maud: BrowserHand) -> None:
    maud.follow("Arrivals")
    maud.follow("Dorrow")
    maud.press("Enter money")  # what is left stands there already
    maud.says("Nothing is left to pay.")


def make_a_plan(tobiah: BrowserHand) -> None:
    tobiah.follow("Day after")
    tobiah.follow("14:30 Nora and Piet Hallam")
    tobiah.press("Confirm the brief")
    tobiah.press("Make the plan")
    tobiah.says("plan 1")


def print_the_sheet(ines: BrowserHand) -> None:
    ines.follow("Plan 1", beside="Ignace Dorrow")
    assert "Ignace" in ines.paper("Sheet:")


def tick_packing(ines: BrowserHand) -> None:
    ines.press("Out", beside="h400-2")
    ines.says("1 of ")


def type_a_reading(ines: BrowserHand) -> None:
    ines.follow("Meter and record", beside="Ignace Dorrow")
    ines.type("Reading 1", "8 +0.1")
    ines.press("Save", beside="Reading 1")
    ines.says("f/8 +0.1")


def write_what_was_done(ines: BrowserHand) -> None:
    ines.follow("Meter and record", beside="Ignace Dorrow")
    ines.pick("Light", "A", beside="What was done")
    ines.pick("What", "distance")
    ines.type("What was done", "1.50 m")
    ines.press("Note it")
    ines.says("1.50 m")


def repeat_last_year_s(tobiah: BrowserHand) -> None:
    tobiah.find("askew")
    tobiah.follow("L-0001")
    tobiah.follow("Same as last time")
    tobiah.press("Make the plan so")
    tobiah.says("plan 2")


class Task(NamedTuple):
    said: str
    who: str
    do: Callable[[BrowserHand], None]


TASKS = (
    Task("book a sitting for a known client", "maud", book_a_known_client),
    Task("move a sitting", "maud", move_a_sitting),
    Task("note glasses on a sitter", "maud", note_glasses),
    Task("take a payment", "maud", take_a_payment),
    Task("make a plan", "tobiah", make_a_plan),
    Task("print the sheet", "ines", print_the_sheet),
    Task("tick a thing of the packing", "ines", tick_packing),
    Task("type a reading", "ines", type_a_reading),
    Task("write what was really done", "ines", write_what_was_done),
    Task("repeat last year's", "tobiah", repeat_last_year_s),
)


def main() -> None:
    with served("demo") as house:
        walk(house.url)


def walk(url: str) -> None:
    """Each task in a window of its own at a house that is served; the table as it goes."""
    from tests.browser.conftest import FLAGS
    from tests.cast import PASSWORD

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        print(f"{'task':34} {'who':8} {'clicks':>6} {'keys':>5}")
        for task in TASKS:
            context = browser.new_context(viewport={"width": WIDTHS[task.who], "height": 900}, locale="en-GB")
            hand = BrowserHand(context, url, task.who, PASSWORD)
            task.do(hand)
            print(f"{task.said:34} {task.who:8} {hand.counted.clicks:6} {hand.counted.keys:5}", flush=True)
            context.close()
        browser.close()


if __name__ == "__main__":
    main()
