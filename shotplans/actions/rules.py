"""The studio's rules: setting numbers of one rule, with the history of it."""

from __future__ import annotations

from collections.abc import Mapping

from django.db import IntegrityError, transaction

from shotplans import rulebook
from shotplans.models import OwnNumber, RuleEdit
from shotplans.planner.rules import RULES
from studio import clock
from studio.models import Member


class ChangedMeanwhile(Exception):
    """Somebody else set a number of this rule since it was opened; nothing was written."""


def change(*, by: Member, rule: str, values: Mapping[str, float], why: str, seen: int | None) -> list[RuleEdit]:
    """Set numbers of one rule, all or none; the first value takes a studio's own away. Returns what really changed.

    `seen` is the version the form was opened at. Refuses with `ChangedMeanwhile`.
    """
    try:
        with transaction.atomic():
            return _write(by, rule, values, why, seen)
    except IntegrityError as error:  # two first changes of one number at the same moment
        raise ChangedMeanwhile from error


def _write(by: Member, rule: str, values: Mapping[str, float], why: str, seen: int | None) -> list[RuleEdit]:
    rows = {row.number: row for row in OwnNumber.objects.select_for_update().of(rule)}
    if rulebook.version_of(rows.values()) != seen:
        raise ChangedMeanwhile
    edits = []
    for name, value in values.items():
        number, row = RULES[rule].numbers[name], rows.get(name)
        before = row.value if row else None
        after = None if value == number.value else value
        if after == before:
            continue
        if row is None:
            OwnNumber.objects.create(rule=rule, number=name, value=after)
        else:
            row.value, row.version = after, row.version + 1
            row.save()
        edits.append(
            RuleEdit(
                rule=rule,
                number=name,
                words=number.words[:200],
                unit=number.unit[:40],
                value_from=number.value if before is None else before,
                value_to=value,
                back_to_first=after is None,
                why=why,
                at=clock.now(),
                by=by,
            )
        )
    return RuleEdit.objects.bulk_create(edits)
