"""Arrivals: who comes, what they allow, who answers for a minor, and what the owner lets go."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings import access_needs, arrivals, permissions
from bookings.actions import arrivals as actions
from bookings.actions import money, sittings
from bookings.actions.arrivals import Signature
from bookings.actions.sittings import SitterInput
from bookings.models import Client, Consent, Guardian, Notes, Release, Sitter, Sitting, Waiver
from bookings.permissions import Permission
from bookings.refusals import AnsweredMeanwhile, NoteNeeded, WrongSignature
from tests import cast
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.making import House, at
from tests.pages import Visitor

NOW, TODAY = at(9), date(2026, 12, 3)
JUNO = (SitterInput("Juno", age_years=16),)
MOTHER = Signature("Clemence Tarrant", "mother", "01632 960177")


@pytest.fixture(autouse=True)
def clock_at_now(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, NOW)


@pytest.fixture
def askews(house: House) -> Sitting:
    return sittings.change_stage(by=house.desk, sitting=house.book(), to="confirmed")


@pytest.fixture
def tarrants(house: House) -> Sitting:
    juno = house.book(client=Client(name="Juno Tarrant"), starts_at=at(14), sitters=JUNO)
    return sittings.change_stage(by=house.desk, sitting=juno, to="confirmed")


def who(sitting: Sitting, *labels: str) -> list[int]:
    found = sitting.sitters.filter(label__in=labels) if labels else sitting.sitters.all()
    return [sitter.pk for sitter in found]


def of(sitting: Sitting, label: str) -> Permission:
    return next(one for one in permissions.of_sitting(sitting) if one.sitter.label == label)


def stands(sitting: Sitting, label: str) -> list[tuple[str, str]]:
    return [(said.words, said.shape) for said in of(sitting, label).stand]


def sign(house: House, sitting: Sitting, *labels: str, **more: Any) -> None:
    said = {"signature": Signature(), "how": "paper", "signed_on": TODAY} | more
    actions.sign(by=house.desk, sitting=sitting, people=who(sitting, *labels), **said)


def answer(house: House, sitting: Sitting, label: str, what: str, said: str, seen: str) -> None:
    (pk,) = who(sitting, label)
    actions.answer(by=house.desk, sitting=sitting, answers={(pk, what): (said, seen)}, how="desk")


def history(sitting: Sitting) -> list[str]:
    return [change.sentence for change in sitting.changes.filter(what="permission")]


def board() -> arrivals.Board:
    return arrivals.board(TODAY, now=NOW, today=TODAY)


def test_feature_12_the_board_says_release_guardian_deposit_and_needs_at_one_glance(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    agree(house)
    sitting = house.book()
    Notes.objects.create(sitter=sitting.sitters.get(label="Bertram"), no_flash=True, low_vision=True)
    sittings.change_stage(by=house.desk, sitting=sitting, to="confirmed", trust_until=TODAY)
    sign(house, sitting, "Ottoline")
    (one,) = board().coming
    assert [(said.words, said.shape, names) for said, names in one.said] == [
        ("missing: release", "missing", "Bertram"),
        ("release signed", "ready", "Ottoline"),
    ]
    assert (one.stand.words, one.money.words) == ("not ready", "deposit on trust until Thursday 3 December 2026")
    assert one.needs == ["clear path", "chair with arms", "no flash", "offer an arm, say what is where"]
    sign(house, sitting, "Bertram")
    money.take(by=house.desk, sitting=sitting, kind="deposit", amount=again(sitting).deposit, method="card")
    (one,) = board().coming
    assert (one.stand.words, one.money.words) == ("ready", "deposit paid")
    set_clock(monkeypatch, at(9, 55))
    (one,) = arrivals.board(TODAY, now=at(9, 55), today=TODAY).coming
    assert one.late is not None
    assert one.late.minutes_late == 25
    sittings.change_stage(by=house.desk, sitting=sitting, to="arrived")
    assert [(row.sitting, row.late) for row in board().here] == [(sitting, None)]


def test_the_board_has_those_who_are_expected_and_nobody_else(house: House, askews: Sitting) -> None:
    waiting = house.book(client=Client(name="Wren Hollis"), behind=askews)
    tomorrow = house.book(client=Client(name="Ignace Dorrow"), starts_at=at(9, days=1))
    cancelled = house.book(client=Client(name="Nell Hart"), room=house.other_room, starts_at=at(14))
    sittings.change_stage(by=house.desk, sitting=cancelled, to="cancelled", note="ill")
    held = house.book(client=Client(name="Corin Ash"), starts_at=at(16))
    found = board()
    assert [one.sitting for one in found.coming] == [askews, held]
    assert found.here == []
    assert {waiting, tomorrow, cancelled}.isdisjoint(one.sitting for one in found.coming)
    assert not found.coming[1].may_arrive


def test_feature_13_a_minor_is_ready_when_a_guardian_has_signed_and_not_before(house: House, tarrants: Sitting) -> None:
    assert stands(tarrants, "Juno") == [
        ("missing: guardian's signature", "broken"),
        ("missing: guardian's name and telephone", "missing"),
    ]
    with pytest.raises(WrongSignature, match="Name the guardian who signs for Juno"):
        sign(house, tarrants)
    with pytest.raises(WrongSignature, match="Under 18 a guardian signs"):
        sign(house, tarrants, signature=Signature("Juno Tarrant"))
    with pytest.raises(WrongSignature, match="telephone"):
        sign(house, tarrants, signature=Signature("Clemence Tarrant", "mother"))
    assert (Release.objects.count(), Guardian.objects.count()) == (0, 0)
    actions.name_guardian(
        by=house.desk, sitting=tarrants, people=who(tarrants), signature=MOTHER, how="desk"
    )  # fmt: skip
    assert stands(tarrants, "Juno") == [("missing: guardian's signature", "broken")]
    assert permissions.not_signed(permissions.of_sitting(tarrants))
    sign(house, tarrants, signature=MOTHER)
    assert stands(tarrants, "Juno") == [("release signed by the guardian", "ready")]
    assert not permissions.not_signed(permissions.of_sitting(tarrants))
    assert history(tarrants) == [
        "guardian of Juno: Clemence Tarrant (mother)",
        "release of Juno: signed by Clemence Tarrant (mother), on paper",
    ]


def test_the_board_shows_a_minor_without_a_signature_in_the_colour_of_a_broken_limit(
    house: House, tarrants: Sitting
) -> None:
    page = Visitor(cast.client_of(house.desk)).open("/arrivals/?day=2026-12-03")
    assert '<span class="said broken">missing: guardian&#x27;s signature</span>: Juno (16)' in page.html
    sign(house, tarrants, signature=MOTHER)
    assert "broken" not in Visitor(cast.client_of(house.desk)).open("/arrivals/?day=2026-12-03").html


def test_a_name_signed_before_the_age_was_corrected_is_no_signature(house: House, askews: Sitting) -> None:
    sign(house, askews, "Ottoline")
    Sitter.objects.filter(label="Ottoline").update(age_years=17.5)
    assert not of(askews, "Ottoline").is_signed
    Sitter.objects.filter(label="Ottoline").update(age_years=18)
    assert of(askews, "Ottoline").is_signed


def test_each_adult_signs_alone_on_a_day_that_has_come(house: House, askews: Sitting) -> None:
    with pytest.raises(WrongSignature, match="Each adult signs alone"):
        sign(house, askews, signature=Signature("Ottoline Askew"))
    with pytest.raises(WrongSignature, match="still to come"):
        sign(house, askews, signed_on=date(2026, 12, 4))
    with pytest.raises(WrongSignature, match="Choose whom"):
        actions.sign(by=house.desk, sitting=askews, people=[], signature=Signature(), how="desk", signed_on=TODAY)
    sign(house, askews, "Ottoline", signature=Signature("Ottoline Askew", limits="not for posters."))
    assert of(askews, "Ottoline").release_words == (
        "Signed by Ottoline Askew on Thursday 3 December 2026, on paper; entered by Maud Ferriby. "
        "Limits: not for posters."
    )


def test_feature_14_withdrawing_publish_leaves_photograph_with_its_day(
    house: House, askews: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    for what in ("photograph", "publish", "keep_notes"):
        answer(house, askews, "Ottoline", what, "yes", "")
    set_clock(monkeypatch, at(9, days=5))
    answer(house, askews, "Ottoline", "publish", "no", "yes")
    kept = of(askews, "Ottoline")
    assert [kept.answer_to(what) for what in ("photograph", "publish", "keep_notes")] == ["yes", "withdrawn", "yes"]
    assert kept.consents["photograph"].at == NOW
    assert kept.consents["publish"].at == at(9, days=5)
    assert kept.consent_words[1] == (
        "publish: withdrawn, Tuesday 8 December 2026, at the desk, entered by MF"
    )  # fmt: skip
    assert history(askews)[-1] == "publish of Ottoline: withdrawn, before yes"
    assert of(askews, "Bertram").consents == {}
    assert not kept.refused
    answer(house, askews, "Ottoline", "photograph", "no", "yes")
    assert stands(askews, "Ottoline")[-1] == ("not to be photographed", "broken")


def test_an_answer_given_meanwhile_is_not_overwritten_unseen(house: House, askews: Sitting) -> None:
    answer(house, askews, "Ottoline", "publish", "no", "")
    (pk,) = who(askews, "Ottoline")
    both = {(pk, "photograph"): ("yes", ""), (pk, "publish"): ("yes", "")}
    with pytest.raises(AnsweredMeanwhile, match="Ottoline"):
        actions.answer(by=house.desk, sitting=askews, answers=both, how="paper")
    assert list(Consent.objects.values_list("what", "answer")) == [("publish", "no")]
    answer(house, askews, "Ottoline", "publish", "", "no")
    assert not Consent.objects.exists()
    assert history(askews)[-1] == "publish of Ottoline: not asked, before no"


def test_the_desk_asks_and_the_owner_waives_with_a_note(house: House, tarrants: Sitting) -> None:
    people, owner = who(tarrants), house.members["owner"]
    with pytest.raises(NoteNeeded):
        actions.waive(by=owner, sitting=tarrants, people=people, note=" ")
    actions.waive(by=house.desk, sitting=tarrants, people=people, note="mother is in hospital")
    assert of(tarrants, "Juno").waiver_asked
    assert permissions.not_signed(permissions.of_sitting(tarrants))
    page = Visitor(cast.client_of(owner)).open("/arrivals/?day=2026-12-03")
    assert "Maud Ferriby asks the owner to waive the release of Juno: mother is in hospital" in page.words
    actions.waive(by=owner, sitting=tarrants, people=people, note="she rang me")
    assert stands(tarrants, "Juno")[0] == ("release waived by HV", "waived")
    assert history(tarrants) == ["release of Juno: the owner was asked to waive it", "release of Juno: waived"]
    assert [change.note for change in tarrants.changes.all()] == ["mother is in hospital", "she rang me"]
    actions.take_back(by=owner, sitting=tarrants, people=people, note="she will sign")
    assert (Waiver.objects.count(), stands(tarrants, "Juno")[0][1]) == (0, "broken")


def test_needs_are_consequences_without_a_name_or_a_condition() -> None:
    sitter = Sitter(label="Bertram", age_years=30)
    said = {"no_flash": True, "hip_or_back": True, "low_vision": True, "hearing": True, "sensory": True, "tremor": True}
    sitter.notes = Notes(stand_minutes=0, **said)
    words = " ".join(access_needs.of([sitter])).lower()
    assert len(access_needs.of([sitter])) == len(access_needs.NEEDS)
    conditions = ("bertram", "hip", "back", "hear", "sees", "vision", "trem", "wheelchair", "deaf", "blind", "epilep")
    assert [one for one in conditions if one in words] == []
    assert access_needs.of([Sitter(label="Wren", age_years=58)]) == []
    assert access_needs.of([Sitter(label="Edmund", age_years=75)]) == ["chair with arms"]


def test_one_tap_and_they_are_here(house: House, askews: Sitting) -> None:
    desk = Visitor(cast.client_of(house.desk))
    desk.open("/arrivals/?day=2026-12-03")
    page = desk.press("Arrived: Askew")
    assert page.address.startswith("/arrivals/?day=2026-12-03")
    assert "L-0001, Askew: Arrived. Studio's move: photograph until 10:45." in page.words
    assert again(askews).stage == "arrived"
    late = cast.client_of(house.desk).post("/arrivals/L-0001/", {"seen": str(askews.version)}, follow=True)
    assert "Somebody else changed L-0001" in late.content.decode()


def test_the_desk_enters_release_and_consents_on_one_page(house: House, askews: Sitting) -> None:
    desk = Visitor(cast.client_of(house.desk))
    desk.open("/arrivals/?day=2026-12-03")
    desk.follow("Release and consents: Askew")
    page = desk.press("Save the release")
    assert "release signed: Ottoline, Bertram" in page.words
    assert set(Release.objects.values_list("signed_by", "how")) == {("Ottoline", "paper"), ("Bertram", "paper")}
    desk.follow("Release and consents: Askew")
    (pk,) = who(askews, "Bertram")
    desk.press("Save the answers", {f"publish-{pk}": "no", f"photograph-{pk}": "yes"})
    kept = set(Consent.objects.values_list("sitter", "what", "answer"))
    assert kept == {(pk, "photograph", "yes"), (pk, "publish", "no")}


def test_what_was_typed_stays_beside_what_is_wrong(house: House, tarrants: Sitting) -> None:
    desk = Visitor(cast.client_of(house.desk))
    desk.open(f"/sittings/{tarrants.number}/permissions/")
    page = desk.press("Save the release", {"signed_by": "Clemence Tarrant", "limits": "no first name"})
    assert page.status == 422
    assert "say what the signer is to Juno" in page.words
    form = page.form_with("Save the release")
    assert (form.values["signed_by"], form.values["limits"]) == (["Clemence Tarrant"], ["no first name"])
    too_long = desk.press("Save the release", {"signed_by": "x" * 300})
    assert too_long.status == 422
    assert not Release.objects.exists()
    page = desk.press("Ask the owner to waive it", {"waive_note": ""})
    assert (page.status, "Say why in the note" in page.words) == (422, True)


def test_notes_kept_against_a_sitters_will_are_pointed_out_without_what_they_say(house: House, askews: Sitting) -> None:
    Notes.objects.create(sitter=askews.sitters.get(label="Bertram"), tremor=True)
    answer(house, askews, "Bertram", "keep_notes", "no", "")
    page = Visitor(cast.client_of(house.desk)).open(f"/sittings/{askews.number}/permissions/")
    assert "Comfort notes of Bertram are kept though they may not be" in page.words
    assert "trembles" not in page.html


@pytest.mark.parametrize("day", ["2026-12-03", "yesterday", "", "99999-01-01"])
def test_any_day_is_answered(house: House, day: str) -> None:
    assert Visitor(cast.client_of(house.desk)).open(f"/arrivals/?day={day}").status == 200


def test_the_board_asks_no_more_for_more_people_and_sittings(house: House, askews: Sitting) -> None:
    client = cast.client_of(house.desk)

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            fragment = client.get("/arrivals/?day=2026-12-03", headers={"X-Fragment": "yes"})
        assert "<html" not in fragment.content.decode()
        return len(queries)

    of_one = asked()
    for hour in (12, 14, 16):
        people = [SitterInput(f"Person {n}", age_years=9 + n) for n in range(14)]
        row = house.book(client=Client(name=f"Hollis {hour}"), starts_at=at(hour), sitters=people)
        sign(house, row, signature=MOTHER)
        answer(house, row, "Person 3", "publish", "yes", "")
    assert asked() == of_one <= 14


def test_of_very_many_names_the_first_are_said_and_how_many_more_there_are() -> None:
    names = [f"No. {number}" for number in range(30)]
    assert arrivals.listed(names[:21]) == ", ".join(names[:21])
    assert arrivals.listed(names) == f"{', '.join(names[:20])} and 10 more"


def test_names_written_from_the_right_stand_apart_from_the_commas_between_names(house: House) -> None:
    people = [SitterInput(label=name, age_years=40) for name in ("Odile", "נעמי")]
    sitting = sittings.change_stage(by=house.desk, sitting=house.book(sitters=people), to="confirmed")
    [line] = [one for one in board().coming if one.sitting == sitting]
    assert "Odile, \N{FIRST STRONG ISOLATE}נעמי\N{POP DIRECTIONAL ISOLATE}" in [names for _said, names in line.said]
