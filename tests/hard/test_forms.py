"""Every form of every page, as it stands and with junk; `python -m tests.hard forms --long` sends twenty thousand."""

from __future__ import annotations

from pathlib import Path

import pytest
from django.db import transaction

from tests import access_walk
from tests.access_world import make_world
from tests.hard import form_fuzz
from tests.hard.forms_found import Form, read

PAGE = """<form action="../b/?x=1#y" method="POST"><input name="a" value="1"><input type="checkbox" name="c" value="2">
<select name="s"><option value="3"><option value="4" selected></select><textarea name="t">five</textarea>
<button name="go" value="6">Go</button><input type="submit"></form><input name="d" value="7" form="late">
<form id="late" action="//elsewhere.example.org/"></form><form id="here"></form>"""


def test_forms_are_found_as_a_browser_sends_them() -> None:
    first, last = (form for form in read("/a/c/", PAGE) if not form.action.startswith("//"))
    assert (first.action, first.method, last.action) == ("/a/b/?x=1", "post", "/a/c/")
    assert {name: one.value for name, one in first.fields.items()} == {
        "a": "1", "c": None, "s": "4", "t": "five", "go": None,
    }  # fmt: skip


@pytest.mark.django_db
def test_junk_in_every_form_is_never_an_error_of_ours_and_never_half_kept(tmp_path: Path) -> None:
    with access_walk.apart(tmp_path), transaction.atomic():
        found = form_fuzz.fuzz(make_world(), each=2, number=1, each_role=False)
        transaction.set_rollback(True)
    assert found.faults == {}
    assert found.posts > 300
    assert found.sent_to >= {
        "new_sitting", "client", "notes", "brief", "type_reading", "intake", "sign_in", "change_sitting", "new_client",
        "new_kind", "terms", "wait_for", "late_reason", "new_complaint", "complaint", "close_complaint",
        "open_complaint_again", "reshoot",
    }  # fmt: skip


def test_what_is_half_kept_is_seen() -> None:
    """Else a run without faults would say nothing."""
    assert form_fuzz.WRITE.match('INSERT INTO "bookings_client" ("name")')[1] == "bookings_client"  # type: ignore[index]
    refused = type("Answer", (), {"status_code": 422})()
    assert form_fuzz._is_refused(Form("/", "post"), refused)
