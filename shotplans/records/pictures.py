"""The picture in a camera's JPEG. Belongs here: how it is spread over the levels, what is clipped or blocked, one patch
of it, and a small copy. Not here: what the camera wrote beside it (`exif`), what a patch says of the light
(`light.pictures`).

A large picture is sampled: the decoder itself reduces it by 2, 4 or 8 each way as long as half a million pixels are
left, so each sample is the mean of a block. A broad burnt part counts as it is; a spark smaller than a block does not.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import BinaryIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageOps

from shotplans.light.pictures import linear
from studio.tongue import gettext as _

Image.MAX_IMAGE_PIXELS = 220_000_000  # the largest sensors there are stay under it; the library refuses twice as many
MOST_PROGRESSIVE = 64_000_000  # such a JPEG is held whole as it is read, at 7 bytes a pixel: under half a gigabyte
CLIPPED_FROM, BLOCKED_TO = 253, 3  # levels; a JPEG is uncertain by about two: common practice, no source
LEAST_SAMPLES = 500_000
BINS = 64
ROWS, COLUMNS = 24, 36  # parts of the picture that are said to be clipped or blocked
SMALL_PIXELS = 960
ORIENTATION = 0x0112  # the entry of Exif that says how the camera was held
PATCH_SHARE = 0.03  # half the side of a patch, of the picture's shorter side


class NoPicture(ValueError):
    """The picture cannot be looked at; str() says why, fit for the file's line."""


@dataclass(frozen=True, kw_only=True)
class Look:
    """A picture in numbers. Shares are of all samples; `bins` are 64 equal steps of 256 levels for red, green, blue."""

    width: int
    height: int
    samples: int
    reduced: int
    bins: tuple[tuple[int, ...], ...]
    clipped: float
    red_clipped: float
    blocked: float
    clipped_parts: tuple[int, ...]
    blocked_parts: tuple[int, ...]


@dataclass(frozen=True)
class Patch:
    """The mean of a patch: linear red, green, blue relative to white, and the share of it that is clipped in red."""

    rgb: tuple[float, float, float]
    levels: tuple[float, float, float]
    red_clipped: float


def open_jpeg(file: BinaryIO) -> Image.Image:
    """The picture, not yet decoded. Raises NoPicture for what is none, and for one too large to be opened safely."""
    try:
        found = Image.open(file, formats=("JPEG",))
    except Image.DecompressionBombError:
        raise NoPicture(_("the picture is too large to be opened")) from None
    except Exception:
        raise NoPicture(_("the picture in it cannot be opened")) from None
    megapixels = found.width * found.height / 1e6
    if found.width * found.height > Image.MAX_IMAGE_PIXELS:
        raise NoPicture(
            _("the picture has {megapixels} megapixels; 220 are opened at most").format(megapixels=f"{megapixels:.0f}")
        )
    if found.info.get("progressive") and found.width * found.height > MOST_PROGRESSIVE:
        raise NoPicture(
            _("the picture has {megapixels} megapixels; 64 of a progressive JPEG are opened, 220 of a plain one")
            .format(megapixels=f"{megapixels:.0f}")
        )  # fmt: skip
    return found


def _reduced(picture: Image.Image) -> tuple[Image.Image, int]:
    """The picture decoded at the least size that still has half a million samples, and by how much it was reduced."""
    width, height = picture.size
    by = next((n for n in (8, 4, 2) if (width // n) * (height // n) >= LEAST_SAMPLES), 1)
    picture.draft("RGB", (width // by, height // by))
    try:
        found = picture.convert("RGB")
    except Exception:
        raise NoPicture(_("the picture stops in the middle")) from None
    return found, by


def look(file: BinaryIO) -> tuple[Look, Image.Image]:
    """The numbers of a picture, and the samples they were taken from, upright. Raises NoPicture."""
    picture = open_jpeg(file)
    full, turned = picture.size, _orientation(picture)
    samples, by = _reduced(picture)
    if turned != 1:
        samples.getexif()[ORIENTATION] = turned
        samples = ImageOps.exif_transpose(samples)
    width, height = full if turned < 5 else full[::-1]
    levels = np.asarray(samples)
    clipped, blocked = levels.max(axis=2) >= CLIPPED_FROM, levels.max(axis=2) <= BLOCKED_TO
    counts = np.asarray(samples.histogram(), dtype=np.int64).reshape(3, BINS, -1).sum(axis=2)
    found = Look(
        width=width, height=height, samples=clipped.size, reduced=by,
        bins=tuple(tuple(int(n) for n in row) for row in counts),
        clipped=float(clipped.mean()), red_clipped=float((levels[..., 0] >= CLIPPED_FROM).mean()),
        blocked=float(blocked.mean()), clipped_parts=_parts(clipped), blocked_parts=_parts(blocked),
    )  # fmt: skip
    return found, samples


def _parts(mask: NDArray[np.bool_]) -> tuple[int, ...]:
    """The numbers, row by row, of the parts of which more than half is so."""
    rows = [int(n) for n in np.linspace(0, mask.shape[0], ROWS + 1)]
    columns = [int(n) for n in np.linspace(0, mask.shape[1], COLUMNS + 1)]
    if mask.shape[0] < ROWS or mask.shape[1] < COLUMNS:
        return ()
    sums = np.add.reduceat(np.add.reduceat(mask.astype(np.int64), rows[:-1], axis=0), columns[:-1], axis=1)
    sizes = np.diff(rows)[:, None] * np.diff(columns)[None, :]
    return tuple(int(n) for n in np.flatnonzero(2 * sums > sizes))


@dataclass(frozen=True)
class Small:
    """A small copy as a JPEG, with its size in pixels."""

    jpeg: bytes
    width: int
    height: int


def small_copy(samples: Image.Image) -> Small:
    """A JPEG of at most 960 pixels, made anew from the levels alone: nothing the camera wrote is left in it."""
    small = samples.copy()
    small.thumbnail((SMALL_PIXELS, SMALL_PIXELS))
    out = io.BytesIO()
    Image.fromarray(np.asarray(small)).save(out, "JPEG", quality=88)
    return Small(out.getvalue(), small.width, small.height)


def _orientation(picture: Image.Image) -> int:
    """How the camera was held, 1 to 8 as Exif counts; 1 where the file does not say or says nonsense."""
    try:
        found = picture.getexif().get(ORIENTATION, 1)
    except Exception:
        return 1
    return found if isinstance(found, int) and 1 <= found <= 8 else 1


def patch(picture: Image.Image, x: float, y: float) -> Patch:
    """The mean of a square about a place given as shares (0 to 1) of width and height, kept inside the picture."""
    levels = np.asarray(picture.convert("RGB"))
    height, width = levels.shape[:2]
    half = max(2, round(PATCH_SHARE * min(height, width)))
    left, top = (min(max(0, round(at * n) - half), max(0, n - 2 * half)) for at, n in ((x, width), (y, height)))
    part = levels[top : top + 2 * half, left : left + 2 * half].reshape(-1, 3)
    red, green, blue = linear(part).mean(axis=0)
    means = part.mean(axis=0)
    return Patch(
        (float(red), float(green), float(blue)), (float(means[0]), float(means[1]), float(means[2])),
        float((part[:, 0] >= CLIPPED_FROM).mean()),
    )  # fmt: skip
