"""The checks every paper must pass, checked themselves: each fault is found where it was made, and nowhere else."""

from __future__ import annotations

from studio.paper.page import A4, Block, Document, Pen, write
from tests.sheets.reading import faults


def made(*texts: tuple[float, float, str, float]) -> tuple[str, ...]:
    def draw(pen: Pen, top: float) -> None:
        for x, down, words, points in texts:
            pen.text(x, top + down, words, points)

    return faults(write(Document("t", "a", (Block(40.0, draw),), "r", "f"), A4))


def test_each_fault_of_a_paper_is_found() -> None:
    assert made((0, 0, "one line", 12), (0, 5.2, "and another", 12)) == ()
    assert made((0, 0, "one line", 12), (10, 2.0, "across it", 12)) == ("page 1, over another: one line and across it",)
    assert made((185, 0, "beyond the edge", 12)) == ("page 1, over the edge: beyond the edge",)
    assert made((0, 0, "too small", 8)) == ("small: too small",)
