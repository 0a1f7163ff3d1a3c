"""A headshot day on a telephone while the network drops: pages open, taps and readings wait, nothing is lost and
nothing of somebody else's is written over unseen."""

from __future__ import annotations

import errno
import re
import threading
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.contrib.sessions.models import Session
from django.db.models import F
from django.utils import timezone
from playwright.sync_api import BrowserContext, FilePayload, Page, expect

from bookings.models import Place, PlaceChange
from shotplans.models import Brief, Frame, PackingTap, Plan, Reading, SetPhoto, SetTap
from shotplans.planner import codec
from shotplans.sheets import walk
from studio import clock, entries
from studio.models import Entry
from tests import cast, lindenmere, planned_once
from tests.bookings.making import House, make_house
from tests.bookings.turns import NAMES, day_of, keep
from tests.browser.conftest import PATIENCE_MS, Desk, unfold_pages
from tests.browser.test_the_line import NARROW, fits
from tests.cast import PASSWORD
from tests.records import filming

PEOPLE = 11
OFF_FROM, OFF_TO = 2, 10  # persons
HOUR = timedelta(hours=1)
# Whether this page, as the device keeps it, says so: it keeps it anew after a tap, in its own time.
KEPT_SAYS = """async (words) => {
  const kept = await caches.match(location.href, { ignoreVary: true });
  return Boolean(kept) && (await kept.text()).includes(words); }"""


@pytest.fixture
def house(transactional_db: None) -> House:
    return make_house()


@pytest.fixture
def plan(house: House) -> Plan:
    """Marrowfield Joinery in an hour, eleven in turn, with the plan of its example brief."""
    start = (clock.now() + timedelta(hours=1)).replace(minute=0, second=0, microsecond=0)
    sitting = day_of(house, PEOPLE, starts_at=start)
    keep(house, sitting, "\n".join(NAMES[:PEOPLE]), lengthen=True, gap_minutes=0, keeps_list_order=True)
    request = lindenmere.tree("marrowfield")
    document = planned_once.plan(codec.read_request(lindenmere.brief_file("marrowfield")))
    by, now = house.members["photographer"], clock.now()
    Brief.objects.create(sitting=sitting, data=request["brief"], confirmed_at=now, confirmed_by=by)
    return Plan.objects.create(
        sitting=sitting, number=1, request=request, document=document, fingerprint="0" * 64, made_at=now, made_by=by
    )  # fmt: skip


def at(desk: Desk, plan: Plan, rest: str) -> str:
    return f"{desk.address}/sittings/{plan.sitting.number}/{rest}"


def open_kept(page: Page, address: str) -> None:
    """Open a page and wait until the device has it."""
    page.goto(address)
    page.wait_for_selector("html[data-kept]")


def take(page: Page, name: str) -> None:
    """One person: on set, done."""
    page.locator("button", has_text=f"On set: {name}").click()
    page.locator("button", has_text=f"Done: {name}").click()
    expect(page.locator("button", has_text=f"Done: {name}")).to_have_count(0)


def read(page: Page, nth: int, text: str) -> None:
    form = page.locator("form.reading").nth(nth)
    form.locator("[name=text]").fill(text)
    form.get_by_role("button", name="Save").click()


def picture(name: str) -> FilePayload:
    return {"name": name, "mimeType": "image/jpeg", "buffer": filming.jpeg(exif=filming.entries(f=8))}


def cached(page: Page) -> list[str]:
    found: list[str] = page.evaluate(
        "(async () => (await Promise.all((await caches.keys()).map(async (name) => (await (await caches.open(name))"
        ".keys()).map((one) => new URL(one.url).pathname)))).flat())()"
    )
    return found


def new_page(context: BrowserContext, address: str) -> Page:
    page = context.new_page()
    page.set_default_timeout(PATIENCE_MS)
    page.goto(address)
    return page


def wrong(desk: Desk) -> list[str]:
    return [one for one in desk.wrong if "ERR_INTERNET_DISCONNECTED" not in one]


