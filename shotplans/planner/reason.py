"""One reason: what it is about, its code with values, the paths of the brief it came from, and its source."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from shotplans.planner import words
from shotplans.planner.plan import Light
from studio.tongue import gettext as _
from studio.tongue import noop

TRADE = noop("common practice, no source")
RELIEF = noop("relief index, our own study, checked by traced rays [LIGHT-3]")
OPTICS = noop("geometry and photometry [HOWELL], [CIE-DISTANCE]")


@dataclass(frozen=True)
class Reason:
    """Why one number is what it is."""

    about: str
    code: str
    paths: tuple[str, ...]
    source: str
    values: dict[str, Any] = field(default_factory=dict)

    def printed(self) -> dict[str, Any]:
        return {
            "about": self.about,
            "because": words.reason(self.code, self.values),
            "from": list(self.paths),
            "source": _(self.source),
        }


def light_path(light: Light) -> str:
    """Where a light stands in its set-up's list: lights are listed in the order of their letters."""
    return f"lights[{ord(light.letter) - ord('A')}]"
