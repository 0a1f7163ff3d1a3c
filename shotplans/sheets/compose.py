"""From a plan's document to the content of its sheets. Belongs here: which figure goes where.

Not here: the sentences of a set-up (`set_words`).

`request` is the plan's frozen input: it knows how large things are and what they are called. Nothing is computed anew
that the document already says, so that paper and page cannot disagree.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Any

from shotplans.light.exposure import shutter_label
from shotplans.planner import assumptions, codec
from shotplans.planner.request import Request
from shotplans.planner.words import roles
from shotplans.sheets import cases, content, counts, diagram, pack, scene, set_words, wording
from shotplans.sheets.content import Flags, Heading, SetupSheet
from shotplans.sheets.measures import METRIC, Measures
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
QUESTIONS = (noop("Standard repeated?"), noop("Set photo taken?"), noop("Differences written in?"))
HAZARDS = (
    noop("Cables flat, taped or covered, off the path"),
    noop("Stands: leg under the load, sandbag on"),
    noop("Nothing loose above people's places"),
    noop("Exits and the way to the set free"),
    noop("Seats firm, floor dry, nothing to step over"),
    noop("Lamps clear of cloth and paper"),
    noop("House lights full until all are seated"),
)
BOOM_HAZARD = noop("Boom: counterweight on first, safety cord, end flagged")


def filled(request: Request | Entry) -> Request:
    """The frozen input with its gaps filled, from the object or from the stored JSON."""
    given = request if isinstance(request, Request) else codec.understand(request)
    return assumptions.fill(given)[0]


def _full(request: Request | Entry, is_full: bool) -> Request:
    return request if is_full and isinstance(request, Request) else filled(request)


def setup_sheets(
    document: Entry,
    request: Request | Entry,
    heading: Heading,
    flags: Flags = Flags(),  # noqa: B008 - frozen
    *,
    is_full: bool = False,
    ratio_convention: str = "total",
    measures: Measures = METRIC,
) -> tuple[SetupSheet, ...]:
    """One sheet for each set-up of the plan, in the order to shoot; `is_full`: the gaps of the input are filled."""
    given, setups = _full(request, is_full), document["setups"]
    return tuple(
        SetupSheet(
            heading=heading,
            setup=str(setup["name"]),
            number=n,
            of=len(setups),
            alerts=set_words.alerts(setup, flags),
            intent=set_words.intent(setup, given),
            scene=(seen := scene.read(setup, given, measures)),
            notes=set_words.notes(setup, document, seen, ratio_convention, measures),
            rows=rows(seen),
            lights=tuple(light_row(light, setup, given, measures) for light in setup["lights"]),
            camera=camera_strip(setup, measures),
            shots=shots(document, setup),
            packing=pack.for_setup(document, setup, given),
            hazards=tuple(
                _(one) for one in (*HAZARDS, *((BOOM_HAZARD,) if any(x["arm_m"] for x in setup["lights"]) else ()))
            ),
            foot=content.Foot(tuple(_(one) for one in QUESTIONS)),
        )
        for n, setup in enumerate(setups, start=1)
    )


def rows(seen: scene.Scene | None) -> tuple[content.Row, ...]:
    """Who stands where in a group too large for names in the drawing, front row first."""
    if seen is None or not diagram.numbered(seen):
        return ()
    numbered = list(enumerate(diagram.places(seen), start=1))
    found = [(row, tuple(f"{n} {p.label}" for n, p in people)) for row, people in groupby(numbered, lambda x: x[1].row)]
    if len(found) == 1:
        return (content.Row(_("From camera left"), found[0][1]),)
    names = [_("Front row"), *(_("Row {n}").format(n=n) for n in range(2, len(found))), _("Back row")]
    return tuple(content.Row(name, people) for name, (_row, people) in zip(names, found, strict=True))


def light_row(light: Entry, setup: Entry, request: Request, measures: Measures) -> content.LightRow:
    """One light's row; a panel has no power and is not metered alone."""
    alone = next((s for s in setup["meter_round"] if s["on"] == [light["letter"]]), None)
    below = light["power_below_full_stops"]
    return content.LightRow(
        letter=light["letter"],
        role=roles.said(light["role"]),
        power=light["dial"] or _("white side"),
        power_words=wording.below_full(below) if below is not None else _("no power"),
        distance=measures.column(light["distance_m"]),
        bearing=wording.bearing(light["bearing_deg"]),
        height=measures.column(light["centre_height_m"]),
        target=alone["target"]["shown"] if alone else "",
        head=light["head"] or "",
        head_name=pack.name(light["head"], request) if light["head"] else "",
        modifier=pack.name(light["modifier"] or light["panel"], request),
        ring=light["adapter"] or "",
        stand=_stand(light, measures),
        sandbag=_("sandbag {sandbag}").format(sandbag=measures.mass(light["sandbag_kg"]))
        if light.get("sandbag_kg")
        else "",
        aim=light["aim_words"],
    )


