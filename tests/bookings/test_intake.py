"""Links to an intake, and what is kept of the answers. The walk of the whole is in `tests/trips/test_intake.py`."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.core import signing
from django.test import Client
from django.urls import reverse

from bookings import intake_links
from bookings.actions import comfort, intake
from bookings.models import Consent, Intake, IntakeAnswer, Notes, Release, SittingChange, Stage, Wish
from studio import clock
from tests import cast
from tests.bookings.agreeing import set_clock
from tests.bookings.making import House, at, make_house


@pytest.fixture
def house(db: None, settings: Any, monkeypatch: pytest.MonkeyPatch) -> House:
    settings.SITTING_PANELS = []
    set_clock(monkeypatch, at(9, days=-7))
    return make_house()


@pytest.fixture
def asked(house: House) -> Intake:
    return intake.make_link(sitting=house.book())


def path_of(row: Intake) -> str:
    return reverse("intake", kwargs={"signed": intake_links.signed(row)})


def test_a_link_opens_twice_without_cookie_and_says_nothing_of_anybody(asked: Intake) -> None:
    client = Client()
    for _again in range(2):
        answer = client.get(path_of(asked))
        assert answer.status_code == 200
        assert answer["Cache-Control"] == "no-store"
        assert answer["Referrer-Policy"] == "no-referrer"
        assert not answer.cookies
    assert "skew" not in path_of(asked).lower()
    assert asked.sitting.number not in path_of(asked)


def test_an_altered_foreign_or_guessed_link_gets_a_plain_page(asked: Intake, house: House) -> None:
    other = intake.make_link(sitting=house.book(starts_at=at(15)))
    mixed = signing.dumps([asked.sitting_id, other.secret], salt="bookings.intake")
    foreign = signing.dumps([asked.sitting_id, asked.secret], salt="bookings.links.answer")
    for text in (intake_links.signed(asked)[:-2] + "xx", mixed, foreign, "x", "a:b:c", "é" * 300, signing.dumps("x")):
        for address in ("intake", "intake_copy"):
            answer = Client().get(reverse(address, kwargs={"signed": text}))
            assert answer.status_code == 410, text
            assert "Askew" not in answer.content.decode()
        assert Client().post(reverse("intake", kwargs={"signed": text}), {"part": "opened"}).status_code == 410


def test_a_new_link_ends_the_old_one_and_time_ends_both(asked: Intake, monkeypatch: pytest.MonkeyPatch) -> None:
    old = path_of(asked)
    new = path_of(intake.make_link(sitting=asked.sitting))
    assert (Client().get(old).status_code, Client().get(new).status_code) == (410, 200)
    set_clock(monkeypatch, at(9) + timedelta(days=40))
    assert Client().get(new).status_code == 410


def test_a_sitting_called_off_ends_its_link(asked: Intake) -> None:
    asked.sitting.stage = Stage.CANCELLED
    asked.sitting.save()
    assert Client().get(path_of(asked)).status_code == 410


def test_looking_writes_nothing(asked: Intake) -> None:
    Client().get(path_of(asked))
    assert Intake.objects.get().opened_at is None
    Client().post(path_of(asked), {"part": "opened"})
    assert Intake.objects.get().opened_at == clock.now()


def test_nobody_of_another_sitting_is_answered_for(asked: Intake, house: House) -> None:
    other = house.book(starts_at=at(15)).sitters.first()
    for part in ("answers", "consents", "sign"):
        sent = {"part": part, "who": str(other.pk), f"p{other.pk}-hair": "grey"}
        assert Client().post(path_of(asked), sent).status_code == 404
    assert not IntakeAnswer.objects.exists()


def test_what_the_studio_noted_is_not_wiped_and_both_are_said(asked: Intake) -> None:
    sitter = asked.sitting.sitters.first()
    comfort.add(sitter=sitter, notes={"texture": "deep lines"}, wishes=[{"note": "lines", "wish": "shown"}])
    said = {"lines": ("fine lines", "only when I laugh"), "lines_wish": ("softer", ""), "hair": ("grey", "")}
    assert intake.keep(intake=asked, sitter=sitter, said=said) == 3
    notes = Notes.objects.get(sitter=sitter)
    assert (notes.texture, notes.hair) == ("deep lines", "grey")
    assert Wish.objects.get(sitter=sitter).wish == "shown"
    assert {one.question for one in IntakeAnswer.objects.filter(apart=True)} == {"lines", "lines_wish"}


def test_a_client_may_change_their_mind(asked: Intake) -> None:
    sitter = asked.sitting.sitters.first()
    for value in ("softer", "shown"):
        intake.keep(intake=asked, sitter=sitter, said={"lines_wish": (value, ""), "hair": ("grey", "")})
    assert Wish.objects.get(sitter=sitter).wish == "shown"
    intake.keep(intake=asked, sitter=sitter, said={"hair": ("white", "")})
    assert Notes.objects.get(sitter=sitter).hair == "white"
    assert not IntakeAnswer.objects.filter(apart=True).exists()


def test_a_client_may_take_an_answer_back(asked: Intake) -> None:
    sitter = asked.sitting.sitters.first()
    type(asked.sitting).objects.update(print_width_cm=None)
    type(sitter).objects.update(age_years=None, posture="")
    intake.keep(intake=asked, sitter=None, said={"width": ("60", "")})
    said = {"hair": ("grey", "since spring"), "lines_wish": ("softer", ""), "seat": ("seated", ""),
            "no_flash": ("true", ""), "stand": ("5", ""), "age": ("61", "")}  # fmt: skip
    intake.keep(intake=asked, sitter=sitter, said=said)
    assert intake.keep(intake=asked, sitter=sitter, said={}, back={"hair"}) == 1
    assert (Notes.objects.get().hair, IntakeAnswer.objects.get(question="hair").words) == ("", "since spring")
    intake.keep(intake=asked, sitter=None, said={}, back={"width"})
    assert intake.keep(intake=asked, sitter=sitter, said={}, back={*said, "hair-words"}) == 6
    notes = Notes.objects.get()
    sitter.refresh_from_db()
    asked.sitting.refresh_from_db()
    assert (notes.no_flash, notes.stand_minutes, sitter.posture, sitter.age_years) == (None, None, "", None)
    assert asked.sitting.print_width_cm is None
    assert not Wish.objects.exists()
    assert not IntakeAnswer.objects.exists()


def test_what_the_studio_noted_otherwise_outlives_an_answer_taken_back(asked: Intake) -> None:
    sitter = asked.sitting.sitters.first()
    comfort.add(sitter=sitter, notes={"hair": "dark"}, wishes=[{"note": "lines", "wish": "shown"}])
    intake.keep(intake=asked, sitter=sitter, said={"hair": ("grey", ""), "lines_wish": ("softer", "")})
    intake.keep(intake=asked, sitter=sitter, said={}, back={"hair", "lines_wish"})
    assert (Notes.objects.get().hair, Wish.objects.get().wish) == ("dark", "shown")


def test_no_answer_takes_back_and_a_blank_field_alone_does_not(asked: Intake) -> None:
    sitter = asked.sitting.sitters.first()
    pre, path = f"p{sitter.pk}", path_of(asked)
    sent = {"part": "answers", "who": str(sitter.pk)}
    said = {f"{pre}-hair": "grey", f"{pre}-stand": "5", f"{pre}-else-words": "slowly"}
    Client().post(path, sent | said)
    Client().post(path, sent | {f"{pre}-stand": "", f"{pre}-else-words": ""})
    assert IntakeAnswer.objects.count() == 3
    Client().post(path, sent | {f"{pre}-hair": "-", f"{pre}-stand-back": "on"})
    assert IntakeAnswer.objects.get().question == "else"
    Client().post(path, sent | {f"{pre}-else-words": "", "emptied": f"{pre}-else-words"})
    assert not IntakeAnswer.objects.exists()


def test_a_slip_in_ones_own_age_can_be_mended(asked: Intake) -> None:
    sitter = asked.sitting.sitters.first()
    type(sitter).objects.update(age_years=None)
    for age in ("61", "16"):
        Client().post(path_of(asked), {"part": "answers", "who": str(sitter.pk), f"p{sitter.pk}-age": age})
        sitter.refresh_from_db()
        assert sitter.age_years == float(age)


def test_answers_are_in_no_history_and_not_shown_again(asked: Intake, house: House) -> None:
    sitter = asked.sitting.sitters.first()
    sent = {"part": "answers", "who": str(sitter.pk), f"p{sitter.pk}-no_flash": "true",
            f"p{sitter.pk}-no_flash-words": "bright bursts trouble me"}  # fmt: skip
    page = Client().post(path_of(asked), sent, follow=True).content.decode()
    assert "bright bursts" not in page
    assert not SittingChange.objects.exists()
    desk = cast.client_of(house.desk)
    number = asked.sitting.number
    for page in ("", "intake/enter/", f"notes/{sitter.pk}/"):
        assert "bright bursts" not in desk.get(f"/sittings/{number}/{page}").content.decode()
    photographer = cast.client_of(house.members["photographer"])
    assert "bright bursts" in photographer.get(f"/sittings/{number}/notes/{sitter.pk}/").content.decode()


@pytest.mark.parametrize("value", ["x", "1e999", "-4", "nan"])
def test_a_wrong_number_gets_a_sentence_and_keeps_what_was_typed(asked: Intake, value: str) -> None:
    sitter = asked.sitting.sitters.first()
    pre = f"p{sitter.pk}"
    sent = {"part": "answers", "who": str(sitter.pk), f"{pre}-stand": value, f"{pre}-else-words": "שלום 🌷"}
    answer = Client().post(path_of(asked), sent)
    assert answer.status_code == 422
    assert "שלום 🌷" in answer.content.decode()
    assert not IntakeAnswer.objects.exists()


def test_a_release_signed_by_link_keeps_words_version_and_drawing(asked: Intake, house: House) -> None:
    intake.word_release(by=house.members["owner"], words="I agree to be photographed at Lindenmere.")
    sitter = asked.sitting.sitters.first()
    pre = f"s{sitter.pk}"
    sent = {"part": "sign", "who": str(sitter.pk), f"{pre}-signed_by": "Ottoline Askew", f"{pre}-version": "1",
            f"{pre}-agree": "on", f"{pre}-drawn": "1,2 30,40; 50,60"}  # fmt: skip
    for name, value in (("version", "0"), ("drawn", "<script>"), ("agree", ""), ("signed_by", "")):
        assert Client().post(path_of(asked), sent | {f"{pre}-{name}": value}).status_code == 422
    assert Client().post(path_of(asked), sent).status_code == 302
    intake.word_release(by=house.members["owner"], words="Other words.")
    row = Release.objects.get()
    assert (row.how, row.by, row.wording_version) == ("link", None, 1)
    assert row.wording == "I agree to be photographed at Lindenmere."
    assert row.drawn == "1,2 30,40; 50,60"


def test_a_page_with_many_people_asks_the_database_no_more(
    asked: Intake, django_assert_max_num_queries: Any
) -> None:
    with django_assert_max_num_queries(14):
        Client().get(path_of(asked))


def test_after_the_sitting_only_consents_are_open(asked: Intake) -> None:
    sitter = asked.sitting.sitters.first()
    asked.sitting.stage = Stage.PHOTOGRAPHED
    asked.sitting.save()
    sent = {"part": "answers", "who": str(sitter.pk), f"p{sitter.pk}-hair": "grey"}
    assert Client().post(path_of(asked), sent).status_code == 404
    Client().post(path_of(asked), {"part": "consents", "who": str(sitter.pk), f"c{sitter.pk}-publish": "no"})
    assert Consent.objects.get().answer == "no"
