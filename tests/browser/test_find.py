"""Find in a real browser: by keys alone, on a wide screen and on a telephone."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from bookings.models import Client
from tests.bookings.making import House, make_house
from tests.browser.conftest import Desk
from tests.browser.test_the_line import NARROW, fits

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def house() -> House:
    house = make_house()
    house.book()
    Client.objects.create(name="Wren Askewith")
    return house


def test_a_slash_some_letters_an_arrow_and_enter_open_what_is_meant(house: House, desk: Desk) -> None:
    page = desk.sign_in("maud", width=1440)
    page.keyboard.press("/")
    page.keyboard.type("aske")
    below = page.locator(".found-below")
    expect(below).to_contain_text("L-0001 Ottoline and Bertram Askew")
    expect(page.locator(".finder [aria-live=polite]")).to_contain_text("3 found")
    page.keyboard.press("Escape")
    expect(below).to_be_hidden()
    page.keyboard.type("w be")  # the Askewith is not called Be
    expect(page.locator(".found li")).to_have_count(2)
    for key in ("ArrowDown", "ArrowDown", "Tab", "ArrowUp", "ArrowDown"):  # from beside a line to the one above, back
        page.keyboard.press(key)
    page.keyboard.press("Enter")
    page.wait_for_url("**/sittings/L-0001/")
    assert desk.wrong == []


def test_beside_a_sitting_the_tab_key_reaches_other_times_for_it(house: House, desk: Desk) -> None:
    page = desk.sign_in("maud", width=1440)
    page.keyboard.press("/")
    page.keyboard.type("l1")
    times = page.locator(".found .times")
    expect(times).to_have_accessible_name("Other free times for L-0001 Ottoline and Bertram Askew")
    for key in ("ArrowDown", "Tab", "Enter"):
        page.keyboard.press(key)
    page.wait_for_url("**/diary/gaps/?move=L-0001")
    assert desk.wrong == []


def test_find_fits_a_telephone_and_leaves_a_slash_in_other_fields_alone(house: House, desk: Desk) -> None:
    page = desk.sign_in("maud", width=NARROW)
    page.fill("#find", "askew")
    expect(page.locator(".found-below")).to_be_visible()
    fits(page)
    page.press("#find", "Enter")
    page.wait_for_url("**/find/")
    expect(page.locator("main")).to_contain_text("Wren Askewith")
    fits(page)
    page.goto(f"{desk.address}/clients/new/")
    page.focus("#id_name")
    page.keyboard.type("A/B")
    expect(page.locator("#id_name")).to_have_value("A/B")
    assert desk.wrong == []
