"""Complaints: a card is open until it is closed with a remedy. Re-shoots: each with its cause, and causes counted."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from bookings import causes
from bookings.actions import complaints, sittings
from bookings.forms.complaints import ComplaintForm
from bookings.models import Client, Complaint, ComplaintChange, Reshoot, Sitting
from bookings.refusals import CardChanged, NotAReshoot, NoteNeeded, StillOpen
from studio.models.versions import Stale
from tests import cast
from tests.bookings.agreeing import again, set_clock
from tests.bookings.making import House, at
from tests.pages import Visitor


@pytest.fixture
def sitting(house: House, monkeypatch: pytest.MonkeyPatch) -> Sitting:
    set_clock(monkeypatch, at(8))
    return house.book()


def opened(house: House, sitting: Sitting, **changes: Any) -> Complaint:
    said = {
        "client": house.client, "sitting": sitting, "said": "Bertram's glasses shine white", "cause": "glare",
        "keeper": house.members["owner"], "due_on": date(2026, 12, 10),
    }  # fmt: skip
    return complaints.keep(by=house.desk, complaint=Complaint(**(said | changes)))


def told(complaint: Complaint) -> list[tuple[str, str, str]]:
    return list(ComplaintChange.objects.filter(complaint=complaint).values_list("what", "before", "after"))


def test_only_they_answer_for_a_complaint_whose_pages_have_complaints(house: House) -> None:
    offered = ComplaintForm(by=house.desk, instance=Complaint(client=house.client)).fields["keeper"].queryset
    assert {member.name for member in offered} == {"Maud Ferriby", "Tobiah Renn", "Harriet Voss"}


def test_each_change_of_the_card_is_kept_with_what_it_said_before(house: House, sitting: Sitting) -> None:
    row = opened(house, sitting)
    row.agreed, row.due_on, row.keeper = "we take it again, free", date(2026, 12, 12), house.desk
    complaints.keep(by=house.desk, complaint=row, seen=1)
    assert told(row) == [
        ("opened", "", "Bertram's glasses shine white"),
        ("agreed", "", "we take it again, free"),
        ("keeper", "Harriet Voss", "Maud Ferriby"),
        ("due_on", "Thursday 10 December 2026", "Saturday 12 December 2026"),
    ]
    complaints.keep(by=house.desk, complaint=Complaint.objects.get(), seen=2)
    assert len(told(row)) == 4  # nothing was changed: nothing is told


def test_a_card_changed_in_the_meantime_is_not_written_over(house: House, sitting: Sitting) -> None:
    opened(house, sitting)
    mine, theirs = Complaint.objects.get(), Complaint.objects.get()
    theirs.offered = "a print"
    complaints.keep(by=house.desk, complaint=theirs, seen=1)
    mine.offered = "money back"
    with pytest.raises(Stale):
        complaints.keep(by=house.desk, complaint=mine, seen=1)
    with pytest.raises(CardChanged):
        complaints.close(by=house.desk, complaint=mine, remedy="a print", seen=1)
    assert Complaint.objects.get().offered == "a print"


def test_it_is_closed_with_a_remedy_alone_and_opened_again_with_a_reason(house: House, sitting: Sitting) -> None:
    row = opened(house, sitting)
    with pytest.raises(StillOpen):
        complaints.close(by=house.desk, complaint=row, remedy=" ", seen=1)
    row = complaints.close(by=house.desk, complaint=row, remedy="taken again", seen=1)
    with pytest.raises(CardChanged):
        complaints.close(by=house.desk, complaint=row, remedy="twice", seen=2)
    with pytest.raises(CardChanged):
        complaints.keep(by=house.desk, complaint=row, seen=2)
    with pytest.raises(NoteNeeded):
        complaints.open_again(by=house.desk, complaint=row, note="", seen=2)
    row = complaints.open_again(by=house.desk, complaint=row, note="they rang again", seen=2)
    assert row.is_open
    assert told(row)[1:] == [("closed", "", "taken again"), ("reopened", "taken again", "they rang again")]


def test_what_is_typed_is_kept_when_the_second_desk_is_slower(house: House, sitting: Sitting) -> None:
    maud, harriet = (Visitor(cast.client_of(house.members[role])) for role in ("front_desk", "owner"))
    row = opened(house, sitting)
    maud.open(f"/complaints/{row.pk}/")
    harriet.open(f"/complaints/{row.pk}/")
    harriet.press("Save", {"offered": "a smaller print, free"})
    page = maud.press("Save", {"offered": "money back"})
    assert (page.status, "Somebody else saved this while you had it open" in page.words) == (422, True)
    assert "a smaller print, free" in page.words
    assert page.form_with("Save").values["offered"] == ["money back"]


@pytest.mark.parametrize("wrong", ["x/2026-12/glare", "reshoots/\x00/glare", "reshoots/-1/glare", "reshoots/2026-13/x"])
def test_a_cause_nobody_has_is_not_found(house: House, wrong: str) -> None:
    assert cast.client_of(house.members["owner"]).get(f"/causes/{wrong}/").status_code == 404


def test_a_re_shoot_takes_an_earlier_sitting_of_the_same_client(house: House, sitting: Sitting) -> None:
    second = house.book(starts_at=at(9, 30, days=7))
    other = house.book(starts_at=at(9, 30, days=8), client=Client(name="Ignace Dorrow"))
    for row, first, says in ((other, sitting, "another client"), (sitting, second, "not an earlier")):
        with pytest.raises(NotAReshoot, match=says):
            complaints.link_reshoot(by=house.desk, sitting=row, first=first, cause="glare")
    complaints.link_reshoot(by=house.desk, sitting=second, first=sitting, cause="glare")
    complaints.link_reshoot(by=house.desk, sitting=second, first=sitting, cause="focus", note="both eyes soft")
    assert Reshoot.objects.get().cause == "focus"
    complaints.link_reshoot(by=house.desk, sitting=second, first=None, cause="other")
    assert not Reshoot.objects.exists()
    assert [row.sentence for row in second.changes.all()] == [
        "re-shoot of L-0001, cause: glare", "re-shoot of L-0001, cause: focus", "re-shoot of none",
    ]  # fmt: skip


def test_a_sitting_nobody_came_to_is_not_taken_again(house: House, sitting: Sitting) -> None:
    second = house.book(starts_at=at(9, 30, days=7))
    sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="n")
    with pytest.raises(NotAReshoot, match="Nobody sat"):
        complaints.link_reshoot(by=house.desk, sitting=second, first=again(sitting), cause="glare")


def test_causes_are_counted_in_one_query_by_the_month_they_lay_in(
    house: House, sitting: Sitting, django_assert_num_queries: Any
) -> None:
    for n, cause in enumerate(("glare", "glare", "late"), 1):
        second = house.book(starts_at=at(9, 30, days=30 + n))
        complaints.link_reshoot(by=house.desk, sitting=second, first=sitting, cause=cause)
    with django_assert_num_queries(1):
        months = causes.by_month(causes.RESHOOTS, date(2027, 1, 15))
    assert [(m.first, m.sum) for m in months[:3]] == [
        (date(2027, 1, 1), 0), (date(2026, 12, 1), 3), (date(2026, 11, 1), 0),
    ]  # fmt: skip
    assert {c.cause: c.number for c in months[1].counts if c.number} == {"glare": 2, "late": 1}
    assert len(months) == 12
    assert [row.cause for row in causes.behind(causes.RESHOOTS, date(2026, 12, 1), "late")] == ["late"]
