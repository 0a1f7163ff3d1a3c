"""What each intent asks of the light: rules of taste as data, one row an intent, with a reason for each number.

Bearings and heights in degrees, source = full angle seen from the face, fill = fill and bounce under the key in
stops, ground = L*, accent in stops under the key at its own place. All rows are starting values, common practice,
no source; where measured light disagrees with the trade's saying the reason says both. No arithmetic beyond
blending two rows lives here; a studio's own numbers come in by `rules_of_intents`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from studio.tongue import noop


@dataclass(frozen=True)
class Band:
    """A closed range of wanted values; `mid` is the wanted value when nothing else speaks."""

    low: float
    high: float

    @property
    def mid(self) -> float:
        return 0.5 * (self.low + self.high)

    def toward(self, other: Band, share: float) -> Band:
        """The band a `share` (0..1) of the way to `other`."""
        return Band(
            self.low + share * (other.low - self.low),
            self.high + share * (other.high - self.high),
        )


@dataclass(frozen=True)
class IntentRow:
    """The targets of one intent for one number of people."""

    name: str
    sentence: str
    nose: Band
    camera: Band
    height: Band
    source: Band
    fill: Band
    ground: Band
    accent: Band | None
    accent_kind: str
    relief: Band
    faces_stops: float
    both_eyes: bool


SINGLE: dict[str, IntentRow] = {
    "soft": IntentRow(
        "soft",
        noop("calm on lines"),
        Band(10, 25),
        Band(20, 35),
        Band(25, 35),
        Band(45, 65),
        Band(0.5, 1.0),
        Band(30, 50),
        Band(1.5, 2.5),
        "hair",
        Band(0.0, 0.50),
        0.3,
        True,
    ),
    "even": IntentRow(
        "even",
        noop("consistent and matching"),
        Band(20, 30),
        Band(25, 35),
        Band(30, 38),
        Band(40, 55),
        Band(0.7, 1.2),
        Band(45, 60),
        None,
        "none",
        Band(0.30, 0.70),
        0.3,
        True,
    ),
    "natural": IntentRow(
        "natural",
        noop("gentle shape"),
        Band(28, 40),
        Band(45, 60),
        Band(32, 42),
        Band(35, 55),
        Band(1.0, 1.7),
        Band(25, 45),
        Band(0.5, 1.0),
        "hair",
        Band(0.40, 0.85),
        0.35,
        True,
    ),
    "bold": IntentRow(
        "bold",
        noop("strong shape, deep shadow"),
        Band(45, 60),
        Band(65, 90),
        Band(35, 48),
        Band(18, 35),
        Band(2.5, 3.5),
        Band(5, 20),
        Band(0.0, 1.0),
        "rim",
        Band(0.80, 1.80),
        0.6,
        False,
    ),
    "character": IntentRow(
        "character",
        noop("texture shown"),
        Band(45, 60),
        Band(50, 75),
        Band(30, 40),
        Band(15, 30),
        Band(1.8, 2.5),
        Band(5, 30),
        Band(0.5, 1.0),
        "kicker",
        Band(0.85, 1.80),
        0.6,
        False,
    ),
    "bright": IntentRow(
        "bright",
        noop("light and low in contrast"),
        Band(10, 30),
        Band(15, 35),
        Band(28, 38),
        Band(50, 75),
        Band(0.3, 0.7),
        Band(95, 100),
        None,
        "none",
        Band(0.0, 0.50),
        0.3,
        True,
    ),
}

# Two people share one key, so it stands farther off and the sizes fall.
_COUPLE_CAMERA = {
    "soft": Band(15, 28),
    "even": Band(15, 25),
    "natural": Band(25, 35),
    "bold": Band(40, 55),
    "character": Band(45, 55),
    "bright": Band(15, 28),
}
_COUPLE_FACES = {"natural": 0.35, "bold": 0.6, "character": 0.6}


def _couple(row: IntentRow) -> IntentRow:
    hard = row.name in ("bold", "character")
    camera = _COUPLE_CAMERA[row.name]
    return replace(
        row,
        camera=camera,
        nose=Band(max(5.0, camera.low - 10), camera.high),
        source=Band(18, 35) if hard else Band(32, 45),
        faces_stops=_COUPLE_FACES.get(row.name, 0.3),
    )


COUPLE: dict[str, IntentRow] = {name: _couple(row) for name, row in SINGLE.items()}


@dataclass(frozen=True)
class GroupRow:
    """What a group asks whatever its intent: the place of the key, and faces that are alike."""

    camera: Band
    nose: Band
    height: Band
    source: Band
    fill: Band
    faces_stops: float


# Three to five people, and more: the key near the lens and far off.
GROUP: dict[str, GroupRow] = {
    "small": GroupRow(Band(10, 20), Band(0, 30), Band(18, 28), Band(25, 35), Band(0.5, 1.0), 0.5),
    "large": GroupRow(Band(5, 18), Band(0, 30), Band(10, 20), Band(17, 25), Band(0.5, 1.0), 0.5),
}


def grouped(row: IntentRow, group: GroupRow) -> IntentRow:
    """An intent's row for a group. A deep shadow that is wanted keeps its fill; a group takes no accent."""
    return replace(
        row,
        camera=group.camera,
        nose=group.nose,
        height=group.height,
        source=group.source,
        fill=group.fill if row.fill.mid < 2 else row.fill,
        accent=None,
        accent_kind="none",
        faces_stops=group.faces_stops,
    )


def blended(row: IntentRow, other: IntentRow, share: float) -> IntentRow:
    """The row moved a `share` of the way to `other` (a wish that pulls against or along the intent)."""
    return replace(
        row,
        nose=row.nose.toward(other.nose, share),
        camera=row.camera.toward(other.camera, share),
        height=row.height.toward(other.height, share),
        source=row.source.toward(other.source, share),
        fill=row.fill.toward(other.fill, share),
        relief=row.relief.toward(other.relief, share),
    )
