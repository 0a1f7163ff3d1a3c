"""Printing the demo's day: every setup sheet and the packing list, from plans that are there already.

What belongs here: the work to be timed, by name. How it is timed and against what is in `__main__`.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from shotplans.planner.codec import read_request
from shotplans.planner.solve import plan
from shotplans.sheets import compose, packing_sheet, setup_sheet
from shotplans.sheets.content import Flags, Heading

BRIEFS = Path(__file__).parents[2] / "fixtures" / "briefs"
ADDRESS = "http://127.0.0.1:8000/"
HEAD = Heading(
    studio="Lindenmere Portraits", sitting="L-0001", client="Askew", date="Thu 3 Dec 2026", room="Long Room",
    setup_at="09:00", sitter_at="09:30", finish_at="10:45", photographer="Tobiah Renn", assistant="Ines Calloway",
    plan_version=1, printed_at="3 Dec 2026, 08:50", url=ADDRESS,
)  # fmt: skip
FLAGS = Flags(no_flash=frozenset(), chair_with_arms=frozenset(), glasses=frozenset(), guardian_in_room=False)


def printing() -> dict[str, Callable[[], object]]:
    """The day as PDFs; the name holds how many sheets."""
    planned = [
        (plan(read_request(path.read_bytes())), json.loads(path.read_bytes())) for path in sorted(BRIEFS.glob("*.json"))
    ]
    sheets = sum(len(document["setups"]) for document, _request in planned)
    return {f"{sheets} setup sheets and the packing list": lambda: _print(planned)}


def _print(planned: list[tuple[dict, dict]]) -> list[bytes]:
    pages = [
        setup_sheet.render(sheet)
        for document, request in planned
        for sheet in compose.setup_sheets(document, request, HEAD, FLAGS, ratio_convention="stops")
    ]
    parts = [(HEAD, document, request) for document, request in planned]
    return [*pages, packing_sheet.render(compose.packing_sheet(parts, ADDRESS))]
