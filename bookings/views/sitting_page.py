"""One sitting's page. Belongs here: putting together what it says, and moving the sitting on. Not here: entering money
(`money`), the end of a hold (`holds`), changing time or people (`changes`)."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import accounts, afterwards, intake_links, rota_list, stages, wait_list
from bookings.access import may_add_notes, may_book, may_read_notes
from bookings.actions import money, sittings
from bookings.forms.clocks import LateForm, WaitForm
from bookings.forms.letters import AnswerForm
from bookings.forms.steps import DepositForm, HoldForm, PaymentForm, StepForm
from bookings.late import Late, late_options
from bookings.models import Intake, Sitting, Stage
from bookings.refusals import FeeNeedsNote, FeeToAgree, Refusal
from studio import clock
from studio.access import EVERY_ROLE, allow, member_of
from studio.models import Member, Role

STEPS = (Role.FRONT_DESK, Role.PHOTOGRAPHER, Role.OWNER)
MONEY = (Role.FRONT_DESK, Role.OWNER)


@allow(*EVERY_ROLE)
def sitting(request: HttpRequest, number: str) -> HttpResponse:
    return page(request, found(number))


@allow("front_desk", "photographer", "owner")
@require_POST
def change_stage(request: HttpRequest, number: str) -> HttpResponse:
    row, form = found(number), StepForm(request.POST)
    if not form.is_valid():
        wrong = _("Choose one of the steps.")
        if not {"to", "seen"} & form.errors.keys():
            wrong = " ".join(said for wrong_of in form.errors.values() for said in wrong_of)
        return page(request, row, status=422, step={"says": wrong} | form.values())
    try:
        row = sittings.change_stage(by=request.member, sitting=row, **form.cleaned_data)  # type: ignore[attr-defined]
    except Refusal as refusal:
        typed = form.values()
        if isinstance(refusal, FeeToAgree | FeeNeedsNote) and not typed["agreed_fee"]:
            typed["agreed_fee"] = f"{refusal.fee.normalize():f}"
        return page(request, found(number), status=422, step={"says": str(refusal)} | typed)
    messages.success(request, stages.sentence(row))
    return redirect("sitting", number)


def found(number: str) -> Sitting:
    return get_object_or_404(Sitting.objects.with_people(), number=number)


def page(
    request: HttpRequest,
    row: Sitting,
    *,
    step: dict[str, Any] | None = None,
    status: int = 200,
    **forms: Any,
) -> HttpResponse:
    """The page, with a refused `step` as it was sent and what it `says`, or with one of its other forms so."""
    member = member_of(request)
    assert member is not None  # `allow` saw to it
    now = clock.now()
    account = accounts.of(row)
    panels = [import_string(path)(request, row) for path in settings.SITTING_PANELS]
    after = afterwards.of(row)
    if after is not None:
        afterwards.keep(row, after)
    said = {
        "sitting": row,
        "after": after,
        "may_change_occasion": member.has_role(*MONEY),
        "may_wait": member.has_role(*STEPS),
        "waiting": WaitForm(after) if after is not None else None,
        "late_reason": LateForm(),
        "stage": stages.sentence(row),
        "sitters": (sitters := list(row.sitters.with_what_is_known())),
        "history": sorted(
            [*row.stage_changes.select_related("by"), *row.changes.select_related("by"), *afterwards.said(row)],
            key=lambda one: one.at,
        ),
        "may_change": may_book(member) and row.stage in stages.CHANGEABLE,
        "may_read_notes": may_read_notes(member, row),
        "may_add_notes": may_add_notes(member),
        "wait_list": _who_waits(row, member),
        "panels": [panel for panel in panels if panel],
        "account": account,
        "takes_turns": rota_list.takes_turns(row, len(sitters)),
        **_intake(row, member),
        **_money(row, member, account),
        **_letters(row, member),
    }
    if member.has_role(*STEPS):
        said |= _what_went_wrong(row)
    late = late_options(row, now)
    said |= _steps(row, member, account, late) | _refused(step or {}, late)
    return render(request, "bookings/sitting.html", said | forms, status=status)


def _refused(step: dict[str, Any], late: Late | None) -> dict[str, dict[str, Any]]:
    """A refused step for the form it was pressed in: a no-show has one of its own."""
    of_no_show = late is not None and late.is_no_show and step.get("to") == Stage.NO_SHOW
    return {"step": {}, "no_show": step} if of_no_show else {"step": step, "no_show": {}}


def _intake(row: Sitting, member: Member) -> dict[str, Any]:
    """What was asked before the sitting, and the link for those who may hand it on."""
    kept = Intake.objects.select_related("entered_by").filter(sitting=row).first()
    return {"intake_row": kept, "intake_link": intake_links.address(kept) if kept and may_add_notes(member) else ""}


def _letters(row: Sitting, member: Member) -> dict[str, Any]:
    """What was written to the client and what they answered, for those who keep letters."""
    if not member.has_role(*MONEY):
        return {"may_read_letters": False}
    return {
        "may_read_letters": True,
        "letters": row.letters.select_related("by"),
        "answers": row.answers.select_related("by"),
        "answer_form": AnswerForm() if may_book(member) else None,
    }


def _who_waits(row: Sitting, member: Member) -> list[tuple[wait_list.Match, str]] | None:
    """Who could take a time that came free, each with the address of booking it; None where it did not."""
    now, zone = clock.now(), timezone.get_current_timezone()
    if not may_book(member) or not wait_list.is_free(row, now):
        return None
    return [(one, one.booking(row, zone)) for one in wait_list.matches(row, now=now, zone=zone)]


def _what_went_wrong(row: Sitting) -> dict[str, Any]:
    """Complaints about it, and whether it was or is taken again."""
    return {
        "complaints": row.complaints.with_names(),
        "today": clock.today(),
        "reshoot": getattr(row, "reshoot", None),
        "taken_again": row.reshoots.select_related("sitting") if row.stage in afterwards.AFTER else (),
        "may_complain": True,
    }


def _money(row: Sitting, member: Member, account: accounts.Account) -> dict[str, Any]:
    """What is said of its deposit, and the forms for those who take money."""
    return {
        "may_take_money": member.has_role(*MONEY),
        "payment": PaymentForm(account),
        "deposit_answer": _answer(row, member, account),
        "deposit": accounts.deposit_of(account, clock.today()),
    }


def _answer(row: Sitting, member: Member, account: accounts.Account) -> DepositForm | None:
    """What can be said about a deposit that is still missing though the sitting is firm."""
    if not member.has_role(*MONEY) or not money.is_waited_for(row, account):
        return None
    return DepositForm(row.version, may_waive=member.has_role(Role.OWNER))


def _steps(row: Sitting, member: Member, account: accounts.Account, late: Late | None) -> dict[str, Any]:
    """What may be done with it now, and what that costs."""
    if not member.has_role(*STEPS):
        return {"moves": []}
    follows = [stage for stage in stages.FOLLOWS[row.stage] if stage != Stage.NO_SHOW]  # offered where one is late
    now = clock.now()
    hold = getattr(row, "hold", None) if row.stage == Stage.HELD else None
    waits = hold is not None and hold.waits
    missing = account.deposit_missing if row.stage == Stage.HELD and not waits else None
    return {
        "moves": [
            {"to": stage.value, "label": stage.label, "needs_note": stages.needs_a_note(row.stage, stage)}
            for stage in follows
            if not (waits and stage == Stage.CONFIRMED)
        ],
        "late": late,
        "hold": HoldForm(hold) if hold is not None and may_book(member) else None,
        "cancel_fee": accounts.fee_to_cancel(row, now) if Stage.CANCELLED in follows else None,
        "move_fee": accounts.fee_to_move(row, now),
        "deposit_missing": missing,
        "may_waive": member.has_role(Role.OWNER),
    }
