"""One catalogue for everything the planner says: problems with their mends, reasons, cautions. Codes in, sentences out.

Sentences carry the numbers they are given and nothing else; they are neutral about people and fit to be read by them.
The tables hold them as they were written, marked for a translator; each is asked of `studio.tongue` where it is said,
before its blanks are filled. What fills a blank and is a word itself is said by whoever fills it.
Reasons of notes stay with those who may see notes: paper and desk take the numbers without them. A code stands in one
part only; the parts are named for what they speak of.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from shotplans.planner.words import (
    cautions,
    grounds,
    joined,
    notes,
    people,
    problems,
    reasons,
    rigs,
    roles,
    sources,
    ways,
)
from shotplans.planner.words.reasons import SIDE_WHY as SIDE_WHY
from shotplans.planner.words.ways import SHOWN as SHOWN
from shotplans.planner.words.ways import SHOWN_OF_GROUND as SHOWN_OF_GROUND
from studio.tongue import gettext as _

_PARTS = (people, sources, grounds, notes, rigs, ways)
PROBLEMS: dict[str, tuple[str, str]] = dict(problems.PROBLEMS)
REASONS: dict[str, str] = dict(reasons.REASONS)
CAUTIONS: dict[str, str] = dict(cautions.CAUTIONS)
for _part in _PARTS:
    PROBLEMS |= _part.PROBLEMS
    REASONS |= _part.REASONS
    CAUTIONS |= _part.CAUTIONS


def problem(code: str, values: Mapping[str, Any], short_by: float) -> tuple[str, str]:
    """What a problem says and the smallest change that mends it."""
    says, mend = PROBLEMS[code]
    filled = {**values, "short": f"{short_by:g}"}
    return _(says).format(**filled), _(mend).format(**filled)


def mends(parts: Sequence[tuple[str, Mapping[str, Any]]]) -> str:
    """Mends that were found by trying, each enough alone, as one sentence."""
    text = joined.either([_(ways.MENDS[code]).format(**values) for code, values in parts])
    return f"{joined.begun(text)}."


def reason(code: str, values: Mapping[str, Any]) -> str:
    """A reason in one or two sentences."""
    return _(REASONS[code]).format(**values)


def caution(code: str, values: Mapping[str, Any] | None = None) -> str:
    """A caution in one sentence."""
    return _(CAUTIONS[code]).format(**(values or {}))


def teaches(letter: str, role: str, before_stops: float, after_stops: float) -> str:
    """Which reading to take first, and what it does for the setting reading."""
    values = {
        "letter": letter,
        "role": roles.said(role),
        "before": f"{before_stops:.1f}",
        "after": f"{after_stops:.1f}",
    }
    return _(ways.TEACHES).format(**values)


def shown(key: str, values: Mapping[str, Any] | None = None) -> str:
    """The name of a number that a change is shown by."""
    named = {**ways.SHOWN, **ways.SHOWN_OF_GROUND}
    return _(named[key][0]) if key in named else _(ways.SHOWN_ELSE[key]).format(**(values or {}))


def refusal(code: str, values: Mapping[str, Any]) -> str:
    """Why a value cannot be set, in a sentence."""
    return _(ways.REFUSALS[code]).format(**values)


def alternative(kind: str, values: Mapping[str, Any]) -> str:
    """In what kind another way differs."""
    return _(ways.DIFFERS[kind]).format(**values)


def costs(other: Mapping[str, Any], ours: Mapping[str, Any], without: Sequence[str]) -> str:
    """What another way changes: its own number, and the difference against the plan's; only what differs as printed."""
    said = []
    for key, sentence in ways.COSTS.items():
        own, plans, form = other[key], ours[key], ways.COST_FORMS[key]
        if own is not None and plans is not None and form.format(own) != form.format(plans):
            by = form.replace("{:", "{:+").format(float(form.format(own)) - float(form.format(plans)))
            said.append(_(sentence).format(own=form.format(own), by=by))
    said += [_(ways.WITHOUT[role]) for role in without]
    text = "; ".join(said) or _(ways.SAME)
    return f"{joined.begun(text)}."
