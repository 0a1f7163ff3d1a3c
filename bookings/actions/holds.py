"""Holds. Belongs here: placing a hold, letting it lapse, and moving up who waits behind it. Not here: what is claimed
(`claims`), confirming (`sittings`).

A queue is changed by one at a time: whoever gives up a time, or asks to stand behind one, first takes `alone()`, then
the rows of sittings, then the things that are held, then running numbers. Whoever keeps to that order never embraces.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import Exists, Max, OuterRef, Q
from django.utils.translation import gettext as _

from bookings import accounts, prices, wording
from bookings.actions import claims
from bookings.actions.claims import Wanted
from bookings.models import Hold, NumberSeries, Sitting, SittingChange, Stage, StageChange
from bookings.refusals import MovedMeanwhile, NotHeld, NotInUse, Taken, WrongEnd
from studio import clock
from studio.models import Member, Profile


def alone() -> None:
    """Wait until nobody else changes a queue; given back with the transaction."""
    NumberSeries.objects.get_or_create(name="queue")
    NumberSeries.objects.select_for_update().get(name="queue")


def of(sitting: Sitting) -> Hold | None:
    """No query where the sitting was read `with_people`."""
    return getattr(sitting, "hold", None)


def place(sitting: Sitting, *, by: Member, behind: Sitting | None = None) -> Hold:
    """Give a sitting its hold: the first, or the last of those who wait behind another."""
    now = clock.now()
    return Hold.objects.create(
        sitting=sitting,
        place=1 if behind is None else _last_place(behind) + 1,
        behind=behind,
        expires_at=_end(sitting, now) if behind is None else _last_moment(sitting, now),
        placed_at=now,
        by=by,
    )


def take_up(sitting: Sitting, *, by: Member) -> None:
    """Hold an enquiry's time again. Refuses with `Taken`, `NotInUse`."""
    claims.hold(sitting=sitting, wanted=claims.of_itself(sitting))
    place(sitting, by=by)


def release_lapsed(
    now: datetime, *, touching: Sequence[Wanted] | None = None, but: Sitting | None = None
) -> list[str]:
    """Release every hold that has lapsed, or those alone that stand in the way of what is wanted for the sitting
    `but`, and move up who waits behind. Each in a transaction of its own, for it is right whatever comes of the
    booking that met it. Returns the sittings' numbers."""
    lapsed = Hold.objects.lapsed(now).exclude(sitting=but)
    if touching is not None:
        lapsed = lapsed.filter(Exists(claims.who_holds(touching).filter(sitting=OuterRef("sitting"))))
    return [number for pk in lapsed.values_list("sitting_id", flat=True) for number in _release(pk, now)]


@transaction.atomic
def _release(pk: int, now: datetime) -> list[str]:
    alone()
    kept, queue = lock_with_queue(pk)
    hold = of(kept)
    if hold is None or hold.expires_at > now or _is_paid_for(kept):
        return []
    _lapse(kept, now)
    if hold.behind is None:
        give_up(kept, queue, now)
    else:
        close_up(hold.behind)
    return [kept.number]


def lock_with_queue(pk: int) -> tuple[Sitting, list[Sitting]]:
    """A sitting and those who wait behind it, locked and in order."""
    rows = Sitting.objects.with_people().filter(Q(pk=pk) | Q(hold__behind=pk))
    found = {row.pk: row for row in rows.select_for_update(of=("self",)).order_by("pk")}
    kept = found.pop(pk)
    return kept, sorted(found.values(), key=lambda waiting: waiting.hold.place)


def give_up(left: Sitting, queue: Sequence[Sitting], now: datetime) -> None:
    """Free everything a sitting holds and move up who waits behind it."""
    held = claims.held_by(left)
    claims.lock_rows([*held, *(want for row in queue for want in claims.of_itself(row))])
    claims.give_up(left)
    move_up(queue, now)


def move_up(queue: Sequence[Sitting], now: datetime) -> None:
    """Each in turn takes the time if it is free now, and else stands behind whoever has it."""
    Hold.objects.filter(sitting__in=queue).update(place=1, behind=None)  # so that they line up anew, in their order
    for waiting in queue:
        if waiting.hold.expires_at <= now and not _is_paid_for(waiting):
            _lapse(waiting, now)
            continue
        try:
            claims.hold(sitting=waiting, wanted=claims.of_itself(waiting))
        except Taken as taken:
            _stand_behind(waiting, taken.held_by.sitting)
        except NotInUse as refusal:
            _lapse(waiting, now, str(refusal))
        else:
            _lead(waiting, now)


def close_up(first: Sitting) -> None:
    """Those who wait behind a sitting, without a gap where one of them left."""
    for number, hold in enumerate(Hold.objects.filter(behind=first).order_by("place"), 2):
        if hold.place != number:
            Hold.objects.filter(pk=hold.pk).update(place=number)


def wait_no_longer(sitting: Sitting) -> None:
    """A sitting that waited has found a free time of its own."""
    hold, first = sitting.hold, sitting.hold.behind
    hold.place, hold.behind, hold.expires_at = 1, None, _end(sitting, clock.now())
    hold.save(update_fields=["place", "behind", "expires_at"])
    if first is not None:
        close_up(first)


