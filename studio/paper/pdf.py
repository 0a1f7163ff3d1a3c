"""The drawing on paper: the same marks put on a reportlab canvas at a place of the page, in millimetres."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from studio.paper import fonts
from studio.paper.primitives import Circle, Drawing, Hatch, Line, Mark, Polyline, Text


def put(canvas: Canvas, drawing: Drawing, left_mm: float, top_mm: float, page_height_mm: float) -> None:
    """Draws with the drawing's upper left corner at (left, top), measured from the page's upper left corner."""
    canvas.saveState()
    canvas.translate(left_mm * mm, (page_height_mm - top_mm) * mm)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    for mark in drawing.marks:
        _put(canvas, mark)
    canvas.restoreState()


def _put(canvas: Canvas, mark: Mark) -> None:
    if isinstance(mark, Text):
        canvas.setFont(fonts.name(mark.bold), mark.size * mm)
        canvas.drawCentredString(mark.at[0] * mm, -mark.at[1] * mm, fonts.printable(mark.text))
        return
    canvas.setLineWidth(mark.weight * mm)
    canvas.setStrokeGray(1 - mark.ink)
    if isinstance(mark, Hatch):
        canvas.setDash()
        canvas.lines([(a[0] * mm, -a[1] * mm, b[0] * mm, -b[1] * mm) for a, b in mark.lines()])
        return
    canvas.setDash([part * mm for part in mark.dash])
    if isinstance(mark, Line):
        canvas.line(mark.start[0] * mm, -mark.start[1] * mm, mark.end[0] * mm, -mark.end[1] * mm)
    elif isinstance(mark, Circle):
        canvas.circle(mark.centre[0] * mm, -mark.centre[1] * mm, mark.radius * mm)
    else:
        _put_polyline(canvas, mark)


def _put_polyline(canvas: Canvas, mark: Polyline) -> None:
    path = canvas.beginPath()
    (x, y), *others = mark.points
    path.moveTo(x * mm, -y * mm)
    for x, y in others:
        path.lineTo(x * mm, -y * mm)
    if mark.closed:
        path.close()
    canvas.drawPath(path)
