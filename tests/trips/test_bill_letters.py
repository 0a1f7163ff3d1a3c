"""A sitting's money where it is looked at and sent: its balance on every page, its papers by letter."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.test import override_settings

from bookings.actions import bill_letters, bills, letters, money
from bookings.models import Client, Complaint, Letter, Payment, Rota, Sitting
from tests import cast
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.making import House, at, make_house
from tests.pages import Visitor
from tests.trips.test_money import NOW, desk, make_item


@pytest.fixture
def house(db: None) -> House:
    return make_house()


@pytest.fixture(autouse=True)
def clock_at_now(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, NOW)


@pytest.fixture
def sitting(house: House) -> Sitting:
    agree(house)
    return house.book()


def test_the_balance_stands_on_every_page_of_a_sitting_for_desk_and_owner_alone(house: House, sitting: Sitting) -> None:
    money.take(by=house.desk, sitting=sitting, kind="deposit", amount=Decimal(45), method="card")
    Rota.objects.create(sitting=sitting)
    written = letters.write(sitting=sitting, kind="other", to="", subject="Yours", body="", by=None)
    owner = house.members["owner"]
    unhappy = Complaint.objects.create(
        client=sitting.client, sitting=sitting, said="too dark", cause="light", keeper=owner, due_on=NOW.date(),
        opened_at=NOW, opened_by=owner,
    )  # fmt: skip
    of, sitter = f"/sittings/{sitting.number}", sitting.sitters.first()
    pages = (f"{of}/", f"{of}/account/", f"{of}/change/", f"{of}/permissions/", f"{of}/rota/", f"{of}/intake/enter/",
             f"{of}/notes/{sitter.pk}/", f"{of}/reshoot/", f"{of}/rota/make-up/", f"/letters/{written.pk}/",
             f"/complaints/{unhappy.pk}/")  # fmt: skip
    said = "Balance: GBP 135.00."
    seen: dict[str, list[str]] = {role: [] for role in ("front_desk", "owner", "photographer")}
    for role, found in seen.items():
        client = cast.client_of(house.members[role])
        for page in pages:
            answer = client.get(page)
            if answer.status_code == 200:
                assert (said in answer.content.decode()) == (role != "photographer" or page == f"{of}/"), (role, page)
                found.append(page)
    assert set(seen["front_desk"]) >= set(pages) - {f"{of}/reshoot/"}
    assert len(seen["owner"]) >= 5
    assert len(seen["photographer"]) >= 2  # so that something was looked at


def test_the_balance_stands_where_a_sitting_is_moved(house: House, sitting: Sitting) -> None:
    answer = cast.client_of(house.desk).post("/diary/move/", {"number": sitting.number})
    assert "Balance: GBP 180.00." in answer.content.decode()


@pytest.fixture
def billed(house: House, sitting: Sitting) -> Sitting:
    """With Q-0001, I-0001 and R-0001, and a client with an address."""
    Client.objects.filter(pk=sitting.client_id).update(email="ottoline@askew.example")
    item = make_item("Wall print 75 cm", "print", 90)
    bills.quote(by=house.desk, sitting=sitting, wanted=[(item, 1)], valid_until=NOW.date())
    bills.invoice(by=house.desk, sitting=sitting)
    money.take(by=house.desk, sitting=sitting, kind="balance", amount=Decimal(10), method="cash")
    return again(sitting)


def test_quote_invoice_and_receipt_go_by_letter_with_their_paper(house: House, billed: Sitting) -> None:
    maud, to = desk(house), "ottoline@askew.example"
    with override_settings(EMAIL_FROM="desk@lindenmere.example", EMAIL_URL="smtp://127.0.0.1"):
        for number, kind in (("Q-0001", "quote"), ("I-0001", "invoice"), ("R-0001", "receipt")):
            maud.open(f"/sittings/{billed.number}/account/")
            paper = maud.fetch(f"{number} (PDF)").content
            page = maud.press(f"Send {number} to {to}")
            assert f"{number} goes to {to} with the next letters." in page.words
            letter = Letter.objects.get(kind=kind)
            assert (letter.to, letter.sitting_id, letter.by) == (to, billed.pk, house.desk)
            assert number in letter.subject
            enclosed = letter.attachments.get()
            assert (enclosed.name, enclosed.media_type) == (f"{number}.pdf", "application/pdf")
            assert bytes(enclosed.content) == paper
            assert "{{" not in letter.subject + letter.body
    assert "GBP 270.00" in Letter.objects.get(kind="quote").body
    assert "Left to pay today: GBP 170.00" in Letter.objects.get(kind="invoice").body


def test_a_bill_that_waits_is_not_written_twice_and_one_that_went_may_go_again(house: House, billed: Sitting) -> None:
    quote = billed.quotes.get()
    first, is_new = bill_letters.send(by=house.desk, bill=quote)
    assert is_new
    assert bill_letters.send(by=house.desk, bill=quote) == (first, False)
    letters.handed_over(letter=first, by=house.desk)
    assert bill_letters.send(by=house.desk, bill=quote)[1]
    assert Letter.objects.filter(kind="quote").count() == 2


def test_without_an_address_the_bill_waits_for_a_printer_and_the_button_says_so(house: House, billed: Sitting) -> None:
    Client.objects.filter(pk=billed.client_id).update(email="")
    maud = desk(house)
    maud.open(f"/sittings/{billed.number}/")
    page = maud.press("Write a letter with R-0001, to be printed")
    assert page.address.startswith(f"/sittings/{billed.number}/")
    assert "A letter with R-0001 is among those to be printed" in page.words
    assert Letter.objects.get(kind="receipt").to == ""


def test_a_lapsed_quote_is_not_sent(house: House, billed: Sitting, monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, NOW + timedelta(days=1))
    maud = desk(house)
    assert "Send Q-0001" not in maud.open(f"/sittings/{billed.number}/account/").html
    answer = cast.client_of(house.desk).post(f"/sittings/{billed.number}/account/quotes/1/send/")
    assert answer.status_code == 422
    assert "was valid until" in answer.content.decode()
    assert not Letter.objects.filter(kind="quote").exists()


@pytest.mark.parametrize("paper", ["quotes/7", "invoices/7", "receipts/7", "letters/1"])
def test_a_paper_that_is_not_there_is_not_sent(house: House, billed: Sitting, paper: str) -> None:
    assert cast.client_of(house.desk).post(f"/sittings/{billed.number}/account/{paper}/send/").status_code == 404
    other = house.book(starts_at=at(9, 30, days=2))
    assert cast.client_of(house.desk).post(f"/sittings/{other.number}/account/quotes/1/send/").status_code == 404


def test_the_owner_words_the_letter_of_a_receipt(house: House, billed: Sitting) -> None:
    harriet = Visitor(cast.client_of(house.members["owner"]))
    harriet.open("/wordings/receipt/")
    words = "{{ bill.amount }} is here.{{ bill.until }}"
    harriet.press("Save", {"Subject": "Thank you, {{ bill.number }}", "Letter": words})
    letter, _ = bill_letters.send(by=house.desk, bill=Payment.objects.get())
    assert (letter.subject, letter.body) == ("Thank you, R-0001", "GBP 10.00 is here.\n")
