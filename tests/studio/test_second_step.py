"""The second step at the door: a code after the password, asked whichever way somebody tries to come in."""

from __future__ import annotations

from datetime import timedelta

import pyotp
import pytest
from django.core.management import CommandError, call_command
from django.test import Client

from studio import clock
from studio.actions import second, tries
from studio.models import DoorChange, Member, Profile, RecoveryCode, SecondStep
from tests import cast
from tests.bookings.agreeing import set_clock
from tests.bookings.making import at
from tests.pages import Visitor

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def morning(monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, at(9))


@pytest.fixture
def harriet() -> Member:
    return cast.make_member("owner", "photographer")


def code_of(secret: str, off: int = 0) -> str:
    return pyotp.TOTP(secret).generate_otp(int(clock.now().timestamp()) // 30 + off)


def set_up(member: Member) -> tuple[SecondStep, list[str]]:
    secret = second.new_secret()
    return second.set_up(member=member, secret=secret, code=code_of(secret, -1))


def at_the_code(client: Client) -> Client:
    answer = client.post("/sign-in/", {"username": "harriet", "password": cast.PASSWORD})
    assert answer.headers["Location"] == "/sign-in/code/"
    return client


def test_she_sets_it_up_on_her_own_page_and_is_asked_from_then_on(harriet: Member) -> None:
    visitor = Visitor(cast.client_of(harriet))
    visitor.open("/mine/")
    visitor.follow("A code from your telephone after the password")
    assert "not your present password" in visitor.press("Set it up", {"Your password": "not it"}).words
    page = visitor.press("Set it up", {"Your password": cast.PASSWORD})
    assert "data:image/svg+xml" in page.html
    secret = page.html.split("<code>")[1].split("</code>")[0].replace(" ", "")
    assert "That code is not good now" in visitor.press("Save it", {"Code": "000000"}).words
    assert not SecondStep.objects.exists()
    page = visitor.press("Save it", {"Code": code_of(secret, -1)})
    codes = [part.split("</code>")[0] for part in page.html.split("<code>")[1:]]
    assert len(set(codes)) == second.CODES
    assert not RecoveryCode.objects.filter(digest__in=codes).exists()
    assert visitor.open("/").status == 200  # this session showed a code just now
    other = Client()
    at_the_code(other)
    assert other.get("/studio/").status_code == 302  # nobody is signed in between the two
    answer = other.post("/sign-in/code/", {"code": code_of(secret)})
    assert answer.headers["Location"] == "/"
    assert other.get("/studio/").status_code == 200
    assert [row.what for row in DoorChange.objects.all()] == ["set"]


def test_a_code_is_good_once_and_a_minute_late_no_more(harriet: Member) -> None:
    step, _codes = set_up(harriet)
    now, late, early = code_of(step.secret), code_of(step.secret, -2), code_of(step.secret, 2)
    assert not second.passes(step=step, code=late)
    assert not second.passes(step=step, code=early)
    assert not second.passes(step=step, code="")
    assert not second.passes(step=step, code="\uff11" * 6)
    assert second.passes(step=step, code=f"{now[:3]} {now[3:]}")
    assert not second.passes(step=step, code=now)
    assert not second.passes(step=step, code=code_of(step.secret, -1))  # nor one from before it


def test_a_code_on_paper_is_good_once_however_it_is_typed(harriet: Member) -> None:
    step, codes = set_up(harriet)
    client = at_the_code(Client())
    assert client.post("/sign-in/code/", {"code": codes[0].upper().replace("-", " ")}).status_code == 302
    assert client.get("/mine/").status_code == 200
    again = at_the_code(Client()).post("/sign-in/code/", {"code": codes[0]})
    assert again.status_code == 422
    assert "That code is not good now" in again.content.decode()
    fresh = second.new_codes(step=step, code=codes[1])
    assert not second.passes(step=step, code=codes[2])
    assert second.passes(step=step, code=fresh[2])
    assert [row.what for row in DoorChange.objects.all()] == ["set", "recovered", "recovered", "codes", "recovered"]


def test_no_way_leads_round_it(harriet: Member) -> None:
    before = cast.client_of(harriet)  # signed in by the password alone
    set_up(harriet)
    assert before.post("/role/", {"role": "photographer"}).headers["Location"] == "/sign-in/"
    assert before.get("/setups/").headers["Location"].startswith("/sign-in/")
    for address in ("/mine/", "/mine/second-step/", "/on-set/token/", "/kit/"):
        assert cast.client_of(harriet).get(address).status_code == 302, address
    assert Client().get("/sign-in/code/").headers["Location"] == "/sign-in/"


def test_codes_are_not_to_be_guessed_and_the_password_is_good_for_ten_minutes(
    harriet: Member, monkeypatch: pytest.MonkeyPatch
) -> None:
    step, _codes = set_up(harriet)
    client = at_the_code(Client())
    answers = [client.post("/sign-in/code/", {"code": "000000"}).status_code for _each in range(tries.FREE + 1)]
    assert answers == [422] * tries.FREE + [429]
    assert client.post("/sign-in/code/", {"code": code_of(step.secret)}).status_code == 429
    elsewhere = at_the_code(Client(REMOTE_ADDR="198.51.100.9"))  # the count is the member's, not the address's
    assert elsewhere.post("/sign-in/code/", {"code": code_of(step.secret)}).status_code == 429
    from studio import doors

    then = doors.now() + timedelta(minutes=11).total_seconds()
    monkeypatch.setattr(doors, "now", lambda: then)
    assert client.get("/sign-in/code/").headers["Location"] == "/sign-in/"


def test_where_the_house_asks_its_owners_nothing_else_opens_until_it_is_set(harriet: Member) -> None:
    Profile.objects.create(pk=1, owners_second_step=True)
    client = cast.client_of(harriet)
    for address in ("/", "/mine/", "/kit/", "/studio/profile/", "/mine/password/"):
        assert client.get(address).headers["Location"] == "/mine/second-step/", address
    assert client.post("/role/", {"role": "photographer"}).headers["Location"] == "/mine/second-step/"
    assert "The house asks its owners for it" in client.get("/mine/second-step/").content.decode()
    assert cast.client_of(cast.make_member("assistant")).get("/kit/").status_code == 200
    step, codes = set_up(harriet)
    with pytest.raises(second.HouseAsks, match="so it stays"):
        second.take_off_own(step=step, code=codes[0])


def test_another_owner_or_the_machine_takes_it_off_and_it_is_kept_who(harriet: Member) -> None:
    nell = cast.make_member("owner", name="Nell Orrin", short="NO")
    set_up(harriet)
    set_up(nell)
    own = Client()
    own.post("/sign-in/", {"username": "nell", "password": cast.PASSWORD})
    own.post("/sign-in/code/", {"code": code_of(nell.second_step.secret)})
    own.post(f"/studio/members/{nell.pk}/second-step/off/")
    assert SecondStep.objects.count() == 2  # one's own is taken off with a code
    visitor = Visitor(own)
    visitor.open(f"/studio/members/{harriet.pk}/")
    assert "is taken off" in visitor.press("Take the second step off").words
    assert not SecondStep.objects.filter(member=harriet).exists()
    call_command("take_off_second_step", "nell")
    with pytest.raises(CommandError, match="has no second step"):
        call_command("take_off_second_step", "nell")
    with pytest.raises(CommandError, match="nobody signs in"):
        call_command("take_off_second_step", "nobody")
    assert [(row.member_id, row.by_id) for row in DoorChange.objects.filter(what="off")] == [
        (harriet.pk, nell.pk), (nell.pk, None),
    ]  # fmt: skip
    cast.make_kit("heads")
    assert "the second step was taken off" in cast.client_of(nell).get("/audit/").content.decode()
