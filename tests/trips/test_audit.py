"""The owner asks who changed what, and when: each change made on its own page, then found on one."""

from __future__ import annotations

import csv
import html
import io
import re
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings import audit, audit_rows
from bookings.actions import bills, comfort, money
from bookings.models import Charge, Item, ItemPrice, Payment, Quote, Sitting, SittingChange, StageChange, Trust
from shotplans.models import RuleEdit
from tests import cast, lindenmere
from tests.bookings.agreeing import agree, set_clock
from tests.bookings.making import DAY, House, at, make_house
from tests.pages import Page, Visitor

NOW = at(8, days=-3)


@pytest.fixture
def house(db: None, monkeypatch: pytest.MonkeyPatch) -> House:
    set_clock(monkeypatch, NOW)
    found = make_house()
    agree(found)
    return found


def owner(house: House) -> Visitor:
    return Visitor(cast.client_of(house.members["owner"]))


def rows(page: Page) -> list[str]:
    """Each row of the table as the words of its cells, apart by bars."""
    found = re.findall(r"<tr><th scope=\"row\">(.*?)</tr>", page.html, re.DOTALL)
    cells = [re.split(r"</t[hd]>", row)[:-1] for row in found]
    return [" | ".join(html.unescape(re.sub("<[^>]+>", "", cell)).strip() for cell in row) for row in cells]


def row_with(page: Page, *words: str) -> str:
    found = [row for row in rows(page) if all(word in row for word in words)]
    assert len(found) == 1, (words, rows(page))
    return found[0]


def file_of(house: House, **asked: Any) -> list[dict[str, str]]:
    answer = cast.client_of(house.members["owner"]).get("/audit/changes.csv", asked)
    assert answer.status_code == 200
    assert "no-store" in answer["Cache-Control"]
    return list(csv.DictReader(io.StringIO(b"".join(answer.streaming_content).decode())))


