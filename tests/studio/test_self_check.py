"""What `manage.py check` tells whoever runs the house, each in words and with its cure."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.core.checks import registry
from django.db import connection

from studio import clock, self_check
from studio.models import Backup, Profile
from tests import cast
from tests.studio.test_settings import manage

HERE = "://studio.example.org"
RIGHT = {
    "TENTHSTOP_URL": f"https{HERE}", "ALLOWED_HOSTS": ["studio.example.org"], "HTTPS": True,
    "DEBUG": False, "EMAIL_URL": "", "EMAIL_FROM": "",
}  # fmt: skip
WRONG = [
    ({"TENTHSTOP_URL": "studio"}, "E011", "no link in a letter leads here"),
    ({"ALLOWED_HOSTS": ["other.example.org"]}, "W012", "this house does not answer there"),
    ({"ALLOWED_HOSTS": ["*"]}, "W013", "under any name"),
    ({"HTTPS": False}, "W014", "passwords can be read on the way"),
    ({"TENTHSTOP_URL": f"http{HERE}"}, "W015", "still begin with http:"),
    ({"DEBUG": True}, "E016", "a fault shows them its inside"),
    ({"EMAIL_URL": "smtp://mail.example"}, "W018", "nobody whom letters come from"),
]


@pytest.fixture
def right(settings: Any, tmp_path: Path) -> Any:
    for name, value in RIGHT.items():
        setattr(settings, name, value)
    settings.DATA_DIR = tmp_path
    return settings


def found() -> list[tuple[str, str]]:
    return [(one.id.removeprefix("studio."), one.msg) for one in self_check.how_it_is_run(None)]


@pytest.mark.django_db
def test_a_house_that_is_run_well_is_told_nothing(right: Any) -> None:
    assert found() == []
    right.TENTHSTOP_URL, right.HTTPS, right.ALLOWED_HOSTS = "http://127.0.0.1:8000", False, ["127.0.0.1"]
    assert found() == []


@pytest.mark.django_db
@pytest.mark.parametrize(("changed", "code", "words"), WRONG)
def test_each_slip_is_told_with_its_cure(changed: dict[str, Any], code: str, words: str, right: Any) -> None:
    for name, value in changed.items():
        setattr(right, name, value)
    said = dict(found())
    assert list(said) == [code]
    assert words in said[code]
    assert all(one.hint for one in self_check.how_it_is_run(None))


@pytest.mark.django_db
def test_the_folder_the_processes_and_the_zone(right: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("")
    right.DATA_DIR = tmp_path / "file" / "data"
    monkeypatch.setenv("WEB_CONCURRENCY", "9")
    Profile.objects.create(pk=1, time_zone="Nowhere/Quillbridge")
    codes = [code for code, _words in found()]
    assert codes == ["W010", *(["W017"] if connection.vendor == "sqlite" else []), "E019"]


@pytest.mark.django_db
def test_a_house_that_is_worked_in_needs_a_backup_of_the_last_two_nights(right: Any) -> None:
    cast.make_room()
    assert found() == [("W020", "No backup was made yet.")]
    kept = {"seconds": 1, "path": "x.zip", "size": 1, "sha256": "0", "rows": 1, "files": 0, "sealed": False}
    Backup.objects.create(at=clock.now() - timedelta(days=3), **kept)
    assert found() == [("W020", "The last backup is more than two nights old.")]
    Backup.objects.create(at=clock.now() - timedelta(days=1), **kept)
    assert found() == []


def test_on_the_command_line_with_https_even_the_strictest_check_is_silent(tmp_path: Path) -> None:
    served = {"HTTPS": "on", "ALLOWED_HOSTS": "studio.example.org", "TENTHSTOP_URL": f"https{HERE}"}
    done = manage("check", "--deploy", "--fail-level", "WARNING", folder=tmp_path, **served)
    assert (done.returncode, done.stdout) == (0, "System check identified no issues (2 silenced).\n"), done.stderr


def test_every_check_is_among_those_django_runs() -> None:
    assert self_check.how_it_is_run in registry.registry.get_checks()
