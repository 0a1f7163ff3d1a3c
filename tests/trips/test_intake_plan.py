"""An intake answered on a phone changes the plan, and the plan says so."""

from __future__ import annotations

import io

from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from bookings import intake_links
from bookings.actions import intake
from shotplans import scenario_intake
from shotplans.actions import plans
from tests import lindenmere
from tests.pages import Visitor


def test_an_intake_answered_on_a_phone_changes_the_plan_and_says_so(studio: None) -> None:
    sitting = lindenmere.sitting("dorrow")
    row = intake.make_link(sitting=sitting)
    pk = sitting.sitters.get().pk
    sent = {"part": "answers", "who": str(pk), f"p{pk}-hearing": "true"}
    Client().post(reverse("intake", kwargs={"signed": intake_links.signed(row)}), sent)
    tobiah = lindenmere.visitor("photographer")
    page = tobiah.open(reverse("plan", args=[sitting.number, lindenmere.plan("dorrow").number]))
    assert "Something this plan was made from has changed since" in page.words
    assert "Came in since, from notes and answers:" in page.words
    former = page.address
    plans.make_plan(by=lindenmere.member("photographer"), sitting=sitting, why="answered")
    page = tobiah.open(reverse("plan", args=[sitting.number, 2]))
    assert "What is otherwise than in the plan before" in page.words
    assert "now: " in page.words
    assert "Came in since" not in page.words
    plans.make_plan(by=lindenmere.member("photographer"), sitting=sitting, why="once more")
    assert "What is otherwise" not in tobiah.open(reverse("plan", args=[sitting.number, 3])).words  # nothing is
    for address in (former, reverse("plan", args=[sitting.number, 2])):
        assert "What is otherwise" not in tobiah.open(address).words


def test_feature_13_the_setup_sheet_says_so_until_a_guardian_signs_by_link(studio: None) -> None:
    sitting = lindenmere.sitting("tarrant")
    tobiah = lindenmere.visitor("photographer")

    def sheet() -> str:
        address = reverse("setup_sheet", args=[sitting.number, lindenmere.plan("tarrant").number, 1])
        return "".join(page.extract_text() for page in PdfReader(io.BytesIO(tobiah.client.get(address).content)).pages)

    assert "RELEASE NOT SIGNED" in sheet()
    assert "GUARDIAN IN ROOM" in sheet()
    mother = Visitor(Client())
    row = intake.make_link(sitting=sitting)
    mother.open(reverse("intake", kwargs={"signed": intake_links.signed(row)}))
    pre = f"s{sitting.sitters.get().pk}"
    typed = {f"{pre}-signed_by": "Clemence Tarrant", f"{pre}-relation": "mother", f"{pre}-phone": "01632 960177"}
    assert "Signed by Clemence Tarrant" in mother.press("Sign for Juno", typed | {f"{pre}-agree": "on"}).words
    assert "RELEASE NOT SIGNED" not in sheet()
    assert "GUARDIAN IN ROOM" in sheet()  # she is asked to be there all the same


def test_the_demo_shows_an_answer_that_came_in_since(studio: None) -> None:
    said = scenario_intake.ask()
    assert "Juno Tarrant: answered since the plan" in said
    address = reverse("plan", args=[lindenmere.sitting("tarrant").number, lindenmere.plan("tarrant").number])
    page = lindenmere.visitor("photographer").open(address)
    assert "Came in since, from notes and answers:" in page.words
    assert "left" not in page.words.split("Came in since")[1].split("Problems")[0]  # nothing of her own words
