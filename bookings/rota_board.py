"""The board of a rota: who is on set, who is next, who waits and when it ends. Belongs here: reading it in a constant
number of queries, the same for the desk and the set. Not here: taps (`actions.rota_days`), the reckoning
(`rota_forecast`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.shortcuts import get_object_or_404
from django.utils import timezone

from bookings import access_needs, rota_forecast
from bookings.models import Place, PlaceChange, Rota, Sitter, Sitting, State
from bookings.models.rotas import TO_COME
from bookings.slots import Span

MINUTE = timedelta(minutes=1)


@dataclass(frozen=True)
class Row:
    """One person on the board; `begins` when they will probably sit, None where nothing can be said. `needs` are words
    for what to do, for those who may read notes."""

    place: Place
    begins: datetime | None = None
    late: int = 0
    needs: Sequence[str] = ()
    after_lunch: bool = False  # the first to come after it

    @property
    def name(self) -> str:
        return self.place.sitter.label

    @property
    def real(self) -> int | None:
        real = self.place.real_minutes
        return None if real is None else max(round(real), 1)


@dataclass(frozen=True)
class Board:
    """Everything the board says at one moment."""

    rota: Rota
    now: datetime
    on_set: Row | None
    queue: Sequence[Row]
    done: Sequence[Row]
    absent: Sequence[Row]
    unplaced: Sequence[Sitter]
    last: PlaceChange | None
    ends_at: datetime | None
    late: int
    lunch: Span | None
    is_today: bool

    @property
    def next(self) -> Row | None:
        return self.queue[0] if self.queue else None

    @property
    def then(self) -> Sequence[Row]:
        return self.queue[1:]

    @property
    def places(self) -> list[dict[str, object]]:
        """Everybody, for a device that has to go on without the network (`rota_offline.js`)."""
        rows = [*([self.on_set] if self.on_set else []), *self.queue, *self.done, *self.absent]
        return [
            {
                "pk": row.place.pk, "number": row.place.number, "name": row.name, "state": row.place.state,
                "version": row.place.version, "queue": row.place.queue, "needs": [str(one) for one in row.needs],
                "at": "" if row.place.walk_in else f"{timezone.localtime(row.place.starts_at):%H:%M}",
            }
            for row in rows
        ]  # fmt: skip

    @property
    def waiting(self) -> list[Row]:
        return [row for row in self.queue if row.late]

    @property
    def longest_wait(self) -> int:
        return max((row.late for row in self.queue), default=0)

    @property
    def retakes(self) -> list[Row]:
        return [row for row in self.queue if row.place.state == State.RETAKE]

    @property
    def ends_early(self) -> int:
        return -self.late


def found(number: str) -> Rota:
    """The rota of a sitting, with everything its page's head says."""
    rows = Rota.objects.select_related("sitting__client", "sitting__kind", "sitting__room")
    return get_object_or_404(rows, sitting__number=number)


def of_sittings(sittings: Iterable[Sitting]) -> list[Rota]:
    """The rotas among some sittings that have places, in the order of the day."""
    rows = Rota.objects.select_related("sitting__client", "sitting__kind", "sitting__room")
    return list(rows.filter(sitting__in=list(sittings), places__isnull=False).distinct().order_by("sitting__starts_at"))


def read(rota: Rota, now: datetime, *, with_needs: bool) -> Board:
    sitting = rota.sitting
    places = list(rota.places.in_turn().select_related("sitter__notes"))
    for place in places:
        place.rota = rota
    lunch = _lunch(rota)
    by_state = {state: [one for one in places if one.state == state] for state in State}
    on_set = by_state[State.ON_SET][0] if by_state[State.ON_SET] else None
    to_come = [one for one in places if one.state in TO_COME]
    is_today = timezone.localdate(sitting.starts_at) == timezone.localdate(now)
    stands = _stands(rota, to_come, on_set, now, lunch, places) if is_today else None
    seated = {place.sitter_id for place in places}
    ends_at = stands.ends_at if stands and (to_come or on_set) else None
    given = max((place.starts_at for place in places), default=sitting.starts_at) + rota.place_minutes * MINUTE
    return Board(
        rota=rota, now=now, is_today=is_today, lunch=lunch, last=rota.last_tap(),
        on_set=_row(on_set, with_needs) if on_set else None,
        queue=_queue(to_come, stands, lunch, with_needs),
        done=[_row(one) for one in sorted(by_state[State.DONE], key=_done_at, reverse=True)],
        absent=[_row(one) for one in by_state[State.ABSENT]],
        unplaced=[one for one in sitting.sitters.all() if one.pk not in seated],
        ends_at=ends_at,
        late=int((ends_at - given) / MINUTE) if ends_at else 0,
    )  # fmt: skip


def _lunch(rota: Rota) -> Span | None:
    start = rota.lunch_starts_at
    return None if start is None else Span(start, start + rota.lunch_minutes * MINUTE)


def _stands(
    rota: Rota, to_come: Sequence[Place], on_set: Place | None, now: datetime, lunch: Span | None,
    done: Sequence[Place],
) -> rota_forecast.Stands:  # fmt: skip
    queue = [_queued(place, lunch) for place in to_come]
    minutes = rota_forecast.pace(rota.real_minutes, [one.real_minutes for one in done if one.real_minutes is not None])
    since = on_set.on_set_at if on_set else None
    free_since = max((one.done_at for one in done if one.done_at), default=None)
    return rota_forecast.as_it_stands(
        queue, now=now, minutes=minutes, lunch=lunch, since=since, free_since=free_since
    )  # fmt: skip


def _queued(place: Place, lunch: Span | None) -> rota_forecast.Queued:
    """Whoever is taken again, or walked in, is there already: no time of theirs is waited for."""
    is_there = place.state == State.RETAKE or place.walk_in
    after_lunch = lunch is not None and place.starts_at >= lunch.ends_at
    return rota_forecast.Queued(None if is_there else place.starts_at, after_lunch)


def _queue(
    to_come: Sequence[Place], stands: rota_forecast.Stands | None, lunch: Span | None, with_needs: bool
) -> list[Row]:
    found: list[Row] = []
    lunch_said = lunch is None
    late = stands.late([_queued(place, lunch) for place in to_come]) if stands else [0] * len(to_come)
    for n, place in enumerate(to_come):
        after_lunch = not lunch_said and lunch is not None and place.starts_at >= lunch.ends_at
        lunch_said = lunch_said or after_lunch
        found.append(_row(place, with_needs, stands.starts[n] if stands else None, late[n], after_lunch))
    return found


def _row(
    place: Place, with_needs: bool = False, begins: datetime | None = None, late: int = 0, after_lunch: bool = False
) -> Row:
    return Row(place, begins, late, access_needs.of([place.sitter]) if with_needs else (), after_lunch)


def _done_at(place: Place) -> datetime:
    return place.done_at or place.starts_at
