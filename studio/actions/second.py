"""The second step at the door: a code of six digits from a member's telephone, or one of ten codes on paper. Belongs
here: setting it up, taking it off, and whether a code is good; each change is kept for good. How codes are reckoned
from a key and the time is pyotp's (RFC 6238)."""

from __future__ import annotations

import hashlib
import hmac
import secrets

import pyotp
from django.db import transaction
from django.utils.translation import gettext as _

from studio import clock
from studio.models import DoorChange, Member, Profile, RecoveryCode, Role, SecondStep

CODES = 10
_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # none that is read for another
_LONG = 16  # of these are 79 bits: so many that a plain digest keeps them, also in a backup
_EARLY_OR_LATE = (0, -1, 1)  # a telephone's clock may be half a minute off


class WrongCode(Exception):
    """The code is not good, or was used already."""

    def __str__(self) -> str:
        return _("That code is not good now. Each is good once and for half a minute: wait for the next one.")


class HouseAsks(Exception):
    """The house wants its owners to have a second step."""

    def __str__(self) -> str:
        return _("The house asks its owners for a second step, so it stays. The owner may change that in the profile.")


def new_secret() -> str:
    return pyotp.random_base32()


def address_of(secret: str, member: Member, studio: str) -> str:
    """What the code on the screen says to the telephone's program."""
    return pyotp.TOTP(secret).provisioning_uri(name=member.name, issuer_name=studio)


def _good_at(secret: str, code: str) -> int | None:
    """Which thirty seconds a code belongs to, of those around now."""
    codes = pyotp.TOTP(secret)
    now = int(clock.now().timestamp()) // codes.interval
    said = code.encode()
    found = [now + off for off in _EARLY_OR_LATE if hmac.compare_digest(codes.generate_otp(now + off).encode(), said)]
    return found[0] if found else None


@transaction.atomic
def set_up(*, member: Member, secret: str, code: str) -> tuple[SecondStep, list[str]]:
    """From now on it is asked; returns the codes for paper, which are shown once. Raises WrongCode."""
    at = _good_at(secret, _plain(code))
    if at is None:
        raise WrongCode
    SecondStep.objects.filter(member=member).delete()
    step = SecondStep.objects.create(member=member, secret=secret, set_at=clock.now(), last_used=at)
    _noted(member, member, DoorChange.What.SET)
    return step, _new_codes(step)


def passes(*, step: SecondStep, code: str) -> bool:
    """Whether a code is good, which it is once: of two requests with the same one, one comes in."""
    text = _plain(code)
    at = _good_at(step.secret, text)
    if at is not None:
        return SecondStep.objects.filter(pk=step.pk, last_used__lt=at).update(last_used=at) == 1
    unused = RecoveryCode.objects.filter(step=step, digest=_digest(step, text), used_at=None)
    with transaction.atomic():
        if unused.update(used_at=clock.now()) != 1:
            return False
        _noted(step.member, step.member, DoorChange.What.RECOVERED)
    return True


@transaction.atomic
def new_codes(*, step: SecondStep, code: str) -> list[str]:
    """Ten others; those before are good no more. Raises WrongCode."""
    if not passes(step=step, code=code):
        raise WrongCode
    step.recovery_codes.all().delete()
    _noted(step.member, step.member, DoorChange.What.CODES)
    return _new_codes(step)


def take_off_own(*, step: SecondStep, code: str) -> None:
    """Raises WrongCode; HouseAsks where the house wants it."""
    if step.member.has_role(Role.OWNER) and Profile.get().owners_second_step:
        raise HouseAsks
    if not passes(step=step, code=code):
        raise WrongCode
    take_off(member=step.member, by=step.member)


@transaction.atomic
def take_off(*, member: Member, by: Member | None) -> bool:
    """For somebody whose telephone is gone, by another owner or on the command line; false where there was none."""
    gone, _each = SecondStep.objects.filter(member=member).delete()
    if gone:
        _noted(by, member, DoorChange.What.OFF)
    return bool(gone)


def _noted(by: Member | None, member: Member, what: str) -> None:
    DoorChange.objects.create(at=clock.now(), by=by, member=member, what=what)


def _new_codes(step: SecondStep) -> list[str]:
    texts = ["".join(secrets.choice(_LETTERS) for _each in range(_LONG)) for _each in range(CODES)]
    RecoveryCode.objects.bulk_create(RecoveryCode(step=step, digest=_digest(step, text)) for text in texts)
    return ["-".join(text[at : at + 4] for at in range(0, _LONG, 4)) for text in texts]


def _plain(code: str) -> str:
    """As it is kept, however it was typed."""
    return "".join(code.split()).replace("-", "").lower()


def _digest(step: SecondStep, code: str) -> str:
    """Without the house's secret key, for a restored house may have another."""
    return hashlib.sha256(f"{step.pk}\n{step.secret}\n{code}".encode()).hexdigest()
