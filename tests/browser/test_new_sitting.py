"""A new sitting in a real browser: few keys, a draft that outlives its window, and somebody found as one types."""

from __future__ import annotations

import json
import re
from datetime import date, timedelta

import pytest
from playwright.sync_api import Locator, Page, expect

from bookings.models import Client, Kind, Sitting
from studio import clock
from tests import cast, lindenmere
from tests.bookings.making import House, make_house
from tests.browser.conftest import Desk, unfold_pages
from tests.browser.test_rules_and_changes import is_easy_to_touch
from tests.browser.test_the_line import NARROW, fits

SECONDS_A_KEY, SECONDS_A_CLICK = 0.5, 2.0  # slow: the other hand holds a telephone
COUPLE = "Ottoline and Bertram Askew"


class Hand:
    """One hand on a keyboard and a mouse, counted."""

    def __init__(self, page: Page) -> None:
        self.page, self.keys, self.clicks = page, 0, 0

    def click(self, place: Locator) -> None:
        place.click()
        self.clicks += 1

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)
        self.keys += len(text)

    def press(self, *keys: str) -> None:
        for key in keys:
            self.page.keyboard.press(key)
            self.keys += 1

    @property
    def seconds(self) -> float:
        return self.keys * SECONDS_A_KEY + self.clicks * SECONDS_A_CLICK

    def __str__(self) -> str:
        return f"{self.keys} keys, {self.clicks} clicks: {self.seconds:.0f} s at half a second a key and two a click"


def working_day() -> date:
    """A day without a sitting of the demo on which the house is open."""
    days = (clock.today() + timedelta(days=number) for number in range(5, 12))
    return next(day for day in days if day.weekday() < 5)


def from_the_diary(hand: Hand, address: str) -> None:
    hand.page.goto(f"{address}/diary/?day={working_day().isoformat()}")
    hand.click(hand.page.locator("a[href*='/sittings/new/?room=']").first)
    expect(hand.page.locator("[name=new_name]")).to_be_focused()


def say_the_rest(hand: Hand) -> None:
    """Kind, purpose, width and people; the return key twice books."""
    expect(hand.page.locator("[name=kind]")).to_be_focused()
    hand.type("An")
    hand.press("Tab")
    hand.press("Tab")
    hand.type("over the sideboard")
    hand.press("Tab")
    hand.type("75")
    hand.press("Tab")
    hand.type("Ottoline 66, Bertram 70")
    hand.press("Enter")
    expect(hand.page.locator("[name=people-1-label]")).to_have_value("Bertram")
    hand.press("Enter")
    hand.page.wait_for_url(lambda at: "/sittings/new" not in at)


def is_the_ruby_wedding(sitting: Sitting) -> None:
    assert (sitting.client.name, sitting.kind.name) == (COUPLE, "Anniversary couple")
    assert (sitting.hangs, sitting.print_width_cm) == ("over the sideboard", 75)
    assert [(one.label, one.age_years) for one in sitting.sitters.all()] == [("Ottoline", 66), ("Bertram", 70)]


@pytest.mark.django_db(transaction=True)
def test_feature_01_a_stranger_is_taken_down_in_under_two_minutes(desk: Desk) -> None:
    house_of_two_kinds()
    page = desk.sign_in("maud", width=1440)
    new = Hand(page)
    from_the_diary(new, desk.address)
    new.type(COUPLE)
    new.press("Tab")
    new.type("01632 960123")
    new.press("Tab", "Tab", "Tab")
    say_the_rest(new)
    is_the_ruby_wedding(Sitting.objects.get())
    known = Hand(page)
    from_the_diary(known, desk.address)
    known.type("ask")
    expect(page.get_by_role("option", name=COUPLE)).to_be_visible()
    known.press("ArrowDown", "Enter")
    say_the_rest(known)
    is_the_ruby_wedding(Sitting.objects.latest("pk"))
    assert Client.objects.count() == 1
    print(f"\nthe ruby wedding for new clients: {new}\nand for known ones: {known}")
    assert new.seconds < 120
    assert known.seconds < 60
    assert desk.wrong == []


def house_of_two_kinds() -> House:
    house = make_house()
    house.client.delete()
    Kind.objects.create(name="Family group", minutes=75, intent="natural", framing="group")
    return house


TYPED = {
    "new_name": "Wren Hollis",
    "new_phone": "01632 960444",
    "new_email": "wren@example.org",
    "purpose": "the hall, over the coats",
    "print_width_cm": "60",
    "day": "2031-05-06",
    "time": "11:15",
    "people-0-label": "Wren",
    "people-0-age_years": "31",
    "people-1-label": "Una",
    "people-1-age_years": "4",
    "people-2-label": "Nan",
    "people-2-posture": "",
    "people_line": "Bob 81 ",
}


def type_a_draft(page: Page, address: str) -> None:
    page.goto(f"{address}/sittings/new/")
    page.fill("[name=people_line]", "Wren 31, Una 4 on a lap, Nan 80 in a wheelchair")
    page.press("[name=people_line]", "Enter")
    expect(page.locator("[name=people-2-posture]")).to_have_value("wheelchair")
    page.select_option("[name=kind]", label="Family group")
    for name, value in TYPED.items():
        if "people" not in name:
            page.fill(f"[name={name}]", value)
    page.locator(".person").first.get_by_text("Notes and wishes").click()
    page.select_option("[name=people-0-notes-texture]", "deep lines")
    page.select_option("[name=people-0-wishes-0-note]", index=1)
    page.locator("[name=people_line]").press_sequentially("Bob 81 in a wheelchair")


def kept(page: Page) -> dict[str, str]:
    found: dict[str, str] = page.evaluate("() => ({...localStorage})")
    return found


