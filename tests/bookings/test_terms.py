"""Terms and prices: fees by notice to the hour, frozen into each booking, shown before anything is saved."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings import accounts, late, prices, stages
from bookings.actions import sittings
from bookings.models import Charge, Price, Sitting, SittingChange, Terms, TermsWording
from bookings.models.prices import fee_on
from bookings.prices import Notice
from bookings.refusals import FeeToAgree, Objected, TooEarly, WrongAmount
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import SAYS, again, agree, set_clock
from tests.bookings.making import House, at
from tests.bookings.test_holds import move
from tests.pages import Visitor

NOW = at(8, days=-10)
FEE = Decimal(180)
AGREED = prices.Terms(
    name="Portraits",
    valid_from=date(2026, 1, 1),
    move=(Notice(24, Decimal(50)), Notice(72, Decimal(10))),
    cancel=(Notice(24, Decimal(100)), Notice(72, Decimal(25))),
    no_show_percent=Decimal(100),
    deposit_percent=Decimal(25),
)


@pytest.fixture(autouse=True)
def clock_at_now(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, NOW)


# The arithmetic.


@pytest.mark.parametrize(
    ("hours", "percent"),
    [("1000", 0), ("72.001", 0), ("72", 0), ("71.999", 10), ("24", 10), ("23.999", 50), ("0", 50), ("-3", 50)],
)
def test_as_many_hours_as_a_rule_names_are_enough_to_escape_it(hours: str, percent: int) -> None:
    assert prices.fee_to_move(AGREED, FEE, Decimal(hours)) == FEE * percent / 100


@pytest.mark.parametrize(
    ("day", "hours"),
    [("2027-03-28", 23), ("2026-10-25", 25), ("2026-12-03", 24)],
)
def test_notice_is_counted_in_hours_that_pass_not_in_those_the_wall_says(day: str, hours: int) -> None:
    """In London the night to 28 March 2027 is an hour short, that to 25 October 2026 an hour long."""
    start = datetime.fromisoformat(f"{day}T10:00").replace(tzinfo=ZoneInfo("Europe/London")).astimezone(UTC)
    wall = datetime.fromisoformat(f"{day}T10:00") - timedelta(days=1)
    asked = wall.replace(tzinfo=ZoneInfo("Europe/London")).astimezone(UTC)
    assert prices.notice_hours(asked, start) == hours
    assert prices.fee_to_cancel(AGREED, FEE, prices.notice_hours(asked, start)) == (FEE if hours < 24 else FEE / 4)


def test_a_microsecond_decides() -> None:
    start = datetime(2026, 12, 3, 10, tzinfo=UTC)
    on_time = start - timedelta(hours=24)
    for late_by, fee in ((0, FEE / 4), (1, FEE)):
        notice = prices.notice_hours(on_time + timedelta(microseconds=late_by), start)
        assert prices.fee_to_cancel(AGREED, FEE, notice) == fee


@pytest.mark.parametrize(
    ("amount", "currency", "coins"),
    [("10.005", "GBP", "10.01"), ("10.5", "JPY", "11"), ("10.0005", "KWD", "10.001"), ("0", "GBP", "0.00")],
)
def test_amounts_are_rounded_to_the_coin_of_their_currency(amount: str, currency: str, coins: str) -> None:
    assert str(prices.rounded(Decimal(amount), currency)) == coins


def test_the_deposit_is_the_amount_else_the_share_and_never_more_than_the_fee() -> None:
    assert prices.deposit(AGREED, FEE, "GBP") == 45
    fixed = prices.Terms("P", date(2026, 1, 1), deposit_amount=Decimal(60), deposit_percent=Decimal(25))
    assert prices.deposit(fixed, FEE, "GBP") == 60
    assert prices.deposit(fixed, Decimal(50), "GBP") == 50
    assert prices.deposit(fixed, None) == prices.deposit(None, FEE) == 0


def test_without_terms_or_a_fee_nothing_is_charged() -> None:
    assert prices.fee_to_move(None, FEE, Decimal(0)) == prices.fee_to_cancel(AGREED, None, Decimal(0)) == 0
    assert prices.fee_of_no_show(None, FEE) == 0


percents = st.decimals(0, 100, places=2)
rules = st.lists(st.tuples(st.integers(0, 500), percents), max_size=5, unique_by=lambda rule: rule[0])


@given(rules, percents, st.decimals(0, 99999, places=2), st.integers(1, 720), st.text(max_size=20))
def test_what_is_frozen_thaws_as_it_was(
    move: list[tuple[int, Decimal]], share: Decimal, amount: Decimal, hours: int, words: str
) -> None:
    terms = prices.Terms("P", date(2026, 1, 1), prices.notices(move), (), share, share, amount, hours, words=words)
    assert prices.thawed(prices.frozen(terms)) == terms


@given(rules, st.decimals(0, 9999, places=2), st.decimals(-100, 600, places=3))
def test_a_fee_is_the_share_of_the_nearest_rule_above_and_within_the_fee(
    move: list[tuple[int, Decimal]], fee: Decimal, notice: Decimal
) -> None:
    terms = prices.Terms("P", date(2026, 1, 1), move=prices.notices(move))
    asked = prices.fee_to_move(terms, fee, notice, "GBP")
    above = [percent for hours, percent in sorted(move) if notice < hours]
    assert asked == (prices.rounded(fee * above[0] / 100, "GBP") if above else 0)
    assert 0 <= asked <= fee


# Frozen into each booking.


def test_feature_07_new_terms_and_prices_leave_an_older_booking_as_it_was_agreed(house: House) -> None:
    terms = agree(house)
    old = house.book()
    TermsWording.objects.update(deposit_percent=50, move=[[500, "90"]], words="dearer")
    Terms.objects.update(name="Portraits, new")
    Price.objects.update(amount=Decimal(999))
    new = house.book(starts_at=at(14), kind=type(house.kind).objects.get())
    kept, agreed = again(old), again(old).agreed
    assert agreed is not None
    assert (kept.fee, kept.deposit, kept.currency) == (FEE, 45, "GBP")
    assert (agreed.name, agreed.move, agreed.words) == (
        "Portraits", (Notice(24, Decimal(50)), Notice(72, Decimal(10))), "Twenty minutes late come off the sitting."
    )  # fmt: skip
    assert (new.fee, new.deposit, new.agreed and new.agreed.name) == (999, Decimal("499.50"), "Portraits, new")
    assert terms.kinds.get() == house.kind


def test_terms_are_those_of_the_day_of_booking_and_prices_those_of_the_day_of_the_sitting(house: House) -> None:
    terms = agree(house)
    TermsWording.objects.create(terms=terms, valid_from=date(2026, 11, 24), **(SAYS | {"hold_hours": 24}))
    Price.objects.create(kind=house.kind, from_day=date(2026, 12, 3), amount=Decimal(210))
    Price.objects.create(kind=house.kind, from_day=date(2027, 1, 7), amount=Decimal(160))
    assert house.book().agreed.valid_from == date(2026, 1, 1)
    assert [fee_on(house.kind, date(2026, 12, day)) for day in (2, 3)] == [180, 210]
    assert [house.book(starts_at=at(14, days=days)).fee for days in (-1, 0, 40)] == [180, 210, 160]
    assert fee_on(house.kind, date(2025, 12, 31)) is None


def test_the_price_s_day_is_the_one_the_studio_s_wall_says(house: House) -> None:
    agree(house)
    Profile.objects.update(time_zone="Asia/Tokyo")
    Price.objects.create(kind=house.kind, from_day=date(2026, 12, 4), amount=Decimal(210))
    assert house.book(starts_at=at(16)).fee == 210, "one in the morning of the fourth there"


# Moving and cancelling.


def confirmed(house: House, **booked: Any) -> Sitting:
    held = house.book(**booked)
    return sittings.change_stage(
        by=house.desk, sitting=held, to="confirmed", trust_until=date(2026, 12, 1), note="known for years"
    )


def test_feature_10_the_fee_by_notice_is_shown_before_a_move_is_saved(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    agree(house)
    sitting = confirmed(house)
    maud = Visitor(cast.client_of(house.desk))
    set_clock(monkeypatch, at(9, 30, days=-1))  # just 24 hours before
    assert "By the terms of this booking, cancelling it now costs GBP 45.00." in maud.open("/sittings/L-0001/").words
    assert "another time costs GBP 18.00 now" in maud.page.words
    set_clock(monkeypatch, at(9, 31, days=-1))
    page = maud.open("/sittings/L-0001/change/")
    assert "By the terms of this booking GBP 90.00 now" in page.words
    assert page.form_with("Save").values["agreed_fee"] == ["90.00"]
    page = maud.press("Save", {"time": "14:00", "agreed_fee": "20"})
    assert "it is GBP 90.00. Say in the note why another fee was agreed." in page.words
    assert again(sitting).starts_at == at(9, 30), "nothing is saved yet"
    page = maud.press("Save", {"note": "our mistake"})
    assert again(sitting).starts_at == at(14)
    said = [change.sentence for change in again(sitting).changes.filter(what__in=("fee", "starts_at"))]
    assert said == [
        "fee agreed for moving: GBP 20.00; by the terms GBP 90.00",
        "start from Thursday 3 December 2026, 09:30 to Thursday 3 December 2026, 14:00",
    ]
    assert accounts.of(again(sitting)).due == FEE + 20


def test_a_move_whose_fee_nobody_agreed_is_refused_with_it_and_other_changes_are_free(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    agree(house)
    sitting = confirmed(house)
    set_clock(monkeypatch, at(9, 31, days=-1))
    with pytest.raises(FeeToAgree, match=r"costs GBP 90.00 \(moving\)") as refused:
        move(house, sitting, at(14))
    assert refused.value.fee == 90
    move(house, sitting, at(9, 30), purpose="golden wedding")
    move(house, sitting, at(9, 30), room=house.other_room)
    assert accounts.of(again(sitting)).due == FEE
    for wrong in (Decimal("-1"), Decimal("1.005")):
        with pytest.raises(WrongAmount):
            move(house, sitting, at(14), agreed_fee=wrong)


def test_a_hold_is_moved_and_cancelled_without_a_fee(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    agree(house)
    sitting = house.book()
    set_clock(monkeypatch, NOW + timedelta(hours=1))
    move(house, sitting, at(14))
    sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="n")
    assert accounts.of(again(sitting)).due == 0


def test_cancelling_charges_its_fee_in_place_of_the_sitting_s(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    agree(house)
    sitting = confirmed(house)
    set_clock(monkeypatch, at(9, 30, days=-1))
    with pytest.raises(FeeToAgree):
        sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="unwell")
    sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="unwell", agreed_fee=Decimal(45))
    charged = list(Charge.objects.values_list("what", "amount"))
    assert charged == [("fee", FEE), ("cancelling", Decimal(45)), ("fee", -FEE)]
    assert accounts.of(again(sitting)).balance == 45
    assert SittingChange.objects.get(what="fee").sentence == "fee agreed for cancelling: GBP 45.00"


def test_the_desk_cancels_on_the_page_having_seen_the_fee(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    agree(house)
    sitting = confirmed(house)
    set_clock(monkeypatch, at(9, 30, days=-1))
    maud = Visitor(cast.client_of(house.desk))
    maud.open("/sittings/L-0001/")
    page = maud.press("Now cancelled", {"agreed_fee": "10"})
    assert page.status == 422
    assert "Say why in the note" in page.words
    page = maud.press("Now cancelled", {"note": "unwell, half way met", "agreed_fee": "22,50"})
    assert (again(sitting).stage, accounts.of(again(sitting)).due) == ("cancelled", Decimal("22.50"))
    assert "fee agreed for cancelling: GBP 22.50; by the terms GBP 45.00 by Maud Ferriby" in page.words


# Nobody comes.


def test_feature_11_at_twenty_minutes_late_the_terms_options_are_offered(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    agree(house)
    sitting = confirmed(house)
    assert late.late_options(sitting, at(9, 49)) is None
    options = late.late_options(sitting, at(9, 50))
    assert options is not None
    assert (options.minutes_late, options.minutes_left, options.is_no_show) == (20, 55, False)
    assert (options.fee_to_move, options.no_show_fee, options.no_show_at) == (90, FEE, at(10))
    set_clock(monkeypatch, at(9, 50))
    maud = Visitor(cast.client_of(house.desk))
    page = maud.open("/sittings/L-0001/")
    assert "20 minutes late. Begun now, 55 minutes are left: it ends when it was to end." in page.words
    assert "A no-show from 10:00 on." in page.words
    assert "Move it for GBP 90.00" in page.words
    assert "Now no-show" not in page.words
    with pytest.raises(TooEarly, match="nobody is a no-show before Thursday 3 December 2026, 10:00"):
        sittings.change_stage(by=house.desk, sitting=sitting, to="no_show", note="n", agreed_fee=FEE)
    set_clock(monkeypatch, at(10))
    maud.open("/sittings/L-0001/")
    page = maud.press("Now no-show", {"note": "rang twice", "agreed_fee": "much"})
    assert page.status == 422
    refused, steps = page.html.index("Give an amount in figures"), page.html.index("Now arrived")
    assert page.html.index("<details open><summary>Nobody came") < refused < page.html.index("Now no-show") < steps
    assert page.html.count("Give an amount in figures") == 1
    assert page.form_with("Now no-show").values["note"] == ["rang twice"]
    assert page.form_with("Now no-show").values["agreed_fee"] == ["much"]
    assert page.form_with("Now arrived").values["note"] == [""]
    page = maud.press("Now no-show", {"note": "does not answer", "agreed_fee": f"{FEE}"})
    assert again(sitting).stage == "no_show"
    assert accounts.of(again(sitting)).due == FEE
    assert late.late_options(again(sitting), at(10, 5)) is None


def test_who_is_let_in_late_is_said_to_be_late_in_the_history_and_who_is_in_time_is_not(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    agree(house)
    notes = []
    moments = ((at(9, 30), at(9, 55)), (at(12), at(12, 2)), (at(14), at(20, 17)))
    booked = [confirmed(house, starts_at=start) for start, _now in moments]
    for sitting, (_start, now) in zip(booked, moments, strict=True):
        set_clock(monkeypatch, now)
        sittings.change_stage(by=house.desk, sitting=sitting, to="arrived")
        notes.append(sitting.stage_changes.latest("pk").note)
    assert notes == ["25 minutes late", "", "6 h 17 min late"]


def test_who_comes_after_all_owes_the_fee_of_the_sitting_again(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    agree(house, no_show_percent=Decimal(50))
    sitting = confirmed(house)
    set_clock(monkeypatch, at(10))
    sittings.change_stage(by=house.desk, sitting=sitting, to="no_show", note="n", agreed_fee=Decimal(90))
    assert accounts.of(again(sitting)).due == 90
    sittings.change_stage(by=house.desk, sitting=sitting, to="arrived")
    assert accounts.of(again(sitting)).due == FEE


def test_without_terms_the_clock_runs_by_the_usual_minutes(house: House) -> None:
    sitting = sittings.change_stage(by=house.desk, sitting=house.book(), to="confirmed")
    options = late.late_options(sitting, at(10))
    assert options is not None
    assert (options.fee_to_move, options.no_show_fee, options.is_no_show) == (0, 0, True)
    assert late.late_options(again(house.book(starts_at=at(14))), at(15)) is None, "only held: nobody is expected"


# Objections.


def test_what_speaks_against_a_time_is_refused_until_it_is_acknowledged_and_kept(house: House) -> None:
    sunday = {"starts_at": at(9, 30, days=3)}
    with pytest.raises(Objected) as refused:
        house.book(acknowledged=(), **sunday)
    assert [one.code for one in refused.value.objections] == ["closed"]
    sitting = house.book(acknowledged=["closed"], **sunday)
    assert [change.sentence for change in sitting.changes.all()] == [
        "booked all the same: The house is not open on that day of the week"
    ]
    move(house, sitting, at(9, 30, days=3), purpose="golden wedding")
    with pytest.raises(Objected):
        move(house, sitting, at(18, 30))
    move(house, sitting, at(18, 30), acknowledged=["outside_hours"])
    assert stages.sentence(again(sitting)).startswith("Held.")


# The owner's pages.


@pytest.fixture
def harriet(house: House) -> Visitor:
    return Visitor(cast.client_of(house.members["owner"]))


def test_the_owner_writes_terms_and_a_new_wording_leaves_the_old_one(house: House, harriet: Visitor) -> None:
    harriet.open("/terms/new/")
    wanted = {"name": "Portraits", "valid_from": "2026-11-01", "deposit_percent": "25", "move-0-hours": "72"}
    page = harriet.press("Save", wanted)
    assert (page.status, "Give both or neither." in page.words) == (422, True)
    page = harriet.press("Save", {"move-0-percent": "10", "move-1-hours": "24", "move-1-percent": "50"})
    assert "with less than 24 hours' notice 50 percent" in page.words
    harriet.follow("Portraits")
    harriet.press("Save", {"valid_from": "2027-01-01", "deposit_percent": "30", "no_show_minutes": "45"})
    assert list(TermsWording.objects.values_list("valid_from", "deposit_percent", "move")) == [
        (date(2027, 1, 1), 30, [[24, "50"], [72, "10"]]),
        (date(2026, 11, 1), 25, [[24, "50"], [72, "10"]]),
    ]
    assert Terms.objects.get().version == 2


def test_the_second_who_saves_terms_sees_what_the_first_wrote(house: House, harriet: Visitor) -> None:
    terms = agree(house)
    harriet.open(f"/terms/{terms.pk}/")
    other = Visitor(harriet.client)
    other.open(f"/terms/{terms.pk}/")
    other.press("Save", {"hold_hours": "24", "cancel-0-percent": "80"})
    page = harriet.press("Save", {"late_minutes": "15"})
    assert "Somebody else saved this" in page.words
    kept = "less than 24 hours: 100 percent; less than 72 hours: 80 percent"
    assert f'<th scope="row">Cancelling</th><td>{kept}</td>' in page.html
    assert TermsWording.objects.get().late_minutes == 20
    harriet.press("Save")
    assert (TermsWording.objects.get().late_minutes, TermsWording.objects.get().hold_hours) == (15, 48)


def test_terms_say_late_before_no_show(house: House, harriet: Visitor) -> None:
    terms = agree(house)
    harriet.open(f"/terms/{terms.pk}/")
    page = harriet.press("Save", {"late_minutes": "40"})
    assert "Nobody is a no-show before they are late." in page.words


def test_the_owner_gives_a_kind_terms_and_prices(house: House, harriet: Visitor) -> None:
    terms = Terms.objects.create(name="Portraits")
    harriet.open(f"/kinds/{house.kind.pk}/")
    page = harriet.press("Save", {"prices-0-from_day": "2026-01-01", "prices-0-amount": "x", "terms": str(terms.pk)})
    assert "Give an amount in figures" in page.words
    page = harriet.press("Save", {"prices-0-amount": "180,50"})
    assert "GBP 180.50; terms: Portraits" in page.words
    harriet.follow("Anniversary couple")
    harriet.press("Save", {"prices-1-from_day": "2026-01-01", "prices-1-amount": "190"})
    assert Price.objects.count() == 1, "two prices from one day are refused"
    harriet.press("Save", {"prices-0-DELETE": "on", "prices-1-amount": "", "prices-1-from_day": ""})
    assert not Price.objects.exists()
