"""Intake. Belongs here: making its link, keeping answers so that nothing the studio noted is lost, and new words for
the release. Not here: consents and signatures (`arrivals`)."""

from __future__ import annotations

import secrets
from collections.abc import Collection, Mapping
from datetime import timedelta
from typing import Any

from django.db import transaction
from django.db.models import F

from bookings import intake_questions
from bookings.actions import comfort
from bookings.intake_questions import AGE, NOTE, POSTURE, WIDTH, WISH, Question
from bookings.models import Intake, IntakeAnswer, Notes, ReleaseWording, Sitter, Sitting, SittingChange, Wish
from studio import clock
from studio.models import Member, versions

AFTER = timedelta(days=30)  # after the sitting a consent can still be withdrawn by link so long: common practice
Said = Mapping[str, tuple[str, str]]  # by question: the value chosen, the client's own words


@transaction.atomic
def make_link(*, sitting: Sitting) -> Intake:
    """The intake of a sitting with a new link; an earlier one is dead from now on. Answers stay."""
    Sitting.objects.select_for_update().get(pk=sitting.pk)
    now = clock.now()
    fresh = {"secret": secrets.token_hex(16), "made_at": now, "expires_at": max(now, sitting.ends_at) + AFTER}
    row, _made = Intake.objects.update_or_create(
        sitting=sitting, defaults=fresh | {"opened_at": None}, create_defaults=fresh | _asked(sitting)
    )
    return row


def _asked(sitting: Sitting) -> dict[str, Any]:
    people = sitting.sitters.count()
    asked = [
        *intake_questions.of_sitting(sitting.kind, people), *intake_questions.of_sitter(sitting.kind, people)
    ]  # fmt: skip
    return {"questions_version": intake_questions.VERSION, "questions": intake_questions.as_asked(asked)}


@transaction.atomic
def for_paper(*, sitting: Sitting) -> Intake:
    """The intake of a sitting, made if there is none: for what was filled in by hand."""
    found = Intake.objects.filter(sitting=sitting).first()
    return found or make_link(sitting=sitting)


def opened(*, intake: Intake) -> None:
    """The client has the page open: when, first and alone."""
    Intake.objects.filter(pk=intake.pk, opened_at=None).update(opened_at=clock.now())


@transaction.atomic
def keep(
    *, intake: Intake, sitter: Sitter | None, said: Said, back: Collection[str] = (), by: Member | None = None
) -> int:
    """Keep what was said to each question; a question without an answer keeps what it had unless it is taken `back`
    (`code` its choice, `code-words` its own words). Returns how many were kept or taken back.

    What the studio noted meanwhile stands: an answer that differs from it is kept beside it, to be read together.
    """
    row = Intake.objects.select_for_update().get(pk=intake.pk)
    news = {code: pair for code, pair in said.items() if any(pair)}
    taken = _take_back(row, sitter, back)
    before = {answer.question: answer for answer in row.answers.filter(sitter=sitter)}
    now = clock.now()
    for code, (value, words) in news.items():
        question, old = intake_questions.BY_CODE[code], before.get(code)
        own = old.value if old is not None and not old.apart else ""
        apart = bool(value) and not _write(row.sitting, sitter, question, value, own)
        kept = {"value": value or (old.value if old else ""), "words": words or (old.words if old else "")}
        apart = apart or (not value and old is not None and old.apart)
        IntakeAnswer.objects.update_or_create(
            intake=row, sitter=sitter, question=code, defaults=kept | {"at": now, "apart": apart}
        )
    if news or taken:
        row.answered_at = now
        if by is not None:
            row.entered_by, row.entered_at = by, now
        row.save(update_fields=["answered_at", "entered_by", "entered_at"])
    return len(news) + taken