@pytest.mark.django_db(transaction=True)
def test_feature_02_what_was_typed_comes_back_in_a_new_window_without_notes(desk: Desk) -> None:
    house = house_of_two_kinds()
    page = desk.sign_in("maud", width=1440)
    type_a_draft(page, desk.address)
    draft = json.dumps(kept(page))
    assert "Wren Hollis" in draft
    assert not {"deep lines", "notes", "wishes", "wheelchair"} & set(re.findall(r"[a-z]+(?: lines)?", draft))
    page.close(run_before_unload=False)

    page = page.context.new_page()
    page.goto(f"{desk.address}/sittings/new/")
    told = page.locator("#draft-told")
    expect(told).to_contain_text("Brought back what was typed here on")
    expect(told).to_contain_text("had been typed too; they are never kept in the browser")
    for name, value in TYPED.items():
        expect(page.locator(f"[name={name}]")).to_have_value(value)
    expect(page.locator("[name=people-1-posture]")).to_have_value("lap")
    expect(page.locator("[name=kind] option:checked")).to_have_text("Family group")
    expect(page.locator("[name=people-0-notes-texture]")).to_have_value("")
    fits(page)

    page.goto(f"{desk.address}/sittings/new/?room={house.other_room.pk}")  # with another place: asked, not filled in
    expect(page.locator("[name=new_name]")).to_have_value("")
    page.get_by_role("button", name="Bring it back").click()
    expect(page.locator("[name=new_name]")).to_have_value("Wren Hollis")

    page.fill("[name=time]", "09:00")
    page.locator("button:visible", has_text="Book it").last.click()
    page.wait_for_url(lambda at: "/sittings/new" not in at)
    expect(page.locator("main")).to_contain_text("is booked and held")
    assert kept(page) == {}
    page.goto(f"{desk.address}/sittings/new/")
    expect(page.locator("[name=new_name]")).to_have_value("")
    assert desk.wrong == []


@pytest.mark.django_db(transaction=True)
def test_a_draft_is_gone_at_sign_out_and_for_the_next_member(desk: Desk) -> None:
    house_of_two_kinds()
    cast.make_member("front_desk", name="Nell Orrin")
    page = desk.sign_in("maud", width=NARROW)
    page.goto(f"{desk.address}/sittings/new/")
    page.fill("[name=new_name]", "Wren Hollis")
    assert len(kept(page)) == 1
    unfold_pages(page)
    page.get_by_role("button", name="Sign out").click()
    page.wait_for_url(lambda at: "sign-in" in at)
    expect(page.locator("[name=username]")).to_be_visible()
    assert kept(page) == {}

    sign_in(page, "maud")
    page.goto(f"{desk.address}/sittings/new/")
    page.fill("[name=new_name]", "Wren Hollis")
    page.context.clear_cookies()  # her session ran out, and somebody else sits down
    page.goto(f"{desk.address}/sign-in/")
    assert len(kept(page)) == 1
    sign_in(page, "nell")
    assert kept(page) == {}
    assert desk.wrong == []


def sign_in(page: Page, name: str) -> None:
    page.fill("[name=username]", name)
    page.fill("[name=password]", cast.PASSWORD)
    page.press("[name=password]", "Enter")
    page.wait_for_url(lambda at: "sign-in" not in at)


@pytest.mark.django_db(transaction=True)
def test_a_client_is_found_by_touch_on_a_telephone_and_a_namesake_is_pointed_out(desk: Desk) -> None:
    house = make_house()
    page = desk.sign_in("maud", width=NARROW)
    page.goto(f"{desk.address}/sittings/new/")
    is_easy_to_touch(page)
    box = page.locator("[name=new_name]")
    box.press_sequentially("960 123")
    option = page.get_by_role("option", name=COUPLE)
    expect(option).to_be_visible()
    expect(box).to_have_attribute("aria-expanded", "true")
    box.press("Escape")
    expect(option).to_be_hidden()
    box.press_sequentially(" ")
    option.click()
    expect(page.get_by_role("radio", name=COUPLE)).to_be_checked()
    expect(box).to_have_value(COUPLE)
    expect(page.locator("[name=new_phone]")).to_be_hidden()
    box.fill("somebody else")
    expect(page.locator("[name=new_phone]")).to_be_visible()
    page.fill("[name=new_phone]", house.client.phone)
    page.locator("[name=new_email]").focus()
    same = page.get_by_role("radio", name=COUPLE)
    expect(same).not_to_be_checked()
    same.check()
    expect(box).to_have_value(COUPLE)
    is_easy_to_touch(page)
    assert desk.wrong == []


@pytest.mark.django_db(transaction=True)
def test_what_speaks_against_a_time_is_ticked_on_a_telephone(desk: Desk) -> None:
    lindenmere.build(clock.today())
    page = desk.sign_in("maud", width=NARROW)
    page.goto(f"{desk.address}/sittings/new/?day={working_day().isoformat()}&at=16:15")
    page.fill("[name=new_name]", "Wren Hollis")
    page.select_option("[name=kind]", label="Family group")
    page.fill("[name=people_line]", "Wren 31, Una 2")
    page.select_option("[name=room]", label="Long Room")
    page.locator("button:visible", has_text="Book it").last.click()
    expect(page.locator(".objections")).to_contain_text("A child under five sits at 16:15")
    is_easy_to_touch(page)
    page.get_by_label("Book it all the same").check()
    page.locator(".objections").get_by_role("button", name="Book it").click()
    page.wait_for_url(lambda at: "/sittings/new" not in at)
    expect(page.locator("main")).to_contain_text("Wren Hollis")
    assert desk.wrong == []