def test_feature_61_a_deposit_a_stage_and_a_release_are_found_with_who_and_when(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = house.book()
    maud = Visitor(cast.client_of(house.desk))
    set_clock(monkeypatch, NOW + timedelta(hours=1))
    maud.open(f"/sittings/{sitting.number}/")
    maud.press("Enter money", {"kind": "deposit", "amount": "45", "method": "card"})
    set_clock(monkeypatch, NOW + timedelta(hours=2))
    maud.open(f"/sittings/{sitting.number}/permissions/")
    first = sitting.sitters.first()
    assert first is not None
    maud.press("Save the release", {"people": str(first.pk), "signed_on": f"{NOW:%Y-%m-%d}"})
    set_clock(monkeypatch, NOW + timedelta(hours=3))
    harriet = owner(house)
    harriet.open("/studio/")
    page = harriet.follow("Who changed what, and when")
    number = sitting.number
    assert row_with(page, "Deposit, card") == (
        f"30 Nov 2026, 09:00 | Maud Ferriby | {number} | Deposit, card, receipt R-0001 |  | GBP 45.00 | "
    )
    assert row_with(page, "| held | confirmed |").startswith(f"30 Nov 2026, 09:00 | Maud Ferriby | {number} | Stage")
    assert row_with(page, "Booked").startswith("30 Nov 2026, 08:00 | Maud Ferriby")
    signed = row_with(page, "Release of Ottoline")
    assert signed.startswith(f"30 Nov 2026, 10:00 | Maud Ferriby | {number}")
    assert "signed by Ottoline" in signed
    assert [row[:18] for row in rows(page)] == sorted((row[:18] for row in rows(page)), reverse=True)


def test_feature_61_a_plan_made_and_one_superseded_are_found_with_who_and_when(db: None) -> None:
    lindenmere.build()
    tobiah, sitting = lindenmere.visitor("photographer"), lindenmere.sitting("dorrow")
    tobiah.open(f"/sittings/{sitting.number}/brief/")
    tobiah.press("Make a new version of the plan", {"why": "allergic to the new powder"})
    page = lindenmere.visitor("owner").open(f"/audit/?sitting={sitting.number}&what=plan")
    latest = lindenmere.plan("dorrow")
    made = row_with(page, "Plan made", f"version {latest.number} |")
    assert made.split(" | ")[1:] == [
        "Tobiah Renn", sitting.number, "Plan made", f"version {latest.number - 1}", f"version {latest.number}", ""
    ]  # fmt: skip
    assert "Tobiah Renn" in row_with(page, "Plan superseded", f"version {latest.number - 1} |")
    assert "powder" not in page.html  # a reason may name what a sitter wrote


def test_a_rule_set_is_found_with_its_reason_and_belongs_to_no_sitting(house: House) -> None:
    sitting = house.book()
    RuleEdit.objects.create(
        rule="older_pair", number="minutes", words="minutes more", unit="min", value_from=5, value_to=7.5,
        why="they sat too long", at=NOW, by=house.members["photographer"],
    )  # fmt: skip
    row = row_with(owner(house).open("/audit/?what=rules"), "minutes more")
    assert row.split(" | ")[1:3] == ["Tobiah Renn", ""]
    assert row.endswith("5 minutes | 7.5 minutes | they sat too long")
    assert rows(owner(house).open(f"/audit/?what=rules&sitting={sitting.number}")) == []


def test_what_is_kept_twice_is_shown_once(house: House) -> None:
    sitting = house.book()
    item = Item.objects.create(name="Wall print", kind="print")
    ItemPrice.objects.create(item=item, from_day=DAY.date() - timedelta(days=90), amount=Decimal(90))
    charge = bills.charge_item(by=house.desk, sitting=sitting, item=item, count=2)
    bills.quote(by=house.desk, sitting=sitting, wanted=[], valid_until=NOW.date())
    bills.take_item_back(by=house.desk, charge=charge, note="they chose the smaller one")
    bills.invoice(by=house.desk, sitting=sitting)
    Visitor(cast.client_of(house.desk)).open(f"/sittings/{sitting.number}/")
    visitor = owner(house)
    visitor.open(f"/sittings/{sitting.number}/")
    visitor.press("Now confirmed", {"waive_deposit": "on", "note": "an old friend of the house"})
    assert (Quote.objects.count(), Trust.objects.count()) == (1, 1)
    page = visitor.open("/audit/?what=money")
    assert "Harriet Voss" in row_with(page, "| waived | an old friend of the house")
    row_with(page, "2 x Wall print charged", "GBP 180.00")
    row_with(page, "2 x Wall print taken back", "smaller one")
    row_with(page, "Quote Q-0001")
    row_with(page, "Invoice I-0001 made")


def test_each_filter_leaves_out_the_rest(house: House) -> None:
    first, second = house.book(), house.book(starts_at=at(14))
    money.take(by=house.members["owner"], sitting=second, kind="balance", amount=Decimal(10), method="cash")
    StageChange.objects.create(
        sitting=first, at=NOW - timedelta(days=9), stage_from="enquiry", stage_to="held", note="long ago"
    )
    harriet = owner(house)

    def found(query: str) -> str:
        return " ".join(rows(harriet.open(f"/audit/?{query}")))

    assert "long ago" not in found("")
    old = f"{NOW - timedelta(days=9):%Y-%m-%d}"
    assert "the clock" in found(f"first={old}&last={old}")
    assert found(f"first={old}&last={old}").count("|") == 6
    assert "long ago" in found(f"sitting={first.number.lower()}")
    assert second.number not in found(f"sitting={first.number}")
    by_owner = found(f"member={house.members['owner'].pk}")
    assert "GBP 10.00" in by_owner
    assert "Maud" not in by_owner
    assert "GBP 10.00" not in found("what=stage")
    assert "Nothing was changed that fits." in harriet.open("/audit/?what=rules").words


def test_who_is_refused_the_notes_is_there_and_who_reads_them_stands_elsewhere(house: House) -> None:
    sitting = house.book()
    sitter = sitting.sitters.first()
    assert sitter is not None
    other = cast.make_member("assistant", name="Osric Pell", short="OP")
    address = f"/sittings/{sitting.number}/notes/{sitter.pk}/"
    assert cast.client_of(other).get(address).status_code == 403
    assert cast.client_of(sitting.photographer).get(address).status_code == 200
    page = owner(house).open("/audit/?what=notes")
    assert len(rows(page)) == 1
    assert f"Osric Pell | {sitting.number} | Comfort notes refused" in rows(page)[0]
    assert "Ottoline" not in rows(page)[0]


def test_of_an_erased_client_the_rows_stay_and_the_names_do_not(house: House) -> None:
    sitting = house.book()
    maud = Visitor(cast.client_of(house.desk))
    maud.open(f"/sittings/{sitting.number}/permissions/")
    maud.press("Save the release", {"people": str(sitting.sitters.first().pk), "signed_on": f"{NOW:%Y-%m-%d}"})
    SittingChange.objects.filter(sitting=sitting).update(before="", after="", note="")
    page = owner(house).open(f"/audit/?sitting={sitting.number}&what=permission")
    assert "| Permission |" in row_with(page, "Maud Ferriby")


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("first=junk", "Give a day, as 2026-12-03."),
        ("last=2026-02-31", "Give a day, as 2026-12-03."),
        ("first=0001-01-01", "Give a day between 2000 and 2100."),
        ("last=9999-12-31", "Give a day between 2000 and 2100."),
        ("first=2026-12-03&last=2026-12-01", "The last day is before the first."),
        ("first=2020-01-01&last=2026-12-01", "A year at most at once"),
        ("first=2020-01-01", "A year at most at once"),
        ("sitting=L-9999", "No sitting has this number."),
        ("sitting=%00", "Null characters are not allowed."),
        ("member=99999999999999999999", "Nobody of that name works here"),
        ("member=x", "Nobody of that name works here"),
        ("what=everything", "Choose one of the list."),
    ],
)
def test_junk_is_answered_beside_its_field_and_stays_in_it(house: House, query: str, said: str) -> None:
    client = cast.client_of(house.members["owner"])
    for address in ("/audit/", "/audit/changes.csv"):
        answer = client.get(f"{address}?{query}&what=stage" if "what" not in query else f"{address}?{query}")
        assert answer.status_code == 422
        assert said in answer.content.decode()


