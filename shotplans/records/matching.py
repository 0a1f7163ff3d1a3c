"""Which set-up a frame belongs to, and frames with the same fault as runs. Belongs here: tying by time and settings,
saying what is in doubt, and counting. Pure: frames and set-ups as values.

A set-up's time begins when its meter round begins. Time and settings are two witnesses: where they agree, or one of
them says nothing, the frame is tied; where they say different things, a person is asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby

from shotplans.planner.words import joined
from shotplans.records.exif import CameraData
from shotplans.records.frame_settings import TOLERANCE_STOPS, Wanted, differences, in_stops, over_stops
from studio.tongue import gettext as _

BEFORE_METERING = timedelta(minutes=10)  # a test frame may come before the first reading is typed


@dataclass(frozen=True)
class Tie:
    """The set-up a frame belongs to and what says so: `only`, `time`, `settings`, `both`; in doubt the name is empty
    and `says` tells why."""

    setup: str
    by: str
    says: str = ""


@dataclass(frozen=True, kw_only=True)
class Shot:
    """A frame as runs are made of it."""

    number: int
    setup: str
    data: CameraData


@dataclass(frozen=True)
class Run:
    """Frames one after the other with the same settings in the same set-up, and what is wrong with all of them."""

    first: int
    last: int
    count: int
    setup: str
    settings: str
    planned: str
    says: str

    @property
    def frames(self) -> str:
        return str(self.first) if self.first == self.last else f"{self.first}-{self.last}"


def tie(data: CameraData, taken: datetime | None, setups: Sequence[Wanted], begun: Mapping[str, datetime]) -> Tie:
    """Tie one frame. `taken` is in the zone of `begun`, the moments at which each set-up was first metered."""
    if len(setups) == 1:
        return Tie(setups[0].name, "only")
    timed = _by_time(taken, setups, begun)
    alike = [s.name for s in setups if _like(data, s)]
    if timed and (timed in alike or not alike):
        return Tie(timed, "both" if alike else "time")
    if timed:
        return Tie(
            "",
            "",
            _("taken while {timed} was being shot, with the settings of {others}").format(
                timed=timed, others=joined.one_of(alike)
            ),
        )
    if len(alike) == 1:
        return Tie(alike[0], "settings")
    if alike:
        return Tie(
            "", "", _("settings as in {setups}, and no time to tell them apart").format(setups=joined.all_of(alike))
        )
    return Tie("", "", _("neither its time nor its settings are those of a set-up"))


def _by_time(taken: datetime | None, setups: Sequence[Wanted], begun: Mapping[str, datetime]) -> str:
    """The set-up that was metered last before a frame was taken; empty where there is no telling."""
    if taken is None:
        return ""
    started = sorted((begun[s.name], s.name) for s in setups if s.name in begun)
    before = [name for at, name in started if at <= taken]
    if before:
        return before[-1]
    return started[0][1] if started and taken >= started[0][0] - BEFORE_METERING else ""


def _like(data: CameraData, plan: Wanted) -> bool:
    """Whether all settings that are known are those of a set-up."""
    known = differences(data, plan)
    return bool(data.f_number) and not any(d.broken for d in known if d.what != "white balance")


def runs(shots: Iterable[Shot], setups: Sequence[Wanted]) -> list[Run]:
    """Frames whose settings are not the plan's, neighbours with the same fault together, in order of their numbers."""
    plans = {s.name: s for s in setups}
    ordered = sorted((s for s in shots if s.setup in plans), key=lambda s: s.number)
    found = []
    for (setup, _settings, says), group in groupby(ordered, key=lambda s: _fault(s, plans[s.setup])):
        if says:
            run = list(group)
            settings, planned = _settings_of(run[0].data, plans[setup])
            found.append(Run(run[0].number, run[-1].number, len(run), setup, settings, planned, says))
    return found


def _fault(shot: Shot, plan: Wanted) -> tuple[str, str, str]:
    """What frames of one run have in common: set-up, settings, and the fault in words, empty where there is none."""
    broken = [d for d in differences(shot.data, plan) if d.broken]
    if not broken:
        return (shot.setup, "", "")
    over = over_stops(shot.data, plan)
    exposed = [in_stops(over)] if over is not None and abs(over) > TOLERANCE_STOPS else []
    in_exposure = ("aperture", "ISO") if plan.flash else ("aperture", "ISO", "shutter")
    others = [d for d in broken if d.what not in in_exposure]
    said = [*exposed, *(d.says if d.what == "shutter" else f"{d.name} {d.says}" for d in others)]
    settings, _planned = _settings_of(shot.data, plan)
    return (shot.setup, settings, "; ".join(said) or _("one setting makes up for the other"))


def _settings_of(data: CameraData, plan: Wanted) -> tuple[str, str]:
    """The settings that are wrong, and as planned: "at f/2.8", "f/11"."""
    wrong = [d for d in differences(data, plan) if d.broken]
    return ", ".join(d.actual for d in wrong), ", ".join(d.planned for d in wrong)


@dataclass(frozen=True)
class Count:
    """Frames of one set-up against its shot list and its heads: `least` is what the heads ask of any one picture."""

    setup: str
    taken: int
    wanted: int
    heads: int

    @property
    def short_by(self) -> int:
        return max(0, self.wanted - self.taken)


def counts(shots: Iterable[Shot], setups: Sequence[Wanted]) -> list[Count]:
    """How many frames each set-up has and should have."""
    taken = [s.setup for s in shots]
    return [Count(s.name, taken.count(s.name), s.frames, s.heads) for s in setups]
