"""The door: tries are slowed down without keeping others out, sessions end, passwords change, and nothing of what was
typed stands in a log."""

from __future__ import annotations

import logging
from datetime import timedelta

import pytest
from django.contrib.auth import hashers
from django.test import Client, RequestFactory

from studio import doors
from studio.actions import tries
from studio.models import DoorChange, SignInTries
from tests import cast
from tests.bookings.agreeing import set_clock
from tests.bookings.making import at

pytestmark = pytest.mark.django_db
THERE, ELSEWHERE = "192.0.2.7", "198.51.100.9"


def sign_in(client: Client, password: str = cast.PASSWORD, name: str = "harriet", **where: str):
    return client.post("/sign-in/", {"username": name, "password": password}, **where)


def guess(times: int, *, name: str = "harriet", **where: str) -> None:
    for n in range(times):
        sign_in(Client(), f"guess {n}", name, **where)


def test_the_wait_grows_and_ends_at_an_hour() -> None:
    waits = [tries.wait_after(n).total_seconds() for n in (1, 4, 5, 6, 7, 12, 1000)]
    assert waits == [0, 0, 30, 60, 120, 3600, 3600]


def test_too_many_tries_are_told_how_long_it_takes_and_then_let_in(monkeypatch: pytest.MonkeyPatch) -> None:
    cast.make_member("owner")
    set_clock(monkeypatch, at(9))
    guess(tries.FREE, REMOTE_ADDR=THERE)
    answer = sign_in(Client(), REMOTE_ADDR=THERE)  # even with the right one
    assert answer.status_code == 429
    page = answer.content.decode()
    assert "Too many tries from here, so this one was not looked at. The next is in 31 seconds." in page
    assert 'value="harriet"' in page
    set_clock(monkeypatch, at(9) + timedelta(seconds=31))
    assert sign_in(Client(), REMOTE_ADDR=THERE).status_code == 302
    assert not SignInTries.objects.exists()


def test_who_guesses_keeps_nobody_else_out() -> None:
    cast.make_member("owner")
    known = Client(REMOTE_ADDR=THERE)
    sign_in(known)
    known.post("/sign-out/")
    guess(tries.FREE + 2, REMOTE_ADDR=THERE)
    assert sign_in(Client(), REMOTE_ADDR=THERE).status_code == 429
    assert sign_in(Client(), REMOTE_ADDR=ELSEWHERE).status_code == 302
    assert sign_in(known).status_code == 302  # behind the same address, on a device she came in from before
    cast.make_member("assistant")
    assert sign_in(Client(), name="ines", REMOTE_ADDR=THERE).status_code == 302


def test_a_device_is_known_for_its_own_member_alone_and_under_the_present_password(rf: RequestFactory) -> None:
    owner = cast.make_member("owner")
    cast.make_member("assistant")
    browser = Client()
    sign_in(browser)
    request = rf.get("/sign-in/")
    request.COOKIES = {doors.KNOWN: browser.cookies[doors.KNOWN].value}
    assert doors.device_of(request, "harriet").startswith("device ")
    assert doors.device_of(request, "ines") == ""
    owner.user.set_password("another long morning")
    owner.user.save()
    assert doors.device_of(request, "harriet") == ""
    request.COOKIES = {doors.KNOWN: "x:y:z"}
    assert doors.device_of(request, "harriet") == ""
    cookie = browser.cookies[doors.KNOWN]
    assert (cookie["httponly"], cookie["samesite"], cookie["path"]) == (True, "Strict", "/sign-in/")


def test_where_a_try_comes_from(rf: RequestFactory, settings: object) -> None:
    passed_on = {"REMOTE_ADDR": "127.0.0.1", "HTTP_X_FORWARDED_FOR": "203.0.113.1, 192.0.2.7"}
    assert doors.address_of(rf.get("/", **passed_on)) == "127.0.0.1"  # without a proxy anybody may write that header
    settings.HTTPS = True  # type: ignore[attr-defined]
    assert doors.address_of(rf.get("/", **passed_on)) == "192.0.2.7"
    assert doors.address_of(rf.get("/", REMOTE_ADDR="2001:db8:1:2:3::9")) == "2001:db8:1:2::/64"
    assert doors.address_of(rf.get("/", REMOTE_ADDR="")) == "unknown"


