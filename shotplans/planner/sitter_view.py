"""What the plan does to each face: relief place by place, catchlights eye by eye, every light against every lens.

For people taken in turn, the lights and the camera go up and down with the eyes (changes_per_person), and each is
judged at the place as changed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import eyes, glasses, nose
from shotplans.light.sources import panel_axes
from shotplans.light.units import bearing_deg, direction, height_deg, round_to
from shotplans.planner import anatomy, skin_view
from shotplans.planner.expect import Meter
from shotplans.planner.judge import BRIDGE_MM, EYE_APART_M
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Solved
from shotplans.planner.words import roles
from studio.tongue import gettext as _
from studio.tongue import language, ngettext, noop

F = NDArray[np.float64]
EYE_SIDES = np.array([-1.0, 1.0])  # the eye on the picture's left, the one on its right
TIP_DOWN_MM = 38.0  # the nose's tip below the pupils (light.md section 5)
SHOWS_DEG = 0.5  # clear on the edge of what a person can set; the search asks for twice that
PANTO_DEG = 8.0  # how far lenses lean as worn (values.md Y12)
TEMPLES_UP_DEG = 5.0  # temples raised by a centimetre on arms of 11 cm tip the lenses so far: value from memory
HIGHER_DEG = (5.0, 10.0, 15.0, 20.0)  # how far a light is raised before another cure is looked for
WHY_NOT = {
    eyes.LID: noop("a lid covers it"),
    eyes.BROW: noop("the brow is in the way"),
    eyes.NOSE: noop("the nose is in the way"),
    eyes.BESIDE: noop("it falls beside the cornea"),
}


def changes(solved: Solved, sitter: Seated) -> dict[str, Any]:
    """How key and camera move for one of several people in turn, to 5 cm, against the one the set is built for."""
    rise = float(round_to(sitter.person.eye_m - solved.pose.eye_m, 0.05)) if solved.pose.in_turn else 0.0
    return {"label": sitter.person.label, "key_up_m": rise, "camera_up_m": rise, "seat": sitter.person.seat}


def view(solved: Solved, meter: Meter, sitter: Seated) -> dict[str, Any]:
    """The `per_sitter` entry of one sitter."""
    return views(solved, meter, [sitter])[0]


def views(solved: Solved, meter: Meter, seated: Sequence[Seated]) -> list[dict[str, Any]]:
    """The `per_sitter` entries of several, those for whom the lights stand alike looked at together.

    Heads and camera that go up with the eyes see a face as they would see it lower from where they stood; a panel stays
    on the floor, so with one in the set each height is looked at by itself.
    """
    rises = [float(changes(solved, s)["key_up_m"]) for s in seated]
    if all(x.emitter for x in solved.by_role("key", "fill")):
        return _alike(solved, meter, [_lowered(s, r) for s, r in zip(seated, rises, strict=True)], 0.0)
    entries: dict[int, dict[str, Any]] = {}
    for rise in dict.fromkeys(rises):
        alike = [n for n, r in enumerate(rises) if r == rise]
        entries |= dict(zip(alike, _alike(solved, meter, [seated[n] for n in alike], rise), strict=True))
    return [entries[n] for n in range(len(seated))]


def _lowered(sitter: Seated, by_m: float) -> Seated:
    x, y, z = sitter.face_m
    return replace(sitter, face_m=(x, y - by_m, z)) if by_m else sitter


def _alike(solved: Solved, meter: Meter, seated: list[Seated], rise: float) -> list[dict[str, Any]]:
    fronts = [_raised(x, rise) for x in solved.by_role("key", "fill")]
    camera_at = solved.camera.at + np.array([0.0, rise, 0.0])
    reliefs = skin_view.views(meter, seated, fronts, camera_at)
    caught = _catchlights(seated, fronts, camera_at)
    falls = _nose_shadows(fronts[0], seated)
    return [
        {
            "label": s.person.label,
            **reliefs[n],
            "nose_shadow": falls[n],
            "catchlights": caught[n],
            "glasses": _glasses(s, fronts, camera_at, np.array(s.face_m)),
        }
        for n, s in enumerate(seated)
    ]


def _raised(light: Light, rise: float) -> Light:
    if not rise or light.emitter is None:
        return light
    (x, y, z), (aim_x, aim_y, aim_z) = light.position, light.aim
    return replace(light, position=(x, y + rise, z), aim=(aim_x, aim_y + rise, aim_z))


def _catchlights(seated: Sequence[Seated], fronts: list[Light], camera_at: F) -> list[list[dict[str, Any]]]:
    """Every light in both eyes of each, looking at the lens where they can; mm from each eye, in the head's frame."""
    turns = np.stack([anatomy.head_matrix(s.nose_deg, s.chin_deg) for s in seated])
    faces = np.array([s.face_m for s in seated])
    eye_at = (EYE_SIDES[:, None] * EYE_APART_M * np.array([1.0, 0.0, 0.0]))[None] @ np.swapaxes(turns, 1, 2)
    seats = faces[:, None, :] + eye_at  # sitters, eyes, place
    camera = (camera_at - seats) @ turns * 1000
    gaze = anatomy.gaze_deg(camera)
    sources = (np.array([light.at for light in fronts])[:, None, None, :] - seats) @ turns * 1000
    seen = eyes.catchlight(sources, camera, *gaze)
    brow = np.array([s.person.brow_mm for s in seated])[:, None]
    because = eyes.unseen_because(sources, camera, EYE_SIDES, brow, BRIDGE_MM, *gaze)
    found: list[list[dict[str, Any]]] = [[] for _one in seated]
    heads = (turns.tobytes(), seats.tobytes(), camera_at.tobytes())
    for at, light in enumerate(fronts):

        def mirrored(at: int = at, light: Light = light) -> eyes.Outline:
            axes = (light.axis @ turns)[:, None, :]
            rolls = np.array([roll_deg(light, turn) for turn in turns])[:, None]
            offset = (seen.dx_mm[at], seen.dy_mm[at])
            return eyes.catchlight_outline(sources[at], axes, size_mm(light), camera, rolls, *gaze, offset_mm=offset)

        outline = light.once(("mirrored", *heads), mirrored)
        for n in range(len(seated)):
            here = eyes.Catchlight(*(v[at, n] for v in seen))
            ringed = eyes.Outline(*(v[n] for v in outline))
            found[n] += [_catchlight(light, k, int(because[at, n, k]), here, ringed) for k in range(2)]
    return found


