"""The outbox. Belongs here: sending what is due, each letter by one sender at a time, and keeping what came of it. Not
here: writing letters (`letters`).

A sender takes a lease on a letter, sends it, then marks it sent. Where the machine stops between the two, the lease
runs out and the letter is sent once more, under the same Message-ID, so that a reader's mail can tell it is the same;
a second stop in the same place gives it up for a person to look at. So a letter goes out once, in that one window
twice, and never three times.
"""

from __future__ import annotations

import secrets
import smtplib
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from email.utils import formataddr, parseaddr

from django.conf import settings
from django.core.mail import EmailMultiAlternatives, get_connection
from django.core.mail.backends.base import BaseEmailBackend
from django.db.models import F
from django.utils.translation import gettext as _

from bookings.models import Letter
from studio import clock
from studio.models import Profile

LEASE = timedelta(minutes=10)  # far longer than one letter can take: the mail server is waited for 30 seconds
TRIES = 8  # refusals for now, an hour and more apart at the end, before a person is asked
FIRST_WAIT, LONGEST_WAIT = timedelta(minutes=2), timedelta(hours=6)


class ServerAway(Exception):
    """The mail server cannot be reached or says nothing: no letter's fault."""


class RefusedForNow(Exception):
    """This letter was not taken, another time it may be."""


class RefusedForGood(Exception):
    """This letter will never be taken as it is."""


@dataclass
class Round:
    """What one round came to."""

    sent: list[Letter] = field(default_factory=list)
    failed: list[Letter] = field(default_factory=list)
    server_away: str = ""


def may_send() -> bool:
    """Whether this machine knows a mail server and the studio an address to write from."""
    return bool(settings.EMAIL_URL and sender(Profile.get()))


def sender(profile: Profile) -> str:
    """The studio's name and address, as the head of a letter has it; empty where none is known."""
    name, address = parseaddr(settings.EMAIL_FROM)
    address = address or profile.email
    return formataddr((name or profile.studio_name, address), "utf-8") if address else ""


def send_due(now: datetime | None = None, *, but: Sequence[str] = ()) -> Round:
    """Send everything that is due, `but` some kinds (reminders at night). May run twice at once: each letter has one
    sender."""
    done, profile = Round(), Profile.get()
    if not may_send():
        return done
    connection = get_connection(fail_silently=False)
    try:
        for letter in _taken(now, done, but):
            try:
                _send(letter, profile, connection)
            except ServerAway as away:
                done.server_away = str(away)
                _put_back(letter, str(away), to=Letter.State.WAITING)
                break  # the others keep their place: the next round begins with them
            except (RefusedForNow, RefusedForGood) as refused:
                given_up = isinstance(refused, RefusedForGood) or letter.tries >= TRIES
                _put_back(letter, str(refused), to=Letter.State.GIVEN_UP if given_up else Letter.State.WAITING)
                done.failed.append(letter)
            else:
                _mark_sent(letter)
                done.sent.append(letter)
    finally:
        _close(connection)
    return done


def _taken(now: datetime | None, done: Round, but: Sequence[str]) -> Iterator[Letter]:
    """Letters one after the other, each leased to this round alone."""
    moment = now or clock.now()
    rows = Letter.objects.due(moment).exclude(kind__in=but).order_by("due_at", "pk")
    for pk in rows.values_list("pk", flat=True):
        at = now or clock.now()
        seen = Letter.objects.due(at).filter(pk=pk).first()
        if seen is None:
            continue  # another round has it
        mine = secrets.token_hex(16)
        lost = bool(seen.lease)
        won = (
            Letter.objects.due(at)
            .filter(pk=pk, lease=seen.lease)
            .update(lease=mine, lease_ends_at=at + LEASE, tries=F("tries") + 1, unanswered=F("unanswered") + int(lost))
        )
        if not won:
            continue
        letter = Letter.objects.with_names().prefetch_related("attachments").get(pk=pk)
        if letter.useless_at is not None and letter.useless_at <= at:
            _put_back(letter, _("It could not be sent in time and would be of no use now."), to=Letter.State.WITHDRAWN)
        elif letter.unanswered > 1:
            why = _("The machine stopped twice while sending it: it may have gone out. Ask first.")
            _put_back(letter, why, to=Letter.State.GIVEN_UP)
            done.failed.append(letter)
        else:
            yield letter


