"""Reading papers back: words of all pages, and the checks every paper must pass. Not a test itself."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import Any

import numpy as np
import pdfplumber
import pypdfium2
import zxingcpp
from pypdf import PdfReader

MM = 72 / 25.4
SMALLEST_POINTS = 9.0


def words_of(data: bytes) -> str:
    return " ".join("\n".join(page.extract_text() for page in PdfReader(BytesIO(data)).pages).split())


def pages_of(data: bytes) -> int:
    return len(PdfReader(BytesIO(data)).pages)


def codes_of(data: bytes, page: int = 0) -> list[str]:
    """What a phone reads off a page, rendered as a laser printer would."""
    picture = pypdfium2.PdfDocument(data)[page].render(scale=200 / 72).to_pil()
    return [code.text for code in zxingcpp.read_barcodes(picture)]


def faults(data: bytes) -> Iterator[str]:
    """What is wrong with a paper: over the margin, over another word, too small, in a font that is not embedded."""
    with pdfplumber.open(BytesIO(data)) as read:
        for page in read.pages:
            yield from _over_the_edge(page)
            yield from _over_another(page)
            yield from (f"small: {c['text']}" for c in page.chars if c["size"] < SMALLEST_POINTS)
    for page in PdfReader(BytesIO(data)).pages:
        for font in page["/Resources"]["/Font"].values():
            found = font.get_object()
            if "FiraSans" not in found["/BaseFont"] or "/FontFile2" not in found["/FontDescriptor"]:
                yield f"not embedded: {found['/BaseFont']}"


def _over_the_edge(page: Any) -> Iterator[str]:
    for kind in ("chars", "lines", "rects", "curves"):
        for thing in getattr(page, kind):
            inside = thing["x0"] >= 9.5 * MM and thing["x1"] <= page.width - 9.5 * MM
            if not (inside and thing["top"] >= 7.0 * MM and thing["bottom"] <= page.height - 6.0 * MM):
                yield f"page {page.page_number}, over the edge: {thing.get('text', kind)}"


def _over_another(page: Any) -> Iterator[str]:
    words = page.extract_words(x_tolerance=1.0, y_tolerance=1.0, use_text_flow=True)
    if not words:
        return
    x0, x1, top, bottom = (np.array([w[key] for w in words]) for key in ("x0", "x1", "top", "bottom"))
    across = np.minimum(x1[:, None], x1) - np.maximum(x0[:, None], x0)
    down = np.minimum(bottom[:, None], bottom) - np.maximum(top[:, None], top)
    least = np.minimum((bottom - top)[:, None], bottom - top)
    # A line's box includes its leading, of which neighbours share a little; letters do not touch below a third.
    for one, other in np.argwhere(np.triu((across >= 0.5) & (down >= 0.34 * least), 1)):
        yield f"page {page.page_number}, over another: {words[one]['text']} and {words[other]['text']}"
