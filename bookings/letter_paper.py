"""A letter on paper. Belongs here: its PDF, from the letter as it was written."""

from __future__ import annotations

from bookings import wording
from bookings.models import Letter
from studio.models import Profile
from studio.paper import blocks, page


def render(letter: Letter, profile: Profile) -> bytes:
    """A PDF; the same letter gives the same bytes."""
    paper = page.PAPERS[profile.paper]
    to = [letter.client.name] if letter.client is not None else []
    written = wording.day(letter.written_at, profile.zone)
    house = [profile.studio_name, *profile.address.splitlines(), profile.telephone, profile.email]
    found = [
        blocks.head(letter.subject, [*to, written], from_whom=[line for line in house if line.strip()], paper=paper),
        *blocks.paragraph(letter.body.strip("\n"), paper=paper),
    ]
    return page.write(page.Document(letter.subject, profile.studio_name, tuple(found), letter.subject, written), paper)
