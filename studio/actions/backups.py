"""What is known of backups. Belongs here: noting one that was made, and those deleted to make room. Not here: making
one (`studio.backup`)."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from django.db import transaction

from studio import clock
from studio.backup.packing import Made
from studio.models import Backup


@transaction.atomic
def note(*, made: Made, began: datetime, keep_nights: int | None, deleted: Sequence[Path]) -> Backup:
    """Keep what a backup was like, and that older ones are gone."""
    now = clock.now()
    Backup.objects.kept().filter(path__in=[str(path.absolute()) for path in deleted]).update(deleted_at=now)
    return Backup.objects.create(
        at=began, seconds=round((now - began).total_seconds(), 1), path=str(made.path.absolute()), size=made.size,
        sha256=made.sha256, rows=made.rows, files=made.files, sealed=made.sealed, keep_nights=keep_nights,
    )  # fmt: skip
