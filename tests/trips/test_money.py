"""Money from the first quote to the bookkeeper's file, by the pages the desk uses."""

from __future__ import annotations

import csv
import html
import io
import re
from datetime import date, timedelta
from decimal import Decimal
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from bookings import accounts, takings
from bookings.actions import bills, money
from bookings.models import Charge, Client, DayCount, Invoice, Item, ItemPrice, Payment, Quote, Sitting, TaxRule
from bookings.refusals import Refusal
from studio import csv_out
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.making import House, at, make_house
from tests.pages import Page, Visitor

NOW = at(8, days=-10)
MINUS = "\N{MINUS SIGN}"


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


@pytest.fixture
def print_75(db: None) -> Item:
    return make_item("Wall print 75 cm", "print", 90)


def make_item(name: str, kind: str, amount: Any) -> Item:
    item = Item.objects.create(name=name, kind=kind)
    ItemPrice.objects.create(item=item, from_day=date(2026, 1, 1), amount=Decimal(amount))
    return item


def tax(kind: str, percent: Any, place: str = "", *, included: bool = True, words: str = "Sales tax") -> TaxRule:
    return TaxRule.objects.create(
        item_kind=kind, place=place, from_day=date(2026, 1, 1), percent=Decimal(percent), included=included, words=words
    )


def desk(house: House) -> Visitor:
    return Visitor(cast.client_of(house.desk))


def cells(page: Page) -> str:
    """The words of a page with the cells of its tables apart."""
    return " ".join(html.unescape(re.sub("<[^>]+>", " ", page.html)).split())


def words_of(answer: Any) -> str:
    assert answer["Content-Type"] == "application/pdf"
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(answer.content)).pages).split())


def test_feature_15_deposit_and_balance_are_the_total_and_receipts_run_unbroken(
    house: House, sitting: Sitting, print_75: Item
) -> None:
    maud = desk(house)
    maud.open(f"/sittings/{sitting.number}/account/")
    maud.press("Charge it", {"Item": str(print_75.pk), "How many": "2"})
    assert "2 x Wall print 75 cm is charged: GBP 180.00." in maud.page.words
    assert "Balance: GBP 360.00." in maud.page.words
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Enter money", {"kind": "deposit", "amount": "45", "method": "card"})
    maud.press("Enter money", {"kind": "balance", "amount": "400", "method": "cash"})
    assert "Nothing is left to pay" not in maud.page.words
    maud.press("Enter it the other way round", {"What was wrong": "400 typed for 315"}, nth=1)
    maud.press("Enter money", {"kind": "balance", "amount": "315", "method": "cash"})
    assert "Nothing is left to pay." in maud.page.words
    account = accounts.of(again(sitting))
    by_kind = {kind: sum(p.amount for p in account.payments if p.kind == kind) for kind in ("deposit", "balance")}
    assert by_kind["deposit"] + by_kind["balance"] == account.due == Decimal(360)
    assert [p.receipt_number for p in account.payments] == ["R-0001", "R-0002", "R-0003", "R-0004"]
    maud.open(f"/sittings/{sitting.number}/account/")
    printed = words_of(maud.fetch("R-0003 (PDF)"))
    for said in ("Receipt R-0003", "GBP 400.00", "Takes back R-0002", "Still to be paid GBP 315.00"):
        assert said in printed
    assert "Refunded" not in printed, "a mistake that is met sends nobody money"
    assert "Still to be paid GBP 0.00" in words_of(maud.fetch("R-0004 (PDF)"))


