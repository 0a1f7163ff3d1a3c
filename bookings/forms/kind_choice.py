"""Choosing a kind of sitting. Belongs here: what the choice fills in and says, as the page's script is given it. Not
here: what is worth asking (`bookings.questions`)."""

from __future__ import annotations

import json
from typing import Any

from django import forms
from django.utils.translation import gettext as _

from bookings import questions, wording
from bookings.models import Kind

TIMES = ("minutes", "setup_minutes", "strike_minutes")


def kind_says(kind: Kind) -> str:
    """What choosing that kind fills in, but for its fee, which depends on the day."""
    parts = [
        _("%(minutes)d minutes, set-up %(setup)d, strike %(strike)d.")
        % {"minutes": kind.minutes, "setup": kind.setup_minutes, "strike": kind.strike_minutes}
    ]
    if kind.terms is not None:
        parts.append(_("Terms: %(name)s.") % {"name": kind.terms.name})
    asked = questions.worth_asking(kind)
    if asked:
        parts.append(_("Ask: %(questions)s.") % {"questions": "; ".join(asked)})
    return " ".join(parts)


def fees(kind: Kind, currency: str) -> list[tuple[str, str]]:
    """Its fees as sentences, each with the first day it is for."""
    return [
        (price.from_day.isoformat(), _("Fee: %(fee)s.") % {"fee": wording.money(price.amount, currency)})
        for price in kind.prices.all()
    ]


class KindSelect(forms.Select):
    """Each kind carries its times, its fees and what it says, so that the page's script can write them down."""

    currency = ""

    def create_option(self, name: str, value: Any, *args: Any, **kwargs: Any) -> dict[str, Any]:
        option = super().create_option(name, value, *args, **kwargs)
        kind = getattr(value, "instance", None)
        if kind is not None:
            option["attrs"] |= {f"data-{field}": getattr(kind, field) for field in TIMES}
            option["attrs"] |= {"data-says": kind_says(kind), "data-fees": json.dumps(fees(kind, self.currency))}
        return option
