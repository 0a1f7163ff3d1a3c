"""Reads for the pages of frames. Belongs here: a sitting's frames as a ledger, a set-up's test frame beside its plan,
the histogram as lines to draw, a frame against its client's reference. Not here: writing, reading files."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.models import Sitting
from shotplans.light import colour
from shotplans.light import pictures as light
from shotplans.models import CompanyStandard, Frame, FrameCheck, Plan, Reference, SmallPicture
from shotplans.records import again, against_reference, frame_checks, frame_settings, matching, pictures
from shotplans.records.frame_checks import CHECKS, Check, Found, percent

NAMES = (gettext_lazy("red"), gettext_lazy("green"), gettext_lazy("blue"))
HIGH = 100
DOUBTS_SHOWN = 200


def wanted_of(plan: Plan | None) -> tuple[frame_settings.Wanted, ...]:
    """What each set-up of a plan asks of the camera."""
    return frame_settings.wanted(plan.document, plan.request) if plan else ()


@dataclass(frozen=True)
class Doubt:
    """Neighbouring frames that are in doubt for one reason, asked about together."""

    first: int
    last: int
    says: str


@dataclass(frozen=True)
class Ledger:
    """A sitting's frames."""

    total: int
    counts: list[matching.Count]
    runs: list[matching.Run]
    doubts: list[Doubt]
    unread: list[Frame]
    setups: list[str]


def ledger(sitting: Sitting, plan: Plan | None) -> Ledger:
    """The frames of a sitting: counts, runs with wrong settings, doubts. One query for all of them."""
    rows = list(Frame.objects.of(sitting).counted().filter(is_test=False).defer("look").in_order())
    setups = wanted_of(plan)
    shots = [matching.Shot(number=r.number, setup=r.setup_name, data=r.data) for r in rows]
    return Ledger(
        len(rows), matching.counts(shots, setups), matching.runs(shots, setups), _doubts(rows),
        [r for r in rows if r.unread], [s.name for s in setups],
    )  # fmt: skip


def _doubts(rows: list[Frame]) -> list[Doubt]:
    found: list[Doubt] = []
    open_run = False
    for row in rows:
        if row.setup_name:
            open_run = False
        elif open_run and found[-1].says == row.doubt:
            found[-1] = Doubt(found[-1].first, row.number, row.doubt)
        else:
            found.append(Doubt(row.number, row.number, row.doubt))
            open_run = True
    return found[:DOUBTS_SHOWN]


@dataclass(frozen=True)
class Asked:
    """One check: the person's answer where there is one, else what the file says."""

    check: Check
    answer: FrameCheck | None
    found: Found | None

    @property
    def failed(self) -> bool:
        if self.answer is not None:
            return not self.answer.passed
        return self.found is not None and not self.found.passed

    @property
    def good(self) -> bool:
        return self.answer.passed if self.answer else bool(self.found and self.found.passed)


@dataclass(frozen=True)
class Tested:
    """A set-up's test frame beside its plan, and its fourteen checks."""

    frame: Frame | None
    picture: SmallPicture | None
    differences: list[frame_settings.Difference]
    checks: list[Asked]

    @property
    def exceptions(self) -> list[Asked]:
        return [c for c in self.checks if c.failed]

    @property
    def open(self) -> list[Asked]:
        return [c for c in self.checks if not c.failed and not c.good]

    @property
    def all_good(self) -> bool:
        return all(c.good for c in self.checks)


def tested(plan: Plan, setup_name: str) -> Tested:
    """The newest test frame of a set-up; answers given before it came in no longer count."""
    frames = Frame.objects.of(plan.sitting).filter(is_test=True, setup_name=setup_name)
    frame = frames.select_related("picture").order_by("-received_at", "-pk").first()
    found: list[frame_settings.Difference] = []
    if frame is not None:
        wanted = next((w for w in wanted_of(plan) if w.name == setup_name), None)
        found = frame_settings.differences(frame.data, wanted) if wanted else []
        if frame.taken_at:
            found.append(frame_settings.clock(frame.taken_at, frame.received_at))
    judged = frame_checks.judged(found, frame.look if frame else None)
    answers = FrameCheck.newest(plan, setup_name)
    if frame is not None:
        answers = {code: row for code, row in answers.items() if row.at >= frame.received_at}
    picture = getattr(frame, "picture", None) if frame else None
    return Tested(frame, picture, found, [Asked(c, answers.get(c.code), judged.get(c.code)) for c in CHECKS])


@dataclass(frozen=True)
class Histogram:
    """Three lines to draw in a box of 256 by 100, and what they say in words."""

    lines: list[tuple[str, str]]
    clipped: str
    red: str
    blocked: str
    sampled: str
    clipped_parts: list[tuple[float, float]]
    blocked_parts: list[tuple[float, float]]


