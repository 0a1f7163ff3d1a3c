"""The board of a headshot day in a real browser: one thumb at 390 px, news from another device, no network for a
moment, and the slate over the whole screen."""

from __future__ import annotations

from datetime import timedelta

import pytest
from playwright.sync_api import expect

from bookings.actions import rota_days
from bookings.models import Place, Rota
from studio import clock
from tests.bookings.making import House, make_house
from tests.bookings.turns import NAMES, day_of, keep, place
from tests.browser.conftest import Desk
from tests.browser.test_arrivals import NARROW, thumbs
from tests.browser.test_the_line import fits


@pytest.fixture
def house(transactional_db: None) -> House:
    return make_house()


def in_an_hour(house: House) -> Rota:
    start = (clock.now() + timedelta(hours=1)).replace(minute=0, second=0, microsecond=0)
    return keep(house, day_of(house, starts_at=start), "\n".join(NAMES[:7]), lengthen=True, only_listed=True)


def test_the_board_is_worked_with_one_thumb_and_hears_of_the_desk(desk: Desk, house: House) -> None:
    rota = in_an_hour(house)
    page = desk.sign_in("ines", width=NARROW)
    page.clock.install()
    page.goto(f"{desk.address}/sittings/{rota.sitting.number}/rota/board/")
    fits(page)
    page.set_viewport_size({"width": NARROW, "height": 900})
    thumbs(page)
    page.evaluate("window.still = 'the same page'")
    name = page.locator(".next-name")
    expect(name).to_contain_text("Corin Vale")
    assert name.evaluate("(one) => parseFloat(getComputedStyle(one).fontSize)") == pytest.approx(40, abs=0.1)  # 30 pt
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(22, 22, 22)"
    page.locator("button", has_text="On set: Corin Vale").click()
    expect(page.locator("#on-set")).to_be_visible()
    page.locator("button", has_text="Absent: Delphine Orr").first.click()
    expect(name).to_contain_text("Ambrose Tull")
    page.get_by_role("button", name="Undo").click()
    expect(name).to_contain_text("Delphine Orr")
    row = place(rota, "Delphine")
    rota_days.mark(by=house.desk, place=row, to="absent", seen=row.version)
    page.clock.run_for(4_100)
    expect(name).to_contain_text("Ambrose Tull")
    page.context.set_offline(True)
    page.clock.run_for(4_100)
    expect(page.locator("#live-told")).to_contain_text("The house does not answer")
    page.locator("button", has_text="Done: Corin Vale").click()
    expect(page.locator("#on-set")).to_have_count(0)  # shown at once, and waits on the device
    expect(page.locator("#unsent")).to_contain_text("Not yet sent: 1.")
    assert place(rota, "Corin").state == "on_set"
    page.context.set_offline(False)
    expect(page.locator("#unsent")).to_be_hidden()
    assert place(rota, "Corin").state == "done"
    expect(page.locator("#live-told")).to_be_empty()
    page.fill("#walk-in", "Wren Hollis")
    page.clock.run_for(4_100)  # nothing is taken from under somebody's fingers
    expect(page.locator("#walk-in")).to_have_value("Wren Hollis")
    page.keyboard.press("Enter")
    expect(page.locator(".queue").first).to_contain_text("Wren Hollis")
    assert page.evaluate("window.still") == "the same page"
    assert [one for one in desk.wrong if "ERR_INTERNET_DISCONNECTED" not in one] == []


def test_the_slate_fills_the_screen_and_follows_the_board(desk: Desk, house: House) -> None:
    rota = in_an_hour(house)
    page = desk.sign_in("ines", width=1024)
    page.clock.install()
    page.goto(f"{desk.address}/sittings/{rota.sitting.number}/rota/slate/")
    fits(page)
    expect(page.locator(".slate-name")).to_have_text("Corin Vale")
    high = page.locator(".slate-number").evaluate("(one) => one.getBoundingClientRect().height / innerHeight")
    assert high > 0.25
    row = place(rota, "Corin")
    rota_days.mark(by=house.desk, place=row, to="absent", seen=row.version)
    page.clock.run_for(4_100)
    expect(page.locator(".slate-name")).to_have_text("Delphine Orr")
    assert desk.wrong == []


def test_twenty_names_get_their_places_without_the_mouse(desk: Desk, house: House) -> None:
    start = (clock.now() + timedelta(days=1)).replace(hour=9, minute=0, second=0, microsecond=0)
    sitting = day_of(house, starts_at=start)
    page = desk.sign_in("maud", width=1440)
    page.goto(f"{desk.address}/sittings/{sitting.number}/rota/")
    expect(page.locator("#id_names")).to_be_focused()
    page.keyboard.insert_text("\n".join(NAMES))  # one paste
    for _key in range(3):
        page.keyboard.press("Tab")
    expect(page.locator("#id_lunch_at")).to_be_focused()
    page.fill("#id_lunch_at", "12:00")  # four keys
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Save these places")).to_be_focused()
    fits(page)
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_contain_text("20 places are saved.")
    assert Place.objects.count() == 20
    assert desk.wrong == []
