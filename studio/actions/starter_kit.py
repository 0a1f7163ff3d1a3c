"""Kit ticked on the starter list. Belongs here: keeping all of it at once. Not here: the list itself
(`studio.starter_kit`)."""

from __future__ import annotations

from collections.abc import Mapping

from django.db import transaction

from studio import starter_kit
from studio.models import KitItem


@transaction.atomic
def own(*, counts: Mapping[str, int]) -> list[KitItem]:
    """So many pieces of each line, by its stem. What the house owns already stays as it is: new codes count on."""
    taken = set(KitItem.objects.values_list("code", flat=True))
    made = [
        piece
        for line in starter_kit.lines()
        for piece in starter_kit.pieces(line, counts.get(line.stem, 0), taken=taken)
    ]
    for piece in made:
        piece.full_clean()
        piece.save()
    return made
