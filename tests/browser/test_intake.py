"""A client's phone: the whole intake at 390 px, kept as it is tapped, with a drawn signature."""

from __future__ import annotations

from urllib.parse import urlsplit

from bookings import intake_links
from bookings.actions import intake
from bookings.models import Consent, Intake, IntakeAnswer, Notes, Release, Wish
from tests.bookings.making import make_house
from tests.browser.conftest import PATIENCE_MS, Desk


def test_the_intake_is_answered_and_signed_on_a_phone(desk: Desk) -> None:
    sitting = make_house().book()
    row = intake.make_link(sitting=sitting)
    page = desk.browser.new_context(
        viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True, locale="en-GB"
    ).new_page()
    page.set_default_timeout(PATIENCE_MS)
    page.on("console", desk._said)
    page.on("request", desk._asked)
    page.on("response", desk._answered)
    page.goto(desk.address + urlsplit(intake_links.address(row)).path)
    pk = sitting.sitters.first().pk
    page.check(f"[name=p{pk}-lines][value='deep lines']")
    page.wait_for_selector(f"#q-p{pk}-lines .now-kept")
    page.check(f"[name=p{pk}-lines_wish][value=softer]")
    page.wait_for_selector(f"#q-p{pk}-lines_wish .now-kept")
    assert page.inner_text(f"#q-p{pk}-lines_wish .now-kept").startswith("saved ")
    page.check(f"[name=c{pk}-publish][value=no]")
    page.wait_for_selector(f"#consents-{pk} .now-kept")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    page.fill(f"[name=s{pk}-signed_by]", "Ottoline Askew")
    canvas = page.locator(f"#sign-{pk} canvas")
    canvas.scroll_into_view_if_needed()
    box = canvas.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 20, box["y"] + 40)
    page.mouse.down()
    page.mouse.move(box["x"] + 120, box["y"] + 20, steps=4)
    page.mouse.move(box["x"] + 200, box["y"] + 60, steps=4)
    page.mouse.up()
    page.check(f"[name=s{pk}-agree]")
    page.click("text=Sign for Ottoline")
    page.wait_for_selector("text=Signed by Ottoline Askew")
    assert Notes.objects.get(sitter_id=pk).texture == "deep lines"
    assert Wish.objects.get(sitter_id=pk).wish == "softer"
    assert Consent.objects.get().answer == "no"
    assert len(Release.objects.get().drawn.split()) > 3
    assert IntakeAnswer.objects.count() == 2
    assert Intake.objects.get().opened_at is not None
    assert desk.wrong == []
