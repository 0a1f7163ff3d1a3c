"""Codes on paper: an address as dark squares that a phone reads."""

from __future__ import annotations

from functools import lru_cache

import segno

QR_MM = 28.0


@lru_cache(maxsize=64)
def squares(url: str) -> tuple[tuple[int, ...], ...]:
    """The QR code of an address, with its quiet zone."""
    code = segno.make_qr(url, error="m")
    return tuple(tuple(int(bool(x)) for x in row) for row in code.matrix_iter(border=3))
