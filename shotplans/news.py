"""What came in since a plan was made, and what a new version changed. Belongs here: consequences and numbers only, fit
for every eye that may open a plan; never what a sitter said."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from shotplans.models import Plan
from shotplans.planner import consequences
from shotplans.planner.request import Request
from shotplans.planner.shotlist import Listed
from shotplans.planner.words import roles
from shotplans.sheets import wording
from shotplans.sheets.measures import METRIC

NO_LIST = Listed(shots=[], proposed=[], least=0.0, changes=0.0)  # what notes ask for hangs on no list of pictures


def since(plan: Plan, today: Request) -> list[str]:
    """What today's notes (`snapshot.today_of` the plan, filled) ask for that the notes of the plan did not, as
    sentences."""
    try:
        then = plan.filled_request
    except ValueError:
        return []
    before = {row["says"] for row in consequences.consequences(then, (), NO_LIST)}
    return [row["says"] for row in consequences.consequences(today, (), NO_LIST) if row["says"] not in before]


def beside_former(plan: Plan) -> list[str]:
    """What is otherwise than in the plan before: lights with the new number beside the old, and what else follows now
    or no more, in consequences alone."""
    former = Plan.objects.of(plan.sitting).filter(number__lt=plan.number).order_by("-number").first()
    if former is None:
        return []
    old = dict(_lights(former))
    found = []
    for key, light in _lights(plan):
        was = old.pop(key, None)
        if was is None:
            found.append(_("%(setup)s, %(role)s: new") % {"setup": key[0], "role": roles.said(key[1])})
            continue
        for name, words, said in (
            ("distance_m", _("distance"), METRIC.length), ("bearing_deg", _("bearing"), wording.bearing),
            ("height_angle_deg", _("height angle"), "{:.0f}°".format), ("modifier", _("modifier"), str),
        ):  # fmt: skip
            if light[name] != was[name]:
                now, before = said(light[name]), said(was[name])
                found.append(f"{key[0]}, {roles.said(key[1])}: {words} {now}, {_('before')} {before}")
    gone = ({"setup": setup, "role": roles.said(role)} for setup, role in old)
    found += [_("%(setup)s, %(role)s: no more") % one for one in gone]
    says, said = _follows(plan), _follows(former)
    found += [_("now: %(says)s") % {"says": one} for one in says if one not in said]
    found += [_("no more: %(says)s") % {"says": one} for one in said if one not in says]
    return found


def _follows(plan: Plan) -> list[str]:
    return [row["says"] for row in plan.document.get("consequences") or ()]


def _lights(plan: Plan) -> list[tuple[tuple[str, str], dict[str, Any]]]:
    return [((s["name"], light["role"]), light) for s in plan.document["setups"] for light in s["lights"]]