def message(letter: Letter, profile: Profile, connection: BaseEmailBackend | None = None) -> EmailMultiAlternatives:
    """The letter as mail; an invitation rides as another form of the text, which calendars look for."""
    made = EmailMultiAlternatives(
        subject=letter.subject,
        body=letter.body,
        from_email=sender(profile),
        to=[letter.to],
        headers={"Message-ID": letter.message_id, "Auto-Submitted": "auto-generated"},
        connection=connection,
    )
    for one in letter.attachments.all():
        content = bytes(one.content)
        if one.media_type.startswith("text/calendar"):
            made.attach_alternative(content.decode(), one.media_type)
        else:
            made.attach(one.name, content, one.media_type)
    return made


def _send(letter: Letter, profile: Profile, connection: BaseEmailBackend) -> None:
    try:
        message(letter, profile, connection).send(fail_silently=False)
    except smtplib.SMTPRecipientsRefused as refused:
        code, said = next(iter(refused.recipients.values()), (550, b""))
        _refuse(code, said, letter.to)
    except (smtplib.SMTPServerDisconnected, smtplib.SMTPConnectError, smtplib.SMTPAuthenticationError) as away:
        _close(connection)
        raise ServerAway(_("The mail server did not take letters: %(why)s") % {"why": _words(away)}) from away
    except smtplib.SMTPResponseException as refused:
        _close(connection)
        _refuse(refused.smtp_code, refused.smtp_error, letter.to)
    except smtplib.SMTPException as refused:
        _close(connection)
        raise RefusedForGood(_("The letter was not taken: %(why)s") % {"why": _words(refused)}) from refused
    except OSError as away:
        _close(connection)
        raise ServerAway(_("The mail server cannot be reached: %(why)s") % {"why": _words(away)}) from away
    except ValueError as wrong:  # a head that cannot be written
        raise RefusedForGood(_("The letter cannot be made into mail: %(why)s") % {"why": _words(wrong)}) from wrong


def _refuse(code: int, said: bytes | str, to: str) -> None:
    words = said.decode(errors="replace") if isinstance(said, bytes) else str(said)
    values = {"to": to, "why": f"{code} {' '.join(words.split())}"}
    if 400 <= code < 500:
        raise RefusedForNow(_("Not taken for now for %(to)s: %(why)s") % values)
    raise RefusedForGood(_("The mail server refused %(to)s: %(why)s") % values)


def _words(error: Exception) -> str:
    if isinstance(error, smtplib.SMTPResponseException):
        said = error.smtp_error
        return f"{error.smtp_code} {said.decode(errors='replace') if isinstance(said, bytes) else said}"
    return str(error) or type(error).__name__


def _close(connection: BaseEmailBackend) -> None:
    with suppress(OSError, smtplib.SMTPException):
        connection.close()


def _mark_sent(letter: Letter) -> None:
    Letter.objects.filter(pk=letter.pk, lease=letter.lease).update(
        state=Letter.State.SENT, sent_at=clock.now(), last_error="", lease="", lease_ends_at=None
    )


def _put_back(letter: Letter, why: str, *, to: str) -> None:
    """With what was wrong; tried again after twice the time each time."""
    wait = min(FIRST_WAIT * 2 ** min(letter.tries - 1, 16), LONGEST_WAIT)
    letter.state, letter.last_error = to, why[:400]
    Letter.objects.filter(pk=letter.pk, lease=letter.lease).update(
        state=letter.state, last_error=letter.last_error, due_at=clock.now() + wait, lease="", lease_ends_at=None
    )
