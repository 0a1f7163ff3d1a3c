"""Foretold against read as a small plain plot: one line as planned, one dashed as the rated values alone would have
been, a grey rule for each tenth. Belongs here: the drawing as `<svg>` with attributes only. Not here: the numbers."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from shotplans.corrections import Month

LEFT, TOP, STEP, TALL, MOST_MONTHS = 36.0, 10.0, 26.0, 120.0, 24  # a year fits a phone
LEAST_TOP_STOPS = 0.4
INK, RULE, QUIET = "var(--text)", "var(--rule)", "var(--quiet)"  # of either theme


def render(months: Sequence[Month]) -> SafeString:
    """The newest two years; empty where nothing was read."""
    shown = list(months[-MOST_MONTHS:])
    if not shown:
        return mark_safe("")
    top = max(LEAST_TOP_STOPS, *(max(m.error_stops, m.rated_stops) for m in shown))
    wide = LEFT + STEP * len(shown) + 8
    parts = [
        f'<svg viewBox="0 0 {wide:g} {TALL + 34:g}" width="{wide:g}" '
        f'height="{TALL + 34:g}" role="img" aria-label="{escape(_("Foretold against read, by month"))}">'
    ]
    for n in range(int(top / 0.1) + 1):
        y = _y(n / 10, top)
        parts.append(f'<line x1="{LEFT:g}" x2="{wide:g}" y1="{y:.1f}" y2="{y:.1f}" stroke="{RULE}" stroke-width="1"/>')
        if n % 2 == 0:
            parts.append(_text(LEFT - 6, y + 4, f"{n / 10:.1f}", "end"))
    for n, month in enumerate(shown):
        if n % (1 if len(shown) <= 6 else 2 if len(shown) <= 12 else 3) == 0:
            parts.append(_text(_x(n), TOP + TALL + 18, f"{month.first:%m/%y}", "middle"))
    parts.append(_line([(_x(n), _y(m.rated_stops, top)) for n, m in enumerate(shown)], 'stroke-dasharray="4 3"', QUIET))
    parts.append(_line([(_x(n), _y(m.error_stops, top)) for n, m in enumerate(shown)], "", INK))
    return mark_safe("".join([*parts, "</svg>"]))  # numbers and escaped words alone


def _x(n: int) -> float:
    return LEFT + STEP * (n + 0.5)


def _y(stops: float, top: float) -> float:
    return TOP + TALL * (1 - stops / top)


def _text(x: float, y: float, words: str, anchor: str) -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="11" fill="{QUIET}" text-anchor="{anchor}">{escape(words)}</text>'


def _line(points: Sequence[tuple[float, float]], dashes: str, ink: str) -> str:
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    dots = "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2.5" fill="{ink}"/>' for x, y in points)
    return f'<polyline points="{path}" fill="none" stroke="{ink}" stroke-width="1.5" {dashes}/>{dots}'