def _stand(light: Entry, measures: Measures) -> str:
    if light["stand"] is None:
        return _("no stand")
    if not light["arm_m"]:
        return str(light["stand"])
    weight = measures.mass(light["counterweight_kg"])
    return _("{stand}, arm {arm}, counterweight {weight}").format(
        stand=light["stand"], arm=measures.length(light["arm_m"]), weight=weight
    )


def camera_strip(setup: Entry, measures: Measures) -> tuple[content.CameraValue, ...]:
    """The camera's settings; the aperture in the camera's thirds, with the reading and the trim in small."""
    camera = setup["camera"]
    if camera is None:
        return ()
    trim = camera["trim_stops"]
    small = (_("reads {shown}, trim {trim:+.1f}") if abs(trim) >= 0.05 else _("reads {shown}")).format(
        shown=camera["shown"], trim=trim
    )
    kelvin = camera["white_balance_k"]
    value = content.CameraValue
    return (
        value(_("aperture"), camera["nearest_third"], small, metered=True, set=True),
        value(_("shutter"), shutter_label(camera["shutter_s"]), "", metered=False, set=True),
        value("ISO", f"{camera['iso']:g}", "", metered=False, set=True),
        value(_("white balance"), f"{kelvin:.0f} K" if kelvin else _("by card"), "", set=True),
        value(_("lens"), f"{camera['focal_mm']:g} mm", camera["lens"]),
        value(_("distance"), measures.column(camera["distance_m"]), _("lens to mark")),
        value(_("height"), measures.column(camera["height_m"]), _pitch(camera["pitch_deg"])),
        value(_("picture"), wording.orientation(camera["orientation"]), camera["body"]),
    )


def _pitch(degrees: float) -> str:
    if not round(degrees):
        return _("level")
    return (_("tilted {degrees}° up") if degrees > 0 else _("tilted {degrees}° down")).format(
        degrees=f"{abs(degrees):.0f}"
    )


def shots(document: Entry, setup: Entry) -> tuple[content.ShotRow, ...]:
    """The shots of this set-up that somebody asked for. A pose that goes on from the shot before is not said again."""
    everybody = len(setup["sitters"])
    found: list[content.ShotRow] = []
    before: list[str] = []
    for shot in (s for s in document["shots"] if s["setup"] == setup["name"] and not s.get("proposed")):
        sentences = str(shot["cue"]).removesuffix(".").split(". ")
        found.append(
            content.ShotRow(
                number=shot["n"],
                who=wording.people(shot["who"], everybody),
                cue=_own_words(sentences, before),
                framing=wording.framing(shot["framing"]),
                frames=shot["frames"],
                must=shot["must"],
            )
        )
        before = sentences
    return tuple(found)


def _own_words(sentences: list[str], before: list[str]) -> str:
    """What a cue says beyond the pose of the shot before: the sentences both end with are left out."""
    same = 0
    while same < min(len(sentences), len(before)) and sentences[-1 - same] == before[-1 - same]:
        same += 1
    own = sentences[: len(sentences) - same]
    return f"{'. '.join(own)}." if own else _("Pose as before.")


def packing_sheet(
    parts: Sequence[tuple[Heading, Entry, Request | Entry]], url: str, *,
    is_full: bool = False, owned: Mapping[str, cases.Owned] | None = None, away: bool = False,
    measures: Measures = METRIC, spans: Sequence[counts.Span] = (),
) -> content.PackingSheet:  # fmt: skip
    """One packing list for the plans of a day's sittings, each with its heading; `url` is the list's own page. `owned`
    is what the house knows of its pieces today; `away`: they are not in the studio; `spans`: when each is in use."""
    first = parts[0][0]
    given = [(h.sitting, document, _full(request, is_full)) for h, document, request in parts]
    rows = counts.counted(pack.for_day(given), [(document, request) for _, document, request in given], spans)
    groups = cases.completed(rows, [request for _, _, request in given], owned or {}, away=away)
    return content.PackingSheet(
        studio=first.studio,
        date=first.date,
        printed_at=first.printed_at,
        url=url,
        sittings=tuple(
            content.PackedSitting(
                sitting=h.sitting,
                client=h.client,
                room=h.room,
                setup_at=h.setup_at,
                sitter_at=h.sitter_at,
                plan_version=h.plan_version,
            )
            for h, _, _ in parts
        ),
        groups=groups,
        cases=cases.by_case(groups),
        stands=cases.stands(given),
        away=away,
        measures=measures,
    )