def histogram(look: dict[str, Any]) -> Histogram:
    """A picture's numbers as its page draws them."""
    # A burnt corner would flatten everything else: the two outermost bins are cut where they stand out.
    tallest = max(max(row[1:-1]) for row in look["bins"]) or 1
    made = []
    for name, row in zip(NAMES, look["bins"], strict=True):
        step = 256 / len(row)
        points = [(at * step, HIGH - HIGH * min(n / tallest, 1.0)) for at, n in enumerate(row)]
        made.append((name, " ".join(f"{x:.0f},{y:.1f}" for x, y in [*points, (256, points[-1][1])])))
    sampled = _("%(millions)s million samples of %(n)s x %(n)s pixels") % {
        "millions": f"{look['samples'] / 1e6:.1f}", "n": look["reduced"],
    }  # fmt: skip
    return Histogram(
        made, percent(look["clipped"]), percent(look["red_clipped"]), percent(look["blocked"]), sampled,
        _places(look["clipped_parts"]), _places(look["blocked_parts"]),
    )  # fmt: skip


def _places(parts: list[int]) -> list[tuple[float, float]]:
    """Upper left corners of the parts, in a picture of 36 by 24."""
    return [(n % pictures.COLUMNS, n // pictures.COLUMNS) for n in parts]


def touched(picture: SmallPicture, what: str, x: float, y: float, kelvin: float | None) -> list[str]:
    """What a patch says: of a grey card exposure and colour, of skin its red channel. Each verdict with its number."""
    patch = pictures.patch(pictures.open_jpeg(BytesIO(bytes(picture.jpeg))), x, y)
    levels = ", ".join(f"{name} {level:.0f}" for name, level in zip(NAMES, patch.levels, strict=True))
    if what == "skin":
        room = 255 - patch.levels[0]
        burnt = percent(patch.red_clipped)
        return [
            _("Levels %(levels)s.") % {"levels": levels},
            _("Red lies %(room)s levels under white; %(burnt)s of it is burnt.")
            % {"room": f"{room:.0f}", "burnt": burnt},
        ]
    try:
        off, warm = float(light.exposure_stops(patch.rgb)), float(light.warmer_than_neutral_mired(patch.rgb))
        green = float(light.green_stops(patch.rgb))
    except ValueError:
        return [
            _("Levels %(levels)s: too dark or too strong in colour for a grey card. Touch the card again.")
            % {"levels": levels}
        ]
    said = [
        _("Levels %(levels)s.") % {"levels": levels},
        _("Exposure %(stops)s stop against an 18 %% card (one or two tenths uncertain).") % {"stops": f"{off:+.1f}"},
    ]
    by = {"mired": f"{abs(warm):.0f}", "green": f"{green:+.2f}"}
    if warm > 0:
        said.append(_("White balance %(mired)s mired too warm; green %(green)s stop.") % by)
    else:
        said.append(_("White balance %(mired)s mired too blue; green %(green)s stop.") % by)
    if kelvin and abs(warm) > frame_checks.GREY_MIRED:
        to = {"to": f"{float(colour.shifted_kelvin(kelvin, warm)):.0f}", "now": f"{kelvin:.0f}"}
        said.append(_("Set about %(to)s K instead of %(now)s K.") % to)
    return said


@dataclass(frozen=True)
class Side:
    """One of two pictures side by side, with its ruled lines where the eyes are marked."""

    frame: Frame
    picture: SmallPicture | None
    lines: against_reference.Lines | None

    @property
    def ruled(self) -> list[float]:
        """Where the lines lie in pixels of the small picture: eye line, head's top and bottom."""
        if self.lines is None or self.picture is None:
            return []
        return [round(share * self.picture.height, 1) for share in (self.lines.eye, self.lines.top, self.lines.bottom)]


def side(frame: Frame) -> Side:
    picture = SmallPicture.objects.filter(frame=frame).first()
    if picture is None or not picture.eyes:
        return Side(frame, picture, None)
    (left, right) = picture.eyes
    eyes = (tuple(left), tuple(right))
    return Side(frame, picture, against_reference.lines(eyes, picture.width, picture.height))  # type: ignore[arg-type]


def reference_of(sitting: Sitting) -> Side | None:
    row = Reference.objects.filter(client=sitting.client_id).select_related("frame__sitting").first()
    return side(row.frame) if row else None


def heads(new: Side) -> list[tuple[str, str]]:
    """How large the head is in a frame, beside its plan's and its company standard's; nothing before its eyes are
    marked. A head is reckoned from the eyes' distance (`records.against_reference`), so it holds for a face turned to
    the lens: a head turned by 30 degrees reads a seventh too small."""
    if new.lines is None or new.lines.head <= 0:
        return []
    sitting, head = new.frame.sitting, new.lines.head
    found = [(_("Head here"), f"{100 * head:.1f} %")]
    plan = Plan.objects.of(sitting).current().first()
    setup = plan.setup(new.frame.setup_name) if plan else None
    planned = again.head_share(setup, plan.request["kit"]["cameras"]) if plan and setup and setup["camera"] else None
    standard = CompanyStandard.objects.filter(client=sitting.client_id).first()
    fixed = standard.values.get("head_share") if standard else None
    said = [(_("Planned"), planned), (_("By the company's standard"), fixed)]
    return found + [(name, against_reference.head_beside(head, float(share))) for name, share in said if share]


def offsets(new: Side, reference: Side | None) -> list[tuple[str, str]]:
    """How a frame lies beside the reference; nothing before all four eyes are marked."""
    if reference is None or new.lines is None or reference.lines is None:
        return []
    return against_reference.in_words(against_reference.offset(new.lines, reference.lines))
