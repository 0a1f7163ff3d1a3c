"""What a camera wrote into a file. Belongs here: reading the few entries that a plan can be held against, whatever
stands in them. Not here: comparing (`frame_settings`), the picture (`pictures`).

Serial numbers, names and places are never taken out of a file: only the entries named below are looked at. Every value
may be missing; one that makes no sense is taken as missing, and a time that cannot be read is said as it stands.
"""

from __future__ import annotations

import logging
import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from typing import Any

import exifread

from shotplans.records.files import KNOWN_BY_HEAD, Kind, Piece, Sparse
from studio.tongue import gettext as _
from studio.tongue import noop

NO_CAMERA_DATA = noop("no camera data read")
_TIME = "%Y:%m:%d %H:%M:%S"
_SAID_LETTERS = 24
# The library warns of every odd entry; what was not read is said once, by us, without what stood there.
logging.getLogger("exifread").setLevel(logging.CRITICAL)


class Unread(ValueError):
    """Nothing could be taken out of the file; str() says why, fit for the file's line."""


@dataclass(frozen=True, kw_only=True)
class CameraData:
    """One frame as its camera tells of it: f-number as engraved, seconds, mm. `taken` is naive where the camera did not
    say in which zone its clock stands; `odd_time` is what stood there where no time could be made of it."""

    f_number: float | None = None
    shutter_s: float | None = None
    iso: int | None = None
    focal_mm: float | None = None
    white_balance: str = ""  # "auto" or "by hand"
    flash_fired: bool | None = None
    taken: datetime | None = None
    odd_time: str = ""


def read_camera(piece: Piece) -> CameraData:
    """What the camera wrote into a JPEG or a TIFF-based raw. Raises Unread with the reason."""
    if piece.size == 0:
        raise Unread(_("the file is empty"))
    if piece.kind is Kind.OTHER:
        raise Unread(_("{nothing}: neither a JPEG nor a raw made like a TIFF").format(nothing=_(NO_CAMERA_DATA)))
    if piece.kind is Kind.JPEG:  # there the entries stand in front; what follows is only searched in vain
        front = piece.head[:KNOWN_BY_HEAD]
        piece = Piece(len(front), front, b"")
    found = _data(_entries(Sparse(piece)))
    if found == CameraData():
        raise Unread(_("{nothing}: the file has none, or it is damaged").format(nothing=_(NO_CAMERA_DATA)))
    return found


def _entries(file: Sparse) -> dict[str, Any]:
    """Every entry the library finds; none of a file it stumbles over, since any error may come out of a broken one."""
    try:
        found: dict[str, Any] = exifread.process_file(file, details=False, extract_thumbnail=False)
    except Exception:
        return {}
    return found


def _data(entries: dict[str, Any]) -> CameraData:
    balance, flash = _number(entries, "EXIF WhiteBalance"), _number(entries, "EXIF Flash")
    taken, odd = _taken(entries)
    iso = _number(entries, "EXIF ISOSpeedRatings", 1, 10_000_000)
    return CameraData(
        f_number=_number(entries, "EXIF FNumber", 0.3, 512) or _from_apex(entries),
        shutter_s=_number(entries, "EXIF ExposureTime", 1e-6, 86_400) or _from_shutter_value(entries),
        iso=round(iso) if iso else None,
        focal_mm=_number(entries, "EXIF FocalLength", 1, 10_000),
        white_balance={0: "auto", 1: "by hand"}.get(int(balance), "") if balance is not None else "",
        flash_fired=bool(int(flash) & 1) if flash is not None else None,
        taken=taken,
        odd_time=odd,
    )


def _number(entries: dict[str, Any], name: str, low: float = 0, high: float = 65_535) -> float | None:
    """The first value of an entry as a number within its range; None for text, 0/0 and whatever else it may be."""
    values = getattr(entries.get(name), "values", None)
    if not isinstance(values, list) or not values:
        return None
    value = values[0]
    try:
        number = float(value.num) / float(value.den) if hasattr(value, "den") else float(value)
    except (TypeError, ValueError, ZeroDivisionError, OverflowError):
        return None
    return number if math.isfinite(number) and low <= number <= high else None


def _from_apex(entries: dict[str, Any]) -> float | None:
    """Aperture from its APEX value Av = 2 log2 N, for cameras that write nothing else [APEX]."""
    return _power(_number(entries, "EXIF ApertureValue", 0, 18), lambda av: float(2 ** (av / 2)))


def _from_shutter_value(entries: dict[str, Any]) -> float | None:
    """Shutter time from its APEX value Tv = -log2 t [APEX]."""
    return _power(_number(entries, "EXIF ShutterSpeedValue", -17, 20), lambda tv: float(2**-tv))


def _power(value: float | None, of: Callable[[float], float]) -> float | None:
    return None if value is None else of(value)


def _taken(entries: dict[str, Any]) -> tuple[datetime | None, str]:
    text = _text(entries, "EXIF DateTimeOriginal") or _text(entries, "EXIF DateTimeDigitized")
    if not text:
        return None, ""
    try:
        moment = datetime.strptime(text[:19], _TIME)
    except ValueError:
        return None, text[:_SAID_LETTERS]
    if not 1990 <= moment.year <= 2100:  # a clock that was never set counts from a year before any such camera
        return None, text[:_SAID_LETTERS]
    return _in_its_zone(moment, _text(entries, "EXIF OffsetTimeOriginal")), ""


def _in_its_zone(moment: datetime, offset: str) -> datetime:
    """The moment with the zone its camera said (+01:00); as it is where none was said or none of the kind."""
    try:
        sign = {"+": 1, "-": -1}[offset[0]]
        hours, minutes = int(offset[1:3]), int(offset[4:6])
        return moment.replace(tzinfo=timezone(sign * timedelta(hours=hours, minutes=minutes)))
    except (KeyError, IndexError, ValueError):
        return moment


def _text(entries: dict[str, Any], name: str) -> str:
    value = getattr(entries.get(name), "values", "")
    if not isinstance(value, str):
        return ""
    return "".join(c for c in value if c.isprintable()).strip()
