"""Refusals of a rota. Belongs here: why its actions say no, each with a sentence fit to show. Not here: deciding."""

from __future__ import annotations

from django.utils.translation import gettext as _

from bookings.refusals import Refusal


class RotaBegun(Refusal):
    """Somebody of the rota was on set, or is marked: a new list would lose what happened."""

    def __init__(self) -> None:
        super().__init__(
            _("The rota has begun: its list stays. Add a walk-in on the board, or mark who does not come as absent.")
        )


class MarkedMeanwhile(Refusal):
    """Somebody else tapped on the same name: `what` it became and by whom."""

    def __init__(self, name: str, what: str, by: str, at: str) -> None:
        words = _("Nothing was changed: %(by)s marked %(name)s as %(what)s at %(at)s. Look again, then tap.")
        super().__init__(words % {"name": name, "what": what, "by": by, "at": at})


class NothingToUndo(Refusal):
    def __init__(self) -> None:
        super().__init__(_("There is something newer to undo first, or it is undone already."))


class WrongName(Refusal):
    """A walk-in without a name, with one too long, or with a name that is in the rota already."""
