"""What the light knows of who changed what, for the bookings' audit trail. Belongs here: plans made and superseded,
records signed, shot lists, numbers of rules set, company standards, corrections retired, beams. Never why a plan
was made anew: that may name what a sitter wrote."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from django.db.models import F, OuterRef, Subquery
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings.audit import Kind, Row, gives
from bookings.audit_rows import read
from bookings.models import Sitting
from shotplans.models import (
    STANDARD_WORDS,
    BufferChange,
    FrameTie,
    MeasuredBeam,
    Plan,
    Record,
    Retired,
    RuleEdit,
    ShotListEdit,
    StandardEdit,
    standard_said,
    unit_words,
)
from shotplans.planner.rules import RULES
from studio.models import Member
from studio.models.quantities import plain


@gives(Kind.PLAN)
def plans(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    for row in read(Plan.objects.all(), start, end, sitting, "number", at="made_at", by="made_by"):
        yield Row(
            row["at"], Kind.PLAN, _("Plan made"), row["who"], row["member"], row["sitting"],
            _version(row["number"] - 1), _version(row["number"]),
        )  # fmt: skip


@gives(Kind.PLAN)
def superseded(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """By whoever made the next version."""
    following = Plan.objects.filter(sitting=OuterRef("sitting"), number=OuterRef("number") + 1)
    by = Member.objects.filter(pk=OuterRef("next_by")).values("name")
    rows = Plan.objects.annotate(next_by=Subquery(following.values("made_by")[:1]), next_name=Subquery(by))
    for row in read(rows, start, end, sitting, "number", "next_by", "next_name", at="superseded_at", by="made_by"):
        yield Row(
            row["at"], Kind.PLAN, _("Plan superseded"), row["next_name"] or "", row["next_by"], row["sitting"],
            _version(row["number"]), _version(row["number"] + 1),
        )  # fmt: skip


@gives(Kind.PLAN)
def records(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    rows = Record.objects.annotate(version_of=F("plan__number"))
    for row in read(rows, start, end, sitting, "version_of", at="closed_at", by="closed_by", of="plan__sitting"):
        what = _("Record of plan %(n)d signed") % {"n": row["version_of"]}
        yield Row(row["at"], Kind.PLAN, what, row["who"] or "", row["member"], row["sitting"])


@gives(Kind.RULES)
def rules(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    names = ("rule", "words", "unit", "value_from", "value_to", "back_to_first", "why")
    for row in read(RuleEdit.objects.all(), start, end, sitting, *names, of=""):
        rule, unit = RULES.get(row["rule"]), unit_words(row["unit"])
        before, after = (f"{plain(row[name])} {unit}".strip() for name in ("value_from", "value_to"))
        if row["back_to_first"]:
            after = _("%(value)s, the first value") % {"value": after}
        what = f"{rule.said_when if rule else row['rule']}: {row['words']}"
        yield Row(row["at"], Kind.RULES, what, row["who"], row["member"], "", before, after, row["why"])


@gives(Kind.RULES)
def buffers(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Suggested set-up and strike times that were taken for a kind of sitting."""
    for row in read(
        BufferChange.objects.annotate(kind_name=F("kind__name")), start, end, sitting, "kind_name", "what", "before",
        "after", of="",
    ):  # fmt: skip
        what = _("set-up") if row["what"] == "setup_minutes" else _("strike")
        minutes = (_("%(n)d minutes") % {"n": row[name]} for name in ("before", "after"))
        yield Row(row["at"], Kind.RULES, f"{row['kind_name']}: {what}", row["who"], row["member"], "", *minutes)


def _version(number: int) -> str:
    return _("version %(n)d") % {"n": number} if number else ""


@gives(Kind.PLAN)
def frames(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Frames tied to a set-up by hand."""
    names = ("first", "last", "before", "after", "is_test")
    for row in read(FrameTie.objects.all(), start, end, sitting, *names):
        which = str(row["first"]) if row["first"] == row["last"] else f"{row['first']}-{row['last']}"
        what = _("Test frame: frame %(n)s") if row["is_test"] else _("Frames tied by hand: %(n)s")
        yield Row(
            row["at"], Kind.PLAN, what % {"n": which}, row["who"] or "", row["member"], row["sitting"],
            row["before"] or _("in doubt"), row["after"],
        )  # fmt: skip


@gives(Kind.PLAN)
def shot_lists(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Shot lists as counts: the words of a picture stand on the list's own page, for who may read them there."""
    names = ("count_before", "count_after", "reordered")
    for row in read(ShotListEdit.objects.all(), start, end, sitting, *names):
        before, after = (_pictures(row[name]) for name in names[:2])
        note = _("in another order") if row["reordered"] else ""
        yield Row(row["at"], Kind.PLAN, _("Shot list"), row["who"], row["member"], row["sitting"], before, after, note)


def _pictures(count: int) -> str:
    return ngettext("%(n)d picture", "%(n)d pictures", count) % {"n": count} if count else _("as suggested")


@gives(Kind.RULES)
def standards(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Values of a company's standard; they belong to no sitting."""
    names = ("name", "value_from", "value_to", "locked_from", "locked_to", "why", "client__name")
    for row in read(StandardEdit.objects.all(), start, end, sitting, *names, of=""):
        what = _("Standard of %(client)s: %(name)s") % {
            "client": row["client__name"], "name": STANDARD_WORDS.get(row["name"], row["name"]),
        }  # fmt: skip
        before, after = (standard_said(row[f"value_{way}"], locked=row[f"locked_{way}"]) for way in ("from", "to"))
        yield Row(row["at"], Kind.RULES, what, row["who"], row["member"], "", before, after, row["why"])


@gives(Kind.RULES)
def retired(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Corrections taken out of use."""
    for row in read(Retired.objects.all(), start, end, sitting, "head", "modifier", "why", of=""):
        what = _("Correction of %(pair)s") % {"pair": _pair(row)}
        yield Row(row["at"], Kind.RULES, what, row["who"], row["member"], "", _("in use"), _("retired"), row["why"])


@gives(Kind.RULES)
def taken_back(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Retirements taken back."""
    rows, names = Retired.objects.all(), ("head", "modifier")
    for row in read(rows, start, end, sitting, *names, at="taken_back_at", by="taken_back_by", of=""):
        what = _("Correction of %(pair)s") % {"pair": _pair(row)}
        yield Row(
            row["taken_back_at"], Kind.RULES, what, row["who"] or "", row["member"], "", _("retired"), _("in use")
        )


def _pair(row: dict[str, Any]) -> str:
    return f"{row['head']}, {row['modifier'] or _('all modifiers')}"


@gives(Kind.KIT)
def beams(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Beams from a laboratory's files, as they came."""
    for row in read(MeasuredBeam.objects.all(), start, end, sitting, "head", "modifier", "file_name", of=""):
        what = _("Measured beam of %(head)s with %(modifier)s") % row
        yield Row(row["at"], Kind.KIT, what, row["who"], row["member"], after=row["file_name"])


@gives(Kind.KIT)
def beams_ended(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """And as they went out of use."""
    rows, names = MeasuredBeam.objects.exclude(ended_at=None), ("head", "modifier", "file_name")
    for row in read(rows, start, end, sitting, *names, at="ended_at", by="ended_by", of=""):
        what = _("Measured beam of %(head)s with %(modifier)s") % row
        yield Row(
            row["ended_at"], Kind.KIT, what, row["who"], row["member"], before=row["file_name"], after=_("out of use")
        )
