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
from shotplans.planner.kit import Riser, Seat

CHAIR_M = 0.46  # a firm chair, 45-48 cm: common practice
FIRM_M = (0.42, 0.52)  # seats one gets up from easily; a neighbour's eyes are matched within these
OLDER_YEARS, SMALL_YEARS = 65.0, 8.0  # from here no steps and a chair with arms; below, both feet on the floor
SHORT_STAND_MINUTES = 10.0  # who stands no longer is spared steps and the floor
NO_STAND_MINUTES = 1.0  # who stands less than this does not stand for a picture at all
SWAP_SIDE = {"own_left": "own_right", "own_right": "own_left", "both": "both", "none": "none"}


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

    @property
    def age(self) -> float:
        return age_of(self.sitter)

    @property
    def build(self) -> anatomy.Build:
        """Breadths and heights of the body in its clothes."""
        height_cm = self.sitter.height_cm
        return anatomy.build_of(float(height_cm) / 100.0 if height_cm else anatomy.stature_m(self.age), self.age)

    @property
    def posture(self) -> str:
        """How the person is placed: as asked, but nobody who is to be spared the floor sits on it."""
        return posture_of(self.sitter)

    @property
    def may_step(self) -> bool:
        """Whether the person may be asked onto a step: standing, grown enough, sure on their feet, seeing the edge."""
        sure = not spared(self.sitter) and not self.sitter.low_vision
        return sure and self.posture == "standing" and self.age >= SMALL_YEARS

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
    step: str | None = None


@dataclass(frozen=True)
class Stage:
    """What a group has to stand on: free width, how high and how far the lens is taken to be, steps, the view asked."""

    across_m: float
    camera_m: float | None = None
    aspect: float = 1.5
    risers: tuple[Riser, ...] = ()
    view: str = "either"


@dataclass(frozen=True)
class Pose:
    """Everybody placed once. `in_turn` people take the same place one after the other; rows remember their `stage`."""

    seated: tuple[Seated, ...]
    in_turn: bool
    stage: Stage | None = None

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
            self.stage,
        )


def age_of(sitter: Sitter) -> float:
    """Years; of whom none is noted the stated default."""
    return anatomy.GROWN_YEARS if sitter.age_years is None else float(sitter.age_years)


def spared(sitter: Sitter) -> bool:
    """Whether steps and the floor are not for this person: age, a short stand, hips or back, a chair of their own."""
    short = sitter.stand_minutes
    stands_short = short is not None and float(short) <= SHORT_STAND_MINUTES
    older = sitter.age_years is not None and sitter.age_years >= OLDER_YEARS
    return sitter.posture == "wheelchair" or stands_short or bool(sitter.hip_or_back) or older


def posture_of(sitter: Sitter) -> str:
    """The posture asked, or a chair instead of the floor, or of standing, for somebody who is to be spared it."""
    no_standing = sitter.stand_minutes is not None and float(sitter.stand_minutes) < NO_STAND_MINUTES
    if (sitter.posture == "floor" and spared(sitter)) or (sitter.posture == "standing" and no_standing):
        return "seated"
    return str(sitter.posture)


def persons(
    sitters: Sequence[Sitter], wanted: Sequence[str], seats: Sequence[Seat], mirror: bool, in_turn: bool = False
) -> list[Person]:
    """The people of a set-up in the order of the brief, each with a seat where the posture needs one.

    Nothing is used twice: seats are given to those who cannot do without first, then to the oldest, those with arms to
    hips, backs and over-65s. Beside a wheelchair a seat is wanted that brings the eyes level with it. People in turn
    share one seat, with arms when any of them needs arms. With `mirror` the sides of wishes are swapped, for the
    canonical set.
    """
    chosen = [(i, s) for i, s in enumerate(sitters) if s.label in wanted]
    free = list(seats)
    given: dict[int, Seat | None] = {}
    if in_turn:
        neediest = max(chosen, key=lambda pair: (needs_arms(pair[1]), posture_of(pair[1]) == "seated", -pair[0]))
        shared = _seat_for(neediest[1], free, CHAIR_M)
        given = {i: shared if posture_of(s) == "seated" else None for i, s in chosen}
    else:
        wheels = [_eye_m(s, CHAIR_M) for _, s in chosen if s.posture == "wheelchair"]
        for i, s in sorted(chosen, key=lambda pair: (not pair[1].hip_or_back, -(pair[1].age_years or 0.0), pair[0])):
            level = sum(wheels) / len(wheels) - _eye_m(s, 0.0) if wheels else CHAIR_M
            given[i] = _seat_for(s, free, min(max(level, FIRM_M[0]), FIRM_M[1]))
    return [_person(i, s, given[i], mirror) for i, s in chosen]


def needs_arms(sitter: Sitter) -> bool:
    """Whether a seat should have arms: a hip or back to be spared, or 65 and over (common practice, no source)."""
    return posture_of(sitter) == "seated" and (bool(sitter.hip_or_back) or (sitter.age_years or 0.0) >= OLDER_YEARS)


def _seat_for(sitter: Sitter, free: list[Seat], wanted_m: float) -> Seat | None:
    if posture_of(sitter) != "seated" or not free:
        return None
    arms = needs_arms(sitter)
    suited = [s for s in free if bool(s.arms) or not arms] or free
    seat = min(suited, key=lambda s: (abs((s.height_m or CHAIR_M) - wanted_m), bool(s.arms) != arms, s.id))
    free.remove(seat)
    return seat


def _eye_m(sitter: Sitter, seat_m: float) -> float:
    age = age_of(sitter)
    stature = (sitter.height_cm / 100.0) if sitter.height_cm else anatomy.stature_m(age)
    return sitter.eye_height_m or anatomy.eye_height_m(posture_of(sitter), stature, age, seat_m)


def _person(index: int, sitter: Sitter, seat: Seat | None, mirror: bool) -> Person:
    seat_m = (seat.height_m if seat is not None else None) or CHAIR_M
    eye = _eye_m(sitter, seat_m)
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