def test_feature_16_another_destination_changes_tax_and_old_invoices_keep_theirs(
    house: House, sitting: Sitting, print_75: Item
) -> None:
    tax("sitting", 0, words="none on sittings")
    tax("print", 20, included=True)
    tax("print", "7.25", "NORTH", included=False)
    maud = desk(house)
    maud.open(f"/sittings/{sitting.number}/account/")
    maud.press("Charge it", {"Item": str(print_75.pk), "How many": "1"})
    maud.press("Make an invoice of what stands on none")
    before = words_of(maud.fetch("I-0001 (PDF)"))
    assert "Sales tax 20 % 75.00 15.00 90.00" in before
    maud.press("Charge it", {"Item": str(print_75.pk), "How many": "2"})
    maud.press("Save where it goes", {"Goes to": "north"})
    account = accounts.of(again(sitting))
    standing = [(c.amount, c.tax, c.place) for c in money.standing(sitting).filter(what="item")]
    assert standing == [(Decimal(90), Decimal(15), ""), (Decimal("193.05"), Decimal("13.05"), "NORTH")]
    assert account.due == Decimal(180) + 90 + Decimal("193.05")
    assert words_of(maud.fetch("I-0001 (PDF)")) == before
    maud.press("Make an invoice of what stands on none")
    after = words_of(maud.fetch("I-0002 (PDF)"))
    assert "Goes to NORTH" in after
    assert "Sales tax 7.25 % 180.00 13.05 193.05" in after
    assert sum(Decimal(i.content["total"]) for i in Invoice.objects.all()) == account.due
    assert "where it goes from anywhere to NORTH" in maud.open(f"/sittings/{sitting.number}/").words


def test_feature_69_prices_go_by_season_and_quotes_keep_theirs(
    house: House, sitting: Sitting, print_75: Item, monkeypatch: pytest.MonkeyPatch
) -> None:
    ItemPrice.objects.create(item=print_75, from_day=NOW.date() + timedelta(days=3), amount=Decimal(110))
    maud = desk(house)
    maud.open(f"/sittings/{sitting.number}/account/")
    maud.press("Make the quote", {"wanted-0-item": str(print_75.pk), "wanted-0-count": "2"})
    assert "Q-0001 is made." in maud.page.words
    quoted = words_of(maud.fetch("Q-0001 (PDF)"))
    assert "2 x Wall print 75 cm 90.00 0.00 180.00" in quoted
    assert "Deposit on confirming GBP 45.00" in quoted
    set_clock(monkeypatch, NOW + timedelta(days=4))
    maud.open(f"/sittings/{sitting.number}/account/")
    assert words_of(maud.fetch("Q-0001 (PDF)")) == quoted
    maud.press("Q-0001 is accepted")
    maud.press("Charge it", {"Item": str(print_75.pk), "How many": "1"})
    assert [c.amount for c in sitting.charges.filter(what="item")] == [Decimal(180), Decimal(110)]
    assert "quote Q-0001: accepted" in maud.open(f"/sittings/{sitting.number}/").words


def test_a_lapsed_or_accepted_quote_charges_nothing_more(
    house: House, sitting: Sitting, print_75: Item, monkeypatch: pytest.MonkeyPatch
) -> None:
    quote = bills.quote(by=house.desk, sitting=sitting, wanted=[(print_75, 1)], valid_until=NOW.date())
    bills.accept(by=house.desk, quote=quote)
    with pytest.raises(Refusal, match="accepted already"):
        bills.accept(by=house.desk, quote=quote)
    late = bills.quote(by=house.desk, sitting=sitting, wanted=[(print_75, 1)], valid_until=NOW.date())
    set_clock(monkeypatch, NOW + timedelta(days=1))
    with pytest.raises(Refusal, match="was valid until"):
        bills.accept(by=house.desk, quote=late)
    assert sitting.charges.filter(what="item").count() == 1


def test_a_fee_taken_back_takes_its_tax_back_too(house: House) -> None:
    agree(house)
    tax("sitting", 20, included=False)
    sitting = house.book()
    assert accounts.of(again(sitting)).due == Decimal(216)
    money.take_fee_back(sitting, by=house.desk)
    money.take_fee_back(sitting, by=house.desk)
    rows = list(sitting.charges.all())
    assert [(c.amount, c.tax) for c in rows] == [(Decimal(216), Decimal(36)), (Decimal(-216), Decimal(-36))]


def test_an_item_is_taken_back_once_and_with_a_reason(house: House, sitting: Sitting, print_75: Item) -> None:
    charge = bills.charge_item(by=house.desk, sitting=sitting, item=print_75, count=1)
    maud = desk(house)
    maud.open(f"/sittings/{sitting.number}/account/")
    refused = maud.press("Take it back")
    assert refused.status == 422
    assert "Say why" in refused.words or "note" in refused.words.lower()
    maud.press("Take it back", {"Why": "they chose the smaller one"})
    assert accounts.of(again(sitting)).due == Decimal(180)
    with pytest.raises(Refusal, match="taken back already"):
        bills.take_item_back(by=house.desk, charge=charge, note="again")


