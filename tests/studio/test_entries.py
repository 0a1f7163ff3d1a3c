"""Entries from a device: each is taken in once, at the time it was made, and answered as it was the first time."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from hypothesis import given
from hypothesis import strategies as st

from studio import clock, entries
from studio.actions import entries as entry_actions
from studio.models import Entry, Member
from tests import cast

ID = "6f1c2d52-0a0e-4a57-9c39-6f8a5d0f3b11"
NOON = datetime(2026, 12, 3, 12, 0, tzinfo=UTC)
HOUR_MS = 3_600_000
moments = st.datetimes(datetime(1971, 1, 1), datetime(2099, 1, 1), timezones=st.just(UTC))


@given(moments, st.timedeltas(timedelta(0), entries.LONGEST_WAIT), st.timedeltas(timedelta(-900), timedelta(900)))
def test_how_wrong_a_clock_is_does_not_move_an_entry(
    received: datetime, waited: timedelta, wrong: timedelta
) -> None:
    sent = entries.Sent(entries.uuid.UUID(ID), NOON + wrong - waited, NOON + wrong)
    assert sent.made_by(received) == received - waited


@given(moments, st.timedeltas(timedelta(seconds=1), timedelta(900)))
def test_a_clock_put_back_in_between_dates_nothing_after_it_came_in(received: datetime, back: timedelta) -> None:
    assert entries.Sent(entries.uuid.UUID(ID), NOON, NOON - back).made_by(received) == received


@given(st.text(max_size=40), st.text(max_size=20), st.text(max_size=20))
def test_headers_of_any_kind_are_read_or_turned_away(name: str, made: str, sent: str) -> None:
    assert entries.read(name, made, sent) is None or entries.uuid.UUID(name)


class Desk:
    """A view with its entries, what it did each time, and somebody who posts to it."""

    def __init__(self, member: Member) -> None:
        self.member, self.done = member, []
        self.view = entries.once(self._do)

    def _do(self, request: HttpRequest) -> HttpResponse:
        self.done.append(clock.now())
        if request.POST.get("text") == "wrong":
            messages.error(request, "It is signed.")
        return redirect("/after/")

    def post(self, text: str = "5.6 6", *, name: str = ID, made: object = 0, sent: object = 0, path: str = "/r/"):
        request = HttpRequest()
        request.method, request.path, request.member = "POST", path, self.member
        request.POST = {"text": text, "seen": "4"}
        request.META = {"HTTP_X_ENTRY": name, "HTTP_X_ENTRY_MADE": str(made), "HTTP_X_ENTRY_SENT": str(sent)}
        request._messages = messages.storage.base.BaseStorage(request)
        request._messages._get = lambda: ([], True)
        return self.view(request)


@pytest.fixture
def desk(db: None) -> Desk:
    return Desk(cast.make_member("assistant"))


def test_the_same_entry_sent_again_is_answered_again_and_done_once(desk: Desk) -> None:
    first, second = desk.post(), desk.post()
    assert (first.status_code, len(desk.done), Entry.objects.count()) == (200, 1, 1)
    assert b'"outcome": "kept"' in first.content
    assert b'"then": "/after/"' in first.content
    assert b'"outcome": "kept"' in second.content
    assert Entry.objects.get().base_version == 4


def test_a_refusal_is_said_in_words_and_stays_one(desk: Desk) -> None:
    for text in ("wrong", "5.6 6"):  # the second time the form would be taken, but it is the same entry
        assert b'"outcome": "refused", "says": "It is signed."' in desk.post(text).content
    assert len(desk.done) == 1


def test_an_entry_counts_from_when_it_was_made_though_its_clock_is_an_hour_ahead(desk: Desk) -> None:
    desk.post(made=HOUR_MS * 500_000, sent=HOUR_MS * 500_000 + 12 * 60_000)
    kept = Entry.objects.get()
    assert kept.received_at - kept.made_at == timedelta(minutes=12)
    assert desk.done == [kept.made_at]
    assert kept.device_at == datetime.fromtimestamp(3600 * 500_000, UTC)


def test_an_entry_of_somebody_else_or_for_another_page_is_not_answered_as_ones_own(desk: Desk) -> None:
    desk.post()
    assert desk.post(path="/other/").status_code == 409
    desk.member = cast.make_member("photographer")
    assert desk.post().status_code == 409
    assert len(desk.done) == 1


WRONG = [{"name": "17"}, {"made": "now"}, {"sent": "-1"}, {"sent": "9" * 13}, {"made": "1e3"}]


@pytest.mark.parametrize("wrong", WRONG)
def test_an_entry_that_says_nothing_of_itself_is_refused_and_not_carried_out(desk: Desk, wrong: dict) -> None:
    assert desk.post(**wrong).status_code == 400
    assert (desk.done, Entry.objects.count()) == ([], 0)


def test_old_entries_go_and_what_a_refusal_said_of_somebody_goes_before(desk: Desk) -> None:
    desk.post("wrong", path="/sittings/L-0001/r/")
    entry_actions.blank("/sittings/L-0002/")
    assert Entry.objects.get().says == "It is signed."
    entry_actions.blank("/sittings/L-0001/")
    assert Entry.objects.get().says == ""
    assert entry_actions.forget_old() == 0
    with clock.standing(clock.now() + entry_actions.KEPT + timedelta(seconds=1)):
        assert entry_actions.forget_old() == 1
