"""What two ways of one set-up differ in: each printed number that changed, by its name, before and after.

Takes printed set-ups, so that what is said to differ is what is read to differ.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.planner import words
from shotplans.planner.expect import HORIZON_M, sharp_without_end
from studio.tongue import gettext as _

Entry = dict[str, Any]


def between(before: Entry, after: Entry) -> list[dict[str, str]]:
    """Rows of what, before, after, unit; in the order a studio reads them. Empty where nothing printed changed."""
    return [row for row in _rows(before, after) if row["before"] != row["after"]]


def _rows(before: Entry, after: Entry) -> Iterator[dict[str, str]]:
    a, b = before["expected"], after["expected"]
    yield _row("setting_reading", a["setting_reading"]["shown"], b["setting_reading"]["shown"])
    for key, (_name, unit, form) in words.SHOWN.items():
        if key in a and isinstance(a[key], int | float | str):
            yield _row(key, _written(key, form, a[key]), _written(key, form, b[key]), unit)
    for key in ("lightness", "reading_below_setting_stops"):
        _name, unit, form = words.SHOWN_OF_GROUND[key]
        yield _row(key, form.format(before["background"][key]), form.format(after["background"][key]), unit)
    yield from _sitters(a["per_sitter"], b["per_sitter"])
    yield from _steps(before["meter_round"], after["meter_round"])


def _written(key: str, form: str, value: Any) -> str:
    if key == "sharp_to_m" and sharp_without_end(value):
        return _("over {metres}").format(metres=f"{HORIZON_M / 2:.0f}")
    return form.format(value)


def _row(key: str, before: str, after: str, unit: str = "") -> dict[str, str]:
    return {"what": words.shown(key), "before": before, "after": after, "unit": _(unit) if unit else ""}


def _sitters(before: list[Entry], after: list[Entry]) -> Iterator[dict[str, str]]:
    for a, b in zip(before, after, strict=True):
        who = {"label": a["label"]}
        values = [f"{row['relief_stops']:.2f}" for row in (a, b)]
        yield {"what": words.shown("relief", who), "before": values[0], "after": values[1], "unit": _("stops")}
        lights = {c["light"] for c in (*a["catchlights"], *b["catchlights"])}
        for letter in sorted(lights):
            counts = [str(sum(c["seen"] for c in row["catchlights"] if c["light"] == letter)) for row in (a, b)]
            what = words.shown("catchlights", who | {"letter": letter})
            yield {"what": what, "before": counts[0], "after": counts[1], "unit": _("eyes")}
        for g, h in zip(a["glasses"], b["glasses"], strict=True):
            what = words.shown("glasses", who | {"letter": g["light"]})
            margins = [f"{row['margin_deg']:.0f}" for row in (g, h)]
            yield {"what": what, "before": margins[0], "after": margins[1], "unit": _("degrees")}


def _steps(before: list[Entry], after: list[Entry]) -> Iterator[dict[str, str]]:
    for a, b in zip(before, after, strict=True):
        what = words.shown("step", {"step": a["step"], "place": a["place"], "on": ", ".join(a["on"])})
        yield {"what": what, "before": a["target"]["shown"], "after": b["target"]["shown"], "unit": ""}
