"""What the demo's set told in the year before: when set-up began, what was walked, when the sitters came in, and how
long it took to strike. Belongs here: those taps as rows. Not here: what they teach (`overruns`)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from shotplans.models import Plan, SetTap
from shotplans.sheets import walk
from studio.models import Member

# Minutes over the planned ones, in the order of the year: couples' set-ups run over, the others about keep to it.
SETUP_OVER = {"Anniversary couple": (6, 3, 9, 8, 5), "Character portrait": (-4, 1, -6, -2, 0)}
STRIKE_OVER = {"Anniversary couple": (-1, 2, -3, 0, 1), "Music school portrait": (4, 5, 3, 4)}
OTHERS_OVER = (1, -2, 0, -3)
EACH_TICK = timedelta(minutes=1)


def told(plans: list[Plan], by: Member) -> int:
    """Keep the taps of these plans, oldest first; how many sittings told something."""
    nth: dict[str, int] = {}
    taps: list[SetTap] = []
    for plan in plans:
        kind = plan.sitting.kind.name
        n = nth[kind] = nth.get(kind, -1) + 1
        over = [found[n % len(found)] for found in (t.get(kind, OTHERS_OVER) for t in (SETUP_OVER, STRIKE_OVER))]
        rows = [*_before(plan, over[0]), *_after(plan, over[1])]
        taps += [
            SetTap(plan=plan, setup_name=setup, on=on, code=code, at=at, by=by) for setup, on, code, at in rows
        ]
    SetTap.objects.bulk_create(taps)
    return len(plans)


Told = tuple[str, str, str, datetime]


def _before(plan: Plan, over: int) -> Iterator[Told]:
    """Set-up begins when it was booked to; four ticks, then the sitters."""
    first, sitting = plan.setups[0]["name"], plan.sitting
    yield first, SetTap.On.WALK, SetTap.BEGUN, sitting.setup_starts_at
    came_in = sitting.starts_at + timedelta(minutes=over)
    for n, code in enumerate(walk.CODES):
        yield first, SetTap.On.WALK, code, came_in - (len(walk.CODES) - n) * EACH_TICK
    yield first, SetTap.On.WALK, SetTap.SITTERS_IN, came_in


def _after(plan: Plan, over: int) -> Iterator[Told]:
    last, sitting = plan.setups[-1]["name"], plan.sitting
    yield last, SetTap.On.STRIKE, SetTap.BEGUN, sitting.ends_at
    yield last, SetTap.On.STRIKE, SetTap.STRUCK, sitting.strike_ends_at + timedelta(minutes=over)
