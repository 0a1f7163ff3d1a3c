"""Days, times and money as the house says them. Belongs here: one way to write a day, a time and a span in a given
zone, and an amount in a given currency."""

from __future__ import annotations

from datetime import date as calendar_date
from datetime import datetime, tzinfo
from decimal import Decimal

from django.utils import timezone
from django.utils.formats import date_format, number_format
from django.utils.translation import gettext as _

from bookings import prices


def day(moment: datetime, zone: tzinfo) -> str:
    return date_format(timezone.localtime(moment, zone), "l j F Y")


def date(on: calendar_date) -> str:
    return date_format(on, "l j F Y")


def time(moment: datetime, zone: tzinfo) -> str:
    return timezone.localtime(moment, zone).strftime("%H:%M")


def moment_near(moment: datetime, near: datetime, zone: tzinfo) -> str:
    """The time alone where it is the same day as `near`, else the day with it."""
    if timezone.localdate(moment, zone) == timezone.localdate(near, zone):
        return time(moment, zone)
    return moment_in_full(moment, zone)


def moment_in_full(moment: datetime, zone: tzinfo) -> str:
    return _("%(day)s, %(time)s") % {"day": day(moment, zone), "time": time(moment, zone)}


def money(amount: Decimal, currency: str) -> str:
    """As `GBP 45.00`, with as many digits behind the point as the currency has."""
    figures = number_format(prices.rounded(amount, currency), prices.places(currency))
    figures = figures.replace("-", "\N{MINUS SIGN}")
    return f"{currency} {figures}" if currency else figures


def figures(amount: Decimal, currency: str) -> str:
    """The amount without its currency, for a table that says it once."""
    return money(amount, currency).removeprefix(f"{currency} ")
