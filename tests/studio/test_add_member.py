"""The first owner of a new house, entered from the command line."""

from __future__ import annotations

import io

import pytest
from django.core.management import CommandError, call_command
from django.test import Client

from studio.access import EVERY_ROLE
from studio.models import Member

pytestmark = pytest.mark.django_db


def add(monkeypatch: pytest.MonkeyPatch, password: str, *arguments: str) -> str:
    monkeypatch.setattr("sys.stdin", io.StringIO(password + "\n"))
    said = io.StringIO()
    call_command("add_member", *arguments, stdout=said)
    return said.getvalue()


def test_the_first_owner_can_sign_in(monkeypatch: pytest.MonkeyPatch) -> None:
    said = add(monkeypatch, "a bell at nine", "harriet", "--name", "Harriet Voss", "--short", "HV")
    assert said == "Harriet Voss can sign in as harriet.\n"
    assert Member.objects.get().roles == set(EVERY_ROLE)  # who begins alone does all of it
    assert Client().login(username="harriet", password="a bell at nine")


def test_what_is_wrong_is_said_in_a_sentence_and_nothing_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(CommandError, match="Password: This password is too short") as refusal:
        add(monkeypatch, "short", "two words", "--name", "Harriet Voss", "--short", "HV", "--role", "owner")
    assert "Sign-in name: Enter a valid username" in str(refusal.value)
    assert not Member.objects.exists()
