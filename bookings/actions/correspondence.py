"""The house's own letters about a sitting. Belongs here: writing the confirmation, change and cancellation with their
invitation, in the transaction of what they tell of, withdrawing what they make untrue, and enclosing an invitation.
Not here: what they say (`bookings.correspondence`), reminders (`reminders`)."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from decimal import Decimal
from email.utils import parseaddr

from django.utils.translation import gettext as _

from bookings import accounts, correspondence, invitations, wording
from bookings.actions import letters, outbox
from bookings.actions.letters import Enclosed
from bookings.invitations import Happening, Party
from bookings.models import Invitation, Letter, LetterKind, Sitting, SittingChange, Stage
from bookings.models.letters import REMINDERS
from studio import clock
from studio.languages import as_house
from studio.models import Member, Profile

What = SittingChange.What
TOLD = (What.START, What.MINUTES, What.ROOM)  # what a client must know of


def confirm(sitting: Sitting, *, by: Member | None) -> Letter:
    """The confirmation with everything that was agreed; one that was not sent yet gives way to it."""
    profile = Profile.get()
    with as_house(profile):
        _withdraw(sitting, (LetterKind.CONFIRMATION, LetterKind.CHANGE))
        text = correspondence.compose(LetterKind.CONFIRMATION, sitting, profile)
        return _write(LetterKind.CONFIRMATION, sitting, text, profile, by=by, method=invitations.REQUEST)


def tell_change(
    sitting: Sitting, rows: Sequence[SittingChange], *, fee: Decimal, by: Member
) -> Letter | None:
    """After a change of time or room of a confirmed sitting; None where the client need not know."""
    told = [row for row in rows if row.what in TOLD]
    if not told or sitting.stage != Stage.CONFIRMED:
        return None
    _withdraw(sitting, REMINDERS)
    if sitting.letters.waiting().filter(kind=LetterKind.CONFIRMATION).exists():
        return confirm(sitting, by=by)  # nobody has read the old one
    profile = Profile.get()
    with as_house(profile):
        _withdraw(sitting, (LetterKind.CHANGE,))
        what = "; ".join(row.sentence for row in told)
        cost = wording.money(fee, sitting.currency) if fee else ""
        text = correspondence.compose(LetterKind.CHANGE, sitting, profile, what=what, fee=cost)
        return _write(LetterKind.CHANGE, sitting, text, profile, by=by, method=invitations.REQUEST)


def tell_cancelled(sitting: Sitting, *, before: str, fee: Decimal, by: Member) -> Letter | None:
    """After cancelling; None where nothing was promised in writing."""
    _withdraw(sitting, (*REMINDERS, LetterKind.CONFIRMATION, LetterKind.CHANGE))
    if before == Stage.ENQUIRY or (before == Stage.HELD and not Invitation.objects.filter(sitting=sitting).exists()):
        return None
    profile = Profile.get()
    with as_house(profile):
        account = accounts.of(sitting)
        left = ""
        if account.to_refund:
            left = _("We refund %(amount)s.") % {"amount": wording.money(account.to_refund, sitting.currency)}
        elif account.balance:
            left = _("Left to pay: %(amount)s.") % {"amount": wording.money(account.balance, sitting.currency)}
        cost = wording.money(fee, sitting.currency) if fee else ""
        text = correspondence.compose(LetterKind.CANCELLATION, sitting, profile, fee=cost, balance=left)
        return _write(LetterKind.CANCELLATION, sitting, text, profile, by=by, method=invitations.CANCEL)


def _withdraw(sitting: Sitting, kinds: Sequence[str]) -> None:
    """Letters that wait and are not true any more. One that is being sent just now is left to its sender."""
    Letter.objects.waiting().filter(sitting=sitting, kind__in=kinds, lease="").update(
        state=Letter.State.WITHDRAWN, last_error=_("A later letter or change took its place.")
    )


def _write(
    kind: str, sitting: Sitting, text: correspondence.Text, profile: Profile, *, by: Member | None, method: str
) -> Letter:
    return letters.write(
        sitting=sitting,
        kind=kind,
        to=sitting.client.email,
        subject=text.subject,
        body=text.body,
        attachments=_invitation(sitting, profile, method),
        by=by,
    )


def _invitation(sitting: Sitting, profile: Profile, method: str) -> list[Enclosed]:
    guest = Party(sitting.client.name, sitting.client.email)
    if not _has_both_ends(guest, profile):
        return []
    one = _kept(sitting, _happening(sitting, profile), method)
    return enclose(one, f"{sitting.number}.ics", guest, profile, method) if one is not None else []


def _has_both_ends(guest: Party, profile: Profile) -> bool:
    return bool(guest.email and _host(profile).email)


def enclose(one: Happening, name: str, guest: Party, profile: Profile, method: str) -> list[Enclosed]:
    """For a guest with an address, from a studio with one: an invitation needs both ends."""
    if not _has_both_ends(guest, profile):
        return []
    made = invitations.invitation(one, method=method, zone=profile.zone, host=_host(profile), guest=guest)
    return [Enclosed(name, f'text/calendar; method={method}; charset="utf-8"', made)]


def _host(profile: Profile) -> Party:
    return Party(profile.studio_name, parseaddr(outbox.sender(profile))[1])


def _happening(sitting: Sitting, profile: Profile) -> Happening:
    words = [sitting.number, sitting.kind.name, profile.telephone, profile.way_in.strip()]
    return Happening(
        uid="",
        starts_at=sitting.starts_at,
        ends_at=sitting.ends_at,
        summary=_("Sitting at %(studio)s") % {"studio": profile.studio_name},
        place=correspondence.place_line(sitting.room, profile),
        words="\n".join(word for word in words if word),
    )


def _kept(sitting: Sitting, one: Happening, method: str) -> Happening | None:
    """The event under its own number, counted up where it says something else; None to cancel what was never sent."""
    now, said = clock.now(), one.digest if method == invitations.REQUEST else invitations.CANCEL
    kept = Invitation.objects.select_for_update().filter(sitting=sitting).first()
    if kept is None:
        if method == invitations.CANCEL:
            return None
        kept = Invitation.objects.create(sitting=sitting, uid=f"{secrets.token_hex(16)}@tenthstop", said=said, at=now)
    elif kept.said != said:
        kept.sequence, kept.said, kept.at = kept.sequence + 1, said, now
        kept.save()
    return Happening(**(vars(one) | {"uid": kept.uid, "sequence": kept.sequence, "stamp": kept.at}))
