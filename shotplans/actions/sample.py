"""The sample of a new studio: made with its plan by one button, taken away whole by another.

Belongs here: both, each in one transaction. Not here: what it says of people and kit (`shotplans.sample`).
"""

from __future__ import annotations

from datetime import datetime, time, timedelta

from django.db import transaction
from django.db.models import ProtectedError, Q
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings.actions import sittings
from bookings.models import Claim, Client, Kind, Letter, NoteReading, NotesPurged, ResourceKind, Sitting, Stage
from bookings.refusals import Refusal, Taken
from shotplans import sample, scenario_people, scenario_rooms
from shotplans.actions import frames, plans, set_photos
from shotplans.models import (
    Frame,
    FrameCheck,
    FrameTie,
    MeasuredBeam,
    PackingTap,
    Plan,
    Record,
    Retired,
    Sample,
    SetTap,
    ToSeeTo,
)
from studio import clock, starter_kit
from studio.models import KitItem, Member, Profile, Role

AT = time(10, 0)
DAYS_TRIED = 60  # where the photographer is taken at that hour


def make(*, by: Member) -> Plan:
    """A sample with room, kit, couple, brief and plan, for whoever photographs: `by` where they do, else the first.

    Refuses with `Refusal` where there is a sample already, and where nobody photographs; then nothing is kept.
    """
    sitting = _keep(by)
    # Outside the transaction: nobody waits for the reckoning.
    return plans.make_plan(by=sitting.photographer, sitting=sitting)


@transaction.atomic
def _keep(by: Member) -> Sitting:
    if Sample.objects.select_for_update().filter(pk=1).exists():
        raise Refusal(_("There is a sample already: open its plan, or take it away first."))
    photographer = by if by.has_role(Role.PHOTOGRAPHER) else Member.objects.active().in_role(Role.PHOTOGRAPHER).first()
    if photographer is None:
        raise Refusal(_("Nobody photographs here yet: give somebody the role of photographer on the page of people."))
    kit, sitting = _kit(), _book(by, photographer)
    made = Sample.objects.create(pk=1, sitting=sitting, made_at=clock.now(), made_by=by)
    made.kit.set(kit)
    plans.confirm_brief(by=photographer, sitting=sitting, data=sample.tree()["brief"])
    return Sitting.objects.get(pk=sitting.pk)


def _kit() -> list[KitItem]:
    taken = set(KitItem.objects.filter(code__startswith=sample.CODE).values_list("code", flat=True))
    made = [
        piece
        for line in starter_kit.lines()
        for piece in starter_kit.pieces(line, line.sample, taken=taken, before=sample.CODE, after=sample.mark())
    ]
    for piece in made:
        piece.full_clean()
        piece.save()
    return made


def _book(by: Member, photographer: Member) -> Sitting:
    """Tomorrow at ten, or the first day after on which the photographer is free then."""
    tree = sample.tree()
    room, kind = scenario_rooms.room(tree["room_name"], tree["room"]), _kind()
    with timezone.override(Profile.get().zone):
        today = clock.today()
        starts = [timezone.make_aware(datetime.combine(today + timedelta(days=n), AT)) for n in range(1, DAYS_TRIED)]
    for start in starts:
        try:
            with transaction.atomic():
                booked = sittings.book(
                    by=by, client=Client(name=tree["client"]), kind=kind, room=room, photographer=photographer,
                    assistant=None, starts_at=start, minutes=tree["minutes"], setup_minutes=30, strike_minutes=15,
                    purpose=tree["brief"]["purpose"], print_width_cm=tree["brief"]["print_width_cm"],
                    sitters=[scenario_people.sitter(one) for one in tree["sitters"]],
                    acknowledged=EVERY_OBJECTION,
                )  # fmt: skip
        except Taken:
            continue
        confirmed = sittings.change_stage(by=by, sitting=booked, to=Stage.CONFIRMED)
        Letter.objects.filter(sitting=booked).delete()  # nobody is written to about a sample
        return confirmed
    raise Refusal(_("%(name)s is taken at ten on every day to come: make the sample later.") % {"name": photographer})


class _Every(frozenset[str]):
    """Whatever speaks against the time of a sample speaks against nobody's."""

    def __contains__(self, code: object) -> bool:
        return True


EVERY_OBJECTION = _Every()


def _kind() -> Kind:
    """Of its own, and offered to nobody else."""
    brief, setup = sample.tree()["brief"], sample.tree()["brief"]["setups"][0]
    return Kind.objects.create(
        name=sample.tree()["kind"], minutes=sample.tree()["minutes"], intent=setup["intent"],
        framing=setup["framing"], background_tone=setup["background_tone"], view=setup["view"],
        orientation=brief["orientation"], ask_back="never", active=False,
    )  # fmt: skip


@transaction.atomic
def take_away() -> None:
    """All of the sample, with whatever was entered on it; nothing else of the house is touched.

    Refuses with `Refusal` where there is none, and where something real stands on it: a sitting in its room or with
    its kit, money that was taken, a paper with a number.
    """
    held = Sample.objects.select_for_update().filter(pk=1).first()
    if held is None:
        raise Refusal(_("There is no sample: it was taken away already."))
    sitting = Sitting.objects.select_for_update().get(pk=held.sitting_id)
    kit = list(held.kit.all())
    _refuse_where_used(sitting, kit)
    try:
        _clear_light(sitting, [piece.code for piece in kit])
        held.delete()
        sitting.delete()
        for row in (sitting.client, sitting.kind, *kit, sitting.room):
            row.delete()
    except ProtectedError as error:
        stands = ", ".join(sorted({str(row._meta.verbose_name) for row in error.protected_objects}))
        raise Refusal(
            _("The sample stays: something of the house stands on it (%(what)s). Take that away first.")
            % {"what": stands}
        ) from error


def _refuse_where_used(sitting: Sitting, kit: list[KitItem]) -> None:
    used = Q(resource_kind=ResourceKind.ROOM, resource_id=sitting.room_id)
    used |= Q(resource_kind=ResourceKind.KIT, resource_id__in=[piece.pk for piece in kit])
    other = Claim.objects.filter(used).exclude(sitting=sitting).select_related("sitting__client").first()
    if other is not None:
        raise Refusal(
            _("The sample stays: %(sitting)s holds its room or kit. Give that sitting its own first.")
            % {"sitting": other.sitting}
        )


def _clear_light(sitting: Sitting, codes: list[str]) -> None:
    """What the light keeps of it, the files too."""
    gone = {sitter.label: sitter.label for sitter in sitting.sitters.all()}
    set_photos.erase(sitting, list(gone), gone)
    frames.forget(sitting, list(gone), gone)
    FrameCheck.objects.filter(plan__sitting=sitting).delete()
    FrameTie.objects.filter(sitting=sitting).delete()
    Frame.objects.filter(sitting=sitting).delete()
    SetTap.objects.filter(plan__sitting=sitting).delete()
    Record.objects.filter(plan__sitting=sitting).delete()
    Plan.objects.of(sitting).delete()
    NoteReading.objects.filter(sitting=sitting).delete()
    NotesPurged.objects.filter(sitting=sitting).delete()
    taps = PackingTap.objects.filter(item__in=codes)
    ToSeeTo.objects.filter(tap__in=taps).delete()
    taps.delete()
    MeasuredBeam.objects.filter(Q(head__in=codes) | Q(modifier__in=codes)).delete()
    Retired.objects.filter(head__in=codes).delete()
