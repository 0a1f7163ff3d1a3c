"""Letters from booking to the day, through a real mail server: what the client reads, answers and is asked no more."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from email.message import EmailMessage
from io import BytesIO, StringIO

import pytest
from django.core.management import call_command
from django.test import Client
from icalendar import Calendar
from pypdf import PdfReader

from bookings import links
from bookings.actions import money
from bookings.models import Letter, Sitting, Stage
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.making import House, at, make_house
from tests.bookings.postbox import Postbox, open_postbox
from tests.pages import Visitor


@pytest.fixture
def box() -> Iterator[Postbox]:
    with open_postbox() as box:
        yield box


@pytest.fixture
def house(db: None, monkeypatch: pytest.MonkeyPatch) -> House:
    set_clock(monkeypatch, at(9, days=-20))
    house = make_house()
    agree(house)
    house.client.email, house.client.name = "askew@quillbridge.example", "Ottoline and Bertram Åskew"
    house.client.save()
    kind = house.kind
    kind.included, kind.images = "One print 75 cm wide, framed", 6
    kind.retouching, kind.use = "blemishes only", "private use"
    kind.who_sees, kind.delivery_days = "you, and the studio's people", 15
    kind.balance_days = 7
    kind.save()
    Profile.objects.update(
        telephone="01632 960100", email="desk@lindenmere.example", address="1 Weir Lane\nQuillbridge",
        way_in="Green door, no step; park behind the mill",
    )  # fmt: skip
    return house


def confirmed(house: House) -> Sitting:
    held = house.book()
    money.take(by=house.desk, sitting=held, kind="deposit", amount=Decimal(45), method="card")
    return again(held)


def round_() -> str:
    out = StringIO()
    call_command("send_due_letters", stdout=out, stderr=out)
    return out.getvalue()


def text_of(letter: EmailMessage) -> str:
    body = letter.get_body(("plain",))
    assert body is not None
    return str(body.get_content()).replace("\r\n", "\n")


def event_of(letter: EmailMessage) -> tuple[Calendar, object]:
    part = next(part for part in letter.walk() if part.get_content_type() == "text/calendar")
    calendar = Calendar.from_ical(part.get_payload(decode=True))
    assert part.get_param("method") == calendar["method"]
    assert not calendar.errors
    return calendar, calendar.events[0]


# What job.md section 6, "In writing", lists, and where this house's confirmation says it.
IN_WRITING = {
    "names and head count": "2 people: Ottoline, Bertram",
    "date": "Thursday 3 December 2026",
    "arrival": "Please arrive: 09:20",
    "finish": "09:30 to 10:45",
    "room": "Long Room",
    "address": "1 Weir Lane, Quillbridge",
    "access": "Green door, no step; park behind the mill",
    "fee": "Fee: GBP 180.00",
    "deposit": "Deposit: GBP 45.00 (paid)",
    "balance": "Balance: GBP 135.00",
    "balance date": "Balance due: Thursday 26 November 2026",
    "what is included": "Included: One print 75 cm wide, framed",
    "number of finished images": "Finished images: 6",
    "change terms": "with less than 72 hours' notice 10 % of the fee; with less than 24 hours' notice 50 %",
    "no-show terms": "staying away costs 100 % of the fee",
    "delivery promise": "within 15 working days of the studio",
    "what starts its clock": "they start when we have your choice of pictures",
    "use rights": "Use: private use",
    "release choice": "Release: still to be signed by Ottoline, Bertram",
    "retouch level": "Retouching: blemishes only",
    "who may see pictures": "Who may see them: you, and the studio's people",
    "contact on the day": "On the day: 01632 960100",
}


def test_feature_08_the_confirmation_lists_every_item_by_mail_and_on_paper(house: House, box: Postbox) -> None:
    confirmed(house)
    round_()
    (letter,) = box.letters
    said = text_of(letter)
    assert [item for item, words in IN_WRITING.items() if words not in said] == []
    assert str(letter["To"]) == "askew@quillbridge.example"
    assert "Åskew" in said
    calendar, event = event_of(letter)
    assert (calendar["method"], event.start) == ("REQUEST", at(9, 30))  # type: ignore[attr-defined]
    desk = Visitor(cast.client_of(house.desk))
    desk.open("/letters/")
    desk.follow("Your sitting on Thursday 3 December 2026, L-0001")
    paper = desk.fetch("Print it (PDF)")
    assert paper.content.startswith(b"%PDF")
    printed = " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(paper.content)).pages).split())
    assert [item for item, words in IN_WRITING.items() if words[:30] not in printed] == []


def test_feature_09_confirming_stops_later_nags(
    house: House, box: Postbox, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = confirmed(house)
    round_()
    for days in (-14, -13, -4):
        set_clock(monkeypatch, at(11, days=days))
        round_()
    assert [str(letter["Subject"]) for letter in box.letters[1:]] == ["What to wear on Thursday 3 December 2026"]
    set_clock(monkeypatch, at(11, days=-3))
    round_()
    asked = box.letters[-1]
    address = re.search(r"https?://[^/]+(/answer/\S+)", text_of(asked))
    assert address is not None
    client = Visitor(Client())
    assert "Thursday 3 December 2026, 09:30 to 10:45" in client.open(address[1]).words
    assert not sitting.answers.exists()  # reading answers nothing
    client.press("I'll be there", {"note": "we bring the dog"})
    assert "We look forward to seeing you" in client.page.words
    set_clock(monkeypatch, at(11, days=-1))
    assert "wrote" not in round_()
    assert len(box.letters) == 3
    desk = Visitor(cast.client_of(house.desk))
    page = desk.open(f"/sittings/{sitting.number}/")
    assert "will be there, by the link in a letter" in page.words
    assert "“we bring the dog”" in page.words


def test_an_answer_on_the_telephone_is_noted_and_the_desk_sees_who_cannot_come(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = confirmed(house)
    desk = Visitor(cast.client_of(house.desk))
    desk.open(f"/sittings/{sitting.number}/")
    desk.press("Save the answer", {"Answer": "not_then", "In their words": "the vet"})
    assert "cannot come then, on the telephone, noted by" in desk.page.words
    assert "Cannot come then" in desk.open("/letters/").words
    desk.open(f"/sittings/{sitting.number}/")
    assert desk.press("Save the answer", {"Answer": "perhaps"}).status == 422


def test_a_link_altered_of_another_time_or_over_answers_nothing(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = confirmed(house)
    signed, browser = links.signed(sitting), Client()
    for text in (signed[:-2], signed.swapcase(), "x", signed + "é" * 300):
        assert browser.post(f"/answer/{text}/", {"what": "coming"}).status_code == 404
    assert browser.post(f"/answer/{signed}/", {"what": "perhaps"}).status_code == 422
    assert browser.post(f"/answer/{signed}/", {"what": "coming", "note": "x" * 401}).status_code == 422
    set_clock(monkeypatch, at(23))
    assert browser.post(f"/answer/{signed}/", {"what": "coming"}).status_code == 410
    assert not sitting.answers.exists()


def test_without_a_mail_server_the_desk_prints_and_says_so(house: House) -> None:
    sitting = confirmed(house)
    desk = Visitor(cast.client_of(house.desk))
    page = desk.open("/letters/")
    assert "no mail server yet" in page.words
    desk.follow("Your sitting on Thursday 3 December 2026, L-0001")
    desk.press("It was handed over")
    assert "handed over" in desk.page.words
    assert Letter.objects.get(sitting=sitting).state == Letter.State.SENT


def test_a_wrong_address_is_mended_from_the_page_and_goes_with_the_next_round(house: House, box: Postbox) -> None:
    box.refuses["askew@quillbridge.example"] = "550 no such mailbox"
    confirmed(house)
    with pytest.raises(Exception, match="Letters"):
        round_()
    desk = Visitor(cast.client_of(house.desk))
    assert "550 no such mailbox" in desk.open("/letters/").words
    desk.follow("Your sitting on Thursday 3 December 2026, L-0001")
    assert desk.press("Send it with the next round", {"To": "not an address"}).status == 422
    desk.press("Send it with the next round", {"To": "ottoline@quillbridge.example"})
    round_()
    assert box.addresses == ["ottoline@quillbridge.example"]


def test_the_owner_words_a_letter_anew_sees_it_on_a_real_sitting_and_goes_back(house: House) -> None:
    sitting = confirmed(house)
    owner = Visitor(cast.client_of(house.members["owner"]))
    owner.open("/letters/")
    owner.follow("Wordings")
    owner.follow("Confirmation")
    wrong = owner.press("Save", {"Letter": "Dear {{ client.name }},\ncome on {{ sitting.dat }}."})
    assert wrong.status == 422
    assert "Line 2: there is no blank “sitting.dat”. The nearest is “sitting.date”." in wrong.words
    assert "come on {{ sitting.dat }}." in wrong.html
    typed = {"Letter": "Come on {{ sitting.date }}, {{ client.name }}.", "sitting": sitting.number}
    seen = owner.press("Preview", typed)
    assert "Come on Thursday 3 December 2026, Ottoline and Bertram Åskew." in seen.words
    stale = Visitor(cast.client_of(house.members["owner"]))
    stale.open("/wordings/confirmation/")
    owner.press("Save")
    late = stale.press("Save", {"Letter": "Mine for {{ client.name }}"})
    assert late.status == 409
    assert "Come on {{ sitting.date }}" in late.html
    assert "Mine for {{ client.name }}" in late.html
    owner.open("/wordings/confirmation/")
    owner.follow("Back to the first wording")
    owner.press("Save")
    owner.open("/wordings/confirmation/")
    assert "Version 2" in owner.page.words
    assert "WHEN AND WHERE" in owner.page.form_with("Save").values["body"][0]


def test_letters_take_as_many_queries_for_many_as_for_one(
    house: House, django_assert_max_num_queries: object
) -> None:
    for n in range(4):
        held = house.book(starts_at=at(9, 30, days=n))
        money.take(by=house.desk, sitting=held, kind="deposit", amount=Decimal(45), method="card")
    desk = cast.client_of(house.desk)
    with django_assert_max_num_queries(14):  # type: ignore[operator]
        desk.get("/letters/")
    assert Sitting.objects.filter(stage=Stage.CONFIRMED).count() == 4