def test_feature_47_the_joinery_day_goes_on_without_a_network_and_nothing_is_lost(
    desk: Desk, plan: Plan, settings: Any, tmp_path: Path
) -> None:
    page = desk.sign_in("ines", width=NARROW)
    context = page.context
    context.clock.set_system_time(clock.now() + HOUR)  # its clock is an hour wrong
    settings.DATA_DIR = tmp_path
    frame_at = f"/sittings/{plan.sitting.number}/plans/1/setups/1/test-frame/"
    photos, frame = f"/sittings/{plan.sitting.number}/plans/1/record/photos/1/", desk.address + frame_at
    record, board = at(desk, plan, "plans/1/record/"), at(desk, plan, "rota/board/")
    open_kept(page, record)
    open_kept(page, board)
    take(page, NAMES[0])
    page.wait_for_function(KEPT_SAYS, arg="Done: one")
    context.set_offline(True)
    for name in NAMES[OFF_FROM - 1 : 5]:
        take(page, name)
    page.reload()  # the page comes from the device, with what waits on it
    expect(page.locator(".next-name")).to_contain_text(NAMES[5])
    expect(page.locator("#unsent")).to_contain_text("Not yet sent: 8.")
    fits(page)
    page.goto(record)
    page.locator("[name=photos]").first.set_input_files([picture("set.jpg"), {**picture("none.jpg"), "buffer": b"x"}])
    page.get_by_role("button", name="Save pictures").first.click()
    expect(page.locator(".not-sent")).to_have_count(2)
    page.goto(frame)
    expect(page.locator(".asks-house")).to_have_count(0)  # nothing to touch yet, and nothing broken
    page.locator("[name=files]").set_input_files(picture("LQ_0041.JPG"))
    page.get_by_role("button", name="Read").click()
    expect(page.locator(".not-sent")).to_contain_text("Not yet sent: LQ_0041.JPG (0.0 MB)")
    fits(page)
    page.close()  # a killed tab
    page = new_page(context, record)
    read(page, 0, "5.6 6")
    expect(page.locator(".not-sent").first).to_contain_text("Not yet sent: 5.6 6")
    expect(page.locator(".not-sent").first).to_contain_text("! f/5.6 +0.6, +0.2 stop, over: outside tolerance")
    fits(page)
    page.goto(board)
    for name in NAMES[5:OFF_TO]:
        take(page, name)
    assert PlaceChange.objects.count() == 2
    assert Reading.objects.count() == 0
    context.set_offline(False)
    expect(page.locator("#unsent")).to_have_text("! Not taken by the house: 1. Look at it", timeout=PATIENCE_MS)
    for name in NAMES[OFF_TO:PEOPLE]:
        take(page, name)
    places = Place.objects.order_by("number").select_related("sitter")
    assert [(one.sitter.label, one.state) for one in places] == [(name, "done") for name in NAMES[:PEOPLE]]
    assert [one.on_set_at for one in places] == sorted(one.on_set_at for one in places)
    assert PlaceChange.objects.count() == 2 * PEOPLE
    assert Reading.objects.get().as_typed == "5.6 6"
    assert [(one.path, one.says) for one in Entry.objects.exclude(outcome="kept")] == [
        (photos, "Picture 1 was not saved: no picture a page can show (JPEG, PNG or WebP)")
    ]
    assert (SetPhoto.objects.count(), Frame.objects.get().is_test) == (1, True)
    waited = Entry.objects.filter(received_at__gt=F("made_at") + timedelta(seconds=3)).order_by("received_at")
    sent = [one.path for one in waited]
    assert sent[-3:] == [photos, photos, f"{frame_at}send/"], sent  # after what was typed, though it was typed later
    for entry in Entry.objects.all():
        assert entry.device_sent_at - entry.received_at == pytest.approx(HOUR, abs=timedelta(minutes=1))
        assert entry.made_at == pytest.approx(entry.device_at - HOUR, abs=timedelta(minutes=1))
    page.goto(f"{desk.address}/on-set/")
    with page.expect_download() as kept:  # what the house did not take is not lost either
        page.get_by_role("link", name="Save the file").click()
    assert kept.value.suggested_filename == "none.jpg"
    assert wrong(desk) == []


def tap(page: Page, text: str, nth: int = 0) -> None:
    """A tap that waits: it stands there as not yet sent."""
    before = page.locator(".not-sent").count()
    page.locator("main form[data-entry] button:visible", has_text=text).nth(nth).click()
    expect(page.locator(".not-sent")).to_have_count(before + 1)
    fits(page)


