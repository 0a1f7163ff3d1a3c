"""What the bookings know of who changed what. Belongs here: one source of audit rows for each kind of history row, a
query each. Not here: putting them together (`audit`), any text of comfort notes or answers.

What is kept twice is shown once: a deposit waived or waited for (`Trust`), quotes, and fees of moving and the like
stand in `SittingChange` with their words, so those rows are the source; items stand in `Charge`."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from django.db.models import Q, QuerySet
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from bookings import wording
from bookings.audit import Kind, Row, Source, gives
from bookings.models import (
    Charge,
    DayCount,
    Erasure,
    Invoice,
    Letter,
    LetterKind,
    NoteReading,
    NotesPurged,
    Payment,
    ReleaseWording,
    Sitting,
    SittingChange,
    Stage,
    StageChange,
    Wording,
)
from bookings.models.history import nobody
from bookings.models.keeping import erased_name
from bookings.models.numbers import INVOICE, RECEIPT, written

What = SittingChange.What
_KINDS = {
    Kind.TIME: (
        What.START, What.MINUTES, What.SETUP, What.STRIKE, What.ROOM, What.PHOTOGRAPHER, What.ASSISTANT, What.HOLD,
        What.PLACE, What.OBJECTION, What.OCCASION,
    ),
    Kind.MONEY: (What.FEE, What.DEPOSIT, What.DESTINATION, What.ITEM, What.QUOTE),
    Kind.PERMISSION: (What.PERMISSION,),
    Kind.STAGE: (What.RESHOOT,),
}  # fmt: skip
_LABELS = dict(What.choices)  # said in the reader's language where one is read
_KIND_OF = {what: kind for kind, whats in _KINDS.items() for what in whats}
_BY_TERMS = (Charge.What.MOVING, Charge.What.CANCELLING, Charge.What.NO_SHOW)
_CHUNK = 200


def read(
    rows: QuerySet[Any], start: datetime, end: datetime, sitting: Sitting | None, *names: str, at: str = "at",
    by: str = "by", of: str = "sitting",
) -> Iterator[dict[str, Any]]:  # fmt: skip
    """Those columns of the rows between two moments, newest first, with `at`, the sitting's number as `sitting`, and
    `who` and `member`; a row at a time, in one query. An empty `of` is for rows of no sitting."""
    if sitting is not None:
        rows = rows.filter(**{of: sitting}) if of else rows.none()
    joined = [f"{by}__name", by, *([f"{of}__number"] if of else [])]
    found = rows.filter(**{f"{at}__gte": start, f"{at}__lt": end}).order_by(f"-{at}", "-pk").values(at, *joined, *names)
    for row in found.iterator(chunk_size=_CHUNK):
        told = {"at": row[at], "who": row[f"{by}__name"], "member": row[by], "sitting": row.get(f"{of}__number") or ""}
        yield row | told


@gives(Kind.STAGE)
def stages(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    words = dict(Stage.choices)
    for row in read(StageChange.objects.all(), start, end, sitting, "stage_from", "stage_to", "note"):
        yield Row(
            row["at"], Kind.STAGE, _("Stage") if row["stage_from"] else _("Booked"), row["who"] or nobody(),
            row["member"], row["sitting"], str(words.get(row["stage_from"], "")),
            str(words.get(row["stage_to"], row["stage_to"])), row["note"],
        )  # fmt: skip


@gives(*_KINDS, Kind.PEOPLE)
def changes(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    rows = SittingChange.objects.exclude(what=What.ITEM)
    for row in read(rows, start, end, sitting, "what", "before", "after", "note"):
        what = row["what"]
        said, before = _said(what, row["before"])
        yield Row(
            row["at"], _KIND_OF.get(what, Kind.PEOPLE), said, row["who"] or nobody(what), row["member"], row["sitting"],
            before, row["after"], row["note"],
        )  # fmt: skip


def _said(what: str, before: str) -> tuple[str, str]:
    """What was changed, and from what; some rows keep there whom or what it is about, until a client is erased."""
    label = str(_LABELS.get(what, what))
    if what == What.PERMISSION:
        return capfirst(before or label), ""
    if what == What.OBJECTION:  # kept by its code
        return capfirst(label), ""
    if what in (What.FEE, What.QUOTE, What.CORRECTED) and before:
        joined = f"{label} {before}" if what == What.QUOTE else f"{label}: {before}"
        return capfirst(joined), ""
    return capfirst(label), before


@gives(Kind.MONEY)
def payments(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    kinds, methods = dict(Payment.Kind.choices), dict(Payment.Method.choices)
    names = ("kind", "method", "receipt", "amount", "note", "sitting__currency", "corrects__receipt")
    for row in read(Payment.objects.all(), start, end, sitting, *names):
        what = _("%(kind)s, %(method)s, receipt %(number)s") % {
            "kind": capfirst(str(kinds.get(row["kind"], row["kind"]))), "number": written(RECEIPT, row["receipt"]),
            "method": methods.get(row["method"], row["method"]),
        }  # fmt: skip
        if row["corrects__receipt"]:
            first = written(RECEIPT, row["corrects__receipt"])
            what = _("%(what)s, takes back %(first)s") % {"what": what, "first": first}
        amount = wording.money(row["amount"], row["sitting__currency"])
        yield Row(
            row["at"], Kind.MONEY, what, row["who"], row["member"], row["sitting"], after=amount, note=row["note"]
        )


@gives(Kind.MONEY)
def charges(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    kinds = dict(Charge.What.choices)
    told = Charge.objects.exclude(Q(what__in=_BY_TERMS) & Q(corrects=None))
    names = ("what", "label", "count", "amount", "note", "sitting__currency", "corrects")
    for row in read(told, start, end, sitting, *names):
        name = row["label"] or str(kinds.get(row["what"], row["what"]))
        name = f"{row['count']} x {name}" if row["count"] > 1 else name
        what = _("%(what)s taken back") if row["corrects"] else _("%(what)s charged")
        amount = wording.money(row["amount"], row["sitting__currency"])
        yield Row(
            row["at"], Kind.MONEY, capfirst(what % {"what": name}), row["who"], row["member"], row["sitting"],
            after=amount, note=row["note"],
        )  # fmt: skip


@gives(Kind.MONEY)
def invoices(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    for row in read(Invoice.objects.all(), start, end, sitting, "number"):
        what = _("Invoice %(number)s made") % {"number": written(INVOICE, row["number"])}
        yield Row(row["at"], Kind.MONEY, what, row["who"], row["member"], row["sitting"])


@gives(Kind.MONEY)
def counts(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    for row in read(DayCount.objects.all(), start, end, sitting, "day", "expected", "counted", "note", of=""):
        what = _("Till counted for %(day)s") % {"day": wording.date(row["day"])}
        before, after = (f"{row[name].normalize():f}" for name in ("expected", "counted"))
        yield Row(row["at"], Kind.MONEY, what, row["who"], row["member"], "", before, after, row["note"])


@gives(Kind.LETTERS)
def letters(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """That one was written and of what kind, never what it says."""
    kinds = dict(LetterKind.choices)
    for row in read(Letter.objects.all(), start, end, sitting, "kind", at="written_at"):
        what = _("Letter written: %(kind)s") % {"kind": kinds.get(row["kind"], row["kind"])}
        yield Row(row["at"], Kind.LETTERS, what, row["who"] or nobody(), row["member"], row["sitting"])


@gives(Kind.LETTERS)
def wordings(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    kinds = dict(LetterKind.choices)
    for row in read(Wording.objects.all(), start, end, sitting, "kind", "number", of=""):
        what = _("Wording of a letter: %(kind)s") % {"kind": kinds.get(row["kind"], row["kind"])}
        after = _("version %(n)d") % {"n": row["number"]}
        yield Row(row["at"], Kind.LETTERS, what, row["who"], row["member"], after=after)


@gives(Kind.PERMISSION)
def release_words(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    for row in read(ReleaseWording.objects.all(), start, end, sitting, "version", of=""):
        after = _("version %(n)d") % {"n": row["version"]}
        yield Row(row["at"], Kind.PERMISSION, _("Words of the release"), row["who"], row["member"], after=after)


@gives(Kind.NOTES)
def refused_notes(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    """Who asked for comfort notes and was not let in; readings that were let in stand on a page of their own."""
    where = dict(NoteReading.Where.choices)
    for row in read(NoteReading.objects.filter(refused=True), start, end, sitting, "where"):
        what = _("Comfort notes refused: %(where)s") % {"where": where.get(row["where"], row["where"])}
        yield Row(row["at"], Kind.NOTES, what, row["who"], row["member"], row["sitting"])


@gives(Kind.NOTES)
def purges(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    why = dict(NotesPurged.Why.choices)
    for row in read(NotesPurged.objects.all(), start, end, sitting, "why"):
        note = str(why.get(row["why"], row["why"]))
        who = row["who"] or nobody()
        yield Row(row["at"], Kind.NOTES, _("Comfort notes purged"), who, row["member"], row["sitting"], note=note)


@gives(Kind.NOTES)
def erasures(start: datetime, end: datetime, sitting: Sitting | None) -> Iterator[Row]:
    for row in read(Erasure.objects.all(), start, end, sitting, "client", of=""):
        what = _("Client erased: %(name)s") % {"name": erased_name(row["client"])}
        yield Row(row["at"], Kind.NOTES, what, row["who"], row["member"])


SOURCES: tuple[Source, ...] = (
    stages, changes, payments, charges, invoices, counts, letters, wordings, release_words, refused_notes,
    purges, erasures,
)  # fmt: skip
