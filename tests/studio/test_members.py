"""People who work here: entering them, giving them roles, letting them go."""

from __future__ import annotations

import pytest
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from studio.actions import members
from studio.models import Member, versions
from tests import cast
from tests.studio.forms import fields, opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def harriet() -> Member:
    return cast.make_member("owner")


@pytest.fixture
def owner(harriet: Member) -> Client:
    return cast.client_of(harriet)


def test_a_new_person_can_sign_in_at_once(owner: Client) -> None:
    form = opened(owner, "/studio/members/new/") | {"name": "Ines Calloway", "short": "IC", "roles": ["assistant"]}
    form |= {"sign_in_name": "ines", "password": "a long morning"}
    assert owner.post("/studio/members/new/", form).headers["Location"] == "/studio/members/"
    answer = Client().post("/sign-in/", {"username": "ines", "password": "a long morning"})
    assert answer.headers["Location"] == "/"
    assert Member.objects.get(name="Ines Calloway").roles == {"assistant"}


def test_roles_are_given_and_taken_and_the_password_stays(owner: Client) -> None:
    maud = cast.make_member("front_desk")
    url = f"/studio/members/{maud.pk}/"
    assert owner.post(url, opened(owner, url) | {"roles": ["front_desk", "assistant"]}).status_code == 302
    assert Member.objects.get(pk=maud.pk).roles == {"front_desk", "assistant"}
    assert Client().login(username="maud", password=cast.PASSWORD)
    assert "front desk, assistant" in owner.get("/studio/members/").content.decode()


def test_who_leaves_is_signed_out(owner: Client) -> None:
    maud = cast.make_member("front_desk")
    desk = cast.client_of(maud)
    form = opened(owner, f"/studio/members/{maud.pk}/")
    form.pop("active")
    assert owner.post(f"/studio/members/{maud.pk}/", form).status_code == 302
    assert desk.get("/kit/").status_code in (302, 403)
    assert not Client().login(username="maud", password=cast.PASSWORD)


@pytest.mark.parametrize("change", [{"roles": ["photographer"]}, {"active": None}])
def test_the_last_owner_cannot_leave(owner: Client, harriet: Member, change: dict[str, object]) -> None:
    url = f"/studio/members/{harriet.pk}/"
    form = {k: v for k, v in (opened(owner, url) | change).items() if v is not None}
    answer = owner.post(url, form)
    assert answer.status_code == 200
    assert "Somebody must stay owner" in answer.content.decode()
    assert Member.objects.get(pk=harriet.pk).roles == {"owner"}
    assert Member.objects.get(pk=harriet.pk).active


def test_with_another_owner_one_may_leave(owner: Client, harriet: Member) -> None:
    cast.make_member("owner", name="Nell Orrin", short="NO")
    url = f"/studio/members/{harriet.pk}/"
    answer = owner.post(url, opened(owner, url) | {"roles": ["photographer"]})
    assert answer.headers["Location"] == "/"


def test_a_new_password_of_ones_own_signs_nobody_out(owner: Client, harriet: Member) -> None:
    url = f"/studio/members/{harriet.pk}/"
    assert owner.post(url, opened(owner, url) | {"password": "an even longer day"}).status_code == 302
    assert owner.get("/studio/").status_code == 200


def test_what_is_missing_or_weak_is_said_beside_its_field_and_no_password_is_sent_back(owner: Client) -> None:
    cast.make_member("front_desk")
    form = opened(owner, "/studio/members/new/")
    form |= {"name": "Maud Two", "short": "M2", "sign_in_name": "MAUD", "password": "password"}
    page = owner.post("/studio/members/new/", form).content.decode()
    assert "Somebody else signs in by that name" in page
    assert "too short" in page
    assert "This field is required" in page  # no role was ticked
    kept = fields(page)
    assert (kept["name"], kept["sign_in_name"], kept["password"]) == ("Maud Two", "MAUD", "")


def test_the_first_save_of_a_member_wins_and_the_second_is_told(owner: Client) -> None:
    maud = cast.make_member("front_desk")
    url = f"/studio/members/{maud.pk}/"
    first, second = opened(owner, url), opened(owner, url)
    owner.post(url, first | {"roles": ["assistant"]})
    page = owner.post(url, second | {"name": "Maud F."}).content.decode()
    assert "Somebody else saved this" in page
    assert fields(page)["name"] == "Maud F."
    table = page.split("<table")[1].split("</table>")[0]
    assert "assistant" in table
    assert "front desk" in table
    assert Member.objects.get(pk=maud.pk).name == "Maud Ferriby"


def test_a_stale_write_changes_neither_the_person_nor_the_sign_in(harriet: Member) -> None:
    maud = cast.make_member("front_desk")
    with pytest.raises(versions.Stale):
        members.keep(member=maud, seen=7, sign_in_name="other", password="other words", roles=["owner"])
    kept = Member.objects.get(pk=maud.pk)
    assert (kept.user.username, kept.roles) == ("maud", {"front_desk"})


@pytest.mark.parametrize(
    "junk", [{}, {"roles": ["king"], "version": "x"}, {"name": "\x00", "sign_in_name": "a b", "password": "\x00" * 20}]
)
def test_junk_is_refused_and_never_breaks_the_page(owner: Client, harriet: Member, junk: dict[str, object]) -> None:
    for url in ("/studio/members/new/", f"/studio/members/{harriet.pk}/"):
        assert owner.post(url, junk).status_code == 200


def test_the_list_asks_no_more_for_more_people(
    owner: Client, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    for number in range(12):
        cast.make_member("assistant", "front_desk", name=f"Helper{number} Orrin")
    with django_assert_max_num_queries(7):
        owner.get("/studio/members/")
    with django_assert_max_num_queries(20):  # with what waits, is to see to of the kit, the last backup and first steps
        owner.get("/studio/")
