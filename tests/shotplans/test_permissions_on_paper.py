"""What sitters and guardians have not signed stands on the setup sheet, and goes when it is signed."""

from __future__ import annotations

from datetime import date

from bookings.actions import arrivals
from bookings.actions.arrivals import Signature
from bookings.models import Consent, Release
from shotplans import paper
from studio.models import Profile
from tests import lindenmere

MOTHER = Signature("Clemence Tarrant", "mother", "01632 960177")


def alerts(name: str) -> set[str]:
    return {alert for sheet in paper.sheets(lindenmere.plan(name), Profile.get()) for alert in sheet.alerts}


def test_feature_13_the_sheet_says_guardian_and_a_release_that_is_not_signed(studio: None) -> None:
    sitting, desk = lindenmere.sitting("tarrant"), lindenmere.member("front_desk")
    people = [sitter.pk for sitter in sitting.sitters.all()]
    assert alerts("tarrant") == {"GUARDIAN IN ROOM", "RELEASE NOT SIGNED"}
    said = {"by": desk, "sitting": sitting, "people": people}
    arrivals.sign(**said, signature=MOTHER, how="paper", signed_on=date(2020, 1, 1))
    assert alerts("tarrant") == {"GUARDIAN IN ROOM"}
    arrivals.take_back(**said, note="she read it again")
    assert "RELEASE NOT SIGNED" in alerts("tarrant")
    arrivals.waive(by=lindenmere.member("owner"), sitting=sitting, people=people, note="for the school alone")
    assert alerts("tarrant") == {"GUARDIAN IN ROOM"}


def test_one_who_must_not_be_photographed_sends_the_set_to_the_desk(studio: None) -> None:
    sitting, desk = lindenmere.sitting("marrowfield"), lindenmere.member("front_desk")
    corin = sitting.sitters.get(label="Corin")
    assert "SEE DESK" not in alerts("marrowfield")
    arrivals.answer(by=desk, sitting=sitting, answers={(corin.pk, "photograph"): ("no", "")}, how="desk")
    assert "SEE DESK" in alerts("marrowfield")
    assert Consent.objects.get().answer == "no"
    Release.objects.filter(sitter=corin).delete()
    assert {"SEE DESK", "RELEASE NOT SIGNED"} <= alerts("marrowfield")
