"""Blanking what was frozen. Belongs here: briefs, plans and records of a sitting without what they tell of people, in
the step of whoever purges or erases (`settings.ERASERS`)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from bookings.models import Sitting
from shotplans import blanking
from shotplans.models import Brief, Plan, Record, ShotList, ShotListEdit, StandardEdit
from studio import clock


def blank(sitting: Sitting, labels: Sequence[str], names: Mapping[str, str]) -> None:
    """Every version of the sitting's plan loses its words and what was known of these people. The fingerprint and the
    numbers stay; a plan says on which day it was blanked. With `names`, former names go too."""
    for plan in Plan.objects.of(sitting).select_for_update():
        Plan.objects.filter(pk=plan.pk).update(
            request=blanking.request(plan.request, labels, names),
            document=blanking.document(plan.document, names),
            why="" if names else plan.why,
            blanked_at=plan.blanked_at or clock.now(),
        )
    for model in (ShotList, ShotListEdit):
        model.objects.filter(sitting=sitting).delete()  # its words may name people, and it is of use no more
    if names:
        brief = Brief.objects.filter(sitting=sitting).first()
        if brief is not None:
            brief.data = blanking.renamed(brief.data, names) | {"purpose": blanking.BLANK}
            brief.save(update_fields=["data"])
        StandardEdit.objects.filter(client=sitting.client_id).update(why="")
        for record in Record.objects.filter(plan__sitting=sitting):
            record.changes.update(why="")
            record.built.update(why_failed="")
