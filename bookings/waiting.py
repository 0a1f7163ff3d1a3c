"""What is waited for. Belongs here: everything that was promised and has a day, on one list by whose move it is. Not
here: each kind of promise by itself (`promises`, `afterwards`, `rebooking`)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from django.urls import reverse
from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from bookings import afterwards, promises, rebooking, stages, wording
from bookings.clocks import CLIENT, STUDIO
from bookings.models import Complaint, Sitting
from studio import clock


@dataclass(frozen=True)
class Due:
    """One line: by when, whose move, what, and where it is done."""

    on: date
    whose: str
    name: str
    words: str
    url: str
    reason_missing: bool = False

    @property
    def says_its_day(self) -> bool:
        """Whether the words name the day: then it is not said before them as well."""
        return wording.date(self.on) in self.words


@dataclass(frozen=True)
class Waiting:
    today: date
    studio: list[Due]
    client: list[Due]
    asked_back: list[rebooking.Prompt]
    late: int


def everything(today: date) -> Waiting:
    """In the zone in force, the first due first."""
    found = [*_holds(), *_trusts(today), *_deliveries(today), *_left_standing(today), *_complaints()]
    rows = sorted(found, key=lambda one: one.on)
    return Waiting(
        today,
        studio=[one for one in rows if one.whose == STUDIO],
        client=[one for one in rows if one.whose == CLIENT],
        asked_back=[one for one in rebooking.due(today) if one.answer is None],
        late=sum(one.reason_missing for one in rows),
    )


def _holds() -> Iterator[Due]:
    for one in promises.held():
        hold = one.sitting.hold
        if not hold.waits:
            whose = STUDIO if hold.to_offer or hold.expires_at <= clock.now() else CLIENT
            on = timezone.localtime(hold.expires_at).date()
            yield Due(on, whose, _name(one.sitting), one.sentence, _url(one.sitting.number))


def _trusts(today: date) -> Iterator[Due]:
    for one in promises.on_trust(today):
        words = _("Deposit on trust. %(says)s.") % {"says": capfirst(one.deposit.words)}
        yield Due(one.sitting.trust.until, CLIENT, _name(one.sitting), words, _url(one.sitting.number) + "#money")


def _deliveries(today: date) -> Iterator[Due]:
    found = afterwards.waiting()
    for one in found:
        afterwards.keep(one.sitting, one)
        url = _url(one.sitting.number) + "#afterwards"
        yield Due(
            one.due_on or today, one.whose, _name(one.sitting), stages.sentence(one.sitting), url,
            reason_missing=one.is_late and one.reason is None,
        )  # fmt: skip


def _left_standing(today: date) -> Iterator[Due]:
    """Sittings of former days that are still said to come: until a person says more, no clock of theirs runs."""
    for row in Sitting.objects.left_standing(today).select_related("client", "hold", "trust"):
        on = timezone.localtime(row.starts_at).date()
        yield Due(on, STUDIO, _name(row), stages.sentence(row), _url(row.number))


def _complaints() -> Iterator[Due]:
    for one in Complaint.objects.still_open().with_names().by_due_day():
        words = _("Complaint (%(cause)s). %(who)s's move: settle it.") % {
            "cause": one.get_cause_display(), "who": one.keeper.name
        }  # fmt: skip
        yield Due(one.due_on, STUDIO, one.client.name, words, reverse("complaint", args=[one.pk]))


def _name(sitting: Sitting) -> str:
    return f"{sitting.number}, {sitting.client.short_name}"


def _url(number: str) -> str:
    return reverse("sitting", args=[number])
