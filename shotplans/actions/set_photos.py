"""Pictures of the set: keeping them in the data folder, and taking them away with the person."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from django.conf import settings
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.models import Sitting
from shotplans import blanking
from shotplans.actions.records import Refused, open_record, writable
from shotplans.models import Plan, Record, SetPhoto
from studio import clock
from studio.models import Member
from studio.photos import MOST_BYTES, NoPicture, Picture, made_anew, put

MOST_A_RECORD, MOST_A_FILE = 60, MOST_BYTES


def path_of(photo: SetPhoto) -> Path:
    """Where a picture lies; its name is our own, never the phone's."""
    return Path(settings.DATA_DIR) / "set_photos" / photo.file_name


def keep(
    *, by: Member, plan: Plan, setup_name: str, sent: Iterable[bytes]
) -> tuple[list[SetPhoto], list[tuple[int, str]]]:
    """Keep the pictures of a set-up that came together, all in one transaction: each is made anew before the record is
    held, so that nobody waits for it. What is no picture, and what is more than a record keeps, is left out and told by
    its place, and the others are kept. Refused where none can be: by a signed record, by a plan without that set-up."""
    made: dict[int, Picture] = {}
    left_out: list[tuple[int, str]] = []
    for place, raw in enumerate(sent, 1):
        try:
            made[place] = made_anew(raw)
        except NoPicture as error:
            left_out.append((place, str(error)))
    if not made:
        return [], left_out
    with transaction.atomic():
        held = writable(open_record(plan=plan))
        if plan.setup(setup_name) is None:
            raise Refused(_("The plan has no such set-up."))
        places = list(made)
        room = max(MOST_A_RECORD - held.photos.count(), 0)
        kept = [_put(held, setup_name, made[place], by) for place in places[:room]]
    full = _("A record keeps %(n)d pictures: take one away first.") % {"n": MOST_A_RECORD}
    return kept, sorted([*left_out, *((place, full) for place in places[room:])])


def _put(record: Record, setup_name: str, made: Picture, by: Member) -> SetPhoto:
    photo = SetPhoto.objects.create(
        record=record, setup_name=setup_name, file_name=f"{uuid.uuid4().hex}.jpg", width=made.width, height=made.height,
        at=clock.now(), by=by,
    )  # fmt: skip
    put(path_of(photo), made.body)
    return photo


@transaction.atomic
def take_away(*, record: Record, pk: int) -> None:
    """Take one picture away, the file too."""
    photo = writable(record).photos.filter(pk=pk).first()
    if photo is None:
        raise Refused(_("That picture is gone already."))
    _gone([photo])


def erase(sitting: Sitting, labels: Sequence[str], names: Mapping[str, str]) -> None:
    """With a person's notes go the pictures of the set-ups they sit in, who may stand in them; with a person erased
    (then there are new names) all of the sitting's. What was measured and typed stays: next year's begins from it."""
    rows = SetPhoto.objects.filter(record__plan__sitting=sitting)
    if not names:
        documents = Plan.objects.of(sitting).values_list("document", flat=True)
        rows = rows.exclude(setup_name__in=blanking.of_others(documents, labels))
    with transaction.atomic():
        _gone(list(rows))


def _gone(photos: Sequence[SetPhoto]) -> None:
    paths = [path_of(photo) for photo in photos]
    SetPhoto.objects.filter(pk__in=[photo.pk for photo in photos]).delete()
    transaction.on_commit(lambda: [path.unlink(missing_ok=True) for path in paths])
