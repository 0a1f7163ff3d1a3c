"""Papers against the least that reportlab needs: the same marks and words put on an empty page with no layout.

What belongs here: the recording canvas, the replay, and the limits of the order (a setup sheet at most twice the
replay; a day of twenty sittings under 5 s and 300 MB, growing with the number of sittings).
"""

from __future__ import annotations

import resource
import time
from collections.abc import Callable
from io import BytesIO
from typing import Any

from reportlab.pdfgen import canvas as pdfgen
from reportlab.pdfgen.pathobject import PDFPathObject

from shotplans.sheets import compose, meter_card, meter_round, packing_sheet, setup_sheet
from studio.paper import fonts, page
from tests.sheets import examples

MOST_TIMES, MOST_SECONDS, MOST_MB, MOST_GROWTH = 2.0, 5.0, 300.0, 1.3
ROUNDS, SITTINGS = 25, 20
DRAWN = ("line", "lines", "rect", "circle", "drawPath", "drawString", "drawRightString", "drawCentredString", "setFont",
         "setLineWidth", "setDash", "setStrokeGray", "setFillGray", "translate", "saveState", "restoreState",
         "showPage")  # fmt: skip


Call = tuple[str, tuple[Any, ...], dict[str, Any]]


class Path(PDFPathObject):
    """A path that remembers its strokes, for reportlab's own time goes into them too."""

    def __init__(self) -> None:
        self.strokes: list[tuple[str, tuple[float, ...]]] = []
        super().__init__()

    def moveTo(self, x: float, y: float) -> None:
        self.strokes.append(("moveTo", (x, y)))
        super().moveTo(x, y)

    def lineTo(self, x: float, y: float) -> None:
        self.strokes.append(("lineTo", (x, y)))
        super().lineTo(x, y)

    def close(self) -> None:
        self.strokes.append(("close", ()))
        super().close()


class Recording(pdfgen.Canvas):
    """A canvas that remembers what was drawn on it."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        self.calls: list[Call] = []
        super().__init__(*args, **kwargs)
        for name in DRAWN:
            setattr(self, name, self._remembered(name, getattr(self, name)))

    def beginPath(self) -> Path:
        return Path()

    def _remembered(self, name: str, draw: Callable[..., Any]) -> Callable[..., Any]:
        def call(*args: Any, **kwargs: Any) -> Any:
            self.calls.append((name, args, kwargs))
            return draw(*args, **kwargs)

        return call


def report() -> bool:
    """Print the ratio of each example's first sheet, then the day; whether all keep their limits."""
    fonts.register()
    kept = True
    for name in examples.NAMES:
        content = examples.sheets(name)[0]
        calls = _calls(lambda content=content: setup_sheet.render(content))
        ours, least = _best(lambda content=content: setup_sheet.render(content), lambda calls=calls: _replay(calls))
        kept &= ours / least <= MOST_TIMES
        print(f"{name}: {ours / least:.2f} of reportlab's own {1000 * least:.1f} ms for {len(calls)} calls "
              f"(at most {MOST_TIMES:g})")  # fmt: skip
    return _day() and kept


def _calls(render: Callable[[], object]) -> list[Call]:
    made: list[Recording] = []

    def recording(*args: Any, **kwargs: Any) -> Recording:
        made.append(Recording(*args, **kwargs))
        return made[-1]

    page.Canvas, real = recording, page.Canvas  # type: ignore[misc, assignment]
    try:
        render()
    finally:
        page.Canvas = real  # type: ignore[misc]
    return made[0].calls


def _replay(calls: list[Call]) -> None:
    canvas = pdfgen.Canvas(BytesIO(), invariant=1, initialFontName=fonts.REGULAR)
    for name, args, kwargs in calls:
        if name == "drawPath":
            path = canvas.beginPath()
            for stroke, ends in args[0].strokes:
                getattr(path, stroke)(*ends)
            args = (path, *args[1:])
        getattr(canvas, name)(*args, **kwargs)
    canvas.save()


def _best(*works: Callable[[], object]) -> list[float]:
    """Least processor time of each over some rounds taken in turn, other programs aside."""
    times: list[list[float]] = [[] for _ in works]
    for _ in range(ROUNDS):
        for work, spent in zip(works, times, strict=True):
            start = time.process_time()
            work()
            spent.append(time.process_time() - start)
    return [min(spent) for spent in times]


def _day() -> bool:
    """The papers of a day of five sittings and of twenty: seconds from frozen plans to one file, memory, growth."""
    few, many = (_printed(n) for n in (5, SITTINGS))
    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    growth = (many / SITTINGS) / (few / 5)
    print(f"a day of {SITTINGS} sittings: {many:.2f} s (at most {MOST_SECONDS:g}), {used:.0f} MB "
          f"(at most {MOST_MB:g}), {growth:.2f} times as long a sitting as in a day of five "
          f"(at most {MOST_GROWTH:g})")  # fmt: skip
    return many <= MOST_SECONDS and used <= MOST_MB and growth <= MOST_GROWTH


def _printed(sittings: int) -> float:
    planned = [(examples.heading(n), *examples.planned(n)) for n in (examples.NAMES * 9)[:sittings]]
    start = time.process_time()
    found = [setup_sheet.document(sheet) for head, document, given in planned
             for sheet in compose.setup_sheets(document, given, head)]  # fmt: skip
    found += [meter_card.document(card) for head, document, _ in planned for card in meter_round.cards(document, head)]
    found.append(packing_sheet.document(compose.packing_sheet(planned, examples.URL)))
    page.write_all(found, title="a day", author="Lindenmere Portraits")
    return time.process_time() - start
