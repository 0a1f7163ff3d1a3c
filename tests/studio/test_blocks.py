"""Blocks of paper: everything that is put in is on the page, inside its edges, in both sizes."""

from __future__ import annotations

from io import BytesIO
from itertools import combinations

import pdfplumber
import pytest
from pypdf import PdfReader

from studio.paper import blocks
from studio.paper.blocks import Column
from studio.paper.page import A4, LETTER, MARGIN, PAPERS, Block, Document, Paper, write

MM = 72 / 25.4
COLUMNS = (Column("Receipt", 2), Column("What for", 5), Column("Amount", 2, right=True))
LONG = "An unusually long line about nothing in particular that has to break somewhere before the edge. " * 3


def everything(paper: Paper) -> list[Block]:
    return [
        blocks.head("Receipt R-0007", ["Ottoline Askew", LONG], from_whom=["Lindenmere Portraits", "3 Tannery Row"],
                    paper=paper),
        blocks.head("With a code", ["under it"], url="http://127.0.0.1:8000/x/", paper=paper),
        *blocks.paragraph(f"First.\n\n{LONG}", paper=paper),
        *blocks.facts([("Room", "Long Room"), ("A long question that breaks", LONG)], paper=paper),
        *blocks.table(COLUMNS, [(f"R-{n:04d}", LONG if n % 9 == 0 else "balance", f"{n}.00") for n in range(60)],
                      bold_last=True, paper=paper),
        blocks.ticks("Glasses?", ["none", "may come off", "stay on", "a much longer answer than the others", LONG],
                     paper=paper),
        blocks.lines_to_write("In your own words", 3, paper=paper),
        blocks.lines_to_write("A label that takes more than half of the line: it stands above it alone", paper=paper),
        blocks.signature("signature of the guardian", paper=paper),
    ]  # fmt: skip


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_everything_put_in_is_printed_inside_the_edges(paper: Paper) -> None:
    file = write(Document("All blocks", "Lindenmere", tuple(everything(paper)), "All blocks, on", "foot"), paper)
    words = "\n".join(page.extract_text() for page in PdfReader(BytesIO(file)).pages)
    for part in ("Receipt R-0007", "3 Tannery Row", "R-0059", "Glasses?", "In your own words", "signature of the"):
        assert part in words
    assert words.split().count("nothing") == 3 * 11  # each long text whole: head, paragraph, fact, seven rows, answer
    with pdfplumber.open(BytesIO(file)) as read:
        assert len(read.pages) > 1
        for page in read.pages:
            assert (page.width, page.height) == pytest.approx((paper.width * MM, paper.height * MM), abs=0.1)
            for word in page.extract_words():
                assert word["x0"] >= MARGIN * MM - 0.5, word
                assert word["x1"] <= (paper.width - MARGIN) * MM + 0.5, word
                assert word["top"] >= 0, word
                assert word["bottom"] <= (paper.height - 5) * MM, word
            for one, other in combinations(page.extract_words(), 2):  # no word over another
                apart = one["x1"] <= other["x0"] + 0.5 or other["x1"] <= one["x0"] + 0.5
                assert apart or one["bottom"] <= other["top"] + 3 or other["bottom"] <= one["top"] + 3, (one, other)


def test_a_table_shows_its_head_again_on_each_page() -> None:
    rows = [(f"R-{n:04d}", "balance", "1.00") for n in range(100)]
    file = write(Document("t", "a", tuple(blocks.table(COLUMNS, rows)), "r", "f"))
    pages = [page.extract_text() for page in PdfReader(BytesIO(file)).pages]
    assert len(pages) > 1
    assert all("What for" in page for page in pages)


def test_numbers_of_a_column_end_at_one_edge() -> None:
    rows = [("R-1", "x", "7.00"), ("R-2", "x", "1200.00")]
    file = write(Document("t", "a", tuple(blocks.table(COLUMNS, rows)), "r", "f"))
    with pdfplumber.open(BytesIO(file)) as read:
        edges = [word["x1"] for word in read.pages[0].extract_words() if word["text"].endswith(".00")]
    assert edges[0] == pytest.approx(edges[1], abs=0.1)


def test_a_row_with_a_cell_too_few_is_refused() -> None:
    with pytest.raises(ValueError, match="2 cells under 3 columns"):
        blocks.table(COLUMNS, [("R-1", "x")])


def test_the_profile_s_words_for_paper_have_their_sizes() -> None:
    assert PAPERS == {"a4": A4, "letter": LETTER}
