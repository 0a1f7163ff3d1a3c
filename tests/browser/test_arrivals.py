"""Arrivals in a real browser: one thumb at 390 px, news without a reload, and a change of role from every page."""

from __future__ import annotations

from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from bookings.actions import arrivals as actions
from bookings.actions import sittings
from bookings.actions.arrivals import Signature
from bookings.models import Release, Sitting
from studio import clock
from studio.models import MemberRole
from tests.bookings.making import House, make_house
from tests.browser.conftest import Desk, unfold_pages
from tests.browser.test_the_line import fits

NARROW = 390
TARGET_PX = 44


@pytest.fixture
def house(transactional_db: None) -> House:
    return make_house()


def booked(house: House) -> Sitting:
    """The Askews, confirmed, in two hours or so."""
    start = (clock.now() + timedelta(hours=2)).replace(minute=0, second=0, microsecond=0)
    return sittings.change_stage(by=house.desk, sitting=house.book(starts_at=start), to="confirmed")


def address_of(desk: Desk, sitting: Sitting) -> str:
    return f"{desk.address}/arrivals/?day={sitting.starts_at:%Y-%m-%d}"


def thumbs(page: Page) -> None:
    """Everything to be pressed is at least 44 px high, whatever belongs to it included."""
    low = page.evaluate(
        "[...document.querySelectorAll('main :is(a, button, select, .tick, summary), main input[type=text]')]"
        ".filter((one) => one.checkVisibility()).map((one) => [one.textContent.trim(), one.getBoundingClientRect()])"
        f".filter(([, box]) => box.height < {TARGET_PX} - 0.5).map(([words, box]) => `${{words}}: ${{box.height}}`)"
    )
    assert low == []


def test_release_and_arrival_with_one_thumb(desk: Desk, house: House) -> None:
    sitting = booked(house)
    page = desk.sign_in("maud", width=NARROW)
    page.goto(address_of(desk, sitting))
    fits(page)
    thumbs(page)
    page.get_by_role("link", name="Release and consents").click()
    fits(page)
    thumbs(page)
    page.get_by_role("button", name="Save the release").click()
    page.wait_for_url("**/arrivals/**")
    expect(page.locator(".stands")).to_contain_text("release signed: Ottoline, Bertram")
    assert Release.objects.count() == 2
    page.get_by_role("button", name="Arrived").click()
    expect(page.locator("main")).to_contain_text("Here, or gone again")
    expect(page.get_by_role("status").first).to_contain_text("Arrived. Studio's move")
    assert Sitting.objects.get().stage == "arrived"
    fits(page)
    assert desk.wrong == []


def test_news_come_by_themselves_while_one_looks(desk: Desk, house: House) -> None:
    sitting = booked(house)
    page = desk.sign_in("maud", width=NARROW)
    page.clock.install()
    page.goto(address_of(desk, sitting))
    page.evaluate("window.still = 'the same page'")
    page.get_by_role("link", name="Release and consents").focus()
    expect(page.locator(".stands")).to_contain_text("missing: release")
    people = [sitter.pk for sitter in sitting.sitters.all()]
    actions.sign(
        by=house.desk, sitting=sitting, people=people, signature=Signature(), how="desk", signed_on=clock.today()
    )
    page.clock.run_for(61_000)
    expect(page.locator(".stands")).to_contain_text("release signed: Ottoline, Bertram")
    assert page.evaluate("window.still") == "the same page"
    expect(page.get_by_role("link", name="Release and consents")).to_be_focused()
    page.context.set_offline(True)
    page.clock.run_for(61_000)
    expect(page.locator("#board-told")).to_contain_text("The house does not answer")
    expect(page.locator(".stands")).to_contain_text("release signed")
    page.context.set_offline(False)
    page.clock.run_for(61_000)
    expect(page.locator("#board-told")).to_be_empty()


def test_a_hidden_board_asks_nothing(desk: Desk, house: House) -> None:
    sitting = booked(house)
    page = desk.sign_in("maud", width=NARROW)
    page.clock.install()
    page.goto(address_of(desk, sitting))
    page.wait_for_load_state("networkidle")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url) if request.resource_type == "fetch" else None)
    page.evaluate("Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true })")
    page.clock.run_for(300_000)
    assert asked == []
    with page.expect_response("**/arrivals/**"):
        page.evaluate("delete document.visibilityState; document.dispatchEvent(new Event('visibilitychange'))")
    assert len(asked) == 1


def test_a_member_of_several_roles_changes_it_from_any_page(desk: Desk, house: House) -> None:
    sitting = booked(house)
    MemberRole.objects.create(member=house.desk, role="owner")
    MemberRole.objects.create(member=house.desk, role="photographer")
    page = desk.sign_in("maud", width=NARROW)
    number = sitting.number
    places = ["/diary/", "/sittings/new/", "/kit/", "/studio/rooms/", "/setups/", f"/sittings/{number}/change/"]
    roles = (("owner", "/studio/"), ("photographer", "/setups/"), ("front desk", "/diary/"))
    for n, place in enumerate(places):  # from each page to one role, by turns to all
        page.goto(desk.address + place)
        unfold_pages(page)
        buttons = [(page.get_by_role("button", name=f"Work as {role}"), first) for role, first in roles]
        shown = [(button, first) for button, first in buttons if button.count()]
        assert len(shown) == 2, "the one worked in is not offered"
        fits(page)
        button, first = shown[n % 2]
        box = button.bounding_box()
        assert box is not None
        assert box["height"] >= TARGET_PX - 0.5
        button.click()
        page.wait_for_url(f"**{first}")
    assert desk.wrong == []
