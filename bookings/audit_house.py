"""What the audit trail tells of the house itself: hours, kit, and lists brought in. Belongs here: sources
named in settings, kit among them. Not here: what belongs to a sitting (`audit_rows`)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings.audit import Kind, Row, gives
from bookings.audit_rows import read
from bookings.models import SentList, Sitting
from studio.models import CountChange, DoorChange, HoursChange, KitChange, KitItem, KitList


@gives(Kind.TIME)
def hours(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Opening hours, working hours and days off."""
    names = ("what", "member__name", "before", "after")
    for row in read(HoursChange.objects.all(), start, end, sitting, *names, of=""):
        is_week, whose = row["what"] == HoursChange.What.WEEK, row["member__name"]
        if whose:
            what = (_("Working hours of %(name)s") if is_week else _("Days off of %(name)s")) % {"name": whose}
        else:
            what = _("Opening hours") if is_week else _("Days on which the house is closed")
        yield Row(row["at"], Kind.TIME, what, row["who"], row["member"], "", row["before"], row["after"])


@gives(Kind.PEOPLE)
def lists(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Lists of clients brought in: how many, never who."""
    rows = SentList.objects.exclude(brought_in_at=None)
    for row in read(rows, start, end, sitting, "file_name", "added", "merged", at="brought_in_at", of=""):
        after = ngettext("%(n)d client added", "%(n)d clients added", row["added"]) % {"n": row["added"]}
        if row["merged"]:
            after += ", " + _("%(n)d filled in") % {"n": row["merged"]}
        yield Row(
            row["brought_in_at"], Kind.PEOPLE, _("List of clients brought in"), row["who"], row["member"],
            after=after, note=row["file_name"],
        )  # fmt: skip


@gives(Kind.PEOPLE)
def doors(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """How somebody signs in: that it was changed, never what it is."""
    words = dict(DoorChange.What.choices)
    for row in read(DoorChange.objects.all(), start, end, sitting, "what", "member__name", of=""):
        what = _("Signing in of %(name)s") % {"name": row["member__name"]}
        yield Row(row["at"], Kind.PEOPLE, what, row["who"], row["member"], after=str(words[row["what"]]))


@gives(Kind.KIT)
def kit(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """States of pieces."""
    words = dict(KitItem.State.choices)
    names = ("piece__label", "piece__code", "before", "after", "why")
    for row in read(KitChange.objects.all(), start, end, sitting, *names, of=""):
        yield Row(
            row["at"], Kind.KIT, f"{row['piece__label']} ({row['piece__code']})", row["who"], row["member"],
            before=str(words.get(row["before"], row["before"])), after=str(words.get(row["after"], row["after"])),
            note=row["why"],
        )  # fmt: skip


@gives(Kind.KIT)
def counts(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """What is used up, counted by hand."""
    for row in read(CountChange.objects.all(), start, end, sitting, "name", "unit", "before", "after", of=""):
        before, after = str(row["before"]), str(row["after"])
        yield Row(row["at"], Kind.KIT, f"{row['name']}, {row['unit']}", row["who"], row["member"], "", before, after)


@gives(Kind.KIT)
def kit_lists(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Lists of kit brought in: how many pieces."""
    rows = KitList.objects.exclude(brought_in_at=None)
    for row in read(rows, start, end, sitting, "file_name", "added", "changed", at="brought_in_at", of=""):
        after = _("%(added)d added, %(changed)d changed") % {"added": row["added"], "changed": row["changed"]}
        yield Row(
            row["brought_in_at"], Kind.KIT, _("List of kit brought in"), row["who"], row["member"], after=after,
            note=row["file_name"],
        )  # fmt: skip