def test_an_exempt_client_is_billed_without_tax_and_the_paper_says_why(
    house: House, sitting: Sitting, print_75: Item
) -> None:
    tax("print", 20, included=True)
    Client.objects.filter(pk=sitting.client_id).update(tax_exempt="EX-77")
    charge = bills.charge_item(by=house.desk, sitting=again(sitting), item=print_75, count=1)
    assert (charge.amount, charge.tax, charge.tax_words) == (Decimal(75), Decimal(0), "exempt, EX-77")
    maud = desk(house)
    maud.open(f"/sittings/{sitting.number}/account/")
    maud.press("Make an invoice of what stands on none")
    assert "Exempt from tax EX-77" in words_of(maud.fetch("I-0001 (PDF)"))


def test_two_desks_at_one_account_lose_nothing(house: House, sitting: Sitting) -> None:
    first, second = desk(house), desk(house)
    for one in (first, second):
        one.open(f"/sittings/{sitting.number}/account/")
    first.press("Save where it goes", {"Goes to": "NORTH"})
    refused = second.press("Save where it goes", {"Goes to": "SOUTH"})
    assert "Somebody else changed this sitting" in refused.words
    assert again(sitting).destination == "NORTH"
    assert second.page.form_with("Save where it goes").values["place"] == ["SOUTH"]


def test_the_day_is_added_up_by_method_and_the_till_is_counted(house: House, sitting: Sitting) -> None:
    for kind, amount, method in (("deposit", 45, "card"), ("balance", 100, "cash"), ("refund", 20, "cash")):
        money.take(by=house.desk, sitting=sitting, kind=kind, amount=Decimal(amount), method=method)
    maud = desk(house)
    page = maud.open(f"/money/?day={NOW:%Y-%m-%d}")
    assert f"cash 2 GBP 100.00 GBP {MINUS}20.00 GBP 80.00" in cells(page)
    assert "card 1 GBP 45.00" in cells(page)
    assert "Together 3 GBP 125.00" in cells(page)
    refused = maud.press("Save the count", {"Cash counted": "79"})
    assert refused.status == 422
    assert DayCount.objects.count() == 0
    assert refused.form_with("Save the count").values["counted"] == ["79"]
    maud.press("Save the count", {"Cash counted": "79", "Note": "a coin short"})
    assert f"difference GBP {MINUS}1.00" in maud.page.words
    maud.press("Save the count", {"Cash counted": "80"})
    assert [c.counted for c in DayCount.objects.all()] == [Decimal(79), Decimal(80)]
    month = maud.open(f"/money/month/?day={NOW:%Y-%m-%d}")
    assert "Together 3 GBP 125.00" in cells(month)


def test_money_that_goes_back_to_a_client_has_one_word_everywhere(house: House, sitting: Sitting) -> None:
    maud = desk(house)
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Enter money", {"kind": "balance", "amount": "200", "method": "cash"})
    assert "To refund: GBP 20.00." in maud.page.words
    Sitting.objects.filter(pk=sitting.pk).update(stage="chosen")
    assert ": to refund GBP 20.00" in maud.open(f"/money/?day={NOW:%Y-%m-%d}").words
    Sitting.objects.filter(pk=sitting.pk).update(stage=sitting.stage)
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Enter money", {"kind": "refund", "amount": "20", "method": "cash"})
    maud.open(f"/sittings/{sitting.number}/account/")
    printed = words_of(maud.fetch("R-0002 (PDF)"))
    for said in ("Refunded to", "refund, L-", "GBP 20.00"):
        assert said in printed
    page = maud.open(f"/money/?day={NOW:%Y-%m-%d}")
    assert "How Entries Taken Refunded Together" in cells(page)
    assert "given back" not in page.words


