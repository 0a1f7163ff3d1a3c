"""A plate drawn for the demo in place of a photograph: a grey head and shoulders with two eyes. Pure."""

from __future__ import annotations

import io

from PIL import Image, ImageDraw

from shotplans.records.against_reference import EYES_UNDER_CROWN, HEAD_IN_EYES, Eyes

WIDE, TALL = 720, 480
GROUND, CLOTHES, FACE, LINE = (118, 118, 118), (62, 62, 62), (168, 168, 168), (40, 40, 40)
FACE_SHARE = 0.74  # of a head's breadth in its height


def plate(*, head: float = 0.48, right: float = 0.0, down: float = 0.0) -> tuple[bytes, Eyes]:
    """The plate as a JPEG, and where its eyes are: `head` its share of the height, `right` and `down` how far it lies
    from the middle and from the upper third, all in shares of the picture."""
    picture = Image.new("RGB", (WIDE, TALL), GROUND)
    pen = ImageDraw.Draw(picture)
    tall, x, y = head * TALL, WIDE * (0.5 + right), TALL * (0.36 + down)
    apart, broad = tall / HEAD_IN_EYES, tall * FACE_SHARE / 2
    top, bottom = y - EYES_UNDER_CROWN * tall, y + (1 - EYES_UNDER_CROWN) * tall
    pen.ellipse((x - 1.9 * tall / 2, bottom + 0.12 * tall, x + 1.9 * tall / 2, bottom + 2.4 * tall), fill=CLOTHES)
    pen.rectangle((x - 0.17 * tall, y, x + 0.17 * tall, bottom + 0.3 * tall), fill=FACE)
    pen.ellipse((x - broad, top, x + broad, bottom), fill=FACE, outline=LINE)
    for eye in (x - apart / 2, x + apart / 2):
        pen.ellipse((eye - 5, y - 3, eye + 5, y + 3), fill=LINE)
    nose = (x, y + 0.06 * tall, x - 0.04 * tall, y + 0.19 * tall, x + 0.01 * tall, y + 0.2 * tall)
    pen.line(nose, fill=LINE, width=2)
    pen.line((x - 0.12 * tall, y + 0.31 * tall, x + 0.12 * tall, y + 0.31 * tall), fill=LINE, width=2)
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=88)
    left, other = ((x - apart / 2) / WIDE, y / TALL), ((x + apart / 2) / WIDE, y / TALL)
    return out.getvalue(), (left, other)
