"""A picture from a phone made into one that may be kept: turned upright, no larger than a page needs, and nothing else
of the file. Belongs here: reading and writing bytes with Pillow, and why not. Not here: where they are kept and who
sees them."""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from pathlib import Path

from django.utils.translation import gettext_lazy as _
from PIL import Image, ImageOps

MOST_BYTES = 30_000_000
MOST_PIXELS = 120_000_000
LONG_SIDE = 2000
QUALITY = 82
FORMATS = ("JPEG", "PNG", "WEBP")  # what phones send to a page; others say so
WHY_NOT = {
    "empty": _("the file is empty"),
    "large": _("the file is over 30 MB"),
    "unknown": _("no picture a page can show (JPEG, PNG or WebP)"),
    "bomb": _("the picture is over 120 megapixels"),
    "broken": _("the picture breaks off"),
}


class NoPicture(ValueError):
    """The bytes make no picture; `code` is empty, large, unknown, bomb or broken, `str()` says it."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code

    def __str__(self) -> str:
        return str(WHY_NOT[self.code])


@dataclass(frozen=True)
class Picture:
    """A JPEG made anew."""

    body: bytes
    width: int
    height: int


def put(path: Path, body: bytes) -> None:
    """A new file, whole or not at all: a disk that is full leaves no part of it. Raises OSError."""
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        path.write_bytes(body)
    except OSError:
        path.unlink(missing_ok=True)
        raise


def made_anew(raw: bytes) -> Picture:
    """The picture alone, upright, at most 2000 px long, as a JPEG. Raises NoPicture; sizes are read before anything is
    decoded, so that a small file that claims a huge picture costs nothing."""
    if not raw:
        raise NoPicture("empty")
    if len(raw) > MOST_BYTES:
        raise NoPicture("large")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # our own limit of pixels stands below
            found = Image.open(io.BytesIO(raw), formats=FORMATS)
    except Image.DecompressionBombError:
        raise NoPicture("bomb") from None
    except (OSError, ValueError, SyntaxError):
        raise NoPicture("unknown") from None
    if found.width * found.height > MOST_PIXELS:
        raise NoPicture("bomb")
    try:
        found.draft("RGB", (LONG_SIDE, LONG_SIDE))  # a JPEG is decoded at a fraction where that is enough
        if found.mode in ("RGB", "L", "CMYK"):
            found.thumbnail((LONG_SIDE, LONG_SIDE))  # before it is copied: twice 120 megapixels are a gigabyte
        upright = ImageOps.exif_transpose(found).convert("RGB")
        upright.thumbnail((LONG_SIDE, LONG_SIDE))
        bare = Image.new("RGB", upright.size)
        bare.paste(upright)  # a new picture carries nothing of the old one's text, place or serial
        out = io.BytesIO()
        bare.save(out, "JPEG", quality=QUALITY, optimize=True)
    except Exception:  # a picture from outside may break a decoder in any way: none of them is ours to mend
        raise NoPicture("broken") from None
    return Picture(out.getvalue(), bare.width, bare.height)
