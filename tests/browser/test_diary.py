"""The diary in a real browser: dragging with a mouse, the keys, and a week on a telephone."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from playwright.sync_api import Locator, Page, expect
from pypdf import PdfReader

from bookings.models import Sitting
from studio.models import Room
from tests.bookings.making import House, at, make_house
from tests.browser.conftest import Desk
from tests.browser.test_rules_and_changes import is_easy_to_touch
from tests.browser.test_the_line import NARROW, fits

WIDE = 1440
ROW_PX = 22
LANDSCAPE_PX = 1017  # what the margins leave of A4
NAMED_PX = 75  # two centimetres: the name of a room or of a sitter
pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def house() -> House:
    house = make_house()
    house.book()
    return house


def opened(desk: Desk, width: int = WIDE, address: str = "/diary/?day=2026-12-03") -> Page:
    page = desk.sign_in("maud", width=width)
    page.goto(desk.address + address)
    return page


def block(page: Page, lane: str, name: str = "Askew") -> Locator:
    return lane_of(page, lane).locator("li.sitting", has_text=name)


def lane_of(page: Page, name: str) -> Locator:
    return page.locator("section.lane").filter(has=page.get_by_role("heading", name=name))


def drag(page: Page, item: Locator, *, rows: int, onto: Locator | None = None) -> None:
    """With a mouse, by its upper part, so many quarter-hours down and onto another lane."""
    box = item.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 40, box["y"] + 8)
    page.mouse.down()
    page.mouse.move(box["x"] + 45, box["y"] + 20)
    target = onto.bounding_box() if onto else box
    assert target is not None
    page.mouse.move(target["x"] + 40, box["y"] + 8 + rows * ROW_PX, steps=5)
    page.mouse.up()


def starts() -> tuple[datetime, str]:
    sitting = Sitting.objects.select_related("room").get(number="L-0001")
    return sitting.starts_at, sitting.room.name


def test_a_sitting_is_dragged_to_another_room_and_asked_about_first(house: House, desk: Desk) -> None:
    page = opened(desk)
    drag(page, block(page, "Long Room"), rows=18, onto=lane_of(page, "Garden Room"))
    dialog = page.get_by_role("dialog")
    expect(dialog).to_contain_text("Thursday 3 December, 14:00, Garden Room")
    assert starts() == (at(9, 30), "Long Room"), "nothing is saved yet"
    expect(dialog.get_by_role("button", name="Move it")).to_be_focused()
    dialog.get_by_role("link", name="Leave it").click()
    expect(dialog).to_be_hidden()
    expect(page.locator("li.ghost")).to_have_count(0)
    assert page.url.endswith("/diary/?day=2026-12-03"), "the link under the mouse was not opened"
    drag(page, block(page, "Long Room"), rows=18, onto=lane_of(page, "Garden Room"))
    dialog.get_by_role("button", name="Move it").click()
    expect(page.get_by_role("status")).to_contain_text("L-0001 is moved to Thursday 3 December 2026, 14:00.")
    assert starts() == (at(14), "Garden Room")
    assert desk.wrong == []


def test_a_press_without_a_drag_opens_the_sitting(house: House, desk: Desk) -> None:
    page = opened(desk)
    block(page, "Long Room").get_by_role("link", name="Askew").click()
    expect(page).to_have_url(f"{desk.address}/sittings/L-0001/")
    assert desk.wrong == []


def test_a_sitting_is_moved_by_the_keys_alone(house: House, desk: Desk) -> None:
    page = opened(desk)
    block(page, "Long Room").locator("a.open").focus()
    for key in ("m", "ArrowDown", "ArrowDown", "ArrowLeft"):
        page.keyboard.press(key)
    expect(lane_of(page, "Garden Room").locator("li.ghost .when")).to_have_text("10:00")
    page.keyboard.press("Escape")
    expect(page.locator("li.ghost")).to_have_count(0)
    expect(block(page, "Long Room").locator("a.open")).to_be_focused()
    for key in ("m", "ArrowDown", "ArrowDown", "Enter"):
        page.keyboard.press(key)
    expect(page.get_by_role("dialog")).to_contain_text("Thursday 3 December, 10:00, Long Room")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("L-0001 is moved")
    assert starts() == (at(10), "Long Room")
    assert desk.wrong == []


def test_the_arrows_go_between_blocks_and_gaps_and_enter_opens(house: House, desk: Desk) -> None:
    page = opened(desk)
    block(page, "Long Room").locator("a.open").focus()
    page.keyboard.press("ArrowDown")
    expect(page.locator(":focus")).to_have_text("free 11:00 to 19:00")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowRight")
    expect(block(page, "Ines Calloway").locator("a.open")).to_be_focused()
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowLeft")
    expect(page.locator(":focus")).to_have_text("free 08:00 to 19:00")
    page.keyboard.press("Enter")
    expect(page.locator("[name=time]")).to_have_value("08:30")
    assert desk.wrong == []


def test_a_gap_is_started_where_it_is_pressed(house: House, desk: Desk) -> None:
    page = opened(desk)
    gap = lane_of(page, "Long Room").get_by_role("link", name="free 11:00")
    gap.click(position={"x": 30, "y": 16 * ROW_PX + 5})  # four hours down
    expect(page.locator("[name=time]")).to_have_value("15:00")
    expect(page.locator("[name=day]")).to_have_value("2026-12-03")
    expect(page.locator("[name=room]")).to_have_value(str(house.room.pk))
    assert desk.wrong == []


def test_in_the_week_it_is_dragged_to_another_day(house: House, desk: Desk) -> None:
    page = opened(desk, address="/diary/week/?day=2026-12-03")
    friday = page.locator("section.lane[data-day='2026-12-04']").filter(has_text="Long Room")
    drag(page, page.locator("li.sitting"), rows=4, onto=friday)
    expect(page.get_by_role("dialog")).to_contain_text("Friday 4 December, 10:30, Long Room")
    page.get_by_role("button", name="Move it").click()
    expect(page).to_have_url(f"{desk.address}/diary/week/?day=2026-12-04")
    assert starts() == (at(10, 30, days=1), "Long Room")
    assert desk.wrong == []


def test_without_an_answer_nothing_is_moved_and_that_is_said(house: House, desk: Desk) -> None:
    page = opened(desk)
    page.route("**/diary/move/", lambda route: route.abort())
    drag(page, block(page, "Long Room"), rows=4)
    expect(page.get_by_role("dialog")).to_contain_text("nothing was moved")
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_be_hidden()
    assert starts() == (at(9, 30), "Long Room")


def test_the_words_of_a_quarter_of_an_hour_are_whole(house: House, desk: Desk) -> None:
    words = opened(desk, 820).locator(".around.for-1")
    expect(words.first).to_be_visible()
    for one in words.all():
        high, room = one.evaluate("one => [one.scrollHeight, one.clientHeight]")
        assert high <= room


def test_day_week_and_gaps_fit_a_telephone(house: House, desk: Desk) -> None:
    page = opened(desk, NARROW)
    for address in ("/diary/?day=2026-12-03", "/diary/week/?day=2026-12-03", "/diary/gaps/"):
        page.goto(desk.address + address)
        is_easy_to_touch(page)
    page.goto(f"{desk.address}/diary/?day=2026-12-03")
    block(page, "Long Room").get_by_role("link", name="Move L-0001").click()
    expect(page).to_have_url(f"{desk.address}/sittings/L-0001/change/")
    fits(page)
    assert desk.wrong == []


@pytest.mark.parametrize("rooms", [3, 24])
def test_a_printed_day_of_many_rooms_takes_several_sheets_each_with_its_hours(
    house: House, desk: Desk, rooms: int
) -> None:
    for number in range(Room.objects.count(), rooms):
        Room.objects.create(name=f"Room {number:02d}", width_m=6, depth_m=8, ceiling_m=3)
    page = opened(desk, address="/diary/?day=2026-12-03&by=rooms")
    page.set_viewport_size({"width": LANDSCAPE_PX, "height": 700})
    page.emulate_media(media="print")
    lanes = [box for one in page.locator("section.lane").all() if (box := one.bounding_box())]
    assert len(lanes) == rooms
    assert min(box["width"] for box in lanes) >= NAMED_PX
    with TemporaryDirectory() as folder:
        paper = Path(folder) / "day.pdf"
        page.pdf(path=paper, format="A4", prefer_css_page_size=True)
        said = [" ".join(one.extract_text().split()) for one in PdfReader(paper).pages]
    assert len(said) == (1 if rooms < 10 else 3)
    assert all("09:00" in one and "3 December 2026" in one for one in said)
    assert [sum(name in one for one in said) for name in Room.objects.values_list("name", flat=True)] == [1] * rooms
