"""The first save wins. Belongs here: the version every editable row carries and the one way to save a row
that two people may have open at once. Not here: how a page shows the difference."""

from __future__ import annotations

from django.db import models, transaction
from django.utils.translation import gettext_lazy as _


class Stale(Exception):
    """The row was changed after it was opened; `current` is the row as it is now, None if it is gone."""

    def __init__(self, current: models.Model | None) -> None:
        self.current = current
        super().__init__(str(_("Somebody else saved this while you had it open.")))


class Versioned(models.Model):
    """A row with a number that rises with every save."""

    version = models.PositiveIntegerField(default=1, editable=False)

    class Meta:
        abstract = True


@transaction.atomic
def save(row: Versioned, *, seen: int) -> None:
    """Write `row` if its version is still `seen`, else raise `Stale` and write nothing."""
    # A piece of kit keeps its version in the table of its base: asked for there, one statement decides.
    owner = row._meta.get_field("version").model
    if not owner._base_manager.filter(pk=row.pk, version=seen).update(version=seen + 1):
        raise Stale(type(row)._base_manager.filter(pk=row.pk).first())
    row.version = seen + 1
    row.save()