def size_mm(light: Light) -> tuple[float, ...]:
    """A front as it hangs: a disc's diameter or a rectangle's width and height."""
    disc = light.emitter is not None and light.emitter.disc
    return (light.width_m * 1000,) if disc else (light.width_m * 1000, light.height_m * 1000)


def roll_deg(light: Light, turn: F) -> float:
    """How far a front that hangs upright in the set is rolled about its axis in the head's frame, degrees."""
    upright = panel_axes(light.axis)[1] @ turn
    across, up = panel_axes(light.axis @ turn)
    return float(np.degrees(np.arctan2(-(upright @ across), upright @ up)))


def _catchlight(light: Light, n: int, because: int, seen: eyes.Catchlight, outline: eyes.Outline) -> dict[str, Any]:
    """The nth eye's entry. `size_mm` is the longer of the two extents: along and across the line from the pupil."""
    entry: dict[str, Any] = {"light": light.letter, "image_side": ("left", "right")[n]}
    if because != eyes.CLEAR:
        unseen = ("clock", "size_mm", "radial_mm", "tangential_mm", "offset_mm")
        return entry | dict.fromkeys(unseen) | {"seen": False, "why_not": _(WHY_NOT[because])}
    radial, tangential = (_tenth_mm(v[n]) for v in outline)
    return entry | {
        "clock": round(float(seen.clock_hours[n]), 1) % 12,
        "size_mm": max(radial, tangential),
        "radial_mm": radial,
        "tangential_mm": tangential,
        "offset_mm": {"right": _tenth_mm(seen.dx_mm[n]), "up": _tenth_mm(seen.dy_mm[n])},
        "seen": True,
        "why_not": None,
    }


def _tenth_mm(value: float) -> float:
    return round(float(value), 1) + 0.0


def _nose_shadows(key: Light, seated: Sequence[Seated]) -> list[dict[str, Any]]:
    """Where the key throws the shadow of each nose on a simple face; no length where the key is behind it."""
    fall = nose.shadow(np.stack([_from_tip(key, s) for s in seated]))
    found = []
    parts = (fall.length_mm, fall.slant_deg, fall.touches_lip, fall.joins_cheek)
    for length, slant, lip, cheek in zip(*parts, strict=True):
        lands = math.isfinite(float(length))
        found.append(
            {
                "light": key.letter,
                "length_mm": float(round(float(length))) if lands else None,
                "slant_deg": float(round(float(slant))) + 0.0 if lands else None,
                "touches_lip": bool(lip),
                "joins_cheek": bool(cheek),
            }
        )
    return found


