"""Where the light names a sitting's people: in the set-ups of its brief. A frozen plan keeps the names it had."""

from __future__ import annotations

from collections.abc import Mapping

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.models import Sitting
from shotplans.models import Brief
from shotplans.planner.names import replaced


def uses(sitting: Sitting) -> dict[str, str]:
    """Each short name the brief has chosen, with the set-up it stands in."""
    brief = Brief.objects.filter(sitting=sitting).first()
    if brief is None:
        return {}
    return {
        label: _("the brief's set-up “%(setup)s”") % {"setup": setup["name"]}
        for setup in brief.data["setups"]
        for label in setup.get("people") or ()
    }


@transaction.atomic
def rename(sitting: Sitting, names: Mapping[str, str]) -> None:
    """Carry new short names into the brief: into who is in a set-up, who holds a prop, and the sentences of what must
    be taken and is wished. Who has it open is told, since their form shows the old ones."""
    brief = Brief.objects.select_for_update().filter(sitting=sitting).first()
    if brief is None:
        return
    said = {part: [replaced(one, names) for one in brief.data.get(part) or ()] for part in ("must", "wished")}
    said = {part: new for part, new in said.items() if new != list(brief.data.get(part) or ())}
    props = [prop for prop in brief.data.get("props") or () if prop.get("held_by") in names]
    if not props and not said and not set(names) & set(uses(sitting)):
        return
    brief.data |= said
    for prop in props:
        prop["held_by"] = names[prop["held_by"]]
    for setup in brief.data["setups"]:
        if setup.get("people"):
            setup["people"] = [names.get(label, label) for label in setup["people"]]
    brief.version += 1
    brief.save()
