"""An intake from the desk's link to the photographer's page, by the pages' own links and buttons alone."""

from __future__ import annotations

import io
from typing import Any
from urllib.parse import urlsplit

import pytest
from django.test import Client
from pypdf import PdfReader

from bookings import intake_questions
from bookings.actions.sittings import SitterInput
from bookings.models import Consent, Intake, IntakeAnswer, Kind, Letter, Notes, Sitter, Sitting
from studio.models import Profile
from tests.bookings.agreeing import set_clock
from tests.bookings.making import House, at, make_house, visitor
from tests.pages import Visitor

ROWS = range(1, 52)  # of the consultation


@pytest.fixture
def house(db: None, settings: Any, monkeypatch: pytest.MonkeyPatch) -> House:
    settings.SITTING_PANELS = []
    set_clock(monkeypatch, at(8, days=-7))
    return make_house()


def link_from(house: House, sitting: Sitting) -> str:
    """What the desk does, and what stands in its field to be copied."""
    maud = visitor(house, "front_desk")
    maud.open(f"/sittings/{sitting.number}/")
    page = maud.press("Make the link")
    link = page.html.split('id="intake-link" readonly value="')[1].split('"')[0]
    return urlsplit(link).path


def at_home(house: House, sitting: Sitting) -> Visitor:
    client = Visitor(Client())
    client.open(link_from(house, sitting))
    return client


def test_feature_13_a_guardian_signs_on_a_phone_and_the_board_says_so(house: House) -> None:
    sitting = house.book(sitters=[SitterInput("Juno", age_years=16)])
    mother = at_home(house, sitting)
    assert "Juno is under 18: a guardian signs here." in mother.page.words
    relation, phone = "What you are to them: mother, grandfather, guardian", "Your telephone"
    own = {"Your name, as guardian of Juno": "Juno", relation: "self", phone: "01632 960777", "agree": "on"}
    own = {(f"s{sitting.sitters.get().pk}-agree" if k == "agree" else k): v for k, v in own.items()}
    assert "their own name is no signature" in mother.press("Sign for Juno", own).words
    board = visitor(house, "front_desk").open(f"/arrivals/?day={at(0):%Y-%m-%d}")
    assert "missing: guardian's signature" in board.words
    page = mother.press("Sign for Juno", own | {"Your name, as guardian of Juno": "Ada Tarrant", relation: "mother"})
    assert "Signed by Ada Tarrant (mother)" in page.words
    board = visitor(house, "front_desk").open(f"/arrivals/?day={at(0):%Y-%m-%d}")
    assert "missing: guardian's signature" not in board.words
    copy = "".join(p.extract_text() for p in PdfReader(io.BytesIO(mother.fetch(
        "Your copy: release and consents (PDF)").content)).pages)  # fmt: skip
    assert "Ada Tarrant (mother)" in " ".join(copy.split())


