"""Reading papers back: words of all pages, and the checks every paper must pass. Not a test itself."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from functools import cache
from io import BytesIO
from typing import Any

import numpy as np
import pdfplumber
import pypdfium2
import zxingcpp
from pypdf import PdfReader
from pypdfium2 import raw

MM = 72 / 25.4
SMALLEST_POINTS = 9.0
INK = 0.5  # points by which letters must meet to touch
TEXT = raw.FPDF_PAGEOBJ_TEXT


@cache
def words_of(data: bytes) -> str:
    return " ".join("\n".join(page.extract_text() for page in PdfReader(BytesIO(data)).pages).split())


@cache
def pages_of(data: bytes) -> int:
    return len(PdfReader(BytesIO(data)).pages)


def codes_of(data: bytes, page: int = 0) -> list[str]:
    """What a phone reads off a page, rendered as a laser printer would."""
    picture = pypdfium2.PdfDocument(data)[page].render(scale=200 / 72).to_pil()
    return [code.text for code in zxingcpp.read_barcodes(picture)]


@cache
def boxes_of(data: bytes) -> tuple[dict[str, Any], ...]:
    """Every hollow box of all pages, sides in points."""
    with pdfplumber.open(BytesIO(data)) as read:
        return tuple(dict(box) for page in read.pages for box in page.rects if not box["fill"])


def boxes(data: bytes, least_mm: float) -> list[dict[str, Any]]:
    """Those of them to write or tick in, from this size on."""
    return [box for box in boxes_of(data) if min(box["width"], box["height"]) >= least_mm * MM - 0.1]


@cache
def faults(data: bytes) -> tuple[str, ...]:
    """What is wrong with a paper: over the margin, over another word, too small, in a font that is not embedded."""
    return tuple(_faults(data))


def _faults(data: bytes) -> Iterator[str]:
    with closing(pypdfium2.PdfDocument(data)) as read:
        for number, page in enumerate(read, start=1):
            width, height = page.get_size()
            things = [(one, *one.get_bounds()) for one in page.get_objects(textpage=page.get_textpage())]
            for one, left, low, right, high in things:
                aside = (9.5 if one.type == TEXT else 9.3) * MM  # a rule's box has its whole weight on either side
                inside = left >= aside and right <= width - aside
                if not (inside and high <= height - 7.0 * MM and low >= 6.0 * MM):
                    yield f"page {number}, over the edge: {_said(one)}"
            words = [(_said(one), one, box) for one, *box in things if one.type == TEXT and _said(one)]
            yield from (f"small: {said}" for said, one, _ in words if one.get_font_size() < SMALLEST_POINTS)
            for said, other in _over_another([box for *_, box in words]):
                yield f"page {number}, over another: {words[said][0]} and {words[other][0]}"
    for page in PdfReader(BytesIO(data)).pages:
        for font in page["/Resources"]["/Font"].values():
            found = font.get_object()
            if "FiraSans" not in found["/BaseFont"] or "/FontFile2" not in found["/FontDescriptor"]:
                yield f"not embedded: {found['/BaseFont']}"


def _said(one: Any) -> str:
    return str(one.extract()).strip() if one.type == TEXT else "a line"


def _over_another(boxes: list[list[float]]) -> Iterator[tuple[int, int]]:
    """Pairs of words whose ink meets: a box here is as high as the letters in it, without their leading."""
    if not boxes:
        return
    x0, low, x1, high = np.array(boxes).T
    across = np.minimum(x1[:, None], x1) - np.maximum(x0[:, None], x0)
    down = np.minimum(high[:, None], high) - np.maximum(low[:, None], low)
    yield from np.argwhere(np.triu((across >= INK) & (down >= INK), 1))
