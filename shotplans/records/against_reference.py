"""A frame against its reference by the eyes. Belongs here: eye line, head height and what they differ by, from two
marks on each picture. Pure: places are shares (0 to 1) of a picture's width and height, from the upper left."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot

from studio.tongue import gettext as _

HEAD_IN_EYES = 3.65
"""Chin to crown, 230 mm (`planner.anatomy`), over 63 mm between the pupils (Dodgson 2004), of a face to the lens."""
EYES_UNDER_CROWN = 0.5  # the eyes lie in the middle of the head: drawing schools' rule, no source

Eyes = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Lines:
    """What is ruled on a picture, as shares of its height and width: the eye line, the head's top and bottom."""

    eye: float
    top: float
    bottom: float
    middle: float
    tilt_deg: float
    head: float


@dataclass(frozen=True)
class Offset:
    """How a frame lies beside its reference: percent of the picture's height and width, head size in percent of the
    reference's, degrees of tilt. + is lower, to the right, larger, clockwise."""

    eye_line: float
    sideways: float
    head_size: float
    tilt_deg: float


def lines(eyes: Eyes, width: int, height: int) -> Lines:
    """The lines of a picture of that size in pixels. ValueError where the eyes are one point.

    Head height is the eyes' distance times 3.65: right for a face to the lens, too small by the cosine of its turn, so
    two faces turned alike compare rightly.
    """
    (x1, y1), (x2, y2) = eyes
    across, down = (x2 - x1) * width / height, y2 - y1  # both as shares of the height
    apart = hypot(across, down)
    if apart <= 0:
        raise ValueError("two eyes lie apart")
    head, eye = HEAD_IN_EYES * apart, (y1 + y2) / 2
    return Lines(
        eye=eye, top=eye - EYES_UNDER_CROWN * head, bottom=eye + (1 - EYES_UNDER_CROWN) * head, middle=(x1 + x2) / 2,
        tilt_deg=degrees(atan2(down, across)), head=head,
    )  # fmt: skip


def offset(new: Lines, reference: Lines) -> Offset:
    """By how much a frame differs from its reference."""
    return Offset(
        eye_line=100 * (new.eye - reference.eye), sideways=100 * (new.middle - reference.middle),
        head_size=100 * (new.head / reference.head - 1), tilt_deg=new.tilt_deg - reference.tilt_deg,
    )  # fmt: skip


def in_words(found: Offset) -> list[tuple[str, str]]:
    """Each offset with its name, the number first."""
    return [
        (
            _("eye line"),
            _percent(found.eye_line, _("{percent} of the height lower"), _("{percent} of the height higher")),
        ),
        (_("head height"), _percent(found.head_size, _("{percent} larger"), _("{percent} smaller"))),
        (
            _("sideways"),
            _percent(found.sideways, _("{percent} of the width to the right"), _("{percent} of the width to the left")),
        ),
        (_("tilt of the eyes"), _tilt(found.tilt_deg)),
    ]


def head_beside(head: float, wanted: float) -> str:
    """A head's share of the picture's height beside the one that was wanted, both 0 to 1, the numbers first."""
    return _("{wanted} of the height: {off} here").format(
        wanted=f"{100 * wanted:.0f} %",
        off=_percent(100 * (head / wanted - 1), _("{percent} larger"), _("{percent} smaller")),
    )


def _tilt(degrees_over: float) -> str:
    if abs(degrees_over) < 0.05:
        return _("none")
    said = _("{degrees}° clockwise") if degrees_over > 0 else _("{degrees}° anticlockwise")
    return said.format(degrees=f"{abs(degrees_over):.1f}")


def _percent(value: float, more: str, less: str) -> str:
    if abs(value) < 0.05:
        return _("none")
    return (more if value >= 0 else less).format(percent=f"{abs(value):.1f} %")
