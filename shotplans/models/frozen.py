"""What is kept as it was and never changed: read from the database once a process. Belongs here: the field that keeps
the tree of a text it has met. Not here: which rows are frozen (`plans`)."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any

from django.db import models

KEPT = 96  # a plan's two texts, of a busy day and the week after it: some 0.3 MB each


class Kept(dict[str, Any]):
    """A tree many readers share, so nobody may change it; a copy is a plain one that may be changed. `made_of_it` is
    what was worked out from it, for as long as the tree is kept."""

    made_of_it: Any = None

    def __copy__(self) -> dict[str, Any]:
        return dict(self)

    def __deepcopy__(self, memo: dict[int, Any]) -> dict[str, Any]:
        copied: dict[str, Any] = json.loads(json.dumps(self))  # a tree of JSON: three times as fast as one by one
        return copied


@lru_cache(maxsize=KEPT)
def read(text: str) -> Kept:
    """The tree of a text. The text is the key, so what is blanked in the database is gone here, too."""
    return Kept(json.loads(text))


class FrozenJSONField(models.JSONField):
    """A column of JSON whose rows are written once. To a migration it is a JSONField: the column is the same."""

    def from_db_value(self, value: Any, expression: Any, connection: Any) -> Any:
        if isinstance(value, str) and value.startswith("{"):
            return read(value)
        return super().from_db_value(value, expression, connection)

    def deconstruct(self) -> Any:
        name, _, args, kwargs = super().deconstruct()
        return name, "django.db.models.JSONField", args, kwargs
