"""Who sits where: eye heights, places in the picture, which way each nose points. Pure geometry on the notes.

A `Person` is one sitter as the planner needs them; a `Pose` is one way of placing everybody, in the canonical set
whose key stands at camera right (the solver mirrors it when the key belongs at camera left).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shotplans.light.eyes import BROW_REACH_MM
from shotplans.light.glasses import BASE_DIOPTRE
from shotplans.planner import anatomy
from shotplans.planner.brief import Sitter, Wish
from shotplans.planner.kit import Seat

CHAIR_M = 0.46  # a firm chair, 45-48 cm: common practice
SWAP_SIDE = {"own_left": "own_right", "own_right": "own_left", "both": "both", "none": "none"}
SWAP_IMAGE = {"camera_left": "camera_right", "camera_right": "camera_left", "either": "either"}


@dataclass(frozen=True)
class Person:
    """One sitter in numbers: heights in metres, angles in degrees, skin as reflectance and roughness."""

    index: int
    label: str
    sitter: Sitter
    eye_m: float
    seat: str | None
    reflectance: float
    roughness: float
    brow_mm: float
    base_dioptre: float | None
    wishes: tuple[Wish, ...]
    better_side: str

    @property
    def wears_glasses(self) -> bool:
        return self.base_dioptre is not None

    def wish(self, *notes: str) -> str | None:
        """The wish (softer, shown) for the first of these notes that asks for a change."""
        for wish in self.wishes:
            if wish.note in notes and wish.wish != "as it is":
                return str(wish.wish)
        return None


@dataclass(frozen=True)
class Seated:
    """One person placed: bridge of the nose in metres, nose and body bearings, chin (+ up)."""

    person: Person
    face_m: tuple[float, float, float]
    nose_deg: float
    chin_deg: float
    body_deg: float
    row: int


@dataclass(frozen=True)
class Pose:
    """Everybody placed once. `in_turn` people take the same place one after the other."""

    seated: tuple[Seated, ...]
    in_turn: bool

    @property
    def eye_m(self) -> float:
        """Mean eye height of those in the picture; for people in turn the one the set is built for."""
        if self.in_turn:
            return self.seated[0].face_m[1]
        return sum(s.face_m[1] for s in self.seated) / len(self.seated)

    @property
    def together(self) -> tuple[Seated, ...]:
        """Those seen in one picture (for people in turn the first stands for all)."""
        return self.seated[:1] if self.in_turn else self.seated

    def mirrored(self) -> Pose:
        """The same people mirrored about x = 0."""
        return Pose(
            tuple(
                replace(
                    s,
                    face_m=(0.0 - s.face_m[0], s.face_m[1], s.face_m[2]),
                    nose_deg=0.0 - s.nose_deg,
                    body_deg=0.0 - s.body_deg,
                )
                for s in self.seated
            ),
            self.in_turn,
        )


def persons(
    sitters: Sequence[Sitter], wanted: Sequence[str], seats: Sequence[Seat], mirror: bool, in_turn: bool = False
) -> list[Person]:
    """The people of a set-up in the order of the brief, each with a seat where the posture needs one.

    Nothing is used twice: seats are given to the oldest first, those with arms to hips, backs and over-65s. People in
    turn share one seat, with arms when any of them needs arms. With `mirror` the sides of wishes are swapped, for the
    canonical set.
    """
    chosen = [(i, s) for i, s in enumerate(sitters) if s.label in wanted]
    free = list(seats)
    given: dict[int, Seat | None] = {}
    if in_turn:
        neediest = max(chosen, key=lambda pair: (needs_arms(pair[1]), pair[1].posture == "seated", -pair[0]))
        shared = _seat_for(neediest[1], free)
        given = {i: shared if s.posture == "seated" else None for i, s in chosen}
    else:
        for i, s in sorted(chosen, key=lambda pair: (-(pair[1].age_years or 0.0), pair[0])):
            given[i] = _seat_for(s, free)
    return [_person(i, s, given[i], mirror) for i, s in chosen]


def needs_arms(sitter: Sitter) -> bool:
    """Whether a seat should have arms: a hip or back to be spared, or 65 and over (common practice, no source)."""
    return sitter.posture == "seated" and (bool(sitter.hip_or_back) or (sitter.age_years or 0.0) >= 65)


def _seat_for(sitter: Sitter, free: list[Seat]) -> Seat | None:
    if sitter.posture != "seated" or not free:
        return None
    arms = needs_arms(sitter)
    suited = [s for s in free if bool(s.arms) or not arms] or free
    seat = min(suited, key=lambda s: (abs((s.height_m or CHAIR_M) - CHAIR_M), bool(s.arms) != arms, s.id))
    free.remove(seat)
    return seat


def _person(index: int, sitter: Sitter, seat: Seat | None, mirror: bool) -> Person:
    age = float(sitter.age_years or 40.0)
    stature = (sitter.height_cm / 100.0) if sitter.height_cm else anatomy.stature_m(age)
    seat_m = (seat.height_m if seat is not None else None) or CHAIR_M
    eye = sitter.eye_height_m or anatomy.eye_height_m(str(sitter.posture), stature, age, seat_m)
    wishes = tuple(sitter.wishes or ())
    if mirror:
        wishes = tuple(w.model_copy(update={"side": SWAP_SIDE[str(w.side or "both")]}) for w in wishes)
    better = str(sitter.better_side or "none")
    return Person(
        index=index,
        label=sitter.label,
        sitter=sitter,
        eye_m=round(float(eye), 2),
        seat=seat.id if seat is not None else None,
        reflectance=anatomy.REFLECTANCE[str(sitter.skin)],
        roughness=anatomy.ROUGHNESS[str(sitter.surface)],
        brow_mm=BROW_REACH_MM[str(sitter.eyes)],
        base_dioptre=None if sitter.glasses is None else BASE_DIOPTRE[str(sitter.glasses.lens)],
        wishes=wishes,
        better_side=SWAP_SIDE[better] if mirror else better,
    )
