"""What of the hours was changed, kept for good. Belongs here: the row of each change and how hours are said in it. Not
here: how they are asked (`forms.hours`)."""

from __future__ import annotations

from datetime import time

from django.db import transaction
from django.utils.translation import gettext as _

from studio import clock
from studio.models import DaysOff, HoursChange, Member, Week, Weekday

Hours = dict[int, tuple[time, time]]


def noted(*, by: Member, what: str, member: Member | None, before: str, after: str) -> None:
    """Keep who changed it; what is as before is no change."""
    if before != after:
        HoursChange.objects.create(
            at=clock.now(), by=by, what=what, member=member, before=before[:400], after=after[:400]
        )


@transaction.atomic
def as_the_house(*, by: Member, member: Member) -> bool:
    """Somebody works whenever the house is open again; false where that was so."""
    week = Week.objects.select_for_update().filter(member=member).first()
    if week is None:
        return False
    before = of_week(week.hours)
    week.delete()
    noted(by=by, what=HoursChange.What.WEEK, member=member, before=before, after=_("as the house"))
    return True


def of_week(hours: Hours) -> str:
    """A week in one line: "Monday 08:00 to 19:00, ..."; days that are not said are free."""
    days = [
        _("%(day)s %(start)s to %(end)s") % {"day": Weekday(day).label, "start": f"{a:%H:%M}", "end": f"{b:%H:%M}"}
        for day, (a, b) in sorted(hours.items())
    ]
    return ", ".join(days) or _("no day")


def of_days_off(row: DaysOff) -> str:
    """The days and the words the diary shows."""
    first, last = row.first_day.isoformat(), row.last_day.isoformat()
    days = first if first == last else _("%(first)s to %(last)s") % {"first": first, "last": last}
    return f"{days}, {row.words}" if row.words else days
