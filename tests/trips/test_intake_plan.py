"""An intake answered on a phone changes the plan, and the plan says so."""

from __future__ import annotations

from django.test import Client
from django.urls import reverse

from bookings import intake_links
from bookings.actions import intake
from tests import lindenmere


def test_an_intake_answered_on_a_phone_changes_the_plan_and_says_so(db: None) -> None:
    lindenmere.build()
    sitting = lindenmere.sitting("dorrow")
    row = intake.make_link(sitting=sitting)
    pk = sitting.sitters.get().pk
    sent = {"part": "answers", "who": str(pk), f"p{pk}-hearing": "true"}
    Client().post(reverse("intake", kwargs={"signed": intake_links.signed(row)}), sent)
    tobiah = lindenmere.visitor("photographer")
    page = tobiah.open(reverse("plan", args=[sitting.number, lindenmere.plan("dorrow").number]))
    assert "Something this plan was made from has changed since" in page.words
    assert "Came in since, from notes and answers:" in page.words
