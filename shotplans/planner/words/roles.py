"""What a light is for, as the trade calls it inside a sentence."""

from __future__ import annotations

from studio.tongue import gettext as _
from studio.tongue import noop

ROLES = {"key": noop("key"), "fill": noop("fill"), "accent": noop("accent"), "background": noop("background")}


def said(role: str) -> str:
    return _(ROLES[role])