def test_a_mistake_and_its_counter_entry_are_no_refund(house: House, sitting: Sitting) -> None:
    def take(kind: str, amount: int) -> Payment:
        return money.take(by=house.desk, sitting=sitting, kind=kind, amount=Decimal(amount), method="cash")

    money.correct(by=house.desk, payment=take("balance", 400), note="typed for 100")
    take("balance", 100)
    money.correct(by=house.desk, payment=take("refund", 30), note="typed for 20")
    take("refund", 20)
    assert f"cash 6 GBP 100.00 GBP {MINUS}20.00 GBP 80.00" in cells(desk(house).open(f"/money/?day={NOW:%Y-%m-%d}"))


def test_the_bookkeeper_s_file_adds_up_and_holds_no_formula(house: House, sitting: Sitting, print_75: Item) -> None:
    Client.objects.filter(pk=sitting.client_id).update(name="=HYPERLINK(1)")
    tax("print", 20, included=True)
    bills.charge_item(by=house.desk, sitting=sitting, item=print_75, count=1)
    money.take(by=house.desk, sitting=sitting, kind="balance", amount=Decimal(100), method="cash", note="-5 later")
    money.take(by=house.desk, sitting=sitting, kind="refund", amount=Decimal(10), method="cash")
    day = f"{NOW:%Y-%m-%d}"
    answer = cast.client_of(house.desk).get(
        "/money/export.csv", {"first": day, "last": day, "separator": "semicolon", "mark": "on"}
    )
    text = b"".join(answer.streaming_content).decode("utf-8")
    assert text.startswith(csv_out.BYTE_ORDER_MARK + "entry;date;number;")
    rows = list(csv.DictReader(io.StringIO(text.removeprefix(csv_out.BYTE_ORDER_MARK)), delimiter=";"))
    paid = sum(Decimal(r["amount"]) for r in rows if r["entry"] == "payment")
    charged = [r for r in rows if r["entry"] == "charge"]
    assert paid == Decimal(90)
    assert sum(Decimal(r["amount"]) for r in charged) == accounts.of(again(sitting)).due
    assert all(Decimal(r["net"]) + Decimal(r["tax"]) == Decimal(r["amount"]) for r in charged)
    assert {r["client"] for r in rows} == {"'=HYPERLINK(1)"}
    assert any(r["note"] == "'-5 later" for r in rows)
    assert any(r["amount"] == "-10.00" for r in rows)  # a number stays a number, in the coins of its currency
    printed = next(r for r in charged if r["for"] == "Wall print 75 cm")
    assert (printed["net"], printed["tax"], printed["amount"]) == ("75.00", "15.00", "90.00")


@pytest.mark.parametrize(("last", "says"), [
    ("2026-05-01", "The last day is before the first."), ("9999-12-31", "Give a day between 2000 and 2100."),
])  # fmt: skip
def test_a_span_that_makes_no_sense_comes_back_beside_its_field(house: House, last: str, says: str) -> None:
    answer = cast.client_of(house.desk).get("/money/export.csv", {"first": "2026-05-02", "last": last})
    assert (answer.status_code, says in answer.content.decode()) == (422, True)


def test_the_owner_makes_items_and_rules_of_tax(house: House) -> None:
    harriet = Visitor(cast.client_of(house.members["owner"]))
    harriet.open("/items/new/")
    harriet.press("Save", {"Name": "Frame, oak", "kind": "frame", "prices-0-from_day": "2026-01-01",
                           "prices-0-amount": "64,50"})  # fmt: skip
    assert "Frame, oak is saved." in harriet.page.words
    assert Item.objects.get().price_on(date(2026, 5, 1)) == Decimal("64.50")
    harriet.open("/tax/")
    harriet.press("Save the rule", {"item_kind": "frame", "place": "us-oh", "from_day": "2026-01-01", "percent": "7.25",
                                    "words": "Sales tax"})  # fmt: skip
    assert "US-OH" in harriet.page.words
    twice = harriet.press("Save the rule", {"item_kind": "frame", "place": "US-OH", "from_day": "2026-01-01",
                                            "percent": "8", "words": "Sales tax"})  # fmt: skip
    assert twice.status == 422
    assert TaxRule.objects.count() == 1


