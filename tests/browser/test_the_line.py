"""One sitting through the house in a real browser: booked, planned, opened on paper, metered."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from bookings.models import Sitting
from studio import clock
from tests import lindenmere
from tests.browser.conftest import Desk

CLIENT = "Wren Hollis"


NARROW = 390


def fits(page: Page) -> None:
    """Nothing is wider than the window, a telephone's among them (WCAG 2.2, 1.4.10 Reflow)."""
    own = page.viewport_size
    assert own
    for width in (NARROW, own["width"]):
        page.set_viewport_size({"width": width, "height": own["height"]})
        wide, window = page.evaluate("[document.documentElement.scrollWidth, window.innerWidth]")
        assert wide <= window == width, f"{page.url}: {wide} px in a window of {window}"


LIE_OVER = """() => { const links = [...document.querySelectorAll("main .links > a")];
  const boxes = links.map((one) => one.getBoundingClientRect());
  return boxes.filter((a, n) => boxes.slice(n + 1).some((b) => a.left < b.right && b.left < a.right
    && a.top < b.bottom - 1 && b.top < a.bottom - 1)).length; }"""


def lie_apart(page: Page) -> None:
    """Of the links in several rows none reaches into another: a thumb opens the one it is on."""
    assert page.locator("main .links > a").count() > 3
    assert page.evaluate(LIE_OVER) == 0


def book(page: Page, address: str) -> None:
    fits(page)
    page.goto(f"{address}/sittings/new/")
    fits(page)
    page.fill("[name=new_name]", CLIENT)
    page.select_option("[name=kind]", label="Character portrait")
    page.fill("[name=day]", clock.today().isoformat())
    page.fill("[name=time]", "18:45")
    page.select_option("[name=room]", label="Garden Room")
    page.select_option("[name=photographer]", label="Tobiah Renn")
    page.select_option("[name=assistant]", label="Ines Calloway")
    page.fill("[name=people-0-label]", "Wren")
    page.fill("[name=people-0-age_years]", "58")
    page.select_option("[name=people-0-posture]", label="seated")
    page.locator("button:visible", has_text="Book it").last.click()
    page.get_by_label("Book it all the same").check()  # the house closes at 19:00
    page.locator(".objections").get_by_role("button", name="Book it").click()
    page.wait_for_url(lambda at: "/sittings/new" not in at)
    expect(page.locator("body")).to_contain_text(CLIENT)
    fits(page)


def plan(page: Page, address: str) -> None:
    page.goto(f"{address}/setups/")
    fits(page)
    page.get_by_text(CLIENT).first.click()
    fits(page)
    page.fill("[name=must]", "Hands.")
    page.get_by_role("button", name="Confirm the brief").click()
    page.get_by_role("button", name="Make the plan").click()
    page.wait_for_url("**/plans/1/")
    expect(page.locator("svg").first).to_be_visible()
    fits(page)


def meter(page: Page, address: str) -> None:
    page.goto(f"{address}/packing/")
    fits(page)
    lie_apart(page)
    page.get_by_text("Meter and record").last.click()
    page.wait_for_url("**/record/")
    page.evaluate("window.still = 'the same page'")
    form = page.locator("form.reading").first
    field, shown = form.locator("[name=text]"), form.locator("output.difference")
    field.fill("8 +0.")
    expect(shown).to_contain_text("can be read in two ways or in none")
    field.fill("1.4 +0.2")
    expect(shown).to_contain_text("f/1.4 +0.2, -")
    expect(shown).to_contain_text("under: outside tolerance")
    form.get_by_role("button", name="Save").click()
    expect(form.get_by_role("button", name="Save")).to_be_enabled()
    expect(page.locator("section[aria-labelledby='as-shot']")).to_contain_text("done f/1.4 +0.2")
    assert page.evaluate("window.still") == "the same page"
    fits(page)
    page.reload()
    expect(shown).to_contain_text("f/1.4 +0.2")


@pytest.mark.django_db(transaction=True)
def test_a_sitting_is_booked_planned_printed_and_metered_in_a_browser(desk: Desk) -> None:
    lindenmere.build(clock.today())
    book(desk.sign_in("maud", width=1440), desk.address)
    sitting = Sitting.objects.get(client__name=CLIENT)
    plan(desk.sign_in("tobiah", width=1440), desk.address)
    ines = desk.sign_in("ines", width=NARROW)
    sheet = ines.request.get(f"{desk.address}/sittings/{sitting.number}/plans/1/setups/1.pdf")
    assert sheet.ok
    assert sheet.body().startswith(b"%PDF")
    meter(ines, desk.address)
    assert desk.wrong == []
