"""Left and right, as they stand inside a sentence: always the camera's."""

from __future__ import annotations

from studio.tongue import gettext as _
from studio.tongue import noop

SIDES = {"left": noop("left"), "right": noop("right")}


def said(side: str) -> str:
    return _(SIDES[side])
