"""One sitting from the telephone to the record, by the pages' own links and buttons alone."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from bookings.models import Sitting
from shotplans.models import Reading, Record
from tests import lindenmere
from tests.pages import Visitor

CLIENT = "Wren Hollis"
DAY = "2026-12-03"
NEXT = "2026-12-04"  # when everybody is free within the house's hours


def booked(maud: Visitor) -> str:
    """Maud fills in the one page; the number the sitting was given."""
    maud.open("/")
    maud.follow("New sitting")
    typed = {
        "new_name": CLIENT,
        "kind": option(maud, "Character portrait"),
        "day": DAY,
        "time": "10:00",
        "room": option(maud, "Garden Room"),
        "photographer": option(maud, "Tobiah Renn"),
        "assistant": option(maud, "Ines Calloway"),
        "people-0-label": "Wren",
        "people-0-age_years": "58",
        "people-0-posture": "seated",
    }
    refused = maud.press("Book it", typed)
    held = "Tobiah Renn is held by L-0001, Askew, from 09:15 to 10:45. Next free: Friday 4 December 2026, 08:00."
    assert held in refused.words
    assert not Sitting.objects.filter(client__name=CLIENT).exists()
    assert refused.form_with("Book it").values["new_name"] == [CLIENT]  # nothing typed is lost
    maud.press("Book it for Friday 4 December, 12:00 instead")  # within the house's hours
    return Sitting.objects.get(client__name=CLIENT).number


def option(visitor: Visitor, said: str) -> str:
    """The value a select sends for an option that says so."""
    head = visitor.page.html.split(f">{said}<")[0]
    return head.rsplit('value="', 1)[1].split('"')[0]


def planned(tobiah: Visitor) -> None:
    tobiah.open(f"/setups/?day={NEXT}")
    assert CLIENT in tobiah.page.words
    tobiah.open(next(href for said, href in tobiah.page.links if said == f"12:00 {CLIENT}"))
    tobiah.press("Confirm the brief", {"must": "Hands."})
    tobiah.press("Make the plan")
    assert tobiah.page.address.endswith("/plans/1/")
    assert "No limit is broken." in tobiah.page.words


@pytest.mark.usefixtures("studio")
def test_a_sitting_goes_from_the_telephone_to_the_record() -> None:
    number = booked(lindenmere.visitor("front_desk"))
    planned(lindenmere.visitor("photographer"))

    ines = lindenmere.visitor("assistant")
    ines.open(f"/packing/?day={NEXT}")
    assert number in ines.page.words
    record = f"/sittings/{number}/plans/1/record/"
    ines.follow("Meter and record", nth=[h for s, h in ines.page.links if s == "Meter and record"].index(record))
    ines.follow("Plan")
    sheet = ines.fetch(next(said for said, _href in ines.page.links if said.startswith("Sheet: ")))
    words = PdfReader(io.BytesIO(sheet.content)).pages[0].extract_text()
    assert f"{number} Hollis" in words
    assert "ACTUAL" in words
    ines.follow("Meter and record")
    ines.press("Save", {"text": "1.4 +0.2"})
    assert "f/1.4 +0.2" in ines.page.words
    ines.press("Note it", {"about": "A", "what": "distance", "actual": "1.85 m", "why": "radiator"})
    ines.press("Sign the record")
    assert "Signed by Ines Calloway" in ines.page.words
    assert "A, distance: planned" in ines.page.words
    assert "done 1.85 m (radiator)" in ines.page.words


@pytest.mark.usefixtures("studio")
def test_a_signed_record_and_an_unclear_reading_keep_nothing() -> None:
    plan = lindenmere.plan("askew")
    ines = lindenmere.visitor("assistant")
    ines.open(f"/sittings/{plan.sitting.number}/plans/{plan.number}/record/")
    assert "can be read in two ways or in none" in ines.press("Save", {"text": "5.6 or so"}).words
    assert Reading.objects.count() == 0
    assert "Nothing has been metered yet." in signed_unmetered(plan.sitting.number, plan.number)
    assert not Record.objects.exists()
    ines.press("Save", {"text": "5.6"})
    earlier = ines.page.form_with("Save")
    ines.press("Sign the record")
    late = ines.client.post(earlier.action, earlier.values | {"text": "8"}, follow=True)
    assert "This record is signed." in late.content.decode()
    assert Reading.objects.count() == 1


def signed_unmetered(number: str, version: int) -> str:
    """A press on Sign from a page that still shows it."""
    client = lindenmere.client_of("assistant")
    answer = client.post(f"/sittings/{number}/plans/{version}/record/sign/", follow=True)
    return str(answer.content.decode())
