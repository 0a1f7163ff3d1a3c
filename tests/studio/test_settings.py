"""Settings from the environment: safe where nothing is said, refused with a sentence where something is
wrong."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def manage(*arguments: str, folder: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    return python("manage.py", *arguments, folder=folder, **environment)


def python(*arguments: str, folder: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    kept = {k: v for k, v in os.environ.items() if k not in ("DATABASE_URL", "SECRET_KEY", "DEBUG")}
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=ROOT,
        env=kept | {"TENTHSTOP_DATA": str(folder)} | environment,
        capture_output=True,
        text=True,
        timeout=60,
    )


def shown(setting: str, folder: Path, **environment: str) -> str:
    """One setting, as a process has it that reads the settings and nothing else of the house."""
    code = f"from django.conf import settings; print(settings.{setting})"
    done = python("-c", code, folder=folder, DJANGO_SETTINGS_MODULE="studio.settings", **environment)
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def test_the_secret_key_is_made_once_and_read_by_its_owner_alone(tmp_path: Path) -> None:
    first = shown("SECRET_KEY", tmp_path)
    assert len(first) >= 50
    assert shown("SECRET_KEY", tmp_path) == first
    (kept,) = tmp_path.iterdir()
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600


def test_a_key_that_cannot_be_kept_is_warned_of(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("")
    done = manage("check", folder=blocked / "data")
    assert done.returncode == 0
    assert "studio.W001" in done.stderr


@pytest.mark.parametrize(
    ("name", "value", "line"),
    [
        ("SECRET_KEY", "short", "settings: SECRET_KEY: too weak"),
        ("SECRET_KEY", "a" * 60, "settings: SECRET_KEY: too weak"),
        ("SECRET_KEY", "django-insecure-" + "abcdefgh" * 8, "settings: SECRET_KEY: too weak"),
        ("DEBUG", "perhaps", "settings: DEBUG=perhaps: not a switch, expected on or off"),
        ("DATABASE_URL", "mysql://localhost/x", "settings: DATABASE_URL: expected postgres://"),
    ],
)
def test_a_wrong_setting_is_refused_with_a_sentence(name: str, value: str, line: str, tmp_path: Path) -> None:
    done = manage("check", folder=tmp_path, **{name: value})
    assert done.returncode == 1
    assert done.stderr.startswith(line)
    assert "Traceback" not in done.stderr


def test_a_weak_key_will_do_while_trying_out(tmp_path: Path) -> None:
    assert shown("SECRET_KEY", tmp_path, SECRET_KEY="short", DEBUG="on") == "short"


def test_sqlite_waits_its_turn_whichever_way_it_is_chosen(tmp_path: Path) -> None:
    for chosen in ({}, {"DATABASE_URL": f"sqlite:///{tmp_path}/own.sqlite3"}):
        options = shown("DATABASES['default']['OPTIONS']", tmp_path, **chosen)
        assert "'transaction_mode': 'IMMEDIATE'" in options
        assert "journal_mode=WAL; PRAGMA synchronous=FULL" in options  # a power cut loses nothing that was saved


def test_postgresql_keeps_its_connections_and_does_not_wait_for_ever(tmp_path: Path) -> None:
    address = {"DATABASE_URL": "postgres://house@db.example:5432/studio?sslmode=require&options=-c%20geqo%3Doff"}
    said = shown("DATABASES['default']", tmp_path, **address)
    assert "'-c jit=off -c lock_timeout=20s -c geqo=off'" in said
    assert "'sslmode': 'require'" in said  # what the address says stays
    assert "'connect_timeout': 10" in said
    assert "'CONN_MAX_AGE': 300" in said
    assert "'CONN_HEALTH_CHECKS': True" in said


def test_on_postgresql_no_question_of_a_web_process_runs_for_ever_but_those_of_commands_may(tmp_path: Path) -> None:
    code = "import studio.wsgi; from django.conf import settings; print(settings.DATABASES['default']['OPTIONS'])"
    there = {"DATABASE_URL": "postgres://house@db.example/studio", "TENTHSTOP_DATA": str(tmp_path)}
    web = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, env=os.environ | there, capture_output=True, text=True, timeout=60,
        check=True,
    ).stdout  # fmt: skip
    assert "-c jit=off -c lock_timeout=20s -c statement_timeout=60s" in web
    assert "statement_timeout" not in shown("DATABASES['default']['OPTIONS']", tmp_path, **there)


def test_no_migration_is_missing(tmp_path: Path) -> None:
    assert manage("makemigrations", "--check", "--dry-run", folder=tmp_path).returncode == 0
