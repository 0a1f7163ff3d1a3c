"""The frames of the demo's year before: rows as their files would have told, a run set wrongly, plates drawn in place
of photographs. Belongs here: those of a sitting, and taking them away when its notes go. Not here: the year itself
(`scenario_past`), drawing (`scenario_plate`)."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import timedelta

from bookings.models import Sitting
from shotplans import scenario_plate
from shotplans.actions import blanking, frames
from shotplans.darkroom import wanted_of
from shotplans.models import Frame, Plan, SmallPicture
from shotplans.records.frame_settings import Wanted
from studio import clock
from studio.models import Member

LEAST, MOST, APART = 14, 24, timedelta(seconds=40)
WRONG: dict[int, tuple[range, float]] = {357: (range(7, 12), 5.6), 45: (range(3, 5), 11.0)}  # by days ago
# By days ago: the frame, and how its head lies in it (`scenario_plate.plate`). The first is last year's reference.
PLATES: dict[int, dict[int, dict[str, float]]] = {
    357: {3: {"head": 0.34}, 9: {"head": 0.35, "right": 0.02}},
    349: {2: {}},
    45: {2: {"head": 0.49, "down": 0.012}, 5: {"head": 0.465, "right": -0.02}, 8: {"head": 0.50, "down": -0.02}},
}
REFERENCES = {357: 3, 349: 2}


def film(plan: Plan, *, by: Member, ago: int) -> int:
    """Frames of every set-up, tied as the reader would have; how many."""
    rows: list[Frame] = []
    for setup in wanted_of(plan):
        rows += _of(plan.sitting, setup, len(rows), ago, by)
    made = Frame.objects.bulk_create(rows)
    _plates(made, by=by, ago=ago)
    return len(made)


def _of(sitting: Sitting, setup: Wanted, before: int, ago: int, by: Member) -> list[Frame]:
    wrong, aperture = WRONG.get(ago, (range(0), 0.0))
    found = []
    for n in range(before + 1, before + min(MOST, max(LEAST, setup.frames + 1)) + 1):
        at = sitting.starts_at + timedelta(minutes=10) + n * APART
        name = f"LQ_{ago:03d}{n:02d}.JPG"
        found.append(
            Frame(
                sitting=sitting, digest=hashlib.sha256(name.encode()).hexdigest(), name=name, size=14_000_000 + 977 * n,
                number=n, taken_at=at, f_number=aperture if n in wrong else round(setup.f_number, 1),
                shutter_s=setup.shutter_s, iso=setup.iso, focal_mm=setup.focal_mm, white_balance="manual",
                flash_fired=setup.flash, setup_name=setup.name, tied_by="both", received_at=at + timedelta(hours=2),
                by=by,
            )
        )  # fmt: skip
    return found


def _plates(made: Sequence[Frame], *, by: Member, ago: int) -> None:
    for number, lies in PLATES.get(ago, {}).items():
        frame = next(one for one in made if one.number == number)
        jpeg, eyes = scenario_plate.plate(**lies)
        SmallPicture.objects.create(
            frame=frame, jpeg=jpeg, width=scenario_plate.WIDE, height=scenario_plate.TALL, eyes=[list(e) for e in eyes]
        )
        if REFERENCES.get(ago) == number:
            with clock.standing(frame.received_at):
                frames.choose_reference(by=by, frame=frame)


def forget(sitting: Sitting, labels: list[str]) -> None:
    """What a purge of notes takes of the light."""
    blanking.blank(sitting, labels, {})
    frames.forget(sitting, labels, {})
