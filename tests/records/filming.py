"""Camera files for tests, made by a writer that is not the readers'. Belongs here: whole ones and their entries. Broken
ones are cut and bent beside the test that needs them."""

from __future__ import annotations

import io
from datetime import datetime
from fractions import Fraction

import numpy as np
import piexif
from PIL import Image

MOMENT = datetime(2026, 12, 3, 9, 41, 12)


def entries(
    *,
    f: float = 8.0,
    shutter: tuple[int, int] = (1, 200),
    iso: int = 100,
    mm: int = 85,
    at: datetime | str | None = MOMENT,
    zone: str = "+00:00",
    auto: bool = False,
    flash: bool = True,
    note: bytes = b"",
) -> bytes:
    """Exif as a camera would write it, with a place and serial numbers that nobody may keep."""
    aperture = Fraction(str(f))
    taken = at.strftime("%Y:%m:%d %H:%M:%S") if isinstance(at, datetime) else at
    exif = {
        piexif.ExifIFD.FNumber: (aperture.numerator, aperture.denominator),
        piexif.ExifIFD.ExposureTime: shutter,
        piexif.ExifIFD.ISOSpeedRatings: iso,
        piexif.ExifIFD.FocalLength: (mm, 1),
        piexif.ExifIFD.WhiteBalance: 0 if auto else 1,
        piexif.ExifIFD.Flash: 1 if flash else 0,
        piexif.ExifIFD.BodySerialNumber: b"SERIAL-77",
        piexif.ExifIFD.OffsetTimeOriginal: zone.encode(),
    }
    if taken is not None:
        exif[piexif.ExifIFD.DateTimeOriginal] = taken.encode()
    if note:
        exif[piexif.ExifIFD.MakerNote] = note
    place = {piexif.GPSIFD.GPSLatitude: ((51, 1), (30, 1), (0, 1)), piexif.GPSIFD.GPSLatitudeRef: b"N"}
    written: bytes = piexif.dump({"0th": {}, "Exif": exif, "GPS": place})
    return written


def picture(levels: object = 118, *, width: int = 240, height: int = 160) -> Image.Image:
    """One grey, or an array of levels."""
    if isinstance(levels, int):
        levels = np.full((height, width, 3), levels, np.uint8)
    return Image.fromarray(np.asarray(levels, np.uint8))


def jpeg(image: Image.Image | None = None, exif: bytes | None = None, *, quality: int = 90) -> bytes:
    """A JPEG with its entries; `exif` b"" for one without."""
    out = io.BytesIO()
    (image or picture()).save(out, "JPEG", quality=quality, exif=entries() if exif is None else exif)
    return out.getvalue()


def raw(exif: bytes | None = None, *, size: int = 0) -> bytes:
    """A raw made like a TIFF: the directory in front, then sensor data."""
    front = (exif or entries())[6:]  # without the mark a JPEG puts before it
    return front + bytes(max(0, size - len(front)))
