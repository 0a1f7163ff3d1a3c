"""Signing in and out, the first page, and changing roles."""

from __future__ import annotations

import pytest
from django.conf import settings
from django.test import Client, RequestFactory
from django.urls import NoReverseMatch, reverse
from django.views.defaults import server_error

from studio.views.faults import fault
from tests import cast

pytestmark = pytest.mark.django_db


def sign_in(client: Client, name: str, password: str = cast.PASSWORD, **more: str):
    return client.post("/sign-in/", {"username": name, "password": password, **more})


def test_the_owner_signs_in_and_lands_on_her_first_page() -> None:
    cast.make_member("owner")
    client = Client()
    assert client.get("/").headers["Location"] == "/sign-in/?next=%2F"
    assert sign_in(client, "harriet").headers["Location"] == "/"
    assert client.get("/").headers["Location"] == "/studio/"


def test_a_wrong_pair_is_told_so_and_the_name_is_kept() -> None:
    cast.make_member("owner")
    answer = sign_in(Client(), "harriet", "wrong")
    assert answer.status_code == 200
    assert "Name and password do not go together" in answer.content.decode()
    assert 'value="harriet"' in answer.content.decode()
    assert "wrong" not in answer.content.decode().replace('class="wrong"', "")


def test_somebody_who_left_cannot_sign_in() -> None:
    cast.make_member("owner", active=False)
    assert sign_in(Client(), "harriet").status_code == 200


def test_signing_in_leads_back_to_the_page_asked_for_but_never_out_of_the_house() -> None:
    cast.make_member("owner")
    assert sign_in(Client(), "harriet", next="/studio/rooms/").headers["Location"] == "/studio/rooms/"
    for trap in ("//elsewhere.example/", "https:elsewhere.example", "javascript:alert(1)", "\\\\elsewhere.example"):
        assert sign_in(Client(), "harriet", next=trap).headers["Location"] == "/"


def test_signing_out_closes_the_house() -> None:
    client = cast.client_of(cast.make_member("owner"))
    assert client.post("/sign-out/").headers["Location"] == "/sign-in/?out=1"
    assert client.get("/studio/").status_code == 302


def test_one_person_changes_between_roles_without_signing_out() -> None:
    client = cast.client_of(cast.make_member("photographer", "owner", name="Harriet Voss"))
    page = client.get("/kit/").content.decode()
    assert "Harriet Voss, photographer" in page
    assert "Work as owner" in page
    assert ">Rooms<" not in page
    assert client.post("/role/", {"role": "owner"}).headers["Location"] == "/"
    assert client.get("/").headers["Location"] == "/studio/"
    assert ">Rooms<" in client.get("/kit/").content.decode()


def test_on_a_page_of_another_role_of_ones_own_the_words_are_that_role_s() -> None:
    client = cast.client_of(cast.make_member("photographer", "owner", name="Harriet Voss"))
    assert "Harriet Voss, owner" in client.get("/studio/").content.decode()
    assert "Harriet Voss, photographer" in client.get("/kit/").content.decode()


def test_a_role_that_is_not_ones_own_cannot_be_taken() -> None:
    client = cast.client_of(cast.make_member("assistant"))
    client.post("/role/", {"role": "owner"})
    assert client.get("/studio/").status_code == 403
    assert "Ines Calloway, assistant" in client.get("/kit/").content.decode()


def test_each_role_sees_its_own_words_and_each_leads_to_a_page_it_may_open() -> None:
    for role, member in cast.make_cast().items():
        client = cast.client_of(member)
        for roles, label, name in settings.NAV:
            if role in roles:
                try:
                    url = reverse(name)
                except NoReverseMatch:
                    pytest.fail(f"{label}: no page is called {name}")
                assert client.get(url).status_code == 200, (role, str(label))
        assert client.get("/", follow=True).status_code == 200, role


def test_pages_that_are_not_there_or_not_for_one_say_what_to_do() -> None:
    client = cast.client_of(cast.make_member("assistant"))
    missing = client.get("/no-such-page/")
    assert missing.status_code == 404
    assert "To your first page" in missing.content.decode()
    forbidden = client.get("/studio/")
    assert "This page is not for your role" in forbidden.content.decode()
    assert Client().get("/no-such-page/").status_code == 404


def test_a_form_without_its_key_is_refused_with_a_sentence() -> None:
    client = Client(enforce_csrf_checks=True)
    answer = sign_in(client, "harriet")
    assert answer.status_code == 403
    assert "load the page afresh" in answer.content.decode()


def test_a_fault_of_ours_has_a_page_too(rf: RequestFactory) -> None:
    answer = server_error(rf.get("/"))
    assert answer.status_code == 500
    assert "A fault of ours" in answer.content.decode()


def test_what_goes_wrong_on_set_is_said_in_its_theme(client: Client, rf: RequestFactory) -> None:
    for path, is_dark in {"/packing/gone/": True, "/k/gone/gone/gone/": True, "/gone/": False}.items():
        for answer in (client.get(path), fault(rf.get(path))):
            assert ('<body class="set">' in answer.content.decode()) == is_dark


@pytest.mark.parametrize("path", ["/sign-in/", "/no-such-page/"])
def test_nothing_comes_from_another_host_and_nothing_runs_inline(path: str) -> None:
    policy = Client().get(path).headers["Content-Security-Policy"]
    parts = dict(part.strip().split(" ", 1) for part in policy.split(";"))
    assert parts["default-src"] == "'none'"
    assert parts["script-src"] == parts["style-src"] == parts["form-action"] == "'self'"
    assert parts["frame-ancestors"] == parts["base-uri"] == parts["object-src"] == "'none'"
    assert "unsafe" not in policy


def test_styles_are_served_by_the_app_itself() -> None:
    answer = Client().get("/static/studio/studio.css")
    assert answer.status_code == 200
    assert "Access-Control-Allow-Origin" not in answer.headers
    answer.close()
