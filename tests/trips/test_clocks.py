"""The desk's and the owner's pages of what was promised, walked by their own links and buttons: one test for each
feature of the list."""

from __future__ import annotations

import csv
from datetime import date, datetime, timedelta
from io import StringIO
from typing import Any

import pytest

from bookings import rebooking
from bookings.actions import rebooking as asking
from bookings.actions import sittings
from bookings.models import AskedBack, Claim, Client, Letter, Sitting
from bookings.refusals import AskedAlready, NotToBeAsked
from tests import cast
from tests.bookings.agreeing import again, set_clock
from tests.bookings.making import House, at, make_house
from tests.pages import Visitor


@pytest.fixture
def house(db: None, monkeypatch: pytest.MonkeyPatch, settings: Any) -> House:
    settings.SITTING_PANELS = []
    set_clock(monkeypatch, at(8, days=-2))
    made = make_house()
    made.kind.delivery_days = 5
    made.kind.save()
    return made


def photographed(house: House, monkeypatch: pytest.MonkeyPatch, *, to: str = "photographed", **changes: Any) -> Sitting:
    row = house.book(**changes)
    for step in ("confirmed", "arrived", "photographed", "chosen"):
        set_clock(monkeypatch, row.starts_at + timedelta(hours=2))
        sittings.change_stage(by=house.desk, sitting=row, to=step)
        if step == to:
            break
    return again(row)


