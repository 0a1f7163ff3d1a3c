"""The rules and a change to a sitting in a real browser, as narrow as a telephone."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from shotplans.models import OwnNumber
from studio import clock
from tests import lindenmere
from tests.browser.conftest import Desk
from tests.browser.test_the_line import NARROW, fits

TOO_SMALL = """() => [...document.querySelectorAll("main a, main button, main select, main input:not([type=hidden])")]
  .filter((one) => one.checkVisibility() && !one.matches(".unseen, .visually-hidden, [type=checkbox]"))
  .filter((one) => getComputedStyle(one).display !== "inline" && one.getBoundingClientRect().height < 43.9)
  .map((one) => one.outerHTML.slice(0, 80))"""


def is_easy_to_touch(page: Page) -> None:
    """Nothing to press is lower than 44 px (WCAG 2.2, 2.5.5 Target Size); links inside a sentence are free."""
    fits(page)
    page.set_viewport_size({"width": NARROW, "height": 900})
    assert page.evaluate(TOO_SMALL) == []


def set_a_number(page: Page, address: str) -> None:
    page.goto(f"{address}/rules/")
    is_easy_to_touch(page)
    page.get_by_role("link", name="Two people in one picture", exact=False).first.click()
    is_easy_to_touch(page)
    page.fill("[name=number-heads_apart_m]", "0.4")
    page.fill("[name=why]", "the bench is short")
    page.press("[name=why]", "Enter")
    expect(page.get_by_role("status")).to_contain_text("Saved.")
    page.get_by_role("button", name="Back to the first value, 0.45 m").click()
    expect(page.locator("[name=number-heads_apart_m]")).to_have_value("0.45")
    is_easy_to_touch(page)


def add_a_person(page: Page, address: str, number: str) -> None:
    page.goto(f"{address}/sittings/{number}/")
    page.get_by_role("link", name="Change time, place or people").click()
    is_easy_to_touch(page)
    page.get_by_role("button", name="Add a person").click()
    expect(page.locator("[name=people-2-label]")).to_be_focused()
    page.fill("[name=people-2-label]", "Wren")
    page.fill("[name=note]", "the granddaughter comes too")
    page.press("[name=note]", "Enter")
    expect(page.locator("main")).to_contain_text("Wren added by Maud Ferriby")
    fits(page)


@pytest.mark.django_db(transaction=True)
def test_the_owner_sets_a_rule_and_the_desk_adds_a_person_on_a_telephone(desk: Desk) -> None:
    lindenmere.build(clock.today())
    set_a_number(desk.sign_in("harriet", width=NARROW), desk.address)
    assert OwnNumber.objects.get().value == 0.4
    add_a_person(desk.sign_in("maud", width=NARROW), desk.address, lindenmere.NUMBERS["askew"])
    assert [sitter.label for sitter in lindenmere.sitting("askew").sitters.all()] == ["Ottoline", "Bertram", "Wren"]
    assert desk.wrong == []
