"""From rows to the sheets: heading, alerts and address of a plan, and its sheets as content and as PDF.

Belongs here: what only the database knows of a sheet. Not here: layout or words (`sheets`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from typing import NamedTuple

from django.conf import settings
from django.urls import reverse
from django.utils import formats, timezone

from bookings import permissions
from bookings.models import Sitting
from bookings.permissions import ADULT_YEARS
from shotplans import snapshot
from shotplans.models import Plan
from shotplans.planner.people import OLDER_YEARS
from shotplans.sheets import cases, compose, measures, meter_round, packing_sheet, setup_sheet, shot_list
from shotplans.sheets.content import Flags, Heading, PackingSheet, SetupSheet
from shotplans.sheets.meter_round import MeterCard
from studio import clock
from studio.models import KitItem, Profile
from studio.paper.page import PAPERS, Paper


class _Noted(NamedTuple):
    """What of one person's notes a sheet must heed."""

    label: str
    age_years: float | None
    no_flash: bool
    hip_or_back: bool
    glasses: bool


def heading(plan: Plan, printed_at: datetime, profile: Profile) -> Heading:
    """Whose sitting it is and when, in the studio's own time."""
    sitting = plan.sitting
    return Heading(
        studio=profile.studio_name,
        sitting=sitting.number,
        client=sitting.client.short_name,
        date=day_words(timezone.localdate(sitting.starts_at)),
        room=sitting.room.name,
        setup_at=clock_words(sitting.setup_starts_at),
        sitter_at=clock_words(sitting.starts_at),
        finish_at=clock_words(sitting.ends_at),
        photographer=sitting.photographer.name,
        assistant=sitting.assistant.name if sitting.assistant else "",
        plan_version=plan.number,
        printed_at=moment_words(printed_at),
        url=settings.TENTHSTOP_URL + reverse("sheet_code", args=[sitting.number, plan.number]),
    )


def day_words(day: date) -> str:
    return formats.date_format(day, "D j M Y")


def moment_words(moment: datetime) -> str:
    return formats.date_format(timezone.localtime(moment), "j M Y, H:i")


def clock_words(moment: datetime) -> str:
    return f"{timezone.localtime(moment):%H:%M}"


def flags(plan: Plan, today: snapshot.Asked | None = snapshot.ASK) -> Flags:
    """What the set must heed, as consequences: who is concerned stays on the plan, the sheet says what to do.

    Both today's notes and those the plan was made from are heeded, since somebody may have been renamed or noted
    since: an alert that is due never goes missing from a sheet.
    """
    no_flash, arms, glasses, guardian = set[str](), set[str](), set[str](), False
    on_plan = {str(sitter["label"]) for sitter in plan.request["sitters"]}
    for one in (*_planned(plan), *_today(plan.sitting)):
        concerned = {one.label} if one.label in on_plan else on_plan  # a new name may be of anybody on the plan
        no_flash |= concerned if one.no_flash else set()
        arms |= concerned if one.hip_or_back or (one.age_years or 0) >= OLDER_YEARS else set()
        glasses |= concerned if one.glasses else set()
        guardian |= one.age_years is not None and one.age_years < ADULT_YEARS
    allowed = permissions.of_sitting(plan.sitting)
    return Flags(
        no_flash=frozenset(no_flash), chair_with_arms=frozenset(arms), glasses=frozenset(glasses),
        release_not_signed=permissions.not_signed(allowed), see_desk=any(one.refused for one in allowed),
        guardian_in_room=guardian, out_of_date=plan.superseded_at is not None or snapshot.is_stale(plan, today),
    )  # fmt: skip


def _planned(plan: Plan) -> Iterator[_Noted]:
    for sitter in plan.request["sitters"]:
        yield _Noted(
            str(sitter["label"]), sitter.get("age_years"), bool(sitter.get("no_flash")),
            bool(sitter.get("hip_or_back")), bool(sitter.get("glasses")),
        )  # fmt: skip


def _today(sitting: Sitting) -> Iterator[_Noted]:
    rows = sitting.sitters.all() if permissions.has_people(sitting) else sitting.sitters.select_related("notes")
    for sitter in rows:
        notes = getattr(sitter, "notes", None)
        said = (notes.no_flash, notes.hip_or_back, notes.glasses_lens) if notes else (False, False, False)
        yield _Noted(sitter.label, sitter.age_years, *map(bool, said))


def sheets(
    plan: Plan, profile: Profile, printed_at: datetime | None = None, *, today: snapshot.Asked | None = snapshot.ASK
) -> tuple[SetupSheet, ...]:
    """The content of every setup sheet of a plan; `today` is `snapshot.today_of` the plan, where it was asked."""
    head = heading(plan, printed_at or clock.now(), profile)
    return compose.setup_sheets(
        plan.document, plan.filled_request, head, flags(plan, today), is_full=True,
        ratio_convention=profile.ratio_convention, measures=measures.of(profile.units),
    )  # fmt: skip


def setup_pdfs(plan: Plan, profile: Profile) -> list[bytes]:
    """Each set-up's sheet as a PDF, in the order to shoot."""
    return [setup_sheet.render(sheet, size_of(profile)) for sheet in sheets(plan, profile)]


def meter_cards(plan: Plan, profile: Profile, printed_at: datetime | None = None) -> tuple[MeterCard, ...]:
    """The content of every meter card of a plan."""
    return meter_round.cards(plan.document, heading(plan, printed_at or clock.now(), profile))


def packing_list(
    plans: Sequence[Plan], profile: Profile, printed_at: datetime | None = None,
    pieces: Mapping[str, KitItem] | None = None,
) -> PackingSheet:  # fmt: skip
    """The content of one packing list for the plans of a day, or of one sitting; `pieces`: of these plans and maybe
    others, where they were read already."""
    now = printed_at or clock.now()
    parts = [(heading(p, now, profile), p.document, p.filled_request) for p in plans]
    known = pieces_of(plans) if pieces is None else pieces
    return compose.packing_sheet(
        parts, settings.TENTHSTOP_URL + reverse("packing"), is_full=True,
        owned={code: cases.Owned(piece.label, piece.mass_kg, piece.case) for code, piece in known.items()},
        away=any(p.sitting.room.away for p in plans),
        measures=measures.of(profile.units),
        spans=[(p.sitting.setup_starts_at, p.sitting.strike_ends_at) for p in plans],
    )  # fmt: skip


def pieces_of(plans: Sequence[Plan]) -> dict[str, KitItem]:
    """The house's own pieces of today, by code, of all that may stand on the packing lists of these plans: what they
    use, what could be a spare of it, and what a place away from the studio asks for."""
    codes = {row["item"] for plan in plans for row in plan.document["packing"]} | {item for item, _n in cases.AWAY}
    spares = ("adapters", "heads", "triggers", "cameras")
    codes |= {p["id"] for plan in plans for section in spares for p in plan.request["kit"].get(section) or ()}
    return {piece.code: piece for piece in KitItem.objects.filter(code__in=codes)}


def packing_pdf(plans: Sequence[Plan], profile: Profile) -> bytes:
    return packing_sheet.render(packing_list(plans, profile), size_of(profile))


def shot_list_pdf(plan: Plan, profile: Profile) -> bytes:
    """The shot list of a plan, with the change-overs between its set-ups."""
    listed = shot_list.compose(
        plan.document, plan.filled_request, heading(plan, clock.now(), profile),
        timezone.localtime(plan.sitting.starts_at), measures.of(profile.units),
    )  # fmt: skip
    return shot_list.render(listed, size_of(profile))


def size_of(profile: Profile) -> Paper:
    return PAPERS[profile.paper]
