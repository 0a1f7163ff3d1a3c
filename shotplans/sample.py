"""The sample of a new studio, as it lies in `fixtures/first`: an invented anniversary couple with room and kit.

Belongs here: reading it. Not here: making rows of it, or taking them away (`actions.sample`).
"""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from django.conf import settings
from django.utils.translation import gettext as _

CODE = "sample-"  # before the code of each of its pieces


@cache
def tree() -> dict[str, Any]:
    """Client, kind, room, brief and sitters; read, never changed."""
    path = settings.BASE_DIR / "fixtures" / "first" / "sample.json"
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


def mark() -> str:
    """What stands behind the name of each of its pieces, on pages and on paper."""
    return _(", sample")
