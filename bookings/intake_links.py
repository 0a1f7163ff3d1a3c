"""Links to an intake. Belongs here: making the address, and reading it back. It has one purpose and one sitting, says
nothing of either, cannot be guessed, and is over when it expires, when a newer one was made or when nobody is expected
any more."""

from __future__ import annotations

import hmac
from datetime import datetime

from django.conf import settings
from django.core import signing
from django.urls import reverse

from bookings.models import Intake
from bookings.models.sittings import OFF

_SALT = "bookings.intake"


def signed(intake: Intake) -> str:
    return signing.dumps([intake.sitting_id, intake.secret], salt=_SALT)


def address(intake: Intake) -> str:
    return settings.TENTHSTOP_URL + reverse("intake", kwargs={"signed": signed(intake)})


def read(text: str) -> Intake | None:
    """Of this house and the newest of its sitting, whether or not it has expired; None for anything else."""
    try:
        pk, secret = signing.loads(text, salt=_SALT)
    except (signing.BadSignature, ValueError, TypeError):
        return None
    found = Intake.objects.select_related("sitting__client", "sitting__kind").filter(sitting_id=pk).first()
    return found if found is not None and hmac.compare_digest(found.secret, str(secret)) else None


def is_over(intake: Intake, now: datetime) -> bool:
    return now >= intake.expires_at or intake.sitting.stage in OFF
