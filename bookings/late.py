"""When nobody has come. Belongs here: what the terms of a booking offer from a number of minutes after its start on.
Not here: doing any of it (`actions.sittings`, `actions.changes`)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings import accounts, prices
from bookings.models import Sitting, Stage

HOURS_FROM = 2
_USUAL = prices.Terms(name="", valid_from=date.min)  # the minutes where no terms were agreed; common practice


@dataclass(frozen=True)
class Late:
    """What can be done: begin now with `minutes_left`, move it, or from `no_show_at` on call it a no-show."""

    minutes_late: int
    minutes_left: int
    fee_to_move: Decimal
    no_show_at: datetime
    is_no_show: bool
    no_show_fee: Decimal
    currency: str

    @property
    def said(self) -> str:
        """How late they are, in hours once minutes say little."""
        hours, minutes = divmod(self.minutes_late, 60)
        if hours >= HOURS_FROM:
            return _("%(hours)d h %(minutes)02d min late") % {"hours": hours, "minutes": minutes}
        return ngettext("%(n)d minute late", "%(n)d minutes late", self.minutes_late) % {"n": self.minutes_late}

    @property
    def is_over(self) -> bool:
        """Its time is up: nobody begins now."""
        return not self.minutes_left


def late_options(sitting: Sitting, now: datetime) -> Late | None:
    """None while they are still in time, and where nobody is waited for any more. Asks the database nothing."""
    if sitting.stage != Stage.CONFIRMED:
        return None
    terms = sitting.agreed or _USUAL
    if now < sitting.starts_at + timedelta(minutes=terms.late_minutes):
        return None
    no_show_at = no_show_from(sitting)
    return Late(
        minutes_late=int((now - sitting.starts_at) / timedelta(minutes=1)),
        minutes_left=max(int((sitting.ends_at - now) / timedelta(minutes=1)), 0),
        fee_to_move=accounts.fee_to_move(sitting, now),
        no_show_at=no_show_at,
        is_no_show=now >= no_show_at,
        no_show_fee=accounts.fee_of_no_show(sitting),
        currency=sitting.currency,
    )


def said_late(sitting: Sitting, now: datetime) -> str:
    """How late they are who come now, for the history; nothing where they are in time by their terms."""
    late = late_options(sitting, now)
    return "" if late is None else late.said


def no_show_from(sitting: Sitting) -> datetime:
    """From when on whoever has not come may be called a no-show."""
    return sitting.starts_at + timedelta(minutes=(sitting.agreed or _USUAL).no_show_minutes)