@pytest.mark.parametrize("page", ["junk", "-1", "0", "²", "99999999999", ""])
def test_a_page_that_is_none_is_the_first(house: House, page: str) -> None:
    house.book()
    assert "Booked" in owner(house).open(f"/audit/?page={page}").words


@pytest.fixture
def many(house: House) -> Sitting:
    sitting = house.book()
    StageChange.objects.bulk_create(
        StageChange(sitting=sitting, at=NOW - timedelta(minutes=n), by=house.desk, stage_to="held", note=f"step {n}.")
        for n in range(1, 2 * audit.PAGE + 20)
    )
    return sitting


def test_older_pages_go_on_where_the_newer_ended_and_keep_what_was_asked(house: House, many: Sitting) -> None:
    harriet = owner(house)
    first = harriet.open("/audit/?what=stage")
    second = harriet.follow("Older")
    third = harriet.follow("Older")
    said = [note for page in (first, second, third) for note in re.findall(r"step (\d+)\.", " ".join(rows(page)))]
    assert said == [str(n) for n in range(1, 2 * audit.PAGE + 20)]
    assert [len(rows(page)) for page in (first, second, third)] == [200, 200, 20]
    assert "Older" not in third.words
    assert rows(harriet.follow("Newer")) == rows(second)


def test_the_queries_do_not_grow_with_the_rows(house: House) -> None:
    client = cast.client_of(house.members["owner"])

    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            assert client.get("/audit/").status_code == 200
        return len(asked)

    sitting = house.book()
    few = queries()
    for day in (1, 2, 3):
        other = house.book(starts_at=at(9, 30, days=day))
        money.take(by=house.desk, sitting=other, kind="deposit", amount=Decimal(45), method="card")
    StageChange.objects.bulk_create(StageChange(sitting=sitting, at=NOW, stage_to="held") for _ in range(150))
    assert queries() == few


def test_every_source_gives_only_the_kinds_it_says(house: House, many: Sitting) -> None:
    money.take(by=house.desk, sitting=many, kind="deposit", amount=Decimal(45), method="card")
    for source in audit_rows.SOURCES:
        given = {row.kind for row in source(NOW - timedelta(days=1), NOW + timedelta(days=1), None)}
        assert given <= set(source.kinds), source  # type: ignore[attr-defined]
    with CaptureQueriesContext(connection) as asked:
        owner(house).open("/audit/?what=rules")
    assert not [one for one in asked if "bookings_stagechange" in one["sql"]]


def test_the_file_holds_the_same_rows_and_nothing_that_reckons(house: House, many: Sitting) -> None:
    taken = money.take(
        by=house.desk, sitting=many, kind="balance", amount=Decimal(20), method="cash", note="=HYPERLINK(1)"
    )
    money.correct(by=house.desk, payment=taken, note="-5+3, @sum")
    found = file_of(house)
    assert len(found) == StageChange.objects.count() + Payment.objects.count() + Charge.objects.count()
    assert tuple(found[0]) == audit.HEAD
    notes = {row["note"] for row in found}
    assert {"'=HYPERLINK(1)", "'-5+3, @sum"} <= notes
    assert not [cell for row in found for cell in row.values() if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]
    back = next(row for row in found if row["note"] == "'-5+3, @sum")
    assert (back["when"], back["who"], back["kind"]) == ("2026-11-30T08:00:00+00:00", "Maud Ferriby", "money")
    assert back["to"] == "GBP \N{MINUS SIGN}20.00"
    assert "takes back R-0001" in back["what"]


def test_no_word_of_a_comfort_note_is_there(house: House) -> None:
    sitting = house.book()
    sitter = sitting.sitters.first()
    assert sitter is not None
    comfort.add(sitter=sitter, notes={}, wishes=[{"note": "scar", "side": "left", "wish": "softer"}])
    page = owner(house).open(f"/audit/?sitting={sitting.number}")
    assert rows(page)
    assert "scar" not in page.html
    assert not [row for row in file_of(house, sitting=sitting.number) if "scar" in " ".join(row.values())]