def test_feature_17_waiting_on_the_client_pauses_the_studio_s_clock_and_says_so(
    house: House, maud: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = photographed(house, monkeypatch)
    set_clock(monkeypatch, at(12, days=4))
    page = maud.open(f"/sittings/{sitting.number}/")
    assert "Waiting for the client since Thursday 3 December 2026: the studio's clock stands" in page.words
    assert "the promised date moves from Wednesday 9 December 2026 to Saturday 12 December 2026" in page.words
    page = maud.press("Now chosen")
    assert "Studio's move: deliver by Saturday 12 December 2026." in page.words
    page = maud.press("Save what it waits for", {"what": "pay"})
    assert "Waiting for the client since Monday 7 December 2026: the studio's clock stands" in page.words
    maud.open("/diary/")
    page = maud.follow("Waiting")
    assert f"{sitting.number}, Askew Chosen. Client's move: pay the balance by Monday 21 December 2026" in page.words


def test_feature_19_an_open_complaint_shows_on_client_sitting_and_owner_s_list_until_closed_with_remedy(
    house: House, maud: Visitor, harriet: Visitor
) -> None:
    sitting = house.book()
    maud.open(f"/sittings/{sitting.number}/")
    maud.follow("Take a complaint")
    said = "Bertram's glasses shine white"
    page = maud.press("Open the complaint", {"said": said, "cause": "glare"})
    assert "The complaint is open." in page.words
    places = (f"/sittings/{sitting.number}/", f"/clients/{house.client.pk}/", "/waiting/")
    for place in places:
        assert "omplaint" in maud.open(place).words
    assert said in maud.open(places[0]).words
    assert said in maud.open(places[1]).words
    assert said in harriet.open("/studio/").words
    assert "Complaint (glare). Maud Ferriby's move: settle it." in harriet.open("/waiting/").words
    harriet.open("/complaints/")
    harriet.follow("Ottoline and Bertram Askew, L-0001")
    page = harriet.press("Close with this remedy", {"remedy": ""})
    assert "that is what closes it" in page.words
    assert said in harriet.open("/studio/").words
    harriet.open("/complaints/")
    harriet.follow("Ottoline and Bertram Askew, L-0001")
    page = harriet.press("Close with this remedy", {"remedy": "taken again, free"})
    assert "The complaint is closed." in page.words
    assert said not in harriet.open("/studio/").words
    assert "No complaint is open." in harriet.page.words


def wed(house: House, monkeypatch: pytest.MonkeyPatch, **changes: Any) -> Sitting:
    """The Askews, married on 5 December 1986, sat on the third of December 2026."""
    house.client.email = "askew@post.example"
    house.client.save()
    return photographed(house, monkeypatch, to="chosen", **({"occasion_on": date(1986, 12, 5)} | changes))


def test_feature_20_anniversaries_due_in_sixty_days_are_listed_and_invited_with_one_tap(
    house: House, maud: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    wed(house, monkeypatch)
    set_clock(monkeypatch, datetime(2027, 10, 1, 9, tzinfo=at(0).tzinfo))
    assert "Nobody is to be asked." in maud.open("/waiting/back/").words  # 65 days before
    set_clock(monkeypatch, datetime(2027, 10, 6, 9, tzinfo=at(0).tzinfo))
    page = maud.open("/waiting/")
    assert "41 years on Sunday 5 December 2027: ruby wedding." in page.words
    page = maud.press("Invite by letter")
    assert "Ottoline and Bertram Askew is invited." in page.words
    assert "Nobody is to be asked." in page.words
    letter = Letter.objects.get(kind="invitation")
    assert (letter.to, letter.kind) == ("askew@post.example", "invitation")
    assert "On Sunday 5 December 2027 it is your day again" in letter.body
    with pytest.raises(AskedAlready, match="invited for 2027 already"):
        asking.invite(by=house.desk, client=house.client, by_letter=True)
    assert (Letter.objects.filter(kind="invitation").count(), AskedBack.objects.count()) == (1, 1)


def test_feature_20_the_owner_words_the_letter_of_asking_back(
    house: House, harriet: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    wed(house, monkeypatch)
    set_clock(monkeypatch, datetime(2027, 10, 6, 9, tzinfo=at(0).tzinfo))
    harriet.open("/wordings/")
    harriet.follow("Asking back")
    worded = {"subject": "Come again, {{ client.name }}", "body": "On {{ back.day }}: {{ back.what }}?\n{{ back.y }}"}
    page = harriet.press("Save", worded)
    assert "Line 2: there is no blank “back.y”" in page.words
    worded["body"] = worded["body"].replace("{{ back.y }}", "{{ studio.name }}")
    page = harriet.press("Preview", worded)
    assert "On Saturday 5 December 2026: ruby wedding?" not in page.words
    assert "On Sunday 5 December 2027: ruby wedding?" in page.words
    harriet.press("Save", worded)
    asking.invite(by=house.desk, client=house.client, by_letter=True)
    letter = Letter.objects.get(kind="invitation")
    assert letter.subject == "Come again, Ottoline and Bertram Askew"
    assert letter.body.startswith("On Sunday 5 December 2027: ruby wedding?\n")


def test_feature_20_never_again_is_respected_and_a_client_who_came_back_is_not_asked(
    house: House, maud: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    wed(house, monkeypatch)
    october = datetime(2027, 10, 20, 9, tzinfo=at(0).tzinfo)
    set_clock(monkeypatch, october)
    booked = house.book(starts_at=october + timedelta(days=30))
    assert rebooking.due(october.date()) == []
    sittings.change_stage(by=house.desk, sitting=booked, to="cancelled", note="n")
    assert len(rebooking.due(october.date())) == 1
    maud.open("/waiting/back/")
    page = maud.press("Never ask again")
    assert "is never asked again." in page.words
    assert rebooking.due(october.date()) == []
    assert Client.objects.get().not_again
    with pytest.raises(NotToBeAsked):
        asking.invite(by=house.desk, client=house.client, by_letter=True)
    desk = cast.client_of(house.desk)
    for junk in ("", "x", "\x00"):
        assert desk.post(f"/clients/{house.client.pk}/back/", {"what": junk}).status_code == 302
        for name in ("occasion_on", "seen"):
            sent = {"occasion_on": "1986-12-05", "seen": "1"} | {name: junk or "9" * 40}
            assert desk.post("/sittings/L-0001/occasion/", sent).status_code == 422


def test_feature_20_a_leap_day_comes_round_on_the_last_of_february_and_kinds_ask_yearly(
    house: House, monkeypatch: pytest.MonkeyPatch, django_assert_num_queries: Any
) -> None:
    wed(house, monkeypatch, occasion_on=date(1988, 2, 29))
    with django_assert_num_queries(3):
        [one] = rebooking.due(date(2027, 12, 31))
    assert (one.on, one.years) == (date(2028, 2, 29), 40)
    assert [one.on for one in rebooking.due(date(2026, 12, 31))] == []  # they sat twelve weeks before
    assert [one.on for one in rebooking.due(date(2028, 12, 31))] == [date(2029, 2, 28)]
    assert [one.on for one in rebooking.due(date(2028, 12, 30))] == [date(2029, 2, 28)]
    Sitting.objects.update(occasion_on=None)
    assert rebooking.due(date(2027, 11, 1)) == []
    house.kind.ask_back = "hires"
    house.kind.save()
    [one] = rebooking.due(date(2027, 11, 1))
    assert one.words == "1 year on Friday 3 December 2027 since ruby wedding; ask who is new there"


def test_feature_62_hours_of_rooms_people_and_booms_by_week_against_open_hours(
    house: House, harriet: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    boom = cast.make_kit("stands", code="boom-1", label="boom", kind="boom")
    sitting = photographed(house, monkeypatch)
    span = sitting.spans.whole
    Claim.objects.create(
        sitting=sitting, resource_kind="kit", resource_id=boom.pk, starts_at=span.starts_at, ends_at=span.ends_at
    )
    house.book(starts_at=at(15))  # held: not booked
    harriet.open("/studio/")
    page = harriet.follow("Use of rooms, people and kit")
    assert "Long Room, room" in page.words
    # 09:00 to 11:00 of six days from eight to seven; the photographer from 09:15 to 10:45.
    for said in ("2.0 of 66.0 h", "1.5 of 66.0 h", "boom (boom-1), piece of kit"):
        assert said in page.words
    rows = list(csv.reader(StringIO(harriet.fetch("As a file (CSV)").getvalue().decode())))
    assert rows[0] == ["week from", "what", "name", "hours booked", "hours open", "percent"]
    found = {(row[0], row[2]): row[3:] for row in rows[1:]}
    assert found["2026-11-30", "boom (boom-1)"] == ["2.00", "66.00", "3"]
    assert found["2026-11-30", "Tobiah Renn"] == ["1.50", "66.00", "2"]
    assert found["2026-11-23", "Long Room"] == ["0.00", "66.00", "0"]
    for junk in ("x", "9999-99-99", "", "2000-01-01", "2100-12-31"):
        assert harriet.client.get(f"/use/?from={junk}").status_code == 200


def test_feature_64_causes_of_re_shoots_are_counted_by_code_and_month_with_the_list_behind(
    house: House, maud: Visitor, harriet: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    photographed(house, monkeypatch)
    second = house.book(starts_at=at(9, 30, days=7))
    maud.open(f"/sittings/{second.number}/")
    maud.follow("It takes an earlier sitting again")
    page = maud.press("Save the cause", {"first": str(Sitting.objects.get(number="L-0001").pk), "cause": "glare"})
    assert "A re-shoot of L-0001, cause: glare." in page.words
    assert "Taken again on 10 December 2026, cause: glare." in maud.open("/sittings/L-0001/").words
    harriet.open("/studio/")
    page = harriet.follow("Causes of re-shoots and complaints")
    assert "December 20261000001" in page.words.replace(" ", "").replace("December2026", "December 2026")
    page = harriet.follow("1")
    assert "Re-shoots, December 2026, cause: glare" in page.words
    assert "L-0001, Ottoline and Bertram Askew" in page.words


def test_feature_65_all_past_their_promise_stand_on_one_page_with_their_reason(
    house: House, maud: Visitor, harriet: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    for days in (0, 1):
        photographed(house, monkeypatch, to="chosen", starts_at=at(9, 30, days=days))
    set_clock(monkeypatch, at(9, days=9))
    maud.open("/waiting/")
    page = maud.follow("2 sittings have become late: say why")
    assert page.words.index("3 days past") < page.words.index("2 days past")
    page = maud.press("Save the reason", {"why": ""})
    assert (page.status, "This field is required." in page.words) == (422, True)
    page = maud.press("Save the reason", {"code": "lab", "why": "their printer stands still"})
    assert "Because of the lab: their printer stands still (Maud Ferriby, 12 December)" in page.words
    assert "No reason yet: say why." in page.words  # the other
    assert "Studio's move: deliver, since Thursday 3 December 2026." in page.words
    assert maud.fetch("Print the list (PDF)").content.startswith(b"%PDF")
    assert "2 sittings are past their promise" in harriet.open("/studio/").words
