"""A picture from a phone made into one that may be kept: turned upright, no larger than a page needs, and nothing else
of the file. Belongs here: reading and writing bytes with Pillow, and why not. Not here: where they are kept and who
sees them."""

from __future__ import annotations

import io
import threading
import warnings
from dataclasses import dataclass
from pathlib import Path

from django.utils.translation import gettext_lazy as _
from PIL import Image, ImageOps

MOST_BYTES = 30_000_000
MOST_PIXELS = 120_000_000
MOST_MEMORY = 400_000_000  # bytes while one is decoded; a small machine serves with a gigabyte
LONG_SIDE = 2000
QUALITY = 82
FORMATS = ("JPEG", "PNG", "WEBP")  # what phones send to a page; others say so
WHY_NOT = {
    "empty": _("the file is empty"),
    "large": _("the file is over 30 MB"),
    "unknown": _("no picture a page can show (JPEG, PNG or WebP)"),
    "bomb": _("the picture is over 120 megapixels"),
    "dear": _("the picture has too many pixels for this kind of file: save it as a plain JPEG"),
    "broken": _("the picture breaks off"),
}
# Bytes that decoding and turning takes for each pixel, measured with `tests.hard files`: a plain JPEG is read at a
# fraction, a progressive one holds all its coefficients, WebP two frames of it and their copy.
_PLAIN, _PROGRESSIVE, _WEBP, _BY_MODE, _OTHER_MODES = 1, 7, 16, {"L": 2, "RGB": 6}, 12
_turn = threading.Lock()  # of each process one at a time: eight threads would take as much memory eight times


class NoPicture(ValueError):
    """The bytes make no picture; `code` is empty, large, unknown, bomb, dear or broken, `str()` says it."""

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
    pixels = found.width * found.height
    if pixels > MOST_PIXELS:
        raise NoPicture("bomb")
    if pixels * _bytes_a_pixel(found) > MOST_MEMORY:
        raise NoPicture("dear")
    with _turn:
        return _decoded(found)


def _bytes_a_pixel(found: Image.Image) -> int:
    if found.format == "JPEG":
        return _PROGRESSIVE if found.info.get("progressive") else _PLAIN
    return _WEBP if found.format == "WEBP" else _BY_MODE.get(found.mode, _OTHER_MODES)


def _decoded(found: Image.Image) -> Picture:
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
