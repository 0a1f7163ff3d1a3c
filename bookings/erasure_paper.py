"""The receipt of an erasure on paper. Belongs here: what whoever asked for it is told. Not here: erasing
(`actions.erasure`)."""

from __future__ import annotations

from datetime import datetime

from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import wording
from bookings.models import Erasure
from bookings.models.keeping import client_number
from studio.models import Backup, Profile
from studio.paper import blocks
from studio.paper.page import PAPERS, Document, write


def receipt(found: Erasure, profile: Profile) -> bytes:
    paper = PAPERS[profile.paper]
    title = _("Receipt of an erasure")
    said = _(
        "On %(day)s everything the studio held about you was erased: name, address of mail, telephone, what was "
        "known of the people who sat, consents, releases, letters and what was written down about the sittings. "
        "Amounts, days and numbers of the accounts stay, under the number %(number)s instead of a name, because "
        "accounts have to be kept."
    ) % {"day": _day(found.at, profile), "number": client_number(found.client_id)}
    content = [
        blocks.head(title, [profile.studio_name], from_whom=profile.address.splitlines(), paper=paper),
        *blocks.paragraph(said, paper=paper),
        *blocks.paragraph(backups(found, profile), paper=paper),
        *blocks.facts([(_("Asked for"), found.asked_by), (_("Done by"), found.by.name)], paper=paper),
    ]
    return write(Document(title, profile.studio_name, tuple(content), title, title), paper)


def backups(found: Erasure, profile: Profile) -> str:
    """Which copies still hold what was erased, as far as the house knows."""
    said = _("They are deleted in turn, and are used for nothing but to begin again after a loss.")
    days = [_day(at, profile) for at in Backup.objects.with_days_before(found.at).values_list("at", flat=True)]
    if not days:
        return _("The studio knows of no backup made before then that is still kept.") + " " + said
    nights = Backup.objects.kept().values_list("keep_nights", flat=True)[0]
    span = days[0] if len(days) == 1 else _("%(first)s to %(last)s") % {"first": days[0], "last": days[-1]}
    held = _("Backups made before then (%(count)d, of %(days)s) still hold what was erased.")
    kept = _("Each is kept for %(n)d nights.") % {"n": nights} if nights else ""
    return " ".join(part for part in (held % {"count": len(days), "days": span}, kept, said) if part)


def _day(moment: datetime, profile: Profile) -> str:
    return wording.date(timezone.localdate(moment, profile.zone))
