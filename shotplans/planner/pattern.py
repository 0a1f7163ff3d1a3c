"""The name of the lighting pattern from where the key stands to the nose; the trade's own words, or ours where the
trade borrows a painter's. Borders are common practice, no source (values.md L13-L17)."""

from __future__ import annotations


def name(from_nose_deg: float, height_deg: float) -> str:
    """The pattern of a key at a bearing from the nose and a height angle, degrees.

    Butterfly: near the nose's line and high. Loop: to 40. Triangle: the nose shadow meets the cheek's, 40 to 60 and at
    least 30 up. Split: half the face is lit, from 75. Between lies half-light; behind 110 only an edge is lit.
    """
    angle = abs(from_nose_deg)
    if angle < 12:
        return "butterfly" if height_deg >= 20 else "flat front"
    if angle < 40:
        return "loop"
    if angle < 60:
        return "triangle" if height_deg >= 30 else "open loop"
    if angle < 75:
        return "half-light"
    return "split" if angle < 110 else "edge"


def side(nose_deg: float, from_nose_deg: float) -> str:
    """Short when the key lights the cheek turned from the camera, broad when the near one, none for a full face."""
    if abs(nose_deg) < 5 or abs(from_nose_deg) < 3:
        return "none"
    return "short" if (nose_deg > 0) == (from_nose_deg > 0) else "broad"
