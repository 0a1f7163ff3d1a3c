"""The stages of a sitting. Belongs here: which may follow which, whose move each is and by when, as data and one
sentence. Not here: moving a sitting on (`actions.sittings`)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings import accounts, afterwards, clocks, wording
from bookings.afterwards import Afterwards
from bookings.models import Hold, Sitting, Stage
from studio import clock

FOLLOWS: dict[str, tuple[Stage, ...]] = {
    Stage.ENQUIRY: (Stage.HELD, Stage.CANCELLED),
    Stage.HELD: (Stage.CONFIRMED, Stage.CANCELLED),
    Stage.CONFIRMED: (Stage.ARRIVED, Stage.NO_SHOW, Stage.CANCELLED, Stage.HELD),
    Stage.ARRIVED: (Stage.PHOTOGRAPHED, Stage.CONFIRMED, Stage.CANCELLED),
    Stage.PHOTOGRAPHED: (Stage.CHOSEN, Stage.ARRIVED),
    Stage.CHOSEN: (Stage.DELIVERED, Stage.PHOTOGRAPHED),
    Stage.DELIVERED: (Stage.CLOSED, Stage.CHOSEN),
    Stage.CLOSED: (Stage.DELIVERED,),
    Stage.CANCELLED: (),  # what it held is given up: it is booked anew
    Stage.NO_SHOW: (Stage.ARRIVED, Stage.CLOSED),
}
# Until it is photographed a sitting's time, place and people may still be changed; then they are what was.
CHANGEABLE = (Stage.ENQUIRY, Stage.HELD, Stage.CONFIRMED, Stage.ARRIVED)
_ORDER = list(Stage)
CLOSE_WITHIN = timedelta(days=14)  # from delivery on; common practice, no source
PLACES = {2: gettext_lazy("Second"), 3: gettext_lazy("Third"), 4: gettext_lazy("Fourth"), 5: gettext_lazy("Fifth")}


def needs_a_note(before: str, after: str) -> bool:
    """A step back, a cancelling or a no-show is asked about later."""
    forward = _ORDER.index(Stage(after)) > _ORDER.index(Stage(before))
    return after in (Stage.CANCELLED, Stage.NO_SHOW) or (not forward and before != Stage.NO_SHOW)


@dataclass(frozen=True)
class Move:
    """Whose move it is. `due` counts from the start of the set-up; the spans are common practice, no source."""

    words: Any
    due: timedelta | None = None


MOVES: dict[str, Move] = {
    Stage.ENQUIRY: Move(gettext_lazy("Studio's move: offer a time by %(due)s."), timedelta(days=-14)),
    Stage.HELD: Move(gettext_lazy("Client's move: confirm by %(due)s."), timedelta(days=-2)),
    Stage.CONFIRMED: Move(gettext_lazy("Studio's move: plan the light and pack by %(due)s."), timedelta(0)),
    Stage.ARRIVED: Move(gettext_lazy("Studio's move: photograph until %(end)s.")),
    Stage.PHOTOGRAPHED: Move(gettext_lazy("Client's move: %(what)s by %(due)s.")),  # or as a person said (`afterwards`)
    Stage.CHOSEN: Move(gettext_lazy("Studio's move: %(what)s by %(due)s.")),
    Stage.DELIVERED: Move(gettext_lazy("Studio's move: close it by %(due)s.")),
    Stage.CLOSED: Move(gettext_lazy("Nobody's move.")),
    Stage.CANCELLED: Move(gettext_lazy("Nobody's move: what it held is free.")),
    Stage.NO_SHOW: Move(gettext_lazy("Studio's move: ring the client by %(due)s."), timedelta(days=1)),
}
# Where its time is over, set struck, and the stage still says that it is to come.
LEFT_STANDING: dict[str, Any] = {
    Stage.CONFIRMED: gettext_lazy("Its time is over. Studio's move: say whether they came."),
    Stage.ARRIVED: gettext_lazy("Its time is over. Studio's move: say that it is photographed."),
}


def due_at(sitting: Sitting) -> datetime | None:
    """By when the move is to be made; None where nothing is due, and after the sitting (`afterwards` knows the day)."""
    hold = _hold(sitting)
    if hold is not None:
        return hold.expires_at
    due = MOVES[sitting.stage].due
    return None if due is None else sitting.setup_starts_at + due


def sentence(sitting: Sitting) -> str:
    """The stage in one sentence with whose move it is, in the zone in force."""
    stage = str(sitting.get_stage_display()).capitalize()
    hold, trust = _hold(sitting), accounts.trust_of(sitting)
    if hold is not None:
        return _of_hold(sitting, hold)
    if sitting.stage == Stage.CONFIRMED and trust is not None and trust.until is not None:
        words = _("%(stage)s on trust. Client's move: pay the deposit of %(deposit)s by %(due)s.")
        due = wording.date(trust.until)
        return words % {"stage": stage, "deposit": wording.money(sitting.deposit, sitting.currency), "due": due}
    after = afterwards.of(sitting)
    if after is not None and sitting.stage != Stage.CLOSED:
        return _("%(stage)s. %(move)s") % {"stage": stage, "move": _after(after)}
    if sitting.stage in LEFT_STANDING and sitting.strike_ends_at <= clock.now():
        return _("%(stage)s. %(move)s") % {"stage": stage, "move": LEFT_STANDING[sitting.stage]}
    zone, due = timezone.get_current_timezone(), due_at(sitting)
    same_day = due is not None and MOVES[sitting.stage].due == timedelta(0)
    words = MOVES[sitting.stage].words % {
        "due": "" if due is None else wording.day(due, zone) + (f", {wording.time(due, zone)}" if same_day else ""),
        "end": wording.time(sitting.ends_at, zone),
    }
    return _("%(stage)s. %(move)s") % {"stage": stage, "move": words}


def _after(after: Afterwards) -> str:
    """The move by the clock that runs, with the note of whoever set it."""
    if not after.whose:
        return MOVES[Stage.DELIVERED].words % {"due": wording.day(after.turn.at + CLOSE_WITHIN, after.zone)}
    words = MOVES[Stage.PHOTOGRAPHED if after.whose == clocks.CLIENT else Stage.CHOSEN].words
    due = after.due_on
    said = words % {"what": after.what_words, "due": wording.date(due) if due else "-"}
    return f"{said} {capfirst(after.turn.note)}" if after.turn.note else said


def _hold(sitting: Sitting) -> Hold | None:
    """The hold of a held sitting; no query where it was read `with_people`."""
    return getattr(sitting, "hold", None) if sitting.stage == Stage.HELD else None


def _of_hold(sitting: Sitting, hold: Hold) -> str:
    zone = timezone.get_current_timezone()
    by = wording.moment_in_full(hold.expires_at, zone)
    if hold.behind is not None:
        words = _("%(place)s hold behind %(first)s, %(client)s. Nobody's move until that is given up.")
        place = PLACES.get(hold.place) or f"{hold.place}."
        return words % {"place": place, "first": hold.behind.number, "client": hold.behind.client.short_name}
    if hold.expires_at <= clock.now():
        return _("Held, but the hold lapsed on %(by)s. Studio's move: hold it longer or let it go.") % {"by": by}
    if hold.to_offer:
        return _("Held, moved up from behind. Studio's move: offer it to the client; it lapses on %(by)s.") % {"by": by}
    if sitting.deposit:
        words = _("Held. Client's move: pay the deposit of %(deposit)s by %(by)s.")
        return words % {"deposit": wording.money(sitting.deposit, sitting.currency), "by": by}
    return _("Held. Client's move: confirm by %(by)s.") % {"by": by}
