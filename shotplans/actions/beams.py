"""Beams from a laboratory's files: keeping one for a head with a modifier, and taking it out of use."""

from __future__ import annotations

from django.db import transaction

from shotplans.light import photometry
from shotplans.models import MeasuredBeam
from shotplans.records.lm63 import read_lm63
from studio import clock
from studio.models import Head, Member, Modifier


@transaction.atomic
def keep(*, by: Member, head: Head, modifier: Modifier, file_name: str, content: bytes) -> MeasuredBeam:
    """The beam of that pair is the file's from now on, in place of an earlier file's.

    Raises `lm63.Unreadable` with the line that is wrong.
    """
    read = read_lm63(content)
    shares = read.shares
    for before in MeasuredBeam.objects.select_for_update().in_force().filter(head=head.code, modifier=modifier.code):
        take_out(by=by, beam=before)
    return MeasuredBeam.objects.create(
        head=head.code, modifier=modifier.code, file_name=file_name[-120:], shares=list(shares),
        flux_lm=round(read.flux_lm, 2), width_deg=round(photometry.measured_width_deg(shares), 1), at=clock.now(),
        by=by,
    )  # fmt: skip


@transaction.atomic
def take_out(*, by: Member, beam: MeasuredBeam) -> None:
    """Plans made from now on go by the modifier's own width again; one that is out of use stays so."""
    MeasuredBeam.objects.in_force().filter(pk=beam.pk).update(ended_at=clock.now(), ended_by=by)
