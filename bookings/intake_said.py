"""What a sitter said in an intake, as words for whoever may read comfort notes. Not here: who may (`access`)."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Q

from bookings.intake_questions import BY_CODE
from bookings.models import IntakeAnswer, Sitter


@dataclass(frozen=True)
class SaidSo:
    """One question as it was asked, the choice and the own words; `apart` where the studio noted something else."""

    asked: str
    said: str
    words: str
    apart: bool


def of(sitter: Sitter) -> list[SaidSo]:
    """The sitter's own answers, and those about the whole sitting."""
    rows = IntakeAnswer.objects.filter(Q(sitter=sitter) | Q(sitter=None), intake__sitting=sitter.sitting_id)
    found = []
    for row in rows.select_related("intake").order_by("pk"):
        question = BY_CODE.get(row.question)
        said = dict(question.choices).get(row.value, row.value) if question else row.value
        found.append(SaidSo(row.intake.questions.get(row.question, row.question), said, row.words, row.apart))
    return found
