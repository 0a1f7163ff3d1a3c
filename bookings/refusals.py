"""Refusals. Belongs here: every reason an action says no, each with a sentence fit to show. Not here: deciding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, tzinfo
from decimal import Decimal

from django.utils.translation import gettext as _

from bookings import wording
from bookings.models import Claim, ResourceKind, Sitting, Stage
from bookings.objections import Objection
from studio.models import Profile


class Refusal(Exception):
    """An action that was not done; nothing was written. `str()` says why and what would help."""


@dataclass(frozen=True)
class Resource:
    """One thing that can be held."""

    kind: str
    id: int
    name: str

    def __str__(self) -> str:
        """As the subject of a sentence: people by name, things with their article."""
        if self.kind == ResourceKind.MEMBER or self.name.startswith("The "):
            return self.name
        return _("The %(name)s") % {"name": self.name}


class Taken(Refusal):
    """Something is held by another sitting then. `next_free` is when that thing is free for as long as it is needed,
    `next_start` when the whole sitting could start with everything it asks for."""

    def __init__(
        self,
        resource: Resource,
        held_by: Claim,
        next_free: datetime,
        *,
        next_start: datetime,
        asked: datetime,
        zone: tzinfo,
    ) -> None:
        self.resource, self.held_by = resource, held_by
        self.next_free, self.next_start = next_free, next_start
        sitting = held_by.sitting
        super().__init__(
            _("%(thing)s is held by %(number)s, %(client)s, from %(start)s to %(end)s. Next free: %(next)s.")
            % {
                "thing": resource,
                "number": sitting.number,
                "client": sitting.client.short_name,
                "start": wording.moment_near(held_by.starts_at, asked, zone),
                "end": wording.moment_near(held_by.ends_at, held_by.starts_at, zone),
                "next": wording.moment_near(next_free, asked, zone),
            }
        )


class SamePerson(Refusal):
    def __init__(self, name: str) -> None:
        super().__init__(
            _("%(name)s is the photographer of this sitting and cannot be its assistant too.") % {"name": name}
            + " "
            + _("Choose another assistant, or none.")
        )


class NotInUse(Refusal):
    """A room, a person or a piece of kit that cannot be held any more."""

    def __init__(self, resource: Resource) -> None:
        self.resource = resource
        super().__init__(_("%(thing)s is not in use any more. Choose another.") % {"thing": resource})


class WrongPeople(Refusal):
    """No sitters, too many, or two of one short name."""


class WrongStage(Refusal):
    def __init__(self, sitting: Sitting, to: str) -> None:
        super().__init__(
            _("%(number)s is %(now)s; from there it cannot become %(to)s.")
            % {"number": sitting.number, "now": sitting.get_stage_display(), "to": Stage(to).label}
            + " "
            + _("Nothing was changed; its page says what it can become.")
        )


class TooLate(Refusal):
    """The sitting is over or off: what it was stays as it was."""

    def __init__(self, sitting: Sitting) -> None:
        super().__init__(
            _("%(number)s is %(now)s: its time, place and people stay as they were.")
            % {"number": sitting.number, "now": sitting.get_stage_display()}
            + " "
            + _("For another time, book a new sitting.")
        )


class StillNeeded(Refusal):
    """A person who cannot be taken out yet: `label`, and where else the name stands."""

    def __init__(self, label: str, where: str) -> None:
        self.label = label
        super().__init__(
            _("%(name)s is named in %(where)s and cannot be taken out before that is changed.")
            % {"name": label, "where": where}
        )


class NoteNeeded(Refusal):
    def __init__(self) -> None:
        super().__init__(_("Say why in the note: somebody will ask."))


class MovedMeanwhile(Refusal):
    def __init__(self, sitting: Sitting) -> None:
        super().__init__(
            _("Somebody else changed %(number)s while you had it open: it is %(now)s now. Look again, then choose.")
            % {"number": sitting.number, "now": sitting.get_stage_display()}
        )


class Objected(Refusal):
    """Something speaks against that time: `objections`, each to be acknowledged by its code or met."""

    def __init__(self, objections: Sequence[Objection]) -> None:
        self.objections = list(objections)
        super().__init__(" ".join(one.sentence for one in objections))


class Waiting(Refusal):
    """A second hold has nothing to confirm yet."""

    def __init__(self, sitting: Sitting, first: Sitting) -> None:
        super().__init__(
            _("%(number)s waits behind %(first)s, %(client)s, and moves up once that is given up.")
            % {"number": sitting.number, "first": first.number, "client": first.client.short_name}
        )


class NotHeld(Refusal):
    """There is no hold whose end could be changed."""

    def __init__(self, sitting: Sitting) -> None:
        super().__init__(
            _("%(number)s is %(now)s: it has no hold.")
            % {"number": sitting.number, "now": sitting.get_stage_display()}
            + " "
            + _("Nothing was changed; its page says where it stands.")
        )


class WrongEnd(Refusal):
    """A hold that would end before now or after the set-up begins."""


class DepositMissing(Refusal):
    """`missing` is what was not paid yet of the deposit."""

    def __init__(self, sitting: Sitting, missing: Decimal) -> None:
        self.missing = missing
        super().__init__(
            _("%(amount)s of the deposit is missing: take it, trust until a day, or have the owner waive it.")
            % {"amount": wording.money(missing, sitting.currency)}
        )


class NothingMissing(Refusal):
    """No deposit is waited for, or the sitting is not firm."""

    def __init__(self, sitting: Sitting) -> None:
        super().__init__(
            _("No deposit of %(number)s is waited for any more: nothing needs to be done.") % {"number": sitting.number}
        )


class OwnerOnly(Refusal):
    def __init__(self) -> None:
        super().__init__(_("Only an owner may waive the deposit. Ask the owner, take it, or trust until a day."))


class WrongTrust(Refusal):
    """A day that is over, or after the sitting."""

    def __init__(self) -> None:
        super().__init__(_("Trust can last from today until the day of the sitting."))


class FeeToAgree(Refusal):
    """By the terms of this booking the step costs `fee`: it must be agreed before it is done."""

    def __init__(self, what: str, fee: Decimal, currency: str) -> None:
        self.what, self.fee = what, fee
        super().__init__(
            _("By the terms of this booking this costs %(fee)s (%(what)s). Agree it, or another fee with a note.")
            % {"fee": wording.money(fee, currency), "what": what}
        )


class FeeNeedsNote(Refusal):
    def __init__(self, fee: Decimal, currency: str) -> None:
        self.fee = fee
        super().__init__(
            _("By the terms of this booking it is %(fee)s. Say in the note why another fee was agreed.")
            % {"fee": wording.money(fee, currency)}
        )


class TooEarly(Refusal):
    """Not yet a no-show by the terms of that booking."""

    def __init__(self, at: datetime) -> None:
        super().__init__(
            _("By the terms of this booking nobody is a no-show before %(moment)s.")
            % {"moment": wording.moment_in_full(at, Profile.get().zone)}
        )


class WrongAmount(Refusal):
    """Money that cannot be taken or refunded."""


class CorrectedAlready(Refusal):
    def __init__(self, receipt: str) -> None:
        super().__init__(
            _("%(receipt)s has its counter-entry already: nothing was entered a second time.") % {"receipt": receipt}
        )


class WrongSignature(Refusal):
    """Nobody chosen, or a name that cannot sign for them: `field` of the form is where it shows."""

    def __init__(self, field: str, sentence: str) -> None:
        self.field = field
        super().__init__(sentence)


class AnsweredMeanwhile(Refusal):
    """Somebody else recorded an answer, a signature or a waiver in the meantime."""

    def __init__(self, names: str) -> None:
        super().__init__(
            _("Somebody else recorded something about %(names)s while you had it open. Look again, then choose.")
            % {"names": names}
        )


class NotWaiting(Refusal):
    """Nothing is waited for before a sitting is photographed or once it is delivered."""

    def __init__(self, sitting: Sitting) -> None:
        super().__init__(
            _("%(number)s is %(now)s: nothing is waited for between the sitting and its delivery.")
            % {"number": sitting.number, "now": sitting.get_stage_display()}
            + " "
            + _("Nothing was changed.")
        )


class WaitsAlready(Refusal):
    def __init__(self, sitting: Sitting, what: str) -> None:
        super().__init__(
            _("%(number)s waits for that already: %(what)s. Nothing was entered a second time.")
            % {"number": sitting.number, "what": what}
        )


class StillOpen(Refusal):
    """A complaint is closed with what was done about it."""

    def __init__(self) -> None:
        super().__init__(_("Say in “remedy” what was done about it: that is what closes it."))


class CardChanged(Refusal):
    """A card that was opened, closed or changed by somebody else in the meantime."""

    def __init__(self) -> None:
        super().__init__(_("Somebody else changed this card while you had it open. Look again, then choose."))


class AskedAlready(Refusal):
    """One invitation a year: `AskedBack` says which."""

    def __init__(self, client: str, year: int, what: str) -> None:
        super().__init__(
            _("%(client)s: %(what)s for %(year)d already. Nobody is asked twice in a year.")
            % {"client": client, "what": what, "year": year}
        )


class NotToBeAsked(Refusal):
    """Somebody who does not want to be asked, or cannot be reached by letter."""


class NotAReshoot(Refusal):
    """A sitting cannot take that one again."""


class NotToOffer(Refusal):
    """A time that is not free any more, or a client who does not wait for it."""

    def __init__(self, client: str) -> None:
        super().__init__(
            _("Not offered: that time is not free any more, or %(client)s does not wait for it now.")
            % {"client": client}
            + " "
            + _("Look at the list again.")
        )
