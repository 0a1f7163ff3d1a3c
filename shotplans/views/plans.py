"""The plan on screen and on paper."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse

from bookings import keeping
from bookings.access import may_read_notes
from bookings.models import NoteReading
from shotplans import again, clashes, corrections, live_page, news, paper, plan_page, seen, snapshot
from shotplans.forms.what_if import WhatIfForm
from shotplans.models import Plan
from shotplans.planner.kit import MOST_CORRECTION_STOPS
from shotplans.sheets import measures, meter_card, setup_sheet, wording
from shotplans.views.sittings import plan_or_404, sitting_or_404
from studio import clock, on_set, sending
from studio.access import allow, on_screen, role_of


@allow("photographer", "assistant")
def plan(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """One version of the plan: the drawn set, the lights, what to expect and why."""
    found = plan_or_404(sitting_or_404(number, people=True), version)
    profile = on_screen(request)
    may_plan = role_of(request) == "photographer"
    may_read = not on_set.is_ahead(request) and may_read_notes(request.member, found.sitting)  # type: ignore[attr-defined]
    if may_read:
        keeping.log(request.member, found.sitting, NoteReading.Where.PLAN)  # type: ignore[attr-defined]
    asked = snapshot.today_of(found) if found.superseded_at is None else None  # nobody builds from a former one
    sheets = paper.sheets(found, profile, today=asked)
    to_come = clock.now() < found.sitting.strike_ends_at  # else nobody builds it any more
    out_of_date = any(wording.ALERTS[-1] in one.alerts for one in sheets)  # asked once, for paper and page alike
    may_move = may_plan and found.superseded_at is None and found.blanked_at is None
    live = live_page.moving(found, profile) if may_move else {}
    current = found if found.superseded_at is None else Plan.objects.of(found.sitting).current().first()
    in_the_way, without = clashes.beside(found)
    context = {
        "imperial": profile.units == "imperial", "live": live,
        "plan": found, "sitting": found.sitting, "stale": found.superseded_at is None and out_of_date,
        "current": current, "may_plan": may_plan, "may_read": may_read,
        "in_the_way": clashes.by_plan(in_the_way), "one": True, "without": without,
        "came_in": news.since(found, asked.filled) if asked and out_of_date else [],
        "otherwise": news.beside_former(found) if found.superseded_at is None else [],
        "what_if": WhatIfForm(document=found.document, units=profile.units) if may_plan else None,
        "pages": plan_page.pages(found, sheets, profile.ratio_convention, may_read_notes=may_read,
                                 measures=measures.of(profile.units), live=live),
        "seen": seen.of(found, measures.of(profile.units)) if may_plan else [],
        "beside_last": again.beside_last(found, profile.units),
        "corrected": corrections.used_in(found, today=found.superseded_at is None and to_come),
        "most": MOST_CORRECTION_STOPS,
        "follows": plan_page.follows(found, may_read_notes=may_read), "retouching": plan_page.retouching(found),
    }  # fmt: skip
    until = found.sitting.strike_ends_at if may_read else None
    return on_set.render(request, "shotplans/plan.html", context, until=until)


@allow("photographer", "assistant")
def sheet(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """The setup sheet of one set-up, to print."""
    found = plan_or_404(sitting_or_404(number, people=True), version)
    profile = request.profile  # type: ignore[attr-defined]
    made = paper.sheets(found, profile)
    if not 1 <= setup <= len(made):
        raise Http404
    body = setup_sheet.render(made[setup - 1], paper.size_of(profile))
    return sending.pdf(body, f"{number}-plan-{version}-setup-{setup}.pdf")


@allow("photographer", "assistant")
def meter(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """The meter card of one set-up, to print."""
    found = plan_or_404(sitting_or_404(number), version)
    profile = request.profile  # type: ignore[attr-defined]
    card = next((one for one in paper.meter_cards(found, profile) if one.number == setup), None)
    if card is None:
        raise Http404
    return sending.pdf(meter_card.render(card, paper.size_of(profile)), f"{number}-plan-{version}-meter-{setup}.pdf")


@allow("photographer", "assistant")
def packing(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """The packing list of one plan, to print."""
    found = plan_or_404(sitting_or_404(number), version)
    return sending.pdf(paper.packing_pdf([found], request.profile), f"{number}-plan-{version}-packing.pdf")  # type: ignore[attr-defined]
