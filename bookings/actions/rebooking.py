"""Asking clients back. Belongs here: inviting one, leaving one for a year or for good, and the day of an occasion,
each in one transaction. Not here: who is due (`bookings.rebooking`)."""

from __future__ import annotations

from datetime import date

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import correspondence, rebooking, wording
from bookings.actions import letters
from bookings.models import AskedBack, Client, LetterKind, Sitting, SittingChange
from bookings.rebooking import Prompt
from bookings.refusals import AskedAlready, MovedMeanwhile, NotToBeAsked
from studio import clock
from studio.languages import as_house
from studio.models import Member, Profile

What = AskedBack.What


@transaction.atomic
def invite(*, by: Member, client: Client, by_letter: bool) -> AskedBack:
    """Invite a client back for the year that is due, once: by a letter, or kept as said on the telephone.

    Refuses with `NotToBeAsked`, `AskedAlready`.
    """
    prompt = _due(client)
    if by_letter and not prompt.client.email:
        raise NotToBeAsked(_("%(client)s has no e-mail: ring instead.") % {"client": prompt.client.short_name})
    answer = _answer(prompt, What.INVITED, by)
    if by_letter:
        profile = Profile.get()
        with as_house(profile):
            text = correspondence.compose(
                LetterKind.INVITATION, prompt.sitting, profile, more=rebooking.blanks_of(prompt)
            )
        letters.write(
            client=prompt.client,
            kind=LetterKind.INVITATION,
            to=prompt.client.email,
            subject=text.subject,
            body=text.body,
            by=by,
            once_key=f"rebook {prompt.client.pk} {prompt.on.year}",
        )
    return answer


@transaction.atomic
def leave(*, by: Member, client: Client) -> AskedBack:
    """Do not ask in the year that is due. Refuses with `NotToBeAsked`, `AskedAlready`."""
    return _answer(_due(client), What.LEFT, by)


@transaction.atomic
def never_again(*, client: Client) -> None:
    """Never ask again; the client's page can take it back."""
    kept = Client.objects.select_for_update().get(pk=client.pk)
    if not kept.not_again:
        kept.not_again = True
        kept.version += 1
        kept.save(update_fields=["not_again", "version"])


@transaction.atomic
def keep_occasion(*, by: Member, sitting: Sitting, day: date | None, seen: int) -> Sitting:
    """The day of the occasion, such as a wedding: it comes round every year. Refuses with `MovedMeanwhile`."""
    kept = Sitting.objects.select_for_update().get(pk=sitting.pk)
    if kept.version != seen:
        raise MovedMeanwhile(kept)
    before, after = (wording.date(one) if one else "" for one in (kept.occasion_on, day))
    if before != after:
        kept.occasion_on = day
        kept.version += 1
        kept.save(update_fields=["occasion_on", "version"])
        SittingChange.objects.create(
            sitting=kept, at=clock.now(), by=by, what=SittingChange.What.OCCASION, before=before, after=after
        )
    return kept


def _due(client: Client) -> Prompt:
    """Read under the client's lock, so that two who tap at once ask once."""
    kept = Client.objects.select_for_update().get(pk=client.pk)
    if kept.not_again:
        raise NotToBeAsked(_("%(client)s does not want to be invited again.") % {"client": kept.short_name})
    found = rebooking.due(timezone.localdate(clock.now()), client=kept)
    if not found:
        raise NotToBeAsked(_("%(client)s is not to be asked just now.") % {"client": kept.short_name})
    return found[0]


def _answer(prompt: Prompt, what: str, by: Member) -> AskedBack:
    if prompt.answer is not None:
        words = str(What(prompt.answer.what).label)
        raise AskedAlready(prompt.client.short_name, prompt.answer.year, words)
    return AskedBack.objects.create(client=prompt.client, year=prompt.on.year, what=what, at=clock.now(), by=by)
