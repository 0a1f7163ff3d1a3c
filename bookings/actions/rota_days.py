"""The day of a rota. Belongs here: taps on the board, taking them back, walk-ins, and a make-up date for those who did
not come. Every tap waits for the one before it; two at once on one name come to the same. Not here: the list (`rotas`),
what the board says (`bookings.rota_board`)."""

from __future__ import annotations

import uuid
from collections.abc import Collection
from datetime import datetime, timedelta
from math import ceil
from typing import Any

from django.db import transaction
from django.db.models import F, Max
from django.utils.dateparse import parse_datetime
from django.utils.translation import gettext as _

from bookings import wording
from bookings.actions import comfort, rotas, sittings
from bookings.actions.changes import KeptPerson
from bookings.actions.sittings import SitterInput
from bookings.models import Notes, Place, PlaceChange, Rota, Sitter, Sitting, State
from bookings.models.rotas import TO_COME
from bookings.name_list import LONGEST_NAME, Line
from bookings.rota_refusals import MarkedMeanwhile, NothingToUndo, WrongName
from studio import clock
from studio.models import Member, Profile
from studio.models.kit import plain_label
from studio.models.versions import Stale

NEXT = "next"  # pulled forward: the one to come next
KEPT = ("state", "queue", "on_set_at", "done_at")
MINUTE = timedelta(minutes=1)
MINUTES_OF_A_DAY = 24 * 60
AS_MANY_AS_COME = ("too_short", "no_gap")  # objections: the minutes a place takes are the rota's own
TRIES = 4


@transaction.atomic
def mark(*, by: Member, place: Place, to: str, seen: int) -> Place:
    """What became of one place, as the board showed it at version `seen`. Whoever is on set when the next one is put
    there is done. The same tap from two devices is one tap.

    Refuses with `MarkedMeanwhile`.
    """
    kept = _locked(place)
    if to == kept.state or (to == NEXT and _first(kept.rota) == kept):
        return kept
    if kept.version != seen:
        raise _meanwhile(kept)
    tap, now = uuid.uuid4(), clock.now()
    if to == State.ON_SET:
        for other in kept.rota.places.filter(state=State.ON_SET).select_for_update():
            if other.on_set_at and other.on_set_at > now:  # a tap that comes in late: somebody went on since
                raise _meanwhile(other)
            _change(other, State.DONE, by=by, tap=tap, now=now)
    _change(kept, to, by=by, tap=tap, now=now)
    _tell(kept.rota_id)
    return kept


@transaction.atomic
def undo(*, by: Member, rota: Rota, tap: uuid.UUID) -> list[Place]:
    """Take back the last tap that is not taken back yet, all it did. Refuses with `NothingToUndo`."""
    Rota.objects.select_for_update().get(pk=rota.pk)
    last = rota.last_tap()
    if last is None or last.tap != tap:
        raise NothingToUndo
    found = []
    for change in PlaceChange.objects.filter(tap=tap).select_related("place"):
        place = change.place
        for name in KEPT:
            value = change.before[name]
            setattr(place, name, parse_datetime(value) if name.endswith("_at") and value else value)
        place.version += 1
        place.save()
        found.append(place)
    PlaceChange.objects.filter(tap=tap).update(undone_at=clock.now())
    _tell(rota.pk)
    return found


def walk_in(*, by: Member, rota: Rota, name: str) -> Place:
    """Somebody who was on no list: a place at the end, a seat in the sitting.

    Refuses with `WrongName` and what changing the sitting refuses with.
    """
    name = " ".join(name.split())
    if not name:
        raise WrongName(_("Write the name of the walk-in."))
    if len(name) > LONGEST_NAME:
        raise WrongName(_("A name on the board has %(most)d letters at most.") % {"most": LONGEST_NAME})
    if not plain_label.regex.match(name):  # type: ignore[union-attr]
        raise WrongName(str(plain_label.message))
    for tries in range(TRIES):  # somebody else may change the sitting at that moment: then once more
        try:
            return _seat_walk_in(by, rota, name)
        except Stale:
            if tries == TRIES - 1:
                raise
    raise AssertionError("unreachable")


@transaction.atomic
def _seat_walk_in(by: Member, rota: Rota, name: str) -> Place:
    sitting = Sitting.objects.get(pk=rota.sitting_id)
    labels = {label.casefold() for label in sitting.sitters.values_list("label", flat=True)}
    if name.casefold() in labels:
        raise WrongName(_("%(name)s is in this sitting already. Add a letter or a second name.") % {"name": name})
    person = KeptPerson(None, SitterInput(name))
    rotas.change_people(by=by, sitting=sitting, people=[person], acknowledged=AS_MANY_AS_COME)
    kept = Rota.objects.select_for_update().select_related("sitting").get(pk=rota.pk)
    ends = kept.places.aggregate(number=Max("number"), queue=Max("queue"), after=Max("after"))
    since = ceil((clock.now() - kept.sitting.starts_at) / MINUTE)
    since = since if since < MINUTES_OF_A_DAY else 0  # on another day the clock says nothing about it
    after = max(kept.place_minutes + (-kept.place_minutes if ends["after"] is None else ends["after"]), since, 0)
    place = Place.objects.create(
        rota=kept, sitter=Sitter.objects.get(sitting=sitting, label=name), walk_in=True,
        number=(ends["number"] or 0) + 1, queue=(ends["queue"] or 0) + 1, after=after,
    )  # fmt: skip
    _tell(kept.pk)
    return place