def test_feature_14_a_client_withdraws_publish_alone_by_the_link(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    sitting = house.book(sitters=[SitterInput("Ottoline", age_years=66)])
    client = at_home(house, sitting)
    pk = sitting.sitters.get().pk
    button = "Save the answers of Ottoline"
    client.press(button, {f"c{pk}-photograph": "yes", f"c{pk}-publish": "yes", f"c{pk}-keep_notes": "no"})
    set_clock(monkeypatch, at(12, days=1))
    page = client.press(button, {f"c{pk}-publish": "no"})
    assert {row.what: row.answer for row in Consent.objects.all()} == {
        "photograph": "yes", "publish": "withdrawn", "keep_notes": "no",
    }  # fmt: skip
    assert Consent.objects.get(what="publish").at == at(12, days=1)
    assert Consent.objects.get(what="photograph").at == at(8, days=-7)
    assert "publish: withdrawn" in page.words


def test_feature_23_every_row_of_the_consultation_is_recorded_in_the_clients_words(house: House) -> None:
    questions = {q.code: q for q in (*intake_questions.OF_SITTING, *intake_questions.OF_SITTER)}
    assert {row for q in questions.values() for row in q.rows} == set(ROWS)
    kind = Kind.objects.create(name="Two characters", minutes=75, intent="character", framing="half")
    sitting = house.book(kind=kind, sitters=[SitterInput("Ignace"), SitterInput("Wilf")])
    client = at_home(house, sitting)
    pk = sitting.sitters.first().pk
    for key, button in (("all", "Save"), (f"p{pk}", "Save for Ignace")):
        form = client.page.form_with(button)
        said = {}
        for code, question in questions.items():
            for name, value in ((f"{key}-{code}", question.choices[0][0] if question.choices else "20"),
                                (f"{key}-{code}-words", f"words on {code}")):  # fmt: skip
                if name in form.values:
                    said[name] = value
        client.press(button, said)
    kept = {answer.question: answer for answer in IntakeAnswer.objects.all()}
    own = {row for code, answer in kept.items() if answer.words for row in questions[code].rows}
    assert own == set(ROWS)
    page = visitor(house, "photographer").open(f"/sittings/{sitting.number}/notes/{pk}/")
    assert "“words on no_flash”" in page.words
    assert "“words on wall”" in page.words
    assert Notes.objects.get(sitter_id=pk).no_flash is True
    assert Sitter.objects.get(pk=pk).posture == "seated"


def test_a_group_is_not_asked_about_every_face(house: House) -> None:
    kind = Kind.objects.create(name="Family group", minutes=75, intent="natural", framing="group")
    sitting = house.book(kind=kind)
    words = at_home(house, sitting).page.words
    assert "Who belongs to whom" in words
    assert "Chin and the line under it" not in words
    assert "What must show" not in words


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_same_questions_on_paper_entered_by_the_desk(house: House, paper: str) -> None:
    Profile.objects.update(paper=paper)
    sitting = house.book()
    maud = visitor(house, "front_desk")
    maud.open(f"/sittings/{sitting.number}/")
    read = PdfReader(io.BytesIO(maud.fetch("Questions on paper (PDF)").content))
    text = " ".join(" ".join(p.extract_text() for p in read.pages).split())
    assert "Do you wear glasses? Which lenses?" in text
    assert "May we show pictures of Bertram to others?" in text
    assert "signature of Ottoline" in text
    maud.follow("Enter what was filled in")
    maud.press("Show the questions of this sitting")
    pk = sitting.sitters.last().pk
    page = maud.press("Save for Bertram", {f"p{pk}-glasses": "usual"})
    assert "Saved: on paper, entered by MF." in page.words
    assert Notes.objects.get(sitter_id=pk).glasses_lens == "usual"
    assert "On paper, entered by MF" in maud.open(f"/sittings/{sitting.number}/").words


def test_the_link_goes_by_letter_and_the_desk_sees_when_not_what(house: House) -> None:
    house.client.email = "askew@quillbridge.example"
    house.client.save()
    sitting = house.book()
    maud = visitor(house, "front_desk")
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Make the link and e-mail it")
    letter = Letter.objects.get()
    assert letter.to == "askew@quillbridge.example"
    client = Visitor(Client())
    client.open(next(urlsplit(line).path for line in letter.body.split("\n") if line.startswith("http")))
    pk = sitting.sitters.first().pk
    client.press("Save for Ottoline", {f"p{pk}-lines": "deep lines", f"p{pk}-lines_wish": "softer"})
    page = maud.open(f"/sittings/{sitting.number}/")
    assert "Last answered" in page.words
    assert "deep lines" not in page.words
    assert Intake.objects.get().entered_by is None


def test_the_owner_words_the_release_anew(house: House) -> None:
    harriet = visitor(house, "owner")
    harriet.open("/studio/")
    harriet.follow("Words of the release")
    page = harriet.press("Put in force", {"words": "We photograph you at Lindenmere, kindly."})
    assert "Version 1 is in force" in page.words
    assert "We photograph you at Lindenmere, kindly." in at_home(house, house.book()).page.words
