"""The shot list: set by the photographer, ticked on set, printed; and the pose cards."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.models import Sitting
from bookings.refusals import Refusal
from shotplans import paper, shot_page
from shotplans.actions import plans
from shotplans.actions import shots as actions
from shotplans.forms.shots import PoseCardForm, ShotListForm
from shotplans.models import OwnPoseCard, Plan, PoseCardEdit, ShotList
from shotplans.planner.pose_cards import HOUSE, KINDS, PARTS, as_said
from shotplans.planner.words.poses import NAMES
from shotplans.views.sittings import plan_or_404, sitting_or_404
from studio import entries, on_set, sending
from studio.access import allow
from studio.models.versions import Stale
from studio.sent import whole

STEPS = {"up": -1, "down": 1}


@allow("photographer")
def shot_list(request: HttpRequest, number: str) -> HttpResponse:
    """Propose, prune, add, mark, reorder; kept as the photographer's own, or back to what is suggested."""
    sitting = sitting_or_404(number)
    plan = Plan.objects.of(sitting).current().first()
    own = ShotList.objects.filter(sitting=sitting).first()
    people = [(str(s.pk), s.label) for s in sitting.sitters.all()]
    setups = [s["name"] for s in plan.setups] if plan else []
    seen, status = own.version if own else 0, 200
    if request.method == "POST":
        form = ShotListForm(people, setups, request.POST)
        seen = whole(request.POST.get("seen", ""), digits=9) or 0
        answer = _done(request, sitting, form, seen)
        if isinstance(answer, HttpResponse):
            return answer
        seen, status = answer
    else:
        form = ShotListForm(people, setups, first=shot_page.rows(sitting, plan))
    moved = "move" in request.POST or request.POST.get("in_order") == "on"
    context = {"sitting": sitting, "plan": plan, "own": own, "form": form, "seen": seen,
               "history": shot_page.history(sitting),
               "in_order": moved if request.method == "POST" else bool(own and own.in_order)}  # fmt: skip
    return render(request, "shotplans/shot_list.html", context, status=status)


def _done(
    request: HttpRequest, sitting: Sitting, form: ShotListForm, seen: int
) -> HttpResponse | tuple[int, int]:
    """What a press did: a page to go to, or the version and status the same page is shown with."""
    step, _colon, row = request.POST.get("move", "").partition(":")
    at = whole(row, digits=3)
    if step in STEPS and at is not None:
        form.move(at, STEPS[step])
        return seen, 200
    if "add" in request.POST:
        form.add()
        return seen, 200
    back = "suggest" in request.POST
    if not back and not form.is_valid():
        return seen, 422
    rows = [] if back else form.kept()
    try:
        actions.keep_list(
            by=request.member, sitting=sitting, rows=rows, seen=seen,  # type: ignore[attr-defined]
            in_order=not back and request.POST.get("in_order") == "on",
        )  # fmt: skip
    except Stale as error:
        messages.error(request, _("%(what)s Your list is still here: compare and save again.") % {"what": error})
        return (error.current.version if error.current else 0), 422  # type: ignore[attr-defined]
    if "plan" not in request.POST:
        messages.success(request, _("Saved. Make a new version of the plan to shoot by it."))
        return redirect("shot_list", number=sitting.number)
    try:
        made = plans.make_plan(by=request.member, sitting=sitting, why=_("shot list"))  # type: ignore[attr-defined]
    except (plans.Refused, Refusal) as error:
        messages.warning(request, _("Your list is saved; no plan was made of it. %(why)s") % {"why": error})
        return redirect("shot_list", number=sitting.number)
    return redirect("plan", number=sitting.number, version=made.number)


@allow("assistant", "photographer")
def on_set_list(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """The list on set, large: what comes next, with its card, and a tick for each picture."""
    plan = plan_or_404(sitting_or_404(number), version)
    listed = shot_page.taken(plan)
    following = next((one for one in listed if not one.is_taken), None)
    context = {"plan": plan, "sitting": plan.sitting, "listed": listed, "following": following}
    return on_set.render(request, "shotplans/shots_on_set.html", context)


@allow("assistant", "photographer")
@require_POST
@entries.once
def tick_shot(request: HttpRequest, number: str, version: int) -> HttpResponse:
    plan, key = plan_or_404(sitting_or_404(number), version), request.POST.get("key", "")
    try:
        actions.tick(by=request.member, plan=plan, key=key, done=request.POST.get("done") != "no")  # type: ignore[attr-defined]
    except Refusal as refusal:
        messages.error(request, str(refusal))
    return redirect("shots_on_set", number=number, version=version)


@allow("assistant", "photographer")
def shots_pdf(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """The shot list to print, with the change-overs in walks."""
    plan = plan_or_404(sitting_or_404(number), version)
    return sending.pdf(paper.shot_list_pdf(plan, request.profile), f"{number}-plan-{version}-shots.pdf")  # type: ignore[attr-defined]


@allow("owner", "photographer")
def pose_cards(request: HttpRequest) -> HttpResponse:
    """The house's cards with the studio's own beside them."""
    own = {card.kind: card for card in OwnPoseCard.objects.all()}
    cards = [(kind, _(NAMES[kind]), as_said(HOUSE[kind]), own.get(kind)) for kind in KINDS]
    return render(request, "shotplans/pose_cards.html", {"cards": cards})


@allow("owner", "photographer")
def pose_card(request: HttpRequest, kind: str) -> HttpResponse:
    """One card of the studio's own: written over the house's, or put out of use; with its history."""
    if kind not in HOUSE:
        raise Http404
    card = OwnPoseCard.objects.filter(kind=kind).first() or OwnPoseCard(kind=kind)
    before = card.lines | {"in_use": card.in_use} if card.pk else {}
    house = as_said(HOUSE[kind])
    first = None if card.pk else {part: getattr(house, part) for part in (*PARTS, "name")}
    form = PoseCardForm(request.POST or None, instance=card, initial=first, by=request.member, before=before)  # type: ignore[attr-defined]
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("Saved. Plans made from now on carry it."))
        return redirect("pose_card", kind)
    history = PoseCardEdit.objects.filter(kind=kind).select_related("by")
    context = {"form": form, "kind": kind, "name": _(NAMES[kind]), "house": house, "history": history}
    return render(request, "shotplans/pose_card.html", context, status=422 if form.is_bound else 200)