@transaction.atomic
def make_up(*, by: Member, rota: Rota, starts_at: datetime, acknowledged: Collection[str] = ()) -> Sitting:
    """Another sitting of the same kind for those who were absent or are to be taken again, with places of its own;
    what is known of them goes along unread.

    Refuses with `WrongName` where there is nobody, and with what booking refuses with.
    """
    first = Sitting.objects.with_people().get(pk=rota.sitting_id)
    missing = list(still_to_photograph(rota))
    if not missing:
        raise WrongName(_("Nobody is absent or to be taken again."))
    acknowledged = [*acknowledged, *AS_MANY_AS_COME]
    sitting = sittings.book(
        by=by, client=first.client, kind=first.kind, room=first.room, photographer=first.photographer,
        assistant=first.assistant, starts_at=starts_at, minutes=max(rota.place_minutes * len(missing), 5),
        setup_minutes=first.setup_minutes, strike_minutes=first.strike_minutes, purpose=first.purpose,
        print_width_cm=first.print_width_cm, sitters=[_again(place.sitter) for place in missing],
        acknowledged=acknowledged,
    )  # fmt: skip
    same = {name: getattr(rota, name) for name in rotas.SETTINGS if name not in ("lunch_at", "keeps_list_order")}
    lines = [Line(n, place.sitter.label, place.email) for n, place in enumerate(missing, 1)]
    rotas.keep(by=by, sitting=sitting, seen=0, lines=lines, settings=Rota(**same), acknowledged=acknowledged)
    return sitting


def still_to_photograph(rota: Rota) -> Any:
    """Places whose people need another date."""
    wanted = (State.ABSENT, State.RETAKE)
    return rota.places.filter(state__in=wanted).select_related("sitter__notes").order_by("number")


def _again(sitter: Sitter) -> SitterInput:
    notes = getattr(sitter, "notes", None)
    known = {} if notes is None else {name: getattr(notes, name) for name in Notes.names()}
    wishes = [{"note": one.note, "side": one.side, "wish": one.wish} for one in sitter.wishes.all()]
    return SitterInput(
        sitter.label, age_years=sitter.age_years, height_cm=sitter.height_cm, posture=sitter.posture or "",
        relation=sitter.relation, notes=comfort.said(known), wishes=wishes,
    )  # fmt: skip


def _locked(place: Place) -> Place:
    Rota.objects.select_for_update().get(pk=place.rota_id)
    return Place.objects.select_related("rota__sitting", "sitter").get(pk=place.pk)


def _first(rota: Rota) -> Place | None:
    return rota.places.filter(state__in=TO_COME).order_by("queue", "number").first()


def _change(place: Place, to: str, *, by: Member, tap: uuid.UUID, now: datetime) -> None:
    before = {name: getattr(place, name) for name in KEPT}
    before |= {name: before[name].isoformat() for name in ("on_set_at", "done_at") if before[name]}
    if to == NEXT:
        first = _first(place.rota)
        place.state = State.WAITING if place.state == State.ABSENT else place.state
        place.queue = (first.queue if first else place.queue) - 1
    else:
        place.state = to
    if to == State.RETAKE:
        place.queue = place.rota.places.aggregate(last=Max("queue"))["last"] + 1
    if to == State.ON_SET:
        place.on_set_at, place.done_at = now, None
    elif to in (State.DONE, State.RETAKE) and place.on_set_at and place.done_at is None:
        place.done_at = now
    elif to in (State.WAITING, State.ABSENT):
        place.on_set_at = place.done_at = None
    place.version += 1
    place.save()
    PlaceChange.objects.create(place=place, tap=tap, at=now, by=by, what=to, before=before)


def _tell(pk: int) -> None:
    """The boards that ask for news get them."""
    Rota.objects.filter(pk=pk).update(version=F("version") + 1)


def _meanwhile(kept: Place) -> MarkedMeanwhile:
    last = kept.changes.select_related("by").order_by("-at", "-pk").first()
    by, at = (last.by.name, last.undone_at or last.at) if last else (_("somebody"), clock.now())
    return MarkedMeanwhile(
        kept.sitter.label, str(State(kept.state).label), by, wording.time(at, Profile.get().zone)
    )  # fmt: skip
