"""What `manage.py check` says of how this house is run. Belongs here: one check for each thing that an operator can
have set so that it works and is still wrong, in plain words and with its cure. Not here: what programmers forget
(`checks`)."""

from __future__ import annotations

import os
import tempfile
import zoneinfo
from collections.abc import Iterator, Sequence
from typing import Any
from urllib.parse import urlsplit

from django.apps import AppConfig
from django.conf import settings
from django.core.checks import CheckMessage, Error, Warning, register
from django.db import DatabaseError, connection
from django.http.request import validate_host

LOCAL = ("localhost", "127.0.0.1", "::1")
MANY = 4  # web processes that one SQLite file serves well: common practice, no source


@register
def how_it_is_run(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    return [*folder(), *addresses(), *https(), *debug(), *processes(), *mail_and_time(), *backups()]


def _wrong(number: int, words: str, hint: str, kind: type[CheckMessage] = Warning) -> CheckMessage:
    return kind(words, hint=hint, id=f"studio.{'E' if kind is Error else 'W'}{number:03}")


def folder() -> Iterator[CheckMessage]:
    """Pictures, the database and the secret key lie there."""
    try:
        settings.DATA_DIR.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=settings.DATA_DIR):
            pass
    except OSError as error:
        yield _wrong(
            10, f"Nothing can be written in the data folder {settings.DATA_DIR} ({error.strerror}).",
            "Give the folder to the user who runs the house, or set TENTHSTOP_DATA to another.",
        )  # fmt: skip


def addresses() -> Iterator[CheckMessage]:
    """The address in letters and codes must be one this house answers at."""
    host = urlsplit(settings.TENTHSTOP_URL).hostname
    if not host:
        yield _wrong(
            11, f"TENTHSTOP_URL={settings.TENTHSTOP_URL} is no address, so no link in a letter leads here.",
            "Write it whole, beginning with https: and two strokes.", Error,
        )  # fmt: skip
    elif not validate_host(host, settings.ALLOWED_HOSTS):
        yield _wrong(
            12, f"Links in letters and codes lead to {host}, and this house does not answer there.",
            f"Add {host} to ALLOWED_HOSTS, or set TENTHSTOP_URL to the address people use.",
        )  # fmt: skip
    if "*" in settings.ALLOWED_HOSTS:
        yield _wrong(
            13, "This house answers under any name somebody gives it.",
            "Set ALLOWED_HOSTS to its own names, with commas between them.",
        )  # fmt: skip


def https() -> Iterator[CheckMessage]:
    """Passwords travel readable without it, and pages of the set do not work without a network."""
    said = urlsplit(settings.TENTHSTOP_URL)
    if not said.hostname:
        return  # told above
    if not settings.HTTPS and said.hostname not in LOCAL:
        yield _wrong(
            14, "The house is reached over a network without HTTPS: passwords can be read on the way, and the pages of "
            "the set do not open without a network.",
            "Put a proxy with a certificate before it (README, Serve it for real) and set HTTPS=on.",
        )  # fmt: skip
    elif settings.HTTPS and said.scheme != "https":
        yield _wrong(
            15, f"HTTPS is on, and links in letters and codes still begin with {said.scheme}:.",
            "Set TENTHSTOP_URL to the address that begins with https:",
        )  # fmt: skip


def debug() -> Iterator[CheckMessage]:
    if settings.DEBUG and set(settings.ALLOWED_HOSTS) - {*LOCAL, "[::1]"}:
        yield _wrong(
            16, "DEBUG is on in a house that others reach: a fault shows them its inside.", "Take DEBUG away.", Error
        )


def processes() -> Iterator[CheckMessage]:
    """As gunicorn counts them."""
    count = os.environ.get("WEB_CONCURRENCY", "")
    if connection.vendor == "sqlite" and count.isdecimal() and int(count) > MANY:
        yield _wrong(
            17, f"{count} web processes share one SQLite file and will wait for each other.",
            f"Set WEB_CONCURRENCY to {MANY} or less, or move to PostgreSQL (DATABASE_URL).",
        )  # fmt: skip


def mail_and_time() -> Iterator[CheckMessage]:
    """What the studio's profile says, where there is one yet."""
    from studio.models import Profile

    try:
        profile = Profile.objects.filter(pk=1).values("email", "time_zone").first()
    except DatabaseError:
        return  # no database yet: the first `migrate` makes it
    profile = profile or {"email": "", "time_zone": "UTC"}
    if settings.EMAIL_URL and not settings.EMAIL_FROM and not profile["email"]:
        yield _wrong(
            18, "A mail server is set, and nobody whom letters come from: none will be sent.",
            "Set EMAIL_FROM, or enter an e-mail address in the studio's profile.",
        )  # fmt: skip
    try:
        zoneinfo.ZoneInfo(profile["time_zone"])
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        yield _wrong(
            19, f"This machine knows no time zone {profile['time_zone']}, so no time can be shown.",
            "Install the machine's time zones (tzdata), or choose another zone in the studio's profile.", Error,
        )  # fmt: skip


def backups() -> Iterator[CheckMessage]:
    """Asked of a house that somebody works in: a new one has nothing to lose."""
    from studio import status
    from studio.models import Room

    try:
        wrong = status.last_backup().wrong if Room.objects.exists() else ""
    except DatabaseError:
        return
    if wrong:
        yield _wrong(20, str(wrong), "Run manage.py backup every night, to another disk (README).")
