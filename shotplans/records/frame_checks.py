"""The checks of a test frame. Belongs here: the fourteen, each with its sign of failing and the first remedy, and what
a file alone can say to some of them, always with the number. Not here: what people answered (`models.frames`).

Signs and remedies are common practice, no source; the limits are starting values the studio may disagree with.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from shotplans.records.frame_settings import Difference
from studio.tongue import gettext as _
from studio.tongue import noop

CLIPPED_SHARE, BLOCKED_SHARE = 0.005, 0.10
GREY_MIRED = 10.0
BLACK_MEAN = 8.0  # levels of 255


@dataclass(frozen=True)
class Check:
    """One thing to look for."""

    code: str
    looks_at: str
    sign: str
    first: str

    @property
    def says(self) -> str:
        return _(self.looks_at)

    @property
    def fails(self) -> str:
        return _(self.sign)

    @property
    def remedy(self) -> str:
        return _(self.first)


CHECKS = (
    Check(
        "settings", noop("Aperture, shutter, ISO as set"),
        noop("differ from what was metered"), noop("reset, refire"),
    ),
    Check(
        "sync", noop("Sync"),
        noop("a dark band, or a black frame with a good reading"),
        noop("one step slower shutter; trigger's battery; try the cable"),
    ),
    Check(
        "clipped", noop("Highlights"),
        noop("skin or white cloth is burnt"), noop("power down 0.2 to 0.3, feather"),
    ),
    Check(
        "blocked", noop("Shadow side"),
        noop("blocked"), noop("raise the fill 0.3"),
    ),
    Check(
        "white", noop("White balance"),
        noop("the grey card is not neutral"), noop("set it from the card"),
    ),
    Check(
        "catchlights", noop("Catchlights"),
        noop("missing, or two in one eye"), noop("lower key or chin; hide the second source"),
    ),
    Check(
        "nose", noop("Nose shadow"),
        noop("touches the lip, or meets the cheek unplanned"), noop("key up or down, then its bearing"),
    ),
    Check(
        "stray", noop("Stray shadows"),
        noop("on the ground, of a stand or the hair light"), noop("sitter forward, flag"),
    ),
    Check(
        "glasses", noop("Glasses"),
        noop("glare, or the rim over the iris"), noop("chin down, temples up, then raise the key"),
    ),
    Check(
        "ground", noop("Ground"),
        noop("edge of the paper, a crease, a stand in the frame"), noop("crop or pull"),
    ),
    Check(
        "base", noop("Base and horizon"),
        noop("tilted; feet or hands cut at a joint"), noop("level the camera, frame between joints"),
    ),
    Check(
        "hands", noop("Hands"),
        noop("fists, backs to the camera, hidden fingers"), noop("edge of the hand, a soft curve"),
    ),
    Check(
        "wardrobe", noop("Wardrobe"),
        noop("collar, lint, tag, straps, a bulging pocket"), noop("ask; mirror; then tidy with leave"),
    ),
    Check(
        "faces", noop("Every face"),
        noop("a hidden eye, a soft corner"), noop("look at full size left, right, front, back"),
    ),
)  # fmt: skip
BY_CODE = {check.code: check for check in CHECKS}


@dataclass(frozen=True)
class Found:
    """What a file says to one check: whether it passes, and the number it was judged by."""

    passed: bool
    says: str


def judged(differences: Sequence[Difference], look: dict[str, Any] | None) -> dict[str, Found]:
    """What the file alone can answer, by the code of the check."""
    found = {}
    exposure = [d for d in differences if d.what in ("aperture", "ISO", "shutter")]
    if exposure:
        wrong = [
            _("{what} {actual}, planned {planned}: {says}").format(
                what=d.name, actual=d.actual, planned=d.planned, says=d.says
            )
            for d in exposure
            if d.broken
        ]
        found["settings"] = Found(not wrong, "; ".join(wrong) or ", ".join(d.actual for d in exposure))
    shutter = next((d for d in differences if d.dark_band), None)
    if shutter:
        found["sync"] = Found(False, f"{shutter.actual}: {shutter.says}")
    balance = next((d for d in differences if d.what == "white balance" and d.broken), None)
    if balance:
        found["white"] = Found(False, balance.says)
    return found | (_of_picture(look) if look else {})


def _of_picture(look: dict[str, Any]) -> dict[str, Found]:
    clipped, red, blocked = look["clipped"], look["red_clipped"], look["blocked"]
    found = {
        "clipped": Found(
            clipped <= CLIPPED_SHARE,
            _("{any} burnt in any colour, {red} in red").format(any=percent(clipped), red=percent(red)),
        ),
        "blocked": Found(blocked <= BLOCKED_SHARE, _("{part} without any drawing").format(part=percent(blocked))),
    }
    mean = mean_level(look)
    if mean < BLACK_MEAN:
        found["sync"] = Found(False, _("the whole frame is at level {mean} of 255: black").format(mean=f"{mean:.0f}"))
    return found


def mean_level(look: dict[str, Any]) -> float:
    """Mean level of the green channel, 0 to 255, from its bins' middles."""
    bins = look["bins"][1]
    width = 256 / len(bins)
    return float(sum(n * (at + 0.5) * width for at, n in enumerate(bins)) / max(1, sum(bins)))


def percent(share: float) -> str:
    """A share with as many digits as it needs: 0.4 %, 12 %."""
    return f"{100 * share:.0f} %" if share >= 0.1 else f"{100 * share:.1f} %"