def test_an_unknown_name_takes_as_long_and_is_told_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    cast.make_member("owner")
    cast.make_member("assistant", active=False)
    hashed: list[int] = []
    encode = hashers.MD5PasswordHasher.encode
    monkeypatch.setattr(
        hashers.MD5PasswordHasher, "encode", lambda *a, **k: hashed.append(1) or encode(*a, **k)
    )  # what costs the time
    told = set()
    for name in ("harriet", "ines", "nobody"):
        page = sign_in(Client(), "no such word", name).content.decode()
        told.add("Name and password do not go together" in page)
    assert (len(hashed), told) == (3, {True})
    guess(tries.FREE - 1, name="nobody")
    assert sign_in(Client(), name="nobody").status_code == 429


def test_nothing_that_was_typed_is_kept_or_logged(caplog: pytest.LogCaptureFixture) -> None:
    cast.make_member("owner")
    with caplog.at_level(logging.DEBUG):
        for _each in range(tries.FREE + 1):
            sign_in(Client(), "a secret sparrow", "a name typed")
    said = caplog.text + " ".join(str(row.__dict__) for row in SignInTries.objects.all())
    assert "sign_in_failed" in said
    assert "sign_in_too_early" in said
    assert [word for word in ("sparrow", "name typed", "127.0.0.1") if word in said] == []


def later(monkeypatch: pytest.MonkeyPatch, wait: timedelta) -> None:
    then = doors.now() + wait.total_seconds()
    monkeypatch.setattr(doors, "now", lambda: then)


def test_a_session_ends_after_half_a_day_without_a_page(monkeypatch: pytest.MonkeyPatch) -> None:
    client = cast.client_of(cast.make_member("owner"))
    for _each in range(3):
        later(monkeypatch, timedelta(hours=11))
        assert client.get("/mine/").status_code == 200
    later(monkeypatch, timedelta(hours=13))
    assert client.get("/mine/").headers["Location"] == "/sign-in/?next=%2Fmine%2F"


def test_a_session_ends_after_a_week_in_any_case(monkeypatch: pytest.MonkeyPatch) -> None:
    client = cast.client_of(cast.make_member("owner"))
    answers = []
    for _each in range(17):
        later(monkeypatch, timedelta(hours=10))
        answers.append(client.get("/mine/").status_code)
    assert answers == [200] * 16 + [302]


def test_an_entry_that_waited_on_a_device_is_taken_once_its_member_signed_in_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Signed out, the house takes nothing and says where to sign in: the device keeps what it has
    (`static/studio/queue.js`) and sends it again under the same number."""
    cast.make_kit("heads", code="heads-1")
    client = cast.client_of(cast.make_member("assistant"))
    headers = {"X-Entry": "6f9619ff-8b86-4011-b42d-00cf4fc964ff", "X-Entry-Made": "1", "X-Entry-Sent": "1"}
    said = {"state": "away", "seen": "1"}
    later(monkeypatch, timedelta(hours=13))
    refused = client.post("/k/heads-1/state/", said, headers=headers)
    assert (refused.status_code, refused.headers["Location"]) == (302, "/sign-in/")
    assert client.get("/on-set/token/").status_code == 302
    sign_in(client, name="ines")
    assert client.post("/k/heads-1/state/", said, headers=headers).json()["outcome"] in ("kept", "refused")
    assert client.get("/on-set/token/").json()["member"]


def test_a_new_password_of_ones_own_ends_every_other_session() -> None:
    maud = cast.make_member("front_desk")
    here, there = cast.client_of(maud), cast.client_of(maud)
    said = {"present": cast.PASSWORD, "password": "an even longer day"}
    assert "too short" in here.post("/mine/password/", said | {"password": "short"}).content.decode()
    wrong = here.post("/mine/password/", said | {"present": "not it"})
    assert wrong.status_code == 422
    assert "That is not your present password" in wrong.content.decode()
    assert "an even longer day" not in wrong.content.decode()
    assert here.post("/mine/password/", said).headers["Location"] == "/mine/"
    assert here.get("/mine/").status_code == 200
    assert there.get("/mine/").status_code == 302
    assert [row.what for row in DoorChange.objects.all()] == ["password"]


def test_cookies_are_for_this_house_and_no_script() -> None:
    cast.make_member("owner")
    client = Client()
    client.get("/sign-in/")
    sign_in(client)
    session = client.cookies["sessionid"]
    assert (session["httponly"], session["samesite"]) == (True, "Lax")
    assert client.cookies["csrftoken"]["samesite"] == "Lax"
