"""How long set-up and strike really took, by kind of sitting. Belongs here: reading it out of the taps on set. Not
here: the sum (`records.overruns`), taking a suggestion (`actions.overruns`)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta

from bookings.models import Kind
from shotplans.models import SetTap
from shotplans.records.overruns import Times, times
from studio import clock

BACK = timedelta(days=400)  # older sittings were built by other hands with other kit
FIELDS = {"setup_minutes": (SetTap.On.WALK, SetTap.SITTERS_IN), "strike_minutes": (SetTap.On.STRIKE, SetTap.STRUCK)}


@dataclass(frozen=True)
class Learned:
    """One buffer of one kind: what it is, what was measured."""

    kind: Kind
    field: str
    buffer: int
    times: Times

    @property
    def is_news(self) -> bool:
        return self.times.differs_from(self.buffer)


def of_kind(kind: Kind) -> list[Learned]:
    """Set-up and strike of a kind, those of which anything was measured: one question."""
    taps = SetTap.objects.filter(plan__sitting__kind=kind, done=True, at__gte=clock.now() - BACK)
    rows = taps.order_by("at", "pk").values_list(
        "plan__sitting_id", "on", "code", "at", "plan__sitting__setup_minutes", "plan__sitting__strike_minutes"
    )
    measured = _measured(rows)
    found = []
    for field in FIELDS:
        said = times(measured.get(field, []))
        if said is not None:
            found.append(Learned(kind, field, getattr(kind, field), said))
    return found


def _measured(rows: Iterable[tuple]) -> dict[str, list[tuple[float, float]]]:  # type: ignore[type-arg]
    """(planned, real) minutes of each sitting, from the first tap that began it to the first that ended it."""
    begun: dict[tuple[int, str], object] = {}
    found: dict[str, dict[int, tuple[float, float]]] = {field: {} for field in FIELDS}
    for sitting, on, code, at, setup, strike in rows:
        if code == SetTap.BEGUN:
            begun.setdefault((sitting, on), at)
        for field, (list_, end) in FIELDS.items():
            if on == list_ and code == end and (sitting, on) in begun and sitting not in found[field]:
                planned = setup if field == "setup_minutes" else strike
                real = (at - begun[(sitting, on)]).total_seconds() / 60  # type: ignore[operator]
                found[field][sitting] = (float(planned), real)
    return {field: list(pairs.values()) for field, pairs in found.items()}