def _from_tip(key: Light, sitter: Seated) -> F:
    """From the tip of a nose to the key, in the head's frame."""
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    tip = np.array(sitter.face_m) + turn @ np.array([0.0, -TIP_DOWN_MM, nose.PROJECTION_MM]) / 1000
    return np.asarray((key.at - tip) @ turn, dtype=np.float64)


@dataclass(frozen=True)
class _Worn:
    """One pair of glasses and one light, millimetres from the bridge of the nose."""

    sitter: Seated
    light: Light
    light_mm: F
    camera_mm: F

    def margin(self, chin_deg: float, panto_deg: float = PANTO_DEG, higher_deg: float = 0.0) -> float:
        """Degrees the light is clear of the nearer lens, with the chin, the temples and the light's height as given."""
        far = float(np.linalg.norm(self.light_mm))
        at = far * np.asarray(direction(bearing_deg(self.light_mm), height_deg(self.light_mm) + higher_deg))
        found = glasses.glare(
            at, self.light.glare_size_m * 1000, self.camera_mm, side=EYE_SIDES, yaw_deg=self.sitter.nose_deg,
            pitch_deg=chin_deg, base_dioptre=self._base, panto_deg=panto_deg,
        )  # fmt: skip
        return float(found.margin_deg.min())

    @property
    def _base(self) -> float:
        return float(self.sitter.person.base_dioptre or 0.0)

    def clear_above_deg(self) -> float | None:
        """Height angle the light's lower edge stays above, to the next degree up; None where no height shows it."""
        found = glasses.clear_above_deg(
            float(bearing_deg(self.light_mm)), float(np.linalg.norm(self.light_mm)), self.light.glare_size_m * 1000,
            self.camera_mm, yaw_deg=self.sitter.nose_deg, pitch_deg=self.sitter.chin_deg, base_dioptre=self._base,
            margin_deg=SHOWS_DEG,
        )  # fmt: skip
        return None if math.isnan(found) else float(math.ceil(min(found, 90.0))) + 0.0

    def cures(self) -> Iterator[tuple[float, str]]:
        """What may be done, each with the margin it would leave; a key's height last, as the search has weighed it."""
        chin, worn, role = self.sitter.chin_deg, self.sitter.person.sitter.glasses, self.light.role
        tipped = PANTO_DEG + TEMPLES_UP_DEG
        room = int((self.sitter.person.sitter.chin_limit_deg or 0.0) - abs(chin))
        for down in range(1, room + 1):
            yield self.margin(chin - down), _("chin {by} further down").format(by=_degrees(down))
        if room > 0:
            yield self.margin(chin - room, tipped), _("chin {by} further down, temples up").format(by=_degrees(room))
        else:
            yield self.margin(chin, tipped), _("temples up")
        if role == "fill":
            for higher in HIGHER_DEG:
                says = _("fill higher by {by}, or to the key's side").format(by=_degrees(higher))
                yield self.margin(chin, higher_deg=higher), says
        if worn is not None and worn.may_remove:
            yield math.inf, _("one frame with the glasses off")
        for higher in HIGHER_DEG:
            says = _("{role} higher by {by}").format(role=roles.said(role), by=_degrees(higher))
            yield self.margin(chin, higher_deg=higher), says
        yield math.inf, _("the face turned, or the light further round")


def _degrees(count: float) -> str:
    return ngettext("{count} degree", "{count} degrees", round(count)).format(count=f"{count:.0f}")


def _glasses(sitter: Seated, fronts: list[Light], camera_at: F, face: F) -> list[dict[str, Any]]:
    """Every light against the glasses of one who wears them; the margin rounded down, so that none is promised."""
    if sitter.person.base_dioptre is None:
        return []
    seen = (language(), sitter.person.label, sitter.nose_deg, sitter.chin_deg, face.tobytes(), camera_at.tobytes())
    return [dict(x.once(("glasses", *seen), partial(_worn, sitter, x, camera_at, face))) for x in fronts]


def _worn(sitter: Seated, light: Light, camera_at: F, face: F) -> dict[str, Any]:
    worn = _Worn(sitter, light, (light.at - face) * 1000, (camera_at - face) * 1000)
    margin = worn.margin(sitter.chin_deg)
    cure = None if margin >= SHOWS_DEG else next(says for left, says in worn.cures() if left >= SHOWS_DEG)
    shown = float(math.floor(margin + 1e-9)) + 0.0
    return {"light": light.letter, "margin_deg": shown, "clear_above_deg": worn.clear_above_deg(), "cure": cure}
