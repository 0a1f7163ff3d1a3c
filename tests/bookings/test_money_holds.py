"""Money: a deposit makes a hold firm, entries stay, receipts run without a gap."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from bookings import accounts, promises, stages
from bookings.actions import holds, money, sittings
from bookings.models import Client, Hold, Payment, Sitting, Trust
from bookings.refusals import (
    CorrectedAlready,
    DepositMissing,
    NoteNeeded,
    OwnerOnly,
    WrongAmount,
    WrongTrust,
)
from tests import cast
from tests.bookings.agreeing import again, agree, set_clock
from tests.bookings.making import House, at
from tests.pages import Visitor

NOW = at(8, days=-10)
FEE, DEPOSIT = Decimal(180), Decimal(45)


@pytest.fixture(autouse=True)
def clock_at_now(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, NOW)


@pytest.fixture
def sitting(house: House) -> Sitting:
    agree(house)
    return house.book()


def take(house: House, sitting: Sitting, amount: Any = DEPOSIT, kind: str = "deposit", **more: Any) -> Payment:
    return money.take(by=house.desk, sitting=sitting, kind=kind, amount=Decimal(amount), method="card", **more)


def confirm(house: House, sitting: Sitting, by: str = "front_desk", **more: Any) -> Sitting:
    return sittings.change_stage(by=house.members[by], sitting=sitting, to="confirmed", **more)


def test_feature_06_nobody_is_confirmed_before_the_deposit_is_there(house: House, sitting: Sitting) -> None:
    with pytest.raises(DepositMissing, match=r"GBP 45.00 of the deposit is missing"):
        confirm(house, sitting)
    take(house, sitting, 20)
    with pytest.raises(DepositMissing, match=r"GBP 25.00 of the deposit is missing"):
        confirm(house, sitting)
    assert again(sitting).stage == "held"
    take(house, sitting, 25)
    assert (again(sitting).stage, Hold.objects.count()) == ("confirmed", 0)
    last = sitting.stage_changes.last()
    assert (last.by, last.note) == (house.desk, "deposit, receipt R-0002")


def test_the_owner_alone_waives_with_a_note(house: House, sitting: Sitting) -> None:
    with pytest.raises(OwnerOnly):
        confirm(house, sitting, waive_deposit=True, note="an old friend")
    with pytest.raises(NoteNeeded):
        confirm(house, sitting, "owner", waive_deposit=True)
    confirm(house, sitting, "owner", waive_deposit=True, note="an old friend")
    kept = again(sitting)
    assert (kept.stage, kept.trust.waived, kept.trust.note) == ("confirmed", True, "an old friend")
    assert accounts.deposit_of(accounts.of(kept), date(2026, 12, 3)).words == "waived by HV"
    assert [change.sentence for change in kept.changes.all()] == ["deposit waived"]
    assert promises.on_trust(date(2026, 12, 3)) == []


def test_the_desk_trusts_until_a_day_and_then_it_is_listed_as_past(house: House, sitting: Sitting) -> None:
    for wrong in (date(2026, 11, 22), date(2026, 12, 4)):
        with pytest.raises(WrongTrust):
            confirm(house, sitting, trust_until=wrong)
    confirm(house, sitting, trust_until=date(2026, 11, 30))
    kept = again(sitting)
    assert stages.sentence(kept) == (
        "Confirmed on trust. Client's move: pay the deposit of GBP 45.00 by Monday 30 November 2026."
    )
    account = accounts.of(kept)
    assert accounts.deposit_of(account, date(2026, 11, 30)).is_settled
    past = accounts.deposit_of(account, date(2026, 12, 3))
    assert (past.words, past.is_settled) == ("3 days past: GBP 45.00", False)
    assert [one.sitting.number for one in promises.on_trust(date(2026, 12, 3))] == ["L-0001"]
    take(house, sitting)
    assert not Trust.objects.exists()
    assert promises.on_trust(date(2026, 12, 3)) == []


def test_a_step_back_to_held_asks_for_the_deposit_anew(house: House, sitting: Sitting) -> None:
    confirm(house, sitting, trust_until=date(2026, 11, 30))
    back = sittings.change_stage(by=house.desk, sitting=sitting, to="held", note="card refused")
    assert (back.hold.place, Trust.objects.count()) == (1, 0)
    with pytest.raises(DepositMissing):
        confirm(house, sitting)


def test_the_deposit_of_one_who_waits_confirms_nothing_and_keeps_them_from_lapsing(
    house: House, sitting: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    waiting = house.book(client=Client(name="Juno Tarrant"), behind=sitting)
    take(house, waiting)
    assert again(waiting).stage == "held"
    sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="n")
    set_clock(monkeypatch, at(8))
    assert holds.release_lapsed(at(8)) == []
    assert confirm(house, waiting).stage == "confirmed"


def test_deposit_and_balance_make_the_total_and_receipts_run_without_a_gap(house: House, sitting: Sitting) -> None:
    take(house, sitting)
    with pytest.raises(WrongAmount):
        take(house, sitting, 0)
    take(house, sitting, 135, "balance")
    account = accounts.of(again(sitting))
    assert (account.due, account.paid, account.balance) == (FEE, FEE, 0)
    assert list(Payment.objects.values_list("receipt", flat=True)) == [1, 2]


@pytest.mark.parametrize(
    ("amount", "kind", "says"),
    [
        ("0", "deposit", "more than nothing"),
        ("-5", "balance", "more than nothing"),
        ("1.005", "balance", "whole coins"),
        ("45.01", "refund", "Only GBP 45.00 was paid"),
    ],
)
def test_amounts_that_cannot_be_are_refused(house: House, sitting: Sitting, amount: str, kind: str, says: str) -> None:
    take(house, sitting)
    with pytest.raises(WrongAmount, match=says):
        take(house, sitting, amount, kind)
    assert Payment.objects.count() == 1


def test_a_mistake_is_met_by_a_counter_entry_once(house: House, sitting: Sitting) -> None:
    paid = take(house, sitting)
    with pytest.raises(NoteNeeded):
        money.correct(by=house.desk, payment=paid, note=" ")
    counter = money.correct(by=house.desk, payment=paid, note="the Dorrows' card")
    assert (counter.amount, counter.receipt, counter.kind) == (-DEPOSIT, 2, "deposit")
    for entry in (paid, counter):
        with pytest.raises(CorrectedAlready):
            money.correct(by=house.desk, payment=entry, note="again")
    account = accounts.of(again(sitting))
    assert (account.paid, account.deposit_missing) == (0, DEPOSIT)
    assert accounts.deposit_of(account, date(2026, 12, 3)).words == "missing: GBP 45.00"


def test_no_entry_is_ever_changed_or_taken_out(house: House, sitting: Sitting) -> None:
    paid = take(house, sitting)
    paid.amount = Decimal(1)
    for act in (paid.save, paid.delete, sitting.charges.get().save, sitting.charges.get().delete):
        with pytest.raises(TypeError, match="counter-entry"):
            act()


def test_what_was_paid_too_much_is_given_back(house: House, sitting: Sitting) -> None:
    take(house, sitting)
    sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="n")
    assert accounts.of(again(sitting)).to_refund == DEPOSIT
    take(house, sitting, 45, "refund")
    assert accounts.of(again(sitting)).balance == 0


def test_many_accounts_take_two_queries(house: House, sitting: Sitting, django_assert_num_queries: Any) -> None:
    rows = [again(sitting), *(again(house.book(starts_at=at(9, 30, days=n))) for n in range(1, 5))]
    with django_assert_num_queries(2):
        assert {account.due for account in accounts.of_many(rows).values()} == {FEE}


# On the page.


def test_the_desk_takes_the_deposit_and_the_balance_on_the_sitting_s_page(house: House, sitting: Sitting) -> None:
    maud = Visitor(cast.client_of(house.desk))
    page = maud.open("/sittings/L-0001/")
    assert "Balance: GBP 180.00." in page.words
    form = page.form_with("Enter money")
    assert (form.values["kind"], form.values["amount"]) == (["deposit"], ["45"])
    page = maud.press("Enter money", {"amount": "forty"})
    assert (page.status, "Give an amount in figures, as 45 or 45.50." in page.words) == (422, True)
    page = maud.press("Enter money", {"amount": "45", "method": "cash", "paid_note": "at the door"})
    assert "R-0001: GBP 45.00 is entered." in page.words
    assert "Confirmed. Studio's move" in page.words
    page = maud.press("Enter money")
    assert "Nothing is left to pay." in page.words
    page = maud.press("Enter it the other way round", {"why": ""})
    assert (page.status, "Say why in the note" in page.words) == (422, True)
    page = maud.press("Enter it the other way round", {"why": "twice typed"})
    assert "takes R-0001 back" in page.words
    assert list(Payment.objects.values_list("receipt", "amount")) == [(1, 45), (2, 135), (3, -45)]


def test_confirming_on_the_page_says_what_is_missing_and_takes_trust(house: House, sitting: Sitting) -> None:
    maud, harriet = (Visitor(cast.client_of(house.members[role])) for role in ("front_desk", "owner"))
    maud.open("/sittings/L-0001/")
    page = maud.press("Now confirmed", {"note": "rings on Friday"})
    assert page.status == 422
    assert "GBP 45.00 of the deposit is missing: take it, trust until a day, or have the owner waive it." in page.words
    assert "Waive the deposit" not in page.words
    assert page.form_with("Now confirmed").values["note"] == ["rings on Friday"]
    assert "Waive the deposit; the note says why" in harriet.open("/sittings/L-0001/").words
    page = maud.press("Now confirmed", {"trust_until": "2026-11-30"})
    assert "Confirmed on trust." in page.words
    assert "Maud Ferriby answers for it: rings on Friday" in maud.open("/holds/").words


def test_two_desks_with_one_payment_the_second_sees_it_and_keeps_its_text(house: House, sitting: Sitting) -> None:
    """Entered again knowingly it is other money."""
    second = Visitor(cast.client_of(house.desk))
    second.open("/sittings/L-0001/")
    take(house, sitting)
    page = second.press("Enter money", {"amount": "45", "paid_note": "by the blue card"})
    assert page.status == 422
    assert "While you had this open, there came: R-0001, deposit" in page.words
    assert f"by {house.desk.name}" in page.words
    assert page.form_with("Enter money").values["paid_note"] == ["by the blue card"]
    assert Payment.objects.count() == 1
    assert second.press("Enter money").status == 200
    assert Payment.objects.count() == 2


@pytest.mark.parametrize("role", ["photographer", "assistant"])
def test_the_set_sees_the_balance_and_enters_nothing(house: House, sitting: Sitting, role: str) -> None:
    page = Visitor(cast.client_of(house.members[role])).open("/sittings/L-0001/")
    assert "Balance: GBP 180.00." in page.words
    assert "Enter money" not in page.words


@pytest.mark.parametrize("junk", ["", "x", "\x00", "-1", "9" * 40, "NaN", "Infinity", "1e400", "1.0005"])
def test_junk_is_never_an_error_of_ours(house: House, sitting: Sitting, junk: str) -> None:
    desk = cast.client_of(house.desk)
    good = {"kind": "deposit", "amount": "45", "method": "card", "paid_note": ""}
    for name in good:
        if name != "paid_note":
            assert desk.post("/sittings/L-0001/money/", good | {name: junk}).status_code == 422, name
    step = {"to": "confirmed", "seen": "1", "note": "", "agreed_fee": "", "trust_until": "", "waive_deposit": ""}
    for name in step:
        assert desk.post("/sittings/L-0001/stage/", step | {name: junk}).status_code == 422, name
    take(house, sitting, 10)
    assert desk.post("/sittings/L-0001/money/1/correct/", {"why": junk}).status_code in (302, 422)
    assert desk.post("/sittings/L-0001/money/7/correct/", {"why": "n"}).status_code == 404
    assert again(sitting).stage == "held"
