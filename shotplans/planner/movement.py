"""What moves while the light lasts: the liveliest of those known to be restless, and its smear, here and on the print.

Speeds are common practice; how a head's flash grows longer or shorter below full power is not known to the kit.
"""

from __future__ import annotations

from dataclasses import dataclass

from shotplans.light import heads, lenses, motion
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Solved

SMALL_YEARS = 6.0
WALKS_YEARS = 1.5  # most walk by then: value from memory
FREE = ("standing", "floor")
SHOWS_SHARE = 1.0  # of the blur circle the plan holds everything else to


@dataclass(frozen=True)
class Smear:
    """Speed and smear of one sitter: `field` is the note it comes from, `bound` whether it must stay unseen."""

    index: int
    field: str | None
    who: str
    bound: bool
    speed_m_s: float
    lasting_s: float
    blur_mm: float
    print_mm: float
    circle_mm: float
    print_cm: float
    head: str | None

    @property
    def shows(self) -> bool:
        """Whether a smear that must not be seen is wider than the blur circle on the print."""
        return self.bound and self.print_mm > SHOWS_SHARE * self.circle_mm + 1e-9

    @property
    def longest_s(self) -> float:
        """The longest light that would keep it within the circle."""
        here_mm = self.blur_mm * self.circle_mm / self.print_mm
        return float(motion.longest_for_blur_s(here_mm, self.speed_m_s))


def smear(solved: Solved) -> Smear | None:
    """The widest smear of those who are restless; under steady light, where nobody is, that of any hand. Else None."""
    lit = flash_lasting(solved)
    if not solved.steady and lit is None:
        return None
    lasting, head = (solved.camera.shutter_s, None) if solved.steady else lit or (0.0, None)
    lively = [(_speed(s), s) for s in solved.pose.seated]
    restless = [(found, s) for found, s in lively if found is not None]
    if restless:
        (speed, who, bound), seated = max(restless, key=lambda r: (r[0][2], r[0][0], -r[1].person.index))
        field: str | None = "tremor" if who == "unsteady" else "age_years"
    elif solved.steady:
        speed, who, bound, seated, field = motion.HAND_M_S, "hand", False, solved.pose.seated[0], None
    else:
        return None
    brief, c = solved.notes["brief"], solved.camera
    print_cm = float(brief.print_width_cm)  # type: ignore[attr-defined]
    blur = float(motion.motion_blur_mm(speed, lasting))
    sides = sorted((c.body.sensor_width_mm, c.body.sensor_height_mm))
    wide_mm = sides[0] if c.orientation == "upright" else sides[1]
    return Smear(
        seated.person.index, field, who, bound, speed, lasting, blur,
        float(lenses.size_on_print(blur / 1000, print_cm * 10, c.field_width_m)), c.blur_mm * print_cm * 10 / wide_mm,
        print_cm, head,
    )  # fmt: skip


def _speed(seated: Seated) -> tuple[float, str, bool] | None:
    """Speed in m/s, who moves, and whether it must stay unseen; a small child held is free with its hands only."""
    sitter = seated.person.sitter
    age = seated.person.age
    if WALKS_YEARS <= age < SMALL_YEARS and sitter.posture in FREE:
        return motion.TODDLER_M_S, "child", True
    if sitter.tremor:
        return motion.TREMOR_M_S, "unsteady", True
    return (motion.HAND_M_S, "small hand", False) if age < SMALL_YEARS else None


def flash_lasting(solved: Solved) -> tuple[float, str] | None:
    """The longest flash of key and fill as t0.1 in seconds at full power, with its head's name; None without one."""
    found = [(_t01(x), str(x.emitter.head.label or x.emitter.head.id)) for x in _flashes(solved) if x.emitter]
    return max(found, key=lambda f: f[0], default=None)


def _flashes(solved: Solved) -> list[Light]:
    return [x for x in solved.by_role("key", "fill") if x.emitter and x.emitter.head.duration_s]


def _t01(light: Light) -> float:
    assert light.emitter is not None
    head = light.emitter.head
    lasting = float(head.duration_s or 0.0)
    return float(heads.t01_from_t05(lasting)) if head.duration_kind == "t0.5" else lasting
