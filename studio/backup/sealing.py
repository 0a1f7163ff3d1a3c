"""A file that only a key opens. Belongs here: the sealed form, writing it piece by piece and reading it from any
place, so that neither takes more memory than one piece. Knows no Django. Not here: what is inside.

The form: a mark, 16 random bytes of salt, then pieces of 64 KiB, each sealed with AES-256-GCM and 16 bytes longer
for it. The key is made of the passphrase and the salt by scrypt (n = 2^17, r = 8, p = 1: 128 MB and a third of a
second for each guess), so each file has a key of its own and the pieces can simply be counted: the nonce is the
piece's number, and in its last byte whether it is the last one. A piece that was changed, moved, left out or put in
at the end is refused, and so is a file that breaks off between two pieces. The cipher and scrypt are those of the
library `cryptography`; counting pieces with the last one marked is the STREAM construction of Hoang, Reyhanitabar,
Rogaway and Vizár (2015).
"""

from __future__ import annotations

import io
import os
from typing import IO

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.scrypt import Scrypt

MARK = b"TENTHSTOP SEALED 1\n"
SALT, PIECE, TAG = 16, 64 * 1024, 16
COST = 2**17
HEAD = len(MARK) + SALT


class WrongKey(Exception):
    """The key does not open the file, or the file is not as it was written."""


class Sealer:
    """Takes bytes and writes them sealed; `finish` writes the last piece."""

    def __init__(self, out: IO[bytes], key: str) -> None:
        salt = os.urandom(SALT)
        self._out, self._cipher = out, _cipher(key, salt)
        self._head, self._held, self._number = MARK + salt, bytearray(), 0
        out.write(self._head)

    def write(self, data: bytes) -> int:
        self._held += data
        while len(self._held) > PIECE:  # the last piece is never empty, and held back until `finish`
            self._put(bytes(self._held[:PIECE]), last=False)
            del self._held[:PIECE]
        return len(data)

    def finish(self) -> None:
        self._put(bytes(self._held), last=True)

    def _put(self, piece: bytes, *, last: bool) -> None:
        self._out.write(self._cipher.encrypt(_nonce(self._number, last), piece, self._head))
        self._number += 1


class Opened(io.RawIOBase):
    """What is in a sealed file, read from any place. Raises `WrongKey`, at once where the key is wrong."""

    def __init__(self, file: IO[bytes], key: str) -> None:
        file.seek(0, io.SEEK_END)
        length = file.tell() - HEAD
        file.seek(0)
        self._head = file.read(HEAD)
        if length < TAG or not self._head.startswith(MARK):
            raise WrongKey
        self._file, self._cipher = file, _cipher(key, self._head[len(MARK) :])
        self._count = -(-length // (PIECE + TAG))
        self._size = length - self._count * TAG
        self._at, self._number, self._piece = 0, -1, b""
        self._fetch(0)

    def readable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def seek(self, offset: int, whence: int = io.SEEK_SET) -> int:
        self._at = max(0, offset + {io.SEEK_SET: 0, io.SEEK_CUR: self._at, io.SEEK_END: self._size}[whence])
        return self._at

    def readinto(self, buffer: bytearray) -> int:  # type: ignore[override]
        if self._at >= self._size:
            return 0
        self._fetch(self._at // PIECE)
        inside = self._at % PIECE
        part = self._piece[inside : inside + len(buffer)]
        buffer[: len(part)] = part
        self._at += len(part)
        return len(part)

    def _fetch(self, number: int) -> None:
        if number == self._number:
            return
        self._file.seek(HEAD + number * (PIECE + TAG))
        sealed = self._file.read(PIECE + TAG)
        try:
            self._piece = self._cipher.decrypt(_nonce(number, number == self._count - 1), sealed, self._head)
        except InvalidTag:
            raise WrongKey from None
        self._number = number


def _cipher(key: str, salt: bytes) -> AESGCM:
    return AESGCM(Scrypt(salt=salt, length=32, n=COST, r=8, p=1).derive(key.encode()))


def _nonce(number: int, last: bool) -> bytes:
    return number.to_bytes(11, "big") + (b"\1" if last else b"\0")