def end_in_time(sitting: Sitting) -> None:
    """After a move: no hold outlasts the beginning of the set-up."""
    hold, last = of(sitting), _last_moment(sitting, clock.now())
    if hold is not None and hold.expires_at > last:
        hold.expires_at = last
        hold.save(update_fields=["expires_at"])


def end(sitting: Sitting) -> None:
    """A sitting that is confirmed or cancelled has no hold any more."""
    Hold.objects.filter(sitting=sitting).delete()


@transaction.atomic
def prolong(*, by: Member, sitting: Sitting, seen: int, expires_at: datetime, note: str = "") -> Hold:
    """Let a hold end at another moment. Refuses with `MovedMeanwhile`, `NotHeld`, `WrongEnd`."""
    kept, hold = _held(sitting, seen)
    now = clock.now()
    last = _last_moment(kept, now)
    if not now < expires_at <= last:
        raise WrongEnd(_("A hold can end from now until its set-up begins, %(last)s.") % {"last": _moment(last)})
    _note(kept, SittingChange.What.HOLD, by=by, before=_moment(hold.expires_at), after=_moment(expires_at), note=note)
    hold.expires_at, hold.note = expires_at, note.strip()
    hold.save(update_fields=["expires_at", "note"])
    return hold


@transaction.atomic
def told(*, by: Member, sitting: Sitting, seen: int) -> Hold:
    """The client of a hold that moved up knows it now. Refuses with `MovedMeanwhile`, `NotHeld`."""
    kept, hold = _held(sitting, seen)
    if hold.to_offer:
        _note(kept, SittingChange.What.PLACE, by=by, before=_("moved up"), after=_("the client was told"))
        hold.to_offer = False
        hold.save(update_fields=["to_offer"])
    return hold


def _held(sitting: Sitting, seen: int) -> tuple[Sitting, Hold]:
    kept = Sitting.objects.select_for_update(of=("self",)).with_people().get(pk=sitting.pk)
    if kept.version != seen:
        raise MovedMeanwhile(kept)
    hold = of(kept)
    if hold is None:
        raise NotHeld(kept)
    kept.version += 1
    kept.save(update_fields=["version"])
    return kept, hold


def _is_paid_for(sitting: Sitting) -> bool:
    """Whoever has paid the deposit is not let go by the clock."""
    return bool(sitting.deposit) and not accounts.of(sitting).deposit_missing


def _lapse(sitting: Sitting, now: datetime, why: str = "") -> None:
    """Back to an enquiry: the people and their wishes stay, the time does not."""
    why = why or _("the hold lapsed on %(moment)s") % {"moment": _moment(sitting.hold.expires_at)}
    end(sitting)
    before, sitting.stage = sitting.stage, Stage.ENQUIRY
    sitting.version += 1
    sitting.save(update_fields=["stage", "version"])
    StageChange.objects.create(sitting=sitting, at=now, stage_from=before, stage_to=sitting.stage, note=why)


def _lead(sitting: Sitting, now: datetime) -> None:
    hold, first = sitting.hold, sitting.hold.behind
    _note(sitting, SittingChange.What.PLACE, before=str(hold.place), after="1", note=_after(first))
    hold.place, hold.behind, hold.to_offer = 1, None, True
    hold.expires_at = _end(sitting, now)
    hold.save(update_fields=["place", "behind", "to_offer", "expires_at"])


def _stand_behind(sitting: Sitting, first: Sitting) -> None:
    """At the end of that queue."""
    hold, last = sitting.hold, _last_place(first) + 1
    if (hold.place, hold.behind_id) != (last, first.pk):
        after = _("%(place)d, behind %(number)s") % {"place": last, "number": first.number}
        _note(sitting, SittingChange.What.PLACE, before=str(hold.place), after=after)
    hold.place, hold.behind = last, first
    hold.save(update_fields=["place", "behind"])


def _last_place(first: Sitting) -> int:
    """The last place taken in a queue: 1 where nobody waits."""
    return Hold.objects.filter(behind=first).aggregate(last=Max("place"))["last"] or 1


def _end(sitting: Sitting, now: datetime) -> datetime:
    """When a first hold lapses by the terms of its booking, at the latest where its set-up begins."""
    terms = sitting.agreed
    hours = terms.hold_hours if terms else prices.HOLD_HOURS
    return min(now + timedelta(hours=hours), _last_moment(sitting, now))


def _last_moment(sitting: Sitting, now: datetime) -> datetime:
    """Where the set-up begins; for somebody who walked in, or was written down afterwards, a day from now."""
    start = sitting.setup_starts_at
    return start if start > now else now + timedelta(days=1)


def _moment(at: datetime) -> str:
    return wording.moment_in_full(at, Profile.get().zone)


def _after(first: Sitting | None) -> str:
    return _("%(number)s gave the time up") % {"number": first.number} if first else ""


def _note(
    sitting: Sitting, what: str, *, before: str, after: str, by: Member | None = None, note: str = ""
) -> SittingChange:
    return SittingChange.objects.create(
        sitting=sitting, at=clock.now(), by=by, what=what, before=before, after=after, note=note.strip()
    )
