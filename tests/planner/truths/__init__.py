"""What makes each sentence of the catalogue's parts true of its plan, one module a part of `planner.words`.

`TRUE` holds a claim that can fail for each reason's code, `OF_NOTES` the codes that only say what a note did, `SAID`
briefs that make the planner say them, `CAUTIOUS` briefs that raise the part's cautions.
"""

from __future__ import annotations

from tests.planner.truths import grounds, notes, people, rigs, sources, ways

PARTS = (grounds, notes, people, rigs, sources, ways)