def _full_at_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first entry meets a house that can keep nothing."""
    row, errors = entries._row, iter([OSError(errno.ENOSPC, "said")])

    def first_time(*asked: Any) -> dict[str, Any]:
        for error in errors:
            raise error
        return row(*asked)

    monkeypatch.setattr(entries, "_row", first_time)


def test_what_surrounds_a_sitting_is_ticked_without_a_network_and_waits_for_a_full_disk_too(
    desk: Desk, plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Packing, the hazard walk, shots, strike, power and place are kept ahead; a label's page once it was opened."""
    page, piece = desk.sign_in("ines", width=NARROW), cast.make_kit("heads", "h400-1")
    packing = f"{desk.address}/packing/?day={timezone.localdate(plan.sitting.starts_at)}"
    open_kept(page, f"{desk.address}/k/{piece.code}/")
    open_kept(page, packing)
    page.context.set_offline(True)
    tap(page, "Out")
    page.get_by_role("link", name="Power and place").click()
    expect(page.locator("h1")).to_have_text("Power and place")
    fits(page)
    page.goto(packing)
    page.get_by_role("link", name="Hazard walk").click()
    tap(page, "Set-up begins now")
    for nth in range(4):
        tap(page, "Good", nth)
    tap(page, "Sitters in")
    page.get_by_role("link", name="Shots").click()
    for n in (1, 2):  # the next card stands there at once
        tap(page, f"Taken: {n}")
    expect(page.locator(".next:visible h2")).to_have_text("Next: 3")
    page.goto(at(desk, plan, "plans/1/strike/"))
    tap(page, "Down")
    page.goto(f"{desk.address}/k/{piece.code}/")
    for state in ("Charging", "In repair"):
        tap(page, state)
    expect(page.locator("#unsent")).to_contain_text("Not yet sent: 12.")
    _full_at_first(monkeypatch)
    with page.expect_response(lambda answer: answer.status == 503):
        page.context.set_offline(False)
    expect(page.locator("#unsent")).to_contain_text("Not yet sent: 12. It goes by itself")
    page.evaluate("window.dispatchEvent(new Event('online'))")  # sooner than by itself, after fifteen seconds
    expect(page.locator("#unsent")).to_have_text("The house answers again. Load this page anew", timeout=PATIENCE_MS)
    assert list(Entry.objects.exclude(outcome="kept").values_list("path", "says")) == []
    assert [tap.code for tap in SetTap.objects.all()][:6] == ["begun", *walk.CODES, "sitters-in"]
    assert SetTap.objects.count() == 9
    assert PackingTap.objects.count() == 1
    assert [change.after for change in piece.changes.all()] == ["charging", "repair"]
    assert [one for one in wrong(desk) if "503" not in one] == []


WATCH = """addEventListener("DOMContentLoaded", () => { const bar = document.getElementById("unsent");
  if (bar) new MutationObserver(() => { if (!bar.hidden) sessionStorage.setItem("barred", bar.textContent); })
    .observe(bar, { attributes: true, childList: true }); });"""


def test_what_is_sent_at_once_moves_nothing_under_the_thumb_and_what_hangs_is_said(
    desk: Desk, plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    page, row = desk.sign_in("ines", width=NARROW), entries._row
    came, goes_on = threading.Event(), threading.Event()

    def held(*asked: Any) -> dict[str, Any]:
        came.set()
        assert goes_on.wait(PATIENCE_MS / 1000)
        return row(*asked)

    monkeypatch.setattr(entries, "_row", held)
    page.add_init_script(WATCH)
    page.clock.install(time=clock.now())
    open_kept(page, at(desk, plan, "plans/1/record/"))
    page.clock.pause_at(clock.now() + HOUR)  # a busy machine is not a slow house
    read(page, 0, "5.6 6")
    assert came.wait(PATIENCE_MS / 1000)
    try:
        assert page.evaluate("sessionStorage.getItem('barred')") is None
        page.clock.run_for(1_100)
        expect(page.locator("#unsent")).to_contain_text("Not yet sent: 1.")
    finally:
        goes_on.set()
    expect(page.locator("#unsent")).to_be_hidden()
    assert Reading.objects.get().as_typed == "5.6 6"
    assert wrong(desk) == []


def test_two_telephones_one_reading_a_sign_in_that_ends_and_a_sign_out(desk: Desk, plan: Plan) -> None:
    record = at(desk, plan, "plans/1/record/")
    ines, tobiah = desk.sign_in("ines", width=NARROW), desk.sign_in("tobiah", width=NARROW)
    open_kept(ines, record)
    assert "/sign-in/" not in cached(ines)
    ines.context.set_offline(True)
    read(ines, 0, "5.6 6")
    tobiah.goto(record)
    read(tobiah, 0, "5.6 2")
    expect(tobiah.locator("section[aria-labelledby='as-shot']")).to_contain_text("done f/5.6 +0.2")  # the house has it
    unfold_pages(ines)
    ines.get_by_role("button", name="Sign out").click()
    expect(ines.locator("#unsent li")).to_contain_text("5.6 6")  # what would be lost; and nobody is signed out
    ines.get_by_role("button", name="Stay signed in").click()
    Session.objects.all().delete()
    ines.context.set_offline(False)
    expect(ines.locator("#unsent")).to_contain_text("You are signed out: it is kept here until you sign in again.")
    assert Reading.objects.count() == 1
    ines.locator("#unsent").get_by_role("link", name="Sign in").click()
    ines.fill("[name=username]", "ines")
    ines.fill("[name=password]", PASSWORD)
    ines.press("[name=password]", "Enter")
    ines.wait_for_url(record)
    ines.get_by_role("link", name="Load this page anew").click()  # it was sent meanwhile
    both = re.compile(r"Tobiah Renn read f/5.6 \+0.2 at .*Ines Calloway's entry of .*came in later")
    expect(ines.locator(".beside")).to_contain_text(both)
    unfold_pages(ines)
    ines.get_by_role("button", name="Sign out").click()
    ines.wait_for_url("**/sign-in/**")
    assert [one for one in cached(ines) if not one.startswith("/static/")] == []
    assert wrong(desk) == []
