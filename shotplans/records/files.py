"""Camera files by their first and last bytes. Belongs here: what kind of file it is, which parts of it are read, how it
is known again, and the number in its name. Not here: what the camera wrote into it (`exif`), its picture (`pictures`).

A file is known by its content, never by what it is called: a text renamed to .jpg is a text.
"""

from __future__ import annotations

import hashlib
import io
import re
from dataclasses import dataclass
from enum import StrEnum
from typing import BinaryIO

HEAD_BYTES = TAIL_BYTES = 1 << 20  # of a raw: its directory stands in front or, in some, at the end
KNOWN_BY_HEAD, KNOWN_BY_TAIL = 1 << 18, 1 << 16
ONE_READ_BYTES, MOST_BYTES, MOST_READS = 1 << 18, 1 << 24, 20_000  # an honest file gives a few kilobytes, bit by bit
NAME_LETTERS = 120
_JPEG = b"\xff\xd8\xff"
# Little and big endian TIFF, and the kin whose makers changed the number behind the byte order.
_TIFF = (b"II*\x00", b"MM\x00*", b"IIRO", b"IIRS", b"IIU\x00")
_BEFORE, _NUMBER = re.compile(r".*[\\/]", re.DOTALL), re.compile(r"(\d{1,9})(?!.*\d)")


class Kind(StrEnum):
    """What a file is by its first bytes."""

    JPEG = "jpeg"
    TIFF = "tiff"
    OTHER = "other"


@dataclass(frozen=True)
class Piece:
    """A file as far as it is read: its size in bytes, its beginning and its end, which may overlap."""

    size: int
    head: bytes
    tail: bytes

    @property
    def kind(self) -> Kind:
        if self.head.startswith(_JPEG):
            return Kind.JPEG
        return Kind.TIFF if self.head[:4] in _TIFF else Kind.OTHER

    @property
    def digest(self) -> str:
        """What the file is known again by: its size, its first 256 and its last 64 kilobytes, as 64 hex digits."""
        known = hashlib.blake2b(str(self.size).encode(), digest_size=32)
        known.update(self.head[:KNOWN_BY_HEAD])
        known.update(self.tail[-KNOWN_BY_TAIL:])
        return known.hexdigest()


def read_piece(file: BinaryIO) -> Piece:
    """The beginning and the end of an open file; never more than two megabytes of it."""
    size = file.seek(0, io.SEEK_END)
    file.seek(0)
    head = file.read(HEAD_BYTES)
    file.seek(max(0, size - TAIL_BYTES))
    return Piece(size, head, file.read(TAIL_BYTES))


class TooMuchAsked(OSError):
    """A file sends its reader round and round; it is not read any further."""


class Sparse(io.RawIOBase):
    """A file of which only a piece is there, for readers that seek: what is missing reads as zeros.

    It gives little at once and only so often, whatever the file's own directory claims. Raises TooMuchAsked.
    """

    def __init__(self, piece: Piece) -> None:
        super().__init__()
        self._piece, self._at, self._reads, self._given = piece, 0, 0, 0

    def readable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def seek(self, offset: int, whence: int = io.SEEK_SET) -> int:
        base = {io.SEEK_SET: 0, io.SEEK_CUR: self._at, io.SEEK_END: self._piece.size}[whence]
        self._at = max(0, base + offset)
        return self._at

    def tell(self) -> int:
        return self._at

    def read(self, count: int = -1) -> bytes:
        self._reads += 1
        if self._reads > MOST_READS or self._given > MOST_BYTES:
            raise TooMuchAsked
        end = min(self._piece.size, self._at + (ONE_READ_BYTES if count < 0 else min(count, ONE_READ_BYTES)))
        found = self._between(self._at, end) if end > self._at else b""
        self._at += len(found)
        self._given += len(found)
        return found

    def _between(self, start: int, end: int) -> bytes:
        head, tail, size = self._piece.head, self._piece.tail, self._piece.size
        if end <= len(head):
            return head[start:end]
        tail_from = size - len(tail)
        if start >= tail_from:
            return tail[start - tail_from : end - tail_from]
        first = head[start:]
        last = tail[: end - tail_from] if end > tail_from else b""
        return first + bytes(end - start - len(first) - len(last)) + last


def plain_name(text: str) -> str:
    """The last part of a file's name, without folders and control characters; `?` where nothing is left.

    `../../x.jpg` and `C:\\x.jpg` are x.jpg: nothing is ever kept under the name a file came with.
    """
    last = _BEFORE.sub("", text)
    kept = "".join(c for c in last if c.isprintable()).strip()[-NAME_LETTERS:]
    return kept if kept.strip(".") else "?"


def number_in(name: str) -> int | None:
    """The last number in a file's name before its ending, as cameras count: LQ_0041.JPG is 41."""
    found = _NUMBER.search(stem(name))
    return int(found[1]) if found else None


def stem(name: str) -> str:
    """The name without its ending, folded: a frame's JPEG and its raw have the same."""
    front, dot, _ending = name.rpartition(".")
    return (front if dot else name).casefold()
