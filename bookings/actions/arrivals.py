"""Permissions at the door. Belongs here: keeping answers, guardians, releases and waivers, each in one transaction and
in the history. Not here: the stage (`sittings`), what the rows come to (`bookings.permissions`)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import permissions
from bookings.actions.keeping import purge_due
from bookings.models import Consent, Guardian, How, Release, Sitter, Sitting, SittingChange, Waiver
from bookings.permissions import Permission
from bookings.refusals import AnsweredMeanwhile, NoteNeeded, WrongSignature
from studio import clock
from studio.models import Member, Profile, Role

NOT_ASKED = ""


@dataclass(frozen=True)
class Signature:
    """Who signs: nobody named means each for themselves. `relation` and `phone` are a guardian's; wording and drawing
    are kept where it was signed on a page."""

    signed_by: str = ""
    relation: str = ""
    phone: str = ""
    limits: str = ""
    wording: str = ""
    wording_version: int | None = None
    drawn: str = ""


@transaction.atomic
def sign(
    *, by: Member | None, sitting: Sitting, people: Sequence[int], signature: Signature, how: str, signed_on: date
) -> None:
    """Save the release of the sitters with these keys as signed, and who answers for the minors among them.

    Refuses with `WrongSignature`.
    """
    rows = _locked(sitting, people)
    _check_signer(rows, signature)
    if signed_on > timezone.localdate(clock.now(), Profile.get().zone):
        raise WrongSignature("signed_on", _("That day is still to come. Leave “signed” at “not yet” until then."))
    for row in rows:
        signer = signature.signed_by or row.sitter.label
        Release.objects.update_or_create(
            sitter=row.sitter,
            defaults={
                "signed_by": signer, "relation": signature.relation, "signed_on": signed_on,
                "limits": signature.limits, "how": how, "at": clock.now(), "by": by,
                "wording": signature.wording, "wording_version": signature.wording_version, "drawn": signature.drawn,
            },
        )  # fmt: skip
        if signature.relation:
            _answer_for(row, signature, how, by)
        who = f"{signer} ({signature.relation})" if signature.relation else signer
        words = _("signed by %(who)s, %(how)s") % {"who": who, "how": How(how).label}
        _tell(row.sitter, _("release"), words, by, note=signature.limits)


@transaction.atomic
def name_guardian(*, by: Member, sitting: Sitting, people: Sequence[int], signature: Signature, how: str) -> None:
    """Who answers for a minor and can be rung, before anything is signed. Refuses with `WrongSignature`."""
    rows = _locked(sitting, people)
    if not signature.relation:
        raise WrongSignature("relation", _("Say what the guardian is to them: mother, grandfather, guardian."))
    _check_signer(rows, signature)
    for row in rows:
        _answer_for(row, signature, how, by)


@transaction.atomic
def answer(
    *, by: Member | None, sitting: Sitting, answers: Mapping[tuple[int, str], tuple[str, str]], how: str
) -> None:
    """Keep answers by sitter and question, each with the answer the page showed before. Each stands alone: what was
    not changed is not touched. A no after a yes is a withdrawal.

    Refuses with `AnsweredMeanwhile`, and keeps none of them.
    """
    changed = {key: pair for key, pair in answers.items() if pair[0] != pair[1]}
    rows = {row.sitter.pk: row for row in _locked(sitting, sorted({pk for pk, _what in changed}))} if changed else {}
    for (pk, what), (said, seen) in changed.items():
        row = rows[pk]
        before = row.answer_to(what)
        if before != seen:
            raise AnsweredMeanwhile(row.sitter.label)
        after = Consent.Answer.WITHDRAWN if said == Consent.Answer.NO and before == Consent.Answer.YES else said
        if after == NOT_ASKED:
            Consent.objects.filter(sitter=row.sitter, what=what).delete()
        else:
            Consent.objects.update_or_create(
                sitter=row.sitter, what=what, defaults={"answer": after, "how": how, "at": clock.now(), "by": by}
            )
        _tell(row.sitter, Consent.What(what).label, _from_to(before, after), by)
    if any(what == Consent.What.KEEP_NOTES for _pk, what in changed):
        purge_due(Profile.get(), sittings=[sitting], by=by)  # where it is over, a no takes effect at once


@transaction.atomic
def waive(*, by: Member, sitting: Sitting, people: Sequence[int], note: str) -> None:
    """Let sitters be photographed without a signed release: an owner waives it, anybody else asks the owner to.

    Refuses with `NoteNeeded`, `WrongSignature`.
    """
    rows = _locked(sitting, people)
    note = note.strip()
    if not note:
        raise NoteNeeded
    now = clock.now()
    for row in rows:
        if row.is_signed or row.waived:
            continue
        waiver = row.waiver or Waiver(sitter=row.sitter, asked_at=now, asked_by=by, asked_note=note)
        if by.has_role(Role.OWNER):
            waiver.at, waiver.by, waiver.note = now, by, note
            words = _("waived")
        else:
            waiver.asked_at, waiver.asked_by, waiver.asked_note = now, by, note
            words = _("the owner was asked to waive it")
        waiver.save()
        _tell(row.sitter, _("release"), words, by, note=note)


@transaction.atomic
def take_back(*, by: Member, sitting: Sitting, people: Sequence[int], note: str) -> None:
    """A release entered by mistake or withdrawn by the sitter, or a waiver, counts no more. The guardian stays.

    Refuses with `NoteNeeded`, `WrongSignature`.
    """
    rows = _locked(sitting, people)
    if not note.strip():
        raise NoteNeeded
    for row in rows:
        for kept, words in ((row.release, _("taken back")), (row.waiver, _("waiver taken back"))):
            if kept is not None:
                kept.delete()
                _tell(row.sitter, _("release"), words, by, note=note.strip())


def _locked(sitting: Sitting, people: Sequence[int]) -> list[Permission]:
    """The chosen sitters of a sitting, which nobody else changes until this is kept."""
    Sitting.objects.select_for_update().get(pk=sitting.pk)
    wanted = set(people)
    found = [row for row in permissions.of_sitting(sitting) if row.sitter.pk in wanted]
    if not found or len(found) != len(wanted):
        raise WrongSignature("people", _("Choose whom it is about."))
    return found


def _check_signer(rows: Sequence[Permission], signature: Signature) -> None:
    minors = [row.sitter.label for row in rows if row.is_minor]
    if signature.relation or minors:
        names = ", ".join(minors or [row.sitter.label for row in rows])
        if not signature.signed_by:
            raise WrongSignature("signed_by", _("Name the guardian who signs for %(names)s.") % {"names": names})
        if not signature.relation:
            words = _("Under %(years)d a guardian signs: say what the signer is to %(names)s.")
            raise WrongSignature("relation", words % {"years": permissions.ADULT_YEARS, "names": names})
        if not signature.phone:
            raise WrongSignature("phone", _("Give the guardian's telephone: somebody may have to ring."))
    elif signature.signed_by and len(rows) > 1:
        raise WrongSignature(
            "signed_by", _("Each adult signs alone: leave this empty for all of them, or choose one person.")
        )


def _answer_for(row: Permission, signature: Signature, how: str, by: Member | None) -> None:
    said = {"name": signature.signed_by, "relation": signature.relation, "phone": signature.phone}
    before = row.guardian
    if before is not None and {name: getattr(before, name) for name in said} == said:
        return
    Guardian.objects.update_or_create(
        sitter=row.sitter, defaults=said | {"how": how, "at": clock.now(), "by": by}
    )
    if before is None:
        words = _("%(name)s (%(relation)s)") % said
    elif before.name != signature.signed_by:
        words = _("%(name)s (%(relation)s), before %(before)s") % (said | {"before": before.name})
    else:
        words = _("details of %(name)s corrected") % said
    _tell(row.sitter, _("guardian"), words, by)


def _from_to(before: str, after: str) -> str:
    names = dict(Consent.Answer.choices) | {NOT_ASKED: _("not asked")}
    return _("%(after)s, before %(before)s") % {"before": names[before], "after": names[after]}


def _tell(sitter: Sitter, what: str, words: str, by: Member | None, note: str = "") -> None:
    SittingChange.objects.create(
        sitting_id=sitter.sitting_id,
        at=clock.now(),
        by=by,
        what=SittingChange.What.PERMISSION,
        before=_("%(what)s of %(name)s") % {"what": what, "name": sitter.label},
        after=words,
        note=note,
    )
