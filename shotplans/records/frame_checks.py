"""The checks of a test frame. Belongs here: the fourteen, each with its sign of failing and the first remedy, and what
a file alone can say to some of them, always with the number. Not here: what people answered (`models.frames`).

Signs and remedies are common practice, no source; the limits are starting values the studio may disagree with.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from shotplans.records.frame_settings import Difference

CLIPPED_SHARE, BLOCKED_SHARE = 0.005, 0.10
GREY_STOPS, GREY_MIRED = 0.3, 10.0
BLACK_MEAN = 8.0  # levels of 255


@dataclass(frozen=True)
class Check:
    """One thing to look for."""

    code: str
    says: str
    fails: str
    remedy: str


CHECKS = (
    Check("settings", "Aperture, shutter, ISO as set", "differ from what was metered", "reset, refire"),
    Check(
        "sync", "Sync", "a dark band, or a black frame with a good reading",
        "one step slower shutter; trigger's battery; try the cable",
    ),
    Check("clipped", "Highlights", "skin or white cloth is burnt", "power down 0.2 to 0.3, feather"),
    Check("blocked", "Shadow side", "blocked", "raise the fill 0.3"),
    Check("white", "White balance", "the grey card is not neutral", "set it from the card"),
    Check("catchlights", "Catchlights", "missing, or two in one eye", "lower key or chin; hide the second source"),
    Check("nose", "Nose shadow", "touches the lip, or meets the cheek unplanned", "key up or down, then its bearing"),
    Check("stray", "Stray shadows", "on the ground, of a stand or the hair light", "sitter forward, flag"),
    Check("glasses", "Glasses", "glare, or the rim over the iris", "chin down, temples up, then raise the key"),
    Check("ground", "Ground", "edge of the paper, a crease, a stand in the frame", "crop or pull"),
    Check("base", "Base and horizon", "tilted; feet or hands cut at a joint", "level the camera, frame between joints"),
    Check("hands", "Hands", "fists, backs to the camera, hidden fingers", "edge of the hand, a soft curve"),
    Check("wardrobe", "Wardrobe", "collar, lint, tag, straps, a bulging pocket", "ask; mirror; then tidy with leave"),
    Check("faces", "Every face", "a hidden eye, a soft corner", "look at full size left, right, front, back"),
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
        wrong = [f"{d.what} {d.actual}, planned {d.planned}: {d.says}" for d in exposure if d.broken]
        found["settings"] = Found(not wrong, "; ".join(wrong) or ", ".join(d.actual for d in exposure))
    shutter = next((d for d in differences if d.what == "shutter" and "dark band" in d.says), None)
    if shutter:
        found["sync"] = Found(False, f"{shutter.actual}: {shutter.says}")
    balance = next((d for d in differences if d.what == "white balance" and d.broken), None)
    if balance:
        found["white"] = Found(False, balance.says)
    return found | (_of_picture(look) if look else {})


def _of_picture(look: dict[str, Any]) -> dict[str, Found]:
    clipped, red, blocked = look["clipped"], look["red_clipped"], look["blocked"]
    found = {
        "clipped": Found(clipped <= CLIPPED_SHARE, f"{percent(clipped)} burnt in any colour, {percent(red)} in red"),
        "blocked": Found(blocked <= BLOCKED_SHARE, f"{percent(blocked)} without any drawing"),
    }
    mean = mean_level(look)
    if mean < BLACK_MEAN:
        found["sync"] = Found(False, f"the whole frame is at level {mean:.0f} of 255: black")
    return found


def mean_level(look: dict[str, Any]) -> float:
    """Mean level of the green channel, 0 to 255, from its bins' middles."""
    bins = look["bins"][1]
    width = 256 / len(bins)
    return float(sum(n * (at + 0.5) * width for at, n in enumerate(bins)) / max(1, sum(bins)))


def percent(share: float) -> str:
    """A share with as many digits as it needs: 0.4 %, 12 %."""
    return f"{100 * share:.0f} %" if share >= 0.1 else f"{100 * share:.1f} %"