def _take_back(row: Intake, sitter: Sitter | None, back: Collection[str]) -> int:
    """Empty what a sitter said, here and where the plan reads it; what the studio noted otherwise stands."""
    taken = 0
    for answer in row.answers.filter(sitter=sitter):
        code = answer.question
        if code in back and answer.value:
            if not answer.apart:
                _unwrite(row.sitting, sitter, intake_questions.BY_CODE[code], answer.value)
            answer.value, answer.apart = "", False
        elif f"{code}-words" not in back or not answer.words:
            continue
        taken += 1
        answer.words = "" if f"{code}-words" in back else answer.words
        answer.at = clock.now()
        if answer.words or answer.value:
            answer.save()
        else:
            answer.delete()
    return taken


def _unwrite(sitting: Sitting, sitter: Sitter | None, question: Question, own: str) -> None:
    """Take an answer out of where the plan reads it, if it is still what stands there."""
    if question.kind == WIDTH:
        _put_width(sitting, None, own)
    elif question.kind == WISH:
        Wish.objects.filter(sitter=sitter, note=question.at, wish=own).delete()
    elif question.kind in (AGE, POSTURE) and sitter is not None:
        known = Sitter.objects.get(pk=sitter.pk)
        field = "age_years" if question.kind == AGE else "posture"
        if _text(getattr(known, field)) == own:
            setattr(known, field, None if question.kind == AGE else "")
            known.save(update_fields=[field])
    elif question.kind == NOTE:
        notes = Notes.objects.select_for_update().filter(sitter=sitter).first()
        if notes is not None and _text(getattr(notes, question.at)) == own:
            setattr(notes, question.at, Notes._meta.get_field(question.at).get_default())
            versions.save(notes, seen=notes.version)


def _write(sitting: Sitting, sitter: Sitter | None, question: Question, value: str, own: str) -> bool:
    """Put an answer where the plan reads it, unless the studio has noted something else there; whether it stands."""
    if question.kind == WIDTH:
        return _put_width(sitting, float(value), own)
    if sitter is None:
        return True
    if question.kind == WISH:
        return _put_wish(sitter, question.at, value, own)
    if question.kind in (AGE, POSTURE):
        field = "age_years" if question.kind == AGE else "posture"
        known = Sitter.objects.get(pk=sitter.pk)
        if (now := _text(getattr(known, field))) not in ("", own, value):
            return False
        if now != value:
            setattr(known, field, float(value) if question.kind == AGE else value)
            known.save(update_fields=[field])
        return True
    if question.kind == NOTE:
        notes = Notes.objects.filter(sitter=sitter).first()
        if notes is not None and _text(getattr(notes, question.at)) not in ("", own, value):
            return False
        comfort.add(sitter=sitter, notes={question.at: _typed(question, value)})
    return True


def _put_wish(sitter: Sitter, about: str, value: str, own: str) -> bool:
    held = list(Wish.objects.filter(sitter=sitter, note=about))
    if any(wish.wish not in (own, value) for wish in held):
        return False
    if held:
        Wish.objects.filter(pk__in=[wish.pk for wish in held]).update(wish=value)
    else:
        Wish.objects.create(sitter=sitter, note=about, wish=value)
    return True


def _put_width(sitting: Sitting, width: float | None, own: str) -> bool:
    now = Sitting.objects.get(pk=sitting.pk).print_width_cm
    if _text(now) not in ("", own, _text(width)):
        return False
    if now != width:
        Sitting.objects.filter(pk=sitting.pk).update(print_width_cm=width, version=F("version") + 1)
        SittingChange.objects.create(
            sitting=sitting, at=clock.now(), by=None, what=SittingChange.What.PRINT_WIDTH,
            before=_text(now), after=_text(width),
        )  # fmt: skip
    return True


def _typed(question: Question, value: str) -> object:
    if question.is_number:
        return float(value)
    return {"true": True, "false": False}.get(value, value)


def _text(value: object) -> str:
    """As an answer is kept."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"{value:g}" if isinstance(value, float) else str(value)


@transaction.atomic
def word_release(*, by: Member, words: str) -> ReleaseWording:
    """New words for releases from now on; what was signed keeps its own."""
    last = ReleaseWording.objects.select_for_update().first()
    return ReleaseWording.objects.create(
        version=last.version + 1 if last else 1, words=words.strip(), at=clock.now(), by=by
    )
