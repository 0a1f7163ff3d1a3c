"""A frame's settings beside the plan's. Belongs here: what a plan asks of the camera, and each way a frame differs from
it, as numbers and in words. Not here: reading a file (`exif`), which set-up a frame belongs to (`matching`)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from math import log2
from typing import Any

from shotplans.light.exposure import exact_f_number, nearest_third, shutter_label, stops_between
from shotplans.records.against_set import FLAGGED_STOPS
from shotplans.records.exif import CameraData
from studio.tongue import gettext as _
from studio.tongue import ngettext, noop

TOLERANCE_STOPS = float(FLAGGED_STOPS)  # a frame is judged as the camera was before it
SHUTTER_STOPS = 0.25  # engraved times lie up to a tenth beside powers of two; the next third does not
FOCAL_SHARE = 0.05  # zooms round what they write
CLOCK_SECONDS = 60.0
BALANCES = {"auto": noop("auto"), "by hand": noop("by hand")}


NAMES = {
    "aperture": noop("aperture"), "ISO": noop("ISO"), "shutter": noop("shutter"), "focal length": noop("focal length"),
    "white balance": noop("white balance"), "flash": noop("flash"), "clock": noop("clock"),
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """What one set-up of a plan asks of the camera. `flash`: the light is flash, so the shutter makes no exposure."""

    name: str
    f_number: float
    shutter_s: float
    iso: int
    focal_mm: float
    kelvin: float | None = None
    flash: bool = True
    sync_s: float | None = None
    heads: int = 1
    frames: int = 0


@dataclass(frozen=True)
class Difference:
    """One setting beside its plan. `broken` where a frame is spoiled or does not match; else it is only said."""

    what: str
    planned: str
    actual: str
    says: str
    broken: bool
    dark_band: bool = False

    @property
    def name(self) -> str:
        """What it is called; `what` is what it is known by."""
        return _(NAMES[self.what])


def wanted(document: dict[str, Any], request: dict[str, Any]) -> tuple[Wanted, ...]:
    """Every set-up that has a camera, in the order it is shot in."""
    steady = {h["id"] for h in request.get("kit", {}).get("heads", []) if h.get("light") == "steady"}
    sync = {c["id"]: c.get("sync_s") for c in request.get("kit", {}).get("cameras", [])}
    return tuple(_wanted(s, document, steady, sync) for s in document["setups"] if s.get("camera"))


def _wanted(setup: dict[str, Any], document: dict[str, Any], steady: set[str], sync: dict[str, Any]) -> Wanted:
    camera = setup["camera"]
    heads = [light["head"] for light in setup["lights"] if light["head"]]
    return Wanted(
        name=setup["name"], f_number=dialled(camera), shutter_s=camera["shutter_s"], iso=camera["iso"],
        focal_mm=camera["focal_mm"], kelvin=camera.get("white_balance_k"),
        flash=any(head not in steady for head in heads), sync_s=sync.get(camera["body"]),
        heads=len(setup["sitters"]), frames=sum(s["frames"] for s in document["shots"] if s["setup"] == setup["name"]),
    )  # fmt: skip


def dialled(camera: dict[str, Any]) -> float:
    """The exact f-number of the third stop that is set on the camera."""
    return exact_f_number(float(camera["nearest_third"].removeprefix("f/")))


def over_stops(frame: CameraData, plan: Wanted) -> float | None:
    """Stops by which a frame's settings take more (+) or less (-) light than planned; None where they are not known.

    2 log2(N planned / N) + log2(ISO / ISO planned), and the shutter's log2(t / t planned) for steady light alone.
    Source: the additive exposure system, as `light.exposure`.
    """
    if frame.f_number is None:
        return None
    found = float(stops_between(exact_f_number(frame.f_number), plan.f_number))
    if frame.iso:
        found += log2(frame.iso / plan.iso)
    if not plan.flash and frame.shutter_s:
        found += log2(frame.shutter_s / plan.shutter_s)
    return found


def differences(frame: CameraData, plan: Wanted) -> list[Difference]:
    """Every known setting beside its plan, those that are as planned too."""
    return [*_exposure(frame, plan), *_shutter(frame, plan), *_others(frame, plan)]


def _exposure(frame: CameraData, plan: Wanted) -> Iterator[Difference]:
    if frame.f_number:
        off = float(stops_between(exact_f_number(frame.f_number), plan.f_number))
        yield _stops("aperture", f"f/{_engraved(plan.f_number)}", f"f/{frame.f_number:g}", off)
    if frame.iso:
        yield _stops("ISO", f"ISO {plan.iso}", f"ISO {frame.iso}", log2(frame.iso / plan.iso))


def _shutter(frame: CameraData, plan: Wanted) -> Iterator[Difference]:
    if not frame.shutter_s:
        return
    planned, actual = shutter_label(plan.shutter_s), shutter_label(frame.shutter_s)
    off = log2(frame.shutter_s / plan.shutter_s)
    if not plan.flash:
        yield _stops("shutter", planned, actual, off)
    elif plan.sync_s and frame.shutter_s < plan.sync_s * 2**-SHUTTER_STOPS:
        says = _("faster than the camera syncs at ({time}): a dark band").format(time=shutter_label(plan.sync_s))
        yield Difference("shutter", planned, actual, says, True, dark_band=True)
    elif off > SHUTTER_STOPS:
        yield Difference(
            "shutter",
            planned,
            actual,
            _("lets in {stops} stop more of the room's light").format(stops=f"{off:.1f}"),
            off >= 1,
        )
    else:
        yield Difference("shutter", planned, actual, _("flash: makes no exposure"), False)


def _others(frame: CameraData, plan: Wanted) -> Iterator[Difference]:
    if frame.focal_mm:
        share = frame.focal_mm / plan.focal_mm
        off = abs(share - 1) > FOCAL_SHARE
        says = (
            _("draws {times} times as large from the same place").format(times=f"{share:.2f}")
            if off
            else _("as planned")
        )
        yield Difference(
            "focal length",
            f"{plan.focal_mm:g} mm",
            f"{frame.focal_mm:g} mm",
            says,
            off,
        )
    if frame.white_balance:
        auto = frame.white_balance == "auto"
        planned = f"{plan.kelvin:.0f} K" if plan.kelvin else _("by hand")
        says = _("automatic: frames will not match") if auto else _("by hand; the file does not say how many kelvin")
        yield Difference(
            "white balance", planned, _(BALANCES.get(frame.white_balance, frame.white_balance)), says, auto
        )
    if frame.flash_fired is not None:
        yield _flash(frame.flash_fired, plan)


def _flash(fired: bool, plan: Wanted) -> Difference:
    planned, actual = (_("flash") if plan.flash else _("steady light")), (_("fired") if fired else _("not fired"))
    if fired and not plan.flash:
        return Difference("flash", planned, actual, _("a flash fired in a set-up of steady light"), True)
    says = _("as planned") if fired or not plan.flash else _("usual with a trigger the camera knows nothing of")
    return Difference("flash", planned, actual, says, False)


def _stops(what: str, planned: str, actual: str, off: float) -> Difference:
    if abs(off) <= TOLERANCE_STOPS:
        return Difference(what, planned, actual, _("as planned"), False)
    return Difference(what, planned, actual, in_stops(off), True)


def in_stops(off: float) -> str:
    """A difference in words: "4 stops over", "0.3 stop under"."""
    size = f"{abs(off):.1f}".removesuffix(".0")
    n = 1 if abs(off) < 1.05 else 2
    over = ngettext("{stops} stop over", "{stops} stops over", n)
    under = ngettext("{stops} stop under", "{stops} stops under", n)
    return (over if off > 0 else under).format(stops=size)


def _engraved(f_number: float) -> str:
    return nearest_third(f_number)[0].removeprefix("f/")


def clock(frame_taken: datetime, received: datetime) -> Difference | None:
    """How far the camera's clock is from the studio's, for a frame that was taken just before it came in."""
    off = (frame_taken - received).total_seconds()
    shown = f"{frame_taken:%H:%M:%S}"
    if abs(off) <= CLOCK_SECONDS:
        return Difference("clock", f"{received:%H:%M:%S}", shown, _("as the studio's, within a minute"), False)
    hours, minutes = divmod(round(abs(off) / 60), 60)
    size = f"{hours} h {minutes} min" if hours else f"{minutes} min"
    way = _("{time} before the studio's: set it") if off > 0 else _("{time} behind the studio's: set it")
    return Difference("clock", f"{received:%H:%M:%S}", shown, way.format(time=size), True)
