"""The receipt of an erasure on paper. Belongs here: what whoever asked for it is told. Not here: erasing
(`actions.erasure`)."""

from __future__ import annotations

from django.utils.translation import gettext as _

from bookings.models import Erasure
from bookings.models.keeping import erased_name
from studio.models import Profile
from studio.paper import blocks
from studio.paper.page import PAPERS, Document, write


def receipt(found: Erasure, profile: Profile) -> bytes:
    paper = PAPERS[profile.paper]
    title = _("Receipt of an erasure")
    said = _(
        "On %(day)s everything the studio held about you was erased: name, address of mail, telephone, what was "
        "known of the people who sat, consents, releases, letters and what was written down about the sittings. "
        "Amounts, days and numbers of the accounts stay, under the number %(number)s instead of a name, because "
        "accounts have to be kept. Copies made for emergencies hold older days; they are overwritten in turn and are "
        "not used for anything else."
    ) % {"day": f"{found.at:%Y-%m-%d}", "number": erased_name(found.client_id).removeprefix("erased ")}
    content = [
        blocks.head(title, [profile.studio_name], from_whom=profile.address.splitlines(), paper=paper),
        *blocks.paragraph(said, paper=paper),
        *blocks.facts([(_("Asked for"), found.asked_by), (_("Done by"), found.by.name)], paper=paper),
    ]
    return write(Document(title, profile.studio_name, tuple(content), title, title), paper)