def test_nothing_to_bill_is_said(house: House) -> None:
    sitting = house.book()  # its kind has no price
    with pytest.raises(Refusal, match="nothing to put on paper"):
        bills.invoice(by=house.desk, sitting=sitting)
    with pytest.raises(Refusal, match="nothing to put on paper"):
        bills.quote(by=house.desk, sitting=sitting, wanted=[], valid_until=NOW.date())
    item = Item.objects.create(name="Album", kind="print")
    with pytest.raises(Refusal, match="Album has no price for today"):
        bills.charge_item(by=house.desk, sitting=sitting, item=item, count=1)
    assert (Quote.objects.count(), Invoice.objects.count(), Charge.objects.count()) == (0, 0, 0)


def test_the_bookkeeper_s_file_keeps_the_coins_of_the_currency(house: House) -> None:
    agree(house)
    sitting = house.book()
    found = {}
    for currency in ("GBP", "JPY", "KWD"):
        Sitting.objects.filter(pk=sitting.pk).update(currency=currency)
        lines = csv_out.lines(takings.HEAD, takings.rows(NOW.date(), NOW.date(), Profile.get()))
        found[currency] = {row["amount"] for row in csv.DictReader(io.StringIO("".join(lines)))}
    assert found == {"GBP": {"180.00"}, "JPY": {"180"}, "KWD": {"180.000"}}


@pytest.mark.parametrize(("paper", "width"), [("letter", 612), ("a4", 595.3)])
def test_papers_come_in_the_studio_s_size(
    house: House, sitting: Sitting, print_75: Item, paper: str, width: float
) -> None:
    Profile.objects.update_or_create(pk=1, defaults={"paper": paper, "studio_name": "Lindenmere Portraits"})
    bills.quote(by=house.desk, sitting=sitting, wanted=[(print_75, 1)], valid_until=NOW.date())
    bills.invoice(by=house.desk, sitting=sitting)
    money.take(by=house.desk, sitting=sitting, kind="balance", amount=Decimal(10), method="cash")
    account, client = f"/sittings/{sitting.number}/account", cast.client_of(house.desk)
    for address in (f"{account}/quotes/1.pdf", f"{account}/invoices/1.pdf", f"{account}/receipts/1.pdf",
                    f"/money/day.pdf?day={NOW:%Y-%m-%d}"):  # fmt: skip
        answer = client.get(address)
        assert PdfReader(BytesIO(answer.content)).pages[0].mediabox.width == pytest.approx(width, abs=0.5), address
        assert "no-store" in answer["Cache-Control"]


def test_the_day_s_total_is_printed_with_its_entries_and_the_count(house: House, sitting: Sitting) -> None:
    for kind, amount, method in (("deposit", 45, "card"), ("balance", 100, "cash"), ("refund", 20, "cash")):
        money.take(by=house.desk, sitting=sitting, kind=kind, amount=Decimal(amount), method=method)
    maud = desk(house)
    maud.open(f"/money/?day={NOW:%Y-%m-%d}")
    assert "Not counted yet." in words_of(maud.fetch("Print the day's total (PDF)"))
    maud.press("Save the count", {"Cash counted": "79", "Note": "a coin short"})
    printed = words_of(maud.fetch("Print the day's total (PDF)"))
    for said in (f"cash 2 100.00 {MINUS}20.00 80.00", "card 1 45.00 0.00 45.00", "Together 3 125.00",
                 "GBP 79.00; by the entries GBP 80.00", f"! difference GBP {MINUS}1.00", "a coin short",
                 "R-0001", "deposit, card 45.00", f"refund, cash {MINUS}20.00"):  # fmt: skip
        assert said in printed, (said, printed)
    other = words_of(cast.client_of(house.desk).get("/money/day.pdf?day=2026-01-05"))
    assert "No money was entered." in other
    assert "Not counted yet." in other
    assert cast.client_of(house.desk).get("/money/day.pdf?day=2026-13-45").status_code == 200


def test_the_advice_stands_beside_invoices_and_on_the_rules_of_tax(house: House, sitting: Sitting) -> None:
    advice = "Check with your accountant; local law comes first."
    assert advice in desk(house).open(f"/sittings/{sitting.number}/account/").words
    assert advice in Visitor(cast.client_of(house.members["owner"])).open("/tax/").words
