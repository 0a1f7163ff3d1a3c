"""The drawing on screen: one `<svg>` with attributes and classes only, for pages under a strict content policy.

Colour, if any, comes from the page (`currentColor`); a mark's part becomes its classes ("mark light-A beam").
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from html import escape

from studio.paper.primitives import Circle, Drawing, Hatch, Line, Mark, Point, Polyline, Text


def render(drawing: Drawing, name: str = "set", across: tuple[float, float] | None = None) -> str:
    """The drawing as an element to put into a page; `name` sets its ids apart from those of another drawing; `across`:
    from where to where of it is shown, all of it unless said."""
    left, right = across or (0.0, drawing.width)
    head = (
        f'<svg class="drawing" viewBox="{_n(left)} 0 {_n(right - left)} {_n(drawing.height)}" role="img" '
        f'aria-labelledby="{escape(name)}-title {escape(name)}-desc" fill="none" stroke="currentColor" '
        f'stroke-linecap="round" stroke-linejoin="round">'
    )
    words = (
        f'<title id="{escape(name)}-title">{escape(drawing.title)}</title>'
        f'<desc id="{escape(name)}-desc">{escape(drawing.description)}</desc>'
    )
    return "\n".join([head, words, *(_mark(mark) for mark in drawing.marks), "</svg>"])


def layer(marks: Iterable[Mark]) -> str:
    """Marks alone, to be put into a drawing that a page has already."""
    return "\n".join(_mark(mark) for mark in marks)


@lru_cache(maxsize=4096)
def _mark(mark: Mark) -> str:
    """As text. Kept, for most of what a hand sees while it drags one thing is as it was a moment before."""
    kind = f'class="{escape(f"mark {mark.part}".strip())}"'
    if isinstance(mark, Text):
        weight = ' font-weight="700"' if mark.bold else ""
        x, y = mark.at
        return (
            f'<text {kind} x="{_n(x)}" y="{_n(y)}" font-size="{_n(mark.size)}" text-anchor="middle" '
            f'fill="currentColor" stroke="none"{weight}>{escape(mark.text)}</text>'
        )
    pen = f'{kind} stroke-width="{_n(mark.weight)}"' + (f' stroke-opacity="{_n(mark.ink)}"' if mark.ink < 1 else "")
    if isinstance(mark, Hatch):
        return f'<path {pen} d="{"".join(f"M{_pair(a)}L{_pair(b)}" for a, b in mark.lines())}"/>'
    if mark.dash:
        pen += f' stroke-dasharray="{" ".join(map(_n, mark.dash))}"'
    if isinstance(mark, Line):
        (x1, y1), (x2, y2) = mark.start, mark.end
        return f'<line {pen} x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"/>'
    if isinstance(mark, Circle):
        return f'<circle {pen} cx="{_n(mark.centre[0])}" cy="{_n(mark.centre[1])}" r="{_n(mark.radius)}"/>'
    return _polyline(mark, pen)


def _polyline(mark: Polyline, pen: str) -> str:
    name = "polygon" if mark.closed else "polyline"
    return f'<{name} {pen} points="{" ".join(map(_pair, mark.points))}"/>'


def _pair(point: Point) -> str:
    return f"{_n(point[0])},{_n(point[1])}"


def _n(value: float) -> str:
    return f"{value + 0.0:.2f}".rstrip("0").rstrip(".") or "0"
