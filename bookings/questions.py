"""What is worth asking for a kind of sitting while the client is still on the telephone. Belongs here: which sentence
belongs to which picture. Not here: the whole consultation, which follows with the brief."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from bookings.models import Kind
from bookings.models.kinds import Framing, Intent

# Common practice, no source.
_OF_INTENT = {
    Intent.SOFT: _("what each wishes softer, left as it is, or shown; glasses and whether they may come off"),
    Intent.EVEN: _("how many and in which order, glasses, whether last time's pictures are to be matched"),
    Intent.NATURAL: _("clothes and their tone, glasses"),
    Intent.BOLD: _("hair and clothes against a dark ground"),
    Intent.CHARACTER: _("what must show: hands, tools, lines; who has agreed to it"),
    Intent.BRIGHT: _("light clothes or dark, glasses"),
}
_OF_FRAMING = {
    Framing.GROUP: _("who belongs to which household, who belongs in the middle, small children and their nap"),
    Framing.FULL: _("shoes, who cannot stand long"),
}


def worth_asking(kind: Kind) -> list[str]:
    """The questions that matter most for that kind, as parts of one sentence."""
    asked = [_OF_INTENT.get(Intent(kind.intent)), _OF_FRAMING.get(Framing(kind.framing))]
    return [str(question) for question in asked if question]
