"""Refusals of letters. Belongs here: why their actions say no, each with a sentence fit to show. Not here: deciding."""

from __future__ import annotations

from django.utils.translation import gettext as _

from bookings.models import Sitting
from bookings.refusals import Refusal


class SentAlready(Refusal):
    """A letter that is out, or is on its way just now."""

    def __init__(self, subject: str) -> None:
        super().__init__(
            _("“%(subject)s” is sent already, or on its way just now: it is not sent twice.") % {"subject": subject}
        )


class NothingToAnswer(Refusal):
    """A sitting that is not confirmed asks nobody whether they will be there."""

    def __init__(self, sitting: Sitting) -> None:
        super().__init__(
            _("%(number)s is %(now)s: nobody is asked whether they will be there.")
            % {"number": sitting.number, "now": sitting.get_stage_display()}
            + " "
            + _("Confirm it first.")
        )


class WordedMeanwhile(Refusal):
    def __init__(self) -> None:
        super().__init__(
            _("Somebody else saved this wording while you had it open. Yours is still here and nothing is saved yet:")
            + " "
            + _("look at what stands now, then save again if yours should stand.")
        )
